//! Loads, zones, lengths and sizes of small jobs.

use crate::draft::Draft;
use stubout::codebook::{Codebook, Mark};
use stubout::job::*;
use stubout::network::OutletKind;
use stubout::rules::{Checked, Severity};
use stubout::sizing::{Basis, LengthRule, Origin, Section, Verdict};
use stubout::study::{Study, explain};
use stubout::units::*;

fn inch(text: &str) -> NominalSize {
    NominalSize::parse(text).unwrap()
}

fn low() -> Draft {
    Draft::fed_at(GaugePressure::from_inches_wc(7.0))
}

fn study(draft: &Draft) -> Study {
    Study::of(&draft.job, Codebook::published())
}

/// One length of pipe to one appliance.
fn single(feet: f64, btuh: f64) -> Draft {
    let mut draft = low();
    let (from, to) = (draft.at(0, 0, 0), draft.at(5, 0, 0));
    draft.run(from, to, feet);
    draft.burner(to, "Appliance", btuh);
    draft
}

fn only(draft: &Draft) -> Section {
    study(draft).sections.remove(0)
}

#[test]
fn of_heating_and_cooling_the_larger_counts() {
    let mut draft = low();
    let (from, fork) = (draft.at(0, 0, 0), draft.at(3, 0, 0));
    let (furnace, cooler, range) = (draft.at(3, 2, 0), draft.at(5, 0, 0), draft.at(3, -2, 0));
    draft.run(from, fork, 10.0);
    for end in [furnace, cooler, range] {
        draft.run(fork, end, 10.0);
    }
    draft.burner(furnace, "Furnace", 100e3).season = Season::Heating;
    draft.burner(cooler, "Gas cooler", 60e3).season = Season::Cooling;
    draft.burner(range, "Range", 65e3);
    let study = study(&draft);
    assert_eq!(study.total.heat.btuh(), 165e3);
    assert_eq!(study.total.left_out.btuh(), 60e3);
    let cooling = &study.sections[study.runs[2].section.unwrap()];
    assert_eq!(
        cooling.load.heat.btuh(),
        60e3,
        "alone on its branch nothing is left out"
    );
    assert_eq!(study.sections[0].serves, 0..3);
}

#[test]
fn capped_ends_carry_their_future_and_bare_caps_nothing() {
    let mut draft = single(20.0, 40e3);
    let (later, bare) = (draft.at(5, 3, 0), draft.at(5, -3, 0));
    let end = draft.at(5, 0, 0);
    draft.run(end, later, 30.0);
    draft.run(end, bare, 90.0);
    draft.cap(later, Some(60e3));
    draft.cap(bare, None);
    let study = study(&draft);
    assert_eq!(study.total.heat.btuh(), 100e3);
    assert_eq!(study.outlets.len(), 2);
    assert_eq!(study.outlets[1].kind, OutletKind::Future);
    assert_eq!(
        study.zones[0].longest,
        Length::from_feet(50.0),
        "the bare cap is no outlet"
    );
    let stub = &study.sections[study.runs[2].section.unwrap()];
    assert_eq!((stub.sizing.size, stub.sizing.verdict), (None, Verdict::Unknown));
    assert!(stub.sizing.remarks[0].contains("No load"), "{:?}", stub.sizing.remarks);
}

#[test]
fn an_appliance_without_input_leaves_the_verdict_open() {
    let mut draft = single(20.0, 40e3);
    let (end, other) = (draft.at(5, 0, 0), draft.at(9, 0, 0));
    draft.run(end, other, 5.0);
    draft.burner(other, "Unknown", 0.0).input = None;
    let trunk = only(&draft);
    assert_eq!(trunk.load.unknown, 1);
    assert_eq!(
        (trunk.sizing.size, trunk.sizing.verdict),
        (Some(inch("1/2")), Verdict::Unknown)
    );
    assert!(trunk.sizing.remarks.iter().any(|remark| remark.contains("not entered")));
}

