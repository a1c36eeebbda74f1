//! Nipples that no run shows: between two female threads that are drawn at one place.

use crate::codebook::Codebook;
use crate::fittings::{FittingKind, Takes};
use crate::job::{Device, Job, State};
use crate::study::Study;
use crate::units::{Length, NominalSize, UnitSystem};

/// A nipple between a fitting and a device, or two fittings, of one joint.
#[derive(Clone, Debug, PartialEq)]
pub struct JointNipple {
    /// Its mark on the list: "N1".
    pub mark: String,
    /// Its joint, a position in `job.joints`.
    pub joint: usize,
    /// Its size, when it is known.
    pub size: Option<NominalSize>,
    /// Its length: the shortest standard one that the profile allows; `None` where none is listed.
    pub length: Option<Length>,
    /// Whether it is the close nipple of its size, threaded from end to end.
    pub close: bool,
    /// What it joins.
    pub between: [String; 2],
}

impl JointNipple {
    /// All that are to be bought, in the order of the joints.
    pub(crate) fn all(job: &Job, study: &Study, book: &Codebook) -> Vec<JointNipple> {
        let profile = book.profile(&study.profile).unwrap_or(book.default_profile());
        let nipples = study.fittings.iter();
        let nipples = nipples.filter(|it| (it.kind, it.state) == (FittingKind::Nipple, State::New));
        let made = nipples.enumerate().map(|(at, nipple)| {
            let size = nipple.sizes.first().copied();
            let close = size
                .and_then(|size| book.nipples(size))
                .map(|nipples| nipples.close.value);
            let length = size.and_then(|size| book.shortest_nipple(profile, size));
            let length = length.map(|length| length.value);
            let name = |takes: Takes| match takes {
                Takes::Fitting(at) => study.fittings[at].kind.name(),
                Takes::Device => device(job, nipple.joint),
                Takes::Run(_) | Takes::Nothing => String::new(),
            };
            let mut between = nipple.ports.iter().map(|port| name(port.takes));
            JointNipple {
                mark: format!("N{}", at + 1),
                joint: nipple.joint,
                size,
                length,
                close: length.is_some() && length == close,
                between: [between.next().unwrap_or_default(), between.next().unwrap_or_default()],
            }
        });
        made.collect()
    }

    /// What it is, as a cut list has it: `close nipple 1 1/8 in`, `nipple 2 in`.
    pub fn made(&self, units: UnitSystem) -> String {
        match (self.length, self.close) {
            (Some(length), true) => format!("close nipple {}", length.show_short(units)),
            (Some(length), false) => format!("nipple {}", length.show_short(units)),
            (None, _) => "nipple, length not known".to_owned(),
        }
    }
}

fn device(job: &Job, joint: usize) -> String {
    let device = job.joints.at(joint).device();
    device.map(Device::name).unwrap_or_default().to_owned()
}
