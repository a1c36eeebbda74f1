//! Cut lists: published arithmetic, and lengths that add up to what was drawn.

use crate::draft::Draft;
use crate::random_job::random_job;
use crate::wild_job::wild_job;
use std::collections::HashSet;
use stubout::codebook::{Codebook, Mark, ThreadMakeUp};
use stubout::file;
use stubout::fittings::{FittingKind, Taken, take_out};
use stubout::job::*;
use stubout::rules::{Checked, Findings};
use stubout::sizing::Origin;
use stubout::study::Study;
use stubout::units::{Angle, GaugePressure, Length, NominalSize, Parse, Show, UnitSystem};
use stubout::work::{CutList, Making, Piece};

fn inch(text: &str) -> NominalSize {
    NominalSize::parse(text).unwrap()
}

fn inches(inches: f64) -> Length {
    Length::from_inches(inches)
}

fn cut(job: &Job) -> CutList {
    let book = Codebook::published();
    CutList::of(job, &Study::of(job, book), book)
}

/// Pipe from the supply through these places, each length in inches, all of one size, an appliance at the end.
fn line(places: &[(i32, i32, i32)], lengths: &[f64], size: &str) -> Draft {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let mut last = draft.at(0, 0, 0);
    for (place, length) in places.iter().zip(lengths) {
        let next = draft.at(place.0, place.1, place.2);
        let run = draft.run(last, next, length / 12.0);
        draft.run_mut(run).size = Some(inch(size));
        last = next;
    }
    draft.burner(last, "Grill", 40e3);
    draft
}

/// A run of this length between two elbows.
fn between_elbows(length: f64, size: &str) -> Piece {
    let draft = line(&[(0, 0, 4), (6, 0, 4), (6, 0, 0)], &[48.0, length, 48.0], size);
    cut(&draft.job).pieces.swap_remove(1)
}

#[track_caller]
fn near(length: Length, expected: f64) {
    assert!(
        (length.inches() - expected).abs() < 1.0 / 64.0,
        "{} in, not {expected}",
        length.inches()
    );
}

#[test]
fn take_out_is_centre_to_end_less_make_up() {
    // Canadian gas-technician training text, unit 8, table 6-1: NPS 3 elbow, A 3-1/8 in, T 1 in, F 2-1/8 in.
    near(take_out(inches(3.125), inches(1.0)), 2.125);
}

#[test]
fn offsets_follow_plain_geometry() {
    // Dibble, Elements of Plumbing, 1918, fig. 76: 12 in set at 45° is 16.92 in with the factor 1.41.
    assert!((travel(inches(12.0), 45.0).inches() - 16.92).abs() < 0.06);
    // The handbook factor of 45° is 1.414.
    assert!((travel(inches(100.0), 45.0).inches() - 141.4).abs() < 0.03);
    // Less 1 in at each of both 45s, 14.92 in: cut is centre to centre less both take-outs.
    assert!((travel(inches(12.0), 45.0).inches() - 2.0 - 14.92).abs() < 0.06);
    near(setback(inches(12.0), 45.0), 12.0);
    near(setback(inches(12.0), 60.0), 6.928);
    near(travel(inches(12.0), 30.0), 24.0);
    near(true_offset(inches(3.0), inches(4.0)), 5.0);
    // Multipliers of pipe-fitting handbooks for the set, and for the run along the line, by the fitting's angle.
    for (degrees, of_travel, of_run) in [
        (60.0, 1.155, 0.577),
        (45.0, 1.414, 1.0),
        (30.0, 2.0, 1.732),
        (22.5, 2.613, 2.414),
    ] {
        let set = inches(100.0);
        assert!(
            (travel(set, degrees).inches() / 100.0 - of_travel).abs() < 0.0005,
            "{degrees}°"
        );
        assert!(
            (setback(set, degrees).inches() / 100.0 - of_run).abs() < 0.0005,
            "{degrees}°"
        );
    }
}

/// Rolling offsets of 3/4 as they are measured, drawn as any slope; handbook make-up.
const ROLLING: &str = include_str!("../jobs/rolling-offsets.ron");

