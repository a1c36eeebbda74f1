//! Fittings that meeting pipe implies, their sizes and their lists.

use crate::draft::Draft;
use stubout::codebook::Codebook;
use stubout::fittings::{Fitting, FittingKind, PortKind};
use stubout::job::*;
use stubout::rules::Findings;
use stubout::sizing::Origin;
use stubout::study::Study;
use stubout::units::{GaugePressure, NominalSize, Parse};

fn inch(text: &str) -> NominalSize {
    NominalSize::parse(text).unwrap()
}

fn low() -> Draft {
    Draft::fed_at(GaugePressure::from_inches_wc(7.0))
}

/// Pipe from the supply through these places, each size fixed, an appliance at the end.
fn line(places: &[(i32, i32, i32)], sizes: &[&str]) -> Draft {
    let mut draft = low();
    let mut last = draft.at(0, 0, 0);
    for (place, size) in places.iter().zip(sizes) {
        let next = draft.at(place.0, place.1, place.2);
        let run = draft.run(last, next, 5.0);
        draft.run_mut(run).size = Some(inch(size));
        last = next;
    }
    draft.burner(last, "Grill", 40e3);
    draft
}

fn at(draft: &Draft, id: JointId) -> Vec<Fitting> {
    let study = Study::of(&draft.job, Codebook::published());
    let joint = draft.joint_index(id);
    let all: Vec<Fitting> = study
        .fittings
        .iter()
        .filter(|fitting| fitting.joint == joint)
        .cloned()
        .collect();
    let first = study.joints[joint]
        .fitting
        .map(|fitting| study.fittings[fitting].clone());
    assert_eq!(first.as_ref(), all.first(), "the joint knows its fitting");
    all
}

#[track_caller]
fn check(draft: &Draft, joint: u32, expected: &[(FittingKind, &[&str])]) {
    let found: Vec<_> = at(draft, JointId(joint))
        .into_iter()
        .map(|fitting| (fitting.kind, fitting.sizes))
        .collect();
    let expected: Vec<_> = expected
        .iter()
        .map(|(kind, sizes)| (*kind, sizes.iter().map(|size| inch(size)).collect::<Vec<_>>()))
        .collect();
    assert_eq!(found, expected);
}

use FittingKind::*;

#[test]
fn two_runs_imply_a_turn_by_its_angle() {
    let turned = |to| line(&[(4, 0, 0), to], &["3/4", "3/4"]);
    check(&turned((4, 3, 0)), 2, &[(Elbow90, &["3/4", "3/4"])]);
    check(&turned((4, 0, -2)), 2, &[(Elbow90, &["3/4", "3/4"])]);
    check(&turned((6, 2, 0)), 2, &[(Elbow45, &["3/4", "3/4"])]);
    check(&turned((6, 1, 0)), 2, &[(OddElbow(266), &["3/4", "3/4"])]);
    check(&turned((3, 1, 0)), 2, &[(OddElbow(1350), &["3/4", "3/4"])]);
    check(&turned((9, 0, 0)), 2, &[(Coupling, &["3/4", "3/4"])]);
    let mut street = turned((4, 3, 0));
    street.joint_mut(JointId(2)).turn = Turn::StreetElbow;
    check(&street, 2, &[(StreetElbow90, &["3/4", "3/4"])]);
}

#[test]
fn a_change_of_size_is_made_where_it_is_drawn() {
    check(
        &line(&[(4, 0, 0), (9, 0, 0)], &["1", "1/2"]),
        2,
        &[(ReducingCoupling, &["1", "1/2"])],
    );
    check(
        &line(&[(4, 0, 0), (4, 3, 0)], &["1", "1/2"]),
        2,
        &[(Elbow90, &["1", "1/2"])],
    );
}

#[test]
fn devices_in_line_need_no_fitting_but_do_not_turn() {
    for device in [
        Device::Union,
        Device::Valve(Valve::default()),
        Device::Meter(Meter::default()),
    ] {
        let mut straight = line(&[(4, 0, 0), (9, 0, 0)], &["3/4", "3/4"]);
        straight.put(JointId(2), device.clone());
        check(&straight, 2, &[]);
        let mut corner = line(&[(4, 0, 0), (4, 3, 0)], &["3/4", "3/4"]);
        corner.put(JointId(2), device);
        // The device and the elbow behind it both have female threads.
        check(&corner, 2, &[(Elbow90, &["3/4", "3/4"]), (Nipple, &["3/4"])]);
    }
}

