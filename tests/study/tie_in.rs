//! Where a branch is best tied in: a case worked by hand, what must hold of any job, and every row laid in earnest.

use super::whole_tie_in::check;
use crate::dice::Dice;
use crate::draft::Draft;
use crate::random_job::random_job;
use crate::street::street;
use crate::wild_job::wild_job;
use std::time::{Duration, Instant};
use stubout::advice::{
    Blocked, LeftOut, NewBranch, NoTieIn, Offer, Progress, TieIn, TieInPlace, TieInStanding, TieIns,
};
use stubout::codebook::Codebook;
use stubout::editor::edit::tie_in;
use stubout::job::*;
use stubout::study::Study;
use stubout::units::*;

fn inch(text: &str) -> NominalSize {
    NominalSize::parse(text).unwrap()
}

/// A main along east of 40 ft of 1 in, then 20 ft of 3/4 in to a furnace; a heater 15 ft of 1/2 in off its middle. Eight
/// feet north of the main's eighth foot a grill of 60,000 Btu/h is to stand, so far joined to nothing.
///
/// ```text
///   J1 ──R1 1" 20 ft── J2 ──R2 1" 20 ft── J3 ──R3 3/4" 20 ft── J4 furnace 80,000
///            J6 grill  └──R4 1/2" 15 ft── J5 heater 30,000
/// ```
fn house() -> (Draft, JointId) {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let at = [(0, 0), (20, 0), (40, 0), (60, 0), (20, -15)].map(|(east, north)| draft.at(east, north, 0));
    for (from, to, feet, size) in [
        (0, 1, 20.0, "1"),
        (1, 2, 20.0, "1"),
        (2, 3, 20.0, "3/4"),
        (1, 4, 15.0, "1/2"),
    ] {
        draft.existing(at[from], at[to], feet, inch(size));
    }
    draft.burner(at[3], "Furnace", 80e3).least_inlet = Some(GaugePressure::from_inches_wc(5.0));
    draft.burner(at[4], "Heater", 30e3);
    let grill = draft.at(8, 8, 0);
    draft.burner(grill, "Grill", 60e3);
    (draft, grill)
}

fn branch(head: JointId) -> NewBranch {
    NewBranch {
        head,
        ..NewBranch::default()
    }
}

#[track_caller]
fn survey(job: &Job, head: JointId) -> TieIns {
    TieIns::find(job, Codebook::published(), &branch(head), &Progress::default()).unwrap()
}

fn along(run: u32, feet: f64) -> TieInPlace {
    TieInPlace::Run {
        run: RunId(run),
        along: Length::from_feet(feet),
    }
}

#[track_caller]
fn at(rows: &TieIns, place: TieInPlace) -> &TieIn {
    rows.rows.iter().find(|row| row.place == place).unwrap()
}