/// The job of the file with another offset measured on its only slope; the profile is that of handbooks, by which 9/16 in of
/// 3/4 goes into a fitting.
fn rolling(change: impl Fn(&mut Run)) -> (Job, Codebook) {
    let mut job = file::read(ROLLING).unwrap_or_else(|error| panic!("{error}"));
    change(job.runs.get_mut(RunId(2)).unwrap());
    let profile = include_str!("../../assets/profiles/us-ifgc.ron")
        .replace("\"us-ifgc\"", "\"handbook\"")
        .replace("thread_make_up: Standard", "thread_make_up: Handbook");
    let book = Codebook::published().with_profile("handbook.ron", &profile).unwrap();
    job.settings.profile = "handbook".to_owned();
    assert_eq!(book.profile("handbook").unwrap().thread_make_up, ThreadMakeUp::Handbook);
    (job, book)
}

#[test]
fn a_measured_rolling_offset_is_made_by_its_measures_whatever_is_drawn() {
    // True offset is the root of rise squared and roll squared, travel 1.4142 times that: pipe-fitting handbooks, plain
    // geometry. An elbow of 45° takes 0.98 − 0.5625 = 0.4175 in at each end (ASME B16.3 from memory, A of 3/4; handbook
    // make-up of 3/4, 9/16 in).
    for (rise, roll, set, travel) in [
        (16.0, 12.0, 20.0, 28.2843),
        (17.625, 30.625, 35.3346, 49.9706),
        (8.0, 12.0, 14.4222, 20.3961),
        (10.0, 14.0, 17.2047, 24.3311),
    ] {
        let (job, book) = rolling(|run| {
            run.offset = Some(MeasuredOffset {
                rise: inches(rise),
                roll: inches(roll),
                run: None,
                angle: Some(Angle::from_degrees(45.0)),
            });
        });
        let study = Study::of(&job, &book);
        assert_eq!(job.true_length(job.runs.get(RunId(2)).unwrap()), study.runs[1].length);
        let piece = CutList::of(&job, &study, &book).pieces.swap_remove(1);
        let offset = piece.offset.expect("an offset");
        for (figure, expected) in [
            (offset.set(), set),
            (offset.along, set),
            (offset.travel, travel),
            (piece.centre_to_centre, travel),
            (piece.cut(), travel - 2.0 * 0.4175),
        ] {
            assert!(
                (figure.inches() - expected).abs() < 1e-4,
                "{} in, not {expected}",
                figure.inches()
            );
        }
        assert_eq!((offset.degrees, offset.is_rolling()), (45.0, true));
        assert!(piece.ends.iter().all(|end| end.what == "45° elbow"), "{:?}", piece.ends);
        // What is fed comes to lie higher by the rise as measured, from a grade of its own.
        let heights = [1, 2].map(|joint| study.joints[joint].elevation);
        assert!(((heights[1] - heights[0]).inches() - rise).abs() < 1e-4, "{heights:?}");
        assert!(
            Findings::of(&job, &book, &study)
                .iter()
                .all(|finding| !finding.rule.starts_with("offset") && finding.rule != "turn-not-exact")
        );
    }
}

#[test]
fn fittings_of_a_measured_offset_go_by_its_angle_and_not_by_the_drawing() {
    let kinds = |angle: f64| {
        let (job, book) = rolling(|run| {
            run.offset.as_mut().unwrap().angle = Some(Angle::from_degrees(angle));
        });
        let study = Study::of(&job, &book);
        study.fittings.iter().map(|fitting| fitting.kind).collect::<Vec<_>>()
    };
    assert_eq!(kinds(45.0), [FittingKind::Elbow45; 2]);
    assert_eq!(kinds(60.0), [FittingKind::OddElbow(600); 2]);
    assert_eq!(kinds(22.5), [FittingKind::OddElbow(225); 2]);
    assert_eq!(FittingKind::OddElbow(225).name(), "22.5° turn, no stock fitting");
}

