//! What is handed over with the piping: the start-up record, the leak-check log, what to bring, and the letter and tag for
//! the owner. What was not entered is left open to be written in by hand.

use super::block::{Block, Part};
use super::built::form;
use super::table::{Column, Row, Set, Table, Weight};
use super::tags::Schedule;
use super::text::Paragraph;
use crate::job::{Detail, Device, Job};
use crate::network::by_letter;
use crate::study::words::NONE;
use crate::study::{Place, Places, Study, places};
use crate::units::{GaugePressure, Show, UnitSystem, in_units};
use crate::work::{
    HOW, Hole, LEAK_CHECK, LeakLog, LeakRow, NEARNESS, Off, StartUpRecord, StartUpRow, TOOLS, TestSheet, Tools,
};

/// What was measured at each appliance, beside what the drawing and the rating plate say; `None` where there is none.
pub fn start_up(record: &StartUpRecord, units: UnitSystem) -> Option<Block> {
    if record.rows.is_empty() {
        return None;
    }
    let columns = vec![
        Column::new("appliance", Set::Words),
        Column::new("reading", Set::Word),
        Column::new("drawing, rating plate", Set::Words),
        Column::new("read", Set::Word),
        Column::new("result", Set::Words),
    ];
    let rows = record.rows.iter().flat_map(|row| readings(row, units)).collect();
    let mut said = vec![Paragraph::new(HOW), Paragraph::new(in_units(NEARNESS, units))];
    if record.is_metered_high {
        let high = "The meter counts gas at {1 psi} or more: correct its volume by the supplier's factor.";
        said.push(Paragraph::new(in_units(high, units)));
    }
    let surprises = record.rows.iter().flat_map(|row| &row.surprises);
    said.extend(surprises.map(|found| Paragraph::new(format!("{} {}", found.what, found.look)).signed("–")));
    let signed = form(&[("Read by", ""), ("Date", ""), ("Gauge, last calibrated", "")]);
    let parts = vec![
        Part::Table(Table { columns, rows }),
        Part::Text(said),
        Part::Table(signed),
    ];
    Some(Block::new(Schedule::StartUp, "Start-up record", parts))
}

/// The four readings at one appliance, a row for each.
fn readings(row: &StartUpRow, units: UnitSystem) -> [Row; 4] {
    fn shown<T: Show>(quantity: Option<T>, units: UnitSystem) -> String {
        quantity.map_or_else(|| NONE.to_owned(), |quantity| quantity.show(units))
    }
    let open =
        |pressure: Option<GaugePressure>| pressure.map_or_else(|| OPEN.to_owned(), |pressure| pressure.show(units));
    let most = format!("max. {}", shown(row.greatest, units));
    let (least, read) = (shown(row.least, units), &row.read);
    let clocked = match (read.clocked, row.clocked) {
        (None, _) => format!("{OPEN} in {OPEN} s"),
        (Some(reading), None) => reading.show(units),
        (Some(reading), Some(heat)) => format!("{} = {}", reading.show(units), heat.show(units)),
    };
    let line = |name: &str, field: Detail, of: String, entered: String, is_read: bool| {
        let surprise = row.surprises.iter().find(|found| found.field == field);
        let (result, weight) = match (is_read, surprise.map(|found| found.off)) {
            (false, _) => ("", Weight::Blank),
            (true, None) => ("explained", Weight::Plain),
            (true, Some(Off::Plate)) => ("outside the plate", Weight::Strong),
            (true, Some(Off::Drawing)) => ("not explained", Weight::Strong),
        };
        Row {
            cells: vec![String::new(), name.to_owned(), of, entered, result.to_owned()],
            weight,
            tag: None,
        }
    };
    let drawn = |pressure| format!("drawn {}", shown(pressure, units));
    let mut rows = [
        line(
            "static",
            Detail::StaticPressure,
            format!("{}, {most}", drawn(row.drawn_static)),
            open(read.static_pressure),
            read.static_pressure.is_some(),
        ),
        line(
            "working",
            Detail::WorkingPressure,
            format!("{}, min. {least}, {most}", drawn(row.drawn_working)),
            open(read.working),
            read.working.is_some(),
        ),
        line(
            "lock-up",
            Detail::LockUpPressure,
            most.clone(),
            open(read.lock_up),
            read.lock_up.is_some(),
        ),
        line(
            "clocked",
            Detail::ClockedInput,
            format!("input {}", shown(row.input, units)),
            clocked,
            read.clocked.is_some(),
        ),
    ];
    rows[0].cells[0] = row.lettered();
    rows
}

/// Room to write a figure in by hand.
const OPEN: &str = "________";

/// Every place at which something new is joined, with a box; `None` where nothing is.
pub fn leak_log(log: &LeakLog, job: &Job, places: &Places<'_>) -> Option<Block> {
    let columns = vec![
        Column::new("", Set::Tick),
        Column::new("at", Set::Words),
        Column::new("joined there", Set::Words),
        Column::new("initials", Set::Word),
    ];
    let row = |row: &LeakRow| Row {
        cells: vec![String::new(), marked(row.place, job, places), row.what.join(", ")],
        ..Row::default()
    };
    let rows: Vec<Row> = log.rows.iter().map(row).collect();
    (!rows.is_empty()).then(|| {
        let said = Part::Text(vec![Paragraph::new(LEAK_CHECK)]);
        Block::new(
            Schedule::LeakLog,
            "Leak-check log",
            vec![said, Part::Table(Table { columns, rows })],
        )
    })
}

