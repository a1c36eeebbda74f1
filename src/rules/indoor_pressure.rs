//! Too much pressure indoors.

use super::look::Look;
use super::{BY_PROFILE, Found, Rule, Severity};
use crate::job::Surroundings;
use crate::units::GaugePressure;

/// Indoors the pressure has a limit.
pub const RULE: Rule = Rule {
    id: "indoor-pressure",
    title: "Indoor pipe is above the pressure that the profile allows",
    severity: Severity::MustFix,
    basis: BY_PROFILE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let Some(limit) = look.profile.indoor_limit else { return };
    let over = |inlet: &GaugePressure| inlet.is_over(limit.value);
    let high = |zone: usize| look.study.zones[zone].inlet.filter(over);
    if (0..look.study.zones.len()).all(|zone| high(zone).is_none()) {
        return;
    }
    let mut runs = vec![Vec::new(); look.study.zones.len()];
    for pipe in &look.walk.pipes {
        let indoors = matches!(pipe.surroundings, Surroundings::Indoors | Surroundings::Concealed);
        if let Some(section) = look.study.runs[pipe.run].section.filter(|_| indoors) {
            runs[look.study.sections[section].zone].push(pipe.run);
        }
    }
    for (zone, runs) in runs.iter().enumerate().filter(|(_, runs)| !runs.is_empty()) {
        let Some(inlet) = high(zone) else { continue };
        found.at_all(
            look.on_all(runs),
            format!(
                "Indoors, {} {} at {}; the limit is {} ({}).",
                look.runs_named(runs),
                if runs.len() == 1 { "is" } else { "are" },
                look.show(inlet),
                look.limit_pressure(limit.value),
                look.by_profile(limit.mark)
            ),
            "Reduce the pressure with a regulator before the pipe enters the building, or run it outdoors.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, run, supply};
    use super::RULE;
    use crate::job::Surroundings;
    use crate::units::GaugePressure;

    #[test]
    fn the_limit_holds_indoors_only() {
        let found = check(&RULE, 1, |job| {
            supply(job).pressure = Some(GaugePressure::from_psi(10.0))
        });
        assert!(found[0].what.contains("runs R1, R2 and R3"), "{}", found[0].what);
        check(&RULE, 0, |job| {
            supply(job).pressure = Some(GaugePressure::from_psi(5.0))
        });
        check(&RULE, 0, |job| {
            supply(job).pressure = Some(GaugePressure::from_psi(10.0));
            (1..=8).for_each(|number| run(job, number).surroundings = Surroundings::Outdoors);
        });
    }
}
