//! How long the study, the drawing and the exports of a job take, by size, compared within one run: `cargo bench`.
//!
//! Measured 2026-11-25, two shared cores, median. Runs: 100, 1,000, 10,000. Study with all rules: 0.063, 0.52, 6.3 ms;
//! isometric with its words: 2.9, 35, 376 ms; SVG: 0.21, 1.5, 21 ms; drawing a run with a tee and undoing it: 0.03, 0.16,
//! 2.0 ms. The patio kitchen from the text of its file to the SVG of both sheets: 6.2 ms. A tie-in survey of 1,009 runs,
//! 9,414 places: 1.67 s.
//!
//! Measured 2026-11-30 by single calls of an optimized build on two cores that built for others at the same time (load 2 to
//! 4), so good for comparing only; before → after places were found once for each label, least of some. Picture of the
//! canvas with its words, 2,000 runs: 97 → 34 ms; bare: 13 → 7.5 ms; 10,000 runs: 637 → 641 ms, with 6,331 words in place of
//! 5,373, as the search gives up later. A star of 500 runs: 0.87 → 0.52 s. Packet of 1,000 runs on ANSI B: 1.7 → 1.3 s (13
//! sheets in place of 11: parts are tried that were given up), of 10,000: 6.5 s. Fixes of 1,000 runs: 3.2 → 0.44 s; headroom 17
//! → 7 ms. Tie-in survey of 1,009 runs, 9,414 places: 7.5 → 4.2 s. Study of 10,000 runs: 8.0 → 7.9 ms. Not optimized, processor
//! time: the restaurant row on ANSI B 1.45 → 1.03 s, the house of 64 runs 2.16 → 1.55 s.

#[path = "../support/street.rs"]
mod street;

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use std::hint::black_box;
use stubout::advice::{NewBranch, Progress, TieIns};
use stubout::codebook::Codebook;
use stubout::drawing::{Options, Projection, Scale, isometric};
use stubout::editor::edit::{Fixes, Gap, Stretch, Typed, delete, repeat, shift};
use stubout::editor::{CommandId, Editor, Input, Key, Part, Selection, Toward};
use stubout::export::svg::{TextStyle, write};
use stubout::job::{Appliance, Device, Direction, Job, Joint, JointId, LatticePoint, Placed, RunId, State};
use stubout::rules::Checked;
use stubout::scene::{Point, Rect, Scene};
use stubout::sheet::{Orientation, Paper, compose};
use stubout::study::Study;
use stubout::units::{HeatRate, Length, NominalSize};

const SIZES: [usize; 4] = [10, 100, 1_000, 10_000];

fn study(c: &mut Criterion) {
    let book = Codebook::published();
    let mut group = c.benchmark_group("study");
    for size in SIZES {
        let job = street::street(size);
        group.bench_with_input(BenchmarkId::from_parameter(size), &job, |b, job| {
            b.iter(|| Study::of(black_box(job), book));
        });
    }
    group.finish();
}

fn area(size: usize) -> Rect {
    let side = 200.0 * (size as f64 / 40.0).sqrt().max(1.0);
    Rect::sized(Point::default(), side, side)
}

fn scene(c: &mut Criterion) {
    let book = Codebook::published();
    let mut group = c.benchmark_group("scene");
    group.sample_size(10);
    for size in SIZES {
        let job = street::street(size);
        let study = Study::of(&job, book);
        group.bench_function(BenchmarkId::from_parameter(size), |b| {
            b.iter(|| isometric(black_box(&job), &study, area(size), Options::default()));
        });
    }
    group.finish();
}

/// The picture that the window draws after every edit: its scale fixed, with all its words.
fn canvas(c: &mut Criterion) {
    let book = Codebook::published();
    let mut group = c.benchmark_group("canvas");
    group.sample_size(10);
    let options = Options {
        scale: Scale::Fixed(Projection {
            origin: Point::default(),
            step: 7.0,
        }),
        ..Options::default()
    };
    for size in [100, 1_000, 2_000, 10_000] {
        let job = street::street(size);
        let study = Study::of(&job, book);
        group.bench_function(BenchmarkId::from_parameter(size), |b| {
            b.iter(|| isometric(black_box(&job), &study, area(40), options));
        });
    }
    group.finish();
}

fn svg(c: &mut Criterion) {
    let book = Codebook::published();
    let mut group = c.benchmark_group("svg");
    group.sample_size(10);
    for size in SIZES {
        let job = street::street(size);
        let study = Study::of(&job, book);
        let drawn = isometric(&job, &study, area(size), Options::default());
        let mut scene = Scene::new(area(size).width(), area(size).height(), "street");
        scene.push(drawn.group);
        group.bench_function(BenchmarkId::from_parameter(size), |b| {
            b.iter(|| write(black_box(&scene), TextStyle::Outlines));
        });
    }
    group.finish();
}

/// All permit sheets of dense jobs, arranging included; of large ones, and what else grows with a job.
fn packets(c: &mut Criterion) {
    let book = Codebook::published();
    let mut group = c.benchmark_group("packet");
    group.sample_size(10);
    let dense = [
        ("restaurant row of 12", include_str!("../jobs/restaurant-row-12.ron")),
        ("house of 64 runs", include_str!("../jobs/house-64-runs.ron")),
    ];
    let dense = dense.map(|(name, text)| (name, stubout::file::read(text).expect("the job reads")));
    let large = ("1,000 runs", street::street(1_000));
    for (name, job) in dense.into_iter().chain([large]) {
        let checked = Checked::of(&job, book);
        for paper in [Paper::AnsiA, Paper::AnsiB] {
            group.bench_function(format!("{name} on {}", paper.name()), |b| {
                b.iter(|| compose(black_box(&job), &checked, book, paper, Orientation::Landscape));
            });
        }
    }
    let star = street::star(500);
    let study = Study::of(&star, book);
    group.bench_function("drawing of a star of 500 runs", |b| {
        b.iter(|| isometric(black_box(&star), &study, area(500), Options::default()));
    });
    let job = street::street(1_000);
    let checked = Checked::of(&job, book);
    group.bench_function("fixes of 1,000 runs", |b| {
        b.iter(|| Fixes::of(black_box(&job), book, &checked));
    });
    group.finish();
}