#[test]
fn a_street_elbow_goes_straight_into_the_device_of_its_corner() {
    let mut corner = line(&[(4, 0, 0), (4, 3, 0)], &["3/4", "3/4"]);
    corner.joint_mut(JointId(2)).turn = Turn::StreetElbow;
    corner.put(JointId(2), Device::Valve(Valve::default()));
    check(&corner, 2, &[(StreetElbow90, &["3/4", "3/4"])]);
    let study = Study::of(&corner.job, Codebook::published());
    let found = Findings::of(&corner.job, Codebook::published(), &study);
    let told = |rule: &str| found.iter().any(|finding| finding.rule == rule);
    assert!(!told("street-elbow-piped"));
}

#[test]
fn the_everyday_outdoor_end() {
    // Street elbow, shutoff, reducing coupling and a 3/8 quick coupling on 1/2 pipe (common practice, no source).
    let mut draft = line(
        &[(4, 0, 0), (4, 0, -2), (4, 0, -3), (4, 0, -4)],
        &["1/2", "1/2", "1/2", "1/2"],
    );
    draft.joint_mut(JointId(2)).turn = Turn::StreetElbow;
    draft.put(JointId(3), Device::Valve(Valve::default()));
    draft
        .put(JointId(4), Device::QuickCoupling(QuickCoupling::default()))
        .size = Some(inch("3/8"));
    check(&draft, 2, &[(StreetElbow90, &["1/2", "1/2"])]);
    check(&draft, 3, &[]);
    check(&draft, 4, &[(ReducingCoupling, &["1/2", "3/8"]), (Nipple, &["3/8"])]);
    let study = Study::of(&draft.job, Codebook::published());
    // What leads on to the appliance is its connector: no pipe to be sized, nothing to be guessed.
    let hose = study.sections.last().unwrap();
    assert_eq!((hose.sizing.origin, hose.sizing.size), (Origin::Connector, None));
    let findings = Findings::of(&draft.job, Codebook::published(), &study);
    let told = findings.iter().any(|finding| finding.rule == "no-published-figure");
    assert!(!told, "{findings:#?}");
    assert_eq!(study.devices.len(), 1);
    assert_eq!(
        study.outlets[0].unrated, 2,
        "neither the coupling's loss is known nor that of the hose behind it, of which no connector is drawn"
    );
    assert!(study.outlets[0].pressure.is_some());
}

#[test]
fn a_tee_names_larger_run_other_run_outlet() {
    let mut draft = line(&[(4, 0, 0), (9, 0, 0)], &["1", "3/4"]);
    let (fork, side) = (JointId(2), draft.at(4, 2, 0));
    let branch = draft.run(fork, side, 5.0);
    draft.run_mut(branch).size = Some(inch("1/2"));
    draft.burner(side, "Fire pit", 60e3);
    check(&draft, 2, &[(Tee, &["1", "3/4", "1/2"])]);
    // Gas that comes in by the side: the run is still the straight pair.
    let mut bull = line(&[(4, 0, 0)], &["1"]);
    let fork = JointId(2);
    for (north, size) in [(3, "1/2"), (-3, "3/4")] {
        let end = bull.at(4, north, 0);
        let run = bull.run(fork, end, 5.0);
        bull.run_mut(run).size = Some(inch(size));
    }
    bull.joint_mut(fork).placed = None;
    check(&bull, 2, &[(Tee, &["3/4", "1/2", "1"])]);
}

#[test]
fn four_ways_are_a_cross_and_five_no_stock_fitting() {
    let mut draft = line(&[(4, 0, 0), (9, 0, 0)], &["1", "1"]);
    for (north, size) in [(2, "1/2"), (-2, "3/4")] {
        let end = draft.at(4, north, 0);
        let run = draft.run(JointId(2), end, 5.0);
        draft.run_mut(run).size = Some(inch(size));
    }
    check(&draft, 2, &[(Cross, &["1", "1", "3/4", "1/2"])]);
    let up = draft.at(4, 0, 3);
    let run = draft.run(JointId(2), up, 5.0);
    draft.run_mut(run).size = Some(inch("1/2"));
    assert_eq!(at(&draft, JointId(2))[0].kind, ManyWays(5));
}

