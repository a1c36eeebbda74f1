//! How much more can be taken at each joint before something fails that holds now.
//!
//! What is added is an outlet that burns at any time and needs no further pipe or fitting, as
//! [`Study::with_more`](super::Study::with_more) has it: it counts at its joint and at everything upstream, and every size stays as drawn.
//! Held against it are the capacity of each section on the way by the profile's method (Btu/h over heating value, cfh,
//! against the table's cell), the rating of each device on the way, and the pressure at every appliance in the tree
//! whose rating plate tells its least one. Capacities give the limit of a joint at once; pressures by halving between
//! whole Btu/h, with only the way to the joint marched anew: for every joint off the way stands the least pressure by
//! which all appliances behind it keep theirs. A job with a loop has no headroom here ([`Headroom::loop_run`]).
//!
//! Engineering information where a pressure limits, since codes size by table; a part that fails already does not
//! limit and is told apart. Where gas comes near 1.5 psig the law of friction changes and a load a little below a stated
//! one may lose a trace more than that one.

use super::device::RatingVerdict;
use super::leg::{self, Around, Leg};
use super::march::March;
use super::meeting::{self, Meeting};
use super::obstacle::Obstacles;
use super::sizing::{self, Capacities};
use super::survey::Survey;
use super::{DeviceStudy, Load, Origin, Section, Study, Verdict, carrier, device};
use crate::codebook::Codebook;
use crate::job::Job;
use crate::units::{Flow, GaugePressure, HeatRate, Show};

/// What can be added at every joint.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Headroom {
    /// For each joint, in the order of `job.joints`; `None` where no gas reaches it.
    pub joints: Vec<Option<Spare>>,
    /// What fails already, with nothing added: sections and devices in flow order, then inlets.
    pub failing: Vec<Limiting>,
    /// A run that closes a loop, a position in `job.runs`. Then nothing was looked for, and all above is empty: what is
    /// held against loads here is a tree.
    pub loop_run: Option<usize>,
}

/// What can be added at one joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spare {
    /// How much, and what fails first; `None` where nothing known would ever fail.
    pub limit: Option<Limit>,
    /// Sections on the way whose capacity nobody knows, and devices without a rated flow: they were held against nothing.
    pub unjudged: usize,
    /// The part on the way that fails already and is nearest to the point of delivery: the figure is then of no use
    /// before that part is mended.
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
                let name = outlet.map_or_else(|| joint(at).to_string(), super::Outlet::called);
                format!("inlet pressure of {name}")
            }
        }
    }
}

