//! Pipe in the soil under a building.

use super::look::Look;
use super::pipe::is_outside;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{Barrier, State, Surroundings};

/// Pipe that goes into the soil indoors and comes up indoors may lie under the building.
pub const RULE: Rule = Rule {
    id: "buried-under-building",
    title: "Buried pipe starts and ends indoors and passes through no foundation wall",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

/// How gas came into the soil.
#[derive(Clone, Copy, Default)]
struct Way {
    from_indoors: bool,
    through_foundation: bool,
    new: bool,
    /// Whether it was told that it comes up indoors.
    told: bool,
}

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    if !look
        .walk
        .pipes
        .iter()
        .any(|pipe| pipe.surroundings == Surroundings::Underground)
    {
        return;
    }
    let network = &look.study.network;
    let mut ways = vec![Way::default(); look.job.joints.len()];
    for &joint in &network.order {
        let Some(feed) = look.feed(joint) else { continue };
        let Some((from, _)) = network.ends[feed] else { continue };
        let run = look.run(feed);
        let before = look.feed(from).map(|run| look.run(run));
        let came = match before {
            Some(before) if before.surroundings == Surroundings::Underground => ways[from],
            Some(before) => Way {
                from_indoors: !is_outside(before.surroundings),
                through_foundation: before
                    .penetrations
                    .iter()
                    .any(|passage| passage.barrier == Barrier::Foundation),
                ..Way::default()
            },
            None => Way::default(),
        };
        let passes = run
            .penetrations
            .iter()
            .any(|passage| passage.barrier == Barrier::Foundation);
        let way = Way {
            from_indoors: came.from_indoors,
            through_foundation: came.through_foundation || passes,
            new: came.new || run.state == State::New,
            told: false,
        };
        if run.surroundings == Surroundings::Underground {
            ways[joint] = way;
            continue;
        }
        let rises = before.is_some_and(|before| before.surroundings == Surroundings::Underground);
        if rises
            && !is_outside(run.surroundings)
            && way.from_indoors
            && way.new
            && !way.through_foundation
            && !ways[from].told
        {
            ways[from].told = true;
            found.at(
                look.at(from),
                format!(
                    "At {} pipe comes up from below grade indoors, where it also went down, and passes through no foundation wall: it seems to run \
                     under the building.",
                    look.joint_name(from)
                ),
                "Run it above ground or around the building, or in conduit as the code requires; between two buildings, draw the foundation walls.",
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::{Barrier, Job, Surroundings};

    /// Everything indoors but the drop, which is buried.
    fn under(job: &mut Job) {
        for number in 4..=8 {
            run(job, number).surroundings = Surroundings::Indoors;
        }
        run(job, 5).surroundings = Surroundings::Underground;
        run(job, 6).surroundings = Surroundings::Underground;
    }

    #[test]
    fn from_indoors_to_indoors_is_under_the_building() {
        let found = check(&RULE, 1, under);
        assert!(found[0].what.contains("J7"), "{}", found[0].what);
        check(&RULE, 0, |job| {
            under(job);
            run(job, 4).surroundings = Surroundings::Outdoors;
        });
        check(&RULE, 0, |job| {
            under(job);
            run(job, 4).penetrations[0].barrier = Barrier::Foundation;
        });
    }
}
