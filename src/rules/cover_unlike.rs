//! Covers that are not what the drawn heights say.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Barrier, RunId, Surroundings};
use crate::study::Place;
use crate::units::Length;
use std::collections::BTreeMap;

/// The cover as stated and the way from the drawn passage through ground down to the pipe are one.
pub const RULE: Rule = Rule {
    id: "cover-unlike",
    title: "The entered cover differs from the depth as drawn",
    severity: Severity::Check,
    basis: "plain geometry: elevations along the drawing, to 3 in (the tool's own choice, so that the pipe's own thickness makes no finding)",
    check,
};

/// Heights in inches that differ by no more are one.
pub const NEAR: f64 = 3.0;

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let mut unlike: BTreeMap<RunId, Vec<(usize, Length)>> = BTreeMap::new();
    for (run, grade) in crossings(look) {
        let Some((one, other)) = look.study.network.joints_of[run] else {
            continue;
        };
        let lower = if height(look, one) < height(look, other) {
            one
        } else {
            other
        };
        let depth = grade - height(look, lower);
        for leg in look.live_legs(lower) {
            let differs = leg
                .cover
                .is_some_and(|cover| (cover - depth).magnitude().inches() > NEAR);
            if leg.surroundings == Surroundings::Underground && differs {
                unlike.entry(leg.id).or_default().push((run, depth));
            }
        }
    }
    for (buried, ways) in unlike {
        let (Some(cover), Some(&(run, depth))) = (look.job.runs.get(buried).and_then(|run| run.cover), ways.first())
        else {
            continue;
        };
        let places = ways.iter().map(|&(run, _)| look.on(run));
        found.at_all(
            std::iter::once(Place::Run(buried)).chain(places),
            format!(
                "Run {buried} has {} of cover entered; measured from grade on {} it is {} below grade.",
                look.show(cover),
                look.run(run).id,
                look.show(depth)
            ),
            "Correct the cover, the length of the vertical run, or the place where it passes grade.",
        );
    }
}

/// Height of a joint above the stated zero.
fn height(look: &Look<'_>, joint: usize) -> Length {
    look.study.joints[joint].elevation
}

/// New runs that pass up or down through ground at a known place, with the height of the ground there.
pub fn crossings<'a>(look: &Look<'a>) -> impl Iterator<Item = (usize, Length)> + use<'a> {
    let look = *look;
    let new = look.walk.pipes.iter().filter(|pipe| pipe.is_new());
    new.filter_map(move |pipe| {
        let run = look.run(pipe.run);
        let at = run
            .penetrations
            .iter()
            .find(|passage| passage.barrier == Barrier::Ground)?
            .at?;
        let length = look.study.runs[pipe.run].length;
        let (from, to) = look.study.network.joints_of[pipe.run]?;
        let (from, to) = (height(&look, from), height(&look, to));
        let part = at.feet() / length.feet();
        (from != to && (0.0..=1.0).contains(&part)).then(|| (pipe.run, from + (to - from).times(part)))
    })
}

#[cfg(test)]
mod tests {
    use super::super::cover_unlike::*;
    use super::super::sample::{BEND, check, extend, run};
    use crate::job::{Job, Penetration};

    /// Pipe that goes 4 ft down through ground half way, and on under so much cover.
    fn buried(job: &mut Job, cover: f64) {
        let low = extend(job, BEND, (0, 0, -4));
        let down = job.runs.iter().map(|run| run.id.0).max().unwrap();
        run(job, down).penetrations.push(Penetration {
            barrier: Barrier::Ground,
            at: Some(Length::from_feet(2.0)),
            ..Penetration::default()
        });
        extend(job, low, (0, 6, 0));
        let along = run(job, down + 1);
        along.surroundings = Surroundings::Underground;
        along.cover = Some(Length::from_inches(cover));
    }

    #[test]
    fn the_cover_is_the_depth_below_the_passage() {
        check(&RULE, 0, |job| buried(job, 24.0));
        check(&RULE, 0, |job| buried(job, 22.5));
        let found = check(&RULE, 1, |job| buried(job, 18.0));
        assert!(
            found[0].what.contains("1'-6\"") && found[0].what.contains("2'-0\""),
            "{}",
            found[0].what
        );
        // Nobody said where ground is passed: nothing to hold it against.
        check(&RULE, 0, |job| {
            buried(job, 18.0);
            let down = job.runs.iter().map(|run| run.id.0).max().unwrap() - 1;
            run(job, down).penetrations[0].at = None;
        });
    }
}
