//! The cheapest sizes by which every appliance keeps a pressure: exact, on a tree.
//!
//! Flows are fixed on a tree, so that a size changes pressures only. From the outlets to the point of delivery each
//! section keeps a front: ways of sizing all that hangs on it, each by the least pressure at its upstream end with which
//! every need behind is met, and by its cost; a way that asks for no less pressure than a cheaper one is dropped
//! (dynamic programming over Pareto fronts; Bellman, *Dynamic Programming*, 1957). At a branching the pressures' maximum
//! and the costs' sum count, so that a front there is no longer than its parts together. Since fittings count at the bore
//! of the run before them, a section has one front for each size of the section that feeds it. No pressure is put on a
//! grid.
//!
//! Fronts are exact while a greater inlet pressure never gives a lesser outlet pressure. Where pressure passes 1.5 psig
//! inside a run the law of friction changes and this fails by a trace; sizes found are marched anew and the next dearer
//! ones taken where the march does not bear them out. Fronts past a limit are thinned, and the result says so.

use crate::network::Survey;
use crate::pressure::{Around, Leg, Obstacles, Sent, leg};
use crate::units::{Flow, GaugePressure, InsideDiameter, NominalSize};
use crate::work::Cost;

/// A size that a section may take, and what that costs.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Choice {
    pub(crate) size: Option<NominalSize>,
    pub(crate) cost: Cost,
}

/// The question.
pub(crate) struct Question<'q, 'a> {
    pub(crate) survey: &'q Survey<'a>,
    pub(crate) obstacles: &'q Obstacles,
    /// For each section its choices, at least one each.
    pub(crate) choices: &'q [Vec<Choice>],
    /// For each joint the least pressure there, where one is asked for.
    pub(crate) needs: &'q [Option<GaugePressure>],
}

/// The answer.
pub(crate) struct Answer {
    /// For each section which of its choices.
    pub(crate) chosen: Vec<usize>,
    pub(crate) cost: Cost,
    pub(crate) exact: Exactness,
}

/// Whether an answer is known to be the best.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Exactness {
    /// No other choice of sizes costs less.
    Exact,
    /// So large a job that ways were left out: the pressures hold, and it may be had a little cheaper.
    Thinned,
}

/// One way of sizing a section and all behind it.
#[derive(Clone, Copy)]
struct Way {
    /// The least pressure that it needs, Pa gauge; minus infinity where any will do.
    need: f64,
    cost: Cost,
    /// The section's own choice.
    own: usize,
    /// The pressure at its downstream end, by which the ways of the sections behind it are told.
    behind: f64,
}

/// Ways kept in all fronts together, and in one front at least and at most.
const WAYS: usize = 300_000;
const FEWEST: usize = 24;
const FEW: usize = 4_000;

/// Keeps the ways that no other beats, by rising need and falling cost.
fn prune(ways: &mut Vec<Way>, most: usize) -> Exactness {
    ways.sort_by(|a, b| a.need.total_cmp(&b.need).then(a.cost.cmp(&b.cost)));
    let mut best: Option<Cost> = None;
    ways.retain(|way| {
        let cheaper = best.is_none_or(|best| way.cost < best);
        if cheaper {
            best = Some(way.cost);
        }
        cheaper
    });
    if ways.len() <= most {
        return Exactness::Exact;
    }
    // The ends stay, and of the others every so many.
    let (all, last) = (ways.len(), most - 1);
    *ways = (0..most).map(|at| ways[at * (all - 1) / last]).collect();
    Exactness::Thinned
}

/// The cheapest way that a pressure serves.
fn served(front: &[Way], pressure: f64) -> Option<&Way> {
    let end = front.partition_point(|way| way.need <= pressure);
    front[..end].last()
}

