//! A place in the middle of a run of typed length: how far along it lies can be typed, and both parts are told.

use super::look::Look;
use super::{Flow, Refusal, Spot, Standing};
use crate::job::{JointId, RunId};
use crate::units::Length;

/// Where a run of typed length is to be cut in two.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tee {
    /// The run.
    pub run: RunId,
    /// The end from which it is measured: the one by which gas comes.
    from: JointId,
    /// The other end.
    to: JointId,
    /// Whether the run is drawn the other way.
    is_against: bool,
    /// Its typed length.
    whole: Length,
    /// How far from `from` it is cut: as typed, else in proportion to what is drawn.
    first: Length,
}

impl Tee {
    /// The cut at a spot; `None` where there is a joint, no pipe, or pipe whose length was not typed.
    pub fn at(spot: Spot, look: &Look) -> Option<Tee> {
        let Standing::Run(id) = spot.standing(look.job) else {
            return None;
        };
        let run = look.job.runs.get(id)?;
        run.given_length()?;
        let (near, whole) = spot.parts(run, look.job)?;
        let is_against = Flow::of(look.job).is_against(look.job, id);
        let (from, to) = if is_against {
            (run.to, run.from)
        } else {
            (run.from, run.to)
        };
        Some(Tee {
            run: id,
            from,
            to,
            is_against,
            whole,
            first: if is_against { whole - near } else { near },
        })
    }

    /// The spot with the distance that was typed for it.
    ///
    /// # Errors
    /// When it is no length, or not on the run.
    pub fn typed(self, text: &str, spot: Spot, look: &Look) -> Result<Spot, Refusal> {
        let first = Length::parse_in(text, look.job.settings.units)?;
        if first <= Length::ZERO || first >= self.whole {
            return Err(Refusal::BeyondEnd(self.run));
        }
        Ok(Spot {
            on: Some(self.run),
            along: Some(if self.is_against { self.whole - first } else { first }),
            ..spot
        })
    }

    /// What is asked of whoever sets it.
    pub fn question(self, look: &Look) -> String {
        let [whole, first] = [self.whole, self.first].map(|length| look.show(length));
        format!(
            "{} was typed as {whole}: type how far from {} this is and press Enter ({first} by the drawing)",
            self.run, self.from
        )
    }

    /// The question in short, for the card at the tee.
    pub fn asked(self, look: &Look) -> String {
        format!("{} from {}? Type it", look.show(self.first), self.from)
    }

    /// The two lengths: "5'-9" from J2, 14'-3" to J4".
    pub fn parts(self, look: &Look) -> String {
        let [first, rest] = [self.first, self.whole - self.first].map(|length| look.show(length));
        format!("{first} from {}, {rest} to {}", self.from, self.to)
    }

    /// What is told once it is made and nobody typed where.
    pub fn told(self, spot: Spot, look: &Look) -> String {
        let by = match spot.along {
            Some(_) => "as typed",
            None => "divided as drawn; if you measured it, type the length of either part",
        };
        format!("{}: {}, {by}", self.run, self.parts(look))
    }
}

#[cfg(test)]
mod tests {
    use crate::editor::fixture::{R, house, run};
    use crate::editor::{CommandId, Editor, Input, Item, Key, Toward};
    use crate::job::{DeviceKind, Job, RunId};
    use crate::units::Length;

    /// The house with its second run typed as 20 ft; it is drawn six steps long.
    fn typed() -> Job {
        let mut job = house();
        job.runs.get_mut(RunId(2)).unwrap().length = Some(Length::from_feet(20.0));
        job
    }

    /// An editor whose pencil stands in the middle of that run.
    fn on_run(job: Job) -> Editor {
        let mut editor = Editor::new(job);
        editor.select([R(2)].into_iter().collect());
        editor.run(CommandId::DrawPipe);
        editor.handle(Input::Key(Key::Enter));
        editor
    }

    fn write(editor: &mut Editor, text: &str) {
        for letter in text.chars() {
            editor.handle(Input::Text(letter));
        }
    }

