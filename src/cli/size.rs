//! `stubout size`: the size of every section with its reason, and the pressure at every outlet.

use super::input::Studied;
use super::list::{ListArguments, Listed};
use super::{list, table};
use crate::codebook::Codebook;
use crate::network::{Outlet, OutletKind, by_letter};
use crate::sizing::{Basis, Origin, Section, SizeCapacity, Verdict};
use crate::study::{FRICTION, explain, served};
use crate::units::Show;
use crate::work::{spreadsheet, verdict};
use serde_json::{Value, json};

/// A job with the reason for each of its sizes.
struct Sized {
    studied: Studied,
    reasons: Vec<Vec<String>>,
    /// The tables that were read, in the order of their first use, and where they were read.
    sources: Vec<(String, String)>,
}

/// Prints the sizes of each job; as CSV, its sections.
pub fn run(arguments: &ListArguments) -> u8 {
    list::print(arguments, "size", Sized::of)
}

impl Listed for Sized {
    fn say(&self) -> String {
        say(self)
    }

    fn table(&self) -> Vec<Vec<String>> {
        spreadsheet::sections(&self.studied.job, &self.studied.checked.study)
    }

    fn machine(&self) -> Value {
        machine(self)
    }
}

impl Sized {
    fn of(book: &Codebook, studied: Studied) -> Sized {
        let sections = 0..studied.checked.study.sections.len();
        let reasons = sections
            .map(|section| explain(&studied.job, book, &studied.checked.study, section))
            .collect();
        let mut sources: Vec<(String, String)> = Vec::new();
        for section in &studied.checked.study.sections {
            if let Basis::Table { table, .. } = &section.sizing.basis
                && let Some(printed) = book.table(table)
                && !sources.iter().any(|(known, _)| **known == **table)
            {
                sources.push((table.to_string(), printed.where_read()));
            }
        }
        Sized {
            studied,
            reasons,
            sources,
        }
    }
}

fn origin(origin: Origin) -> &'static str {
    match origin {
        Origin::Known => "existing",
        Origin::Fixed => "set by hand",
        Origin::Found => "sized",
        Origin::Unknown => "existing, size not entered",
        Origin::Connector => "connector",
    }
}

fn say(sized: &Sized) -> String {
    let Studied { checked, .. } = &sized.studied;
    let study = &checked.study;
    let units = study.names.units();
    let mut text = String::new();
    for (section, reasons) in study.sections.iter().zip(&sized.reasons) {
        let size = section
            .sizing
            .size
            .map_or(String::new(), |size| study.names.show(section.material, size));
        text += &match section.sizing.origin {
            Origin::Connector => format!("Hose or connector to {}, by its own rating\n", served(study, section)),
            origin if section.sizing.size.is_none() => format!(
                "Section {}: {}, no size ({}), {}\n",
                section.number,
                section.material.name(),
                self::origin(origin),
                verdict(section.sizing.verdict)
            ),
            origin => format!(
                "Section {}: {size} {} ({}), {}\n",
                section.number,
                section.material.name(),
                self::origin(origin),
                verdict(section.sizing.verdict)
            ),
        };
        for reason in reasons {
            text += &format!("    {reason}\n");
        }
    }
    let dash = || "–".to_owned();
    let row = |outlet: &Outlet| {
        vec![
            outlet.tag.clone(),
            outlet.name.clone(),
            outlet.heat.map_or_else(dash, |heat| heat.show(units)),
            outlet.flow.show(units),
            outlet.distance.show(units),
            outlet.hose.map_or_else(dash, |hose| hose.length.show(units)),
            outlet.pressure.map_or_else(dash, |pressure| pressure.show(units)),
            outlet.least.map_or_else(dash, |pressure| pressure.show(units)),
            outlet.margin.map_or_else(dash, |margin| margin.show(units)),
        ]
    };
    let rows: Vec<_> = by_letter(&study.outlets).into_iter().map(row).collect();
    text += "\nOutlets at full load (pressures are computed, not measured)\n";
    text += &table::columns(
        &[
            "",
            "outlet",
            ">input",
            ">flow",
            ">length from delivery",
            ">hose",
            ">inlet",
            ">min. req'd",
            ">margin",
        ],
        &rows,
    );
    for outlet in study.outlets.iter().filter(|outlet| outlet.unrated > 0) {
        text += &format!(
            "The inlet pressure of {} leaves out an upstream device or hose whose loss is not known.\n",
            outlet.called()
        );
    }
    text += &format!("{FRICTION}\n");
    for (name, source) in &sized.sources {
        text += &format!("Table {name}: {source}.\n");
    }
    text += &table::closing();
    text
}

