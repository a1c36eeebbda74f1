//! Notes in the file.

use serde::{Deserialize, Serialize};

use crate::job::{self, JointId};

/// `(at: 3, text: "…")`
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Note {
    /// The joint that it points at.
    pub at: u32,
    text: String,
}

impl From<&job::Note> for Note {
    fn from(note: &job::Note) -> Note {
        Note {
            at: note.at.0,
            text: note.text.clone(),
        }
    }
}

impl From<Note> for job::Note {
    fn from(note: Note) -> job::Note {
        job::Note {
            at: JointId(note.at),
            text: note.text,
        }
    }
}
