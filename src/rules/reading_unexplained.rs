//! Readings at start-up that the drawing does not lead one to expect.

use super::look::Look;
use super::reading_outside_plate::tell;
use super::{Found, Rule, Severity};
use crate::work::Off;

/// What was measured at start-up is explained by the drawing.
pub const RULE: Rule = Rule {
    id: "reading-unexplained",
    title: "A reading at start-up is not explained by the drawing",
    severity: Severity::Check,
    basis: "common practice, no source",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    tell(Off::Drawing, look, found);
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, appliance, check};
    use super::RULE;
    use crate::units::{Clocked, GaugePressure};

    #[test]
    fn readings_are_held_against_the_drawing() {
        let found = check(&RULE, 1, |job| {
            appliance(job, PIT).start_up.static_pressure = Some(GaugePressure::from_inches_wc(6.0));
        });
        assert!(
            found[0].what.contains("starts at 7 in w.c. on the drawing"),
            "{}",
            found[0].what
        );
        check(&RULE, 1, |job| {
            appliance(job, PIT).start_up.clocked = Some(Clocked::from_ft3_and_seconds(1.0, 30.0));
        });
        // 65,000 Btu/h of gas of about 1,000 Btu/ft³: a cubic foot in 55 s.
        check(&RULE, 0, |job| {
            let start_up = &mut appliance(job, PIT).start_up;
            start_up.static_pressure = Some(GaugePressure::from_inches_wc(7.0));
            start_up.clocked = Some(Clocked::from_ft3_and_seconds(1.0, 55.4));
        });
    }
}
