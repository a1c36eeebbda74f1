//! The isometric drawing of whole jobs.

#[path = "support/belonging.rs"]
mod belonging;
#[path = "support/clear_labels.rs"]
mod clear_labels;
#[path = "drawing/demo.rs"]
mod demo;
#[path = "support/dice.rs"]
mod dice;
#[path = "support/draft.rs"]
mod draft;
#[path = "support/golden.rs"]
mod golden;
#[path = "drawing/looks.rs"]
mod looks;
#[path = "support/random_job.rs"]
mod random_job;
#[path = "support/readable.rs"]
mod readable;
#[path = "drawing/reading.rs"]
mod reading;
#[path = "drawing/small.rs"]
mod small;
#[path = "drawing/stays.rs"]
mod stays;

use clear_labels::{labels_are_clear, overlaps, overlaps_of_others};
use rayon::prelude::*;
use stubout::codebook::Codebook;
use stubout::drawing::tags::{self, Subject};
use stubout::drawing::{Crowding, Isometric, Options, Projection, Scale, isometric};
use stubout::export::png;
use stubout::job::{Job, JointId, RunId, WordsAt};
use stubout::scene::{
    Anchor, Face, Group, Item, Outline, PathItem, Pen, Point, Rect, Role, Scene, Stroke, TextItem, Vector,
};
use stubout::study::Study;

const WIDTH: f64 = 285.0;
const HEIGHT: f64 = 215.0;

fn drawn(job: &Job) -> Isometric {
    let area = Rect::new(Point::new(5.0, 5.0), Point::new(WIDTH - 5.0, HEIGHT - 5.0));
    isometric(job, &Study::of(job, Codebook::published()), area, Options::default())
}

fn sheet(group: Group) -> Scene {
    let mut scene = Scene::new(WIDTH, HEIGHT, "test");
    scene.push(group);
    scene
}

fn line(ax: f64, ay: f64, bx: f64, by: f64) -> PathItem {
    PathItem::stroked(
        Outline::line(Point::new(ax, ay), Point::new(bx, by)),
        Stroke::new(Pen::Heavy),
    )
}

/// The judge itself must see what touches, or its silence means nothing.
#[test]
fn the_judge_of_overlaps_sees_them() {
    let words = || TextItem::new("3/4", 2.5, Face::Regular).at(Point::new(50.0, 50.0), Anchor::Start);
    let label = |key| Group::tagged(Role::Label, key).with(words());
    let with = |other: Group| overlaps(&sheet(Group::new().with(label(1)).with(other)));
    assert!(with(Group::new()).is_empty());
    assert!(!with(label(2)).is_empty(), "two labels");
    for role in [Role::Line, Role::Symbol, Role::Plane, Role::Leader] {
        assert!(
            !with(Group::tagged(role, 7).with(line(40.0, 49.0, 70.0, 49.0))).is_empty(),
            "{role:?}"
        );
        assert!(
            with(Group::tagged(role, 7).with(line(40.0, 51.0, 70.0, 51.0))).is_empty(),
            "{role:?}"
        );
    }
    let leader = Group::tagged(Role::Leader, 3).with(line(10.0, 10.0, 30.0, 30.0));
    let symbol = Group::tagged(Role::Symbol, 4).with(line(10.0, 30.0, 30.0, 10.0));
    assert!(
        !with(Group::new().with(leader).with(symbol)).is_empty(),
        "leader over a symbol"
    );
}

/// Jobs of 3 to 300 runs, on all cores.
#[test]
fn words_touch_nothing_in_five_hundred_random_jobs() {
    (0..500u64).into_par_iter().for_each(|seed| {
        let runs = 3 + (seed as usize * 37) % 298;
        let drawn = drawn(&random_job::random_job(seed, runs));
        let found = overlaps(&sheet(drawn.group));
        assert!(
            found.is_empty(),
            "seed {seed}, {runs} runs: {:#?}",
            &found[..found.len().min(5)]
        );
    });
}

/// Every fifth run, joint, passage and note has its words put somewhere.
fn with_words_put(mut job: Job, dice: &mut dice::Dice) -> Job {
    let mut somewhere = |at: &mut Option<WordsAt>| {
        if dice.percent(20) {
            let mm = |dice: &mut dice::Dice| f64::from(dice.between(-60, 60)) / 2.0;
            *at = Some(WordsAt::from_mm(mm(dice), mm(dice)));
        }
    };
    let joints: Vec<JointId> = job.joints.iter().map(|joint| joint.id).collect();
    for id in joints {
        somewhere(&mut job.joints.get_mut(id).unwrap().words_at);
    }
    let runs: Vec<RunId> = job.runs.iter().map(|run| run.id).collect();
    for id in runs {
        let run = job.runs.get_mut(id).unwrap();
        somewhere(&mut run.words_at);
        run.penetrations
            .iter_mut()
            .for_each(|passage| somewhere(&mut passage.words_at));
    }
    job.notes.iter_mut().for_each(|note| somewhere(&mut note.words_at));
    job
}

