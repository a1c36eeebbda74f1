//! Which clause asks for what, by family of codes.
//!
//! One table, `assets/clauses.tsv`: a topic (the id of a rule, mostly), a family, the clause, where it was read and what it
//! asks. A family of which no clause was read has no row, and is answered with that and with the family that asks it.

use super::asset::Asset;
use super::sheet::{Record, Sheet};
use super::{Codebook, CodebookError, Mark};
use crate::job::listed;
use serde::Deserialize;

listed! {
    /// Codes that number their clauses alike.
    #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
    pub enum CodeFamily {
        /// International Fuel Gas Code, International Residential Code, NFPA 54 (ANSI Z223.1).
        Ifgc,
        /// Uniform Plumbing Code and the codes made of it, California's among them.
        Upc,
        /// CSA B149.1, the installation code of Canada.
        B149,
    }
}

impl CodeFamily {
    /// The name in sentences.
    pub const fn name(self) -> &'static str {
        match self {
            CodeFamily::Ifgc => "the IFGC, the IRC or NFPA 54",
            CodeFamily::Upc => "the UPC or the CPC",
            CodeFamily::B149 => "CSA B149.1",
        }
    }

    /// Whether it is in force in Canada; the others are of the United States, where codes of one family stand on those of
    /// another.
    pub const fn is_canadian(self) -> bool {
        match self {
            CodeFamily::Ifgc | CodeFamily::Upc => false,
            CodeFamily::B149 => true,
        }
    }

    /// The word in files and for machines.
    pub const fn key(self) -> &'static str {
        match self {
            CodeFamily::Ifgc => "ifgc",
            CodeFamily::Upc => "upc",
            CodeFamily::B149 => "b149",
        }
    }

    fn of_word(word: &str) -> Option<CodeFamily> {
        CodeFamily::ALL.into_iter().find(|family| family.key() == word)
    }
}

/// What one family of codes asks on one topic.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clause {
    /// The topic: the id of a rule, or another short name.
    pub topic: &'static str,
    /// The family.
    pub family: CodeFamily,
    /// Code, edition and number: "NFPA 54-2012 9.6.4".
    pub clause: &'static str,
    /// Where it was read, where that is not the code itself.
    pub read: Option<&'static str>,
    /// What it asks, restated.
    pub says: &'static str,
    /// How sure it is; `None` where the clause is known to be about the topic, and what it asks was not read.
    pub mark: Option<Mark>,
}

impl Clause {
    pub(super) fn read_all(asset: Asset) -> Result<Vec<Clause>, CodebookError> {
        Sheet::read(asset)?.records().map(Clause::read).collect()
    }

    fn read(record: Record<'_>) -> Result<Clause, CodebookError> {
        let word = record.text("family")?;
        Ok(Clause {
            topic: record.text("topic")?,
            family: CodeFamily::of_word(word).ok_or_else(|| record.fault(format!("`{word}` is not a family")))?,
            clause: record.text("clause")?,
            read: Some(record.text("read")?).filter(|read| *read != "-"),
            says: record.text("says")?,
            mark: match record.text("mark")? {
                "-" => None,
                _ => Some(record.mark()?),
            },
        })
    }

    /// The clause, what it asks and where it was read: "IFGC 404.12, IRC 2021 G2415.12: 12 in of cover (IRC read)".
    pub fn words(&self) -> String {
        let read = match (self.mark, self.read) {
            (Some(Mark::Found) | None, None) => String::new(),
            (Some(Mark::Found) | None, Some(read)) => format!(" ({read})"),
            (Some(mark), _) => format!(" ({})", mark.words()),
        };
        format!("{}: {}{read}", self.clause, self.says)
    }
}

impl Clause {
    /// Its number, with its mark in words where it was not read in print: "IFGC 410.2, from memory".
    pub fn number(&self) -> String {
        match self.mark {
            None | Some(Mark::Found) => self.clause.to_owned(),
            Some(mark) => format!("{}, {}", self.clause, mark.words()),
        }
    }
}

impl Codebook {
    /// Every clause that is known, in the order of the file.
    pub fn clauses(&self) -> &[Clause] {
        &self.clauses
    }

    /// Where a family of codes asks for tees in which a gauge reads the pressure at a line regulator. Of families without a row
    /// nothing is known of such tees.
    pub fn gauge_tees(&self, family: Option<CodeFamily>) -> Option<&Clause> {
        self.clause("gauge-tees", family?)
    }

    /// What a family of codes asks on a topic; `None` where no clause of it was read.
    pub fn clause(&self, topic: &str, family: CodeFamily) -> Option<&Clause> {
        let mut clauses = self.clauses.iter();
        clauses.find(|clause| clause.topic == topic && clause.family == family)
    }

    /// What the code in force asks on a topic, in words.
    ///
    /// Where no clause of its family was read, or the profile names no family, that is said, with the first family that is
    /// known to ask it. `None` for a topic of which no clause is known at all.
    pub fn asked_by_code(&self, topic: &str, family: Option<CodeFamily>) -> Option<String> {
        if let Some(clause) = family.and_then(|family| self.clause(topic, family)) {
            return Some(clause.words());
        }
        let other = CodeFamily::ALL
            .into_iter()
            .find_map(|other| self.clause(topic, other))?;
        Some(match family {
            Some(family) => format!(
                "no clause of {} was read for this; asked by {}",
                family.name(),
                other.words()
            ),
            None => format!("the profile names no family of codes; asked by {}", other.words()),
        })
    }

