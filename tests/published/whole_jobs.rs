//! Worked examples of published texts, sized by the whole study.

use crate::draft::Draft;
use stubout::advice::{Audit, AuditPart, Enlargement, Mended};
use stubout::codebook::Codebook;
use stubout::job::{Device, Material, Method, Rating, RunId, State, Valve};
use stubout::pressure::RatingVerdict;
use stubout::rules::Checked;
use stubout::sizing::{Basis, LengthRule, Verdict};
use stubout::study::Study;
use stubout::units::{Flow, GaugePressure, HeatingValue, Length, NominalSize, Parse, PressureDrop, UnitSystem};
use stubout::work::Price;

fn size(text: &str) -> NominalSize {
    NominalSize::parse(text).unwrap()
}

#[track_caller]
fn check(draft: &Draft, study: &Study, run: RunId, design_feet: f64, expected: &str) {
    let section = &study.sections[study.runs[draft.run_index(run)].section.unwrap()];
    assert!(
        (section.design.total().feet() - design_feet).abs() < 1e-6,
        "{:?}",
        section.design
    );
    assert_eq!(section.sizing.size, Some(size(expected)), "{:?}", section.sizing);
    assert_eq!(section.sizing.verdict, Verdict::Carries);
}

/// IFGC 2012 Appendix A, A.6.1 (A.7.1 in 2018), as in the 2013 California Residential Code: longest length, Schedule 40
/// steel, 0.5 in w.c., 60 ft. The lengths of the branches C and D are printed in its figure only, which was not found:
/// here 10 ft each, so that the longest length is the printed 60 ft.
#[test]
fn ifgc_a_1_longest_length() {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    draft.job.settings.method = Some(Method::LongestLength);
    let meter = draft.at(0, 0, 0);
    let (fork, left, right) = (draft.at(3, 0, 0), draft.at(3, 1, 0), draft.at(3, -2, 0));
    let (a, b, c, d) = (
        draft.at(1, 1, 0),
        draft.at(5, 1, 0),
        draft.at(2, -2, 0),
        draft.at(4, -2, 0),
    );
    let three = draft.run(meter, fork, 30.0);
    let one = draft.run(fork, left, 10.0);
    let two = draft.run(fork, right, 20.0);
    let to_a = draft.run(left, a, 20.0);
    let to_b = draft.run(left, b, 15.0);
    draft.run(right, c, 10.0);
    draft.run(right, d, 10.0);
    for (joint, btuh) in [(a, 35e3), (b, 75e3), (c, 35e3), (d, 100e3)] {
        draft.burner(joint, "Appliance", btuh);
    }
    let study = Study::of(&draft.job, Codebook::published());
    for (run, expected) in [(to_a, "1/2"), (to_b, "3/4"), (one, "3/4"), (two, "3/4"), (three, "1")] {
        check(&draft, &study, run, 60.0, expected);
    }
    assert_eq!(study.total.flow.cfh(), 245.0);
    assert!(
        study
            .sections
            .iter()
            .all(|section| section.design.rule == LengthRule::Longest)
    );
}

