//! What would be with more heat at a joint: which parts that hold now would fail, and which outlet would be nearest to
//! its least pressure.

use super::carrier::sentence;
use super::{Limiting, Lowest, RatingVerdict, Study, Verdict};
use crate::codebook::Codebook;
use crate::job::Job;
use crate::units::{GaugePressure, HeatRate, PressureDrop, Show};

/// What would be, every size staying as drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct WhatIf {
    /// Parts that hold now and would fail, in flow order, inlets last.
    pub fails: Vec<Limiting>,
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
        let mut fails = Vec::new();
        for (at, (now, then)) in now.sections.iter().zip(&then.sections).enumerate() {
            if then.sizing.verdict == Verdict::TooSmall && now.sizing.verdict != Verdict::TooSmall {
                fails.push(Limiting::Section(at));
            }
        }
        for (now, then) in now.devices.iter().zip(&then.devices) {
            if then.verdict == RatingVerdict::Exceeded && now.verdict != RatingVerdict::Exceeded {
                let (joint, name) = (then.joint, then.name);
                fails.push(Limiting::Device { joint, name });
            }
        }
        let short = |margin: Option<PressureDrop>| margin.is_some_and(|margin| margin.pa() < 0.0);
        for (now, then) in now.outlets.iter().zip(&then.outlets) {
            if short(then.margin) && !short(now.margin) {
                fails.push(Limiting::Inlet(then.joint));
            }
        }
        WhatIf {
            fails,
            lowest: Lowest::of(&then),
            here: then.joints.get(joint).and_then(|joint| joint.pressure),
        }
    }

    /// Sentences for a person; `study` is that of the job as drawn.
    pub fn words(&self, job: &Job, study: &Study) -> Vec<String> {
        let units = job.settings.units;
        let mut said = vec![match self.fails.as_slice() {
            [] => "No part that holds now would fail.".to_owned(),
            parts => {
                let parts: Vec<String> = parts.iter().map(|part| part.words(job, study)).collect();
                format!("Would fail: {}.", parts.join(", "))
            }
        }];
        if let Some(here) = self.here {
            said.push(sentence(&format!("pressure here at full load: {}", here.show(units))));
        }
        if let Some(lowest) = &self.lowest {
            said.push(sentence(&format!(
                "nearest to its least inlet: {}",
                lowest.words(units)
            )));
        }
        said
    }
}
