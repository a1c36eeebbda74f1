//! Stubs that end too near to what they come through.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{Barrier, Device, DeviceKind};
use crate::units::Length;

/// A stub stands 1 in clear of a wall, 2 in clear of a floor, patio or slab.
pub const RULE: Rule = Rule {
    id: "stub-short",
    title: "A stub-out ends too close to the wall, floor or patio",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &joint in look.walk.all(DeviceKind::Cap) {
        let Some(Device::Cap(cap)) = look.device(joint) else {
            continue;
        };
        let Some(projection) = cap.projection.filter(|_| look.is_new(joint)) else {
            continue;
        };
        let (least, from) = match comes_up(look, joint) {
            true => (Length::from_inches(2.0), "a floor, patio or slab"),
            false => (Length::from_inches(1.0), "a wall"),
        };
        if projection < least {
            found.at(
                look.at(joint),
                format!(
                    "The stub-out at {} projects {}; {} or more is required, clear of {from}.",
                    look.joint_name(joint),
                    look.show(projection),
                    look.limit(least)
                ),
                "Lengthen the stub-out.",
            );
        }
    }
}

/// Whether a stub comes out of a floor: through what its run passes last, else by the way that it goes.
fn comes_up(look: &Look<'_>, joint: usize) -> bool {
    let Some(feed) = look.feed(joint) else { return false };
    let run = look.run(feed);
    let half = look.job.true_length(run).times(0.5);
    let place = |passage: &&crate::job::Penetration| passage.at.unwrap_or(half);
    let last = match run.to == look.joint(joint).id {
        true => run.penetrations.iter().max_by_key(place),
        false => run.penetrations.iter().min_by_key(place),
    };
    match last.map(|passage| passage.barrier) {
        Some(Barrier::Floor | Barrier::Slab | Barrier::Ground) => true,
        Some(Barrier::ExteriorWall | Barrier::InteriorWall | Barrier::Foundation | Barrier::Roof) => false,
        None => look.study.network.upstream(joint).is_some_and(|from| {
            let way = look.joint(joint).at - look.joint(from).at;
            way.up > 0 && way.axis().is_some()
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, check, joint, put, run};
    use super::RULE;
    use crate::job::{Barrier, Cap, Device, Job, LatticePoint, Penetration};
    use crate::units::Length;

    fn stub(inches: f64) -> impl Fn(&mut Job) {
        move |job| {
            let projection = Some(Length::from_inches(inches));
            put(
                job,
                PIT,
                Device::Cap(Cap {
                    future_input: None,
                    projection,
                }),
            );
        }
    }

    #[test]
    fn a_wall_wants_one_inch_and_a_floor_two() {
        check(&RULE, 1, stub(0.5));
        check(&RULE, 0, stub(1.0));
        let through = |barrier| {
            move |job: &mut Job| {
                stub(1.5)(job);
                run(job, 8).penetrations.push(Penetration {
                    barrier,
                    ..Penetration::default()
                });
            }
        };
        check(&RULE, 1, through(Barrier::Slab));
        check(&RULE, 0, through(Barrier::ExteriorWall));
    }

    #[test]
    fn a_stub_that_rises_comes_out_of_a_floor() {
        check(&RULE, 1, |job| {
            stub(1.5)(job);
            let LatticePoint { east, north, up } = joint(job, 8).at;
            joint(job, PIT).at = LatticePoint::new(east, north, up + 3);
        });
    }
}
