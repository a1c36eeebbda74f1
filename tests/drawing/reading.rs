//! Whether a drawing reads at a counter: sizes and lengths on their pipe, leaders short and clear of other pipe.

use crate::belonging::Ink;
use crate::draft::Draft;
use crate::random_job::random_job;
use crate::readable::{Reading, read};
use rayon::prelude::*;
use std::collections::HashSet;
use stubout::codebook::Codebook;
use stubout::drawing::tags::Subject;
use stubout::drawing::{Crowding, Isometric, Options, isometric};
use stubout::job::Job;
use stubout::rules::Checked;
use stubout::scene::{Item, Point, Rect, Scene};
use stubout::sheet::{Orientation, Paper, compose};
use stubout::study::{Places, Study};
use stubout::units::GaugePressure;

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
struct OnSheets {
    reading: Reading,
    sheets: usize,
    belonging: Belonging,
}

fn on_sheets(text: &str, paper: Paper) -> OnSheets {
    let (job, book) = (stubout::file::read(text).unwrap(), Codebook::published());
    let checked = Checked::of(&job, book);
    let packet = compose(&job, &checked, book, paper, Orientation::Landscape);
    let mut read_as_one = OnSheets {
        reading: Reading::default(),
        sheets: packet.sheets.len(),
        belonging: Belonging::default(),
    };
    for sheet in &packet.sheets {
        let ink = Ink::of(sheet);
        read_as_one.reading = std::mem::take(&mut read_as_one.reading).with(read(sheet, &job));
        read_as_one.belonging.beside.extend(ink.beside_their_item(&job));
        read_as_one.belonging.strange.extend(ink.nearer_to_a_stranger(&job));
    }
    read_as_one
}

/// A job on one sheet of paper without schedules, and how many of its labels found no place at all.
fn alone(job: &Job) -> (Reading, usize) {
    let (drawn, scene) = drawn_alone(job);
    let left_out = match drawn.crowding {
        Crowding::Fits => 0,
        Crowding::TooDense { left_out } => left_out,
    };
    (read(&scene, job), left_out)
}

/// The paper of a drawing without schedules.
const ALONE: Rect = Rect {
    min: Point { x: 10.0, y: 10.0 },
    max: Point { x: 410.0, y: 260.0 },
};

fn drawn_alone(job: &Job) -> (Isometric, Scene) {
    let study = Study::of(job, Codebook::published());
    let drawn = isometric(job, &study, ALONE, Options::default());
    let mut scene = Scene::new(420.0, 270.0, "alone");
    scene.push(drawn.group.clone());
    (drawn, scene)
}

/// What is wrong with how labels belong to what they speak of, on drawings.
#[derive(Default)]
struct Belonging {
    /// Numbered points with a free place for their words.
    could_stand: Vec<(Subject, String)>,
    /// Leaders that end beside what they lead from.
    beside: Vec<(Subject, f64)>,
    /// Sizes and lengths nearer to a stranger.
    strange: Vec<(Subject, f64)>,
}

/// The same of a job on one sheet without schedules.
fn belonging(job: &Job) -> Belonging {
    let (drawn, scene) = drawn_alone(job);
    let ink = Ink::of(&scene);
    let anchor = |subject: Subject| {
        let mark = drawn.lettered.iter().find(|lettered| lettered.subject == subject);
        mark.map(|mark| mark.anchor)
    };
    let could_stand = drawn.numbered.iter().filter(|point| {
        let anchor = anchor(point.subject);
        anchor.is_some_and(|anchor| ink.has_free_place(job, ALONE, point, anchor))
    });
    Belonging {
        could_stand: could_stand.map(|point| (point.subject, point.text.clone())).collect(),
        beside: ink.beside_their_item(job),
        strange: ink.nearer_to_a_stranger(job),
    }
}

