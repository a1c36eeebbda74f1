//! Offsets whose measures do not agree with each other, or with the way that they are drawn.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::job::{Axis, Offset};
use crate::network::Lie;

/// An offset goes by its measures; the drawing only says to which sides.
pub const RULE: Rule = Rule {
    id: "offset-unlike",
    title: "The measurements of an offset disagree with each other or with the drawing",
    severity: Severity::MustFix,
    basis: "plain geometry, to 1/8 in (the tool's own choice)",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let runs = look.job.runs.iter().enumerate();
    let measured: Vec<_> = runs.filter_map(|(at, run)| Some((at, run.measured()?))).collect();
    if measured.is_empty() {
        return;
    }
    let places: Vec<_> = look.job.joints.iter().map(|joint| joint.at).collect();
    let network = &look.study.network;
    let lie = Lie::of(look.job, network, &places);
    for (run, offset) in measured {
        let id = look.run(run).id;
        match offset {
            Err(misfit) => found.at(
                look.on(run),
                format!(
                    "Run {id} makes no offset: {}. Its measurements are not used.",
                    misfit.words(look.job.settings.units)
                ),
                misfit.remedy(),
            ),
            Ok(offset) => {
                let Some((from, to)) = network.joints_of[run] else {
                    continue;
                };
                let drawn = places[to] - places[from];
                let meets = network.legs(from).chain(network.legs(to)).any(|leg| leg != run);
                let fault = match lie.lines[run] {
                    _ if drawn.axis().is_some() => Some(STRAIGHT.to_owned()),
                    Some(line) if offset.way(drawn, line).is_none() => Some(sides(look, &offset, line)),
                    None if meets => {
                        Some("no pipe along an axis meets it, so its angle to a line is not known".to_owned())
                    }
                    Some(_) | None => None,
                };
                if let Some(fault) = fault {
                    found.at(
                        look.on(run),
                        format!("Run {id} has the measurements of an offset, and {fault}. Its fittings are those of the drawing."),
                        "Draw it as an offset between square lines, toward the sides it goes to; it need not be to scale.",
                    );
                }
            }
        }
    }
}

const STRAIGHT: &str = "is drawn along an axis";

fn sides(look: &Look<'_>, offset: &Offset, line: Axis) -> String {
    let [rise, roll] = match line {
        Axis::East => ["up or down", "north or south"],
        Axis::North => ["up or down", "east or west"],
        Axis::Up => ["east or west", "north or south"],
    };
    format!(
        "is not drawn that way: {} {rise} (rise), {} {roll} (roll)",
        look.show(offset.rise),
        look.show(offset.roll)
    )
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, joint, run};
    use super::RULE;
    use crate::job::{Job, MeasuredOffset};
    use crate::units::{Angle, Length};

    /// Makes a slope of R4: the outdoor part comes to lie higher and farther north.
    fn slope(job: &mut Job, north: i32, up: i32) {
        for number in BEND + 1..=9 {
            let at = &mut joint(job, number).at;
            (at.north, at.up) = (at.north + north, at.up + up);
        }
        let slope = run(job, 4);
        (slope.length, slope.penetrations) = (None, Vec::new());
        slope.offset = Some(MeasuredOffset {
            rise: Length::from_inches(8.0),
            roll: Length::from_inches(12.0),
            angle: Some(Angle::from_degrees(45.0)),
            run: None,
        });
    }

    #[test]
    fn an_offset_is_drawn_to_the_sides_to_which_it_goes() {
        check(&RULE, 0, |job| slope(job, 1, 1));
        check(&RULE, 0, |job| slope(job, -3, 2));
        let level = check(&RULE, 1, |job| slope(job, 2, 0));
        assert!(level[0].what.contains("8\" up or down (rise)"), "{}", level[0].what);
        let straight = check(&RULE, 1, |job| slope(job, 0, 0));
        assert!(straight[0].what.contains("along an axis"), "{}", straight[0].what);
    }

    #[test]
    fn measures_agree() {
        let unlike = check(&RULE, 1, |job| {
            slope(job, 1, 1);
            run(job, 4).length = Some(Length::from_inches(30.0));
        });
        assert!(
            unlike[0]
                .what
                .contains("travel is entered as 2'-6\"; by the other measurements it is 1'-8 3/8\""),
            "{}",
            unlike[0].what
        );
        check(&RULE, 0, |job| {
            slope(job, 1, 1);
            run(job, 4).length = Some(Length::from_inches(20.375));
        });
    }
}