impl<'a> Question<'_, 'a> {
    /// The cheapest choice; `None` where no choice meets every need.
    pub(crate) fn answer(&self) -> Option<Answer> {
        let survey = self.survey;
        let around = Around::of(survey);
        let sections = survey.stretches.len();
        let widest = self.choices.iter().map(Vec::len).max().unwrap_or(1);
        let most = (WAYS / (sections * widest).max(1)).clamp(FEWEST, FEW);
        let mut children: Vec<Vec<usize>> = vec![Vec::new(); sections];
        for (at, stretch) in survey.stretches.iter().enumerate() {
            if let Some(fed_by) = stretch.fed_by {
                children[fed_by].push(at);
            }
        }
        let mut exact = Exactness::Exact;
        // For each section and each choice of the one that feeds it: the ways of all that hangs there.
        let mut fronts: Vec<Vec<Vec<Way>>> = vec![Vec::new(); sections];
        for section in (0..sections).rev() {
            let before = survey.stretches[section].fed_by;
            let mut of_before: Vec<Vec<Way>> = vec![Vec::new(); before.map_or(1, |before| self.choices[before].len())];
            for (own, choice) in self.choices[section].iter().enumerate() {
                let parts: Vec<&[Way]> = children[section]
                    .iter()
                    .map(|&child| fronts[child][own].as_slice())
                    .collect();
                let here = self.meet(section, &parts);
                let Some((first, rest)) = self.legs(&around, section, own) else {
                    continue;
                };
                let inner: Vec<(f64, &Way)> = here
                    .iter()
                    .filter_map(|way| Some((back(&around, &rest, way.need)?, way)))
                    .collect();
                for (place, front) in of_before.iter_mut().enumerate() {
                    let bore = before.and_then(|before| {
                        leg::bore(
                            survey,
                            survey.stretches[before].material,
                            self.choices[before][place].size,
                        )
                    });
                    let Some(first) = self.leg(&around, first, own, bore, section) else {
                        continue;
                    };
                    front.extend(inner.iter().filter_map(|(need, way)| {
                        Some(Way {
                            need: back(&around, std::slice::from_ref(&first), *need)?,
                            cost: way.cost + choice.cost,
                            own,
                            behind: way.need,
                        })
                    }));
                }
            }
            for front in &mut of_before {
                if prune(front, most) == Exactness::Thinned {
                    exact = Exactness::Thinned;
                }
            }
            fronts[section] = of_before;
        }
        self.choose(&around, &fronts, exact)
    }

    /// The ways behind a section's downstream end: its own outlet and the sections that it feeds.
    fn meet(&self, section: usize, parts: &[&[Way]]) -> Vec<Way> {
        let own = self.needs[self.survey.stretches[section].to].map_or(f64::NEG_INFINITY, GaugePressure::pa);
        let mut pressures: Vec<f64> = parts.iter().flat_map(|part| part.iter().map(|way| way.need)).collect();
        pressures.push(own);
        pressures.retain(|pressure| *pressure >= own);
        pressures.sort_by(f64::total_cmp);
        pressures.dedup();
        let mut ways: Vec<Way> = Vec::new();
        for need in pressures {
            let costs: Option<Cost> = parts.iter().map(|part| served(part, need).map(|way| way.cost)).sum();
            let Some(cost) = costs else { continue };
            if ways.last().is_none_or(|last| cost < last.cost) {
                ways.push(Way {
                    need,
                    cost,
                    own: 0,
                    behind: need,
                });
            }
        }
        ways
    }

    /// The first run of a section with its length for bends, and the legs of the others, at one of its choices.
    fn legs(&self, around: &Around<'a>, section: usize, own: usize) -> Option<(usize, Vec<(Leg<'a>, Sent)>)> {
        let stretch = &self.survey.stretches[section];
        let size = self.choices[section][own].size;
        let bore = leg::bore(self.survey, stretch.material, size);
        let (&first, others) = self.survey.runs_of(stretch).split_first()?;
        let mut legs = Vec::with_capacity(others.len());
        for &run in others {
            let further = self.obstacles.worth_of_bend(run);
            let leg = Leg::new(self.survey, around, self.obstacles, run, size, [bore; 2], further)?;
            let sent = leg.sent(around, self.flow(run)?);
            legs.push((leg, sent));
        }
        Some((first, legs))
    }

    fn leg(
        &self,
        around: &Around<'a>,
        run: usize,
        own: usize,
        before: Option<InsideDiameter>,
        section: usize,
    ) -> Option<(Leg<'a>, Sent)> {
        let further = self.obstacles.worth_of_bend(run);
        let size = self.choices[section][own].size;
        let own = leg::bore(self.survey, self.survey.stretches[section].material, size);
        let leg = Leg::new(self.survey, around, self.obstacles, run, size, [own, before], further)?;
        let sent = leg.sent(around, self.flow(run)?);
        Some((leg, sent))
    }

    fn flow(&self, run: usize) -> Option<Flow> {
        let (_, to) = self.survey.network.ends[run]?;
        Some(self.survey.loads[to].flow)
    }

    /// Goes down again from the point of delivery, and marches what was chosen.
    fn choose(&self, around: &Around<'a>, fronts: &[Vec<Vec<Way>>], exact: Exactness) -> Option<Answer> {
        let survey = self.survey;
        let mut delivered = survey.zones.first()?.inlet?.pa();
        loop {
            let mut chosen = vec![0; survey.stretches.len()];
            let mut given = vec![f64::NEG_INFINITY; survey.stretches.len()];
            let (mut cost, mut tightest) = (Cost::ZERO, f64::NEG_INFINITY);
            for (section, stretch) in survey.stretches.iter().enumerate() {
                let (place, pressure) = match stretch.fed_by {
                    Some(before) => (chosen[before], given[before]),
                    None => (0, delivered),
                };
                let way = served(&fronts[section][place], pressure)?;
                (chosen[section], given[section]) = (way.own, way.behind);
                if stretch.fed_by.is_none() {
                    cost = cost + way.cost;
                    tightest = tightest.max(way.need);
                }
            }
            if self.bears_out(around, &chosen) {
                return Some(Answer { chosen, cost, exact });
            }
            if tightest == f64::NEG_INFINITY {
                return None;
            }
            // Less is taken as delivered, so that the tightest way is passed over.
            delivered = tightest.next_down();
        }
    }

    /// Whether the march of pressures meets every need.
    fn bears_out(&self, around: &Around<'a>, chosen: &[usize]) -> bool {
        let survey = self.survey;
        let mut pressure = vec![None; self.needs.len()];
        if let (Some(supply), Some(zone)) = (survey.network.supply, survey.zones.first()) {
            pressure[supply] = zone.inlet;
        }
        for (section, stretch) in survey.stretches.iter().enumerate() {
            let bore = stretch.fed_by.and_then(|before| {
                let material = survey.stretches[before].material;
                leg::bore(survey, material, self.choices[before][chosen[before]].size)
            });
            let passed = self.legs(around, section, chosen[section]).and_then(|(first, rest)| {
                let first = self.leg(around, first, chosen[section], bore, section)?;
                let inlet = pressure[stretch.from]?;
                let mut legs = std::iter::once(&first).chain(&rest);
                legs.try_fold(inlet, |inlet, (leg, sent)| {
                    Some(leg.pass_sent(around, inlet, sent)?.behind)
                })
            });
            pressure[stretch.to] = passed;
        }
        // What the last figures of the computer are worth, Pa.
        const TRACE: f64 = 1e-6;
        let mut needs = self.needs.iter().zip(&pressure);
        needs.all(|(need, had)| {
            need.is_none_or(|need| had.is_some_and(|had: GaugePressure| had.pa() + TRACE >= need.pa()))
        })
    }
}

