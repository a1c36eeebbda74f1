//! Fast gas.

use super::look::Look;
use super::{Found, Rule, Severity};

/// No fuel gas code read sets a velocity; fast gas is loud and carries dirt.
pub const RULE: Rule = Rule {
    id: "velocity",
    title: "Gas velocity is high",
    severity: Severity::Note,
    basis: "engineering practice against noise, no source",
    check,
};

/// m/s.
const MOST: f64 = 20.0;
const FEET_PER_METRE: f64 = 3.280_84;

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let (mut runs, mut most) = (Vec::new(), MOST);
    for (number, run) in look.study.runs.iter().enumerate() {
        if let Some(velocity) = run
            .flowing
            .and_then(|flowing| flowing.velocity)
            .filter(|velocity| *velocity > MOST)
        {
            runs.push(number);
            most = velocity.max(most);
        }
    }
    if !runs.is_empty() {
        found.at_all(
            look.on_all(&runs),
            format!(
                "Gas velocity is {most:.0} m/s ({:.0} ft/s) at full load, more than {MOST:.0} m/s, in {}.",
                most * FEET_PER_METRE,
                look.runs_named(&runs)
            ),
            "Use the next larger size if noise matters.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{PIT, appliance, check, run};
    use super::RULE;
    use crate::units::{HeatRate, NominalSize};

    #[test]
    fn a_narrow_pipe_is_fast() {
        let fix = |size| {
            move |job: &mut crate::job::Job| {
                appliance(job, PIT).input = Some(HeatRate::from_mbh(800.0));
                run(job, 8).size = Some(size);
            }
        };
        check(&RULE, 1, fix(NominalSize::HALF));
        check(&RULE, 0, fix(NominalSize::Inch(32)));
    }
}