#[test]
fn existing_pipe_is_judged_and_an_unread_size_asked_for() {
    // Table 402.4(2) at 60 ft: 1/2 carries 65, 3/4 137 cfh.
    let mut draft = single(60.0, 100e3);
    for (size, verdict) in [
        ("1/2", Verdict::TooSmall),
        ("3/4", Verdict::Carries),
        ("1", Verdict::Carries),
    ] {
        let run = draft.run_mut(RunId(1));
        (run.state, run.size) = (State::Existing, Some(inch(size)));
        let sizing = only(&draft).sizing;
        assert_eq!(
            (sizing.origin, sizing.verdict, sizing.needed),
            (Origin::Known, verdict, Some(inch("3/4")))
        );
        assert_eq!(sizing.size, Some(inch(size)));
    }
    draft.run_mut(RunId(1)).size = None;
    let sizing = only(&draft).sizing;
    assert_eq!((sizing.size, sizing.origin), (None, Origin::Unknown));
    assert_eq!((sizing.needed, sizing.verdict), (Some(inch("3/4")), Verdict::Unknown));
    draft.run_mut(RunId(1)).state = State::New;
    assert_eq!(only(&draft).sizing.origin, Origin::Found);
    draft.run_mut(RunId(1)).size = Some(inch("1/2"));
    let sizing = only(&draft).sizing;
    assert_eq!((sizing.origin, sizing.verdict), (Origin::Fixed, Verdict::TooSmall));
    let carried: Vec<f64> = sizing.capacities.iter().map(|capacity| capacity.flow.cfh()).collect();
    assert_eq!(
        carried,
        [65.0, 137.0, 257.0],
        "the size drawn, the size needed, and the next"
    );
}

#[test]
fn a_size_that_is_none_of_the_material_is_not_judged() {
    let mut draft = single(60.0, 100e3);
    draft.run_mut(RunId(1)).size = Some(NominalSize::Ehd(18));
    let sizing = only(&draft).sizing;
    assert_eq!((sizing.verdict, sizing.needed), (Verdict::Unknown, Some(inch("3/4"))));
    assert!(
        sizing
            .remarks
            .iter()
            .any(|remark| remark.contains("No capacity is published")),
        "{:?}",
        sizing.remarks
    );
}

#[test]
fn the_next_longer_row_counts_and_past_the_last_nothing_is_guessed() {
    let section = only(&single(60.1, 137e3));
    let (row, size) = (Length::from_feet(70.0), section.sizing.size);
    assert_eq!(
        section.sizing.basis,
        Basis::Table {
            table: "402.4(2)".into(),
            row
        }
    );
    assert_eq!(size, Some(inch("1")));
    let section = only(&single(5000.0, 20e3));
    assert_eq!((section.sizing.size, section.sizing.verdict), (None, Verdict::Unknown));
    assert!(matches!(&section.sizing.basis, Basis::Nothing(reason) if reason.contains("past the last row")));
    // More than the largest column.
    let section = only(&single(100.0, 1e9));
    assert_eq!(section.sizing.needed, None);
    assert!(
        section
            .sizing
            .remarks
            .iter()
            .any(|remark| remark.contains("No published size"))
    );
    assert_eq!(section.sizing.capacities.len(), 1, "the largest size is shown");
}

#[test]
fn a_profile_may_let_an_equation_go_on_where_the_table_has_one() {
    let text = Codebook::profile_text("us-ifgc").unwrap();
    let text = text
        .replace("equations: Never", "equations: WhereNoTable")
        .replace("\"us-ifgc\"", "\"free\"");
    let book = Codebook::published().with_profile("free.ron", &text).unwrap();
    let mut draft = single(5000.0, 20e3);
    draft.job.settings.profile = "free".to_owned();
    let study = Study::of(&draft.job, &book);
    assert!(matches!(study.sections[0].sizing.basis, Basis::Equation { .. }));
    assert!(study.sections[0].sizing.size.is_some());
    // Table 402.4(5), steel at 2 psi, does not follow its equation: past its last row there is nothing.
    draft.joint_mut(JointId(1)).placed = Some(Placed::new(Device::Supply(Supply {
        pressure: Some(GaugePressure::from_psi(2.0)),
        meter: None,
        regulator: None,
        ..Supply::default()
    })));
    let study = Study::of(&draft.job, &book);
    assert!(
        matches!(&study.sections[0].sizing.basis, Basis::Nothing(reason) if reason.contains("no equation")),
        "{:?}",
        study.sections[0].sizing.basis
    );
}

#[test]
fn propane_over_the_label_slip_of_its_table_takes_the_smaller_figure_and_says_so() {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(11.0));
    draft.job.gas.fuel = Fuel::Propane;
    let (from, to) = (draft.at(0, 0, 0), draft.at(5, 0, 0));
    draft.run(from, to, 80.0);
    draft.burner(to, "Furnace", 100e3);
    // Printed 101 MBH for 1/2 at 80 ft; the equation gives 96.
    let sizing = only(&draft).sizing;
    assert_eq!(sizing.size, Some(inch("3/4")));
    assert!(!sizing.remarks.is_empty());
    assert!((study(&draft).gas.heating_value.btu_per_ft3() - 2490.0).abs() < 1e-9);
}

