//! The lists by name, under the four questions that they answer.

/// Which list.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tab {
    /// What the rules found.
    #[default]
    Found,
    /// What permit offices ask for.
    Permit,
    /// What changed since the issue.
    Changes,
    /// Sections with their sizes.
    Sections,
    /// Appliances with their pressures.
    Appliances,
    /// What stands, before and after.
    Existing,
    /// What can be added.
    Room,
    /// Ways to repair.
    Ways,
    /// Other ways to do the job.
    Variants,
    /// Where to tie in.
    TieIn,
    /// What is bought.
    TakeOff,
    /// Pieces to cut.
    Cuts,
    /// The order of work.
    Order,
}

/// What somebody asks of the job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Question {
    /// Is it right?
    Right,
    /// Is it enough?
    Enough,
    /// What would help?
    Better,
    /// What to buy, and how it is built.
    Build,
}

impl Question {
    /// Every question.
    pub const ALL: [Question; 4] = [Question::Right, Question::Enough, Question::Better, Question::Build];

    /// The question in words.
    pub const fn words(self) -> &'static str {
        match self {
            Question::Right => "Is it right?",
            Question::Enough => "Is it enough?",
            Question::Better => "What would help?",
            Question::Build => "Buy and build",
        }
    }

    /// What answers it.
    pub const fn tip(self) -> &'static str {
        match self {
            Question::Right => "Findings of the rules, the permit checklist, what has changed",
            Question::Enough => "Sections, appliances, existing parts and spare capacity",
            Question::Better => "Fixes compared, variants compared, and where a new branch ties in",
            Question::Build => "Take-off, cut list with its cutting plan, work steps and test",
        }
    }

    /// The lists that answer it.
    pub const fn tabs(self) -> &'static [Tab] {
        match self {
            Question::Right => &[Tab::Found, Tab::Permit, Tab::Changes],
            Question::Enough => &[Tab::Sections, Tab::Appliances, Tab::Existing, Tab::Room],
            Question::Better => &[Tab::Ways, Tab::Variants, Tab::TieIn],
            Question::Build => &[Tab::TakeOff, Tab::Cuts, Tab::Order],
        }
    }
}

impl Tab {
    /// The question that it answers.
    pub const fn question(self) -> Question {
        match self {
            Tab::Found | Tab::Permit | Tab::Changes => Question::Right,
            Tab::Sections | Tab::Appliances | Tab::Existing | Tab::Room => Question::Enough,
            Tab::Ways | Tab::Variants | Tab::TieIn => Question::Better,
            Tab::TakeOff | Tab::Cuts | Tab::Order => Question::Build,
        }
    }

    /// Every list, question by question.
    pub fn all() -> impl Iterator<Item = Tab> {
        Question::ALL.into_iter().flat_map(|question| question.tabs()).copied()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_list_stands_once_under_its_question() {
        let all: Vec<Tab> = Tab::all().collect();
        for question in Question::ALL {
            assert!(question.tabs().iter().all(|tab| tab.question() == question));
        }
        for (at, tab) in all.iter().enumerate() {
            assert!(!all[..at].contains(tab), "{tab:?}");
        }
        assert_eq!(all.len(), 13);
    }
}
