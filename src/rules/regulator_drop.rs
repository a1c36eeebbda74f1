//! Line regulators that take more than the table of the tubing before them allows.

use super::look::Look;
use super::{BY_CODE, Found, Rule, Severity};
use crate::codebook::CapacityTable;
use crate::job::DeviceKind;
use crate::sizing::Basis;
use crate::units::{PressureDrop, Show};

/// Some tables of corrugated tubing may not be used where the line regulator behind the tubing loses more than they say.
pub const RULE: Rule = Rule {
    id: "regulator-drop",
    title: "A line regulator loses more than the tubing's sizing table allows",
    severity: Severity::Check,
    basis: BY_CODE,
    check,
};

fn check(look: &Look<'_>, found: &mut Found<'_>) {
    for device in &look.study.devices {
        if look.walk.kind(device.joint) != Some(DeviceKind::Regulator) {
            continue;
        }
        let Some((drop, (table, most))) = device.drop.zip(strictest(look, device.joint)) else {
            continue;
        };
        if drop > most {
            found.at(
                look.at(device.joint),
                format!(
                    "{} loses {:.2} psi of its own at {}, more than the {} limit of table {}, which sizes the tubing to it.",
                    look.regulator_name(device.joint),
                    drop.psi(),
                    look.show(device.flow),
                    most.show(look.study.names.units()),
                    table.id
                ),
                "Use a larger regulator, or size the tubing to it by the tubing manufacturer's own table.",
            );
        }
    }
}

/// The table with the least such limit among those that size the pipe from the start of the zone to a joint.
fn strictest<'a>(look: &Look<'a>, joint: usize) -> Option<(&'a CapacityTable, PressureDrop)> {
    let mut at = joint;
    let mut strictest: Option<(&CapacityTable, PressureDrop)> = None;
    while let Some(run) = look.feed(at) {
        let section = look.study.runs[run]
            .section
            .map(|section| &look.study.sections[section]);
        let table = match section.map(|section| &section.sizing.basis) {
            Some(Basis::Table { table, .. }) => look.book.table(table),
            Some(Basis::Equation { .. } | Basis::Nothing(_)) | None => None,
        };
        if let Some((table, loss)) = table.and_then(|table| Some((table, table.regulator_loss?.value)))
            && strictest.is_none_or(|(_, least)| loss < least)
        {
            strictest = Some((table, loss));
        }
        at = look.study.network.upstream(at)?;
        if look.walk.kind(at) == Some(DeviceKind::Regulator) {
            break;
        }
    }
    strictest
}

#[cfg(test)]
mod tests {
    use super::super::sample::{BEND, check, put, regulator, run, supply};
    use super::RULE;
    use crate::job::{Device, Fuel, Job, Material};
    use crate::units::{Flow, GaugePressure, PressureDrop};

    /// A regulator behind pipe of a material at a pressure, which loses so much of its own at 65 cfh.
    fn line(fuel: Fuel, material: Material, inlet: f64, loss: f64) -> impl Fn(&mut Job) {
        move |job| {
            job.gas.fuel = fuel;
            supply(job).pressure = Some(GaugePressure::from_psi(inlet));
            run(job, 3).material = Some(material);
            let mut regulator = regulator();
            let flow = if fuel == Fuel::Natural {
                65.0
            } else {
                65_000.0 / 2_490.0
            };
            regulator.rating.capacity = Some(Flow::from_cfh(flow));
            regulator.rating.drop = Some(PressureDrop::from_psi(loss));
            put(job, BEND, Device::Regulator(regulator));
        }
    }

    /// Notes of NFPA 54-2012 tables 6.2(r), 6.2(s), 6.3(i) and 6.3(j), IFGC 402.4(18), (19), (33) and (34).
    #[test]
    fn each_table_of_tubing_has_its_own_limit() {
        use Fuel::{Natural, Propane};
        for (fuel, inlet, most, table) in [
            (Natural, 2.0, 0.75, "402.4(18)"),
            (Natural, 5.0, 1.0, "402.4(19)"),
            (Propane, 2.0, 0.5, "402.4(33)"),
            (Propane, 5.0, 0.5, "402.4(34)"),
        ] {
            let found = check(&RULE, 1, line(fuel, Material::Csst, inlet, most + 0.05));
            assert!(found[0].what.contains(table), "{}", found[0].what);
            check(&RULE, 0, line(fuel, Material::Csst, inlet, most - 0.01));
        }
    }

    /// No clause gives steel a limit.
    #[test]
    fn a_table_without_a_limit_gives_none() {
        check(&RULE, 0, line(Fuel::Natural, Material::Steel40, 2.0, 0.8));
    }
}
