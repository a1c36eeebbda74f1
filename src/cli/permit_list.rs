//! `stubout permit-checklist`: what permit offices ask for, ticked by the job.

use super::input::{Studied, print_each};
use super::steps::place_value;
use super::{CLEAR, Jobs, table};
use crate::permit_list::{PermitList, Tick};
use crate::study::Place;
use serde_json::{Value, json};

/// The list of one job.
struct Listed {
    list: PermitList,
}

/// Prints the list of each job.
pub fn run(jobs: &Jobs) -> u8 {
    print_each(
        jobs,
        "permit-checklist",
        |book, Studied { job, checked, .. }| {
            let list = PermitList::of(&job, &checked.study, book);
            (CLEAR, Listed { list })
        },
        machine,
        say,
    )
}

/// The most places that are named on a line; the machine's value has them all.
const PLACES: usize = 8;

fn say(Listed { list }: &Listed) -> String {
    let mut text = format!(
        "What permit offices ask for\n{}\n{}\n",
        list.source.document, list.source.detail
    );
    for line in &list.lines {
        let tick = match line.tick {
            Tick::Shown => "[x]",
            Tick::Missing => "[ ]",
            Tick::NotCalledFor => "[-]",
            Tick::ByHand => "[?]",
        };
        let sources = match line.sources() {
            none if none.is_empty() => "no source".to_owned(),
            one if !one.contains(' ') => format!("source {one}"),
            sources => format!("sources {sources}"),
        };
        let asked = format!("{:>2} of {} {}", line.item.asked, line.item.read, line.item.mark);
        text += &format!(
            "\n{tick} {asked}  {} ({sources})\n    {}: {}\n",
            line.item.item,
            line.tick.name(),
            line.words
        );
        if line.tick == Tick::Missing {
            let mut places: Vec<String> = line.places.iter().take(PLACES).map(Place::to_string).collect();
            if line.places.len() > PLACES {
                places.push(format!("and {} more", line.places.len() - PLACES));
            }
            if !places.is_empty() {
                text += &format!("    at: {}\n", places.join(" "));
            }
            if let Some(field) = line.field {
                text += &format!("    field: {field}\n");
            }
        }
    }
    let missing = list.missing().count();
    text += &format!(
        "\n[x] shown, [ ] missing ({missing}), [-] not applicable, [?] check it yourself. A check mark says that the job has the item, not that it is \
         correct; your office may ask for more or for other things.\n\nSources\n"
    );
    for source in &list.read {
        text += &format!("{:>3}  {} ({})\n", source.number, source.name, source.scope);
    }
    text += &table::closing();
    text
}

fn machine(Listed { list }: &Listed) -> Value {
    let items = list.lines.iter().map(|line| {
        json!({
            "id": line.item.ask.id(),
            "item": line.item.item,
            "asked": line.item.asked,
            "read": line.item.read,
            "asked_by": list.asked_by(line),
            "mark": line.item.mark.letter().to_string(),
            "tick": line.tick.key(),
            "words": line.words,
            "places": line.places.iter().map(place_value).collect::<Vec<_>>(),
            "field": line.field,
        })
    });
    let sources = list.read.iter();
    let sources = sources.map(|source| json!({ "number": source.number, "name": source.name, "scope": source.scope }));
    json!({
        "source": list.source.document,
        "sources": sources.collect::<Vec<_>>(),
        "items": items.collect::<Vec<_>>(),
    })
}
