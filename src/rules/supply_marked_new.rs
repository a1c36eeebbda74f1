//! A point of delivery drawn as new on pipe that stands.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Detail, Device, State};

/// Existing pipe was fed from somewhere: what stood there counts in every figure of before.
pub const RULE: Rule = Rule {
    id: "supply-marked-new",
    title: "A new point of delivery feeds existing pipe, and nothing says what was there before",
    severity: Severity::Note,
    basis: "a drawing must say what it adds to; no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let Some(joint) = look.study.network.supply.filter(|&joint| look.is_new(joint)) else {
        return;
    };
    let Some(Device::Supply(supply)) = look.device(joint) else {
        return;
    };
    let stands = look
        .live_legs(joint)
        .any(|run| run.state == State::Existing || run.replaced().is_some());
    if !stands || !supply.changes().is_empty() {
        return;
    }
    found.put_right_in(Detail::State);
    found.at(
        look.at(joint),
        format!(
            "{} is drawn as new, but existing pipe starts there: figures for the time before this work take it as it is drawn.",
            look.joint_name(joint)
        ),
        "Mark it as existing. If the supplier changes the meter, the regulator or the pressure, enter what was there before this work.",
    );
}

#[cfg(test)]
mod tests {
    use super::super::sample::{SUPPLY, check, joint, run, supply};
    use super::RULE;
    use crate::job::{Rating, State};

    #[test]
    fn old_pipe_had_a_meter() {
        check(&RULE, 0, |_| {});
        let anew = |job: &mut crate::job::Job| {
            if let Some(placed) = &mut joint(job, SUPPLY).placed {
                placed.state = State::New;
            }
        };
        let found = check(&RULE, 1, anew);
        assert!(found[0].remedy.contains("Mark it as existing"), "{}", found[0].remedy);
        check(&RULE, 0, |job| {
            anew(job);
            supply(job).before.meter = Some(Rating::default());
        });
        check(&RULE, 0, |job| {
            anew(job);
            run(job, 1).state = State::New;
        });
    }
}
