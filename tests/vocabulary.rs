//! One vocabulary: words that people read are those of the trade, spelled as in the United States, and one thing has one
//! word. Read are the texts in the sources (not those of tests, keys and ids), the help of the commands, README and the
//! assets. The words that are not used, what is said in their place and why stand in the table below.

use std::fs;
use std::path::{Path, PathBuf};
use syn::visit::{self, Visit};

/// A word that is not used: what is looked for (whole words, whatever their capitals; `*` is any ending), what is said
/// instead, and why.
struct Barred {
    words: &'static str,
    instead: &'static str,
    why: &'static str,
}

const fn barred(words: &'static str, instead: &'static str, why: &'static str) -> Barred {
    Barred { words, instead, why }
}

const FIELD: &str = "one thing has one word in window, sheet, command, file and JSON";
const TRADE: &str = "the trade and the codes say it so";
const PLAIN: &str = "nobody in the trade speaks so";
const SPELLING: &str =
    "the default profile is the United States'; other profiles keep their units, not another spelling";

const BARRED: [Barred; 99] = [
    barred("mend|mended|mending", "fix, correct; Fixes", TRADE),
    barred("to spare", "Spare capacity; margin", FIELD),
    barred(
        "blocking",
        "must fix",
        "severities are must fix, check and note, from one table",
    ),
    barred(
        "too small is|it is good for",
        "Section 1 is undersized: demand, capacity",
        PLAIN,
    ),
    barred(
        "fails by|failed before|by its work",
        "over capacity after this work",
        "in this trade a line that holds has passed its pressure test",
    ),
    barred(
        "order of work",
        "Work steps",
        "beside a take-off an order is a purchase",
    ),
    barred("permit list", "Permit checklist", FIELD),
    barred("take off the|take it off", "Remove device", "a take-off is a list"),
    barred("stick|sticks", "length; Cutting plan", TRADE),
    barred("off-cut|off-cuts", "drop", TRADE),
    barred(
        "hand over|handed over|hands over|hand them over",
        "Export; exported",
        FIELD,
    ),
    barred("lying|upright", "Landscape, Portrait; vertical", TRADE),
    barred("print size", "Actual size", FIELD),
    barred(
        "what is chosen|chosen part|choose all|choose nothing|is chosen",
        "Select; the selection",
        FIELD,
    ),
    barred(
        "outside wall|inside wall|wall between rooms",
        "Exterior wall, Interior wall",
        FIELD,
    ),
    barred("ground line", "Grade", FIELD),
    barred("passage|passages", "penetration", FIELD),
    barred("lies|lie", "Location; is", FIELD),
    barred("to be seen", "exposed indoors", TRADE),
    barred("in place of", "Replaces", FIELD),
    barred("use again|used again", "Salvage for reuse", FIELD),
    barred(
        "least inlet|least pressure|least inlet pressure|greatest",
        "Minimum, maximum inlet pressure",
        "rating plates say it so",
    ),
    barred(
        "least size|least cover|least margin",
        "Min. size, minimum cover, lowest margin",
        FIELD,
    ),
    barred(
        "at any time|only while heating|only while cooling",
        "Operates: year-round, heating season, cooling season",
        FIELD,
    ),
    barred(
        "left for an input|stands clear",
        "Future input; Stub-out projection",
        FIELD,
    ),
    barred("nipple below the tee", "Drip-leg length", FIELD),
    barred("design length", "Sizing length", FIELD),
    barred("as the profile", "per profile", FIELD),
    barred("allowed drop", "Allowable pressure drop", FIELD),
    barred("not said|nobody said|nobody typed|nobody has", "not entered", FIELD),
    barred("one step is|step of the lattice", "Grid spacing", FIELD),
    barred("lattice|lattices", "grid", "the program's inside is not for paper"),
    barred("heights from|height of", "Elevations measured from; elevation", FIELD),
    barred("firm", "Contractor", FIELD),
    barred("parcel of", "Parcel (APN)", FIELD),
    barred("helper plane|helper planes|skew", "offset plane; offset", FIELD),
    barred(
        "take it up|throw it away|worked on last",
        "Recover, Discard, Ask again later; Recent jobs",
        FIELD,
    ),
    barred("not done:", "Can't …: reason. Remedy.", PLAIN),
    barred("of before", "Updating…", PLAIN),
    barred("stands|stand", "is, are", PLAIN),
    barred("hangs|hang", "is on, is connected to", PLAIN),
    barred("standing line|standing pipe", "existing line, existing pipe", TRADE),
    barred("branching|branchings", "tee", TRADE),
    barred("to come", "future", TRADE),
    barred("aloud|for ever", "say so plainly", PLAIN),
    barred(
        "less than nothing|longer than nothing|above nothing|greater than nothing",
        "zero or more, above zero",
        PLAIN,
    ),
    barred("parted|parts it|part it", "isolate, separate, split", TRADE),
    barred("lead its|lead the|lead it", "run, take", TRADE),
    barred("an own|no own|the own", "your own table", PLAIN),
    barred("nobody|is none of them", "not entered; not enough", PLAIN),
    barred(
        "psi at the inlet|in w c at the inlet|mbar at the inlet",
        "inlet, drop",
        TRADE,
    ),
    barred("hand in", "submit", TRADE),
    barred(
        "not less than the load|not shorter than",
        "has capacity for the load; covers",
        PLAIN,
    ),
    barred(
        "beside the code|beside the code's",
        "in addition to the code's method",
        PLAIN,
    ),
    barred("unlike metals", "dissimilar metals", TRADE),
    barred("passes gas|the valve passes", "leaks through", TRADE),
    barred("second wrench", "backup wrench", TRADE),
    barred("kept off|keep off", "left off", PLAIN),
    barred("of it is used", "used", PLAIN),
    barred("did not exist", "new", PLAIN),
    barred(
        "own clause not read|text and order",
        "none of the code was read; named, not read",
        "what was not read has no mark, and says by whom it is asked",
    ),
    barred("how better", "What would help?", PLAIN),
    barred("half way", "halfway", SPELLING),
    barred("centre|centres|centred", "center", SPELLING),
    barred("licence|licences|licenced", "license", SPELLING),
    barred("colour|colours|coloured", "color", SPELLING),
    barred("grey", "gray", SPELLING),
    barred("draught|draughts", "draft", SPELLING),
    barred(
        "metre|metres|millimetre|millimetres|centimetre|centimetres|kilometre|kilometres",
        "meter",
        SPELLING,
    ),
    barred("litre|litres", "liter", SPELLING),
    barred("catalogue|catalogues", "catalog", SPELLING),
    barred("neighbour|neighbours|neighbouring", "neighbor", SPELLING),
    barred("behaviour", "behavior", SPELLING),
    barred("vapour", "vapor", SPELLING),
    barred("odour", "odor", SPELLING),
    barred("labelled|labelling", "labeled", SPELLING),
    barred("towards|afterwards", "toward, afterward", SPELLING),
    barred("fibre", "fiber", SPELLING),
    barred("aluminium", "aluminum", SPELLING),
    barred("organise*|recognise*|minimise*|maximise*|realise*", "-ize", SPELLING),
    barred("programme", "program", SPELLING),
    barred("mould", "mold", SPELLING),
    barred("ton of gas", "lb, kg", SPELLING),
    barred("judgement", "judgment", SPELLING),
    barred("whilst|amongst", "while, among", SPELLING),
    barred("tyre|kerb", "tire, curb", SPELLING),
    barred("defence|offence", "defense, offense", SPELLING),
    barred("learnt|burnt|spelt", "learned, burned, spelled", SPELLING),
    barred("implied by the drawing", "Counted from the drawing", PLAIN),
    barred("found by the program", "to be sized; not entered", FIELD),
    barred("closes a ring", "closes a loop", FIELD),
    barred("maker|makers|maker's|makers'", "manufacturer, manufacturer's", TRADE),
    barred(
        "close the existing line|closes the existing line|closes the line|closed last",
        "make the line up again",
        "who closes a line shuts a valve",
    ),
    barred("blinded|blinds|blanked", "capped, plugged", TRADE),
    barred("one-family", "single-family", TRADE),
    barred(
        "at a smell of gas|a person watching is not",
        "If anyone smells gas",
        PLAIN,
    ),
    barred(
        "line of its own|least to buy and do",
        "new line from the meter; least pipe and work",
        PLAIN,
    ),
    barred(
        "as the code has it|hold it against|code was not at hand",
        "by your edition of the code; check it against; this program does not hold",
        PLAIN,
    ),
    barred("nothing to fix", "No must-fix findings", "it reads as all clear"),
];

