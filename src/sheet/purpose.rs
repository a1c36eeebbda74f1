//! What a sheet is for, as its title block says it: nobody is to take a study, a drawing that is not ready or a sheet to
//! work from for a permit drawing.

use super::field::Field;
use crate::codebook::Profile;
use crate::drawing::{Asked, Blank};
use crate::job::{Job, Status};
use crate::rules::Checked;
use crate::scene::answered_only;

/// What a sheet is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Purpose {
    /// To be issued, as the job says for what.
    #[default]
    Issue,
    /// A study of the job, by its number among studies.
    Study(u8),
    /// The drawing of the pieces.
    Pieces,
    /// The plan, to scale.
    Plan,
    /// Any other sheet to work from.
    Work,
    /// A worksheet for a class, which asks figures.
    Worksheet(Asked),
    /// The working on the key of one.
    Working,
    /// A step of the sizing of a job, for a class.
    Lecture,
}

impl Purpose {
    /// What a field says on a sheet for this; empty where nothing is said. The number of the sheet is not known here.
    pub fn value(self, field: Field, job: &Job, checked: &Checked, profile: &Profile) -> String {
        let own = match (self, field) {
            (Purpose::Study(_), Field::Title) => Some("GAS PIPING STUDY".to_owned()),
            (Purpose::Pieces, Field::Title) => Some("GAS PIPE CUT SHEET".to_owned()),
            (Purpose::Plan, Field::Title) => Some("GAS PIPING PLAN".to_owned()),
            (Purpose::Work, Field::Title) => Some("GAS PIPING WORK SHEET".to_owned()),
            (Purpose::Worksheet(_), Field::Title) => Some(format!("PIPING WORKSHEET{}", answered_only(" KEY"))),
            (Purpose::Working, Field::Title) => Some("WORKSHEET KEY".to_owned()),
            (Purpose::Lecture, Field::Title) => Some("SIZING STEP BY STEP".to_owned()),
            // A student signs in the cells of a license.
            (Purpose::Worksheet(_), Field::LicenceHolder | Field::Licence | Field::Permit) => Some(String::new()),
            (Purpose::Worksheet(asked), Field::Load) => {
                Some(asked.put(Blank::Loads, field.value(job, &checked.study, profile)))
            }
            (Purpose::Worksheet(_) | Purpose::Working | Purpose::Lecture, Field::Drawing) => {
                Some(own_number("EX", &job.title.drawing))
            }
            (_, Field::Status) => self.status(job, checked, profile).map(str::to_owned),
            (Purpose::Study(number), Field::Drawing) => Some(format!("ST-{number}")),
            (Purpose::Plan, Field::Drawing) => Some(own_number("PL", &job.title.drawing)),
            (Purpose::Pieces | Purpose::Work, Field::Drawing) => Some(of_work(&job.title.drawing)),
            (_, Field::Drawing) if job.title.status == Status::Exercise => Some(own_number("EX", &job.title.drawing)),
            (_, Field::Drawing) if job.title.status == Status::Study => Some(own_number("ST", &job.title.drawing)),
            (
                Purpose::Issue
                | Purpose::Study(_)
                | Purpose::Pieces
                | Purpose::Plan
                | Purpose::Work
                | Purpose::Worksheet(_)
                | Purpose::Working
                | Purpose::Lecture,
                _,
            ) => None,
        };
        own.unwrap_or_else(|| field.value(job, &checked.study, profile))
    }

    /// What the drawing is issued for, where that is not what the job says.
    fn status(self, job: &Job, checked: &Checked, profile: &Profile) -> Option<&'static str> {
        match (self, job.title.status, is_ready(checked)) {
            (Purpose::Worksheet(_) | Purpose::Working | Purpose::Lecture, _, _) => Some("EXERCISE, NOT FOR PERMIT"),
            (Purpose::Study(_), _, _) | (_, Status::Study, _) => Some("NOT FOR PERMIT"),
            // A sheet to work from may be all that somebody has in hand.
            (_, Status::ForPermit, false) => Some("NOT READY FOR PERMIT"),
            (_, Status::AsBuilt, false) => Some("AS BUILT, NOT READY"),
            (_, Status::Exercise, false) => Some("EXERCISE, NOT READY"),
            (Purpose::Pieces | Purpose::Plan | Purpose::Work, Status::ForPermit, true) => Some("FOR FIELD USE"),
            (Purpose::Issue, Status::ForPermit, true) if profile.sizes_want_checking() => {
                Some("CHECK SIZES, FOR PERMIT")
            }
            (Purpose::Issue | Purpose::Pieces | Purpose::Plan | Purpose::Work, _, true) => None,
        }
    }

    /// Whether its first sheet keeps room for the office's stamp: only where there is something to be stamped.
    pub fn has_stamp(self, job: &Job, checked: &Checked) -> bool {
        match (self, job.title.status) {
            (Purpose::Issue, Status::ForPermit | Status::AsBuilt) => is_ready(checked),
            (
                Purpose::Issue
                | Purpose::Study(_)
                | Purpose::Pieces
                | Purpose::Plan
                | Purpose::Work
                | Purpose::Worksheet(_)
                | Purpose::Working
                | Purpose::Lecture,
                _,
            ) => false,
        }
    }
}

