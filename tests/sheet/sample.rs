//! Jobs with their studies written by hand, so that a sheet can be looked at whatever the study finds.

use crate::draft::Draft;
use stubout::codebook::{Codebook, Mark};
use stubout::job::*;
use stubout::study::*;
use stubout::units::*;

/// A patio kitchen added to an existing house: six sections, five appliances.
pub fn patio() -> (Job, Study) {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let joints = [
        (0, 0, 0),
        (0, 0, 4),
        (0, 4, 4),
        (0, 12, 4),
        (0, 19, 4),
        (0, 12, 2),
        (0, 19, 1),
        (12, 4, 4),
        (12, 4, 1),
        (30, 4, 1),
        (36, 4, 1),
        (36, 12, 1),
        (30, 4, 3),
        (36, 4, 3),
        (36, 12, 3),
    ]
    .map(|(east, north, up)| draft.at(east, north, up));
    let [
        meter,
        riser,
        tie,
        tee_a,
        corner_b,
        a,
        b,
        wall,
        down,
        tee_c,
        tee_d,
        corner_e,
        c,
        d,
        e,
    ] = joints;
    let size = NominalSize::Inch;
    for (from, to, feet, inch) in [
        (meter, riser, 4.0, 20),
        (riser, tie, 6.0, 20),
        (tie, tee_a, 8.0, 16),
        (tee_a, a, 2.0, 16),
        (tee_a, corner_b, 7.0, 12),
        (corner_b, b, 3.0, 12),
    ] {
        draft.existing(from, to, feet, size(inch));
    }
    for (from, to, feet) in [
        (tie, wall, 12.5),
        (wall, down, 3.0),
        (down, tee_c, 18.0),
        (tee_c, tee_d, 6.0),
        (tee_d, corner_e, 8.0),
        (tee_c, c, 2.0),
        (tee_d, d, 2.0),
        (corner_e, e, 2.0),
    ] {
        let run = draft.run(from, to, feet);
        draft.run_mut(run).surroundings = Surroundings::Outdoors;
    }
    for (joint, name, btuh, state) in [
        (a, "Furnace", 80_000.0, State::Existing),
        (b, "Water heater", 40_000.0, State::Existing),
        (c, "Built-in grill", 75_000.0, State::New),
        (d, "Side burner", 20_000.0, State::New),
        (e, "Fire table", 65_000.0, State::New),
    ] {
        draft.burner(joint, name, btuh).least_inlet = Some(GaugePressure::from_inches_wc(5.0));
        if let Some(placed) = &mut draft.joint_mut(joint).placed {
            placed.state = state;
        }
    }
    for (joint, label) in [(tie, "tie-in"), (tee_a, "A tee"), (tee_c, "C tee"), (tee_d, "D tee")] {
        draft.joint_mut(joint).label = Some(label.to_owned());
    }
    draft.put(wall, Device::Valve(Valve::default()));
    if let Some(Device::Supply(supply)) = draft.joint_mut(meter).placed.as_mut().map(|placed| &mut placed.device) {
        supply.meter = Some(Rating {
            capacity: Some(Flow::from_cfh(250.0)),
            drop: None,
        });
    }
    let mut job = draft.job;
    job.title = title();
    let mut study = flowing(&job);
    let joint = |id| job.joints.position(id).unwrap();
    let run = |from: JointId, to: JointId| {
        let mut runs = job.runs.iter();
        runs.position(|run| run.from == from && run.to == to).unwrap()
    };
    for (at, pressure) in [(a, 6.81), (b, 6.72), (c, 6.74), (d, 6.66), (e, 6.62)] {
        outlet(&job, &mut study, joint(at), pressure);
    }
    let rows: [(JointId, JointId, &[usize], f64, f64, f64, u16, f64); 6] = [
        (
            meter,
            tie,
            &[run(meter, riser), run(riser, tie)],
            280.0,
            63.5,
            70.0,
            20,
            486.0,
        ),
        (tie, tee_a, &[run(tie, tee_a)], 120.0, 36.0, 40.0, 16, 320.0),
        (
            tee_a,
            b,
            &[run(tee_a, corner_b), run(corner_b, b)],
            40.0,
            36.0,
            40.0,
            12,
            170.0,
        ),
        (
            tie,
            tee_c,
            &[run(tie, wall), run(wall, down), run(down, tee_c)],
            160.0,
            63.5,
            70.0,
            16,
            237.0,
        ),
        (tee_c, tee_d, &[run(tee_c, tee_d)], 85.0, 63.5, 70.0, 12, 126.0),
        (
            tee_d,
            e,
            &[run(tee_d, corner_e), run(corner_e, e)],
            65.0,
            63.5,
            70.0,
            12,
            126.0,
        ),
    ];
    for (from, to, runs, load, length, row, size, holds) in rows {
        let state = job.runs.at(runs[0]).state;
        let mut section = section(&study, (joint(from), joint(to)), load, length, row, size, holds);
        section.state = state;
        section.sizing.origin = if state == State::New {
            Origin::Found
        } else {
            Origin::Known
        };
        section.runs = runs.to_vec();
        section.design.to = joint(e);
        section.measured = Length::from_feet(length);
        for run in runs {
            study.runs[*run].section = Some(study.sections.len());
        }
        study.sections.push(section);
    }
    study.zones.push(zone(0, joint(e), 63.5));
    study.devices.push(DeviceStudy {
        joint: 0,
        name: "meter",
        flow: Flow::from_cfh(280.0),
        inlet: None,
        capacity: Some(Flow::from_cfh(250.0)),
        drop: None,
        verdict: RatingVerdict::Exceeded,
    });
    study.total = load(280.0);
    study.findings = findings(1, 3, 2);
    (job, study)
}

