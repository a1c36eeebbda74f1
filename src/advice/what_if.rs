//! What would be with more heat at a joint: which parts would be over their limit, those that are already and would have
//! to do more among them, and which outlet would be nearest to its least pressure.

use super::{Limiting, Lowest};
use crate::codebook::Codebook;
use crate::job::Job;
use crate::pressure::{DeviceStudy, RatingVerdict};
use crate::sizing::{Verdict, sentence};
use crate::study::Study;
use crate::units::{GaugePressure, HeatRate, PressureDrop, Show};

/// What would be, every size staying as drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct WhatIf {
    /// Parts that are within their limits now and would be over, in flow order, inlets and regulators last.
    pub fails: Vec<Limiting>,
    /// Parts that are over their limits now and would have to do more, or get less.
    pub already: Vec<Limiting>,
    /// The outlet that would be nearest to its least inlet pressure, or farthest below it.
    pub lowest: Option<Lowest>,
    /// Pressure at the joint itself.
    pub here: Option<GaugePressure>,
}

impl WhatIf {
    /// Looks at a job with so much more heat at a joint (its position in `job.joints`) beside the study of the job.
    pub fn of(job: &Job, book: &Codebook, now: &Study, joint: usize, more: HeatRate) -> WhatIf {
        let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
        let then = Study::with_more(job, book, profile, joint, more);
        let (mut fails, mut already) = (Vec::new(), Vec::new());
        let mut put = |part: Limiting, [was, is]: [bool; 2], worse: bool| match (was, is) {
            (false, true) => fails.push(part),
            (true, true) if worse => already.push(part),
            _ => {}
        };
        for (at, (now, then)) in now.sections.iter().zip(&then.sections).enumerate() {
            let over = [now, then].map(|section| section.sizing.verdict == Verdict::TooSmall);
            put(Limiting::Section(at), over, then.load.flow > now.load.flow);
        }
        for (now, then) in now.devices.iter().zip(&then.devices) {
            let (joint, name) = (then.joint, then.name());
            let over = [now, then].map(|device| device.verdict == RatingVerdict::Exceeded);
            put(Limiting::Device { joint, name }, over, then.flow > now.flow);
        }
        let short = |margin: Option<PressureDrop>| margin.is_some_and(|margin| margin.pa() < 0.0);
        for (now, then) in now.outlets.iter().zip(&then.outlets) {
            let low = [now, then].map(|outlet| short(outlet.margin));
            put(Limiting::Inlet(then.joint), low, then.pressure < now.pressure);
        }
        for (now, then) in now.devices.iter().zip(&then.devices) {
            let starved = [now, then].map(DeviceStudy::is_starved);
            put(Limiting::Setting(then.joint), starved, then.outlet < now.outlet);
        }
        WhatIf {
            fails,
            already,
            lowest: Lowest::of(&then),
            here: then.joints.get(joint).and_then(|joint| joint.pressure),
        }
    }

    /// Sentences for a person; `study` is that of the job as drawn.
    pub fn words(&self, job: &Job, study: &Study) -> Vec<String> {
        let units = study.names.units();
        let named = |parts: &[Limiting]| {
            let parts: Vec<String> = parts.iter().map(|part| part.words(job, study)).collect();
            parts.join(", ")
        };
        let mut said = Vec::new();
        if !self.already.is_empty() {
            said.push(format!(
                "Already over the limit, and worse with more: {}.",
                named(&self.already)
            ));
        }
        if !self.fails.is_empty() {
            said.push(format!("Would be over the limit: {}.", named(&self.fails)));
        }
        if said.is_empty() {
            said.push("Nothing known would be over its limit.".to_owned());
        }
        if let Some(here) = self.here {
            said.push(sentence(&format!("pressure here at full load: {}", here.show(units))));
        }
        if let Some(lowest) = &self.lowest {
            said.push(sentence(&format!(
                "closest to its minimum inlet: {}",
                lowest.words(units)
            )));
        }
        said
    }
}
