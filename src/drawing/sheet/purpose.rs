//! What a sheet is for, as its title block says it: nobody is to take a study or a sheet to work from for a permit
//! drawing.

use super::field::Field;
use crate::job::{Job, Status};
use crate::study::Study;

/// What a sheet is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Purpose {
    /// To be issued, as the job says for what.
    #[default]
    Issue,
    /// A study of the job.
    Study,
    /// The drawing of the pieces.
    Pieces,
    /// Any other sheet to work from.
    Work,
}

impl Purpose {
    /// What a field says where that is not what it says on a sheet to be issued.
    pub fn says(self, field: Field, job: &Job, study: &Study) -> Option<&'static str> {
        match (self, field) {
            (Purpose::Study, Field::Title) => Some("STUDY OF GAS PIPING"),
            (Purpose::Study, Field::Status) => Some("NOT FOR PERMIT"),
            (Purpose::Pieces, Field::Title) => Some("GAS PIPE TO CUT"),
            (Purpose::Work, Field::Title) => Some("GAS PIPING WORK SHEET"),
            // A sheet to work from may be all that somebody has in hand.
            (Purpose::Pieces | Purpose::Work, Field::Status) if !study.is_clear() => Some("NOT READY"),
            (Purpose::Pieces | Purpose::Work, Field::Status) if job.title.status == Status::ForPermit => {
                Some("FOR WORK")
            }
            (Purpose::Issue | Purpose::Study | Purpose::Pieces | Purpose::Work, _) => None,
        }
    }

    /// What the empty space beside the title block is for.
    pub const fn space(self) -> &'static str {
        match self {
            Purpose::Issue | Purpose::Study => "Space for the office's stamp",
            Purpose::Pieces | Purpose::Work => "Space for notes",
        }
    }
}