/// 110 cfh go through R1 and R2 no farther than 60 ft: row 60 ft of table 402.4(2) gives 257 for 1 in, 137 for 3/4 in,
/// 65 for 1/2 in. With the grill R1 carries 170 of 257. At 8 ft of R1 the way to the grill is 8 + 8 = 16 ft, row 20 ft:
/// 118 cfh for 1/2 in carry its 60.
/// In R3 the 3/4 in pipe would carry 80 + 60 = 140 cfh. Tapped 1 ft behind J3 the way to the grill is 41 + 33 + 8 = 82 ft,
/// row 90 ft: 110; at 10 ft 50 + 42 + 8 = 100 ft: 104; at 19 ft 59 + 51 + 8 = 118 ft, row 125 ft: 92.
/// In R4 the 1/2 in pipe would carry 30 + 60 = 90; tapped at 5 ft the way is 20 + 5 + 5 + 12 + 8 = 50 ft: 72.
/// At J3 the way is 40 + 32 + 8 = 80 ft, and 220 for 1 in carry 170.
#[test]
fn a_house_worked_by_hand() {
    let (draft, grill) = house();
    let rows = survey(&draft.job, grill);
    let near = at(&rows, along(1, 8.0));
    assert_eq!(near.standing(), TieInStanding::Holds);
    assert_eq!(
        near.reasons(UnitSystem::Us)[0],
        "Nothing is over capacity with the branch here."
    );
    assert_eq!((near.route_length(), near.turns()), (Length::from_feet(8.0), 0));
    assert_eq!(near.pipe.len(), 1);
    assert_eq!(
        (near.pipe[0].size, near.pipe[0].length),
        (Some(inch("1/2")), Length::from_feet(8.0))
    );
    // 0.85 lb/ft of 1/2 in Schedule 40.
    assert!((near.weight.unwrap().amount() - 6.8).abs() < 0.1, "{:?}", near.weight);
    assert_eq!(near.fittings, 1, "the tee; the appliance takes the end of the pipe");
    assert_eq!(&rows.rows[0], near, "the shortest way to pipe that carries it");

    for (feet, capacity) in [(1.0, 110), (10.0, 104), (19.0, 92)] {
        let far = at(&rows, along(3, feet));
        assert_eq!(far.standing(), TieInStanding::Fails);
        let words: Vec<String> = far.fails.iter().map(|part| part.words(UnitSystem::Us)).collect();
        assert_eq!(words, [format!("R3 would be over capacity: 140 of {capacity} cfh.")]);
    }
    let thin: Vec<String> = at(&rows, along(4, 5.0))
        .fails
        .iter()
        .map(|part| part.words(UnitSystem::Us))
        .collect();
    assert_eq!(thin, ["R4 would be over capacity: 90 of 72 cfh."]);
    // At the end of R2 the 1 in pipe still serves both: 80 + 60 of 257, and R3 its 80 as before.
    assert_eq!(
        at(&rows, TieInPlace::Joint(JointId(3))).standing(),
        TieInStanding::Holds
    );
    // The furnace has more to spare, the nearer to the meter the grill is fed.
    let spare = |place| at(&rows, place).lowest.as_ref().unwrap().margin;
    assert!(spare(along(1, 8.0)) > spare(along(2, 19.0)));
    assert_eq!(near.least_unknown, 2);
}

#[test]
fn every_whole_foot_and_every_end_is_tried() {
    let (mut draft, grill) = house();
    draft.run_mut(RunId(2)).length = Some(Length::from_feet(20.5));
    let rows = survey(&draft.job, grill);
    let on = |run: u32| {
        let is_on = |row: &&TieIn| matches!(row.place, TieInPlace::Run { run: on, .. } if on == RunId(run));
        rows.rows.iter().filter(is_on).count()
    };
    assert_eq!([1, 2, 3, 4].map(on), [19, 20, 19, 14]);
    // Of the joints J1, J2 and J3: at the others appliances stand.
    assert_eq!(rows.rows.len(), 72 + 3);
    assert!(rows.rows.len() == rows.places && rows.left_out.is_empty());
    draft.job.settings.units = UnitSystem::Metric;
    let metric = survey(&draft.job, grill);
    assert_eq!(metric.spacing, Length::from_metres(0.25));
    // 20 ft are 6.096 m: 24 places each; 20.5 ft are 6.2484 m: 24; 15 ft are 4.572 m: 18.
    assert_eq!(metric.rows.len(), 24 * 3 + 18 + 3);
}

#[test]
fn runs_without_room_are_told_and_long_ones_fill_no_memory() {
    let (mut draft, grill) = house();
    let short = draft.at(61, 0, 0);
    let end = draft.job.joints.get(JointId(4)).unwrap().id;
    draft.joint_mut(end).placed = None;
    let run = draft.existing(end, short, 30.0, inch("3/4"));
    draft.burner(short, "Furnace", 80e3);
    let rows = survey(&draft.job, grill);
    assert_eq!(rows.left_out, [(run, LeftOut::TooShort)]);
    draft.run_mut(RunId(1)).length = Some(Length::from_eighths_of_um(i64::MAX));
    let progress = Progress::default();
    progress.stop();
    let rows = TieIns::find(&draft.job, Codebook::published(), &branch(grill), &progress).unwrap();
    assert!(rows.places <= 50_010 && rows.spacing > Length::from_feet(1.0));
}

#[test]
fn a_line_is_led_through_places_of_ones_own() {
    let (draft, grill) = house();
    let mut asked = branch(grill);
    asked.through = vec![LatticePoint::new(8, 8, 9), LatticePoint::new(30, 8, 9)];
    let rows = TieIns::find(&draft.job, Codebook::published(), &asked, &Progress::default()).unwrap();
    let row = at(&rows, along(2, 10.0));
    // From 30 east: nine up, eight north, 22 west, nine down.
    let legs: Vec<f64> = row.route.iter().map(|leg| leg.length.feet()).collect();
    assert_eq!(legs, [9.0, 8.0, 22.0, 9.0]);
    assert_eq!(row.turns(), 3);
}