#[test]
fn a_slope_drawn_near_45_degrees_is_made_by_the_elbow_and_says_so() {
    // So many inches along, 75 north and 100 up: 125 in between the lines.
    let drawn = |along: i32| {
        let (mut job, book) = rolling(|run| run.offset = None);
        job.settings.step = inches(1.0);
        let from = job.joints.get(JointId(2)).unwrap().at;
        for (joint, further) in [(JointId(3), 0), (JointId(4), 30)] {
            job.joints.get_mut(joint).unwrap().at = from + Direction::new(along + further, 75, 100);
        }
        let study = Study::of(&job, &book);
        let piece = CutList::of(&job, &study, &book).pieces.swap_remove(1);
        (piece, Findings::of(&job, &book, &study))
    };
    let (exact, findings) = drawn(125);
    assert!(exact.offset.unwrap().is_as_found());
    assert!(findings.iter().all(|finding| finding.rule != "turn-not-exact"));
    let (piece, findings) = drawn(126);
    let offset = piece.offset.unwrap();
    // atan(125/126) is 44.77°; 125 × 1.4142 is 176.777 in of travel, as
    // drawn it is 177.485 in, 23/32 more.
    near(piece.centre_to_centre, 176.777);
    near(offset.found.travel, 177.485);
    assert_eq!(piece.ends[0].what, "45° elbow");
    assert!(
        offset
            .words(UnitSystem::Us)
            .contains("(drawn at 44.77°, made with fittings of 45°, travel 23/32\" shorter than drawn)"),
        "{}",
        offset.words(UnitSystem::Us)
    );
    let finding = findings
        .iter()
        .find(|finding| finding.rule == "turn-not-exact")
        .expect("it is told");
    assert!(finding.what.contains("turns 44.77° as drawn"), "{}", finding.what);
}

#[test]
fn a_run_between_two_elbows_loses_both_take_outs() {
    // ASME B16.3 from memory, A of 3/4 is 1.31 in; ASME B1.20.1, L1 + L3 of 3/4 is 0.553 in: 60 − 2 × 0.757 = 58.487.
    let piece = between_elbows(60.0, "3/4");
    near(piece.cut(), 58.487);
    assert_eq!((piece.making, piece.parts[0].length), (Making::Cut, inches(58.5)));
    let Taken::Figures {
        centre_to_face,
        make_up,
    } = &piece.ends[0].taken
    else {
        panic!("{:?}", piece.ends)
    };
    assert_eq!((centre_to_face.mark, make_up.mark), (Mark::Memory, Mark::Found));
    assert_eq!((piece.mark.as_str(), piece.is_known()), ("P2", true));
}

#[test]
fn short_pieces_are_nipples_and_what_cannot_exist_names_the_shortest_that_can() {
    // 5 − 1.513 = 3.487: the nipple of 3-1/2.
    assert_eq!(between_elbows(5.0, "3/4").making, Making::Nipple(inches(3.5)));
    // 2 × 0.757 of take-out and a close nipple of 1-3/8 in: 2.888 in from centre to centre.
    let Making::TooShort(shortest) = between_elbows(2.0, "3/4").making else {
        panic!("2 in cannot be made")
    };
    near(shortest, 2.888);
    assert!(matches!(between_elbows(shortest.inches(), "3/4").making, Making::Nipple(close) if close == inches(1.375)));
    assert!(matches!(between_elbows(0.0, "3/4").making, Making::TooShort(_)));
    assert!(matches!(between_elbows(-30.0, "3/4").making, Making::TooShort(_)));
}

#[test]
fn a_profile_that_bars_close_nipples_asks_for_more_room() {
    let mut draft = line(&[(0, 0, 4), (6, 0, 4), (6, 0, 0)], &[48.0, 2.9, 48.0], "3/4");
    draft.job.settings.profile = "ca-b149".to_owned();
    let Making::TooShort(shortest) = cut(&draft.job).pieces[1].making else {
        panic!("the Canadian profile bars close nipples")
    };
    near(shortest, 1.513 + 1.5);
}

