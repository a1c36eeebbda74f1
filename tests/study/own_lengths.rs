//! Lengths of a person's own parts in the cut list, typed at the part or once for all.

use crate::draft::Draft;
use crate::random_job::random_job;
use stubout::codebook::{Codebook, OwnLengths};
use stubout::file;
use stubout::fittings::Taken;
use stubout::job::*;
use stubout::study::Study;
use stubout::units::{GaugePressure, Length, NominalSize, UnitSystem};
use stubout::work::{CutList, Making, StockPlan, spreadsheet};

fn inches(inches: f64) -> Length {
    Length::from_inches(inches)
}

/// 1/2 in steel from the supply: 48 in to a ball valve, 60 in to another, 48 in to a grill.
fn between_valves() -> Draft {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let mut last = JointId(1);
    for (east, length) in [(4, 48.0), (9, 60.0), (13, 48.0)] {
        let next = draft.at(east, 0, 0);
        let run = draft.run(last, next, length / 12.0);
        draft.run_mut(run).size = Some(NominalSize::HALF);
        last = next;
    }
    for valve in [JointId(2), JointId(3)] {
        draft.put(valve, Device::Valve(Valve::default()));
    }
    draft.burner(last, "Grill", 40e3);
    draft
}

fn cut(job: &Job, book: &Codebook) -> CutList {
    CutList::of(job, &Study::of(job, book), book)
}

#[track_caller]
fn near(length: Length, expected: f64) {
    assert!(
        (length.inches() - expected).abs() < 5e-4,
        "{} in, not {expected}",
        length.inches()
    );
}

#[test]
fn a_piece_between_two_unmeasured_ends_has_no_length() {
    let (draft, book) = (between_valves(), Codebook::published());
    let cuts = cut(&draft.job, book);
    let [first, between, last] = cuts.pieces.as_slice() else {
        panic!("{cuts:#?}")
    };
    let said = |at: usize| cuts.pieces[at].marked(UnitSystem::Us)[0].1.clone();
    assert!(!first.must_be_measured() && between.must_be_measured() && !last.must_be_measured());
    assert_eq!([said(0), said(1)], ["4'-0\" ?", "measure"]);
    let rows = spreadsheet::cuts(&draft.job, &cuts);
    assert!(rows[2].iter().any(|cell| cell == "measure"), "{:?}", rows[2]);
    // It is planned by its centers, and says so.
    let stock = StockPlan::of(&cuts, &Study::of(&draft.job, book), book);
    assert_eq!(stock.groups[0].sticks.len(), 1);
    assert_eq!(
        between.planned(&between.parts[0], UnitSystem::Us),
        "P2 5'-0\" center-to-center, measure"
    );
}

#[test]
fn of_whole_sticks_in_a_row_only_the_last_is_in_doubt() {
    // 48 ft from the supply to a valve: two sticks of 21 ft, couplings, and what is left of 6 ft.
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let (valve, end) = (draft.at(4, 0, 0), draft.at(9, 0, 0));
    for (from, to, feet) in [(JointId(1), valve, 48.0), (valve, end, 4.0)] {
        let run = draft.run(from, to, feet);
        draft.run_mut(run).size = Some(NominalSize::HALF);
    }
    draft.put(valve, Device::Valve(Valve::default()));
    draft.burner(end, "Grill", 40e3);
    let cuts = cut(&draft.job, Codebook::published());
    let marked = cuts.pieces[0].marked(UnitSystem::Us);
    let doubtful: Vec<bool> = marked.iter().map(|(_, words)| words.ends_with('?')).collect();
    assert_eq!(doubtful, [false, false, true], "{marked:?}");
    assert_eq!(marked[0].1, "21'-0\"");
    let piece = &cuts.pieces[0];
    assert_eq!(piece.planned(&piece.parts[1], UnitSystem::Us), "P1.2 21'-0\"");
}

#[test]
fn a_measured_valve_takes_out_half_its_length_less_the_thread() {
    // A ball valve of 1/2 in, 2-1/8 in from end to end: 1.0625 − 0.5343 (ASME B1.20.1, L1 + L3) = 0.5282 in on either side.
    let mut draft = between_valves();
    for valve in [JointId(2), JointId(3)] {
        draft.joint_mut(valve).placed.as_mut().unwrap().takes = Some(inches(2.125));
    }
    let cuts = cut(&draft.job, Codebook::published());
    assert!(cuts.pieces.iter().all(|piece| piece.is_known()));
    near(cuts.pieces[0].cut(), 48.0 - 0.5282);
    near(cuts.pieces[1].cut(), 60.0 - 2.0 * 0.5282);
}

