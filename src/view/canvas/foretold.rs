//! The card at the ghost: the length and size of what is to come, and what the pencil that draws it is like.

use crate::desk::Desk;
use crate::editor::tool::Tool;
use crate::job::LatticePoint;
use crate::study::Study;
use crate::view::pencil;

/// What is to come is sized in jobs of up to so many runs while the pencil moves.
const SIZED_LIVE: usize = 400;

/// What stands on the card.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Card {
    /// The length, and the size that the run would get.
    pub head: String,
    /// What the pencil is like, and what Enter does.
    pub below: String,
}

/// The card, with what it was made of.
#[derive(Default)]
pub struct Foretold {
    of: Option<Of>,
    card: Option<Card>,
}

/// What a card is made of: the revision, the length, the place, the pencil with what was typed, and whether something can
/// be done.
type Of = (u64, Option<String>, Option<LatticePoint>, [String; 2], bool);

impl Foretold {
    /// The card of what is to come now; the length, and the size that the new run would get as things stand.
    pub fn card(&mut self, desk: &Desk) -> Option<&Card> {
        let hint = desk.editor().hint();
        let pencil = match desk.editor().tool() {
            Tool::Draw(_) => pencil::words(desk),
            Tool::Choose(_) | Tool::Place(_) | Tool::Put(_) | Tool::Preview(_) => String::new(),
        };
        let goes = matches!(hint.step, Some(Ok(_)));
        let place = hint.ghost.place.map(|(place, _)| place);
        let pencil = [pencil, desk.editor().tool().typed().to_owned()];
        let now = (desk.editor().revision(), hint.ghost.words.clone(), place, pencil, goes);
        if self.of.as_ref() != Some(&now) {
            let (_, length, _, [pencil, _], _) = &now;
            let size = length.as_ref().and_then(|_| size_to_come(desk));
            let head: Vec<&str> = length.iter().chain(&size).map(String::as_str).collect();
            let below = match (pencil.is_empty(), goes) {
                (false, true) => format!("{pencil} · Enter draws it"),
                _ => pencil.clone(),
            };
            let card = Card {
                head: head.join("  "),
                below,
            };
            self.card = (card != Card::default()).then_some(card);
            self.of = Some(now);
        }
        self.card.as_ref()
    }
}

/// The size that the run to come would get, when pipe beyond it already asks for one.
fn size_to_come(desk: &Desk) -> Option<String> {
    let step = desk.editor().hint().step.as_ref()?.as_ref().ok()?;
    if desk.job().runs.len() > SIZED_LIVE {
        return None;
    }
    let mut job = desk.job().clone();
    step.apply(&mut job).ok()?;
    let book = desk.book();
    let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
    let study = Study::under(&job, &book, profile);
    // A tee makes new runs of old pipe too: the one that is drawn lies where the ghost does.
    let drawn = desk.editor().hint().ghost.lines.first()?.map(Some);
    let place = |id| Some(job.joints.get(id)?.at);
    let new = job.runs.iter().position(|run| {
        let [from, to] = [place(run.from), place(run.to)];
        [from, to] == drawn || [to, from] == drawn
    })?;
    let section = study.runs.get(new)?.section?;
    let section = study.sections.get(section)?;
    Some(study.names.show(section.material, section.sizing.size?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::editor::{CommandId, Input, Key, Part, Toward};
    use crate::job::RunId;

    /// A branch that is being drawn from the middle of old pipe.
    fn branch() -> Desk {
        let job = crate::file::read(include_str!("../../../examples/patio-kitchen.ron")).unwrap();
        let mut desk = Desk::new(job, || {});
        let editor = desk.editor_mut();
        editor.select([Part::Run(RunId(1))].into_iter().collect());
        editor.run(CommandId::DrawPipe);
        for key in [Key::Enter, Key::Way(Toward::East)] {
            editor.handle(Input::Key(key));
        }
        desk
    }

    #[test]
    fn a_branch_from_the_middle_of_old_pipe_is_not_foretold_the_size_of_that_pipe() {
        let desk = branch();
        let mut foretold = Foretold::default();
        let card = foretold.card(&desk).unwrap();
        assert!(
            card.head.starts_with("1'-0\"") && !card.head.contains("1-1/4"),
            "{}",
            card.head
        );
    }

    #[test]
    fn a_size_that_is_typed_after_the_length_stands_on_the_card_at_once() {
        let mut desk = branch();
        let mut foretold = Foretold::default();
        for (typed, said) in [("12", "12'-0\""), (",", "12'-0\""), (" 2", "12'-0\"  2\"")] {
            for letter in typed.chars() {
                desk.editor_mut().handle(Input::Text(letter));
                foretold.card(&desk);
            }
            assert_eq!(foretold.card(&desk).unwrap().head, said, "after {typed:?}");
        }
    }
}
