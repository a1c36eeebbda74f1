//! A zero of elevations that is called grade and does not lie there.

use super::cover_unlike::{NEAR, crossings};
use super::look::Look;
use super::{Found, Rule, Severity};

/// Where elevations are told from grade, pipe passes through ground near zero.
pub const RULE: Rule = Rule {
    id: "grade-unlike",
    title: "Elevations are measured from grade, and grade is drawn elsewhere",
    severity: Severity::Note,
    basis: "plain geometry: elevations along the drawing, to 3 in (the tool's own choice)",
    check,
};

/// Words for grade in a name of the zero of elevations.
const GRADE: [&str; 2] = ["grade", "ground"];

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let name = look.job.settings.datum_name.trim();
    if !GRADE
        .iter()
        .any(|word| name.to_lowercase().split_whitespace().any(|said| said == *word))
    {
        return;
    }
    // Where ground slopes one passage may lie elsewhere; where none lies at zero, zero is not grade.
    let all: Vec<_> = crossings(look).collect();
    let nearest = all
        .iter()
        .map(|&(_, grade)| grade)
        .min_by_key(|grade| grade.magnitude());
    if let Some(grade) = nearest.filter(|grade| grade.magnitude().inches() > NEAR) {
        let runs: Vec<usize> = all.iter().map(|&(run, _)| run).collect();
        let side = if grade.inches() > 0.0 { "above" } else { "below" };
        found.at_all(
            look.on_all(&runs),
            format!(
                "Elevations are measured from \"{name}\"; grade as drawn on {} is {} {side} that zero.",
                look.runs_named(&runs),
                look.show(grade.magnitude())
            ),
            "Set the elevation of grid zero, or name another zero for elevations.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, extend, run};
    use super::RULE;
    use crate::job::{Barrier, Job, Penetration};
    use crate::units::Length;

    /// Pipe that passes down through ground 2 ft below the bend, whose lattice height is 6 steps of 1 ft.
    fn passing(job: &mut Job, datum_feet: f64, name: &str) {
        extend(job, BEND, (0, 0, -4));
        let down = job.runs.iter().map(|run| run.id.0).max().unwrap();
        run(job, down).penetrations.push(Penetration {
            barrier: Barrier::Ground,
            at: Some(Length::from_feet(2.0)),
            ..Penetration::default()
        });
        job.settings.datum = Length::from_feet(datum_feet);
        job.settings.datum_name = name.to_owned();
    }

    #[test]
    fn grade_is_where_pipe_passes_through_ground() {
        check(&RULE, 0, |job| passing(job, -4.0, "finished grade"));
        let found = check(&RULE, 1, |job| passing(job, 0.0, "grade"));
        assert!(found[0].what.contains("4'-0\" above"), "{}", found[0].what);
        check(&RULE, 0, |job| passing(job, 0.0, "finished floor"));
    }
}
