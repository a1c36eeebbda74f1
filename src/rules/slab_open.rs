//! Concrete slabs with bare pipe through them, and pipe that dives under one.

use super::exterior_wall_open::new_passages;
use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Barrier, State, Surroundings};

/// Pipe through a slab lies in a sleeve; between two slabs in turn it seems to lie under the building.
pub const RULE: Rule = Rule {
    id: "slab-open",
    title: "Pipe passes through a slab without a sleeve, or under it and up again",
    severity: Severity::Check,
    basis: "common practice, no source: concrete corrodes bare pipe, and pipe under a building goes in conduit",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for (number, at, passage) in new_passages(look, Barrier::Slab) {
        if !passage.sleeved {
            found.through(at);
            found.at(
                look.on(number),
                format!(
                    "Run {} passes through a slab, and no sleeve is shown.",
                    look.run(number).id
                ),
                "Sleeve or wrap the pipe through the concrete, and mark the sleeve.",
            );
        }
    }
    under(look, found);
}

/// Pipe that went through a slab, runs on as if in a building, and goes through a slab again.
fn under(look: &Look<'_>, found: &mut Found<'_>) {
    let network = &look.study.network;
    let slabs = |run: usize| {
        let passages = look.run(run).penetrations.iter();
        passages.filter(|passage| passage.barrier == Barrier::Slab).count()
    };
    // Whether gas came to a joint through a slab, and since then through no soil.
    let mut below = vec![false; look.job.joints.len()];
    for &joint in &network.order {
        let Some(feed) = look.feed(joint) else { continue };
        let Some((from, _)) = network.ends[feed] else { continue };
        let run = look.run(feed);
        let again = below[from] && slabs(feed) > 0 || slabs(feed) > 1;
        if again && run.state == State::New && run.surroundings != Surroundings::Underground {
            found.at(
                look.on(feed),
                format!(
                    "Run {} passes through a slab after the pipe before it did: the pipe between them seems to run under the building.",
                    run.id
                ),
                "Mark that run as underground and lay it in conduit as the code requires, or run it above the slab.",
            );
        }
        below[joint] = match run.surroundings {
            Surroundings::Underground => false,
            _ => (below[from] ^ (slabs(feed) % 2 == 1)) && !again,
        };
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run};
    use super::RULE;
    use crate::job::{Barrier, Job, Penetration, Seal};

    fn slab(sleeved: bool) -> Penetration {
        Penetration {
            barrier: Barrier::Slab,
            sleeved,
            seal: Seal::BothFaces,
            ..Penetration::default()
        }
    }

    #[test]
    fn a_slab_wants_a_sleeve() {
        check(&RULE, 1, |job: &mut Job| run(job, 4).penetrations = vec![slab(false)]);
        check(&RULE, 0, |job: &mut Job| run(job, 4).penetrations = vec![slab(true)]);
    }

    #[test]
    fn two_slabs_in_turn_are_told() {
        check(&RULE, 1, |job: &mut Job| {
            run(job, 4).penetrations = vec![slab(true)];
            run(job, 5).penetrations = vec![slab(true)];
        });
    }
}
