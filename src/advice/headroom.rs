//! Spare capacity: how much more can be taken at each joint before something is over its limit.
//!
//! What is added is an outlet that burns at any time and needs no further pipe or fitting, as
//! [`Study::with_more`](crate::study::Study::with_more) has it: it counts at its joint and at everything upstream, and every size
//! stays as drawn. Held against it are the capacity of each section on the way by the profile's method (Btu/h over heating
//! value, cfh, against the table's cell), the rating of each device on the way, the pressure at every appliance in the
//! tree whose rating plate tells its least one, and that at every line regulator, which is to keep its setting. Capacities
//! give the limit of a joint at once; pressures by halving between whole Btu/h, with only the way to the joint marched
//! anew: for every joint off the way stands the least pressure by which all behind it keep theirs. A job with a loop has
//! no headroom here ([`Headroom::loop_run`]).
//!
//! Where a part that would have to do more is over its limit already, nothing can be added: pipe and devices on the way,
//! and an inlet or a regulator anywhere that would get less still. Engineering information where a pressure limits, since
//! codes size by table. Where gas comes near 1.5 psig the law of friction changes and a load a little below a stated one
//! may lose a trace more than that one.

mod needs;

use crate::codebook::Codebook;
use crate::job::Job;
use crate::network::{Load, Meeting, Survey, meeting};
use crate::pressure::{Around, DeviceStudy, Leg, March, Obstacles, RatingVerdict, device, leg};
use crate::sizing::{Capacities, Origin, Section, Verdict, carrier, settle};
use crate::study::Study;
use crate::units::{Flow, HeatRate, Show};
use needs::{Needs, is_low, settings, short_already};

/// What can be added at every joint.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Headroom {
    /// For each joint, in the order of `job.joints`; `None` where no gas reaches it.
    pub joints: Vec<Option<Spare>>,
    /// What is over its limit with nothing added: sections and devices in flow order, then inlets.
    pub failing: Vec<Limiting>,
    /// A run that closes a loop, a position in `job.runs`. Then nothing was looked for, and all above is empty: what is
    /// held against loads here is a tree.
    pub loop_run: Option<usize>,
}

/// What can be added at one joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spare {
    /// How much, and what fails first; nothing, by what is over its limit already, where such a part would have to do
    /// more; `None` where nothing known would ever fail.
    pub limit: Option<Limit>,
    /// Sections on the way whose capacity nobody knows, and devices without a rated flow: they were held against nothing.
    pub unjudged: usize,
    /// The part that is over its limit already, would have to do more, and is nearest to the point of delivery: before it
    /// is mended nothing can be added.
    pub failing: Option<Limiting>,
}

/// The greatest load that can be added.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// Whole Btu/h; with one more a part fails.
    pub heat: HeatRate,
    /// That part; of several the one nearest to the point of delivery, pipe and devices before inlets.
    pub by: Limiting,
}

/// A part that limits. Numbers are positions in the study's tables and in `job.joints`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Limiting {
    /// A section, a position in `study.sections`.
    Section(usize),
    /// A rated device.
    Device {
        /// Its joint.
        joint: usize,
        /// The trade's name of it.
        name: &'static str,
    },
    /// The inlet pressure of the appliance at this joint.
    Inlet(usize),
    /// The setting of the line regulator at this joint.
    Setting(usize),
}

impl Limiting {
    /// The part by name; `study` is that of the job.
    pub fn words(self, job: &Job, study: &Study) -> String {
        let joint = |at: usize| job.joints.at(at).id;
        match self {
            Limiting::Section(at) => match study.sections.get(at) {
                Some(section) => format!("section {}", section.number),
                None => format!("section {}", at + 1),
            },
            Limiting::Device { joint: at, name } => format!("{name} at {}", joint(at)),
            Limiting::Inlet(at) => {
                let outlet = study.outlets.iter().find(|outlet| outlet.joint == at);
                let name = outlet.map_or_else(|| joint(at).to_string(), crate::network::Outlet::called);
                format!("inlet pressure of {name}")
            }
            Limiting::Setting(at) => format!("setting of the line regulator at {}", joint(at)),
        }
    }

    /// What is wrong with it already: "section 1 is over capacity already".
    fn already(self, job: &Job, study: &Study) -> String {
        let wrong = match self {
            Limiting::Section(_) | Limiting::Device { .. } => "over capacity",
            Limiting::Inlet(_) => "below its minimum",
            Limiting::Setting(_) => "not reached",
        };
        format!("{} is already {wrong}", self.words(job, study))
    }
}