#[test]
fn a_heavier_natural_gas_carries_less() {
    let mut draft = single(60.0, 130e3);
    assert_eq!(only(&draft).sizing.size, Some(inch("3/4")));
    draft.job.gas.specific_gravity = Some(0.75);
    let sizing = only(&draft).sizing;
    // 137 cfh times 0.90 (IFGC A.2.4).
    let three_quarters = sizing
        .capacities
        .iter()
        .find(|capacity| capacity.size == inch("3/4"))
        .unwrap();
    assert!((three_quarters.flow.cfh() - 137.0 * 0.9).abs() < 1e-6);
    assert_eq!(sizing.size, Some(inch("1")));
    draft.job.gas.specific_gravity = Some(0.68);
    assert_eq!(
        only(&draft).sizing.size,
        Some(inch("3/4")),
        "up to 0.70 the tables serve directly"
    );
}

#[test]
fn the_profile_least_size_is_kept_and_said() {
    let mut draft = single(60.0, 10e3);
    let text = Codebook::profile_text("us-ifgc")
        .unwrap()
        .replace("F(\"1/2\")", "L(\"1\")")
        .replace("\"us-ifgc\"", "\"one\"");
    let book = Codebook::published().with_profile("one.ron", &text).unwrap();
    draft.job.settings.profile = "one".to_owned();
    let sizing = Study::of(&draft.job, &book).sections.remove(0).sizing;
    assert_eq!((sizing.size, sizing.needed), (Some(inch("1")), Some(inch("1/2"))));
    assert!(
        sizing
            .remarks
            .iter()
            .any(|remark| remark.contains("nothing smaller than 1")),
        "{:?}",
        sizing.remarks
    );
}

#[test]
fn sections_end_where_gas_parts_or_pipe_changes_and_not_at_devices() {
    let mut draft = low();
    let mut last = draft.at(0, 0, 0);
    for east in 1..=6 {
        let next = draft.at(east, 0, 0);
        draft.run(last, next, 5.0);
        last = next;
    }
    draft.burner(last, "Grill", 40e3);
    draft.put(JointId(2), Device::Valve(Valve::default()));
    draft.put(JointId(3), Device::Union);
    draft.put(JointId(4), Device::Meter(Meter::default()));
    draft.put(JointId(5), Device::SedimentTrap(SedimentTrap::default()));
    assert_eq!(study(&draft).sections.len(), 1);
    draft.run_mut(RunId(4)).material = Some(Material::CopperL);
    assert_eq!(study(&draft).sections.len(), 3);
    draft.run_mut(RunId(2)).size = Some(inch("1"));
    draft.run_mut(RunId(1)).state = State::Existing;
    let numbers: Vec<usize> = study(&draft).sections.iter().map(|section| section.number).collect();
    assert_eq!(numbers, [1, 2, 3, 4, 5]);
}

#[test]
fn branch_length_goes_to_the_own_outlet_and_longest_to_the_farthest() {
    let mut draft = low();
    let (from, fork, near, far) = (
        draft.at(0, 0, 0),
        draft.at(3, 0, 0),
        draft.at(3, 2, 0),
        draft.at(9, 0, 0),
    );
    for (from, to, feet) in [(from, fork, 20.0), (fork, near, 5.0), (fork, far, 60.0)] {
        draft.run(from, to, feet);
    }
    draft.burner(near, "Near", 40e3);
    draft.burner(far, "Far", 40e3);
    for (method, near_feet, rule) in [
        (Method::BranchLength, 25.0, LengthRule::Branch),
        (Method::LongestLength, 80.0, LengthRule::Longest),
    ] {
        draft.job.settings.method = Some(method);
        let study = study(&draft);
        let design = |run: usize| study.sections[study.runs[run].section.unwrap()].design.clone();
        assert_eq!(
            (design(0).total(), design(2).total()),
            (Length::from_feet(80.0), Length::from_feet(80.0))
        );
        assert_eq!(
            (design(1).total(), design(1).rule),
            (Length::from_feet(near_feet), rule)
        );
    }
}

/// Five lengths of 11.5 ft through these places, 57.5 ft in all, to 130 cfh.
fn crooked(places: [(i32, i32, i32); 5]) -> Section {
    let mut draft = low();
    let mut last = draft.at(0, 0, 0);
    for place in places {
        let next = draft.at(place.0, place.1, place.2);
        draft.run(last, next, 11.5);
        last = next;
    }
    draft.burner(last, "Heater", 130e3);
    only(&draft)
}