    /// The clauses of several topics, by number: those of the family first, then those of others that stand in for what
    /// was not read of it, each with its mark. Topics of which none is known are left out.
    pub fn cited(&self, topics: &[&str], family: Option<CodeFamily>) -> String {
        let of = |topic: &&str, family| self.clause(topic, family);
        let own: Vec<&Clause> = topics.iter().filter_map(|topic| of(topic, family?)).collect();
        let missing = topics
            .iter()
            .filter(|topic| family.is_none_or(|family| of(topic, family).is_none()));
        let others: Vec<&Clause> = missing
            .filter_map(|topic| CodeFamily::ALL.into_iter().find_map(|family| of(topic, family)))
            .collect();
        let numbers = |clauses: &[&Clause]| {
            let mut said: Vec<String> = Vec::new();
            for clause in clauses {
                let number = match clause.mark {
                    Some(mark) => format!("{} {mark}", clause.clause),
                    None => clause.clause.to_owned(),
                };
                if !said.contains(&number) {
                    said.push(number);
                }
            }
            said
        };
        let (mut said, others) = (numbers(&own), numbers(&others));
        if !others.is_empty() {
            let these = if others.len() == 1 { "this" } else { "these" };
            said.push(match family {
                Some(family) => format!(
                    "no clause of {} was read for {these}: {}",
                    family.name(),
                    others.join("; ")
                ),
                None => format!("the profile names no code; {}", others.join("; ")),
            });
        }
        said.join("; ")
    }

    /// The number of the clause alone, for a note that says itself what it asks. That of another family says that none of
    /// the family in force was read; `None` as in [`Codebook::asked_by_code`].
    pub fn clause_number(&self, topic: &str, family: Option<CodeFamily>) -> Option<String> {
        if let Some(clause) = family.and_then(|family| self.clause(topic, family)) {
            return Some(clause.clause.to_owned());
        }
        let other = CodeFamily::ALL
            .into_iter()
            .find_map(|other| self.clause(topic, other))?;
        Some(match family {
            Some(family) => format!("{}; no clause of {} was read", other.clause, family.name()),
            None => other.clause.to_owned(),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    fn asked(topic: &str, family: Option<CodeFamily>) -> String {
        Codebook::published().asked_by_code(topic, family).unwrap()
    }

    #[test]
    fn a_number_of_another_family_says_so() {
        let number = |topic: &str, family| Codebook::published().clause_number(topic, family).unwrap();
        assert_eq!(number("regulator-vent", Some(CodeFamily::Ifgc)), "NFPA 54-2012 5.8.5.1");
        assert_eq!(number("regulator-vent", Some(CodeFamily::Upc)), "CPC 2013 1208.7.5.1");
        assert_eq!(
            number("regulator-vent", Some(CodeFamily::B149)),
            "NFPA 54-2012 5.8.5.1; no clause of CSA B149.1 was read"
        );
    }

    /// IRC 2018 G2415.17.3 and CPC 2013 1210.1.7.2, read in public copies: 18 and 14 AWG.
    #[test]
    fn each_family_is_answered_with_its_own_clause() {
        let ifgc = asked("pe-tracer", Some(CodeFamily::Ifgc));
        assert!(
            ifgc.starts_with("IFGC 404.17.3, IRC 2018 G2415.17.3: ") && ifgc.contains("18 AWG"),
            "{ifgc}"
        );
        let upc = asked("pe-tracer", Some(CodeFamily::Upc));
        assert!(
            upc.starts_with("CPC 2013 1210.1.7.2: ") && upc.contains("14 AWG"),
            "{upc}"
        );
    }

    #[test]
    fn where_a_family_was_not_read_that_is_said() {
        let canada = asked("shutoff-missing", Some(CodeFamily::B149));
        assert!(
            canada.starts_with("no clause of CSA B149.1 was read for this; asked by NFPA 54-2012 9.6.4"),
            "{canada}"
        );
        let none = asked("shutoff-missing", None);
        assert!(
            none.starts_with("the profile names no family of codes; asked by "),
            "{none}"
        );
        assert_eq!(Codebook::published().asked_by_code("length-unlikely", None), None);
    }

    #[test]
    fn several_topics_are_cited_by_number_those_of_the_family_first() {
        let cited = |family| Codebook::published().cited(&["purge-ways", "purge-outdoors", "no-such-topic"], family);
        assert_eq!(
            cited(Some(CodeFamily::Upc)),
            "CPC 2013 table 1213.6.1 (F); no clause of the UPC or the CPC was read for this: IFGC 2018 406.7.2.1 (F)"
        );
        let b149 = cited(Some(CodeFamily::B149));
        assert!(b149.starts_with("CSA B149.1 6.23 (not read)"), "{b149}");
        assert_eq!(cited(None).matches("the profile names no code").count(), 1);
        assert!(!cited(Some(CodeFamily::Ifgc)).contains("was read"));
    }

    #[test]
    fn a_family_has_one_clause_for_a_topic() {
        let clauses = Codebook::published().clauses();
        let keys: BTreeSet<_> = clauses.iter().map(|clause| (clause.topic, clause.family)).collect();
        assert_eq!(keys.len(), clauses.len());
        for clause in clauses {
            assert!(
                matches!(clause.mark, Some(Mark::Found | Mark::Memory) | None),
                "{clause:?}"
            );
            // What was not read has no mark, and says so.
            assert_eq!(
                clause.mark.is_none(),
                clause.clause.contains("(not read)"),
                "{clause:?}"
            );
            assert!(!clause.says.ends_with('.') && clause.clause.len() > 5, "{clause:?}");
        }
    }
}
