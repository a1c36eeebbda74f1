//! Pressures measured at start-up that the rating plate does not allow.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::work::{Off, StartUpRecord};

/// What was measured at an appliance lies within the limits of its rating plate.
pub const RULE: Rule = Rule {
    id: "reading-outside-plate",
    title: "A pressure measured at start-up is outside the limits of the rating plate",
    severity: Severity::MustFix,
    basis: "the rating plate of the appliance, and the readings entered",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    tell(Off::Plate, look, found);
}

/// Tells the surprises of one kind, each in its field.
pub(super) fn tell(off: Off, look: &Look<'_>, found: &mut Found<'_>) {
    for row in StartUpRecord::of(look.job, look.study).rows {
        for surprise in row.surprises.into_iter().filter(|surprise| surprise.off == off) {
            found.put_right_in(surprise.field);
            found.at(look.at(row.joint), surprise.what, surprise.look);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, appliance, check};
    use super::RULE;
    use crate::units::GaugePressure;

    #[test]
    fn readings_are_held_against_the_plate() {
        let found = check(&RULE, 2, |job| {
            let start_up = &mut appliance(job, PIT).start_up;
            start_up.working = Some(GaugePressure::from_inches_wc(4.0));
            start_up.lock_up = Some(GaugePressure::from_inches_wc(14.5));
        });
        assert!(found[0].what.contains("at least 5 in w.c."), "{}", found[0].what);
        check(&RULE, 0, |job| {
            let start_up = &mut appliance(job, PIT).start_up;
            start_up.working = Some(GaugePressure::from_inches_wc(5.0));
            start_up.lock_up = Some(GaugePressure::from_inches_wc(14.0));
        });
    }
}