/// A comb of pipe with so many sections, every one with a long name where `names` says so.
pub fn comb(sections: usize, names: Names, units: UnitSystem) -> (Job, Study) {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    draft.job.settings.units = units;
    let mut last = draft.at(0, 0, 0);
    let mut ends = Vec::new();
    for number in 0..sections.div_ceil(2) as i32 {
        let (row, column) = (number / 12, number % 12);
        let column = if row % 2 == 0 { column + 1 } else { 11 - column };
        let (tee, end) = (draft.at(column * 3, -row * 5, 0), draft.at(column * 3, -row * 5, 3));
        draft.run(last, tee, 6.0);
        last = tee;
        if 2 * number as usize + 1 < sections {
            let run = draft.run(tee, end, 3.0);
            draft.run_mut(run).material = Some(Material::ALL[number as usize % 5]);
            draft.burner(end, &names.of(number as usize), 30_000.0);
            ends.push(end);
        }
        draft.joint_mut(tee).label = matches!(names, Names::Long).then(|| format!("{} {number}", Names::LONG));
    }
    let mut job = draft.job;
    if matches!(names, Names::Long) {
        job.title = long_title();
    }
    let mut study = flowing(&job);
    for end in &ends {
        outlet(&job, &mut study, job.joints.position(*end).unwrap(), 6.5);
    }
    for (at, run) in job.runs.iter().enumerate() {
        let ends = (
            job.joints.position(run.from).unwrap(),
            job.joints.position(run.to).unwrap(),
        );
        let mut section = section(&study, ends, 30.0 * (at + 1) as f64, 120.0, 125.0, 12, 100.0);
        section.runs = vec![at];
        section.material = job.material(run);
        match at % 7 {
            1 => section.sizing.verdict = Verdict::TooSmall,
            2 => section.sizing.basis = Basis::Nothing("No table is published for this pipe at this pressure".into()),
            3 => section.sizing.remarks.push("The row ends before this length".into()),
            4 => section.sizing.size = None,
            5 => {
                section.sizing.basis = Basis::Equation {
                    name: "low-pressure equation",
                    length: Length::from_feet(120.0),
                }
            }
            _ => {}
        }
        study.runs[at].section = Some(study.sections.len());
        study.sections.push(section);
    }
    let farthest = ends.last().map_or(0, |end| job.joints.position(*end).unwrap());
    study.zones.push(zone(0, farthest, 120.0));
    study.total = load(30.0 * sections as f64);
    study.total.unknown = 1;
    study.findings = findings(sections / 3, sections, 4);
    (job, study)
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

pub fn findings(blocking: usize, cautions: usize, remarks: usize) -> Vec<Finding> {
    let finding = |severity, number: usize| Finding {
        rule: "meter-capacity",
        severity,
        place: if number.is_multiple_of(2) {
            Place::Joint(JointId(1))
        } else {
            Place::Section(number)
        },
        also: (0..number % 7).map(Place::Section).collect(),
        what: format!("the meter is rated for 250 cfh and would carry {} cfh", 280 + number),
        remedy: "ask the gas supplier for a larger meter".to_owned(),
        basis: "common practice, no source",
    };
    let all = [
        (Severity::Blocking, blocking),
        (Severity::Caution, cautions),
        (Severity::Remark, remarks),
    ];
    all.iter()
        .flat_map(|(severity, count)| (0..*count).map(|number| finding(*severity, number)))
        .collect()
}

fn title() -> TitleBlock {
    let text = str::to_owned;
    TitleBlock {
        job: text("Patio kitchen gas line (demonstration)"),
        site: text("14 Example Court, Sampleton"),
        parcel: text("Lot 7, block 3, Invented Acres"),
        owner: text("J. Nobody"),
        firm: text("Demo Fitters"),
        contact: text("office@example.test"),
        licence_holder: text("P. Placeholder"),
        licence: text("000000"),
        permit: text(""),
        drawn_by: text("PP"),
        checked_by: text(""),
        drawing: text("G-1"),
        date: text("2026-11-25"),
        description: text(
            "New branch from a tie-in at the house line to a grill, a side burner and a fire table on the patio.",
        ),
        status: Status::ForPermit,
        revisions: vec![Revision {
            mark: text("0"),
            date: text("2026-11-25"),
            what: text("First issue"),
            by: text("PP"),
        }],
    }
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

/// A study of a job with its flow, but nothing sized: sections and outlets are put in by hand.
fn flowing(job: &Job) -> Study {
    let mut study = Study::of(job, Codebook::published());
    study.network.supply = Some(0);
    study.network.ends = job
        .runs
        .iter()
        .map(|run| Some((job.joints.position(run.from)?, job.joints.position(run.to)?)))
        .collect();
    study.sections.clear();
    study.outlets.clear();
    study.zones.clear();
    study.devices.clear();
    study
}

fn outlet(job: &Job, study: &mut Study, joint: usize, pressure: f64) {
    let number = study.outlets.len();
    let Some(Device::Appliance(appliance)) = job.joints.at(joint).placed.as_ref().map(|placed| &placed.device) else {
        panic!("no appliance there");
    };
    let least = appliance.least_inlet;
    study.outlets.push(Outlet {
        tag: ["", "A", "B"][number / 26].to_owned() + &char::from(b'A' + (number % 26) as u8).to_string(),
        joint,
        kind: OutletKind::Appliance,
        name: appliance.name.clone(),
        heat: appliance.input.filter(|_| number != 3 || job.joints.len() < 20),
        flow: Flow::from_cfh(appliance.input.map_or(0.0, |input| input.mbh())),
        distance: Length::from_feet(60.0),
        pressure: Some(GaugePressure::from_inches_wc(pressure)),
        zone_drop: None,
        least,
        margin: least.map(|least| PressureDrop::from_inches_wc(pressure - least.inches_wc())),
        unrated: number % 2,
    });
}

fn load(cfh: f64) -> Load {
    Load {
        heat: HeatRate::from_mbh(cfh),
        flow: Flow::from_cfh(cfh),
        left_out: HeatRate::default(),
        unknown: 0,
    }
}

fn section(study: &Study, ends: (usize, usize), cfh: f64, length: f64, row: f64, size: u16, holds: f64) -> Section {
    let size = NominalSize::Inch(size);
    Section {
        number: study.sections.len() + 1,
        from: ends.0,
        to: ends.1,
        runs: Vec::new(),
        fed_by: None,
        zone: 0,
        material: Material::Steel40,
        state: State::New,
        measured: Length::from_feet(10.0),
        load: load(cfh),
        serves: 0..0,
        design: DesignLength {
            rule: LengthRule::Branch,
            to: ends.1,
            measured: Length::from_feet(length),
            fittings: Length::ZERO,
        },
        sizing: Sizing {
            size: Some(size),
            origin: Origin::Found,
            needed: Some(size),
            basis: Basis::Table {
                table: "402.4(2)",
                row: Length::from_feet(row),
            },
            capacities: vec![SizeCapacity {
                size,
                flow: Flow::from_cfh(holds),
                mark: if cfh > 150.0 { Mark::Found } else { Mark::Computed },
            }],
            verdict: Verdict::Carries,
            remarks: Vec::new(),
        },
    }
}

fn zone(start: usize, farthest: usize, longest: f64) -> Zone {
    Zone {
        start,
        fed_by: None,
        inlet: GaugePressure::from_inches_wc(7.0),
        allowed_drop: Some(PressureDrop::from_inches_wc(0.5)),
        drop_from: "set by the profile for natural gas below 2 psi".to_owned(),
        method: Method::BranchLength,
        farthest: Some(farthest),
        longest: Length::from_feet(longest),
    }
}
