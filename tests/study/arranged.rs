//! Drawn lengths arranged: the paper gets better, and nothing else changes.

use crate::paper::{self, Meeting};
use crate::random_job::random_job;
use crate::street::street;
use crate::wild_job::wild_job;
use std::fs;
use stubout::arrange::{STEP_MM, arrange};
use stubout::codebook::Codebook;
use stubout::file;
use stubout::job::{Id, Job, Joint, JointId, LatticePoint, Run, RunId};
use stubout::rules::Checked;
use stubout::units::Length;
use stubout::work::{CutList, StockPlan, TakeOff};

/// Rules that look at the paper itself: arranging may only mend what they tell.
const OF_THE_PAPER: [&str; 4] = ["joints-overlap", "runs-overlap", "joint-on-run", "strangers-meet"];

fn job(name: &str) -> Job {
    let root = env!("CARGO_MANIFEST_DIR");
    let read = |folder: &str| fs::read_to_string(format!("{root}/{folder}/{name}.ron"));
    file::read(&read("examples").or_else(|_| read("tests/jobs")).unwrap()).unwrap()
}

const EXAMPLES: [&str; 4] = ["patio-kitchen", "two-pressure-house", "propane-cabin", "classroom"];
const JOBS: [&str; 9] = [
    "restaurant-row-12",
    "townhouse-three-storeys",
    "house-64-runs",
    "rim-joist-outlet",
    "everyday-tubing-tee",
    "apartments-meter-header",
    "kitchen-crossing-runs",
    "restaurant-two-headers",
    "propane-two-stage",
];

fn by_chance() -> impl Iterator<Item = (u64, Job)> {
    (0..200).map(|seed| (seed, random_job(seed, 3 + (seed as usize * 7) % 62)))
}

/// Of the jobs by chance the two in which a pair of runs still touches: no way was found to part them and keep what is higher
/// above what is lower.
const STILL_TOUCH: [u64; 2] = [97, 131];

/// What is written down reads as measured; sheets and findings are made of the job as a person left it.
const OF_TYPING: &str = "as-built-not-measured";

/// Everything that follows from a job, in words, but for what is said of the paper itself.
fn figures(job: &Job) -> (String, usize) {
    let book = Codebook::published();
    let checked = Checked::of(job, book);
    let study = &checked.study;
    let cuts = CutList::of(job, study, book);
    let stock = StockPlan::of(&cuts, study, book);
    let take_off = TakeOff::of(job, study, book, &cuts, &stock);
    let told = checked.findings.iter().filter(|finding| finding.rule != OF_TYPING);
    let (paper, findings): (Vec<_>, Vec<_>) = told.partition(|finding| OF_THE_PAPER.contains(&finding.rule));
    let pieces = &cuts.pieces;
    (
        format!("{study:#?}\n{pieces:#?}\n{take_off:#?}\n{findings:#?}"),
        paper.len(),
    )
}

#[track_caller]
fn same_figures(name: &str, job: &Job) {
    let arranged = arrange(job).job;
    let (was, now) = (figures(job), figures(&arranged));
    assert!(now.1 <= was.1, "{name}: more is found on the paper");
    let differs = was.0.lines().zip(now.0.lines()).position(|(was, now)| was != now);
    let around = |text: &str, at: usize| {
        let lines: Vec<&str> = text.lines().skip(at.saturating_sub(12)).take(24).collect();
        lines.join("\n")
    };
    let differs = differs.map(|at| (around(&was.0, at), around(&now.0, at)));
    if let Some((was, now)) = differs {
        panic!("{name}:\n{was}\n-- arranged:\n{now}");
    }
    assert_eq!(was.0.lines().count(), now.0.lines().count(), "{name}");
}

#[test]
fn every_figure_stays() {
    for name in EXAMPLES.into_iter().chain(JOBS) {
        same_figures(name, &job(name));
    }
    for (seed, job) in by_chance().filter(|(seed, _)| !STILL_TOUCH.contains(seed)) {
        same_figures(&format!("seed {seed}"), &job);
    }
}

