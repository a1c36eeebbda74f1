//! Shutoff valves before old appliances whose line is laid anew: what is newly piped must have one.

use super::super::Cut;
use super::super::split::cut;
use super::pressure::room_before;
use super::{Change, NoRemedy};
use crate::codebook::Codebook;
use crate::editor::draft::Draft;
use crate::job::{Device, Job, JointId, Placed, Valve};
use crate::study::Study;

/// A valve before each of these appliances, at the nearest place on its own line where one can be drawn.
///
/// # Errors
/// When none of them has room for one.
pub fn valves(job: &Job, book: &Codebook, appliances: &[JointId]) -> Result<Change, NoRemedy> {
    let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
    let study = Study::under(job, book, profile);
    let mut draft = Draft::new(job);
    let mut does = Vec::new();
    for outlet in &study.outlets {
        let wanted = appliances.contains(&job.joints.at(outlet.joint).id);
        let Some((run, place)) = room_before(job, &study, outlet.joint).filter(|_| wanted) else {
            continue;
        };
        let joint = cut(&mut draft, run, place, Cut::InProportion)?;
        draft.joint_mut(joint)?.placed = Some(Placed::new(Device::Valve(Valve::default())));
        does.push(format!(
            "Shutoff valve ahead of {}, whose line is rerun: a new one, or the existing one where it serves.",
            outlet.called()
        ));
    }
    match does.is_empty() {
        true => Err(NoRemedy::NothingToDo("there is no room drawn for a shutoff valve")),
        false => Ok(Change {
            step: draft.finish("Shutoff valves")?,
            does,
        }),
    }
}