/// Where other words are meant to be: what a person may type, what older files say, and what other countries say.
const ELSEWHERE: [&str; 3] = ["src/units/parse", "src/file/v1", "src/codebook/terms.rs"];

/// Ids and keys that are never changed, as other files and people's own words go by them.
const IDS: [&str; 3] = ["licence", "stick", "maker"];

/// Whether a text is a key, an id, a path or a number format: no word that is read.
fn is_key(text: &str) -> bool {
    let plain = |letter: char| letter.is_ascii_lowercase() || letter.is_ascii_digit() || "_-./:".contains(letter);
    let is_joined = text.chars().any(|letter| "_-./:".contains(letter));
    IDS.contains(&text) || (text.chars().all(plain) && is_joined)
}

/// A format's text without the names in its holes.
fn without_holes(text: &str) -> String {
    let mut depth = 0;
    let outside = |letter: &char| {
        match letter {
            '{' => depth += 1,
            '}' => depth -= 1,
            _ => {}
        }
        depth == 0
    };
    text.chars().filter(outside).collect()
}

/// The first barred words in a text.
fn first_barred(text: &str) -> Option<&'static Barred> {
    let text = without_holes(text);
    let words: Vec<String> = text
        .split(|letter: char| !(letter.is_alphanumeric() || "-'_".contains(letter)))
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect();
    let fits = |wanted: &str, word: &str| match wanted.strip_suffix('*') {
        Some(start) => word.starts_with(start),
        None => wanted.trim_end_matches(':') == word,
    };
    BARRED.iter().find(|barred| {
        barred.words.split('|').any(|phrase| {
            let phrase: Vec<&str> = phrase.split(' ').collect();
            let found = words
                .windows(phrase.len())
                .any(|words| phrase.iter().zip(words).all(|(wanted, word)| fits(wanted, word)));
            found && (!phrase.concat().ends_with(':') || text.to_lowercase().contains(&phrase.join(" ")))
        })
    })
}