fn whole(c: &mut Criterion) {
    let text = include_str!("../../examples/patio-kitchen.ron");
    c.bench_function("patio sheet from file text to SVG", |b| {
        b.iter(|| {
            let job = stubout::file::read(black_box(text)).expect("the example reads");
            let book = Codebook::published();
            let checked = Checked::of(&job, book);
            let packet = compose(&job, &checked, book, Paper::AnsiB, Orientation::Landscape);
            packet
                .sheets
                .iter()
                .map(|sheet| write(sheet, TextStyle::Outlines).len())
                .sum::<usize>()
        });
    });
}

/// Edits and what the editor does for each, the study apart.
fn editing(c: &mut Criterion) {
    let mut group = c.benchmark_group("edit");
    for size in SIZES {
        let job = street::street(size);
        let mut editor = Editor::new(job.clone());
        let middle = RunId(size as u32 / 2);
        // A run drawn from the middle of another, which is split for it, by keys; then undone.
        group.bench_function(BenchmarkId::new("draw a run with a tee and undo it", size), |b| {
            b.iter(|| {
                editor.select([Part::Run(middle)].into_iter().collect());
                editor.run(CommandId::DrawPipe);
                editor.handle(Input::Key(Key::Enter));
                editor.handle(Input::Key(Key::Way(Toward::West)));
                editor.handle(Input::Key(Key::Enter));
                editor.run(CommandId::Undo);
                editor.run(CommandId::Choose);
            });
        });
        assert_eq!(*editor.job(), job);
        // One pointer move while drawing: a ghost checked against the whole job.
        editor.run(CommandId::DrawPipe);
        editor.handle(Input::Key(Key::Enter));
        group.bench_function(BenchmarkId::new("ghost of a run", size), |b| {
            b.iter(|| editor.handle(Input::Key(Key::Way(Toward::West))));
        });
        let last = JointId(job.joints.len() as u32);
        group.bench_function(BenchmarkId::new("move an end", size), |b| {
            let end = [last].into();
            b.iter(|| {
                shift(
                    black_box(&job),
                    &end,
                    Direction::new(0, 0, 1),
                    Stretch::Straight,
                    Typed::Kept,
                )
            });
        });
        group.bench_function(BenchmarkId::new("move everything", size), |b| {
            let all = Selection::all(&job).places(&job);
            b.iter(|| {
                shift(
                    black_box(&job),
                    &all,
                    Direction::new(0, 0, 1),
                    Stretch::Straight,
                    Typed::Kept,
                )
            });
        });
        group.bench_function(BenchmarkId::new("delete a tenth", size), |b| {
            let tenth: Selection = job.runs.iter().step_by(10).map(|run| Part::Run(run.id)).collect();
            b.iter(|| delete(black_box(&job), &tenth, Gap::Keep));
        });
        group.bench_function(BenchmarkId::new("repeat a branch 50 times", size), |b| {
            let parts: Selection = [2, 3, 4].map(|run| Part::Run(RunId(run))).into_iter().collect();
            b.iter(|| repeat(black_box(&job), &parts, Direction::new(-2, 0, 0), 50));
        });
    }
    group.finish();
}

/// A street of at least so many runs, each of ten feet and standing already, and a grill that nothing joins yet.
fn old_street(runs: usize) -> (Job, JointId) {
    let mut job = street::street(runs * 4 / 3);
    let ids: Vec<RunId> = job.runs.iter().map(|run| run.id).collect();
    for run in ids {
        if let Some(run) = job.runs.get_mut(run) {
            (run.state, run.size) = (State::Existing, Some(NominalSize::Inch(64)));
            run.length = Some(Length::from_feet(10.0));
        }
    }
    let head = job.joints.free_id();
    let grill = Appliance {
        name: "Grill".to_owned(),
        input: Some(HeatRate::from_mbh(60.0)),
        ..Appliance::default()
    };
    job.joints.insert(Joint {
        id: head,
        at: LatticePoint::new(-5, 30, 2),
        placed: Some(Placed::new(Device::Appliance(grill))),
        ..Joint::default()
    });
    (job, head)
}

/// Every joint and foot of the piping tried as the tie-in of a grill.
fn tie_in(c: &mut Criterion) {
    let book = Codebook::published();
    let mut group = c.benchmark_group("tie-in, every foot");
    group.sample_size(10);
    for size in [60, 1_000] {
        let (job, head) = old_street(size);
        let branch = NewBranch {
            head,
            ..NewBranch::default()
        };
        let places = TieIns::find(&job, book, &branch, &Progress::default()).map_or(0, |found| found.places);
        let name = format!("{} runs, {places} places", job.runs.len());
        group.bench_function(name, |b| {
            b.iter(|| TieIns::find(black_box(&job), book, &branch, &Progress::default()));
        });
    }
    group.finish();
}

criterion_group!(speed, study, scene, canvas, svg, packets, whole, editing, tie_in);
criterion_main!(speed);