#[test]
fn a_list_of_ones_own_serves_all_jobs_and_what_is_typed_at_a_part_comes_first() {
    let own = OwnLengths::read("ball valve; 1/2; 2-1/8 in\nunion; 1/2; 2 in");
    let book = Codebook::published().with_lengths(own);
    let mut draft = between_valves();
    near(cut(&draft.job, &book).pieces[1].cut(), 60.0 - 2.0 * 0.5282);
    // One valve is a longer one: 3 in, 1.5 − 0.5343.
    draft.joint_mut(JointId(3)).placed.as_mut().unwrap().takes = Some(inches(3.0));
    near(cut(&draft.job, &book).pieces[1].cut(), 60.0 - 0.5282 - 0.9657);
    // A union has a listed length, from memory; one's own goes before it: 1 − 0.5343.
    draft.put(JointId(2), Device::Union);
    near(cut(&draft.job, &book).pieces[0].cut(), 48.0 - 0.4657);
    // Of another size nothing is known.
    for run in 1..=3 {
        draft.run_mut(RunId(run)).size = Some(NominalSize::Inch(12));
    }
    draft.put(JointId(3), Device::Valve(Valve::default()));
    assert!(!cut(&draft.job, &book).pieces[2].is_known());
}

#[test]
fn with_all_parts_measured_no_question_is_left() {
    let mut job = file::read(include_str!("../jobs/everyday-tubing-tee.ron")).unwrap();
    let own = OwnLengths::read("ball valve; 1/2; 2-1/8 in\nquick-disconnect coupling; 3/8; 2-3/4 in\n");
    let book = Codebook::published().with_lengths(own);
    job.joints.get_mut(JointId(8)).unwrap().fitting_takes = Some(inches(1.5));
    let cuts = cut(&job, &book);
    assert!(cuts.pieces.iter().all(|piece| piece.is_known()), "{cuts:#?}");
    // The measured valve does not turn the street elbow round: pipe through the wall, male end into the valve. Screwed in, 1.63 +
    // 0.5282 = 2.1582 in, 2-3/16 to the rule, where 4 in is drawn.
    near(cuts.pieces[1].cut(), 64.8286);
    assert_eq!(cuts.pieces[2].making, Making::Direct);
    let remarks = cuts.pieces[2].remarks(UnitSystem::Us);
    assert!(
        remarks[0].contains("2 3/16 in center-to-center, 4 in is drawn"),
        "{remarks:?}"
    );
    // From the tee 1.5 in, as measured, to the elbow: 36 − 1.5 − 0.5857.
    near(cuts.pieces[0].cut(), 33.9143);
    // From the valve 0.5282. From the middle of the coupling 1.375, less a thread of 3/8 (L1 + L3 = 0.240 + 0.1667 = 0.4067),
    // a close nipple of 1 in, less a thread, the reducing coupling 1.25 in (B16.3, from memory), less the thread of 1/2:
    // 1.375 − 0.4067 + 1 − 0.4067 + 1.25 − 0.5343 = 2.2773. 5 − 0.5282 − 2.2773 = 2.1945: a nipple of 2 in.
    let last = &cuts.pieces[3];
    near(last.cut(), 2.1945);
    assert_eq!(last.making, Making::Nipple(inches(2.0)));
}

#[test]
fn on_random_jobs_no_question_is_left_either() {
    for seed in 0..200 {
        let mut job = random_job(seed, 1 + seed as usize % 40);
        let joints: Vec<JointId> = job.joints.iter().map(|joint| joint.id).collect();
        for id in joints {
            let joint = job.joints.get_mut(id).unwrap();
            joint.fitting_takes = Some(inches(1.0));
            if let Some(placed) = &mut joint.placed {
                placed.takes = Some(inches(2.5));
            }
        }
        for piece in cut(&job, Codebook::published()).pieces {
            let male = piece.ends.iter().any(|end| end.taken == Taken::Male(None));
            assert!(piece.is_known() || male, "seed {seed}: {piece:#?}");
        }
    }
}
