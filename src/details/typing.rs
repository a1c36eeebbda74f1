//! Texts that are being typed and not yet taken. Knows no widgets.
//!
//! A text lives here from the moment its field is entered until it is taken, or given up with Esc. Nothing typed is lost:
//! a text whose field is no longer shown is taken all the same, and one that cannot be taken waits with the reason until
//! its field is shown again.

use crate::desk::Desk;
use crate::job::Detail;
use std::collections::HashMap;
use std::hash::Hash;
use std::rc::Rc;

/// What comes of taking a text: the reason in words when it cannot be taken.
pub type Done = Result<(), String>;

/// How a text is taken: it changes the job, or says why not.
pub type Put = Rc<dyn Fn(&mut Desk, &str) -> Done>;

/// The texts in the making, each under the key of its field.
pub struct Typing<Key> {
    drafts: HashMap<Key, Draft>,
    /// The last choice that was refused, and why.
    choice: Option<(Key, String)>,
    /// The field that was left with Enter last.
    pub left: Option<Key>,
    /// The field that is to have the cursor as soon as it is shown.
    pub wanted: Option<Wanted>,
    /// What was typed for it before it has the cursor.
    pub begun: String,
    /// The field whose whole text is chosen, or was since its last refusal, so that a further click goes into the text.
    pub whole: Option<Key>,
}

/// A field that is to have the cursor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// The first that comes.
    First,
    /// The one of this name.
    Field(Detail),
    /// The one under these words.
    Words(&'static str),
}

struct Draft {
    text: String,
    /// What the field showed when it was entered.
    was: String,
    /// The text that could not be taken, and why.
    refused: Option<(String, String)>,
    put: Put,
    is_shown: bool,
}

impl Draft {
    fn is_touched(&self) -> bool {
        self.text != self.was || self.refused.is_some()
    }
}

impl<Key> Default for Typing<Key> {
    fn default() -> Self {
        Typing {
            drafts: HashMap::new(),
            choice: None,
            left: None,
            wanted: None,
            begun: String::new(),
            whole: None,
        }
    }
}

impl<Key: Copy + Eq + Hash> Typing<Key> {
    /// The text that a field shows: what is typed, else the value. A field that was only entered follows the value.
    pub fn text(&mut self, key: Key, value: &str) -> String {
        let Some(draft) = self.drafts.get_mut(&key) else {
            return value.to_owned();
        };
        draft.is_shown = true;
        if !draft.is_touched() {
            value.clone_into(&mut draft.was);
            value.clone_into(&mut draft.text);
        }
        draft.text.clone()
    }

    /// Keeps the text of a field that has the keyboard.
    pub fn keep(&mut self, key: Key, value: &str, text: String, put: Put) {
        let draft = self.drafts.entry(key).or_insert_with(|| Draft {
            text: String::new(),
            was: value.to_owned(),
            refused: None,
            put: Rc::clone(&put),
            is_shown: true,
        });
        draft.text = text;
        draft.put = put;
    }

    /// Whether one of these fields is to have the cursor.
    pub fn wants(&self, fields: &[Detail]) -> bool {
        matches!(self.wanted, Some(Wanted::Field(wanted)) if fields.contains(&wanted))
    }

    /// Whether a field, or a choice, is to have the cursor, for being the first field that comes or the one that was asked for.
    pub fn take_wanted(&mut self, detail: Option<Detail>, label: &str, is_typed: bool) -> bool {
        let is_wanted = match self.wanted {
            Some(Wanted::First) => is_typed,
            Some(Wanted::Field(wanted)) => detail == Some(wanted),
            Some(Wanted::Words(wanted)) => label == wanted,
            None => false,
        };
        if is_wanted {
            self.wanted = None;
        }
        is_wanted
    }

    /// Gives a text up.
    pub fn give_up(&mut self, key: Key) {
        self.drafts.remove(&key);
    }

    /// Why the text of a field, or a choice, cannot be taken.
    pub fn fault(&self, key: Key) -> Option<&str> {
        if let Some((_, why)) = self.choice.as_ref().filter(|choice| choice.0 == key) {
            return Some(why);
        }
        let refused = self.drafts.get(&key)?.refused.as_ref()?;
        Some(&refused.1)
    }

    /// Keeps what came of a choice, until the next one.
    pub fn chosen(&mut self, key: Key, done: Done) {
        self.choice = done.err().map(|why| (key, why));
    }

    /// Takes the text of a field; one that says what the value says already changes nothing.
    pub fn take(&mut self, key: Key, desk: &mut Desk) {
        let Some(mut draft) = self.drafts.remove(&key) else {
            return;
        };
        if draft.text == draft.was {
            return;
        }
        if let Err(why) = (draft.put)(desk, &draft.text) {
            draft.refused = Some((draft.text.clone(), why));
            self.drafts.insert(key, draft);
            self.whole = None;
        }
    }