impl Spare {
    /// How much more, and what then fails first, with what must be said beside it; `study` is that of the job.
    pub fn words(&self, job: &Job, study: &Study) -> [String; 2] {
        let (heat, mut by) = match self.limit {
            Some(limit) => (limit.heat.show(job.settings.units), limit.by.words(job, study)),
            None => ("no limit known".to_owned(), String::new()),
        };
        let mut say = |words: String| {
            if !by.is_empty() {
                by.push_str("; ");
            }
            by.push_str(&words);
        };
        if let Some(failing) = self.failing {
            say(format!("{} fails already", failing.words(job, study)));
        }
        match self.unjudged {
            0 => {}
            1 => say("1 part on the way is not judged".to_owned()),
            many => say(format!("{many} parts on the way are not judged")),
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
        let settled = sizing::settle(&survey, &obstacles, &capacities);
        let around = Around::of(&survey);
        let legs = leg::all(&survey, &around, &obstacles, &settled.drawn(&survey));
        let sections = sizing::judged(&survey, &capacities, settled);
        let march = March::down(&survey, &around, &legs);
        let devices = device::all(&survey, &march);
        let tree = Tree {
            survey: &survey,
            around: &around,
            legs: &legs,
            needs: Needs::find(&survey, &around, &legs, &march),
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
                    name: device.name,
                };
                let word = self.of_device(device);
                if matches!(word, Word::Fails) {
                    headroom.failing.push(part);
                }
                here.hear(part, word);
            }
            let way = self.way(joint);
            if let Some(spare) = last(here.spare, |more| self.short(&way, heat(more)).is_none())
                && spare < here.spare
            {
                let inlet = self.short(&way, heat(spare + 1));
                (here.spare, here.by) = (spare, inlet.map(Limiting::Inlet));
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
        let low = survey.outlets.iter().filter(|outlet| {
            let had = march.pressure[outlet.joint].zip(outlet.least);
            had.is_some_and(|(had, least)| had < least)
        });
        headroom.failing.extend(low.map(|outlet| Limiting::Inlet(outlet.joint)));
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
                last(MOST, |more| self.with(load, more) <= capacity).map_or(Word::Fails, Word::Spare)
            }
        }
    }

    /// The joints from the point of delivery to a joint.
    fn way(&self, joint: usize) -> Vec<usize> {
        let upstream = |joint: &usize| self.survey.network.upstream(*joint);
        let mut way: Vec<usize> = std::iter::successors(Some(joint), upstream).collect();
        way.reverse();
        way
    }

    /// The first appliance along the way, or off it, that has less than its least pressure with so much more heat at the
    /// way's end, though it has enough now.
    fn short(&self, way: &[usize], more: HeatRate) -> Option<usize> {
        let mut pressure = self.survey.zones.first()?.inlet?;
        for &joint in way {
            if let Some(run) = self.survey.network.feed[joint] {
                let flow = self.survey.loads[joint].with(more, self.survey.gas.heating_value).flow;
                pressure = self.legs[run].as_ref()?.pass(self.around, pressure, flow)?.behind;
            }
            if let Some(need) = self.needs.0[joint].filter(|need| pressure < need.pressure) {
                return Some(need.inlet);
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

/// For each joint the least pressure there by which every appliance at it and behind it keeps its least inlet pressure
/// at the loads of the job; only appliances that have enough count.
struct Needs(Vec<Option<Need>>);

#[derive(Clone, Copy)]
struct Need {
    pressure: GaugePressure,
    /// The appliance that asks for it.
    inlet: usize,
}

impl Needs {
    fn find(survey: &Survey, around: &Around, legs: &[Option<Leg>], march: &March) -> Needs {
        let mut needs: Vec<Option<Need>> = vec![None; survey.job.joints.len()];
        for outlet in &survey.outlets {
            let enough = march.pressure[outlet.joint].zip(outlet.least);
            if let Some((_, least)) = enough.filter(|(had, least)| had >= least) {
                needs[outlet.joint] = Some(Need {
                    pressure: least,
                    inlet: outlet.joint,
                });
            }
        }
        for &joint in survey.network.order.iter().rev() {
            let (Some(need), Some(run), Some(upstream)) =
                (needs[joint], survey.network.feed[joint], survey.network.upstream(joint))
            else {
                continue;
            };
            let (Some(leg), Some(now)) = (&legs[run], march.pressure[upstream]) else {
                continue;
            };
            let flow = survey.loads[joint].flow;
            let enough = |inlet: GaugePressure| {
                let passed = leg.pass(around, inlet, flow);
                passed.is_none_or(|passed| passed.behind >= need.pressure)
            };
            let Some(pressure) = least_inlet(now, enough) else {
                continue;
            };
            if needs[upstream].is_none_or(|other| other.pressure < pressure) {
                needs[upstream] = Some(Need {
                    pressure,
                    inlet: need.inlet,
                });
            }
        }
        Needs(needs)
    }
}

/// Below this nobody reckons, Pa: no pressure in a job is less.
const BOTTOM: f64 = -1e9;

/// The least pressure that is enough, to the last figure of the computer, where a greater one is known to be; `None`
/// where any is enough.
fn least_inlet(known: GaugePressure, enough: impl Fn(GaugePressure) -> bool) -> Option<GaugePressure> {
    let enough = |pa: f64| enough(GaugePressure::from_pa(pa));
    let (mut good, mut step) = (known.pa(), 1.0);
    let mut bad = good - step;
    while enough(bad) {
        if bad < BOTTOM {
            return None;
        }
        good = bad;
        step *= 4.0;
        bad -= step;
    }
    for _ in 0..200 {
        let middle = good + (bad - good) / 2.0;
        if middle <= bad || middle >= good {
            break;
        }
        if enough(middle) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    Some(GaugePressure::from_pa(good))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_number_that_holds_is_found() {
        for edge in [0, 1, 77, MOST - 1, MOST] {
            assert_eq!(last(MOST, |more| more <= edge), Some(edge));
        }
        assert_eq!(last(5, |_| false), None);
        assert_eq!(last(0, |_| true), Some(0));
    }

    #[test]
    fn the_least_inlet_is_exact_or_none() {
        let least = least_inlet(GaugePressure::from_pa(1743.0), |inlet| inlet.pa() >= 1234.5);
        assert_eq!(least, Some(GaugePressure::from_pa(1234.5)));
        assert_eq!(least_inlet(GaugePressure::from_pa(5.0), |_| true), None);
    }
}
