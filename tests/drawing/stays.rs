//! Whether labels stay where they are while something is edited elsewhere, and come back when it is undone.

use crate::dice::Dice;
use crate::random_job::random_job;
use rayon::prelude::*;
use std::collections::HashMap;
use stubout::codebook::Codebook;
use stubout::drawing::tags::Subject;
use stubout::drawing::{Isometric, Options, Projection, Scale, isometric};
use stubout::editor::edit::{Cut, Gap, Lay, Pen, RunField, Stretch, Typed, delete, lay, set_runs, shift, split};
use stubout::editor::{CommandId, Editor, Part, Selection, Spot};
use stubout::job::*;
use stubout::scene::{Group, Item, Point, Rect, Role, Segment, Tag};
use stubout::study::Study;
use stubout::units::Length;

/// Where the lattice lies on the paper, as on the canvas.
const VIEW: Projection = Projection {
    origin: Point::new(0.0, 0.0),
    step: 5.0,
};
/// Labels farther than this from what changed are to stay, mm.
const FAR: f64 = 60.0;

fn drawn(job: &Job) -> Isometric {
    let area = Rect::new(Point::new(-90.0, -60.0), Point::new(90.0, 60.0));
    let options = Options {
        scale: Scale::Fixed(VIEW),
        ..Options::default()
    };
    isometric(job, &Study::of(job, Codebook::published()), area, options)
}

/// What a label speaks of, by what no edit elsewhere changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Of {
    Run(RunId),
    Joint(JointId),
    Level(JointId),
    Other(Subject),
}

/// Where each label stands, from where it is counted, and what it says.
fn labels(job: &Job, picture: &Isometric) -> HashMap<Of, (Rect, Point, String)> {
    let mut words: HashMap<Tag, String> = HashMap::new();
    spoken(&picture.group, &mut words);
    let of = |subject| match subject {
        Subject::Run(at) => Of::Run(job.runs.at(at).id),
        Subject::Joint(at) => Of::Joint(job.joints.at(at).id),
        Subject::Level(at) => Of::Level(job.joints.at(at).id),
        other => Of::Other(other),
    };
    let labels = picture.lettered.iter().map(|label| {
        let tag = Tag {
            role: Role::Label,
            key: label.subject.key(),
        };
        let said = words.get(&tag).cloned().unwrap_or_default();
        (of(label.subject), (label.room, label.anchor, said))
    });
    labels.collect()
}

fn spoken(group: &Group, words: &mut HashMap<Tag, String>) {
    if let (Some(tag), Some(said)) = (group.tag, &group.label) {
        words.insert(tag, said.clone());
    }
    for item in group.items() {
        if let Item::Group(inner) = item {
            spoken(inner, words);
        }
    }
}

/// Where two states of a job differ on paper: at joints and along runs.
fn changed(was: &Job, is: &Job) -> Vec<Segment> {
    let at = |job: &Job, id| job.joints.get(id).map(|joint| VIEW.point(joint.at));
    let mut changed = Vec::new();
    for (one, other) in [(was, is), (is, was)] {
        for joint in one
            .joints
            .iter()
            .filter(|joint| other.joints.get(joint.id) != Some(joint))
        {
            let place = VIEW.point(joint.at);
            changed.push(Segment::new(place, place));
        }
        for run in &one.runs {
            let ends = (at(one, run.from), at(one, run.to));
            if (other.runs.get(run.id) != Some(run) || ends != (at(other, run.from), at(other, run.to)))
                && let (Some(a), Some(b)) = ends
            {
                changed.push(Segment::new(a, b));
            }
        }
    }
    changed
}