/// The figures of today, and pictures: `LOOK=/tmp/look cargo test --test drawing figures -- --ignored --nocapture`.
#[test]
#[ignore = "prints figures for the eye"]
fn figures() {
    let say = |name: &str, reading: &Reading, rest: String| {
        eprintln!(
            "{name:24} points {:2} pipe {:3} numbered {:2} ({:5.1} %) led {:2} leaders {:2} crossing {:2} longest {:4.1} {rest}",
            reading.points,
            reading.of_pipe,
            reading.numbered,
            100.0 * reading.share(),
            reading.led,
            reading.leaders,
            reading.crossing.len(),
            reading.longest,
        );
    };
    let more = std::env::var("JOBS")
        .ok()
        .and_then(|folder| std::fs::read_dir(folder).ok());
    let mut more: Vec<(String, String)> = (more.into_iter().flatten().flatten())
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|kind| kind == "ron"))
        .filter_map(|path| {
            Some((
                path.file_stem()?.to_str()?.to_owned(),
                std::fs::read_to_string(path).ok()?,
            ))
        })
        .collect();
    more.sort();
    let named = NAMED.map(|(name, text)| (name.to_owned(), text.to_owned()));
    let mut sums = [(0, Reading::default()), (0, Reading::default())];
    for (name, text) in named.into_iter().chain(more) {
        let (name, text) = (name.as_str(), text.as_str());
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
        for (at, (paper, called)) in [(Paper::AnsiB, "B"), (Paper::AnsiA, "A")].into_iter().enumerate() {
            let OnSheets {
                reading,
                sheets,
                belonging: Belonging { beside, strange, .. },
            } = on_sheets(text, paper);
            let rest = format!("sheets {sheets} beside item {} strange {}", beside.len(), strange.len());
            say(&format!("{name} {called}"), &reading, rest);
            for (subject, mm) in beside {
                eprintln!("    {subject:?} ends {mm:.1} mm beside");
            }
            for (subject, mm) in strange {
                eprintln!("    {subject:?} is {mm:.1} mm nearer to a stranger");
            }
            sums[at].0 += sheets;
            sums[at].1 = std::mem::take(&mut sums[at].1).with(reading);
        }
    }
    for (sheets, reading) in sums {
        say("all", &reading, format!("sheets {sheets}"));
    }
    for most in [10, 30, 60] {
        let all = (0..200u64).into_par_iter().map(|seed| {
            let runs = 3 + (seed as usize * 37) % (most - 2);
            alone(&random_job(seed, runs))
        });
        let (reading, left_out) = all.reduce(Default::default, |(a, m), (b, n)| (a.with(b), m + n));
        let belongs = (0..200u64).into_par_iter().map(|seed| {
            let runs = 3 + (seed as usize * 37) % (most - 2);
            let it = belonging(&random_job(seed, runs));
            [it.could_stand.len(), it.beside.len(), it.strange.len()]
        });
        let belongs = belongs.reduce(|| [0; 3], |a, b| [a[0] + b[0], a[1] + b[1], a[2] + b[2]]);
        say(
            &format!("random, to {most} runs"),
            &reading,
            format!("left out {left_out}, with a free place, beside, strange: {belongs:?}"),
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

/// Leaders are short, cross no other pipe and end on what they speak of, and sizes and lengths stand nearest to their own
/// pipe. Where other leaders or words bar the last of the way a leader ends beside its item, but never far.
#[test]
fn leaders_are_short_and_labels_belong_to_what_they_speak_of() {
    let counts = NAMED
        .into_par_iter()
        .flat_map(|named| [(named, Paper::AnsiB), (named, Paper::AnsiA)]);
    let counts = counts.map(|((name, text), paper)| {
        let OnSheets { reading, belonging, .. } = on_sheets(text, paper);
        leaders_are_short_and_clear(name, &reading);
        let off = reading.in_white.iter().filter(|(_, mm)| *mm > BESIDE_BOX).count();
        assert!(off <= 1, "{name}: ends in white {:?}", reading.in_white);
        let far = belonging.beside.iter().filter(|(_, mm)| *mm > BESIDE_BOX).count();
        assert_eq!(far, 0, "{name}: {:?}", belonging.beside);
        let (beside, strange) = (belonging.beside.len(), belonging.strange.len());
        [reading.leaders, beside, reading.of_pipe, strange]
    });
    let sum = |a: [usize; 4], b: [usize; 4]| [a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3]];
    let [leaders, beside, of_pipe, strange] = counts.reduce(|| [0; 4], sum);
    // Measured before leaders came as near to words as now: 19 of 521 and 9 of 839.
    assert!(
        beside * 25 <= leaders,
        "{beside} of {leaders} leaders end beside their item"
    );
    assert!(
        strange * 50 <= of_pipe,
        "{strange} of {of_pipe} labels are nearer to a stranger"
    );
    (0..120u64).into_par_iter().for_each(|seed| {
        let runs = 3 + (seed as usize * 37) % 58;
        leaders_are_short_and_clear(&format!("seed {seed}"), &alone(&random_job(seed, runs)).0);
    });
}

/// What has a free place beside it stands there, and not as a number in a table.
#[test]
fn no_label_is_a_number_beside_free_paper() {
    for (name, text) in NAMED {
        let could_stand = belonging(&stubout::file::read(text).unwrap()).could_stand;
        assert!(could_stand.len() <= 1, "{name}: {could_stand:?}");
    }
    let by_chance = (0..60u64).into_par_iter().map(|seed| {
        let job = random_job(seed, 3 + (seed as usize * 37) % 28);
        (belonging(&job).could_stand.len(), job.runs.len())
    });
    let (could_stand, runs) = by_chance.reduce(|| (0, 0), |a, b| (a.0 + b.0, a.1 + b.1));
    // Where labels are dense others would have to make room one after another: that is not tried for ever.
    assert!(could_stand * 60 <= runs, "{could_stand} in {runs} runs");
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

/// Before and after a regulator pipe has a pressure and a sizing length of its own, and so a length of its own on the drawing,
/// however short it is drawn.
#[test]
fn no_length_goes_across_a_regulator() {
    let mut draft = Draft::fed_at(GaugePressure::from_psi(2.0));
    let (start, between, end) = (draft.at(0, 0, 0), draft.at(1, 0, 0), draft.at(2, 0, 0));
    draft.run(start, between, 4.0);
    draft.run(between, end, 1.0);
    draft.regulator(between, GaugePressure::from_inches_wc(7.0));
    draft.burner(end, "Heater", 30_000.0);
    let study = Study::of(&draft.job, Codebook::published());
    let area = Rect::sized(Point::new(10.0, 10.0), 90.0, 70.0);
    let drawn = isometric(&draft.job, &study, area, Options::default());
    let mut scene = Scene::new(110.0, 90.0, "regulator");
    scene.push(drawn.group);
    let words = scene.words().join(" ");
    assert!(
        words.contains("4'-0\"") && words.contains("1'-0\"") && !words.contains("5'-0\""),
        "{words}"
    );
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