#[test]
fn a_45_degree_offset_tells_travel_set_and_run() {
    let draft = line(&[(4, 0, 0), (6, 2, 0), (9, 2, 0)], &[48.0, 16.97, 36.0], "1");
    let piece = &cut(&draft.job).pieces[1];
    let offset = piece.offset.expect("an offset");
    assert!((offset.degrees - 45.0).abs() < 1e-9 && !offset.is_rolling());
    near(offset.set(), 12.0);
    near(offset.along, 12.0);
    // ASME B16.3 from memory, A of the 45 of NPS 1 is 1.12 in; make-up 0.661: 16.97 − 2 × 0.459.
    near(piece.cut(), 16.052);
}

#[test]
fn a_rolling_offset_is_told_by_rise_and_roll() {
    let draft = line(
        &[(4, 0, 0), (9, 3, 4), (12, 3, 4)],
        &[48.0, 50f64.sqrt() * 12.0, 36.0],
        "1",
    );
    let offset = cut(&draft.job).pieces[1].offset.expect("an offset");
    assert!(offset.is_rolling());
    // Rise 4 ft and roll 3 ft: true offset 5 ft; with 5 ft along it turns by 45°.
    near(offset.rise, 48.0);
    near(offset.roll, 36.0);
    near(offset.set(), 60.0);
    near(offset.along, 60.0);
    near(travel(offset.set(), 45.0), offset.travel.inches());
}

#[test]
fn a_piece_longer_than_a_stick_is_parted_at_couplings() {
    let piece = between_elbows(600.0, "3/4");
    assert_eq!((piece.parts.len(), piece.couplings()), (3, 2));
    assert_eq!(piece.parts[0].exact, Length::from_feet(21.0));
    assert_eq!(piece.parts[2].mark, "P2.3");
    // A coupling of 3/4 is 1.52 in long and takes 0.553 in of each pipe: 0.413 in between the pipes.
    near(piece.coupling.unwrap(), 0.413);
    near(piece.parts[2].exact, 600.0 - 1.513 - 2.0 * 252.0 - 2.0 * 0.413);
}

#[test]
fn a_valve_takes_out_nothing_and_says_that_it_must_be_measured() {
    let mut draft = line(&[(4, 0, 0), (9, 0, 0)], &[48.0, 60.0], "3/4");
    draft.put(JointId(2), Device::Valve(Valve::default()));
    let pieces = cut(&draft.job).pieces;
    assert_eq!(pieces.len(), 2, "a device parts the line");
    assert!(!pieces[0].is_known());
    assert_eq!(pieces[0].cut(), inches(48.0));
    assert!(
        pieces[0].remarks(UnitSystem::Us)[0]
            .contains("shutoff valve: its length is set by the manufacturer: measure it")
    );
    draft.put(JointId(2), Device::Union);
    // Union of 3/4 from memory 2.11 in: half of it less 0.553 in.
    near(cut(&draft.job).pieces[0].cut(), 48.0 - 0.502);
}

#[test]
fn a_union_at_a_corner_takes_its_nipple_and_its_own_length() {
    // Elbow of 1/2 1.12 in, close nipple 1.125 in, union 1.91 in, all from memory; each of the three threads on the way
    // takes 0.5343 in (ASME B1.20.1): 1.12 + 1.125 + 1.91 − 3 × 0.5343 = 2.552.
    let mut draft = line(&[(4, 0, 0), (4, 5, 0)], &[48.0, 60.0], "1/2");
    draft.put(JointId(2), Device::Union);
    let list = cut(&draft.job);
    near(list.pieces[0].cut(), 48.0 - 2.552);
    assert_eq!(list.pieces[0].ends[1].what, "union on 90° elbow");
    near(list.pieces[1].cut(), 60.0 - 0.586);
    let made = |list: &CutList| {
        list.nipples
            .iter()
            .map(|it| it.made(UnitSystem::Us))
            .collect::<Vec<_>>()
    };
    assert_eq!(made(&list), ["close nipple 1 1/8 in"]);
    // Where close nipples are barred the next length is taken, and the pipe before it is shorter by the difference.
    draft.job.settings.profile = "ca-b149".to_owned();
    let list = cut(&draft.job);
    near(list.pieces[0].cut(), 48.0 - 2.552 - 0.375);
    assert_eq!(made(&list), ["nipple 1 1/2 in"]);
}

