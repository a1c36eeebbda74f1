//! `stubout steps`: what is shut off, which appliances lose gas, and the steps of the work in turn.

use super::input::{Studied, print_each};
use super::{CLEAR, Jobs, table};
use crate::job::{Job, JointId};
use crate::study::{Place, how_many};
use crate::work::{Fate, Isolation, OrderLine, OrderOfWork, Step};
use serde_json::{Value, json};

/// The order of work of one job.
struct Ordered {
    order: OrderOfWork,
    job: Job,
    /// How many findings must be fixed.
    blocking: usize,
}

/// Prints the order of work of each job.
pub fn run(jobs: &Jobs) -> u8 {
    print_each(
        jobs,
        "steps",
        |book, Studied { job, checked, .. }| {
            let order = OrderOfWork::of(&job, &checked.study, book);
            let blocking = checked.must_fix().count();
            (CLEAR, Ordered { order, job, blocking })
        },
        machine,
        say,
    )
}

/// A place for machines.
pub fn place_value(place: &Place) -> Value {
    match place {
        Place::Job => json!({}),
        Place::Joint(id) => json!({ "joint": id.0 }),
        Place::Run(id) => json!({ "run": id.0 }),
        Place::Section(number) => json!({ "section": number, "section_at": number.saturating_sub(1) }),
    }
}

fn say(Ordered { order, job, blocking }: &Ordered) -> String {
    let name = job.title.job.trim();
    let mut text = match name {
        "" => "Work steps\n".to_owned(),
        name => format!("Work steps: {name}\n"),
    };
    if *blocking > 0 {
        let findings = how_many(*blocking, "must-fix finding");
        text += &format!("NOT READY: {findings}; fix first: see `stubout check`\n");
    }
    if order.steps.is_empty() {
        text += "nothing new and nothing to be removed is drawn\n";
    }
    for (at, line) in order.lines().enumerate() {
        let number = at + 1;
        match line {
            OrderLine::Step(step) => {
                let places: Vec<String> = step.places.iter().map(Place::to_string).collect();
                text += &format!("\n{number}. {}\n   {}\n", step.heading, step.words);
                if !places.is_empty() {
                    text += &format!("   at: {}\n", places.join(" "));
                }
                text += &format!("   basis: {}\n", step.basis());
            }
            OrderLine::Own(words) => text += &format!("\n{number}. {words}\n   added by hand\n"),
        }
    }
    let left_out: Vec<&str> = order
        .steps
        .iter()
        .filter(|step| step.left_out)
        .map(|step| step.heading)
        .collect();
    if !left_out.is_empty() {
        text += &format!("\nLeft out by hand: {}\n", left_out.join(", "));
    }
    for words in order.said_of_no_step() {
        text += &format!("\nNo longer among the work steps: {words}\n");
    }
    text + "\n" + &table::closing()
}

fn fate(fate: Fate) -> &'static str {
    match fate {
        Fate::Relit => "relight",
        Fate::Removed => "removed",
        Fate::CutOff => "no_gas_after",
    }
}

fn isolation(isolation: Isolation) -> (&'static str, Option<JointId>) {
    match isolation {
        Isolation::Valve(joint) => ("existing_valve", Some(joint)),
        Isolation::Supplier(joint) => ("supplier_valve", Some(joint)),
        Isolation::Every(joint) => ("supplier_valve_at_every_source", Some(joint)),
        Isolation::NothingStands => ("nothing_carries_gas", None),
        Isolation::NotKnown => ("not_known", None),
    }
}

fn machine(Ordered { order, .. }: &Ordered) -> Value {
    let (what, joint) = isolation(order.isolation);
    let out = order
        .goes_out
        .iter()
        .map(|out| json!({ "joint": out.joint.0, "name": out.name, "then": fate(out.fate) }));
    let shown = order.steps.iter().filter(|step| !step.left_out);
    let steps = shown.map(|step: &Step| {
        json!({
            "id": step.id,
            "heading": step.heading,
            "words": step.words,
            "places": step.places.iter().map(place_value).collect::<Vec<_>>(),
            "basis": step.basis(),
            "edited": step.is_edited(),
            "after": step.after,
        })
    });
    json!({
        "isolation": { "what": what, "joint": joint.map(|joint| joint.0) },
        "goes_out": out.collect::<Vec<_>>(),
        "steps": steps.collect::<Vec<_>>(),
        "left_out": order.steps.iter().filter(|step| step.left_out).map(|step| json!({ "id": step.id, "after": step.after })).collect::<Vec<_>>(),
        "no_longer": order.said_of_no_step().collect::<Vec<_>>(),
    })
}