/// Holds that of a job only drawn lengths changed, and lengths that nobody typed were written down.
#[track_caller]
fn only_lengths_differ(name: &str, job: &Job, arranged: &Job) {
    let mut back = arranged.clone();
    for joint in &job.joints {
        back.joints.get_mut(joint.id).unwrap().at = joint.at;
    }
    for run in &job.runs {
        let written = back.runs.get_mut(run.id).unwrap();
        if run.length.is_none() && written.length.is_some() {
            assert_eq!(written.length, Some(job.true_length(run)), "{name}: {}", run.id);
            written.length = None;
        }
        let way = |job: &Job| Some(job.joints.get(run.to)?.at - job.joints.get(run.from)?.at);
        let (Some(was), Some(now)) = (way(job), way(arranged)) else {
            continue;
        };
        assert!(was.is_parallel_to(now), "{name}: {} went {was:?}, goes {now:?}", run.id);
        assert_eq!(was.is_zero(), now.is_zero(), "{name}: {}", run.id);
        assert!(was.is_zero() || was.dot(now) > 0, "{name}: {} turned round", run.id);
    }
    // In words: a figure that is no number equals nothing.
    assert_eq!(format!("{back:?}"), format!("{job:?}"), "{name}");
}

#[test]
fn directions_stay_and_only_drawn_lengths_differ() {
    for name in EXAMPLES.into_iter().chain(JOBS) {
        let job = job(name);
        only_lengths_differ(name, &job, &arrange(&job).job);
    }
    for (seed, job) in by_chance() {
        only_lengths_differ(&format!("seed {seed}"), &job, &arrange(&job).job);
    }
}

#[test]
fn equal_jobs_are_arranged_equally_and_any_job_is() {
    for seed in 0..400 {
        let job = wild_job(seed, 1 + (seed as usize) % 40);
        let arranged = arrange(&job);
        let again = arrange(&job.clone());
        assert_eq!(format!("{arranged:?}"), format!("{again:?}"), "seed {seed}");
        only_lengths_differ(&format!("wild {seed}"), &job, &arranged.job);
    }
    assert_eq!(arrange(&Job::default()).job, Job::default());
}

fn touching(meetings: &[Meeting]) -> Vec<&Meeting> {
    meetings.iter().filter(|meeting| !meeting.is_crossing).collect()
}

#[test]
fn examples_and_large_jobs_come_clean() {
    for name in EXAMPLES.into_iter().chain(JOBS) {
        let arranged = arrange(&job(name)).job;
        let pipes = paper::pipes(&arranged, STEP_MM, 8.0);
        assert!(touching(&pipes).is_empty(), "{name}: {pipes:#?}");
        // The pool heater's line of the large house passes over its own buried pipe; in the kitchen a riser in the wall passes
        // behind the ceiling line that it feeds, which stays above all else.
        let crossings = usize::from(["house-64-runs", "kitchen-crossing-runs"].contains(&name));
        assert!(pipes.len() <= crossings, "{name}: {pipes:#?}");
        let covered = paper::covered(&arranged, STEP_MM, 7.0);
        assert!(covered.is_empty(), "{name}: {covered:#?}");
    }
}

/// What an isometric of a building is read for first. A job that no arranging helps stays as a person drew it.
#[test]
fn what_is_higher_is_drawn_higher() {
    let mut arranged_jobs = 0;
    let named = EXAMPLES
        .into_iter()
        .chain(JOBS)
        .map(|name| (name.to_owned(), job(name)));
    let by_chance = by_chance().map(|(seed, job)| (format!("seed {seed}"), job));
    for (name, job) in named.chain(by_chance) {
        let arranged = arrange(&job).job;
        if arranged != job {
            arranged_jobs += 1;
            let found = paper::upside_down(&arranged);
            assert!(found.is_empty(), "{name}: {found:#?}");
        }
    }
    assert!(arranged_jobs > 190, "{arranged_jobs}");
}

/// Twelve outlets in a row, and eleven on four storeys, fit a Letter sheet at the size for which lengths are arranged: 279 by
/// 216 mm less margins of 10 mm and a title block; the large house, whose heights keep their order, an ANSI B sheet.
#[test]
fn arranged_jobs_are_compact() {
    for (name, width, height) in [
        ("restaurant-row-12", 245.0, 160.0),
        ("townhouse-three-storeys", 180.0, 200.0),
        ("house-64-runs", 180.0, 250.0),
        ("everyday-tubing-tee", 120.0, 110.0),
    ] {
        let size = paper::size(&arrange(&job(name)).job, STEP_MM);
        assert!(size.0 <= width && size.1 <= height, "{name}: {size:?}");
    }
}

