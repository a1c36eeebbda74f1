//! Pressure along small jobs.

use crate::draft::Draft;
use stubout::codebook::Codebook;
use stubout::gas::{FlowingGas, LaminarBranch, Pipe, Roughness, Temperature, Viscosity, loss};
use stubout::job::*;
use stubout::pressure::RatingVerdict;
use stubout::study::Study;
use stubout::units::*;

fn inch(text: &str) -> NominalSize {
    NominalSize::parse(text).unwrap()
}

fn study(draft: &Draft) -> Study {
    Study::of(&draft.job, Codebook::published())
}

fn along(feet: f64, bore_in: f64, cfh: f64, inlet: GaugePressure) -> PressureDrop {
    let pipe = Pipe {
        bore: InsideDiameter::from_inches(bore_in),
        roughness: Roughness::STEEL,
        length: Length::from_feet(feet),
    };
    let gas = FlowingGas::new(0.6, Viscosity::NATURAL_GAS, Temperature::STANDARD);
    loss(
        pipe,
        &gas,
        Flow::from_cfh(cfh),
        inlet,
        AbsolutePressure::ATMOSPHERE,
        LaminarBranch::WithLaminar,
    )
    .drop
}

/// Level 3/4 pipe of 40 ft with 100 cfh.
fn level() -> Draft {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let (from, to) = (draft.at(0, 0, 0), draft.at(8, 0, 0));
    let run = draft.run(from, to, 40.0);
    draft.run_mut(run).size = Some(inch("3/4"));
    draft.burner(to, "Grill", 100e3).least_inlet = Some(GaugePressure::from_inches_wc(5.0));
    draft
}

#[test]
fn straight_level_pipe_loses_what_one_pipe_loses() {
    let study = study(&level());
    let expected = along(40.0, 0.824, 100.0, GaugePressure::from_inches_wc(7.0));
    let outlet = &study.outlets[0];
    assert!((outlet.zone_drop.unwrap().pa() - expected.pa()).abs() < 1e-9);
    let margin = outlet.margin.unwrap();
    assert!((margin.inches_wc() - (2.0 - expected.inches_wc())).abs() < 1e-9);
    let flowing = study.runs[0].flowing.unwrap();
    // 100 cfh in 0.824 in: 0.786 l/s over 3.44 cm², a little compressed.
    assert!((flowing.velocity.unwrap() - 2.25).abs() < 0.02, "{flowing:?}");
    assert_eq!(flowing.equivalent, Length::ZERO);
    assert!(!flowing.from_table);
}

#[test]
fn fittings_and_valves_count_with_their_length() {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let (from, corner, valve, to) = (
        draft.at(0, 0, 0),
        draft.at(4, 0, 0),
        draft.at(4, 4, 0),
        draft.at(4, 8, 0),
    );
    for (from, to) in [(from, corner), (corner, valve), (valve, to)] {
        let run = draft.run(from, to, 10.0);
        draft.run_mut(run).size = Some(inch("3/4"));
    }
    draft.put(valve, Device::Valve(Valve::default()));
    draft.burner(to, "Grill", 100e3);
    let study = study(&draft);
    // Elbow and ball valve count 30 bores each, to the run entered through the elbow and ended by the valve.
    let expected = 2.0 * 30.0 * 0.824 / 12.0;
    let found: Vec<f64> = study
        .runs
        .iter()
        .map(|run| run.flowing.unwrap().equivalent.feet())
        .collect();
    assert!(
        found[0] == 0.0 && (found[1] - expected).abs() < 1e-4 && found[2] == 0.0,
        "{found:?}"
    );
}

#[test]
fn light_gas_gains_in_a_riser_and_propane_loses() {
    for (fuel, inlet, sense) in [(Fuel::Natural, 7.0, 1.0), (Fuel::Propane, 11.0, -1.0)] {
        let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(inlet));
        draft.job.gas.fuel = fuel;
        let (from, to) = (draft.at(0, 0, 0), draft.at(0, 0, 5));
        let run = draft.run(from, to, 100.0);
        draft.run_mut(run).size = Some(inch("2"));
        draft.burner(to, "Pilot", 100.0);
        let study = study(&draft);
        let flowing = study.runs[0].flowing.unwrap();
        // Computed: +0.573 in w.c. in 100 ft for natural gas of SG 0.60, −0.735 for propane of 1.50 at air pressure and
        // −0.79 for propane at 11 in w.c.
        let gain = -flowing.elevation.inches_wc();
        assert!(gain * sense > 0.56 && gain * sense < 0.80, "{gain}");
        assert!(
            (study.joints[1].elevation.feet() - 100.0).abs() < 1e-6,
            "the true length rises, not the drawn one"
        );
    }
}

