//! What the sheets of a job are asked for: their matter, and the issue that the job is compared with.

use super::matter::Matter;
use crate::changes::Changes;

/// What sheets are asked for.
#[derive(Clone, Copy, Debug, Default)]
pub struct About<'a> {
    /// What they are about.
    pub matter: Matter<'a>,
    /// What changed since the job was issued: clouded on the drawing, and listed. Studies show none of it.
    pub since: Option<&'a Changes>,
}

impl<'a> From<Matter<'a>> for About<'a> {
    fn from(matter: Matter<'a>) -> About<'a> {
        About { matter, since: None }
    }
}
