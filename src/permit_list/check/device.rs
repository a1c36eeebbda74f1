//! Items about what stands on joints: devices, appliances and what they burn.

use super::said::{Said, Sorted};
use super::{Look, said};
use crate::job::{Appliance, Cap, Device, Joint, Run, State};
use crate::network::OutletKind;
use crate::permit_list::Tick;
use crate::rules::regulators_without_union;
use crate::study::Place;
use crate::units::UnitSystem;

impl<'a> Look<'a> {
    pub(super) fn devices_of(&self, which: impl Fn(&Device) -> bool) -> impl Iterator<Item = &'a Joint> {
        self.job
            .joints
            .iter()
            .filter(move |joint| joint.device().is_some_and(&which))
    }

    pub(super) fn devices(&self, which: impl Fn(&Device) -> bool, by: &str, lacks: &str) -> Said {
        let places = |joint: &Joint| Place::Joint(joint.id);
        let found: Vec<Place> = self.devices_of(which).map(places).collect();
        match found.is_empty() {
            true => said(Tick::Missing, Some("joint: device"), lacks),
            false => Said {
                places: found,
                ..said(Tick::Shown, Some("joint: device"), format!("{by} on the drawing"))
            },
        }
    }

    pub(super) fn appliances(&self, by: &str, lacks: &str, shows: impl Fn(&Appliance) -> bool) -> Said {
        let all = self.devices_of(|device| matches!(device, Device::Appliance(_)));
        let shows = |joint: &&Joint| match joint.device() {
            Some(Device::Appliance(appliance)) => shows(appliance),
            _ => false,
        };
        let none = said(Tick::Missing, Some("joint: device"), "No appliance is drawn.");
        Sorted::of(all, |joint| Place::Joint(joint.id), shows).said("appliance", by, lacks, none)
    }

    pub(super) fn supply(&self) -> Said {
        self.devices(
            |device| matches!(device, Device::Supply(_)),
            "the point of delivery",
            "No point of delivery is drawn.",
        )
    }

    pub(super) fn pressure(&self) -> Said {
        let all = self.devices_of(|device| matches!(device, Device::Supply(_)));
        let usable = |joint: &&Joint| match joint.device() {
            Some(Device::Supply(supply)) => supply
                .pressure
                .is_some_and(|pressure| pressure.pa().is_finite() && pressure.pa() > 0.0),
            _ => false,
        };
        let none = said(
            Tick::Missing,
            Some("supply: pressure"),
            "No point of delivery is drawn.",
        );
        Sorted::of(all, |joint| Place::Joint(joint.id), usable).said(
            "supply: pressure",
            "the delivery pressure, in the title block",
            "the delivery pressure is not a usable figure",
            none,
        )
    }

    pub(super) fn regulator_union(&self) -> Said {
        let regulators = self.devices_of(|device| matches!(device, Device::Regulator(_)));
        let lacking = regulators_without_union(self.job, self.book, self.study);
        let near = |joint: &&Joint| {
            let position = self.job.joints.position(joint.id);
            position.is_some_and(|at| !lacking.contains(&at))
        };
        let none = self.nothing("no line regulator");
        let (each, lacking) = match self.job.settings.units {
            UnitSystem::Us => (
                "each line regulator on rigid pipe with a union within 1 ft",
                "a line regulator on rigid pipe with no union within 1 ft",
            ),
            UnitSystem::Metric | UnitSystem::MetricKpa => (
                "each line regulator on rigid pipe with a union within 305 mm",
                "a line regulator on rigid pipe with no union within 305 mm",
            ),
        };
        Sorted::of(regulators, |joint| Place::Joint(joint.id), near).said("joint: device", each, lacking, none)
    }

    pub(super) fn outlets(&self) -> Said {
        let serves_something = |joint: &&Joint| match joint.device() {
            Some(Device::Appliance(appliance)) => !appliance.name.trim().is_empty(),
            Some(Device::Cap(Cap { future_input, .. })) => future_input.is_some(),
            _ => false,
        };
        let joints = self.study.outlets.iter().map(|outlet| self.job.joints.at(outlet.joint));
        let none = said(
            Tick::Missing,
            Some("joint: device"),
            "No outlet is connected to the gas supply.",
        );
        Sorted::of(joints, |joint| Place::Joint(joint.id), serves_something).said(
            "appliance: name",
            "each outlet with its letter and what it serves, in the schedule",
            "an outlet that does not say what it serves",
            none,
        )
    }

    pub(super) fn total(&self) -> Said {
        let field = Some("appliance: input");
        let heats = self
            .study
            .outlets
            .iter()
            .filter(|outlet| outlet.kind == OutletKind::Appliance);
        let unknown = heats.clone().filter(|outlet| outlet.heat.is_none());
        let lacking: Vec<Place> = unknown
            .map(|outlet| Place::Joint(self.job.joints.at(outlet.joint).id))
            .collect();
        if heats.count() == 0 {
            return said(Tick::Missing, field, "No appliance is connected to the gas supply.");
        }
        match lacking.is_empty() {
            true => said(
                Tick::Shown,
                field,
                "the total load, in the title block and under the schedule",
            ),
            false => Said {
                places: lacking,
                ..said(
                    Tick::Missing,
                    field,
                    "The total leaves out an appliance with no input entered.",
                )
            },
        }
    }

    pub(super) fn makers_data(&self) -> Said {
        let needs = |placed: &&crate::job::Placed| placed.state == State::New && placed.device.nature().has_makers_data;
        let is_csst = |run: &Run| run.state == State::New && self.job.material(run).is_corrugated();
        let mut placed = self.job.joints.iter().filter_map(|joint| joint.placed.as_ref());
        match placed.any(|placed| needs(&placed)) || self.job.runs.iter().any(is_csst) {
            true => said(
                Tick::ByHand,
                None,
                "Submit the manufacturers' data of new appliances, regulators and tubing.",
            ),
            false => self.nothing("no new appliance, regulator or corrugated tubing"),
        }
    }
}