/// A place of a work list, by its mark.
fn marked(place: Place, job: &Job, places: &Places<'_>) -> String {
    match place {
        Place::Joint(id) => job
            .joints
            .position(id)
            .map_or_else(|| id.to_string(), |at| places.mark(at)),
        Place::Run(id) => places.pipe(id),
        Place::Section(_) | Place::Job => place.to_string(),
    }
}

/// What to bring and what to drill; `None` where nothing is.
pub fn tools(tools: &Tools, places: &Places<'_>) -> Option<Block> {
    let units = places.units();
    let columns = vec![
        Column::new("hole at", Set::Words),
        Column::new("through", Set::Words),
        Column::new("thick", Set::Word),
        Column::new("for", Set::Words),
        Column::new("at least", Set::Word),
    ];
    let row = |hole: &Hole| Row {
        cells: vec![
            places.pipe(hole.run),
            hole.barrier.name().to_owned(),
            hole.thickness
                .map_or_else(|| NONE.to_owned(), |thick| thick.show(units)),
            hole.through.clone(),
            hole.least
                .map_or_else(|| "measure it".to_owned(), |least| least.show(units)),
        ],
        ..Row::default()
    };
    if tools.bring.is_empty() {
        return None;
    }
    let bring = tools.bring.iter().map(|line| Paragraph::new(line.clone()).signed("–"));
    let mut parts = vec![Part::Text(bring.collect())];
    if !tools.holes.is_empty() {
        let rows = tools.holes.iter().map(row).collect();
        parts.push(Part::Table(Table { columns, rows }));
    }
    parts.push(Part::Text(vec![Paragraph::new(in_units(TOOLS, units))]));
    Some(Block::new(Schedule::Tools, "Tools and holes", parts))
}

/// What the owner must know, and the tag for the shutoff valve; `None` where no gas reaches an appliance.
pub fn owner(job: &Job, study: &Study, test: &TestSheet, places: &Places<'_>) -> Option<Block> {
    let (supply, title) = (study.network.supply?, &job.title);
    if study.outlets.is_empty() {
        return None;
    }
    let units = places.units();
    let valve = |joint: usize| {
        let mut way = study.network.way_up(joint);
        way.find(|at| matches!(places::device(job, *at), Some(Device::Valve(_))))
    };
    // An owner knows no sections: the drawing's name of a valve comes after what it does.
    let closed_at = |at: Option<usize>| match at {
        None => "no valve is drawn before it".to_owned(),
        Some(at) => {
            let on_it = study.outlets.iter().filter(|outlet| valve(outlet.joint) == Some(at));
            let what = match on_it.count() {
                1 => "the valve on its own pipe",
                _ => "a valve that shuts off others too",
            };
            format!("{what}; on the drawing: {}", places.joint(at))
        }
    };
    let row = |outlet: &crate::network::Outlet| Row {
        cells: vec![outlet.lettered(), closed_at(valve(outlet.joint))],
        ..Row::default()
    };
    let table = Table {
        columns: vec![
            Column::new("to shut off", Set::Words),
            Column::new("close the valve at", Set::Words),
        ],
        rows: by_letter(&study.outlets).into_iter().map(row).collect(),
    };
    // Gas is shut off by a valve, never at a regulator or meter itself.
    let shutoff = format!("the {} at {}", study.gas.fuel.main_valve(), places.joint(supply));
    let mut said = vec![
        Paragraph::new(
            "If you smell gas: touch no switch and light nothing, leave, and call the gas supplier or the fire department from outside.",
        ),
        Paragraph::new(format!(
            "All gas is shut off at {shutoff}. A valve is shut when its lever or flat head is across the pipe. Have gas turned on again, and every pilot \
             lit, by somebody licensed."
        )),
    ];
    let hoses: Vec<String> = by_letter(&study.outlets)
        .into_iter()
        .filter(|outlet| outlet.hose.is_some())
        .map(|outlet| outlet.called())
        .collect();
    if !hoses.is_empty() {
        said.push(Paragraph::new(format!(
            "Emptying the hose ({}): close the valve before the hose while the burner is lit; when the flame is out, the hose is empty. Then close the \
             burner's own valve, disconnect the hose, and cap the coupling.",
            hoses.join(", ")
        )));
    }
    said.push(Paragraph::new(
        "This letter is common practice, no source; the appliances' own instructions govern.",
    ));
    // What was done is written in by who did it.
    let tested = match &test.demand {
        Some(demand) => format!("Tested at (required: at least {})", demand.pressure.value.show(units)),
        None => "Tested at".to_owned(),
    };
    let of = |words: &str| words.trim().to_owned();
    let installer = [&title.firm, &title.licence_holder].map(|words| words.trim());
    let installer: Vec<&str> = installer.into_iter().filter(|words| !words.is_empty()).collect();
    let tag = form(&[
        ("Gas piping at", &of(&title.site)),
        ("Shut off at", &shutoff),
        (&tested, ""),
        ("for, and on (date)", ""),
        ("Installed by", &installer.join(", ")),
        ("License no.", &of(&title.licence)),
        ("Contact", &of(&title.contact)),
    ]);
    let parts = vec![
        Part::Table(table),
        Part::Text(said),
        Part::Text(vec![Paragraph::new("Tag for the shutoff valve, to be cut out:")]),
        Part::Table(tag),
    ];
    Some(Block::new(Schedule::Owner, "For the owner", parts))
}
