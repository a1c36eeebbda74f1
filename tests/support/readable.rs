//! How well a finished drawing reads: judged by the scene alone, its tags and its geometry, without a thought for how
//! places were found.
//!
//! Used as a module: `#[path = "support/readable.rs"] mod readable;`.
#![allow(dead_code)]

use std::collections::HashSet;
use stubout::drawing::tags::{self, Subject};
use stubout::job::{Job, JointId, Run};
use stubout::scene::{Group, Item, Point, Role, Scene, Segment};

/// What was counted on one or more drawings.
#[derive(Clone, Debug, Default)]
pub struct Reading {
    /// Labels of pipe.
    pub of_pipe: usize,
    /// Those of them that stand as a number, their words in a table.
    pub numbered: usize,
    /// Labels of any kind that do.
    pub points: usize,
    /// Those of them that are away from their pipe, on a leader.
    pub led: usize,
    /// Leaders of all labels.
    pub leaders: usize,
    /// Leaders that cross pipe, each with what it leads from.
    pub crossing: Vec<Subject>,
    /// The longest leader, mm.
    pub longest: f64,
    /// Leaders with a dot that lies on nothing drawn, each with what it leads from and how far off it is, mm.
    pub in_white: Vec<(Subject, f64)>,
}

/// A dot, 0.6 mm in radius, that begins so near to ink is seen on it, mm: a valve is narrower in its middle than at its ends.
const ON_INK: f64 = 1.6;

impl Reading {
    /// The share of labels of pipe that read without a number.
    pub fn share(&self) -> f64 {
        1.0 - self.numbered as f64 / self.of_pipe.max(1) as f64
    }

    /// Both together.
    pub fn with(mut self, other: Reading) -> Reading {
        self.of_pipe += other.of_pipe;
        self.numbered += other.numbered;
        self.points += other.points;
        self.led += other.led;
        self.leaders += other.leaders;
        self.crossing.extend(other.crossing);
        self.in_white.extend(other.in_white);
        self.longest = self.longest.max(other.longest);
        self
    }
}

/// Pieces of every path in a group, and the words in it.
fn ink(group: &Group) -> (Vec<Segment>, Vec<String>) {
    let mut scene = Scene::new(1000.0, 1000.0, "ink");
    scene.push(group.clone());
    let (mut pieces, mut words) = (Vec::new(), Vec::new());
    scene.walk(|_, item| match item {
        Item::Path(path) if path.stroke.is_some() => path.outline.flatten(|piece| pieces.push(piece)),
        Item::Text(text) => words.push(text.words().to_owned()),
        Item::Path(_) | Item::Group(_) => {}
    });
    (pieces, words)
}