fn machine(sized: &Sized) -> Value {
    let Studied { job, checked, .. } = &sized.studied;
    let study = &checked.study;
    let sections: Vec<Value> = study
        .sections
        .iter()
        .zip(&sized.reasons)
        .map(|pair| section(sized, pair))
        .collect();
    let outlets: Vec<Value> = study
        .outlets
        .iter()
        .map(|outlet| {
            json!({
                "tag": outlet.tag,
                "joint": job.joints.at(outlet.joint).id.0,
                "kind": match outlet.kind { OutletKind::Appliance => "appliance", OutletKind::Future => "future" },
                "name": outlet.name,
                "input_btuh": outlet.heat.map(|heat| heat.btuh()),
                "flow_cfh": outlet.flow.cfh(),
                "distance_ft": outlet.distance.feet(),
                "hose_ft": outlet.hose.map(|hose| hose.length.feet()),
                "inlet_inwc": outlet.pressure.map(|pressure| pressure.inches_wc()),
                "min_inwc": outlet.least.map(|pressure| pressure.inches_wc()),
                "margin_inwc": outlet.margin.map(|margin| margin.inches_wc()),
            })
        })
        .collect();
    json!({
        "profile": study.profile,
        "total_btuh": study.total.heat.btuh(),
        "total_cfh": study.total.flow.cfh(),
        "sections": sections,
        "outlets": outlets,
    })
}

const fn origin_key(origin: Origin) -> &'static str {
    match origin {
        Origin::Known => "existing",
        Origin::Fixed => "set_by_hand",
        Origin::Found => "sized",
        Origin::Unknown => "existing_not_entered",
        Origin::Connector => "connector",
    }
}

const fn result(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Carries => "within_capacity",
        Verdict::TooSmall => "over_capacity",
        Verdict::Unknown => "not_judged",
    }
}

fn section(sized: &Sized, (section, reasons): (&Section, &Vec<String>)) -> Value {
    let Studied { job, checked, .. } = &sized.studied;
    let study = &checked.study;
    let (basis, table, row_ft) = match &section.sizing.basis {
        Basis::Table { table, row } => ("table", Some(&**table), Some(row.feet())),
        Basis::Equation { name, length } => ("equation", Some(*name), Some(length.feet())),
        Basis::Nothing(_) => ("none", None, None),
    };
    let capacity = |capacity: &SizeCapacity| {
        json!({
            "size": capacity.size.exact(),
            "cfh": capacity.flow.cfh(),
            "mark": capacity.mark.letter().to_string(),
        })
    };
    json!({
        "number": section.number,
        "from_joint": job.joints.at(section.from).id.0,
        "to_joint": job.joints.at(section.to).id.0,
        "runs": section.runs.iter().map(|&run| job.runs.at(run).id.0).collect::<Vec<_>>(),
        "material": section.material.key(),
        "state": section.state.name(),
        "serves": by_letter(&study.outlets[section.serves.clone()]).iter().map(|outlet| &outlet.tag).collect::<Vec<_>>(),
        "load_btuh": section.load.heat.btuh(),
        "load_cfh": section.load.flow.cfh(),
        "measured_ft": section.measured.feet(),
        "sizing_length_ft": section.sizing_length().map(|length| length.feet()),
        "size": section.sizing.size.map(|size| size.exact()),
        "origin": origin_key(section.sizing.origin),
        "min_size": section.sizing.needed.map(|size| size.exact()),
        "result": result(section.sizing.verdict),
        "basis": basis,
        "basis_name": table,
        "basis_length_ft": row_ft,
        "capacities": section.sizing.capacities.iter().map(capacity).collect::<Vec<_>>(),
        "remarks": section.sizing.remarks,
        "reason": reasons,
    })
}
