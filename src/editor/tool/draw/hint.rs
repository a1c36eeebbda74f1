//! What the pencil on its way would do next: in words, as a ghost, and as the step itself.

use super::Pencil;
use crate::editor::aim::Measure;
use crate::editor::ghost::{Ghost, Hint};
use crate::editor::look::Look;
use crate::editor::tool::{CLICK_OR_ENTER, ENTER};
use crate::editor::toward::spelled;
use crate::editor::typed::Typed;
use crate::job::State;

impl Pencil {
    /// What would be done next.
    pub(super) fn hint(&self, look: &Look) -> Hint {
        let typing = self.typed.trim();
        let Some(end) = self.end(look) else {
            let standing = self.start.standing(look.job);
            let tee = self.tee(look);
            let words = match (typing, tee) {
                (_, Some(tee)) if self.start.along.is_none() || !typing.is_empty() => {
                    format!("{}; or draw on", tee.question(look))
                }
                ("", _) => format!(
                    "From {standing}: point, or press an arrow key (Page Up: straight up); a click here, Enter or Esc ends"
                ),
                (typed, _) => format!("{typed}: give a direction, then Enter"),
            };
            let measured = tee.map(|tee| match typing {
                "" if self.start.along.is_none() => tee.asked(look),
                "" => tee.parts(look),
                typed => typed.to_owned(),
            });
            let ghost = Ghost {
                words: measured,
                ..Ghost::default().at(self.start.at, standing)
            };
            return Hint {
                words,
                ghost,
                step: None,
            };
        };
        let (plan, to) = (self.plan(look), end.standing(look.job));
        let drawn = look.job.settings.step.times((end.at - self.start.at).steps());
        let length = match self.read(look) {
            Ok(Typed::Nothing) => look.show(drawn),
            Ok(Typed::Length(length)) => look.show(length),
            Ok(Typed::Offset(offset)) => offset
                .made(None)
                .map_or(typing.to_owned(), |made| look.show(made.travel)),
            Err(_) => typing.to_owned(),
        };
        let way = spelled(end.at - self.start.at);
        let does = match self.aim.map(|aim| aim.by) {
            Some(Measure::Pointer) => CLICK_OR_ENTER,
            Some(Measure::Keys | Measure::Scale) | None => ENTER,
        };
        // The size of pipe that is there already is read on it.
        let size = match look.pen.state {
            State::New => "",
            State::Existing | State::Removed => ", with its size after a comma (12-6, 3/4)",
        };
        let words = match &plan {
            Ok(_) if typing.is_empty() && (end.at - self.start.at).axis().is_none() => format!(
                "{does}: draw {length} {way} to {to}; or first type its true length, or rise x roll @ angle (8\"x12\"@45)"
            ),
            Ok(_) if typing.is_empty() => {
                format!("{does}: draw {length} {way} to {to}; or first type its true length{size}")
            }
            Ok(_) => format!("{does}: draw {length} {way} to {to}, as shown"),
            Err(refusal) => refusal.to_string(),
        };
        let ghost = Ghost {
            lines: vec![[self.start.at, end.at]],
            words: Some(length),
            refused: plan.is_err(),
            ..Ghost::default().at(end.at, to)
        };
        Hint {
            words,
            ghost,
            step: Some(plan),
        }
    }
}