impl Spare {
    /// How much more, and what is then first over its limit, with what must be said beside it; `study` is that of the job.
    pub fn words(&self, job: &Job, study: &Study) -> [String; 2] {
        let (heat, mut by) = match (self.failing, self.limit) {
            (Some(failing), _) => ("none".to_owned(), failing.already(job, study)),
            (None, Some(limit)) => (limit.heat.show(job.settings.units), limit.by.words(job, study)),
            (None, None) => ("no limit known".to_owned(), String::new()),
        };
        let mut say = |words: String| {
            if !by.is_empty() {
                by.push_str("; ");
            }
            by.push_str(&words);
        };
        match self.unjudged {
            0 => {}
            1 => say("1 part upstream is not judged".to_owned()),
            many => say(format!("{many} parts upstream are not judged")),
        }
        [heat, by]
    }
}

/// More than any house burns, Btu/h: nothing is looked for beyond.
const MOST: u64 = 1_000_000_000_000;

impl Headroom {
    /// Finds it for every joint of a job, under its own profile.
    pub fn of(job: &Job, book: &Codebook) -> Headroom {
        let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
        let survey = Survey::of(job, book, profile);
        if let Some(closing) = survey.network.closings.first() {
            return Headroom {
                joints: vec![None; job.joints.len()],
                failing: Vec::new(),
                loop_run: Some(closing.run),
            };
        }
        let meetings: Vec<Meeting> = (0..job.joints.len()).map(|joint| meeting::at(&survey, joint)).collect();
        let obstacles = Obstacles::find(&survey, &meetings);
        let capacities = Capacities::of(&survey);
        let settled = settle::settle(&survey, &obstacles, &capacities);
        let around = Around::of(&survey);
        let legs = leg::all(&survey, &around, &obstacles, &settled.drawn(&survey));
        let sections = settle::judged(&survey, &capacities, settled);
        let march = March::down(&survey, &around, &legs);
        let devices = device::all(&survey, &march);
        let tree = Tree {
            survey: &survey,
            around: &around,
            legs: &legs,
            needs: Needs::find(&survey, &around, &legs, &march),
            short: short_already(&survey, &legs, &march),
        };
        tree.headroom(&sections, &devices, &march)
    }
}

/// The greatest whole number up to a bound for which something holds, where it holds for all below too; `None` when it
/// does not hold for nothing.
fn last(most: u64, holds: impl Fn(u64) -> bool) -> Option<u64> {
    if !holds(0) {
        return None;
    }
    if holds(most) {
        return Some(most);
    }
    let (mut good, mut bad) = (0, most);
    while bad - good > 1 {
        let middle = good + (bad - good) / 2;
        if holds(middle) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    Some(good)
}

const fn heat(btuh: u64) -> HeatRate {
    HeatRate::from_btuh(btuh as f64)
}

/// What one part says of loads that pass it.
enum Word {
    /// So much can be added.
    Spare(u64),
    /// It fails already.
    Fails,
    /// Nobody knows.
    Unjudged,
}

struct Tree<'a> {
    survey: &'a Survey<'a>,
    around: &'a Around<'a>,
    legs: &'a [Option<Leg<'a>>],
    needs: Needs,
    /// For each joint the inlet or regulator, at it or behind it, that has too little already and would get less still with
    /// more flow to the joint.
    short: Vec<Option<Limiting>>,
}

/// What is found so far on the way to a joint.
#[derive(Clone, Copy)]
struct Found {
    spare: u64,
    by: Option<Limiting>,
    unjudged: usize,
    failing: Option<Limiting>,
}

impl Found {
    fn hear(&mut self, part: Limiting, word: Word) {
        match word {
            Word::Spare(spare) if spare < self.spare => (self.spare, self.by) = (spare, Some(part)),
            Word::Spare(_) => {}
            Word::Fails => self.failing = self.failing.or(Some(part)),
            Word::Unjudged => self.unjudged += 1,
        }
    }
}

