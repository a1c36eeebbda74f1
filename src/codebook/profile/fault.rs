//! The text of a profile, and what is wrong with it: line, column, what, remedy.

use super::Profile;
use crate::codebook::CodebookError;
use crate::codebook::choose::choose;
use ron::extensions::Extensions;

/// Where every key is explained.
const SEE: &str = "every key is explained in the profile us-ifgc";

impl Profile {
    /// Reads a profile. `file` is the name by which errors call the text.
    ///
    /// # Errors
    /// When the text is no profile: with line, column, what is wrong and what to do.
    pub fn read(file: &str, text: &str) -> Result<Profile, CodebookError> {
        let options = ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME);
        let fault = |line, column, (what, remedy): (String, String)| CodebookError {
            file: file.to_owned(),
            line,
            column,
            what,
            remedy,
        };
        let profile: Profile = options
            .from_str(text)
            .map_err(|error| fault(error.span.start.line, error.span.start.col, explain(error.code)))?;
        match profile.name.trim().is_empty() {
            true => Err(fault(
                1,
                1,
                (
                    "the profile has no name".into(),
                    "give it one, by which jobs can ask for it".into(),
                ),
            )),
            false => Ok(profile),
        }
    }
}

/// Line and column of a word in a text, from 1; the start where it does not stand there.
pub(in crate::codebook) fn place_of(text: &str, word: &str) -> (usize, usize) {
    let before = &text[..text.find(word).unwrap_or(0)];
    let line = before.rfind('\n').map_or(before, |end| &before[end + 1..]);
    (before.matches('\n').count() + 1, line.chars().count() + 1)
}

/// What is wrong, and what to do.
fn explain(error: ron::Error) -> (String, String) {
    use ron::Error::*;
    match error {
        NoSuchStructField { expected, found, .. } => {
            (format!("there is no key `{found}` here"), choose(&found, expected))
        }
        NoSuchEnumVariant { expected, found, .. } => {
            (format!("`{found}` has no meaning here"), choose(&found, expected))
        }
        MissingStructField { field, .. } => (format!("the key `{field}` is missing"), format!("add it; {SEE}")),
        DuplicateStructField { field, .. } => (format!("the key `{field}` is given twice"), "remove one".into()),
        ExpectedString => (
            "text is needed here".into(),
            "write it in quotes, a quantity with its unit, like \"12 in\"".into(),
        ),
        ExpectedIdentifier => (
            "a word is needed here".into(),
            "a figure carries the letter of its mark, like L(\"5 psi\"); other words are written without quotes".into(),
        ),
        ExpectedNamedStructLike(_) | ExpectedStructLike => (
            "a group of keys is needed here".into(),
            format!("write it in round brackets; {SEE}"),
        ),
        Eof => (
            "the text ends too soon".into(),
            "close every bracket and every quote that was opened".into(),
        ),
        ExceededRecursionLimit => (
            "brackets are nested too deep".into(),
            format!("no profile needs more than four; {SEE}"),
        ),
        Message(message) => match message.rsplit_once("; ") {
            Some((what, remedy)) => (what.to_owned(), remedy.to_owned()),
            None => (message, SEE.to_owned()),
        },
        other => (lowered(&other.to_string()), SEE.to_owned()),
    }
}

