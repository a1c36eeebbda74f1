//! Whether a drawing reads at a counter: sizes and lengths on their pipe, leaders short and clear of other pipe.

use crate::random_job::random_job;
use crate::readable::{Reading, read};
use rayon::prelude::*;
use std::collections::HashSet;
use stubout::codebook::Codebook;
use stubout::drawing::{Crowding, Options, isometric};
use stubout::job::Job;
use stubout::rules::Checked;
use stubout::scene::{Item, Point, Rect, Scene};
use stubout::sheet::{Orientation, Paper, compose};
use stubout::study::{Places, Study};

/// Jobs by name: the examples, and those that are dense or have what the examples lack.
const NAMED: [(&str, &str); 12] = [
    ("patio-kitchen", include_str!("../../examples/patio-kitchen.ron")),
    ("propane-cabin", include_str!("../../examples/propane-cabin.ron")),
    (
        "two-pressure-house",
        include_str!("../../examples/two-pressure-house.ron"),
    ),
    ("classroom", include_str!("../../examples/classroom.ron")),
    ("everyday-tubing-tee", include_str!("../jobs/everyday-tubing-tee.ron")),
    ("rim-joist-outlet", include_str!("../jobs/rim-joist-outlet.ron")),
    ("restaurant-row-12", include_str!("../jobs/restaurant-row-12.ron")),
    (
        "townhouse-three-storeys",
        include_str!("../jobs/townhouse-three-storeys.ron"),
    ),
    ("house-64-runs", include_str!("../jobs/house-64-runs.ron")),
    (
        "apartments-meter-header",
        include_str!("../jobs/apartments-meter-header.ron"),
    ),
    (
        "kitchen-crossing-runs",
        include_str!("../jobs/kitchen-crossing-runs.ron"),
    ),
    (
        "restaurant-two-headers",
        include_str!("../jobs/restaurant-two-headers.ron"),
    ),
];

/// The permit sheets of a job, read as one.
fn on_sheets(text: &str, paper: Paper) -> (Reading, usize) {
    let (job, book) = (stubout::file::read(text).unwrap(), Codebook::published());
    let checked = Checked::of(&job, book);
    let packet = compose(&job, &checked, book, paper, Orientation::Landscape);
    let reading = packet.sheets.iter().map(|sheet| read(sheet, &job));
    (reading.fold(Reading::default(), Reading::with), packet.sheets.len())
}

/// A job on one sheet of paper without schedules, and how many of its labels found no place at all.
fn alone(job: &Job) -> (Reading, usize) {
    let study = Study::of(job, Codebook::published());
    let area = Rect::sized(Point::new(10.0, 10.0), 400.0, 250.0);
    let drawn = isometric(job, &study, area, Options::default());
    let mut scene = Scene::new(420.0, 270.0, "alone");
    scene.push(drawn.group);
    let left_out = match drawn.crowding {
        Crowding::Fits => 0,
        Crowding::TooDense { left_out } => left_out,
    };
    (read(&scene, job), left_out)
}

/// The figures of today, and pictures: `LOOK=/tmp/look cargo test --test drawing figures -- --ignored --nocapture`.
#[test]
#[ignore = "prints figures for the eye"]
fn figures() {
    let say = |name: &str, reading: &Reading, rest: String| {
        eprintln!(
            "{name:24} pipe {:3} numbered {:2} ({:5.1} %) led {:2} leaders {:2} crossing {:2} longest {:4.1} {rest}",
            reading.of_pipe,
            reading.numbered,
            100.0 * reading.share(),
            reading.led,
            reading.leaders,
            reading.crossing.len(),
            reading.longest,
        );
    };
    for (name, text) in NAMED {
        if let Ok(folder) = std::env::var("LOOK") {
            let job = stubout::file::read(text).unwrap();
            let study = Study::of(&job, Codebook::published());
            let area = Rect::sized(Point::new(10.0, 10.0), 262.0, 169.0);
            let drawn = isometric(&job, &study, area, Options::default());
            let mut scene = Scene::new(282.0, 189.0, name);
            scene.push(drawn.group);
            for point in drawn.numbered {
                eprintln!("{name} numbers {:?}: {}", point.subject, point.text);
            }
            let file = stubout::export::png::write(&scene, 140.0).unwrap();
            std::fs::write(format!("{folder}/{name}.png"), file).unwrap();
        }
        for (paper, called) in [(Paper::AnsiB, "B"), (Paper::AnsiA, "A")] {
            let (reading, sheets) = on_sheets(text, paper);
            say(&format!("{name} {called}"), &reading, format!("sheets {sheets}"));
        }
    }
    for most in [10, 30, 60] {
        let all = (0..200u64).into_par_iter().map(|seed| {
            let runs = 3 + (seed as usize * 37) % (most - 2);
            alone(&random_job(seed, runs))
        });
        let (reading, left_out) = all.reduce(Default::default, |(a, m), (b, n)| (a.with(b), m + n));
        say(
            &format!("random, to {most} runs"),
            &reading,
            format!("left out {left_out}"),
        );
    }
}