/// The house of A.6.1 again, as a retrofit: all pipe stands in the printed sizes, and appliance D (100 cfh) is new on a
/// branch of its own. By table 402.4(2), row 60 ft, the printed answer carries the printed load, and so nothing that
/// stands is to be enlarged; with D at 200 cfh section 3 must carry 345 cfh and 1 in (257 cfh) no longer does: the next
/// size of that row, 1-1/4 in (528 cfh), is to be laid in its place, and in place of section 2's 3/4 in, which must carry
/// 235 cfh, 1 in.
#[test]
fn ifgc_a_1_as_a_retrofit() {
    let book = Codebook::published();
    let built = |future: f64| {
        let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
        draft.job.settings.method = Some(Method::LongestLength);
        let meter = draft.at(0, 0, 0);
        let (fork, left, right) = (draft.at(3, 0, 0), draft.at(3, 1, 0), draft.at(3, -2, 0));
        let ends = [(1, 1, 0), (5, 1, 0), (2, -2, 0), (4, -2, 0)].map(|(east, north, up)| draft.at(east, north, up));
        let three = draft.existing(meter, fork, 30.0, size("1"));
        draft.existing(fork, left, 10.0, size("3/4"));
        let two = draft.existing(fork, right, 20.0, size("3/4"));
        draft.existing(left, ends[0], 20.0, size("1/2"));
        draft.existing(left, ends[1], 15.0, size("3/4"));
        draft.existing(right, ends[2], 10.0, size("1/2"));
        draft.run(right, ends[3], 10.0);
        for (joint, btuh) in ends.into_iter().zip([35e3, 75e3, 35e3, future]) {
            draft.burner(joint, "Appliance", btuh);
        }
        for joint in &ends[..3] {
            draft.joint_mut(*joint).placed.as_mut().unwrap().state = State::Existing;
        }
        (draft.job, [two, three])
    };
    let (job, [_, three]) = built(100e3);
    let audit = Audit::of(&job, book);
    assert_eq!(audit.failing().count(), 0);
    let row = audit.rows.iter().find(|row| {
        let three = job.runs.position(three).unwrap();
        matches!(&row.part, AuditPart::Pipe { runs, .. } if runs.contains(&three))
    });
    let words = row.unwrap().words(UnitSystem::Us);
    assert_eq!(words, "demand before 145 of 257 cfh, after 245 of 257 cfh");
    let (job, [two, three]) = built(200e3);
    let found = Enlargement::of(&job, book, &Price::Length, Mended::Method).unwrap();
    let larger = found
        .larger
        .iter()
        .map(|larger| (job.runs.at(larger.runs[0]).id, larger.size));
    assert_eq!(larger.collect::<Vec<_>>(), [(three, size("1-1/4")), (two, size("1"))]);
}

/// A.6.2 (A.7.2): two pressures in corrugated tubing, table 402.4(18) for 2 psi and 1 psi drop, 402.4(16) for 3 in w.c.
/// behind the regulator, which loses 4 in w.c. at 110 cfh and may lose 0.75 psi.
#[test]
fn ifgc_a_2_two_pressures() {
    let mut draft = Draft::fed_at(GaugePressure::from_psi(2.0));
    draft.job.settings.material = Material::Csst;
    let (meter, regulator) = (draft.at(0, 0, 0), draft.at(5, 0, 0));
    let (furnace, heater, dryer) = (draft.at(5, 1, 0), draft.at(6, 0, 0), draft.at(5, -1, 0));
    let a = draft.run(meter, regulator, 100.0);
    let b = draft.run(regulator, furnace, 15.0);
    let c = draft.run(regulator, heater, 10.0);
    let d = draft.run(regulator, dryer, 25.0);
    draft.burner(furnace, "Furnace", 60e3);
    draft.burner(heater, "Water heater", 30e3);
    draft.burner(dryer, "Dryer", 20e3);
    let line = draft.regulator(regulator, GaugePressure::from_inches_wc(13.0));
    line.allowed_drop = Some(PressureDrop::from_inches_wc(3.0));
    line.rating = Rating {
        capacity: Some(Flow::from_cfh(110.0)),
        drop: Some(PressureDrop::from_inches_wc(4.0)),
    };
    let study = Study::of(&draft.job, Codebook::published());
    check(&draft, &study, a, 100.0, "EHD 18");
    check(&draft, &study, b, 15.0, "EHD 13");
    check(&draft, &study, c, 10.0, "EHD 13");
    check(&draft, &study, d, 25.0, "EHD 13");
    let high = &study.sections[0];
    assert_eq!(high.load.flow.cfh(), 110.0);
    assert_eq!(high.sizing.capacity().unwrap().flow.cfh(), 189.0);
    assert_eq!(study.zones.len(), 2);
    assert_eq!(study.zones[0].longest, Length::from_feet(100.0));
    assert_eq!(study.devices[0].verdict, RatingVerdict::Within);
    let lost = study.devices[0].drop.unwrap();
    assert!((lost.inches_wc() - 4.0).abs() < 1e-9 && lost.psi() < 0.75, "{lost:?}");
}