impl Tree<'_> {
    fn headroom(&self, sections: &[Section], devices: &[DeviceStudy], march: &March) -> Headroom {
        let survey = self.survey;
        let of_sections: Vec<Option<Word>> = sections.iter().map(|section| self.of_section(section)).collect();
        let mut headroom = Headroom {
            joints: vec![None; survey.job.joints.len()],
            failing: Vec::new(),
            loop_run: None,
        };
        let mut devices = devices.iter().peekable();
        let mut found: Vec<Option<Found>> = vec![None; survey.job.joints.len()];
        for &joint in &survey.network.order {
            let upstream = survey.network.upstream(joint);
            let mut here = upstream.and_then(|upstream| found[upstream]).unwrap_or(Found {
                spare: MOST,
                by: None,
                unjudged: 0,
                failing: None,
            });
            let section = survey.network.feed[joint].and_then(|run| survey.section_of[run]);
            let entered = upstream.and_then(|upstream| survey.network.feed[upstream]);
            let starts = entered.and_then(|run| survey.section_of[run]) != section;
            if let Some(section) = section.filter(|_| starts)
                && let Some(word) = &of_sections[section]
            {
                let part = Limiting::Section(section);
                if matches!(word, Word::Fails) {
                    headroom.failing.push(part);
                }
                here.hear(part, word.again());
            }
            while let Some(device) = devices.next_if(|device| device.joint == joint) {
                let part = Limiting::Device {
                    joint,
                    name: device.name(),
                };
                let word = self.of_device(device);
                if matches!(word, Word::Fails) {
                    headroom.failing.push(part);
                }
                here.hear(part, word);
            }
            // What the point of delivery has is the same at any flow.
            if let Some(short) = self.short[joint].filter(|_| upstream.is_some()) {
                here.hear(short, Word::Fails);
            }
            if let Some(failing) = here.failing {
                (here.spare, here.by) = (0, Some(failing));
            }
            let way = self.way(joint);
            if here.failing.is_none()
                && let Some(spare) = last(here.spare, |more| self.short(&way, heat(more)).is_none())
                && spare < here.spare
            {
                (here.spare, here.by) = (spare, self.short(&way, heat(spare + 1)));
            }
            found[joint] = Some(here);
            let limit = here.by.map(|by| Limit {
                heat: heat(here.spare),
                by,
            });
            headroom.joints[joint] = Some(Spare {
                limit,
                unjudged: here.unjudged,
                failing: here.failing,
            });
        }
        let low = survey.outlets.iter().filter(|outlet| is_low(outlet, march));
        headroom.failing.extend(low.map(|outlet| Limiting::Inlet(outlet.joint)));
        let starved = settings(survey, self.legs).filter(|(joint, setting)| march.pressure[*joint] < Some(*setting));
        let starved = starved.filter(|(joint, _)| march.pressure[*joint].is_some());
        headroom
            .failing
            .extend(starved.map(|(joint, _)| Limiting::Setting(joint)));
        headroom
    }

    fn with(&self, load: Load, more: u64) -> Flow {
        load.with(heat(more), self.survey.gas.heating_value).flow
    }

    /// `None` for what is no pipe.
    fn of_section(&self, section: &Section) -> Option<Word> {
        if section.sizing.origin == Origin::Connector {
            return None;
        }
        let word = match (section.sizing.verdict, section.sizing.capacity()) {
            (Verdict::TooSmall, _) => Word::Fails,
            (Verdict::Carries | Verdict::Unknown, None) => Word::Unjudged,
            (Verdict::Carries | Verdict::Unknown, Some(capacity)) => {
                let holds = |more| carrier::carries(capacity.flow, self.with(section.load, more));
                last(MOST, holds).map_or(Word::Fails, Word::Spare)
            }
        };
        Some(word)
    }

    fn of_device(&self, device: &DeviceStudy) -> Word {
        match (device.verdict, device.capacity) {
            (RatingVerdict::Exceeded, _) => Word::Fails,
            (_, None) => Word::Unjudged,
            (_, Some(capacity)) => {
                let load = self.survey.loads[device.joint];
                let limit = device.part.limit();
                last(MOST, |more| limit.allows(self.with(load, more), capacity)).map_or(Word::Fails, Word::Spare)
            }
        }
    }

    /// The joints from the point of delivery to a joint.
    fn way(&self, joint: usize) -> Vec<usize> {
        let mut way: Vec<usize> = self.survey.network.way_up(joint).collect();
        way.reverse();
        way
    }

    /// The first appliance or regulator along the way, or off it, that has less than it needs with so much more heat at the
    /// way's end, though it has enough now.
    fn short(&self, way: &[usize], more: HeatRate) -> Option<Limiting> {
        let mut pressure = self.survey.zones.first()?.inlet?;
        for &joint in way {
            if let Some(run) = self.survey.network.feed[joint] {
                let flow = self.survey.loads[joint].with(more, self.survey.gas.heating_value).flow;
                pressure = self.legs[run].as_ref()?.pass(self.around, pressure, flow)?.behind;
            }
            if let Some(need) = self.needs.at(joint).filter(|need| pressure < need.pressure) {
                return Some(need.by);
            }
        }
        None
    }
}

impl Word {
    fn again(&self) -> Word {
        match self {
            Word::Spare(spare) => Word::Spare(*spare),
            Word::Fails => Word::Fails,
            Word::Unjudged => Word::Unjudged,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::headroom::*;

    #[test]
    fn the_last_number_that_holds_is_found() {
        for edge in [0, 1, 77, MOST - 1, MOST] {
            assert_eq!(last(MOST, |more| more <= edge), Some(edge));
        }
        assert_eq!(last(5, |_| false), None);
        assert_eq!(last(0, |_| true), Some(0));
    }
}