/// Whether nothing must be fixed first, and the pressure from which all figures start is known, whatever findings a
/// profile leaves out.
fn is_ready(checked: &Checked) -> bool {
    let study = &checked.study;
    let known = study.zones.iter().all(|zone| zone.inlet.is_some());
    checked.is_clear() && study.network.supply.is_some() && known
}

/// The number of the sheets to work from, which are a set of their own: `W-1` beside `G-1`.
fn of_work(typed: &str) -> String {
    match typed.trim().split_once('-') {
        Some((letters, number)) if letters.chars().all(char::is_alphabetic) => format!("W-{number}"),
        _ => own_number("W", typed),
    }
}

/// The number of the drawing of an exercise or a study: one of its own, so that none is taken for a permit drawing.
fn own_number(letters: &str, typed: &str) -> String {
    match typed.trim() {
        "" => format!("{letters}-1"),
        typed if typed.to_uppercase().starts_with(letters) => typed.to_owned(),
        typed => format!("{letters}-{typed}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codebook::Codebook;
    use crate::job::{Device, Joint, JointId, LatticePoint, Placed, Supply};

    fn says(purpose: Purpose, field: Field, job: &Job) -> String {
        let book = Codebook::published();
        purpose.value(field, job, &Checked::of(job, book), book.default_profile())
    }

    #[test]
    fn studies_and_exercises_have_numbers_of_their_own_and_no_stamp() {
        let mut job = Job::default();
        job.title.drawing = "G-9".to_owned();
        let checked = Checked::of(&job, Codebook::published());
        assert_eq!(says(Purpose::Issue, Field::Drawing, &job), "G-9");
        assert_eq!(says(Purpose::Study(2), Field::Drawing, &job), "ST-2");
        for (typed, said) in [("G-9", "W-9"), ("7", "W-7"), ("", "W-1"), ("2026-5", "W-2026-5")] {
            job.title.drawing = typed.to_owned();
            assert_eq!(says(Purpose::Work, Field::Drawing, &job), said);
        }
        job.title.status = Status::Exercise;
        for (typed, said) in [("G-9", "EX-G-9"), ("ex-4", "ex-4"), (" ", "EX-1")] {
            job.title.drawing = typed.to_owned();
            assert_eq!(says(Purpose::Issue, Field::Drawing, &job), said);
        }
        job.title.status = Status::Study;
        job.title.drawing = "G-9".to_owned();
        assert_eq!(says(Purpose::Issue, Field::Drawing, &job), "ST-G-9");
        for purpose in [Purpose::Issue, Purpose::Study(1), Purpose::Pieces, Purpose::Work] {
            assert!(!purpose.has_stamp(&job, &checked));
        }
    }

    /// Whatever the job is issued for: without a delivery pressure no sheet of it says that it is for a permit.
    #[test]
    fn a_job_without_delivery_pressure_is_ready_for_nothing() {
        let mut job = Job::default();
        let mut joint = Joint {
            id: JointId(1),
            at: LatticePoint::new(0, 0, 0),
            ..Joint::default()
        };
        joint.placed = Some(Placed::new(Device::Supply(Supply::default())));
        job.joints.insert(joint);
        for (status, said) in [
            (Status::ForPermit, "NOT READY FOR PERMIT"),
            (Status::AsBuilt, "AS BUILT, NOT READY"),
            (Status::Exercise, "EXERCISE, NOT READY"),
            (Status::Study, "NOT FOR PERMIT"),
        ] {
            job.title.status = status;
            for purpose in [Purpose::Issue, Purpose::Pieces, Purpose::Work] {
                assert_eq!(says(purpose, Field::Status, &job), said);
            }
            assert_eq!(says(Purpose::Study(1), Field::Status, &job), "NOT FOR PERMIT");
        }
    }
}