/// A sentence as a clause.
fn lowered(sentence: &str) -> String {
    let mut letters = sentence.chars();
    letters
        .next()
        .map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    const WHOLE: &str = include_str!("../../../assets/profiles/us-ifgc.ron");

    /// Puts `wrong` in place of `right` in a whole profile, and holds what is said and on which line.
    #[track_caller]
    fn check(right: &str, wrong: &str, expected: &str) {
        let place = WHOLE.find(right).unwrap();
        let text = WHOLE.replacen(right, wrong, 1);
        let fault = Profile::read("mine.ron", &text).unwrap_err();
        assert_eq!(format!("{}; {}", fault.what, fault.remedy), expected);
        let line = |end: usize| WHOLE[..end].matches('\n').count() + 1;
        let lines = match fault.what.contains("missing") || fault.what.contains("no name") {
            true => 1..=line(WHOLE.len()),
            false => line(place)..=line(place + right.trim_end().len()),
        };
        assert!(lines.contains(&fault.line), "line {} for {wrong:?}", fault.line);
    }

    #[test]
    fn the_place_of_a_fault_is_the_one_that_an_editor_shows() {
        let text = "// mine\n(\n    name: \"a\",\n    titel: \"b\",\n)\n";
        let fault = Profile::read("mine.ron", text).unwrap_err();
        assert_eq!(
            fault.to_string(),
            "mine.ron, line 4, column 5: there is no key `titel` here; did you mean `title`?"
        );
    }

    #[test]
    fn a_fault_says_where_what_and_what_to_do() {
        check(
            "    method: Branch",
            "    methode: Branch",
            "there is no key `methode` here; did you mean `method`?",
        );
        check(
            "BranchLength,\n",
            "BranchLenght,\n",
            "`BranchLenght` has no meaning here; did you mean `BranchLength`?",
        );
        check(
            "BranchLength,\n",
            "Guess,\n",
            "`Guess` has no meaning here; write one of: LongestLength, BranchLength",
        );
        check(
            "F(\"5 psi\")",
            "F(\"5 stones\")",
            "`5 stones` is not a gauge pressure: the unit `stones` is not known here; write it like 7 in w.c., 2 psi, 17.4 mbar or 1.7 kPa",
        );
        check(
            "F(\"5 psi\")",
            "F(5)",
            r#"text is needed here; write it in quotes, a quantity with its unit, like "12 in""#,
        );
        check(
            "F(\"5 psi\")",
            "\"5 psi\"",
            r#"a word is needed here; a figure carries the letter of its mark, like L("5 psi"); other words are written without quotes"#,
        );
        check(
            "usual: F(\"12 in\")",
            "usual: F(\"-12 in\")",
            "`-12 in` is less than zero; leave the minus out",
        );
        check(
            "multiple: F(1.5)",
            "multiple: F(0.5)",
            "the factor 0.5 would reduce; write a factor of 1 or more",
        );
        check(
            "multiple: F(1.5)",
            "multiple: F(NaN)",
            "NaN is not a figure for a profile; write a number that is zero or more",
        );
        check(
            "fittings: SectionHas(4)",
            "fittings: Factor(0.2)",
            "the factor 0.2 would reduce; write a factor of 1 or more",
        );
        check(
            "[Steel40,",
            "[Steel40 ",
            "expected comma; every key is explained in the profile us-ifgc",
        );
        check(
            "[Steel40,",
            "[Steel80,",
            "`Steel80` has no meaning here; did you mean `Steel40`?",
        );
        check(
            "    equations: Never,\n",
            "",
            "the key `equations` is missing; add it; every key is explained in the profile us-ifgc",
        );
        check(
            "    rules: {},\n",
            "    rules: {}, rules: {},\n",
            "the key `rules` is given twice; remove one",
        );
        check(
            "    rules: {},\n",
            "    rules: {\"a\": Of},\n",
            "`Of` has no meaning here; did you mean `Off`?",
        );
        check(
            "name: \"us-ifgc\"",
            "name: \"\"",
            "the profile has no name; give it one, by which jobs can ask for it",
        );
        check(
            "    notes: [",
            "    notes: [[[",
            r#"text is needed here; write it in quotes, a quantity with its unit, like "12 in""#,
        );
    }

    #[test]
    fn whatever_is_cut_off_is_one_error() {
        for end in (0..WHOLE.len()).step_by(97).filter(|end| WHOLE.is_char_boundary(*end)) {
            assert!(Profile::read("cut.ron", &WHOLE[..end]).is_err(), "{end}");
        }
        let deep = "(".repeat(100_000);
        assert!(Profile::read("deep.ron", &deep).is_err());
        let deep = format!("(rules: {}", "{".repeat(100_000));
        assert!(Profile::read("deep.ron", &deep).is_err());
    }
}