fn words_at(job: &Job, subject: Subject) -> Option<WordsAt> {
    match subject {
        Subject::Run(position) => job.runs.at(position).words_at,
        Subject::Joint(position) => job.joints.at(position).words_at,
        Subject::Note(position) => job.notes[position].words_at,
        Subject::Passage(position) => {
            let (run, passage) = tags::passage(job, position).unwrap();
            job.runs.at(run).penetrations[passage].words_at
        }
        Subject::Section(_) | Subject::Level(_) | Subject::Change(_) | Subject::Sheet => None,
    }
}

/// Words that a person put somewhere stand there at every scale, are never a number, and others keep clear of them.
#[test]
fn words_stand_where_a_person_put_them() {
    let mut seen = 0;
    for seed in 0..60u64 {
        let mut dice = dice::Dice::new(seed);
        let job = with_words_put(random_job::random_job(seed, 3 + seed as usize * 2), &mut dice);
        let study = Study::of(&job, Codebook::published());
        let area = Rect::new(Point::new(5.0, 5.0), Point::new(WIDTH - 5.0, HEIGHT - 5.0));
        let fixed = Projection {
            origin: Point::new(20.0, 150.0),
            step: 7.0,
        };
        for scale in [Scale::Fit, Scale::Fixed(fixed)] {
            let options = Options {
                scale,
                ..Options::default()
            };
            let drawn = isometric(&job, &study, area, options);
            let mut put = Vec::new();
            for lettered in &drawn.lettered {
                let Some(at) = words_at(&job, lettered.subject) else {
                    continue;
                };
                put.push(lettered.subject.key());
                let wanted = lettered.anchor + Vector::new(at.right_mm(), at.down_mm());
                let off = lettered.room.center().distance(wanted);
                let is_held_in = scale == Scale::Fit && !area.grown(-0.1).encloses(lettered.room);
                assert!(off < 1e-6 || is_held_in, "{seed} {:?}: {off} mm off", lettered.subject);
                assert!(scale != Scale::Fit || area.grown(1e-6).encloses(lettered.room));
                seen += 1;
            }
            for numbered in &drawn.numbered {
                assert_eq!(
                    words_at(&job, numbered.subject),
                    None,
                    "{:?} is a number",
                    numbered.subject
                );
            }
            let mut scene = Scene::new(2000.0, 2000.0, "put");
            scene.push(drawn.group);
            let found = overlaps_of_others(&scene, &put);
            assert!(
                found.is_empty(),
                "seed {seed} {scale:?}: {:#?}",
                &found[..found.len().min(5)]
            );
        }
    }
    assert!(seen > 300, "{seen}");
}

/// A label away from its subject is led to it; one beside it is not.
#[test]
fn words_put_far_away_have_a_leader() {
    let mut job = demo::patio();
    let run = job.runs.at(2).id;
    for (mm, leaders) in [(2.5, 0), (25.0, 1)] {
        job.runs.get_mut(run).unwrap().words_at = Some(WordsAt::from_mm(mm, -mm));
        let key = Subject::Run(job.runs.position(run).unwrap()).key();
        let mut found = 0;
        sheet(drawn(&job).group).walk(|_, item| {
            if let Item::Group(group) = item {
                found += usize::from(group.tag.is_some_and(|tag| tag.role == Role::Leader && tag.key == key));
            }
        });
        assert_eq!(found, leaders, "{mm} mm away");
    }
}

#[test]
fn the_same_job_is_drawn_the_same() {
    for seed in [3, 71] {
        let job = random_job::random_job(seed, 120);
        assert_eq!(drawn(&job), drawn(&job));
    }
}

#[test]
fn hand_made_jobs_are_clear() {
    assert_eq!(drawn(&demo::patio()).crowding, Crowding::Fits);
    for job in [demo::patio(), demo::zoo()] {
        let drawn = drawn(&job);
        labels_are_clear(&sheet(drawn.group));
    }
}

