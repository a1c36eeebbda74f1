//! No point of delivery.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::study::Place;

/// Without a point of delivery nothing flows.
pub const RULE: Rule = Rule {
    id: "no-supply",
    title: "No point of delivery is drawn",
    severity: Severity::MustFix,
    basis: "a limit of this tool, no clause",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    if look.study.network.supply.is_none() {
        found.at(
            Place::Job,
            "No point of delivery is drawn, so flow direction, sizes and pressures cannot be worked out.",
            "Place a point of delivery, with its pressure, where the piping starts.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{SUPPLY, check, clear};
    use super::RULE;

    #[test]
    fn a_job_needs_a_start() {
        check(&RULE, 1, |job| clear(job, SUPPLY));
        check(&RULE, 0, |_| {});
    }
}
