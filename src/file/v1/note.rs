//! Notes in the file.

use serde::{Deserialize, Serialize};

use super::usual;
use super::words_at::{self, WordsAt};
use crate::job::{self, JointId};

/// `(at: 3, text: "…")`
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Note {
    /// The joint that it points at.
    pub at: u32,
    text: String,
    #[serde(default, skip_serializing_if = "usual")]
    pub words_at: WordsAt,
}

impl From<&job::Note> for Note {
    fn from(note: &job::Note) -> Note {
        Note {
            at: note.at.0,
            text: note.text.clone(),
            words_at: words_at::written(note.words_at),
        }
    }
}

impl From<Note> for job::Note {
    fn from(note: Note) -> job::Note {
        job::Note {
            at: JointId(note.at),
            text: note.text,
            words_at: words_at::known(note.words_at),
        }
    }
}