#[test]
fn of_two_hundred_jobs_by_chance_nothing_touches_and_none_gets_a_crossing() {
    let (mut before, mut after) = ([0; 2], [0; 2]);
    for (seed, job) in by_chance() {
        let arranged = arrange(&job).job;
        let (drawn, now) = (paper::pipes(&job, 12.0, 2.0), paper::pipes(&arranged, STEP_MM, 2.0));
        assert!(now.len() <= drawn.len(), "seed {seed}: {drawn:#?} {now:#?}");
        let touch = usize::from(STILL_TOUCH.contains(&seed));
        assert!(touching(&now).len() <= touch, "seed {seed}: {now:#?}");
        for (sum, job) in [(&mut before, &job), (&mut after, &arranged)] {
            let found = paper::pipes(job, STEP_MM, 8.0);
            let near = touching(&found).len();
            sum[0] += near;
            sum[1] += found.len() - near;
        }
    }
    // Measured: 3,952 too near and 813 crossings before, 218 and 235 after; 40 and 170 while arranging might draw what is higher
    // below what is lower, which it may no more.
    println!("{before:?} {after:?}");
    assert!(after[0] * 15 <= before[0], "{before:?}, then {after:?}");
    assert!(after[1] * 3 <= before[1], "{before:?}, then {after:?}");
}

/// How arranged jobs read, before and after: `cargo test --test study figures -- --ignored --nocapture`.
#[test]
#[ignore = "prints figures for the eye"]
fn figures_of_arranged_jobs() {
    let figures = |name: &str, jobs: &[Job]| {
        for (when, arranges) in [("drawn", false), ("arranged", true)] {
            let (mut proportion, mut near, mut crossing, mut in_line, mut size) = ([0; 4], 0, 0, 0, 0.0);
            for job in jobs {
                let job = if arranges { &arrange(job).job } else { job };
                let pipes = paper::pipes(job, STEP_MM, 8.0);
                near += touching(&pipes).len();
                crossing += pipes.len() - touching(&pipes).len();
                in_line += paper::in_line(job, STEP_MM, 15.0).len();
                let (width, height) = paper::size(job, STEP_MM);
                size += width + height;
                for (sum, count) in proportion.iter_mut().zip(paper::proportion(job)) {
                    *sum += count;
                }
            }
            println!(
                "{name:26} {when:8} near {near:4} crossing {crossing:3} in line {in_line:3} size {size:6.0} {proportion:?}"
            );
        }
    };
    let folder = std::env::var("JOBS").ok().and_then(|folder| fs::read_dir(folder).ok());
    let paths = folder.into_iter().flatten().flatten().map(|entry| entry.path());
    let mut more: Vec<_> = paths
        .filter(|path| path.extension().is_some_and(|it| it == "ron"))
        .collect();
    more.sort();
    for path in more {
        let job = file::read(&fs::read_to_string(&path).unwrap()).unwrap();
        figures(path.file_stem().unwrap().to_str().unwrap(), &[job]);
    }
    for name in EXAMPLES.into_iter().chain(JOBS) {
        figures(name, &[job(name)]);
    }
    let all: Vec<Job> = by_chance().map(|(_, job)| job).collect();
    figures("by chance", &all);
}

#[test]
fn a_loop_stays_closed_and_opens_up() {
    let at = |number: u32, east, north, up| Joint {
        id: JointId(number),
        at: LatticePoint::new(east, north, up),
        ..Joint::default()
    };
    let mut job = Job::default();
    job.joints.extend([
        at(1, 0, 0, 0),
        at(2, 20, 0, 0),
        at(3, 20, 1, 0),
        at(4, 0, 1, 0),
        at(5, 60, 0, 0),
        at(6, 60, 0, 1),
    ]);
    for (number, (from, to)) in (1..).zip([(1, 2), (2, 3), (3, 4), (4, 1), (2, 5), (5, 6)]) {
        job.runs.insert(Run {
            id: RunId(number),
            from: JointId::new(from),
            to: JointId::new(to),
            length: Some(Length::from_feet(3.0)),
            ..Run::default()
        });
    }
    let arranged = arrange(&job).job;
    only_lengths_differ("ring", &job, &arranged);
    assert_ne!(arranged, job);
    assert!(paper::pipes(&arranged, STEP_MM, 8.0).is_empty());
}

/// Work is counted, so that a job of any size ends: here only that it does, and that the result is whole.
#[test]
fn a_large_job_ends() {
    let job = street(1000);
    only_lengths_differ("street", &job, &arrange(&job).job);
}