    /// The lengths of the two parts, in feet.
    #[track_caller]
    fn parts(editor: &Editor) -> [f64; 2] {
        [2, 6].map(|id| run(editor.job(), id).length.unwrap().feet())
    }

    #[test]
    fn where_a_tee_lies_is_asked_there_and_both_parts_add_up_to_what_was_typed() {
        let mut editor = on_run(typed());
        let words = &editor.hint().words;
        assert!(
            words.starts_with("R2 was typed as 20'-0\": type how far from J2")
                && words.contains("10'-0\" by the drawing"),
            "{words}"
        );
        write(&mut editor, "5-9");
        editor.handle(Input::Key(Key::Enter));
        assert_eq!(
            editor.hint().ghost.words.as_deref(),
            Some("5'-9\" from J2, 14'-3\" to J3")
        );
        editor.handle(Input::Key(Key::Way(Toward::South)));
        write(&mut editor, "8");
        editor.handle(Input::Key(Key::Enter));
        assert_eq!(parts(&editor), [5.75, 14.25]);
        let leg = editor.job().runs.iter().last().unwrap();
        assert_eq!(
            leg.length,
            Some(Length::from_feet(8.0)),
            "the next length is that of the branch"
        );
        assert!(editor.status().contains("5'-9\" from J2"), "{}", editor.status());
    }

    #[test]
    fn whoever_draws_on_is_told_how_the_length_was_shared_out() {
        let mut editor = on_run(typed());
        editor.handle(Input::Key(Key::Way(Toward::South)));
        write(&mut editor, "8");
        editor.handle(Input::Key(Key::Enter));
        assert_eq!(parts(&editor), [10.0, 10.0]);
        let status = editor.status();
        assert!(
            status.contains("10'-0\" from J2, 10'-0\" to J3, divided as drawn"),
            "{status}"
        );
    }

    #[test]
    fn an_arrow_takes_what_was_typed_and_a_distance_beyond_the_end_is_refused() {
        let mut editor = on_run(typed());
        write(&mut editor, "20");
        editor.handle(Input::Key(Key::Way(Toward::South)));
        assert!(editor.status().contains("not that long"), "{}", editor.status());
        editor.handle(Input::Key(Key::Escape));
        write(&mut editor, "4");
        editor.handle(Input::Key(Key::Way(Toward::South)));
        editor.handle(Input::Key(Key::Enter));
        assert_eq!(parts(&editor), [4.0, 16.0]);
    }

    #[test]
    fn it_is_measured_from_where_gas_comes_however_the_run_was_drawn() {
        let mut job = typed();
        let it = job.runs.get_mut(RunId(2)).unwrap();
        std::mem::swap(&mut it.from, &mut it.to);
        let mut editor = on_run(job);
        write(&mut editor, "4");
        editor.handle(Input::Key(Key::Enter));
        editor.handle(Input::Key(Key::Way(Toward::South)));
        editor.handle(Input::Key(Key::Enter));
        assert_eq!(parts(&editor), [16.0, 4.0], "the run keeps its own first end");
    }

    #[test]
    fn a_device_in_a_typed_run_is_measured_too_and_one_in_a_drawn_run_is_not() {
        let mut editor = Editor::new(typed());
        editor.select([R(2)].into_iter().collect());
        editor.run(CommandId::Place(Item::Device(DeviceKind::Valve)));
        write(&mut editor, "4");
        editor.handle(Input::Key(Key::Enter));
        assert_eq!(parts(&editor), [4.0, 16.0]);
        assert!(editor.status().contains("as typed"), "{}", editor.status());
        let mut editor = Editor::new(house());
        editor.select([R(2)].into_iter().collect());
        editor.run(CommandId::Place(Item::Device(DeviceKind::Valve)));
        write(&mut editor, "4");
        editor.handle(Input::Key(Key::Enter));
        assert_eq!(run(editor.job(), 2).length, None);
    }
}