/// A.6.3 (A.7.3): branch length, semirigid copper, 1 in w.c., table 402.4(10).
#[test]
fn ifgc_a_3_branch_length() {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    draft.job.settings.material = Material::CopperL;
    draft.job.settings.allowed_drop = Some(PressureDrop::from_inches_wc(1.0));
    draft.job.settings.method = Some(Method::BranchLength);
    let (meter, manifold) = (draft.at(0, 0, 0), draft.at(2, 0, 0));
    let (range, dryer, heater, furnace) = (
        draft.at(2, 1, 0),
        draft.at(5, 0, 0),
        draft.at(2, -1, 0),
        draft.at(2, 0, 1),
    );
    let a = draft.run(meter, manifold, 20.0);
    let b = draft.run(manifold, range, 10.0);
    let c = draft.run(manifold, dryer, 30.0);
    let d = draft.run(manifold, heater, 10.0);
    let e = draft.run(manifold, furnace, 10.0);
    for (joint, name, btuh) in [
        (range, "Range", 75e3),
        (dryer, "Dryer", 30e3),
        (heater, "Water heater", 35e3),
        (furnace, "Furnace", 80e3),
    ] {
        draft.burner(joint, name, btuh);
    }
    let study = Study::of(&draft.job, Codebook::published());
    check(&draft, &study, a, 50.0, "1");
    check(&draft, &study, b, 30.0, "1/2");
    check(&draft, &study, c, 50.0, "3/8");
    check(&draft, &study, d, 30.0, "3/8");
    check(&draft, &study, e, 30.0, "1/2");
}

/// A.6.4 (A.7.4), a barbecue added to piping that stands: 40 ft of corrugated tubing along sections A, B and G from the
/// point of delivery to the new appliance, 40,000 Btu/h, table 402.4(15); of EHD 13, 18, 23 and 30, section G needs EHD 18.
/// From memory of the text. How the 40 ft part among the three sections, and what the standing sections carry, is in its
/// figure only, which was not found: 20, 10 and 10 ft here, and one old appliance of 60,000 Btu/h behind B.
#[test]
fn ifgc_a_4_section_g_of_a_retrofit() {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    draft.job.settings.material = Material::Csst;
    let at = [(0, 0), (4, 0), (6, 0), (6, 2), (8, 0)].map(|(east, north)| draft.at(east, north, 0));
    draft.existing(at[0], at[1], 20.0, size("EHD 30"));
    draft.existing(at[1], at[2], 10.0, size("EHD 30"));
    draft.existing(at[2], at[4], 5.0, size("EHD 23"));
    let g = draft.run(at[2], at[3], 10.0);
    draft.burner(at[4], "Furnace", 60e3);
    draft.joint_mut(at[4]).placed.as_mut().unwrap().state = State::Existing;
    draft.burner(at[3], "Barbecue", 40e3);
    let study = Study::of(&draft.job, Codebook::published());
    check(&draft, &study, g, 40.0, "EHD 18");
    let section = &study.sections[study.runs[draft.run_index(g)].section.unwrap()];
    assert!(matches!(&section.sizing.basis, Basis::Table { table, .. } if &**table == "402.4(15)"));
    // Of the sizes that the text has at hand the next smaller, EHD 13, does not carry it.
    assert!(section.sizing.needed > Some(size("EHD 13")));
    // The retrofit loads what stands: the text has it checked again, and so does the tool.
    let found = Checked::of(&draft.job, Codebook::published()).findings;
    assert!(found.iter().any(|finding| finding.rule == "added-load"));
}