#[test]
fn pipe_to_be_removed_makes_no_tee_and_only_it_is_listed_as_removed() {
    let mut draft = line(&[(4, 0, 0), (9, 0, 0)], &["3/4", "3/4"]);
    let (side, end) = (draft.at(4, 3, 0), draft.at(4, 3, 2));
    for (from, to) in [(JointId(2), side), (side, end)] {
        let run = draft.run(from, to, 5.0);
        let run = draft.run_mut(run);
        (run.state, run.size) = (State::Removed, Some(inch("1/2")));
    }
    check(&draft, 2, &[(Coupling, &["3/4", "3/4"])]);
    let gone = at(&draft, side);
    assert_eq!((gone[0].kind, gone[0].state), (Elbow90, State::Removed));
    let study = Study::of(&draft.job, Codebook::published());
    assert!(
        study.sections.iter().all(|section| section.runs.len() == 2),
        "no branch at the removed leg"
    );
}

#[test]
fn a_sediment_trap_is_a_tee_with_a_capped_nipple() {
    let mut drop = line(&[(4, 0, 0), (4, 0, -3), (6, 0, -3)], &["1/2", "1/2", "1/2"]);
    drop.put(JointId(3), Device::SedimentTrap(SedimentTrap::default()));
    check(&drop, 3, &[(Tee, &["1/2", "1/2", "1/2"]), (TrapNipple, &["1/2"])]);
}

#[test]
fn a_cap_closes_an_end_or_a_side() {
    let mut draft = line(&[(4, 0, 0)], &["1/2"]);
    draft.cap(JointId(2), None);
    check(&draft, 2, &[(Cap, &["1/2"])]);
    let mut side = line(&[(4, 0, 0), (9, 0, 0)], &["3/4", "3/4"]);
    side.cap(JointId(2), Some(30e3));
    side.joint_mut(JointId(2)).placed.as_mut().unwrap().size = Some(inch("1/2"));
    // The outlet of a tee is a female thread, which a plug closes.
    check(&side, 2, &[(Tee, &["3/4", "3/4", "1/2"]), (Plug, &["1/2"])]);
}

/// A plug stands for a branch to come: once that is drawn, the tee serves and the plug goes.
#[test]
fn the_plug_of_a_standing_tee_gives_way_to_a_branch() {
    let mut draft = line(&[(4, 0, 0), (4, 3, 0)], &["3/4", "3/4"]);
    draft.cap(JointId(2), None);
    for run in [RunId(1), RunId(2)] {
        draft.run_mut(run).state = State::Existing;
    }
    draft.joint_mut(JointId(2)).placed.as_mut().unwrap().state = State::Existing;
    let all = |draft: &Draft| -> Vec<(FittingKind, State)> {
        let all = at(draft, JointId(2)).into_iter();
        all.map(|fitting| (fitting.kind, fitting.state)).collect()
    };
    assert_eq!(all(&draft), [(Tee, State::Existing), (Plug, State::Existing)]);
    draft.joint_mut(JointId(2)).uncap(2);
    let end = draft.at(9, 0, 0);
    let branch = draft.run(JointId(2), end, 5.0);
    draft.run_mut(branch).size = Some(inch("3/4"));
    draft.burner(end, "Range", 40e3);
    assert_eq!(all(&draft), [(Tee, State::Existing), (Plug, State::Removed)]);
    let study = Study::of(&draft.job, Codebook::published());
    assert_eq!(stubout::work::cut_ins(&draft.job, &study), []);
}

/// Propane in copper, flared or brazed: a tee, an adapter at steel, and a reducer where no fitting reduces.
#[test]
fn flared_copper_has_fittings_as_brazed_copper_has() {
    for joints in [CopperJoints::Brazed, CopperJoints::Flared] {
        let mut draft = line(&[(4, 0, 0), (4, 3, 0), (9, 3, 0)], &["3/4", "3/4", "1/2"]);
        draft.job.settings.material = Material::CopperL;
        draft.job.settings.copper = joints;
        draft.run_mut(RunId(3)).material = Some(Material::Steel40);
        check(&draft, 2, &[(Elbow90, &["3/4", "3/4"])]);
        // No copper tube goes into an elbow of threads without its adapter.
        check(&draft, 3, &[(Elbow90, &["3/4", "1/2"]), (Adapter, &["3/4", "3/4"])]);
        let kinds: Vec<PortKind> = at(&draft, JointId(2))[0].ports.iter().map(|port| port.kind).collect();
        let own = match joints {
            CopperJoints::Brazed => PortKind::Socket,
            CopperJoints::Flared => PortKind::FlareEnd,
        };
        assert_eq!(kinds, [own, own]);
    }
}

