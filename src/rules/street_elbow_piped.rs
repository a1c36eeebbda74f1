//! Street elbows that are drawn with pipe at both ends.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::fittings::{FittingKind, PortKind, Takes};
use crate::job::State;
use crate::work::CutList;
use std::cell::OnceCell;

/// A street elbow has one male end, on which no pipe goes.
pub const RULE: Rule = Rule {
    id: "street-elbow-piped",
    title: "A street elbow has pipe at its male end",
    severity: Severity::Check,
    basis: "ASME B16.3: a street elbow has one female and one male end (from memory)",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let cuts = OnceCell::new();
    let street = look.study.fittings.iter();
    let street = street.filter(|it| it.kind == FittingKind::StreetElbow90 && it.state == State::New);
    for fitting in street.filter(|fitting| !fitting.sizes.is_empty()) {
        let male = fitting.ports.iter().find_map(|port| match (port.kind, port.takes) {
            (PortKind::MaleThread | PortKind::Tube | PortKind::FlareNut, Takes::Run(run)) => Some(run),
            _ => None,
        });
        // Screwed straight in there is no pipe.
        let Some(run) = male.filter(|&run| look.study.assemblies[fitting.joint].direct != Some(run)) else {
            continue;
        };
        let cuts = cuts.get_or_init(|| CutList::of(look.job, look.study, look.book));
        let piece = cuts.pieces.iter().find(|piece| piece.runs.contains(&run));
        let straight_in = match piece.filter(|piece| piece.is_known()) {
            Some(piece) => format!(" {} from the center ahead of it", look.show(piece.taken_out())),
            None => String::new(),
        };
        found.at(
            look.at(fitting.joint),
            format!(
                "Street elbow at {} has pipe at both ends; its male end goes straight into a fitting or device.",
                look.joint_name(fitting.joint)
            ),
            format!(
                "Turn there with a 90° elbow, draw the street elbow{straight_in}, threaded straight in, or enter which of its ends is male."
            ),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, joint, run};
    use super::RULE;
    use crate::job::{Job, Turn};
    use crate::units::{Length, NominalSize};

    /// Pipe at both ends; J4 before it is a coupling.
    fn street(job: &mut Job) {
        joint(job, 5).turn = Turn::StreetElbow;
        run(job, 4).size = Some(NominalSize::Inch(12));
        run(job, 3).size = Some(NominalSize::Inch(12));
    }

    #[test]
    fn no_pipe_goes_on_a_male_end() {
        check(&RULE, 0, |_| {});
        let list = check(&RULE, 1, street);
        assert!(list[0].remedy.contains("2 1/8\""), "{list:?}");
    }

    #[test]
    fn screwed_straight_in_it_is_quiet() {
        // Half a 3/4 in coupling, 0.76 in, less its make-up, 0.553 in, and the street elbow to its male end, 1.89 in.
        check(&RULE, 0, |job| {
            street(job);
            run(job, 4).length = Some(Length::from_inches(2.1));
        });
    }
}