#[test]
fn nothing_to_tie_in_is_told() {
    let (draft, grill) = house();
    let why = |job: &Job, head: u32, through: usize| {
        let asked = NewBranch {
            head: JointId(head),
            through: vec![LatticePoint::default(); through],
            offer: Offer::Existing,
        };
        TieIns::find(job, Codebook::published(), &asked, &Progress::default()).unwrap_err()
    };
    assert_eq!(why(&draft.job, 77, 0), NoTieIn::NoHead(JointId(77)));
    assert_eq!(why(&draft.job, 3, 0), NoTieIn::Fed(JointId(3)));
    assert_eq!(why(&draft.job, grill.0, 99), NoTieIn::TooManyWaypoints);
    let mut bare = draft.clone();
    bare.joint_mut(grill).placed = None;
    assert_eq!(why(&bare.job, grill.0, 0), NoTieIn::NoAppliance(grill));
    let mut new = draft.clone();
    for run in 1..=4 {
        new.run_mut(RunId(run)).state = State::New;
    }
    assert_eq!(why(&new.job, grill.0, 0), NoTieIn::NoPlace);
    let mut asked = branch(grill);
    asked.offer = Offer::AllPipe;
    let rows = TieIns::find(&new.job, Codebook::published(), &asked, &Progress::default()).unwrap();
    assert!(rows.rows.len() > 60);
    new.joint_mut(JointId(1)).placed = None;
    assert_eq!(why(&new.job, grill.0, 0), NoTieIn::NoSupply);
    let mut joined = draft.clone();
    let stub = joined.at(8, 9, 0);
    joined.run(grill, stub, 1.0);
    let told = why(&joined.job, grill.0, 0);
    assert!(told.to_string().contains("name a joint beside it"), "{told}");
}

#[test]
fn a_missing_size_ranks_behind_and_is_told() {
    let (mut draft, grill) = house();
    draft.run_mut(RunId(2)).size = None;
    let rows = survey(&draft.job, grill);
    // Everything before R2 is known; the furnace behind it never was.
    assert_eq!(at(&rows, along(1, 8.0)).standing(), TieInStanding::Holds);
    let behind = at(&rows, along(2, 10.0));
    assert_eq!(behind.standing(), TieInStanding::Unknown);
    assert!(
        behind.reasons(UnitSystem::Us)[0].contains("R2"),
        "{:?}",
        behind.reasons(UnitSystem::Us)
    );
    let classes: Vec<TieInStanding> = rows.rows.iter().map(TieIn::standing).collect();
    assert!(classes.is_sorted());
}

#[test]
fn what_fails_already_is_no_good_tie_in() {
    let (mut draft, grill) = house();
    draft.run_mut(RunId(1)).size = Some(inch("1/2"));
    let rows = survey(&draft.job, grill);
    let near = at(&rows, along(1, 8.0));
    assert_eq!((near.failing, near.standing()), (0, TieInStanding::Fails));
    assert!(near.failing_already >= 1);
}

/// A job with a burner that nothing joins, above its middle.
fn with_newcomer(mut job: Job, dice: &mut Dice) -> (Job, JointId) {
    let head = job.joints.free_id();
    let middle = job.joints.at(job.joints.len() / 2).at;
    let grill = Appliance {
        name: "Grill".to_owned(),
        input: Some(HeatRate::from_mbh(60.0)),
        least_inlet: Some(GaugePressure::from_inches_wc(5.0)),
        ..Appliance::default()
    };
    job.joints.insert(Joint {
        id: head,
        at: middle + Direction::new(dice.between(-3, 3), dice.between(-3, 3), 5),
        placed: Some(Placed::new(Device::Appliance(grill))),
        ..Joint::default()
    });
    (job, head)
}

