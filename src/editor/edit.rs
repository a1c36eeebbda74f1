//! The edits: each takes a job and what a person wants, and gives a step or says why not. None touches the job.
//!
//! One edit a file. All are put together in a draft, which refuses what would leave the job wrong.

mod arrange;
mod as_built;
mod delete;
mod fields;
mod fixes;
mod gap;
mod hinge;
mod join;
mod label;
mod lay;
mod mirror;
mod paste;
mod penetrate;
mod place;
mod remedy;
mod repeat;
mod reverse;
mod shift;
mod split;
mod tie_in;
mod variant;
mod words;

pub use super::cut::Cut;
pub use arrange::arrange_lengths;
pub use as_built::as_built;
pub use delete::{Gap, delete};
pub use fields::{JointField, RunField, set_joint, set_penetration, set_runs, set_state};
pub use fixes::{Fix, Fixes, Left};
pub use hinge::hinge;
pub use join::{join, shared_joint};
pub use label::{free_words, put_words};
pub use lay::{Lay, Pen, lay};
pub use mirror::mirror;
pub use paste::{Clipboard, copy, paste};
pub use penetrate::{penetrate, slide};
pub use place::{place, take_off};
pub use remedy::{NoRemedy, Remedy};
pub use repeat::{MOST_COPIES, repeat};
pub use reverse::reverse;
pub use shift::{Stretch, Stretched, Typed, shift, stretched};
pub use split::split;
pub use tie_in::tie_in;
pub(super) use variant::shared;
pub use variant::{add_variant, next_variant, open_as_variant, remove_variant, rename_variant, show_variant};
pub use words::{add_extra, add_note, set_extra, set_gas, set_note, set_settings, set_step, set_title};

use super::draft::Draft;
use super::{Part, Refusal, Spot};
use crate::job::{Joint, JointId};
use crate::study::how_many;

/// The joint at a spot: the one that is there, else a new one in the run there, else a new one in the open.
fn stand(draft: &mut Draft, spot: Spot) -> Result<JointId, Refusal> {
    if let Some(joint) = draft.joint_at(spot.at) {
        return Ok(joint);
    }
    match draft.run_over(spot.at, spot.on) {
        Some(run) => split::cut(draft, run, spot.at, spot.cut()),
        None => Ok(draft.add_joint(Joint {
            at: spot.at,
            ..Joint::default()
        })),
    }
}

/// "R3" for a single part, else "4 parts".
fn named(mut parts: impl Iterator<Item = Part>) -> String {
    match (parts.next(), parts.count()) {
        (Some(part), 0) => part.to_string(),
        (first, more) => how_many(more + usize::from(first.is_some()), "part"),
    }
}