/// A small edit by chance; many are refused.
fn edit(editor: &mut Editor, dice: &mut Dice) -> bool {
    let job = editor.job().clone();
    if job.runs.is_empty() {
        return false;
    }
    let run = job.runs.at(dice.below(job.runs.len())).clone();
    let joint = job.joints.at(dice.below(job.joints.len())).clone();
    let way = dice.pick(&[(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)]);
    let by = |steps: i32| Direction::new(way.0 * steps, way.1 * steps, way.2 * steps);
    let done = match dice.below(8) {
        0 | 1 => {
            let joints = [joint.id].into();
            editor.edit(|job| shift(job, &joints, by(1), Stretch::Straight, Typed::Kept))
        }
        2 | 3 => {
            let (from, to) = (Spot::at(joint.at), Spot::at(joint.at + by(3)));
            let what = Lay {
                from,
                to,
                length: None,
                offset: None,
                pen: Pen::default(),
            };
            editor.edit(|job| lay(job, &what))
        }
        4 => {
            let parts: Selection = [Part::Run(run.id)].into_iter().collect();
            editor.edit(|job| delete(job, &parts, Gap::Keep))
        }
        5 => {
            let ends = [run.from, run.to].map(|id| job.joints.get(id).map(|joint| joint.at));
            let (Some(from), Some(to)) = (ends[0], ends[1]) else {
                return false;
            };
            let middle = LatticePoint::new(
                (from.east + to.east) / 2,
                (from.north + to.north) / 2,
                (from.up + to.up) / 2,
            );
            editor.edit(|job| split(job, Spot::on(run.id, middle), Cut::InProportion))
        }
        _ => {
            let length = RunField::Length(Some(Length::from_inches(f64::from(dice.between(6, 300)))));
            editor.edit(|job| set_runs(job, &[run.id], &length))
        }
    };
    done.is_ok()
}

/// Labels far from an edit, and how many of them stay.
#[derive(Clone, Copy, Debug, Default)]
struct Far {
    all: usize,
    stay: usize,
}

/// Some edits of one job by chance; each is undone again.
fn edited(seed: u64, edits: usize) -> Far {
    let mut dice = Dice::new(seed ^ 0xed17);
    let runs = 8 + (seed as usize * 29) % 90;
    let mut editor = Editor::new(random_job(seed, runs));
    let mut far = Far::default();
    let mut before = drawn(editor.job());
    for _ in 0..edits {
        let was = editor.job().clone();
        if !edit(&mut editor, &mut dice) {
            continue;
        }
        let is = editor.job().clone();
        let after = drawn(&is);
        let (old, new) = (labels(&was, &before), labels(&is, &after));
        let mut touched = changed(&was, &is);
        // Words that are others, or are no longer there, are a change where they stand.
        for (of, (_, anchor, said)) in &old {
            if new.get(of).is_none_or(|(.., now)| now != said) {
                touched.push(Segment::new(*anchor, *anchor));
            }
        }
        touched.extend(
            new.iter()
                .filter(|(of, _)| !old.contains_key(of))
                .map(|(_, (_, at, _))| Segment::new(*at, *at)),
        );
        for (of, (room, _, said)) in &old {
            let corners = room.corners();
            let edges = [0, 1, 2, 3].map(|at| Segment::new(corners[at], corners[(at + 1) % 4]));
            let is_far = |change: &Segment| edges.iter().all(|edge| edge.gap(*change) > FAR);
            if !touched.iter().all(is_far) {
                continue;
            }
            far.all += 1;
            far.stay += usize::from(new.get(of).is_some_and(|(now, _, words)| now == room && words == said));
        }
        editor.run(CommandId::Undo);
        assert_eq!(*editor.job(), was, "seed {seed}");
        assert_eq!(
            drawn(editor.job()),
            before,
            "seed {seed}: what is undone is drawn as before"
        );
        // On with the edit.
        editor.run(CommandId::Redo);
        before = after;
    }
    far
}

fn of_all(seeds: std::ops::Range<u64>, edits: usize) -> Far {
    let all = seeds.into_par_iter().map(|seed| edited(seed, edits));
    all.reduce(Far::default, |one, other| Far {
        all: one.all + other.all,
        stay: one.stay + other.stay,
    })
}

#[test]
fn labels_far_from_an_edit_stay_and_what_is_undone_comes_back() {
    let far = of_all(0..16, 8);
    eprintln!("{far:?}");
    assert!(far.all > 1_000, "{far:?}");
    assert!(far.stay as f64 >= 0.99 * far.all as f64, "{far:?}");
}

#[test]
#[ignore = "takes minutes"]
fn so_they_do_over_many_jobs() {
    let far = of_all(0..300, 20);
    eprintln!("{far:?}");
    assert!(far.stay as f64 >= 0.99 * far.all as f64, "{far:?}");
}