#[test]
fn copper_has_no_figures_and_each_end_says_why() {
    let mut draft = line(&[(4, 0, 0), (9, 0, 0), (9, 4, 0)], &[48.0, 60.0, 48.0], "3/4");
    draft.job.settings.material = Material::CopperL;
    draft.put(JointId(2), Device::Valve(Valve::default()));
    let piece = &cut(&draft.job).pieces[1];
    assert_eq!((piece.cut(), piece.is_known()), (inches(60.0), false));
    let remarks = piece.remarks(UnitSystem::Us);
    // At the valve copper has an adapter.
    assert!(
        remarks[0].contains("copper adapter on shutoff valve") && remarks[1].contains("copper fittings"),
        "{remarks:?}"
    );
}

#[test]
fn reducing_tees_take_out_by_the_sizes_of_both_ways() {
    let mut draft = line(&[(4, 0, 0), (9, 0, 0)], &[48.0, 60.0], "1");
    let end = draft.at(4, 5, 0);
    let branch = draft.run(JointId(2), end, 5.0);
    draft.run_mut(branch).size = Some(inch("3/4"));
    draft.burner(end, "Heater", 20e3);
    let pieces = cut(&draft.job).pieces;
    // ASME B16.3 from memory: tee 1 × 1 × 3/4, 1.37 along the run, 1.45 at the outlet; make-up 0.661 and 0.553.
    near(pieces[0].cut(), 48.0 - (1.37 - 0.661));
    near(pieces[2].cut(), 60.0 - (1.45 - 0.553));
}

#[test]
fn tubing_goes_through_its_bends_as_one_piece_from_a_coil() {
    let mut draft = line(&[(4, 0, 0), (4, 3, 0), (9, 3, 0)], &[48.0, 36.0, 60.0], "EHD 18");
    draft.job.settings.material = Material::Csst;
    let pieces = cut(&draft.job).pieces;
    assert_eq!(
        (pieces.len(), pieces[0].runs.len(), pieces[0].making),
        (1, 3, Making::Coil)
    );
    assert_eq!(pieces[0].cut(), inches(144.0));
}

#[test]
fn a_street_elbow_is_screwed_straight_in() {
    // From the centre of an elbow of 1/2 to that of a street elbow: 1.12 − 0.534 + 1.63 = 2.216 in.
    let mut draft = line(&[(0, 0, 4), (1, 0, 4), (1, 0, 0)], &[48.0, 2.25, 48.0], "1/2");
    draft.joint_mut(JointId(3)).turn = Turn::StreetElbow;
    let pieces = cut(&draft.job).pieces;
    assert_eq!((pieces[1].making, pieces[1].parts.len()), (Making::Direct, 0));
    draft.run_mut(RunId(2)).length = Some(inches(30.0));
    let piece = &cut(&draft.job).pieces[1];
    assert!(
        piece.remarks(UnitSystem::Us)[0].contains("threads straight into"),
        "{:?}",
        piece.remarks(UnitSystem::Us)
    );
    assert_eq!(
        piece.end_words(UnitSystem::Us)[1],
        "90° street elbow −1 5/8\": MALE END, no pipe goes on it"
    );
    assert!(piece.is_on_a_male_end());
    let findings = Checked::of(&draft.job, Codebook::published()).findings;
    assert!(findings.iter().any(|finding| finding.rule == "street-elbow-piped"));
}