#[test]
fn a_regulator_holds_its_setting_or_passes_what_is_left() {
    let mut draft = Draft::fed_at(GaugePressure::from_psi(2.0));
    let (from, regulator, to) = (draft.at(0, 0, 0), draft.at(4, 0, 0), draft.at(8, 0, 0));
    for (from, to) in [(from, regulator), (regulator, to)] {
        let run = draft.run(from, to, 30.0);
        draft.run_mut(run).size = Some(inch("3/4"));
    }
    draft.burner(to, "Furnace", 100e3);
    draft.regulator(regulator, GaugePressure::from_inches_wc(8.0));
    let held = study(&draft);
    assert_eq!(held.zones.len(), 2);
    assert_eq!(held.joints[1].pressure, Some(GaugePressure::from_inches_wc(8.0)));
    assert_eq!((held.joints[1].zone, held.joints[2].zone), (Some(0), Some(1)));
    assert!(
        held.outlets[0].zone_drop.unwrap().inches_wc() < 0.5,
        "counted from the regulator"
    );
    assert!(held.devices[0].inlet.unwrap().psi() > 1.9);
    assert_eq!(held.outlets[0].unrated, 1);
    // With a drop of its own that leaves less than the setting.
    draft.regulator(regulator, GaugePressure::from_psi(1.5)).rating = Rating {
        capacity: Some(Flow::from_cfh(50.0)),
        drop: Some(PressureDrop::from_psi(0.4)),
    };
    let starved = study(&draft);
    let behind = starved.joints[1].pressure.unwrap();
    assert!(
        (behind.psi() - 0.4).abs() < 0.01,
        "2 psi less four times 0.4: {}",
        behind.psi()
    );
    assert_eq!(starved.devices[0].verdict, RatingVerdict::Exceeded);
    assert!((starved.devices[0].drop.unwrap().psi() - 1.6).abs() < 1e-9);
}

#[test]
fn gas_over_one_and_a_half_psi_expands_along_the_pipe() {
    let mut draft = level();
    draft.joint_mut(JointId(1)).placed = Some(Placed::new(Device::Supply(Supply {
        pressure: Some(GaugePressure::from_psi(5.0)),
        meter: None,
        regulator: None,
        ..Supply::default()
    })));
    draft.burner(JointId(2), "Boiler", 2000e3);
    let lost = study(&draft).outlets[0].zone_drop.unwrap();
    assert!((lost.pa() - along(40.0, 0.824, 2000.0, GaugePressure::from_psi(5.0)).pa()).abs() < 1e-6);
}

#[test]
fn the_suppliers_meter_is_judged_and_not_taken_off() {
    let mut draft = level();
    let rating = Rating {
        capacity: Some(Flow::from_cfh(80.0)),
        drop: Some(PressureDrop::from_inches_wc(0.5)),
    };
    draft.joint_mut(JointId(1)).placed = Some(Placed::new(Device::Supply(Supply {
        pressure: Some(GaugePressure::from_inches_wc(7.0)),
        meter: Some(rating),
        regulator: Some(Rating::default()),
        ..Supply::default()
    })));
    let study = study(&draft);
    let verdicts: Vec<_> = study
        .devices
        .iter()
        .map(|device| (device.name(), device.verdict))
        .collect();
    assert_eq!(
        verdicts,
        [
            ("meter", RatingVerdict::Exceeded),
            ("service regulator", RatingVerdict::Unknown)
        ]
    );
    assert_eq!(study.joints[0].pressure, Some(GaugePressure::from_inches_wc(7.0)));
}

#[test]
fn a_missing_size_leaves_pressure_open_downstream_only() {
    let mut draft = level();
    let (end, further) = (draft.at(8, 0, 0), draft.at(8, 4, 0));
    draft.run(end, further, 10.0);
    draft.burner(further, "Pit", 20e3);
    let run = draft.run_mut(RunId(2));
    (run.state, run.size) = (State::Existing, None);
    let study = study(&draft);
    assert!(study.outlets[0].pressure.is_some());
    assert_eq!(
        (
            study.outlets[1].pressure,
            study.runs[1].flowing.map(|flowing| flowing.flow)
        ),
        (None, None)
    );
}

#[test]
fn corrugated_tubing_loses_by_its_table() {
    let mut draft = level();
    draft.run_mut(RunId(1)).material = Some(Material::Csst);
    draft.run_mut(RunId(1)).size = Some(NominalSize::Ehd(25));
    let flowing = study(&draft).runs[0].flowing.unwrap();
    assert!(flowing.from_table && flowing.velocity.is_none());
    assert!(flowing.friction.pa() > 0.0);
}

#[test]
fn tees_count_to_the_run_they_turn_into() {
    let mut draft = level();
    let (end, side, on) = (JointId(2), draft.at(8, 3, 0), draft.at(12, 0, 0));
    draft.joint_mut(end).placed = None;
    for (to, size) in [(side, "1/2"), (on, "3/4")] {
        let run = draft.run(end, to, 5.0);
        draft.run_mut(run).size = Some(inch(size));
        draft.burner(to, "Burner", 40e3);
    }
    let study = study(&draft);
    let found: Vec<f64> = study
        .runs
        .iter()
        .map(|run| run.flowing.unwrap().equivalent.feet())
        .collect();
    // 60 bores of the inlet through the side, 20 straight on.
    assert!((found[1] - 60.0 * 0.824 / 12.0).abs() < 1e-4, "{found:?}");
    assert!((found[2] - 20.0 * 0.824 / 12.0).abs() < 1e-4, "{found:?}");
}
