//! What makes a file wrong as a whole, though each part reads well: ids given twice, joints that are not there, figures
//! out of bounds.

use std::collections::HashSet;

use super::error::FileError;
use super::outline::{Step, find};
use super::v1::{Job, Joint, Run};
use crate::job::{Extra, WordsAt};

/// The farthest step of the lattice from its origin.
pub const FARTHEST: i32 = 1_000_000;
/// The largest id.
pub const LARGEST_ID: u32 = 1_000_000_000;
/// The largest specific gravity that is read; butane's is 2.0 (from memory).
const HEAVIEST: f64 = 5.0;

/// Something wrong, and the steps to it.
pub struct Fault {
    /// To the value that is wrong.
    pub steps: Vec<Step>,
    /// What is wrong.
    pub problem: String,
    /// What to do.
    pub remedy: &'static str,
}

impl Fault {
    /// The error with its place in the text that the file was read from.
    pub fn error(self, text: &str) -> FileError {
        FileError::at(text, find(text, &self.steps), self.problem, self.remedy)
    }
}

/// The first fault of a file, if there is one.
pub fn fault(file: &Job) -> Option<Fault> {
    let mut joints = HashSet::new();
    let mut runs = HashSet::new();
    gas_fault(file)
        .or_else(|| {
            let mut all = file.joints.0.iter().enumerate();
            all.find_map(|(index, joint)| joint_fault(index, joint, &mut joints))
        })
        .or_else(|| {
            let mut all = file.runs.0.iter().enumerate();
            all.find_map(|(index, run)| run_fault(index, run, &joints, &mut runs))
        })
        .or_else(|| {
            let mut all = file.notes.0.iter().enumerate();
            all.find_map(|(index, note)| {
                let at = |key| vec![Step::Key("notes"), Step::Item(index), Step::Key(key)];
                missing_joint(note.at, &joints, &at("at")).or_else(|| words_fault(note.words_at, &at("words_at")))
            })
        })
        .or_else(|| by_hand_fault(file))
}

/// A quantity that is none, or a step of which something is said twice.
fn by_hand_fault(file: &Job) -> Option<Fault> {
    let at = |list, index, key| vec![Step::Key(list), Step::Item(index), Step::Key(key)];
    let sound = |quantity: f64| (0.0..=Extra::MOST).contains(&quantity);
    if let Some(index) = file.extra.0.iter().position(|extra| !sound(extra.quantity)) {
        return Some(Fault {
            steps: at("extra", index, "quantity"),
            problem: "this is not a quantity".to_owned(),
            remedy: "write a number from 0 to 1,000,000,000, without commas in it",
        });
    }
    let mut steps = HashSet::new();
    let twice = file
        .work_steps
        .0
        .iter()
        .position(|own| !steps.insert(own.step.as_str()))?;
    Some(Fault {
        steps: at("work_steps", twice, "step"),
        problem: format!("the step {} has an entry already", file.work_steps.0[twice].step),
        remedy: "put both into one entry",
    })
}

fn gas_fault(file: &Job) -> Option<Fault> {
    let gravity = file.gas.specific_gravity?;
    let sound = gravity > 0.0 && gravity <= HEAVIEST;
    (!sound).then(|| Fault {
        steps: vec![Step::Key("gas"), Step::Key("specific_gravity")],
        problem: "this is not the specific gravity of a fuel gas".to_owned(),
        remedy: "write a number such as 0.60 for natural gas or 1.50 for propane, or leave the key out",
    })
}

fn joint_fault(index: usize, joint: &Joint, ids: &mut HashSet<u32>) -> Option<Fault> {
    let at = |key| vec![Step::Key("joints"), Step::Item(index), Step::Key(key)];
    let (east, north, up) = joint.at;
    if let Some(axis) = [east, north, up]
        .iter()
        .position(|step| step.unsigned_abs() > FARTHEST.unsigned_abs())
    {
        let mut steps = at("at");
        steps.push(Step::Item(axis));
        return Some(Fault {
            steps,
            problem: "this place is out of bounds".to_owned(),
            remedy: "write steps between -1,000,000 and 1,000,000, without commas in them",
        });
    }
    for (key, given) in [
        ("state", joint.state.is_some()),
        ("size", joint.size.is_some()),
        ("salvaged", joint.salvaged),
        ("take_out", joint.take_out.is_some()),
    ] {
        if given && joint.device.is_none() {
            return Some(Fault {
                steps: at(key),
                problem: format!("the {key} is that of a device, and joint {} has none", joint.id),
                remedy: "give the joint a device, or leave the key out",
            });
        }
    }
    words_fault(joint.words_at, &at("words_at")).or_else(|| id_fault("joint", joint.id, ids, at("id")))
}

fn run_fault(index: usize, run: &Run, joints: &HashSet<u32>, ids: &mut HashSet<u32>) -> Option<Fault> {
    let at = |key| vec![Step::Key("runs"), Step::Item(index), Step::Key(key)];
    id_fault("run", run.id, ids, at("id"))
        .or_else(|| missing_joint(run.from, joints, &at("from")))
        .or_else(|| missing_joint(run.to, joints, &at("to")))
        .or_else(|| {
            (run.from == run.to).then(|| Fault {
                steps: at("to"),
                problem: format!("run {} goes from joint {} to the same joint", run.id, run.from),
                remedy: "name two joints",
            })
        })
        .or_else(|| words_fault(run.words_at, &at("words_at")))
        .or_else(|| {
            let mut all = run.penetrations.0.iter().enumerate();
            all.find_map(|(index, passage)| {
                let mut steps = at("penetrations");
                steps.extend([Step::Item(index), Step::Key("words_at")]);
                words_fault(passage.words_at, &steps)
            })
        })
}

/// Words that are put farther than words can be.
fn words_fault(words_at: Option<(f64, f64)>, steps: &[Step]) -> Option<Fault> {
    let (right, down) = words_at?;
    let bounds = -WordsAt::FARTHEST_MM..=WordsAt::FARTHEST_MM;
    // What is no number is within no bounds.
    let far = [right, down].iter().position(|mm| !bounds.contains(mm))?;
    let mut steps = steps.to_vec();
    steps.push(Step::Item(far));
    Some(Fault {
        steps,
        problem: "words cannot be put as far as this".to_owned(),
        remedy: "write millimeters of paper to the right and down, each between -2000 and 2000, or leave the key out",
    })
}

fn id_fault(what: &str, id: u32, ids: &mut HashSet<u32>, steps: Vec<Step>) -> Option<Fault> {
    if id > LARGEST_ID {
        return Some(Fault {
            steps,
            problem: format!("the id {id} is too large"),
            remedy: "number them 1, 2, 3 and so on",
        });
    }
    (!ids.insert(id)).then(|| Fault {
        steps,
        problem: format!("there is another {what} {id} before this one"),
        remedy: "give each its own id",
    })
}

fn missing_joint(id: u32, joints: &HashSet<u32>, steps: &[Step]) -> Option<Fault> {
    (!joints.contains(&id)).then(|| Fault {
        steps: steps.to_vec(),
        problem: format!("there is no joint {id}"),
        remedy: "name a joint that is in `joints`",
    })
}
