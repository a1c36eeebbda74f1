//! Pipe that lies too shallow.

use super::look::Look;
use super::{BY_PROFILE, Found, Rule, Severity};
use crate::codebook::{Burial, Marked};
use crate::job::Surroundings;
use crate::units::Length;

/// Pipe in the soil has its least cover.
pub const RULE: Rule = Rule {
    id: "burial-shallow",
    title: "Buried pipe has less cover than the profile requires",
    severity: Severity::MustFix,
    basis: BY_PROFILE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for (run, cover, burial) in covered(look) {
        let single = is_single(look, run);
        let (least, what) = match single {
            true => (burial.single_appliance, "a line to one outdoor appliance"),
            false => (burial.usual, "buried pipe"),
        };
        if cover < least.value {
            found.at(
                look.on(run),
                format!(
                    "Run {} has {} of cover; {what} requires {} ({}), and {} where damage is likely.",
                    look.run(run).id,
                    look.show(cover),
                    look.limit(least.value),
                    look.by_profile(least.mark),
                    look.limit(burial.damage_likely.value)
                ),
                "Bury it deeper, or protect it with conduit or a shield as the permit office requires.",
            );
        }
    }
}

/// New buried pipe whose cover is given, with the profile's figures.
pub fn covered<'a>(look: &Look<'a>) -> impl Iterator<Item = (usize, Length, &'a Burial)> + use<'a> {
    let look = *look;
    let burial = look.profile.burial.as_ref();
    let buried = look
        .walk
        .pipes
        .iter()
        .filter(|pipe| pipe.is_new() && pipe.surroundings == Surroundings::Underground);
    buried.filter_map(move |pipe| Some((pipe.run, look.run(pipe.run).cover?, burial?)))
}

/// Whether a run is part of a line to one outdoor outlet and to nothing else.
pub fn is_single(look: &Look<'_>, run: usize) -> bool {
    let Some(section) = look.study.runs[run].section else {
        return false;
    };
    let serves = &look.study.sections[section].serves;
    let outlet = look.study.outlets.get(serves.start).filter(|_| serves.len() == 1);
    let feed = outlet.and_then(|outlet| look.feed(outlet.joint));
    feed.is_some_and(|feed| super::pipe::is_outside(look.run(feed).surroundings))
}

/// The figure for a line to one outdoor appliance, where less than the usual cover leans on it.
pub fn leans_on(cover: Length, burial: &Burial) -> Option<Marked<Length>> {
    let single = burial.single_appliance;
    (cover >= single.value && cover < burial.usual.value).then_some(single)
}

#[cfg(test)]
mod tests {
    use super::super::sample::{check, extend, put, run};
    use super::RULE;
    use crate::job::{Cap, Device, Job, Surroundings};
    use crate::units::{HeatRate, Length};

    fn bury(number: u32, inches: f64) -> impl Fn(&mut Job) {
        move |job| {
            let run = run(job, number);
            (run.surroundings, run.cover) = (Surroundings::Underground, Some(Length::from_inches(inches)));
        }
    }

    #[test]
    fn a_line_to_one_outdoor_appliance_may_lie_shallower() {
        check(&RULE, 1, bury(5, 7.0));
        check(&RULE, 0, bury(5, 8.0));
    }

    #[test]
    fn a_line_to_two_lies_at_the_usual_depth() {
        let two = |inches: f64| {
            move |job: &mut Job| {
                bury(5, inches)(job);
                let end = extend(job, 6, (0, 3, 0));
                let future_input = Some(HeatRate::from_mbh(20.0));
                put(
                    job,
                    end,
                    Device::Cap(Cap {
                        future_input,
                        projection: None,
                    }),
                );
                bury(9, 12.0)(job);
            }
        };
        check(&RULE, 1, two(11.0));
        check(&RULE, 0, two(12.0));
    }
}
