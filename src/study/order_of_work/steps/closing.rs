//! After the test: joined to what stands, filled with gas, searched for leaks, lit, and closed up.

use super::making::{counted, stays_off};
use super::{Work, step};
use crate::job::{Device, Material, Run, State, Surroundings};
use crate::study::order_of_work::isolation::Fate;
use crate::study::order_of_work::{PRACTICE, Step};
use crate::study::{OutletKind, Place, sinks};

impl Work<'_> {
    pub(super) fn join(&self) -> Option<Step> {
        let outlets = self.new_appliances();
        let mut places: Vec<Place> = self.shut.work.iter().map(|&joint| self.joint(joint)).collect();
        places.extend(outlets.iter().map(|&joint| self.joint(joint)));
        places.dedup();
        if places.is_empty() {
            return None;
        }
        let kept_off = counted(self.new_devices().filter(|(_, device)| stays_off(device)));
        let put_in = match kept_off.as_str() {
            "" => String::new(),
            kept_off => format!(" Put in what stayed off: {kept_off}."),
        };
        let words = format!(
            "With the gas still shut off: let the test pressure out, take the gauge away, and join the new pipe where it was \
             closed at old pipe or supply.{put_in} Connect the new appliances by their makers' instructions."
        );
        step("join", "Join", places, PRACTICE, words)
    }

    pub(super) fn paint(&self) -> Option<Step> {
        let steel =
            |run: &Run| run.surroundings == Surroundings::Outdoors && self.job.material(run) == Material::Steel40;
        let places = self.runs_where(steel);
        if places.is_empty() {
            return None;
        }
        let words = "Once no leak is found: paint or coat new steel outdoors against rust, joints and fittings too, never before, \
                     for paint hides a leak; not valve stems, vents or rating plates. The colour is the place's to say.";
        step(
            "paint",
            "Paint",
            places,
            "CPC 2013 1210.2; Oregon State University standard 23 11 00 (exposed steel painted); the rest common practice, no source",
            words,
        )
    }

    pub(super) fn purge(&self) -> Option<Step> {
        let places = self.runs_where(|_| true);
        if places.is_empty() && self.shut.goes_out.is_empty() {
            return None;
        }
        let fuel = sinks(self.study.gas.fuel);
        let words = format!(
            "See first that every end and every valve without an appliance is capped or plugged. Let gas in slowly, listen and \
             smell, shut it again at once where it leaks, and purge the air out of all pipe that was opened, as the test sheet \
             has it: to the outdoors where length or pressure asks for it, else while somebody watches and the room is aired; no \
             flame or spark near.{fuel}"
        );
        step(
            "purge",
            "Purge",
            places,
            "fuel gas codes (NFPA 54-2012, table 8.3.1), read; the rest common practice, no source",
            words,
        )
    }

    pub(super) fn leak_check(&self) -> Option<Step> {
        let mut places: Vec<Place> = self.shut.work.iter().map(|&joint| self.joint(joint)).collect();
        places.extend(self.runs_where(|_| true));
        let words = "At working pressure look for leaks at every joint that was opened or made, tie-ins and connectors too, with a \
                     leak-detection solution or a gas detector, never with a flame."
            .to_owned();
        let has_meter = self.job.joints.iter().any(|joint| match joint.device() {
            Some(Device::Meter(_)) => true,
            Some(Device::Supply(supply)) => supply.meter.is_some(),
            _ => false,
        });
        let words = match has_meter {
            true => words + " See that the meter stands still while everything is off.",
            false => words,
        };
        step("leak-check", "Look for leaks", places, PRACTICE, words)
    }

    pub(super) fn relight(&self) -> Option<Step> {
        let relit = self.of_fate(Fate::Relit);
        let is_relit = |joint: usize| relit.iter().any(|out| Place::Joint(out.joint) == self.joint(joint));
        let mut lines = Vec::new();
        let mut places = Vec::new();
        for outlet in self
            .study
            .outlets
            .iter()
            .filter(|outlet| outlet.kind == OutletKind::Appliance)
        {
            let id = self.job.joints.at(outlet.joint).id;
            let is_new = self.is_new(outlet.joint);
            let how = match (is_new, is_relit(outlet.joint)) {
                (true, _) => "start",
                (false, true) => "relight",
                (false, false) => continue,
            };
            lines.push(format!("{how} {}", self.lettered(&outlet.called(), id)));
            places.push(Place::Joint(id));
        }
        let cut_off = self.of_fate(Fate::CutOff);
        let mut words = match lines.is_empty() {
            true => String::new(),
            false => format!(
                "In the order of the gas: {}. Each by its maker's instructions; see that flame, draught and safeties work.",
                lines.join(", ")
            ),
        };
        if !lines.is_empty() {
            words += " With all of them burning read the pressure at each inlet and hold it against the rating plate.";
            if self
                .new_devices()
                .any(|(_, device)| matches!(device, Device::Regulator(_)))
            {
                words += " Set each new line regulator to the outlet pressure that is drawn, and see that it holds with nothing burning.";
            }
        }
        if !cut_off.is_empty() {
            words += &format!(
                " No gas reaches {} after the work as drawn: leave it off, and its connection capped.",
                self.names(&cut_off)
            );
            places.extend(self.places(&cut_off));
        }
        if places.is_empty() {
            return None;
        }
        step("relight", "Relight", places, PRACTICE, words.trim().to_owned())
    }

    pub(super) fn seal(&self) -> Option<Step> {
        let places = self.runs_where(|run| !run.penetrations.is_empty());
        if places.is_empty() {
            return None;
        }
        let words = "Seal the gaps around pipe in walls, floors and roofs: an outside wall at its outside face, with a sleeve both \
                     gaps; a foundation wall both gaps; where a wall or floor holds back fire, with what is listed for it.";
        step(
            "seal",
            "Seal",
            places,
            "CPC 2013 1210.2, 1210.1.5 (outside and foundation walls); the rest common practice, no source",
            words,
        )
    }

    /// Joints of new appliances that gas reaches, in flow order.
    fn new_appliances(&self) -> Vec<usize> {
        let outlets = self
            .study
            .outlets
            .iter()
            .filter(|outlet| outlet.kind == OutletKind::Appliance);
        outlets
            .map(|outlet| outlet.joint)
            .filter(|&joint| self.is_new(joint))
            .collect()
    }

    /// Whether what stands at a joint is new.
    fn is_new(&self, joint: usize) -> bool {
        let placed = self.job.joints.at(joint).placed.as_ref();
        placed.is_some_and(|placed| placed.state == State::New)
    }
}
