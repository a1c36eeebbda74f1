//! Connectors that are longer or shorter than the line drawn for them.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Device, DeviceKind};
use crate::units::Length;

/// A connector's own length is that of the runs that are the connector: it is bought as long as it says, and drawn as
/// long as its runs.
pub const RULE: Rule = Rule {
    id: "connector-unlike",
    title: "A connector's length differs from the line drawn for it",
    severity: Severity::Check,
    basis: "arithmetic, to 1/2 in (the tool's own choice)",
    check,
};

/// Lengths in inches that differ by no more are one.
const NEAR: f64 = 0.5;

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for &joint in look.walk.all(DeviceKind::Connector) {
        let Some(Device::Connector(connector)) = look.device(joint) else {
            continue;
        };
        let Some(length) = connector.length.filter(|_| look.is_new(joint)) else {
            continue;
        };
        let runs = flexible_line(look, joint);
        let drawn: Length = runs.iter().map(|&run| look.study.runs[run].length).sum();
        if !runs.is_empty() && (length - drawn).magnitude().inches() > NEAR {
            found.at_all(
                std::iter::once(look.at(joint)).chain(look.on_all(&runs)),
                format!(
                    "The connector at {} is {} long; the line drawn for it is {} ({}).",
                    look.joint_name(joint),
                    look.show(length),
                    look.show(drawn),
                    look.runs_named(&runs)
                ),
                "Give the runs the connector's length in total, or correct the connector's own length.",
            );
        }
    }
}

/// The runs of the flexible line that a connector stands on, in flow order.
fn flexible_line(look: &Look<'_>, joint: usize) -> Vec<usize> {
    let network = &look.study.network;
    let flexible = |run: &usize| look.is_connector(*run);
    let mut runs = Vec::new();
    let mut at = joint;
    while let (Some(run), Some(above)) = (look.feed(at).filter(flexible), network.upstream(at)) {
        runs.push(run);
        at = above;
    }
    runs.reverse();
    let mut at = joint;
    let next = |at: usize| network.onward(at).find(flexible);
    while let Some((run, (_, far))) = next(at).and_then(|run| Some((run, network.ends[run]?))) {
        runs.push(run);
        at = far;
    }
    runs
}

#[cfg(test)]
mod tests {
    use super::super::connector_unlike::*;
    use super::super::sample::{TRAP, UNION, check, put};
    use crate::job::{Connector, Job, QuickCoupling};

    /// The last 1 1/2 ft before the fire pit are a connector that calls itself so long.
    fn connector(job: &mut Job, feet: f64) {
        let connector = Connector {
            length: Some(Length::from_feet(feet)),
            ..Connector::default()
        };
        put(job, TRAP, Device::Connector(connector));
    }

    #[test]
    fn a_connector_is_as_long_as_it_is_drawn() {
        check(&RULE, 0, |job| connector(job, 1.5));
        let found = check(&RULE, 1, |job| connector(job, 3.0));
        assert!(
            found[0].what.contains("3'-0\"") && found[0].what.contains("1'-6\""),
            "{}",
            found[0].what
        );
        // Behind a coupling the line is flexible before the connector's mark too: 1/2 ft more.
        check(&RULE, 0, |job| {
            put(job, UNION, Device::QuickCoupling(QuickCoupling::default()));
            connector(job, 2.0);
        });
    }
}