/// Gathers the texts of a file of the sources.
#[derive(Default)]
struct Texts(Vec<String>);

/// Whether something is there in tests alone.
fn is_of_tests(attributes: &[syn::Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        let of_tests = attribute.path().is_ident("cfg")
            && attribute
                .parse_args::<syn::Path>()
                .is_ok_and(|path| path.is_ident("test"));
        of_tests || attribute.path().is_ident("test")
    })
}

impl<'ast> Visit<'ast> for Texts {
    fn visit_item_mod(&mut self, item: &'ast syn::ItemMod) {
        if !is_of_tests(&item.attrs) {
            visit::visit_item_mod(self, item);
        }
    }
    fn visit_item_fn(&mut self, item: &'ast syn::ItemFn) {
        if !is_of_tests(&item.attrs) {
            visit::visit_item_fn(self, item);
        }
    }
    // Keys stand there; the help of commands is asked of the program itself.
    fn visit_attribute(&mut self, _: &'ast syn::Attribute) {}
    fn visit_lit_str(&mut self, text: &'ast syn::LitStr) {
        self.0.push(text.value());
    }
    fn visit_macro(&mut self, item: &'ast syn::Macro) {
        self.tokens(item.tokens.clone());
    }
}

impl Texts {
    /// The texts of a macro; comments in it are attributes of what they stand at, and no texts.
    fn tokens(&mut self, tokens: proc_macro2::TokenStream) {
        let mut is_attribute = false;
        for tree in tokens {
            match tree {
                proc_macro2::TokenTree::Group(_) if is_attribute => {}
                proc_macro2::TokenTree::Group(group) => self.tokens(group.stream()),
                proc_macro2::TokenTree::Literal(ref literal) => {
                    if let Ok(text) = syn::parse_str::<syn::LitStr>(&literal.to_string()) {
                        self.0.push(text.value());
                    }
                }
                proc_macro2::TokenTree::Punct(ref punct) if punct.as_char() == '#' => {
                    is_attribute = true;
                    continue;
                }
                proc_macro2::TokenTree::Ident(_) | proc_macro2::TokenTree::Punct(_) => {}
            }
            is_attribute = false;
        }
    }
}

fn texts(source: &str) -> Vec<String> {
    let mut texts = Texts::default();
    texts.visit_file(&syn::parse_file(source).unwrap());
    texts.0
}

/// A distance that a rule sets, written like a dimension of a drawing: "within 6'-0"" for 6 ft.
fn dimension_of_rule(text: &str) -> Option<String> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let is_dimension = |word: &str| {
        let (feet, rest) = word.split_once("'-").unwrap_or_default();
        !feet.is_empty() && feet.bytes().all(|byte| byte.is_ascii_digit()) && rest.starts_with("0\"")
    };
    let pair = words.windows(2).find(|pair| {
        ["within", "under", "least", "most", "exceeds"].contains(&pair[0].to_lowercase().as_str())
            && is_dimension(pair[1])
    });
    pair.map(|pair| pair.join(" "))
}