#[test]
fn tubing_bends_and_meets_pipe_in_its_own_fitting() {
    let mut bent = line(&[(4, 0, 0), (4, 3, 0), (9, 3, 0)], &["EHD 18", "EHD 18", "EHD 18"]);
    bent.job.settings.material = Material::Csst;
    check(&bent, 2, &[(Bend, &["EHD 18"])]);
    let mut mixed = line(&[(4, 0, 0), (9, 0, 0)], &["3/4", "EHD 23"]);
    mixed.run_mut(RunId(2)).material = Some(Material::Csst);
    check(&mixed, 2, &[(TubingFitting, &["EHD 23", "3/4"])]);
    let mut copper = line(&[(4, 0, 0), (9, 0, 0)], &["3/4", "3/4"]);
    copper.run_mut(RunId(1)).material = Some(Material::CopperK);
    copper.run_mut(RunId(2)).material = Some(Material::CopperL);
    check(&copper, 2, &[(Coupling, &["3/4", "3/4"])]);
}

/// Pipe of these materials through J2, and on to a grill; the third lies as it is told.
fn of_two(first: Material, second: Material, sizes: [&str; 2]) -> Draft {
    let mut draft = line(&[(4, 0, 0), (9, 0, 0)], &sizes);
    draft.run_mut(RunId(1)).material = Some(first);
    draft.run_mut(RunId(2)).material = Some(second);
    draft
}

#[test]
fn copper_meets_a_thread_by_an_adapter_whichever_way_gas_flows() {
    // There is no pipe thread of 5/8, in which copper is made: the adapter has that of the pipe.
    let adapter: (FittingKind, &[&str]) = (Adapter, &["5/8", "1/2"]);
    check(
        &of_two(Material::Steel40, Material::CopperL, ["1/2", "5/8"]),
        2,
        &[adapter],
    );
    check(
        &of_two(Material::CopperL, Material::Steel40, ["5/8", "1/2"]),
        2,
        &[adapter],
    );
    // No malleable elbow is made 5/8 x 1/2 either (ASME B16.3 has the sizes of pipe): it is as large as the steel.
    let mut turn = line(&[(4, 0, 0), (4, 5, 0)], &["5/8", "1/2"]);
    turn.run_mut(RunId(1)).material = Some(Material::CopperL);
    turn.run_mut(RunId(2)).material = Some(Material::Steel40);
    check(&turn, 2, &[(Elbow90, &["1/2", "1/2"]), adapter]);
    let mut valve = of_two(Material::CopperL, Material::CopperL, ["1/2", "1/2"]);
    valve.put(JointId(2), Device::Valve(Valve::default()));
    check(&valve, 2, &[(Adapter, &["1/2", "1/2"]), (Adapter, &["1/2", "1/2"])]);
}

#[test]
fn plastic_comes_up_in_a_riser_and_meets_steel_in_the_soil_by_a_transition_fitting() {
    let mut draft = of_two(Material::Pe, Material::Steel40, ["3/4", "3/4"]);
    draft.run_mut(RunId(1)).surroundings = Surroundings::Underground;
    draft.run_mut(RunId(2)).surroundings = Surroundings::Outdoors;
    check(&draft, 2, &[(Coupling, &["3/4", "3/4"]), (Riser, &["3/4", "3/4"])]);
    // Through a basement's wall nothing rises.
    draft.run_mut(RunId(2)).surroundings = Surroundings::Indoors;
    check(&draft, 2, &[(Coupling, &["3/4", "3/4"]), (Transition, &["3/4", "3/4"])]);
    draft.run_mut(RunId(2)).surroundings = Surroundings::Outdoors;
    // Into a valve the riser goes straight.
    draft.put(JointId(2), Device::Valve(Valve::default()));
    check(&draft, 2, &[(Riser, &["3/4", "3/4"])]);
    draft.run_mut(RunId(2)).surroundings = Surroundings::Underground;
    check(&draft, 2, &[(Transition, &["3/4", "3/4"])]);
    // The turn at the foot of a riser is the riser's own bend; without one it is an elbow.
    let mut upright = line(&[(4, 0, 0), (4, 0, 3), (4, 0, 6)], &["3/4", "3/4", "3/4"]);
    for run in [1, 2] {
        upright.run_mut(RunId(run)).material = Some(Material::Pe);
        upright.run_mut(RunId(run)).surroundings = Surroundings::Underground;
    }
    upright.run_mut(RunId(3)).surroundings = Surroundings::Outdoors;
    check(&upright, 2, &[(Bend, &["3/4"])]);
    check(&upright, 3, &[(Coupling, &["3/4", "3/4"]), (Riser, &["3/4", "3/4"])]);
    upright.run_mut(RunId(3)).material = Some(Material::Pe);
    check(&upright, 2, &[(Elbow90, &["3/4", "3/4"])]);
    // A turn between the two is a threaded elbow, whichever of them feeds it.
    for (first, second) in [(Material::Pe, Material::Steel40), (Material::Steel40, Material::Pe)] {
        let mut turned = line(&[(4, 0, 0), (4, 0, 5)], &["3/4", "3/4"]);
        turned.run_mut(RunId(1)).material = Some(first);
        turned.run_mut(RunId(2)).material = Some(second);
        for run in [1, 2] {
            turned.run_mut(RunId(run)).surroundings = Surroundings::Underground;
        }
        check(&turned, 2, &[(Elbow90, &["3/4", "3/4"]), (Transition, &["3/4", "3/4"])]);
        let study = Study::of(&turned.job, Codebook::published());
        assert_eq!(
            study.fittings[study.assemblies[1].fittings.start].material,
            Material::Steel40
        );
    }
}

