//! Turns that are drawn not quite as any fitting turns.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Direction, Run, State, same_turn, stock_turn};
use crate::units::{Angle, Length};
use std::collections::BTreeMap;

/// What is drawn at 44.97° is made with a 45° elbow, and comes to lie elsewhere than it is drawn.
pub const RULE: Rule = Rule {
    id: "turn-not-exact",
    title: "A turn is drawn slightly off the angle of its fitting",
    severity: Severity::Check,
    basis: "plain geometry, where it comes to 1/32 in and more (the tool's own choice)",
    check,
};

/// What comes to less is not told: no rule shows it.
const LEAST: Length = Length::from_eighths_of_um(203_200 / 64);

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let network = &look.study.network;
    let place = |joint: usize| look.joint(joint).at;
    let way_from = |joint: usize, run: usize| match network.joints_of[run] {
        Some((from, to)) if from == joint => place(to) - place(from),
        Some((from, to)) => place(from) - place(to),
        None => Direction::default(),
    };
    let counts = |run: &Run| run.state != State::Removed && run.measured().is_none() && !look.job.material(run).bends();
    // For each run that slopes: the joints where it turns so, and the widest of these turns as drawn and as made.
    let mut turns: BTreeMap<usize, (Vec<usize>, [f64; 2])> = BTreeMap::new();
    for run in 0..look.job.runs.len() {
        let Some((from, to)) = network.joints_of[run] else {
            continue;
        };
        let drawn = place(to) - place(from);
        if drawn.axis().is_some() || drawn.is_zero() || !counts(look.run(run)) {
            continue;
        }
        for joint in [from, to] {
            for leg in network.legs(joint).filter(|&leg| leg != run && counts(look.run(leg))) {
                let is_told = way_from(joint, leg).axis().is_none() && leg < run;
                let is_new = [run, leg].into_iter().any(|run| look.run(run).state == State::New);
                let Some(between) = way_from(joint, run).angle_to(way_from(joint, leg)) else {
                    continue;
                };
                let turn = 180.0 - between;
                let Some(made) = made(turn).filter(|_| is_new && !is_told) else {
                    continue;
                };
                if !same_turn(turn, made) {
                    let (joints, widest) = turns.entry(run).or_insert((Vec::new(), [made, made]));
                    joints.push(joint);
                    if (turn - made).abs() > (widest[0] - widest[1]).abs() {
                        *widest = [turn, made];
                    }
                }
            }
        }
    }
    for (run, (mut joints, [turn, made])) in turns {
        joints.dedup();
        let length = look.study.runs[run].length;
        let aside = length.times(libm::sin((turn - made).abs().to_radians()));
        if aside < LEAST {
            continue;
        }
        let as_made = match made {
            0.0 => "straight".to_owned(),
            made => format!("with a fitting of {}", look.show(Angle::from_degrees(made))),
        };
        found.at_all(
            [look.on(run)].into_iter().chain(look.at_each(&joints)),
            format!(
                "At {} run {} turns {} as drawn and is made {as_made}: over its {} that is off by {}.",
                look.joints_named(&joints),
                look.run(run).id,
                look.show(Angle::from_degrees(turn)),
                look.show(length),
                aside.show_fine(look.job.settings.units)
            ),
            "Enter what was measured (rise, roll, and angle or run): the lists then use it, whatever is drawn. Or move a joint so that the angle \
             is exact.",
        );
    }
}

/// The turn of what is made where a line turns so: straight, or as a stock fitting turns.
fn made(turn: f64) -> Option<f64> {
    match turn {
        turn if stock_turn(90.0 - turn) == Some(90.0) => Some(0.0),
        turn => stock_turn(turn),
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, joint, run};
    use super::RULE;
    use crate::job::{Job, Material};

    /// Ends the outdoor line so many steps along and aside of its bend; a step is a foot.
    fn slope(job: &mut Job, east: i32, north: i32) {
        for number in BEND + 1..=9 {
            let at = &mut joint(job, number).at;
            (at.east, at.north) = (at.east - 4 + east, north);
        }
        run(job, 4).length = None;
    }

    #[test]
    fn a_turn_that_is_not_exact_is_told_where_a_rule_shows_it() {
        check(&RULE, 0, |job| slope(job, 20, 20));
        // atan(199/200) is 44.86°: over 282 ft that is 8 in aside.
        let near = check(&RULE, 1, |job| slope(job, 200, 199));
        assert!(
            near[0].what.contains("J4")
                && near[0]
                    .what
                    .contains("turns 44.86° as drawn and is made with a fitting of 45°"),
            "{}",
            near[0].what
        );
        // 43° is no stock elbow at all: another rule.
        check(&RULE, 0, |job| slope(job, 100, 93));
        // One step aside in two hundred: made straight on.
        let straight = check(&RULE, 1, |job| slope(job, 200, 1));
        assert!(straight[0].what.contains("made straight:"), "{}", straight[0].what);
    }

    #[test]
    fn tubing_bends_and_short_pipe_comes_to_nothing() {
        check(&RULE, 0, |job| {
            slope(job, 200, 199);
            job.settings.material = Material::Csst;
        });
        check(&RULE, 0, |job| {
            slope(job, 200, 199);
            job.settings.step = crate::units::Length::from_mm(0.1);
        });
    }
}
