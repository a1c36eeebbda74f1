//! Jobs for sheets: plain ones, and ones with names, sections and findings past all measure.

use crate::draft::Draft;
use std::sync::Arc;
use stubout::codebook::Codebook;
use stubout::job::*;
use stubout::rules::{Checked, Finding, Severity};
use stubout::sizing::{Basis, Verdict};
use stubout::study::Place;
use stubout::units::*;

/// The invented jobs that come with the program.
const EXAMPLES: [(&str, &str); 4] = [
    ("patio-kitchen", include_str!("../../examples/patio-kitchen.ron")),
    (
        "two-pressure-house",
        include_str!("../../examples/two-pressure-house.ron"),
    ),
    ("propane-cabin", include_str!("../../examples/propane-cabin.ron")),
    ("classroom", include_str!("../../examples/classroom.ron")),
];

/// A job and what follows from it.
pub type Case = (Job, Checked);

/// A job with its study and what was found.
pub fn studied(job: Job) -> Case {
    let checked = Checked::of(&job, Codebook::published());
    (job, checked)
}

/// The invented jobs that come with the program, by name.
pub fn examples() -> Vec<(&'static str, Case)> {
    EXAMPLES
        .map(|(name, text)| (name, studied(stubout::file::read(text).unwrap())))
        .into()
}

/// The patio kitchen with so many findings that block.
pub fn patio(blocking: usize) -> Case {
    let (_, (job, mut checked)) = examples().swap_remove(0);
    checked.findings = findings(blocking, 3, 2).into();
    (job, checked)
}

/// A comb of pipe of so many runs, with a title block and names that are too long where `names` says so, and sections
/// of every verdict and basis.
pub fn comb(runs: usize, names: Names, units: UnitSystem) -> Case {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    draft.job.settings.units = units;
    let mut last = draft.at(0, 0, 0);
    for number in 0..runs.div_ceil(2) {
        let (row, column) = (number as i32 / 12, number as i32 % 12);
        let column = if row % 2 == 0 { column + 1 } else { 12 - column };
        let (tee, end) = (draft.at(column * 3, -row * 5, 0), draft.at(column * 3, -row * 5, 3));
        draft.run(last, tee, 6.0);
        last = tee;
        if 2 * number + 1 < runs {
            let run = draft.run(tee, end, 3.0);
            draft.run_mut(run).material = Some(Material::ALL[number % 5]);
            draft.burner(end, &names.of(number), 30_000.0).least_inlet = Some(GaugePressure::from_inches_wc(5.0));
        }
        draft.joint_mut(tee).label = matches!(names, Names::Long).then(|| names.of(number));
    }
    if matches!(names, Names::Long) {
        draft.job.title = long_title();
    }
    let (job, mut checked) = studied(draft.job);
    for (at, section) in Arc::make_mut(&mut checked.study).sections.iter_mut().enumerate() {
        let sizing = &mut section.sizing;
        match at % 7 {
            1 => sizing.verdict = Verdict::TooSmall,
            2 => sizing.basis = Basis::Nothing("No table is published for this pipe at this pressure".into()),
            3 => sizing.remarks.push("The row ends before this length".into()),
            4 => sizing.size = None,
            5 => {
                sizing.basis = Basis::Equation {
                    name: "low-pressure equation",
                    length: Length::from_feet(120.0),
                }
            }
            _ => {}
        }
    }
    checked.findings = findings(runs / 3, runs, 4).into();
    (job, checked)
}

/// How things are called in a comb.
#[derive(Clone, Copy)]
pub enum Names {
    Short,
    Long,
}

impl Names {
    const LONG: &str =
        "Freestanding stainless outdoor cooking appliance with rotisserie, side shelf and cover, model not yet chosen";

    fn of(self, number: usize) -> String {
        match self {
            Names::Short => format!("Burner {number}"),
            Names::Long => format!("{} {number}", Names::LONG),
        }
    }
}

/// Findings of each weight, at places of every kind.
pub fn findings(blocking: usize, cautions: usize, remarks: usize) -> Vec<Finding> {
    let finding = |severity, number: usize| Finding {
        field: None,
        rule: "meter-capacity",
        severity,
        place: if number.is_multiple_of(2) {
            Place::Joint(JointId(1))
        } else {
            Place::Section(number)
        },
        also: (0..number % 7).map(Place::Section).collect(),
        penetration: None,
        what: format!("the meter is rated for 250 cfh and would carry {} cfh", 280 + number),
        remedy: "ask the gas supplier for a larger meter".to_owned(),
        basis: "common practice, no source".to_owned(),
    };
    let all = [
        (Severity::MustFix, blocking),
        (Severity::Check, cautions),
        (Severity::Note, remarks),
    ];
    all.iter()
        .flat_map(|(severity, count)| (0..*count).map(|number| finding(*severity, number)))
        .collect()
}

/// A title block with everything too long for its place.
pub fn long_title() -> TitleBlock {
    let text = |words: &str| format!("{words} ").repeat(8);
    let revision = |number: usize| Revision {
        mark: number.to_string(),
        date: "2026-11-25".to_owned(),
        what: text("Changed after the office asked for a larger meter"),
        by: "A long name of a drafter".to_owned(),
    };
    TitleBlock {
        job: text("Outdoor kitchen, pool heater and fire features"),
        site: text("14000 Example Court North-West"),
        parcel: text("Lot 7, block 3, Invented Acres"),
        owner: text("The Trustees of Nowhere"),
        firm: text("Invented Gas Fitters of the Long Valley"),
        contact: text("office.of.the.permit.department@example.test"),
        licence_holder: text("Placeholder"),
        licence: "0".repeat(80),
        permit: text("P-2026-000000"),
        drawn_by: text("Drafter"),
        checked_by: text("Checker"),
        drawing: text("G-1"),
        date: text("2026-11-25"),
        description: text(
            "New branch from a tie-in at the house line to a grill, a side burner and a fire table on the patio.",
        ),
        status: Status::AsBuilt,
        revisions: (0..9).map(revision).collect(),
    }
}
