//! Lists as rows of cells for a spreadsheet, heads first: the same rows wherever they are asked for.

use super::{CutList, JointNipple, Line, Piece, Priced, StartUpRecord, StartUpRow, TakeOff};
use crate::codebook::SizeNames;
use crate::job::{Job, Joining};
use crate::network::by_letter;
use crate::sizing::{Basis, Section, Verdict};
use crate::study::Study;
use crate::units::{Show, UnitSystem};

/// Rows of cells.
pub type Rows = Vec<Vec<String>>;

fn under(heads: &[&str], rows: impl Iterator<Item = Vec<String>>) -> Rows {
    let heads = heads.iter().map(|head| (*head).to_owned()).collect();
    std::iter::once(heads).chain(rows).collect()
}

/// The start-up record: what was measured beside what is drawn.
pub fn start_up(record: &StartUpRecord, units: UnitSystem) -> Rows {
    fn shown<T: Show>(quantity: Option<T>, units: UnitSystem) -> String {
        quantity.map_or_else(String::new, |quantity| quantity.show(units))
    }
    let heads = [
        "appliance",
        "static drawn",
        "static",
        "working drawn",
        "working",
        "lock-up",
        "min. inlet",
        "max. inlet",
        "input",
        "clocked",
        "clocked input",
        "result",
    ];
    let row = |row: &StartUpRow| {
        vec![
            row.lettered(),
            shown(row.drawn_static, units),
            shown(row.read.static_pressure, units),
            shown(row.drawn_working, units),
            shown(row.read.working, units),
            shown(row.read.lock_up, units),
            shown(row.least, units),
            shown(row.greatest, units),
            shown(row.input, units),
            shown(row.read.clocked, units),
            shown(row.clocked, units),
            row.result().to_owned(),
        ]
    };
    under(&heads, record.rows.iter().map(row))
}

/// The sections of a job.
pub fn sections(job: &Job, study: &Study) -> Rows {
    let units = job.settings.units;
    let heads = [
        "section",
        "from",
        "to",
        "material",
        "state",
        "serves",
        "load",
        "flow",
        "measured",
        "sizing length",
        "size",
        "capacity",
        "mark",
        "by",
        "result",
    ];
    let row = |section: &Section| {
        let capacity = section.sizing.capacity();
        let serves = by_letter(&study.outlets[section.serves.clone()]);
        let serves: Vec<&str> = serves.iter().map(|outlet| outlet.tag.as_str()).collect();
        vec![
            section.number.to_string(),
            job.joints.at(section.from).id.to_string(),
            job.joints.at(section.to).id.to_string(),
            section.made_of().to_owned(),
            section.state.name().to_owned(),
            serves.join(" "),
            section.load.heat.show(units),
            section.load.flow.show(units),
            section.measured.show(units),
            section
                .sizing_length()
                .map_or_else(String::new, |length| length.show(units)),
            section
                .sizing
                .size
                .map_or_else(String::new, |size| study.names.show(section.material, size)),
            capacity.map_or_else(String::new, |capacity| capacity.flow.show(units)),
            capacity.map_or_else(String::new, |capacity| capacity.mark.letter().to_string()),
            match &section.sizing.basis {
                Basis::Table { table, .. } => table.to_string(),
                Basis::Equation { name, .. } => (*name).to_owned(),
                Basis::Nothing(_) => String::new(),
            },
            verdict(section.sizing.verdict).to_owned(),
        ]
    };
    under(&heads, study.sections.iter().map(row))
}

/// How a section is judged, in a word.
pub const fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Carries => "within capacity",
        Verdict::TooSmall => "over capacity",
        Verdict::Unknown => "not judged",
    }
}

/// A take-off, with prices where there are any.
pub fn take_off(take_off: &TakeOff, priced: Option<&Priced>, units: UnitSystem) -> Rows {
    let heads = [
        "what", "amount", "unit", "state", "action", "price", "mark", "at", "remark",
    ];
    let row = |(at, line): (usize, &Line)| {
        let amount = line.quantity.amount(units).map(|amount| {
            let amount = format!("{amount:.3}");
            amount.trim_end_matches('0').trim_end_matches('.').to_owned()
        });
        let price = priced.and_then(|priced| priced.lines.get(at).copied().flatten());
        vec![
            line.label(),
            amount.unwrap_or_else(|| line.quantity.show(units)),
            line.quantity.unit(units).to_owned(),
            line.state.name().to_owned(),
            line.heading(),
            price.map_or_else(String::new, money),
            line.mark.map_or_else(String::new, |mark| mark.letter().to_string()),
            places(line),
            line.remark.clone(),
        ]
    };
    under(&heads, take_off.lines.iter().enumerate().map(row))
}

/// Hundredths as a price.
pub fn money(hundredths: i64) -> String {
    format!("{}.{:02}", hundredths / 100, hundredths % 100)
}

/// The places of a line in short: `J3 R5`.
pub fn places(line: &Line) -> String {
    let mut shown: Vec<String> = Vec::new();
    for place in &line.places {
        let name = place.to_string();
        if shown.last() != Some(&name) {
            shown.push(name);
        }
    }
    shown.join(" ")
}

/// A cut list: one row for each piece; a piece of several parts has one for each part. Nipples within joints come last.
pub fn cuts(job: &Job, cuts: &CutList) -> Rows {
    let heads = CUT_HEADS.map(|head| head.trim_start_matches('>'));
    let pieces = cuts.pieces.iter().flat_map(|piece| cut_rows(job, cuts.names, piece));
    under(
        &heads,
        pieces.chain(cuts.nipples.iter().map(|nipple| nipple_row(job, nipple))),
    )
}

/// Heads of a cut list; a column of figures begins with `>`.
pub const CUT_HEADS: [&str; 8] = [
    "piece",
    "size",
    "material",
    ">center to center",
    "from",
    "to",
    ">cut",
    "runs",
];

fn nipple_row(job: &Job, nipple: &JointNipple) -> Vec<String> {
    let units = job.settings.units;
    let [from, to] = nipple.between.clone();
    vec![
        nipple.mark.clone(),
        nipple.size.map_or("no size".to_owned(), |size| size.show(units)),
        Joining::Threaded.material().short().to_owned(),
        String::new(),
        from,
        to,
        nipple.made(units),
        job.joints.at(nipple.joint).id.to_string(),
    ]
}

fn cut_rows(job: &Job, names: SizeNames, piece: &Piece) -> Rows {
    let units = job.settings.units;
    let runs = piece.runs.iter().map(|&run| job.runs.at(run).id.0.to_string());
    let runs: Vec<String> = runs.collect();
    let [from, to] = piece.end_words(units);
    let row = |mark: &str, length: String| {
        vec![
            mark.to_owned(),
            piece
                .size
                .map_or("no size".to_owned(), |size| names.show(piece.material, size)),
            piece.material.short().to_owned(),
            piece.centre_to_centre.show(units),
            from.clone(),
            to.clone(),
            length,
            runs.join(" "),
        ]
    };
    let marked = piece.marked(units).into_iter();
    marked.map(|(mark, length)| row(mark, length)).collect()
}
