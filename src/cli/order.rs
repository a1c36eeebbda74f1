//! `stubout order`: what is shut, which appliances go out, and the steps of the work in turn.

use super::input::{Studied, print_each};
use super::{CLEAR, Jobs, table};
use crate::job::{Job, JointId};
use crate::study::{Fate, Isolation, OrderOfWork, Place, Study};
use serde_json::{Value, json};

/// The order of work of one job.
struct Ordered {
    order: OrderOfWork,
    study: Study,
    job: Job,
}

/// Prints the order of work of each job.
pub fn run(jobs: &Jobs) -> u8 {
    print_each(
        jobs,
        "order",
        |_, Studied { job, study }| {
            let order = OrderOfWork::of(&job, &study);
            (CLEAR, Ordered { order, study, job })
        },
        machine,
        say,
    )
}

/// A place in few words: "J4", "R2", "section 3".
pub fn place(place: &Place, study: &Study) -> String {
    match place {
        Place::Job => "the job".to_owned(),
        Place::Joint(id) => id.to_string(),
        Place::Run(id) => id.to_string(),
        Place::Section(at) => match study.sections.get(*at) {
            Some(section) => format!("section {}", section.number),
            None => "a section".to_owned(),
        },
    }
}

/// A place for machines.
pub fn place_value(place: &Place) -> Value {
    match place {
        Place::Job => json!({}),
        Place::Joint(id) => json!({ "joint": id.0 }),
        Place::Run(id) => json!({ "run": id.0 }),
        Place::Section(at) => json!({ "section_at": at }),
    }
}

fn say(Ordered { order, study, job }: &Ordered) -> String {
    let name = job.title.job.trim();
    let mut text = match name {
        "" => "Order of work\n".to_owned(),
        name => format!("Order of work: {name}\n"),
    };
    if order.steps.is_empty() {
        text += "nothing new and nothing to be removed is drawn\n";
    }
    for (at, step) in order.steps.iter().enumerate() {
        let places: Vec<String> = step.places.iter().map(|it| place(it, study)).collect();
        text += &format!("\n{}. {}\n   {}\n", at + 1, step.heading, step.words);
        if !places.is_empty() {
            text += &format!("   at: {}\n", places.join(" "));
        }
        text += &format!("   basis: {}\n", step.note);
    }
    text += &format!("\n{}\n", table::CAUTION);
    text
}

fn fate(fate: Fate) -> &'static str {
    match fate {
        Fate::Relit => "relight",
        Fate::Removed => "removed",
        Fate::CutOff => "no gas after the work",
    }
}

fn isolation(isolation: Isolation) -> (&'static str, Option<JointId>) {
    match isolation {
        Isolation::Valve(joint) => ("existing valve", Some(joint)),
        Isolation::Supplier(joint) => ("supplier's valve", Some(joint)),
        Isolation::Every(joint) => ("supplier's valve at every source", Some(joint)),
        Isolation::NothingStands => ("nothing stands that carries gas", None),
        Isolation::NotKnown => ("not known", None),
    }
}

fn machine(Ordered { order, .. }: &Ordered) -> Value {
    let (what, joint) = isolation(order.isolation);
    let out = order
        .goes_out
        .iter()
        .map(|out| json!({ "joint": out.joint.0, "name": out.name, "then": fate(out.fate) }));
    let steps = order.steps.iter().map(|step| {
        json!({
            "id": step.id,
            "heading": step.heading,
            "words": step.words,
            "places": step.places.iter().map(place_value).collect::<Vec<_>>(),
            "basis": step.note,
        })
    });
    json!({
        "isolation": { "what": what, "joint": joint.map(|joint| joint.0) },
        "goes_out": out.collect::<Vec<_>>(),
        "steps": steps.collect::<Vec<_>>(),
    })
}
