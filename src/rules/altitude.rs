//! Sites high above the sea.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::study::Place;
use crate::units::{Length, UnitSystem};

/// Inputs are carried as typed, whatever the altitude.
pub const RULE: Rule = Rule {
    id: "altitude",
    title: "The job is over {2,000 ft} above sea level and inputs are not derated",
    severity: Severity::Note,
    basis: BY_CODE,
    check,
};

/// NFPA 54-2002 11.1.2, as California Mechanical Code 2013 appendix B carries it, where the profile sets no rule of its own: the altitude, and percent for each 1,000 ft.
const USUAL: (f64, f64) = (2_000.0, 4.0);

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let Some(altitude) = look.job.settings.altitude else {
        return;
    };
    let rule = look.profile.altitude.as_ref();
    let from = rule.map_or(Length::from_feet(USUAL.0), |rule| rule.from.value);
    let percent = rule.map_or(USUAL.1, |rule| rule.percent_per_1000_feet.value);
    if altitude > from {
        let (high, each) = match look.job.settings.units {
            UnitSystem::Us => (look.show(altitude), "1,000 ft"),
            UnitSystem::Metric | UnitSystem::MetricKpa => (format!("{:.0} m", altitude.metres()), "305 m"),
        };
        let less = (percent * altitude.feet() / 1000.0).min(100.0);
        found.at(
            Place::Job,
            format!(
                "The job is {high} above sea level. Inputs are used as entered; derated by {percent} % for each {each} they would be {less:.0} % \
                 less."
            ),
            "If the appliances are set for the altitude, enter those inputs. If not, leave them: the sizes are then larger than needed.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::check;
    use super::RULE;
    use crate::units::Length;

    #[test]
    fn two_thousand_feet_are_no_matter_yet() {
        let found = check(&RULE, 1, |job| job.settings.altitude = Some(Length::from_feet(5_000.0)));
        assert!(found[0].what.contains("20 % less"));
        check(&RULE, 0, |job| job.settings.altitude = Some(Length::from_feet(2_000.0)));
        check(&RULE, 0, |_| {});
    }
}