/// 3/4 that stands round a corner, and a branch from the corner.
fn cornered() -> Draft {
    let mut draft = low();
    let (a, b, c) = (draft.at(0, 0, 0), draft.at(4, 0, 0), draft.at(4, 5, 0));
    draft.existing(a, b, 10.0, inch("3/4"));
    draft.existing(b, c, 10.0, inch("3/4"));
    draft.burner(c, "Furnace", 40e3);
    draft
}

#[test]
fn the_old_fitting_at_a_tie_in_goes_and_what_still_serves_stays() {
    let mut draft = cornered();
    let all = |draft: &Draft| -> Vec<(FittingKind, State)> {
        at(draft, JointId(2))
            .iter()
            .map(|fitting| (fitting.kind, fitting.state))
            .collect()
    };
    assert_eq!(all(&draft), [(Elbow90, State::Existing)]);
    let end = draft.at(9, 0, 0);
    let branch = draft.run(JointId(2), end, 5.0);
    draft.burner(end, "Grill", 40e3);
    assert_eq!(all(&draft), [(Tee, State::New), (Elbow90, State::Removed)]);
    // Where an old branch goes and a new one comes in its place, the tee serves on.
    let (gone, far) = (JointId(2), draft.at(7, 0, 0));
    let old = draft.run(gone, far, 3.0);
    draft.run_mut(old).state = State::Removed;
    for run in [branch, old] {
        draft.run_mut(run).size = Some(inch("1/2"));
    }
    assert_eq!(all(&draft), [(Tee, State::Existing)]);
    // Where nothing comes in its place, its outlet is plugged.
    draft.job.runs.remove(branch);
    assert_eq!(all(&draft), [(Tee, State::Existing), (Plug, State::New)]);
}

#[test]
fn a_tee_cut_into_existing_pipe_is_new_and_counted_apart() {
    let mut draft = low();
    let (a, b, c) = (draft.at(0, 0, 0), draft.at(4, 0, 0), draft.at(9, 0, 0));
    draft.existing(a, b, 10.0, inch("1"));
    draft.existing(b, c, 10.0, inch("1"));
    draft.burner(c, "Furnace", 80e3);
    let (side, end) = (draft.at(4, 4, 0), draft.at(4, 4, -2));
    draft.run(b, side, 12.0);
    draft.run(side, end, 2.0);
    draft.burner(end, "Grill", 40e3);
    let study = Study::of(&draft.job, Codebook::published());
    let counts = study.fitting_counts();
    let tee = counts.iter().find(|count| count.kind == Tee).unwrap();
    assert_eq!(
        (tee.state, tee.count, tee.joints.clone()),
        (State::New, 1, vec![draft.joint_index(b)])
    );
    assert_eq!(
        counts.iter().map(|count| count.count).sum::<usize>(),
        study.fittings.len()
    );
    assert_eq!(study.sections.len(), 3);
    let elbow = study.fittings.iter().find(|fitting| fitting.kind == Elbow90).unwrap();
    assert_eq!(elbow.section, Some(2), "counted to the section before it");
}