/// The example under figure 1216.1.1 of the Uniform Plumbing Code, from memory of its text: gas of 0.60 and 1,100 Btu/ft³
/// at 8 in w.c., 60 ft from the meter to the most remote outlet A. Outlets: A 32 cfh (35,000 Btu/h), B 3 (3,000), C 59
/// (65,000), D 136 (150,000). A needs 1/2 in; section 1, that feeds A and B, 35 cfh, 1/2; section 2, with C, 94 cfh, 3/4;
/// section 3, with D, 230 cfh, 1; B and C 1/2, D 3/4. The figure itself was not found: how the 60 ft part is chosen
/// here, and as one length sizes all, it changes nothing.
#[test]
fn upc_figure_1216_1_1() {
    for profile in ["us-ifgc", "us-ca"] {
        let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(8.0));
        draft.job.settings.profile = profile.to_owned();
        draft.job.settings.method = Some(Method::LongestLength);
        draft.job.gas.specific_gravity = Some(0.6);
        draft.job.gas.heating_value = Some(HeatingValue::from_btu_per_ft3(1100.0));
        let main = [0, 4, 7, 10].map(|east| draft.at(east, 0, 0));
        let [d, c, b] = [4, 7, 10].map(|east| draft.at(east, 2, 0));
        let a = draft.at(14, 0, 0);
        let three = draft.run(main[0], main[1], 15.0);
        let two = draft.run(main[1], main[2], 15.0);
        let one = draft.run(main[2], main[3], 15.0);
        let to_a = draft.run(main[3], a, 15.0);
        let [to_b, to_c, to_d] = [(main[3], b), (main[2], c), (main[1], d)].map(|(from, to)| draft.run(from, to, 10.0));
        let outlets = [(a, 35e3), (b, 3e3), (c, 65e3), (d, 150e3)];
        for (joint, btuh) in outlets {
            draft.burner(joint, "Outlet", btuh);
        }
        let study = Study::of(&draft.job, Codebook::published());
        let printed = [
            (to_a, 32.0, "1/2"),
            (to_b, 3.0, "1/2"),
            (one, 35.0, "1/2"),
            (to_c, 59.0, "1/2"),
            (two, 94.0, "3/4"),
            (to_d, 136.0, "3/4"),
            (three, 230.0, "1"),
        ];
        for (run, cfh, expected) in printed {
            check(&draft, &study, run, 60.0, expected);
            let section = &study.sections[study.runs[draft.run_index(run)].section.unwrap()];
            // Printed in whole cubic feet, sums of rounded ones among them.
            assert!(
                (section.load.flow.cfh() - cfh).abs() <= 1.0,
                "{profile}: {}",
                section.load.flow.cfh()
            );
        }
    }
}

/// A Canadian gas-technician training text, proof of figure 6-13 after CSA B149.1 Table A.16: 145 ft of pipe with three
/// 1 in elbows, one 1 in branch tee, two 3/4 in elbows and one 3/4 in valve is 164.28 ft, within the 175 ft of its table.
#[test]
fn canadian_proof_by_equivalent_lengths() {
    let profile = Codebook::profile_text("us-ifgc").unwrap();
    let profile = profile
        .replace("SectionHas(4)", "SectionHas(1)")
        .replace("\"us-ifgc\"", "\"proof\"");
    let book = Codebook::published().with_profile("proof.ron", &profile).unwrap();
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    draft.job.settings.profile = "proof".to_owned();
    let corners = [(0, 0, 0), (4, 0, 0), (4, 0, 3), (8, 0, 3), (8, 5, 3)].map(|(e, n, u)| draft.at(e, n, u));
    let mut trunk = Vec::new();
    for (pair, feet) in corners.windows(2).zip([40.0, 10.0, 30.0, 25.0]) {
        trunk.push(draft.run(pair[0], pair[1], feet));
    }
    // Gas leaves the trunk through the side of a tee; the trunk goes on to an appliance nearby.
    let (on, side, turn, valve, end) = (
        draft.at(8, 6, 3),
        draft.at(10, 5, 3),
        draft.at(10, 5, 2),
        draft.at(10, 5, 1),
        draft.at(11, 5, 1),
    );
    draft.run(corners[4], on, 5.0);
    let branch = draft.run(corners[4], side, 20.0);
    draft.run(side, turn, 10.0);
    draft.put(turn, Device::Valve(Valve::default()));
    draft.run(turn, valve, 5.0);
    draft.run(valve, end, 5.0);
    draft.burner(on, "Furnace", 100e3);
    draft.burner(end, "Water heater", 60e3);
    for run in trunk {
        draft.run_mut(run).size = Some(size("1"));
    }
    for run in [branch, RunId(branch.0 + 1), RunId(branch.0 + 2), RunId(branch.0 + 3)] {
        draft.run_mut(run).size = Some(size("3/4"));
    }
    let study = Study::of(&draft.job, &book);
    let section = &study.sections[study.runs[draft.run_index(branch)].section.unwrap()];
    assert_eq!(section.design.measured, Length::from_feet(145.0));
    let added = section.design.fittings.feet();
    // Printed from lengths rounded to 0.01 ft each.
    assert!((added - 19.28).abs() < 0.03, "{added}");
    assert!((section.design.total().feet() - 164.28).abs() < 0.03);
}