/// What stands printed adds up: centre to centre less what both ends take out is the cut length, and the nipple that
/// is bought is as much over or short as is said.
fn adds_up_as_printed(job: &Job) {
    let units = job.settings.units;
    let read = |words: &str| match words.strip_prefix('-') {
        Some(words) => Length::ZERO - Length::parse(words).unwrap(),
        None => Length::parse(words).unwrap(),
    };
    let mark = match units {
        UnitSystem::Us => inches(1.0 / 16.0),
        UnitSystem::Metric | UnitSystem::MetricKpa => Length::from_mm(1.0),
    };
    for piece in cut(job).pieces {
        let printed = match (piece.making, piece.parts.as_slice()) {
            (Making::Cut | Making::Coil, [part]) => read(&part.length.show(units)),
            (Making::Nipple(nipple), []) => {
                let words = piece.made(units);
                match words.split_once(" (exactly ") {
                    Some((_, exactly)) => read(exactly.trim_end_matches(')')),
                    None => read(&nipple.show(units)),
                }
            }
            _ => continue,
        };
        let mut left = read(&piece.centre_to_centre.show(units));
        for (end, words) in piece.ends.iter().zip(piece.end_words(units)) {
            if let Some((_, words)) = words.split_once('−') {
                let shown = read(words.split(':').next().unwrap());
                assert!((shown - end.take_out()).magnitude() < mark, "{piece:?}");
                left = left - shown;
            }
        }
        assert_eq!(left, printed, "{piece:?}\n{:?}", piece.end_words(units));
    }
}

#[test]
fn printed_figures_add_up_on_random_jobs() {
    for seed in 0..500 {
        adds_up_as_printed(&random_job(seed, 1 + seed as usize % 40));
    }
}

/// Every new run is in one piece, and along each piece cut lengths, take-outs and couplings are the true length.
fn adds_up(job: &Job) {
    let book = Codebook::published();
    let study = Study::of(job, book);
    let list = CutList::of(job, &study, book);
    let mut seen = HashSet::new();
    let mut marks = HashSet::new();
    for piece in &list.pieces {
        assert!(marks.insert(piece.mark.clone()), "{} twice", piece.mark);
        let whole: Length = match piece.offset.filter(|offset| !offset.is_as_found()) {
            // Made with elbows that turn a little otherwise than it is drawn: the lines lie as far apart as drawn.
            Some(offset) => travel(offset.set(), offset.degrees),
            None => piece.runs.iter().map(|&run| job.true_length(job.runs.at(run))).sum(),
        };
        assert!(piece.runs.iter().all(|&run| seen.insert(run)), "a run is cut twice");
        let taken = piece.ends[0].take_out() + piece.ends[1].take_out();
        let cut: Length = match piece.making {
            Making::Cut | Making::Coil => piece.parts.iter().map(|part| part.exact).sum(),
            _ => piece.cut(),
        };
        let couplings = piece.coupling.unwrap_or_default().times(piece.couplings() as f64);
        let sixty_fourth = inches(1.0 / 64.0);
        assert!(
            (cut + taken + couplings - whole).magnitude() < sixty_fourth,
            "{piece:?}"
        );
        for part in &piece.parts {
            let half = if job.settings.units == UnitSystem::Us {
                inches(1.0 / 32.0)
            } else {
                Length::from_mm(0.5)
            };
            assert!((part.length - part.exact).magnitude() <= half);
            assert!(part.length > Length::ZERO);
        }
    }
    let connector = |run: usize| {
        let section = study.runs[run].section.map(|section| &study.sections[section]);
        section.is_some_and(|section| section.sizing.origin == Origin::Connector)
    };
    let new = job.runs.iter().enumerate();
    let new = new
        .filter(|(at, run)| run.state == State::New && !connector(*at))
        .count();
    assert_eq!(seen.len(), new, "new runs are cut, all of them");
}

#[test]
fn lengths_add_up_on_random_jobs() {
    for seed in 0..500 {
        adds_up(&random_job(seed, 1 + seed as usize % 40));
    }
}

#[test]
fn any_job_gives_a_list() {
    for seed in 0..300 {
        let job = wild_job(seed, 12);
        let list = cut(&job);
        assert!(list.pieces.len() <= job.runs.len());
    }
}
