//! What the sheets of a job are asked for: their matter, and the issue that the job is compared with.

use super::matter::Matter;
use crate::changes::Changes;

/// Whether the drawing on sheets has its drawn lengths arranged so that it can be read: see [`crate::arrange`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Arrange {
    /// Where that mends something: strangers that meet, or words that find no room.
    #[default]
    WhenNeeded,
    /// In any case.
    Always,
    /// Not at all: as a person drew it.
    Never,
}

/// What sheets are asked for.
#[derive(Clone, Copy, Debug, Default)]
pub struct About<'a> {
    /// What they are about.
    pub matter: Matter<'a>,
    /// What changed since the job was issued: clouded on the drawing, and listed. Studies show none of it.
    pub since: Option<&'a Changes>,
    /// Whether drawn lengths are arranged.
    pub arrange: Arrange,
}

impl<'a> From<Matter<'a>> for About<'a> {
    fn from(matter: Matter<'a>) -> About<'a> {
        About {
            matter,
            ..About::default()
        }
    }
}