/// Lays a row by the editor and holds the study of the job against it.
fn hold_against_the_laid_job(job: &Job, row: &TieIn, seed: u64) -> bool {
    let book = Codebook::published();
    let profile = book.profile(&job.settings.profile).unwrap_or(book.default_profile());
    let step = match tie_in(job, row) {
        Ok(step) => step,
        Err(refusal) => {
            assert!(row.blocked.is_some(), "seed {seed}: {row:?}: {refusal}");
            return false;
        }
    };
    assert_eq!(row.blocked, None, "seed {seed}: {:?} was laid", row.place);
    let mut after = job.clone();
    step.apply(&mut after).unwrap();
    let mut back = after.clone();
    step.inverse().apply(&mut back).unwrap();
    assert_eq!(back, *job, "seed {seed}");
    let [laid, tried] = [&after, &row.laid(job)].map(|job| Study::under(job, book, profile));
    assert_eq!(laid.sections.len(), tried.sections.len(), "seed {seed}");
    for (laid, tried) in laid.sections.iter().zip(&tried.sections) {
        assert_eq!(
            (laid.sizing.size, laid.sizing.verdict, laid.state),
            (tried.sizing.size, tried.sizing.verdict, tried.state),
            "seed {seed}"
        );
        let apart = (laid.measured - tried.measured).magnitude();
        assert!(apart < Length::from_inches(1.0 / 16.0), "seed {seed}");
    }
    for (laid, tried) in laid.outlets.iter().zip(&tried.outlets) {
        let inches = |pressure: Option<GaugePressure>| pressure.map(|pressure| pressure.inches_wc());
        match (inches(laid.pressure), inches(tried.pressure)) {
            (Some(laid), Some(tried)) => assert!((laid - tried).abs() < 1e-6, "seed {seed}"),
            (laid, tried) => assert_eq!(laid, tried, "seed {seed}"),
        }
    }
    // The row tells what the study of the laid job tells.
    let margins = laid.outlets.iter().filter_map(|outlet| outlet.margin);
    let least = margins.map(|margin| margin.pa()).min_by(f64::total_cmp);
    assert_eq!(
        least,
        row.lowest.as_ref().map(|lowest| lowest.margin.pa()),
        "seed {seed}"
    );
    let line: Length = after
        .runs
        .iter()
        .filter(|run| job.runs.get(run.id).is_none())
        .map(|run| after.true_length(run))
        .sum();
    let tapped = match row.place {
        TieInPlace::Joint(_) => Length::ZERO,
        TieInPlace::Run { run, along } => job.true_length(job.runs.get(run).unwrap()) - along,
    };
    assert_eq!(line - tapped, row.route_length(), "seed {seed}");
    true
}

#[test]
fn every_row_of_a_house_is_as_the_laid_job_is() {
    let (draft, grill) = house();
    let rows = survey(&draft.job, grill);
    let laid = rows
        .rows
        .iter()
        .filter(|row| hold_against_the_laid_job(&draft.job, row, 0))
        .count();
    assert!(laid > 65, "{laid} of {}", rows.rows.len());
}

#[test]
fn rows_of_any_job_are_as_the_laid_jobs_are() {
    let (mut laid, mut blocked) = (0, 0);
    for seed in 0..60 {
        let mut dice = Dice::new(seed);
        let (job, head) = with_newcomer(random_job(seed, 4 + (seed as usize * 5) % 40), &mut dice);
        let asked = NewBranch {
            offer: Offer::AllPipe,
            ..branch(head)
        };
        let Ok(rows) = TieIns::find(&job, Codebook::published(), &asked, &Progress::default()) else {
            continue;
        };
        for row in rows.rows.iter().step_by(1 + rows.rows.len() / 25) {
            match hold_against_the_laid_job(&job, row, seed) {
                true => laid += 1,
                false => blocked += 1,
            }
        }
    }
    assert!(
        laid > 500 && blocked > 0 && blocked < laid / 2,
        "{laid} laid, {blocked} blocked"
    );
}

/// Every row equals what the whole study of the laid job tells.
#[test]
fn every_row_is_what_the_whole_study_tells() {
    let offers = [Offer::Existing, Offer::AllPipe];
    let find = |job: &Job, head, offer| {
        let asked = NewBranch { offer, ..branch(head) };
        let found = TieIns::find(job, Codebook::published(), &asked, &Progress::default());
        found.map_or(Vec::new(), |found| found.rows)
    };
    let (draft, grill) = house();
    assert!(check(&draft.job, &find(&draft.job, grill, offers[0]), 1) > 70);
    let (job, head) = large(120);
    assert!(check(&job, &find(&job, head, offers[0]), 7) > 100);
    let mut held = 0;
    for seed in 0..120 {
        let mut dice = Dice::new(seed);
        let (job, head) = with_newcomer(random_job(seed, 4 + (seed as usize * 7) % 50), &mut dice);
        for offer in offers {
            let rows = find(&job, head, offer);
            held += check(&job, &rows, 1 + rows.len() / 30);
        }
    }
    assert!(held > 3000, "{held}");
}