#[test]
fn four_fittings_in_a_section_lengthen_the_way() {
    // In the row of 60 ft 3/4 carries 137 cfh. Four 3/4 elbows, 8.24 ft, want the row of 70 ft and with it 1 in, whose
    // elbows are 10.49 ft.
    let section = crooked([(2, 0, 0), (2, 2, 0), (2, 2, 2), (4, 2, 2), (4, 4, 2)]);
    assert_eq!(section.sizing.size, Some(inch("1")));
    assert!(
        (section.design.fittings.feet() - 4.0 * 30.0 * 1.049 / 12.0).abs() < 1e-3,
        "{:?}",
        section.design
    );
    // Three elbows are within what the tables allow for.
    let section = crooked([(2, 0, 0), (4, 0, 0), (4, 2, 0), (4, 2, 2), (6, 2, 2)]);
    assert_eq!(section.design.fittings, Length::ZERO);
    assert_eq!(section.sizing.size, Some(inch("3/4")));
}

#[test]
fn bends_of_tubing_beyond_four_add_their_length() {
    let mut draft = low();
    draft.job.settings.material = Material::Csst;
    let mut last = draft.at(0, 0, 0);
    for step in 1..=7 {
        let next = draft.at((step + 1) / 2, step / 2, 0);
        draft.run(last, next, 2.0);
        last = next;
    }
    draft.burner(last, "Heater", 30e3);
    // Six bends: two beyond those in the table, 1.3 ft each.
    let section = only(&draft);
    assert!(
        (section.design.fittings.feet() - 2.6).abs() < 1e-6,
        "{:?}",
        section.design
    );
}

#[test]
fn a_canadian_profile_takes_its_factor_and_computes() {
    let mut draft = single(50.0, 100e3);
    draft.job.settings.profile = "ca-b149".to_owned();
    let section = only(&draft);
    assert_eq!(section.design.total(), Length::from_feet(60.0));
    assert!(matches!(section.sizing.basis, Basis::Equation { .. }));
    assert_eq!(
        section.sizing.capacity().map(|capacity| capacity.mark),
        Some(Mark::Computed)
    );
    // A little more goes up to the next row, which nobody read: 60 ft times 1.2.
    let mut draft = single(50.1, 100e3);
    draft.job.settings.profile = "ca-b149".to_owned();
    let section = only(&draft);
    assert_eq!(section.design.total(), Length::from_feet(72.0));
    assert_eq!(
        section.sizing.capacity().map(|capacity| capacity.mark),
        Some(Mark::Derived)
    );
    // Past the last row nothing is known.
    let mut draft = single(2000.1, 100e3);
    draft.job.settings.profile = "ca-b149".to_owned();
    assert!(matches!(&only(&draft).sizing.basis, Basis::Nothing(why) if why.contains("last row")));
}

#[test]
fn a_metric_job_is_sized_by_equation_in_dn() {
    let mut draft = single(60.0, 100e3);
    draft.job.settings.units = UnitSystem::Metric;
    draft.job.settings.profile = "metric-equation".to_owned();
    let sizing = only(&draft).sizing;
    assert!(sizing.size.unwrap().dn().is_some());
    assert!(matches!(sizing.basis, Basis::Equation { name, .. } if name.contains("Darcy")));
}

#[test]
fn an_unknown_profile_is_said_and_the_usual_one_taken() {
    let mut draft = single(60.0, 100e3);
    draft.job.settings.profile = "no such".to_owned();
    let study = study(&draft);
    assert!(study.profile_missing);
    assert_eq!(study.profile, "us-ifgc");
}

#[test]
fn nothing_is_sized_where_no_drop_is_allowed() {
    let mut draft = single(60.0, 100e3);
    draft.job.settings.profile = "ca-b149".to_owned();
    draft.joint_mut(JointId(1)).placed = Some(Placed::new(Device::Supply(Supply {
        pressure: Some(GaugePressure::from_psi(5.0)),
        meter: None,
        regulator: None,
        ..Supply::default()
    })));
    let study = study(&draft);
    assert_eq!(study.zones[0].allowed_drop, None);
    assert!(
        matches!(&study.sections[0].sizing.basis, Basis::Nothing(reason) if reason.contains("No allowable pressure drop"))
    );
    draft.job.settings.allowed_drop = Some(PressureDrop::from_psi(1.0));
    let section = only(&draft);
    assert!(section.sizing.size.is_some());
}