/// The dot of a leader begins no farther from ink where the way to it is taken, mm: our own bound.
const BESIDE_BOX: f64 = 3.0;
/// At most this long, mm: our own bound, for no standard that was read gives one.
const LONGEST: f64 = 25.0;

#[track_caller]
fn leaders_are_short_and_clear(name: &str, reading: &Reading) {
    assert!(reading.crossing.is_empty(), "{name}: over pipe {:?}", reading.crossing);
    assert!(reading.longest <= LONGEST, "{name}: {} mm", reading.longest);
}

#[test]
fn leaders_are_short_and_cross_no_other_pipe() {
    NAMED.into_par_iter().for_each(|(name, text)| {
        for paper in [Paper::AnsiB, Paper::AnsiA] {
            let reading = on_sheets(text, paper).0;
            leaders_are_short_and_clear(name, &reading);
            // Where another leader or foreign pipe is in the way one ends beside the box of its symbol.
            let off = reading.in_white.iter().filter(|(_, mm)| *mm > BESIDE_BOX).count();
            assert!(off <= 1, "{name}: ends in white {:?}", reading.in_white);
        }
    });
    (0..120u64).into_par_iter().for_each(|seed| {
        let runs = 3 + (seed as usize * 37) % 58;
        leaders_are_short_and_clear(&format!("seed {seed}"), &alone(&random_job(seed, runs)).0);
    });
}

/// The numbers in hexagons on a drawing.
fn section_numbers(scene: &Scene, into: &mut HashSet<usize>) {
    scene.walk(|_, item| {
        let Item::Group(group) = item else { return };
        let number = group.label.as_deref().and_then(|label| label.strip_prefix("section "));
        into.extend(number.and_then(|number| number.parse::<usize>().ok()));
    });
}

#[test]
fn every_section_of_the_schedule_is_on_the_drawing() {
    NAMED.into_par_iter().for_each(|(name, text)| {
        let (job, book) = (stubout::file::read(text).unwrap(), Codebook::published());
        let checked = Checked::of(&job, book);
        for paper in [Paper::AnsiB, Paper::AnsiA] {
            let packet = compose(&job, &checked, book, paper, Orientation::Landscape);
            let mut drawn = HashSet::new();
            packet
                .sheets
                .iter()
                .for_each(|sheet| section_numbers(sheet, &mut drawn));
            // Hoses and connectors are in no schedule: they go by their own rating.
            let pipe = checked.study.sections.iter().filter(|section| section.is_pipe());
            let sections = pipe.map(|section| section.number);
            let lacking: Vec<usize> = sections.filter(|number| !drawn.contains(number)).collect();
            assert!(lacking.is_empty(), "{name} on {paper:?}: {lacking:?}");
        }
    });
}

/// One size, one chain of dimensions, and one drop that speaks for all: the row of twelve.
#[test]
fn a_row_of_equal_drops_is_lettered_once() {
    let job = stubout::file::read(include_str!("../jobs/restaurant-row-12.ron")).unwrap();
    let study = Study::of(&job, Codebook::published());
    let area = Rect::sized(Point::new(10.0, 10.0), 400.0, 260.0);
    let drawn = isometric(&job, &study, area, Options::default());
    let mut scene = Scene::new(420.0, 280.0, "row");
    scene.push(drawn.group);
    let words = scene.words();
    let times = |said: &str| words.iter().filter(|words| **words == said).count();
    // Eleven bays of five feet between the first tee and the last drop.
    for said in [
        "2\" HEADER",
        "11 × 5'-0\" = 55'-0\"",
        "connector × 4'-0\" TYP. A–L",
        "5'-6\" ALL A–L",
    ] {
        assert_eq!(times(said), 1, "{said}: {words:#?}");
    }
    assert_eq!(times("connector × 4'-0\""), 0);
    // Sizes differ from drop to drop, so each says its own.
    let sizes = ["1\"", "3/4\"", "1/2\""].map(times);
    assert_eq!(sizes.iter().sum::<usize>(), 12, "{sizes:?}");
}

/// What schedules call the ends of sections can be found on the drawing: a letter, a label, a tie-in's flag, or what
/// stands at the end of a numbered section.
#[test]
fn no_end_of_a_section_goes_by_an_id_that_is_not_on_the_drawing() {
    for (name, text) in NAMED {
        let job = stubout::file::read(text).unwrap();
        let study = Study::of(&job, Codebook::published());
        let places = Places::of(&job, &study);
        let mut called = HashSet::new();
        for section in &study.sections {
            for joint in [section.from, section.to] {
                let said = places.joint(joint);
                let id = job.joints.at(joint).id.to_string();
                assert!(!said.split(' ').any(|word| word == id), "{name}: {said}");
                called.insert((said, joint));
            }
        }
        let names: HashSet<&str> = called.iter().map(|(said, _)| said.as_str()).collect();
        assert_eq!(names.len(), called.len(), "{name}: one name for two places: {called:?}");
    }
}
