//! What stands outdoors before an outlet, fitting by fitting, as it is put on.

use super::making::stays_off;
use super::{Work, step};
use crate::fittings::FittingKind;
use crate::job::{Barrier, Device, State, Surroundings};
use crate::study::Place;
use crate::work::{PRACTICE, Step};

/// The part of a line from where it comes out, or from its last branching, to its outlet.
struct Stub {
    outlet: usize,
    /// Its joints in the way of the gas, as far as pipe leads.
    joints: Vec<usize>,
}

impl Work<'_> {
    /// Joints whose parts are named in the step for outdoor parts.
    pub(super) fn fitted_outside(&self) -> Vec<usize> {
        let stubs = self.stubs().into_iter().filter(|stub| self.parts_of(stub).len() > 1);
        stubs.flat_map(|stub| stub.joints).collect()
    }

    fn parts_of(&self, stub: &Stub) -> Vec<String> {
        stub.joints.iter().flat_map(|&joint| self.parts_at(joint)).collect()
    }

    pub(super) fn fit_outside(&self) -> Option<Step> {
        let mut said = Vec::new();
        let mut places = Vec::new();
        for stub in self.stubs() {
            let parts = self.parts_of(&stub);
            if parts.len() < 2 {
                continue;
            }
            said.push(format!("for {}: {}", self.named(stub.outlet), parts.join(", ")));
            let has_part = |joint: &&usize| !self.parts_at(**joint).is_empty();
            places.extend(stub.joints.iter().filter(has_part).map(|&joint| self.joint(joint)));
        }
        if said.is_empty() {
            return None;
        }
        let words = format!(
            "Install outdoors in this order, in the direction of flow: {}. Use a backup wrench on each, so that no joint already made up turns.",
            said.join("; ")
        );
        let places = super::opening::unique(places.into_iter());
        step("fit-outside", "Install outdoor parts", places, PRACTICE, words)
    }

    /// The new stubs that end outdoors, in flow order.
    fn stubs(&self) -> Vec<Stub> {
        let outlets = self.study.outlets.iter().map(|outlet| outlet.joint);
        let stubs = outlets.filter_map(|outlet| {
            let stub = self.stub(outlet);
            (!stub.joints.is_empty()).then_some(stub)
        });
        stubs.collect()
    }

    fn stub(&self, outlet: usize) -> Stub {
        let network = &self.study.network;
        let mut joints = Vec::new();
        let mut at = outlet;
        while let (Some(run), Some(above)) = (network.feed[at], network.upstream(at)) {
            let drawn = self.job.runs.at(run);
            let is_hose = self.study.runs[run].is_hose;
            let comes_out = drawn
                .penetrations
                .iter()
                .any(|passage| passage.barrier != Barrier::Ground);
            let lies_out = drawn.surroundings == Surroundings::Outdoors;
            if drawn.state != State::New || !(lies_out || comes_out) {
                break;
            }
            // What stands behind the coupling belongs to the hose.
            if !is_hose && at != outlet {
                joints.push(at);
            }
            if comes_out || network.onward(above).count() > 1 {
                break;
            }
            at = above;
        }
        joints.reverse();
        Stub { outlet, joints }
    }

    /// Fittings and devices at a joint, as they are put on: an elbow or tee, the reducing coupling before a device, the
    /// device.
    fn parts_at(&self, joint: usize) -> Vec<String> {
        let names = self.study.names;
        let id = self.job.joints.at(joint).id;
        let here = self.study.fittings.iter().filter(|fitting| fitting.joint == joint);
        let fittings = here.filter(|fitting| fitting.is_new_work() && fitting.kind != FittingKind::TrapNipple);
        let sized = fittings.map(|fitting| format!("{} {} ({id})", fitting.kind.name(), fitting.sizes_named(names)));
        let placed = self.job.joints.at(joint).placed.as_ref();
        let new = placed.filter(|placed| placed.state == State::New);
        let device = new.and_then(|placed| match &placed.device {
            Device::Appliance(_) | Device::Supply(_) | Device::TestGauge | Device::Cap(_) => None,
            device if stays_off(device) => Some(format!("after the test {} ({id})", device.name())),
            device => Some(format!("{} ({id})", device.name())),
        });
        sized.chain(device).collect()
    }
}

impl Work<'_> {
    /// The joints of connectors and couplings that lead to new outlets, as places.
    pub(super) fn connector_joints(&self) -> Vec<Place> {
        let new = self
            .new_devices()
            .filter(|(_, device)| device.nature().starts_connector);
        new.map(|(joint, _)| self.joint(joint)).collect()
    }
}
