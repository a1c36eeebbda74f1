//! The letter of an outlet in the file: `letter: "B"`.

use crate::job;
use serde::{Deserialize, Serialize};

/// One letter.
#[derive(Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Letter(pub job::Letter);

impl From<Letter> for String {
    fn from(letter: Letter) -> String {
        letter.0.to_string()
    }
}

impl TryFrom<String> for Letter {
    type Error = String;

    fn try_from(text: String) -> Result<Letter, String> {
        text.parse().map(Letter)
    }
}