/// The least pressure before legs with which there is enough behind them, Pa; `None` where no pressure will do.
fn back(around: &Around, legs: &[(Leg, Sent)], need: f64) -> Option<f64> {
    if need == f64::NEG_INFINITY {
        return Some(need);
    }
    let mut legs = legs.iter().rev();
    legs.try_fold(need, |need, (leg, sent)| back_one(around, leg, sent, need))
}

/// Above this nobody reckons, Pa.
const TOP: f64 = 1e8;

fn back_one(around: &Around, leg: &Leg, sent: &Sent, need: f64) -> Option<f64> {
    let behind = |inlet: f64| {
        let passed = leg.pass_sent(around, GaugePressure::from_pa(inlet), sent)?;
        Some(passed.behind.pa())
    };
    if leg.holds().is_some_and(|setting| setting.pa() < need) {
        return None;
    }
    // What is lost hardly depends on the inlet: adding what is short comes near in a few steps.
    let mut inlet = need;
    for _ in 0..30 {
        let short = need - behind(inlet)?;
        if short.abs() <= NEAR {
            break;
        }
        inlet += short;
        if inlet.is_nan() || inlet.abs() >= TOP {
            break;
        }
    }
    let near = inlet.abs() < TOP && behind(inlet - 3.0 * NEAR)? < need && behind(inlet + 3.0 * NEAR)? >= need;
    let (mut bad, mut good) = match near {
        true => (inlet - 3.0 * NEAR, inlet + 3.0 * NEAR),
        false => bracket(&behind, need)?,
    };
    while good - bad > NEAR {
        let middle = bad + (good - bad) / 2.0;
        if middle <= bad || middle >= good {
            break;
        }
        if behind(middle)? >= need {
            good = middle;
        } else {
            bad = middle;
        }
    }
    Some(good)
}

/// To what pressures are told apart, Pa.
const NEAR: f64 = 1e-8;

/// A pressure that is not enough and one that is.
fn bracket(behind: &impl Fn(f64) -> Option<f64>, need: f64) -> Option<(f64, f64)> {
    let (mut bad, mut step) = (need, 16.0);
    while behind(bad)? >= need {
        bad -= step;
        step *= 2.0;
        if bad < -TOP {
            return None;
        }
    }
    let (mut good, mut step) = (need, 16.0);
    while behind(good)? < need {
        good += step;
        step *= 2.0;
        if good > TOP {
            return None;
        }
    }
    Some((bad, good))
}
