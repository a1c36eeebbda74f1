//! What makes a file wrong as a whole, though each part reads well: ids given twice, joints that are not there, figures
//! out of bounds.

use std::collections::HashSet;

use super::error::FileError;
use super::outline::{Step, find};
use super::parts::{Listed, Parts};
use super::v1::{Job, Joint, Run, Variant};
use crate::job::bounds::MOST_VARIANTS;
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
    gas_fault(file)
        .or_else(|| variants_fault(file))
        .or_else(|| fault_of_parts(file, parts_fault))
}

/// The first fault that is found in the job's own drawing, or in a variant.
///
/// What is wrong with a part that a variant has in common with the shown one comes of what the variant leaves out.
pub fn fault_of_parts(file: &Job, find: impl Fn(&Parts<'_>) -> Option<Fault>) -> Option<Fault> {
    Parts::all(file).find_map(|parts| {
        let fault = find(&parts)?;
        let Some(at) = parts
            .variant
            .filter(|_| fault.steps.first() != Some(&Step::Key("variants")))
        else {
            return Some(fault);
        };
        Some(Fault {
            steps: vec![Step::Key("variants"), Step::Item(at)],
            problem: format!("{} of this variant: {}", of_job(&fault.steps), fault.problem),
            remedy: "list the part here as this variant has it, or leave it out by `without_joints` or `without_runs`",
        })
    })
}

/// "runs" for a part that is listed there.
fn of_job(steps: &[Step]) -> String {
    let list = steps.iter().find_map(|step| match step {
        Step::Key(list) => Some(*list),
        Step::Item(_) => None,
    });
    format!("`{}`", list.unwrap_or_default())
}

/// Names that are none or are there twice, none that is shown or more than one, and what a variant cannot leave out.
fn variants_fault(file: &Job) -> Option<Fault> {
    let variants = &file.variants.0;
    let at = |index, key| vec![Step::Key("variants"), Step::Item(index), Step::Key(key)];
    if variants.len() > MOST_VARIANTS {
        return Some(Fault {
            steps: vec![Step::Key("variants"), Step::Item(MOST_VARIANTS)],
            problem: format!("there are more than {MOST_VARIANTS} variants"),
            remedy: "take out those that are no longer wanted",
        });
    }
    let mut names = HashSet::new();
    let named = |variant: &Variant| variant.name.trim().to_lowercase();
    let unnamed = variants
        .iter()
        .position(|variant| variant.name.trim().is_empty() || !names.insert(named(variant)));
    if let Some(index) = unnamed {
        return Some(Fault {
            steps: at(index, "name"),
            problem: "a variant needs a name that no other one has".to_owned(),
            remedy: "name the way that the pipe goes: \"Along the fence\"",
        });
    }
    let mut shown = variants.iter().enumerate().filter(|(_, variant)| variant.shown);
    let (first, second) = (shown.next(), shown.next());
    let remedy = "write `shown: true` at the one whose joints and runs are the job's own, with its name alone";
    match (first, second) {
        (None, _) if !variants.is_empty() => {
            return Some(Fault {
                steps: vec![Step::Key("variants")],
                problem: "none of these variants is shown".to_owned(),
                remedy,
            });
        }
        (_, Some((index, _))) => {
            return Some(Fault {
                steps: at(index, "shown"),
                problem: "another variant before this one is shown".to_owned(),
                remedy,
            });
        }
        (Some((index, variant)), None) => {
            let bare = Variant {
                name: variant.name.clone(),
                shown: true,
                ..Variant::default()
            };
            if *variant != bare {
                return Some(Fault {
                    steps: vec![Step::Key("variants"), Step::Item(index)],
                    problem: "the variant that is shown has parts of its own here".to_owned(),
                    remedy,
                });
            }
        }
        (None, None) => {}
    }
    let joints: HashSet<u32> = file.joints.0.iter().map(|joint| joint.id).collect();
    let runs: HashSet<u32> = file.runs.0.iter().map(|run| run.id).collect();
    variants.iter().enumerate().find_map(|(index, variant)| {
        let strange = |key, without: &[u32], known: &HashSet<u32>| {
            let item = without.iter().position(|id| !known.contains(id))?;
            let mut steps = at(index, key);
            steps.push(Step::Item(item));
            Some(Fault {
                steps,
                problem: format!("{} is not in the job", without[item]),
                remedy: "name the numbers of what the job has and this variant has not",
            })
        };
        strange("without_joints", &variant.without_joints.0, &joints)
            .or_else(|| strange("without_runs", &variant.without_runs.0, &runs))
    })
}

/// The first fault among the parts of one drawing.
fn parts_fault(parts: &Parts<'_>) -> Option<Fault> {
    let mut joints = HashSet::new();
    let mut runs = HashSet::new();
    (parts.joints.iter())
        .find_map(|(at, joint)| joint_fault(*at, joint, &mut joints))
        .or_else(|| {
            let mut all = parts.runs.iter();
            all.find_map(|(at, run)| run_fault(*at, run, &joints, &mut runs))
        })
        .or_else(|| {
            parts.notes.iter().find_map(|(at, note)| {
                missing_joint(note.at, &joints, &at.key("at"))
                    .or_else(|| words_fault(note.words_at, &at.key("words_at")))
            })
        })
        .or_else(|| by_hand_fault(parts))
}

/// A quantity that is none, or a step of which something is said twice.
fn by_hand_fault(parts: &Parts<'_>) -> Option<Fault> {
    let sound = |quantity: f64| (0.0..=Extra::MOST).contains(&quantity);
    if let Some((at, _)) = parts.extra.iter().find(|(_, extra)| !sound(extra.quantity)) {
        return Some(Fault {
            steps: at.key("quantity"),
            problem: "this is not a quantity".to_owned(),
            remedy: "write a number from 0 to 1,000,000,000, without commas in it",
        });
    }
    let mut steps = HashSet::new();
    let (at, twice) = parts
        .work_steps
        .iter()
        .find(|(_, own)| !steps.insert(own.step.as_str()))?;
    Some(Fault {
        steps: at.key("step"),
        problem: format!("the step {} has an entry already", twice.step),
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

fn joint_fault(listed: Listed, joint: &Joint, ids: &mut HashSet<u32>) -> Option<Fault> {
    let at = |key| listed.key(key);
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

fn run_fault(listed: Listed, run: &Run, joints: &HashSet<u32>, ids: &mut HashSet<u32>) -> Option<Fault> {
    let at = |key| listed.key(key);
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