#[test]
fn a_size_explains_itself() {
    let mut draft = low();
    let (from, fork, near, far) = (
        draft.at(0, 0, 0),
        draft.at(3, 0, 0),
        draft.at(3, 2, 0),
        draft.at(9, 0, 0),
    );
    for (from, to, feet) in [(from, fork, 20.0), (fork, near, 5.0), (fork, far, 40.0)] {
        draft.run(from, to, feet);
    }
    draft.burner(near, "Built-in grill", 60e3);
    draft.burner(far, "Water heater", 40e3);
    let study = study(&draft);
    let text = explain(&draft.job, Codebook::published(), &study, 0).join("\n");
    for word in [
        "Section 1",
        "A Built-in grill",
        "B Water heater",
        "100 cfh",
        "60 ft",
        "longest length",
        "outlet B",
        "402.4(2)",
        "row 60 ft",
        "65 cfh",
        "137 cfh",
        "257 cfh",
        "read in print",
        "0.5 in w.c.",
        "lost by friction",
        "7 in w.c.",
    ] {
        assert!(text.contains(word), "{word:?} is not in:\n{text}");
    }
    assert!(explain(&draft.job, Codebook::published(), &study, 99).is_empty());
}

/// A hose is never pipe: the way to the griddle is 3' + 4' + 24' + 3' + 5'-6" + 4" + 5" = 40'-3" of pipe; 12'-2" of hose lie
/// behind it. The steel branch has a tee outlet (60 D), an elbow (30 D), a street elbow (50 D) and a valve (30 D; IFGC
/// appendix A, table A.2.2, street elbow from memory): 170 × 0.622 in / 12 = 8.812 ft, together 49.06 ft, row 50. There
/// EHD 23 carries 75 cfh (table 402.4(15), from memory), the 30 + 45 that are asked for, and nothing must be mended.
#[test]
fn the_everyday_hose_is_in_no_sizing_length() {
    let job = stubout::file::read(include_str!("../jobs/everyday-tubing-tee.ron")).unwrap();
    let book = Codebook::published();
    let study = Study::of(&job, book);
    let griddle = &study.outlets[2];
    assert!((griddle.distance.feet() - 40.25).abs() < 1e-6);
    assert!((griddle.hose.unwrap().length.feet() - (12.0 + 2.0 / 12.0)).abs() < 1e-4);
    assert_eq!(griddle.unrated, 0);
    let tubing = &study.sections[3];
    let length = tubing.sizing_length().unwrap();
    assert!(
        (length.feet() - (40.25 + 170.0 * 0.622 / 12.0)).abs() < 1e-3,
        "{}",
        length.feet()
    );
    assert_eq!(tubing.sizing.verdict, Verdict::Carries);
    assert_eq!(tubing.sizing.capacity().unwrap().flow.cfh(), 75.0);
    let found = Checked::of(&job, book).findings;
    let must = found.iter().filter(|finding| finding.severity == Severity::MustFix);
    assert_eq!(must.count(), 0, "{found:#?}");
    let reason = explain(&job, book, &study, 3).join(" ");
    assert!(
        reason.contains("the hose or connector after it (12'-2\") is not pipe"),
        "{reason}"
    );
    assert!(reason.contains("by its own rating, 80 cfh"), "{reason}");
    let hose = study.sections.last().unwrap();
    assert_eq!((hose.sizing.origin, hose.sizing_length()), (Origin::Connector, None));
}

/// Neither its length nor the bends drawn in it count, and where nobody gave its rating that is said.
#[test]
fn a_hose_without_a_rating_is_named() {
    let mut draft = low();
    let places = [(0, 0), (5, 0), (6, 0), (6, 4), (9, 4)].map(|(east, north)| draft.at(east, north, 0));
    for (pair, feet) in places.windows(2).zip([40.0, 1.0, 30.0, 30.0]) {
        draft.run(pair[0], pair[1], feet);
    }
    draft.put(places[1], Device::QuickCoupling(QuickCoupling::default()));
    draft.burner(places[4], "Heater", 60e3);
    let study = study(&draft);
    assert_eq!(study.sections[0].sizing_length(), Some(Length::from_feet(40.0)));
    let reason = explain(&draft.job, Codebook::published(), &study, 0).join(" ");
    assert!(reason.contains("by its own rating, which is not entered"), "{reason}");
    let found = Checked::of(&draft.job, Codebook::published()).findings;
    let told = found.iter().filter(|finding| finding.rule == "rating-unknown");
    assert!(
        told.clone()
            .any(|finding| finding.what.contains("the hose that begins at")),
        "{told:?}"
    );
}
