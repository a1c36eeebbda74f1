//! Appliances without an input.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::job::{Detail, Device, DeviceKind};

/// Every appliance counts with the input of its rating plate.
pub const RULE: Rule = Rule {
    id: "input-missing",
    title: "An appliance has no input",
    severity: Severity::MustFix,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    found.put_right_in(Detail::Input);
    for &joint in look.walk.all(DeviceKind::Appliance) {
        let Some(Device::Appliance(appliance)) = look.device(joint) else {
            continue;
        };
        let given = appliance.input.map(|input| input.btuh());
        let what = match given {
            Some(btuh) if btuh.is_finite() && btuh > 0.0 => continue,
            None => "no input is entered, so it adds nothing to the demand".to_owned(),
            Some(btuh) if btuh.is_finite() => format!("its input is entered as {btuh} Btu/h"),
            Some(_) => "its input is not a number".to_owned(),
        };
        let usual = appliance
            .class
            .as_deref()
            .and_then(|class| look.book.appliance_class(class));
        let remedy = match usual {
            Some(class) => format!(
                "Read the rating plate and enter its input. Do not size from a usual figure (of a {}: {}, {}).",
                class.name,
                look.show(class.usual),
                class.mark.words()
            ),
            None => "Read the rating plate and enter the input.".to_owned(),
        };
        found.at(look.at(joint), format!("{}: {what}.", look.outlet_name(joint)), remedy);
    }
}

#[cfg(test)]
mod tests {
    use super::super::sample::{FURNACE, PIT, appliance, check, joint};
    use super::RULE;
    use crate::job::State;
    use crate::units::HeatRate;

    #[test]
    fn an_appliance_without_an_input_is_told_with_its_usual_one() {
        let found = check(&RULE, 1, |job| appliance(job, PIT).input = None);
        assert!(found[0].remedy.contains("65,000 Btu/h"), "{}", found[0].remedy);
        for btuh in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            check(&RULE, 1, |job| {
                appliance(job, PIT).input = Some(HeatRate::from_btuh(btuh))
            });
        }
    }

    #[test]
    fn an_appliance_that_goes_needs_none() {
        check(&RULE, 0, |job| {
            appliance(job, FURNACE).input = None;
            joint(job, FURNACE).placed.as_mut().unwrap().state = State::Removed;
        });
    }
}