/// Reads a drawing of a job.
pub fn read(scene: &Scene, job: &Job) -> Reading {
    let mut reading = Reading::default();
    let mut pipe: Vec<(u32, Segment)> = Vec::new();
    let mut leaders: Vec<(Subject, Vec<Segment>)> = Vec::new();
    let mut led = HashSet::new();
    let mut labels = Vec::new();
    let mut drawn: Vec<(Segment, f64)> = Vec::new();
    scene.walk(|tags, item| {
        if let (Item::Path(path), Some(tag)) = (item, tags.last())
            && !matches!(tag.role, Role::Label | Role::Leader)
        {
            path.outline.flatten(|piece| drawn.push((piece, path.reach())));
        }
        let Item::Group(group) = item else { return };
        let Some(tag) = group.tag else { return };
        match (tag.role, Subject::of(tag)) {
            (Role::Line, _) => pipe.extend(ink(group).0.into_iter().map(|piece| (tag.key, piece))),
            (Role::Leader, Some(subject)) => {
                let (pieces, _) = ink(group);
                led.insert(subject);
                leaders.push((subject, pieces));
            }
            (Role::Label, Some(subject)) => {
                let (pieces, words) = ink(group);
                let is_number = words.len() == 1 && words[0].chars().all(|c| c.is_ascii_digit()) && !pieces.is_empty();
                match subject {
                    Subject::Section(_) | Subject::Sheet | Subject::Change(_) => {}
                    Subject::Run(_)
                    | Subject::Joint(_)
                    | Subject::Note(_)
                    | Subject::Passage(_)
                    | Subject::Level(_) => {
                        reading.points += usize::from(is_number);
                    }
                }
                if matches!(subject, Subject::Run(run) if run < job.runs.len()) {
                    labels.push((subject, is_number));
                }
            }
            _ => {}
        }
    });
    for (subject, is_number) in labels {
        reading.of_pipe += 1;
        reading.numbered += usize::from(is_number);
        reading.led += usize::from(!is_number && led.contains(&subject));
    }
    for (subject, pieces) in leaders {
        reading.leaders += 1;
        let length: f64 = pieces.iter().map(|piece| piece.length()).sum();
        reading.longest = reading.longest.max(length);
        let own = own_pipe(job, subject);
        let foreign = || pipe.iter().filter(|(run, _)| !own.contains(run));
        let Some(start) = pieces.first().map(|piece| piece.a) else {
            continue;
        };
        let off = drawn.iter().map(|(piece, reach)| piece.distance(start) - reach);
        let off = off.fold(f64::INFINITY, f64::min);
        if off > ON_INK && !matches!(subject, Subject::Level(_)) {
            reading.in_white.push((subject, off));
        }
        // A number may begin on any run of its section, and the line of an elevation on any pipe of its height: tubing may
        // swing across both until they are clear of it.
        let free = match subject {
            Subject::Section(_) => 2.5,
            Subject::Level(_) => 3.0,
            Subject::Run(_) | Subject::Joint(_) | Subject::Note(_) | Subject::Passage(_) => 0.0,
            Subject::Change(_) | Subject::Sheet => 0.0,
        };
        let begins = |at: Point| at.distance(start) < free;
        let over = |piece: &Segment, line: &Segment| piece.crossing(*line).is_some_and(|(at, _)| !begins(piece.at(at)));
        let crosses = |piece: &Segment| foreign().any(|(_, line)| over(piece, line));
        if pieces.iter().any(crosses) {
            reading.crossing.push(subject);
        }
    }
    reading
}

/// The ids of the runs that a label speaks of, or that meet where it belongs.
pub fn own_pipe(job: &Job, subject: Subject) -> Vec<u32> {
    let at = |joint: JointId| -> Vec<u32> {
        let meets = move |run: &&Run| run.from == joint || run.to == joint;
        job.runs.iter().filter(meets).map(|run| run.id.0).collect()
    };
    match subject {
        Subject::Run(run) => {
            // Pipe with valves and the like in it may share one label, from one branching or turn of the gas to the next.
            let run = job.runs.at(run);
            let mut own = Vec::new();
            let mut ends = vec![run.from, run.to];
            while let Some(end) = ends.pop() {
                let there: Vec<&Run> = job.runs.iter().filter(|run| run.from == end || run.to == end).collect();
                let is_passed = there.len() == 2;
                for run in there
                    .into_iter()
                    .filter(|run| !own.contains(&run.id.0))
                    .collect::<Vec<_>>()
                {
                    own.push(run.id.0);
                    if is_passed {
                        ends.extend([run.from, run.to].into_iter().filter(|joint| *joint != end));
                    }
                }
            }
            own
        }
        Subject::Joint(joint) => at(job.joints.at(joint).id),
        Subject::Note(note) => at(job.notes[note].at),
        Subject::Passage(passage) => {
            let passage = tags::passage(job, passage);
            passage.map(|(run, _)| job.runs.at(run).id.0).into_iter().collect()
        }
        Subject::Level(joint) => at(job.joints.at(joint).id),
        // It leads to one of its own runs, whichever that is.
        Subject::Section(_) | Subject::Change(_) | Subject::Sheet => Vec::new(),
    }
}