/// Pictures to be looked at: `LOOK=/tmp/look cargo test --test drawing -- --ignored look`.
#[test]
#[ignore = "draws pictures for the eye"]
fn look() {
    let folder = std::env::var("LOOK").unwrap_or("/tmp/look".to_owned());
    std::fs::create_dir_all(&folder).unwrap();
    let mut jobs = vec![("patio", demo::patio()), ("zoo", demo::zoo())];
    let put = with_words_put(demo::patio(), &mut dice::Dice::new(7));
    jobs.push(("put", put));
    jobs.push(("put-zoo", with_words_put(demo::zoo(), &mut dice::Dice::new(8))));
    for (runs, seed) in [(8, 427), (20, 81), (34, 25), (40, 1)] {
        jobs.push(("random", random_job::random_job(seed, runs)));
    }
    for (number, (name, job)) in jobs.into_iter().enumerate() {
        let drawn = drawn(&job);
        eprintln!(
            "{name} {} numbered {:?} step {:.2}",
            drawn.numbered.len(),
            drawn.crowding,
            drawn.projection.step
        );
        let file = png::write(&sheet(drawn.group), 180.0).unwrap();
        std::fs::write(format!("{folder}/{number}-{name}.png"), file).unwrap();
    }
    let mut legend = Scene::new(150.0, 150.0, "legend");
    for (number, symbol) in stubout::drawing::Symbol::ALL.into_iter().enumerate() {
        let at = Point::new(5.0 + 72.0 * (number % 2) as f64, 8.0 + 8.0 * (number / 2) as f64);
        legend.push(stubout::drawing::legend_sample(symbol, at));
    }
    std::fs::write(format!("{folder}/legend.png"), png::write(&legend, 180.0).unwrap()).unwrap();
}

/// What was edited by chance since the issue.
fn edited(issued: &Job, dice: &mut dice::Dice) -> Job {
    let mut job = issued.clone();
    for _ in 0..=dice.below(6) {
        let run = job.runs.at(dice.below(job.runs.len())).id;
        if dice.percent(30) && job.runs.len() > 2 {
            job.runs.remove(run);
        } else if let Some(run) = job.runs.get_mut(run) {
            run.length = Some(stubout::units::Length::from_feet(77.0));
        }
        let joint = job.joints.at(dice.below(job.joints.len())).id;
        if dice.percent(40)
            && let Some(joint) = job.joints.get_mut(joint)
        {
            joint.label = Some("changed".to_owned());
        }
    }
    job
}

/// Where the lines of clouds run, and their marks.
fn cloud_lines(group: &Group) -> (Vec<PathItem>, usize) {
    let mut scene = Scene::new(WIDTH, HEIGHT, "clouds");
    scene.push(group.clone());
    let (mut lines, mut marks) = (Vec::new(), 0);
    scene.walk(|_, item| {
        if let Item::Group(group) = item {
            let label = group.label.as_deref().unwrap_or_default();
            if label.starts_with("cloud ")
                && let Some(Item::Path(path)) = group.items().first()
            {
                lines.push(path.clone());
            }
            marks += usize::from(label.starts_with("mark of cloud "));
        }
    });
    (lines, marks)
}

#[test]
fn every_change_is_in_a_cloud_of_which_words_keep_clear() {
    let crossed = (0..120u64).into_par_iter().map(|seed| {
        let mut dice = dice::Dice::new(seed);
        let issued = random_job::random_job(seed, 3 + (seed as usize * 7) % 50);
        let job = edited(&issued, &mut dice);
        let study = Study::of(&job, Codebook::published());
        let changes = stubout::changes::Changes::since(&issued, &job, &study, Codebook::published());
        let area = Rect::new(Point::new(5.0, 5.0), Point::new(WIDTH - 5.0, HEIGHT - 5.0));
        let options = Options {
            since: Some(&changes),
            ..Options::default()
        };
        let drawn = isometric(&job, &study, area, options);
        let (lines, marks) = cloud_lines(&drawn.group);
        assert_eq!(drawn.clouded.len(), changes.list.len());
        for (change, clouds) in changes.list.iter().zip(&drawn.clouded) {
            assert_eq!(change.spots.is_empty(), clouds.is_empty(), "{change:?}");
            for (spot, cloud) in change.spots.iter().zip(clouds.iter().cycle()) {
                let at: Vec<Point> = spot.places().map(|at| drawn.projection.point(at)).collect();
                let inside = lines.iter().any(|line| at.iter().all(|at| line.outline.contains(*at)));
                assert!(inside && *cloud <= lines.len(), "seed {seed}: {change:?}");
            }
        }
        if drawn.crowding != Crowding::Fits {
            return 0;
        }
        assert_eq!(marks, lines.len(), "seed {seed}: a mark for each cloud");
        let found = overlaps(&sheet(drawn.group.clone()));
        assert!(found.is_empty(), "seed {seed}: {:#?}", &found[..found.len().min(5)]);
        let clear = |lettered: &stubout::drawing::Lettered| {
            let room = stubout::scene::Quad(lettered.room.grown(-0.1).corners());
            let mut crossed = false;
            // Only upright words are as large as their room.
            for line in lines.iter().filter(|_| matches!(lettered.subject, Subject::Joint(_))) {
                line.outline
                    .flatten(|piece| crossed |= room.overlaps_segment(piece, 0.1));
            }
            !crossed
        };
        usize::from(!drawn.lettered.iter().all(clear))
    });
    // Only where words would find no place otherwise.
    let crossed: usize = crossed.sum();
    assert!(
        crossed < 9,
        "on {crossed} of 120 drawings words lie over the line of a cloud"
    );
}
