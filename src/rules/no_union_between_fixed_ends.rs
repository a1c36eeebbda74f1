//! New threaded pipe that is fixed at both ends and cannot be screwed together.

use super::look::Look;
use super::{Found, Rule, Severity};
use crate::codebook::{Spacing, Way};
use crate::job::{Axis, Barrier, DeviceKind, Joining, State};
use crate::units::Length;

/// Threaded pipe goes between two fixed ends only with a union.
pub const RULE: Rule = Rule {
    id: "no-union-between-fixed-ends",
    title: "New threaded pipe is fixed at both ends and has no union",
    severity: Severity::Check,
    basis: "common practice, no source: threaded pipe turns as it is made up, and a line that is tested separately is joined by a union",
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    let mut seen = vec![false; look.job.runs.len()];
    let mut passed = vec![false; look.job.joints.len()];
    for pipe in look.walk.pipes.iter().filter(|pipe| is_new_threaded(look, pipe.run)) {
        if seen[pipe.run] {
            continue;
        }
        let line = Line::of(look, pipe.run, &mut seen, &mut passed);
        if !line.is_stuck(look) {
            continue;
        }
        let ties = look.joints_named(&line.ties);
        let between = match line.ties.len() {
            1 => format!("{ties}, where existing threaded pipe holds it, and its own supports"),
            _ => ties,
        };
        found.at_all(
            look.at_each(&line.ties),
            format!(
                "New threaded pipe ({}) is fixed between {between} with no union between them: it cannot be made up at both ends, nor connected \
                 after it has been tested separately.",
                look.runs_named(&line.runs)
            ),
            format!(
                "Install a union in the new pipe near the tie-in, where it can be reached, or close there with a right-and-left nipple and \
                 coupling; neither is allowed in a concealed location{}.",
                look.clause("union-concealed")
            ),
        );
    }
}

fn is_new_threaded(look: &Look<'_>, run: usize) -> bool {
    let it = look.run(run);
    it.state == State::New && look.job.material(it).is_threaded() && !look.is_connector(run)
}

/// New threaded pipe that hangs together without a union.
struct Line {
    runs: Vec<usize>,
    /// The joints at which standing threaded pipe holds it.
    ties: Vec<usize>,
    /// Whether a union or the nut of tubing ends it anywhere: what is fixed at one end only is closed there at last.
    opens: bool,
    /// Whether another rule asks for a union before an appliance on it.
    told: bool,
}

impl Line {
    /// All that hangs together with a run; each joint is passed once, for all new threaded pipe at it is of one line.
    fn of(look: &Look<'_>, first: usize, seen: &mut [bool], passed: &mut [bool]) -> Line {
        let mut line = Line {
            runs: Vec::new(),
            ties: Vec::new(),
            opens: false,
            told: false,
        };
        let network = &look.study.network;
        let mut waiting = vec![first];
        while let Some(run) = waiting.pop() {
            if std::mem::replace(&mut seen[run], true) {
                continue;
            }
            line.runs.push(run);
            let run = look.run(run);
            for joint in [run.from, run.to]
                .into_iter()
                .filter_map(|end| look.job.joints.position(end))
            {
                match look.walk.kind(joint) {
                    Some(DeviceKind::Union) => {
                        line.opens = true;
                        continue;
                    }
                    Some(DeviceKind::Appliance) => line.told |= look.is_new(joint),
                    _ => {}
                }
                if std::mem::replace(&mut passed[joint], true) {
                    continue;
                }
                let mut held = false;
                for leg in network.legs(joint) {
                    let other = look.run(leg);
                    match (other.state, look.job.joining(other)) {
                        (State::New, Joining::Threaded) if !look.is_connector(leg) => waiting.push(leg),
                        (State::Existing, Joining::Threaded) => held = true,
                        // A nut is turned by itself, and tubing gives way.
                        (State::New | State::Existing, Joining::Nut | Joining::Flared) => {
                            line.opens |= other.state == State::New
                        }
                        _ => {}
                    }
                }
                if held {
                    line.ties.push(joint);
                }
            }
        }
        line.runs.sort_unstable();
        line.ties.sort_unstable();
        line
    }

    fn is_stuck(&self, look: &Look<'_>) -> bool {
        match self.ties.len() {
            0 => false,
            1 => self.is_strapped(look) && !self.opens && !self.told,
            // What opens a branch of it does not let the pipe between them turn.
            _ => true,
        }
    }

    /// Whether the line is held by what it passes through, or is so long that it is strapped.
    fn is_strapped(&self, look: &Look<'_>) -> bool {
        let passes = |&run: &usize| {
            let mut passages = look.run(run).penetrations.iter();
            passages.any(|passage| passage.barrier != Barrier::Ground)
        };
        let supports = |&run: &usize| {
            let size = look.study.size(look.job, run)?;
            let spacing = look
                .book
                .support_spacing(look.job.material(look.run(run)), size, way(look, run))?;
            match spacing.value {
                Spacing::AtMost(apart) => Some(look.study.runs[run].length >= apart),
                Spacing::EveryFloor | Spacing::AsMakerSays => {
                    Some(look.study.runs[run].length >= Length::from_feet(10.0))
                }
            }
        };
        self.runs.iter().any(passes) || self.runs.iter().any(|run| supports(run).unwrap_or_default())
    }
}

fn way(look: &Look<'_>, run: usize) -> Way {
    let run = look.run(run);
    let at = |id| look.job.joints.get(id).map(|joint| joint.at);
    match at(run.from).zip(at(run.to)).and_then(|(from, to)| (to - from).axis()) {
        Some(Axis::Up) => Way::Vertical,
        Some(Axis::East | Axis::North) | None => Way::Horizontal,
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{FURNACE, UNION, check, joint, put, run};
    use super::RULE;
    use crate::job::{Device, Job, Material, QuickCoupling, State};
    use crate::units::{Length, NominalSize};

    /// The union before the fire pit goes, and a hose comes in the place of rigid pipe there.
    fn without_a_union(job: &mut Job) {
        joint(job, UNION).placed = None;
        put(job, 8, Device::QuickCoupling(QuickCoupling::default()));
    }

    #[test]
    fn a_line_through_a_wall_from_a_standing_tee_has_a_union() {
        check(&RULE, 0, |_| {});
        let list = check(&RULE, 1, without_a_union);
        assert!(
            list[0].what.contains("R3") && list[0].remedy.contains("union"),
            "{list:?}"
        );
    }

    #[test]
    fn a_union_on_a_branch_does_not_open_what_lies_between_two_standing_lengths() {
        let list = check(&RULE, 1, |job| {
            run(job, 4).state = State::Existing;
            run(job, 4).size = Some(NominalSize::Inch(16));
            run(job, 2).state = State::New;
            put(job, FURNACE, Device::Union);
        });
        assert!(list[0].what.contains("J2 and J4"), "{list:?}");
    }

    #[test]
    fn standing_tubing_gives_way() {
        check(&RULE, 0, |job| {
            without_a_union(job);
            for number in [1, 2] {
                run(job, number).material = Some(Material::Csst);
                run(job, number).size = Some(NominalSize::Ehd(37));
            }
        });
    }

    #[test]
    fn an_appliance_without_a_union_is_told_by_its_own_rule() {
        check(&RULE, 0, |job| joint(job, UNION).placed = None);
    }

    #[test]
    fn a_short_line_through_no_wall_is_turned_in_by_hand() {
        check(&RULE, 0, |job| {
            without_a_union(job);
            run(job, 4).penetrations.clear();
            for number in 3..=8 {
                run(job, number).length = Some(Length::from_feet(2.0));
            }
        });
    }
}