/// A name of an appliance that is its letter, told twice: "A (A)", "to A A".
fn told_twice(text: &str) -> bool {
    let words: Vec<&str> = text.split_whitespace().collect();
    words.windows(2).any(|pair| match pair[0].as_bytes() {
        [letter] if letter.is_ascii_uppercase() => {
            pair[1].trim_end_matches([',', ':', '.']) == format!("({})", pair[0])
        }
        _ => false,
    })
}

/// What is wrong with a text, with its place.
fn fault(place: &str, text: &str) -> Option<String> {
    let barred = first_barred(text).filter(|_| !is_key(text))?;
    let Barred { words, instead, why } = barred;
    Some(format!("{place}: \"{text}\": not \"{words}\" but \"{instead}\": {why}"))
}

fn files(folder: &Path, ending: &str, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files(&path, ending, found);
        } else if path.extension().is_some_and(|extension| extension == ending) {
            found.push(path);
        }
    }
    found.sort();
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn the_sources_say_no_barred_word() {
    let mut all = Vec::new();
    files(&root().join("src"), "rs", &mut all);
    let mut faults = Vec::new();
    for path in all {
        let name = path.strip_prefix(root()).unwrap().display().to_string();
        if ELSEWHERE.iter().any(|folder| name.starts_with(folder)) {
            continue;
        }
        let source = fs::read_to_string(&path).unwrap();
        faults.extend(texts(&source).iter().filter_map(|text| fault(&name, text)));
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// Cells, lines and comments: whoever copies a profile reads those too.
#[test]
fn pages_assets_and_answers_say_no_barred_word() {
    let mut all = vec![root().join("README.md")];
    for ending in ["tsv", "ron"] {
        files(&root().join("assets"), ending, &mut all);
        files(&root().join("examples"), ending, &mut all);
    }
    all.push(root().join("assets/guide.txt"));
    files(&root().join("assets"), "md", &mut all);
    files(&root().join("tests/commands/golden"), "txt", &mut all);
    let mut faults = Vec::new();
    for path in all {
        let name = path.strip_prefix(root()).unwrap().display().to_string();
        let text = fs::read_to_string(&path).unwrap();
        for (at, line) in text.lines().enumerate() {
            let place = format!("{name}:{}", at + 1);
            faults.extend(line.split('\t').filter_map(|cell| fault(&place, cell)));
            faults.extend(dimension_of_rule(line).map(|words| format!("{place}: {words}: a rule's distance is 6 ft")));
            faults.extend(told_twice(line).then(|| format!("{place}: {line}: a letter is told once")));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn the_help_of_the_commands_says_no_barred_word() {
    let call = |arguments: &[&str]| {
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_stubout"))
            .args(arguments)
            .output()
            .unwrap();
        String::from_utf8(output.stdout).unwrap()
    };
    let help = call(&["--help"]);
    let commands = help.split("Commands:").nth(1).unwrap().split("\n\n").next().unwrap();
    let names: Vec<&str> = commands
        .lines()
        .filter_map(|line| line.strip_prefix("  ").filter(|rest| !rest.starts_with(' ')))
        .filter_map(|line| line.split_whitespace().next())
        .collect();
    assert!(names.len() > 12, "{names:?}");
    let mut faults: Vec<String> = fault("--help", &help).into_iter().collect();
    for name in names {
        let page = call(&[name, "--help"]);
        faults.extend(page.lines().filter_map(|line| fault(name, line)));
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn a_planted_word_is_found_and_a_key_is_not() {
    let source = r#"
        fn said(count: usize) -> String { format!("{count} things to mend") }
        table! { /// Grey in a comment.
            Field, "entered" }
        const KEY: &str = "licence_holder";
        #[cfg(test)]
        mod tests { const WORDS: &str = "a colour"; }
    "#;
    let found: Vec<String> = texts(source).iter().filter_map(|text| fault("here", text)).collect();
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].starts_with("here: \"{count} things to mend\""), "{found:?}");
    for planted in [
        "Hand over the sheet…",
        "a CENTRE line",
        "Not done: no room",
        "organised",
    ] {
        assert!(fault("here", planted).is_some(), "{planted}");
    }
    for planted in ["within 6'-0\" of it", "at least 1'-0\""] {
        assert!(dimension_of_rule(planted).is_some(), "{planted}");
    }
    assert!(told_twice("ahead of A (A) at J4") && !told_twice("Furnace (A), part A (B)"));
    assert_eq!(dimension_of_rule("it is 6'-0\" long, within 6 ft"), None);
    for fine in ["recommended", "not done yet", "centered", "the lender amends it"] {
        assert!(fault("here", fine).is_none(), "{fine}");
    }
}