/// Places of a job without sense that are tried.
const ENOUGH: usize = 50;

#[test]
fn nonsense_gives_rows_or_a_reason() {
    let (mut rows, mut blocked) = (0, 0);
    for seed in 0..600 {
        let mut dice = Dice::new(seed);
        let job = wild_job(seed, 1 + dice.below(30));
        let (job, head) = match dice.percent(70) {
            true => with_newcomer(job, &mut dice),
            false => (job.clone(), job.joints.at(dice.below(job.joints.len())).id),
        };
        let asked = NewBranch {
            head,
            through: (0..dice.below(3))
                .map(|_| LatticePoint::new(dice.between(-9, 9), i32::MAX, i32::MIN))
                .collect(),
            offer: Offer::AllPipe,
        };
        // Lengths without sense have places without number.
        let progress = Progress::default();
        let found = std::thread::scope(|scope| {
            let found = scope.spawn(|| TieIns::find(&job, Codebook::published(), &asked, &progress));
            // So many places are enough, however long a busy machine takes for them.
            while !found.is_finished() && progress.done_of().0 < ENOUGH {
                std::thread::sleep(Duration::from_millis(1));
            }
            progress.stop();
            found.join().unwrap()
        });
        if let Ok(found) = &found {
            let some = &found.rows[..found.rows.len().min(40)];
            check(&job, some, 4);
        }
        for row in found.iter().flat_map(|found| &found.rows).take(40) {
            rows += 1;
            blocked += usize::from(tie_in(&job, row).is_err());
            assert!(!row.reasons(job.settings.units).is_empty());
        }
    }
    assert!(rows > 300 && blocked < rows, "{rows}, {blocked}");
}

#[test]
fn the_order_is_the_same_on_any_number_of_threads() {
    let (draft, grill) = house();
    let all = survey(&draft.job, grill);
    assert_eq!(all, survey(&draft.job, grill));
    for threads in [1, 3] {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        assert_eq!(all, pool.install(|| survey(&draft.job, grill)));
    }
}

#[test]
fn a_line_through_something_is_told_beforehand() {
    let (mut draft, grill) = house();
    // A joint stands on the straight way.
    draft.at(8, 4, 0);
    let rows = survey(&draft.job, grill);
    let row = at(&rows, along(1, 8.0));
    assert!(matches!(row.blocked, Some(Blocked::Joint(_))), "{:?}", row.blocked);
    assert!(
        row.reasons(UnitSystem::Us)
            .last()
            .unwrap()
            .contains("places of your own")
    );
    assert!(tie_in(&draft.job, row).is_err());
    // From beside it the line goes another way round.
    assert_eq!(at(&rows, along(1, 9.0)).blocked, None);
}

/// A street that stands already, and a grill that comes.
fn large(runs: usize) -> (Job, JointId) {
    let mut job = street(runs);
    let ids: Vec<RunId> = job.runs.iter().map(|run| run.id).collect();
    for id in ids {
        let run = job.runs.get_mut(id).unwrap();
        (run.state, run.size) = (State::Existing, Some(inch("4")));
        run.length = Some(Length::from_feet(10.5));
    }
    with_newcomer(job, &mut Dice::new(1))
}

#[test]
fn a_survey_tells_how_far_it_is_and_stops_when_asked() {
    let (job, head) = large(1000);
    let progress = Progress::default();
    let found = std::thread::scope(|scope| {
        let found = scope.spawn(|| TieIns::find(&job, Codebook::published(), &branch(head), &progress));
        let start = Instant::now();
        while progress.done_of().0 < 20 && start.elapsed().as_secs() < 60 {
            std::thread::sleep(Duration::from_millis(1));
        }
        progress.stop();
        let asked = Instant::now();
        let found = found.join().unwrap();
        assert!(asked.elapsed().as_secs() < 5, "{:?}", asked.elapsed());
        found
    })
    .unwrap();
    let (done, of) = progress.done_of();
    assert_eq!((found.rows.len(), found.places), (done, of));
    assert!(
        found.rows.len() < found.places && done >= 20 && of > 7000,
        "{done} of {of}"
    );
}