    /// Takes every text, but not one that was refused just so before.
    pub fn take_all(&mut self, desk: &mut Desk) {
        self.take_those(desk, |_| true);
    }

    /// Starts a frame: no field has been shown yet.
    pub fn begin(&mut self) {
        for draft in self.drafts.values_mut() {
            draft.is_shown = false;
        }
    }

    /// Ends a frame: texts whose fields are no longer shown are taken.
    pub fn end(&mut self, desk: &mut Desk) {
        if let Some(Wanted::Field(_) | Wanted::Words(_)) = self.wanted {
            // What was chosen has no such field.
            self.wanted = None;
        }
        self.begun.clear();
        self.take_those(desk, |draft| !draft.is_shown);
    }

    /// Gives all texts up: another job lies on the desk.
    pub fn forget(&mut self) {
        *self = Typing::default();
    }

    fn take_those(&mut self, desk: &mut Desk, which: impl Fn(&Draft) -> bool) {
        let fresh = |draft: &Draft| draft.refused.as_ref().is_none_or(|(text, _)| *text != draft.text);
        let keys: Vec<Key> = self
            .drafts
            .iter()
            .filter(|(_, draft)| which(draft) && fresh(draft))
            .map(|(key, _)| *key)
            .collect();
        for key in keys {
            self.take(key, desk);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::CommandId;
    use crate::editor::edit::set_title;
    use crate::job::Job;

    const FIRM: u32 = 1;
    const SITE: u32 = 2;

    fn desk() -> Desk {
        Desk::new(Job::default(), || {})
    }

    /// The firm of the title block, which may hold no figures.
    fn firm() -> Put {
        Rc::new(|desk, text| {
            if text.contains(char::is_numeric) {
                return Err(format!("`{text}` has figures"));
            }
            let mut title = desk.job().title.clone();
            text.clone_into(&mut title.firm);
            let done = desk.editor_mut().edit(|job| set_title(job, title));
            done.map_err(|refusal| refusal.to_string())
        })
    }

    fn typed(typing: &mut Typing<u32>, desk: &Desk, text: &str) {
        let value = desk.job().title.firm.clone();
        typing.keep(FIRM, &value, text.to_owned(), firm());
    }

    #[test]
    fn a_text_is_taken_once_and_as_one_step() {
        let (mut desk, mut typing) = (desk(), Typing::default());
        for text in ["E", "Ex", "Example Fitters"] {
            typed(&mut typing, &desk, text);
        }
        assert_eq!(desk.job().title.firm, "");
        typing.take(FIRM, &mut desk);
        typing.take(FIRM, &mut desk);
        assert_eq!(desk.job().title.firm, "Example Fitters");
        desk.run(CommandId::Undo);
        assert_eq!((desk.job().title.firm.as_str(), desk.editor().undo_name()), ("", None));
    }

    #[test]
    fn what_cannot_be_taken_stays_with_its_reason() {
        let (mut desk, mut typing) = (desk(), Typing::default());
        typed(&mut typing, &desk, "Example Fitters 2");
        typing.take(FIRM, &mut desk);
        assert_eq!(typing.fault(FIRM), Some("`Example Fitters 2` has figures"));
        assert_eq!(typing.text(FIRM, "another value"), "Example Fitters 2");
        assert_eq!(desk.job().title.firm, "");
        typed(&mut typing, &desk, "Example Fitters");
        typing.take(FIRM, &mut desk);
        assert_eq!(
            (typing.fault(FIRM), desk.job().title.firm.as_str()),
            (None, "Example Fitters")
        );
    }

    #[test]
    fn a_text_whose_field_is_gone_is_taken_all_the_same() {
        let (mut desk, mut typing) = (desk(), Typing::default());
        typed(&mut typing, &desk, "Example Fitters");
        typing.begin();
        typing.text(SITE, "");
        typing.end(&mut desk);
        assert_eq!(desk.job().title.firm, "Example Fitters");
        typed(&mut typing, &desk, "2");
        typing.begin();
        typing.end(&mut desk);
        typing.begin();
        typing.end(&mut desk);
        assert_eq!(
            typing.text(FIRM, "Example Fitters"),
            "2",
            "refused, it waits for its field"
        );
        typing.give_up(FIRM);
        assert_eq!(typing.text(FIRM, "Example Fitters"), "Example Fitters");
    }

    #[test]
    fn a_field_that_was_only_entered_follows_the_value() {
        let (mut desk, mut typing) = (desk(), Typing::default());
        typed(&mut typing, &desk, "");
        assert_eq!(typing.text(FIRM, "from outside"), "from outside");
        typing.take(FIRM, &mut desk);
        assert!(desk.editor().is_saved(), "nothing was typed, nothing is changed");
        typed(&mut typing, &desk, "by hand");
        assert_eq!(typing.text(FIRM, "from outside"), "by hand");
    }
}
