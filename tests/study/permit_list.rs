//! What permit offices ask for: each item shown by a job that has it, missing from one that has not.

use crate::draft::Draft;
use crate::random_job::random_job;
use crate::wild_job::wild_job;
use std::collections::BTreeSet;
use stubout::codebook::{Codebook, Mark};
use stubout::job::*;
use stubout::permit_list::{PermitLine, PermitList, Tick};
use stubout::study::{Place, Study};
use stubout::units::*;

fn list(job: &Job) -> PermitList {
    let book = Codebook::published();
    PermitList::of(job, &Study::of(job, book), book)
}

/// The line of an item, by its id.
fn line<'list>(list: &'list PermitList, id: &str) -> &'list PermitLine {
    let mut lines = list.lines.iter();
    let line = lines.find(|line| line.item.ask.id() == id);
    line.unwrap_or_else(|| panic!("no item {id}"))
}

fn tick(job: &Job, id: &str) -> Tick {
    line(&list(job), id).tick
}

/// A job that shows all that a job can show:
///
/// ```text
///   J1 2 psi ─ R1 ─ J2 valve ─ R2 ─ J3 regulator ─ R3 1 ft ─ J4 union ─ R4 concealed ─ J5
///   J5 ─ R5 down, buried PE ─ J6 trap ─ R6 ─ J7 heater
/// ```
fn full() -> Draft {
    let mut draft = Draft::fed_at(GaugePressure::from_psi(2.0));
    let places = [(0, 0), (2, 0), (4, 0), (5, 0), (9, 0), (9, -4), (12, -4)];
    let at = places.map(|(east, up)| draft.at(east, 0, up));
    for (run, feet) in [10.0, 5.0, 1.0, 10.0, 8.0, 6.0].into_iter().enumerate() {
        draft.run(at[run], at[run + 1], feet);
    }
    draft.put(at[1], Device::Valve(Valve::default()));
    draft.regulator(at[2], GaugePressure::from_inches_wc(8.0));
    draft.put(at[3], Device::Union);
    draft.put(at[5], Device::SedimentTrap(SedimentTrap::default()));
    draft.burner(at[6], "Heater", 40e3);
    draft.run_mut(RunId(4)).surroundings = Surroundings::Concealed;
    let buried = draft.run_mut(RunId(5));
    buried.surroundings = Surroundings::Underground;
    buried.material = Some(Material::Pe);
    buried.cover = Some(Length::from_inches(18.0));
    buried.tracer = true;
    let title = &mut draft.job.title;
    title.site = "14 Example Court, Sampleton".to_owned();
    title.licence = "000000".to_owned();
    title.description = "A line to a heater".to_owned();
    title.date = "2026-11-25".to_owned();
    title.drawing = "G-1".to_owned();
    draft
}

fn heater(draft: &mut Draft) -> &mut Appliance {
    match &mut draft.joint_mut(JointId(7)).placed.as_mut().unwrap().device {
        Device::Appliance(appliance) => appliance,
        _ => unreachable!(),
    }
}

const BY_HAND: [&str; 4] = ["distances", "scale", "makers-data", "sheet-size"];

#[test]
fn a_full_job_shows_every_item_that_a_job_can_show() {
    let list = list(&full().job);
    for line in &list.lines {
        let expected = match BY_HAND.contains(&line.item.ask.id()) {
            true => Tick::ByHand,
            false => Tick::Shown,
        };
        assert_eq!(line.tick, expected, "{}: {}", line.item.ask.id(), line.words);
    }
    assert_eq!(list.missing().count(), 0);
}

#[test]
fn each_item_is_missing_where_the_job_lacks_it() {
    type Case<'c> = (&'c str, Tick, &'c dyn Fn(&mut Draft));
    let cases: [Case<'_>; 29] = [
        ("drawing", Tick::Missing, &|draft| draft.job.runs = Store::default()),
        ("route", Tick::Missing, &|draft| draft.job.runs = Store::default()),
        ("isometric", Tick::Missing, &|draft| draft.job.runs = Store::default()),
        ("not-to-scale", Tick::Missing, &|draft| {
            draft.job.runs = Store::default()
        }),
        ("north", Tick::Missing, &|draft| draft.job.runs = Store::default()),
        ("material", Tick::Missing, &|draft| draft.job.runs = Store::default()),
        ("sizes", Tick::Missing, &|draft| {
            draft.run_mut(RunId(1)).state = State::Existing
        }),
        ("section-load", Tick::Missing, &|draft| heater(draft).input = None),
        ("method", Tick::Missing, &|draft| {
            draft.run_mut(RunId(1)).length = Some(Length::from_feet(50_000.0))
        }),
        ("lengths", Tick::Missing, &|draft| {
            draft.run_mut(RunId(1)).length = Some(Length::ZERO)
        }),
        ("inputs", Tick::Missing, &|draft| heater(draft).input = None),
        ("appliances", Tick::Missing, &|draft| {
            heater(draft).name = " ".to_owned()
        }),
        ("outlets", Tick::Missing, &|draft| heater(draft).name.clear()),
        ("total-load", Tick::Missing, &|draft| heater(draft).input = None),
        ("licence", Tick::Missing, &|draft| draft.job.title.licence.clear()),
        ("address", Tick::Missing, &|draft| draft.job.title.site = " ".to_owned()),
        ("description", Tick::Missing, &|draft| {
            draft.job.title.description.clear()
        }),
        ("date-number", Tick::Missing, &|draft| draft.job.title.date.clear()),
        ("supply", Tick::Missing, &|draft| {
            draft.joint_mut(JointId(1)).placed = None
        }),
        ("pressure", Tick::Missing, &|draft| {
            draft.joint_mut(JointId(1)).placed = None
        }),
        ("code", Tick::Missing, &|draft| {
            draft.job.settings.profile = "metric-equation".to_owned()
        }),
        ("valves", Tick::Missing, &|draft| {
            draft.joint_mut(JointId(2)).placed = None
        }),
        ("sediment-trap", Tick::Missing, &|draft| {
            draft.joint_mut(JointId(6)).placed = None
        }),
        ("burial-depth", Tick::Missing, &|draft| {
            draft.run_mut(RunId(5)).cover = None
        }),
        ("tracer", Tick::Missing, &|draft| draft.run_mut(RunId(5)).tracer = false),
        ("regulator-union", Tick::Missing, &|draft| {
            draft.run_mut(RunId(3)).length = Some(Length::from_feet(1.1))
        }),
        ("flow", Tick::Missing, &|draft| {
            draft.joint_mut(JointId(1)).placed = None
        }),
        ("developed-length", Tick::Missing, &|draft| {
            draft.joint_mut(JointId(1)).placed = None
        }),
        ("elevations", Tick::Missing, &|draft| {
            draft.job.settings.datum_name.clear()
        }),
    ];
    for (id, expected, change) in cases {
        let mut draft = full();
        change(&mut draft);
        let list = list(&draft.job);
        let line = line(&list, id);
        assert_eq!(line.tick, expected, "{id}: {}", line.words);
        assert!(!line.words.is_empty() && line.tick == Tick::Missing, "{id}");
    }
    // A fitting without its size: pipe that stands, of which nobody said how large it is.
    let mut draft = full();
    draft.run_mut(RunId(5)).state = State::Existing;
    assert_eq!(tick(&draft.job, "fittings"), Tick::Missing);
}

/// A valve between regulator and union, or tubing at the regulator: nothing is missing. The list says what the rule says.
#[test]
fn a_union_is_looked_for_along_the_pipe_and_on_rigid_pipe_alone() {
    let mut draft = full();
    // J3 regulator ─ R3 ─ J4 union: a valve within R3.
    let (whole, feet) = (draft.run_mut(RunId(3)).clone(), 0.4);
    let valve = draft.at(900, 0, 0);
    draft.put(valve, Device::Valve(Valve::default()));
    draft.run_mut(RunId(3)).to = valve;
    draft.run_mut(RunId(3)).length = Some(Length::from_feet(feet));
    let second = draft.run(valve, whole.to, feet);
    draft.run_mut(second).material = whole.material;
    draft.run_mut(second).size = whole.size;
    assert_eq!(tick(&draft.job, "regulator-union"), Tick::Shown);
    draft.run_mut(second).length = Some(Length::from_feet(0.7));
    assert_eq!(tick(&draft.job, "regulator-union"), Tick::Missing, "1.1 ft in all");
    for run in [RunId(2), RunId(3)] {
        draft.run_mut(run).material = Some(Material::Csst);
    }
    assert_eq!(tick(&draft.job, "regulator-union"), Tick::Shown, "asked on rigid pipe");
}

/// The hose behind a connector has no size of the house's: none is missing.
#[test]
fn the_hose_of_an_appliance_needs_no_size() {
    let mut draft = full();
    draft.put(JointId(6), Device::Connector(Connector::default()));
    assert_eq!(tick(&draft.job, "sizes"), Tick::Shown);
}

#[test]
fn what_a_job_has_nothing_of_is_not_called_for() {
    let mut draft = full();
    draft.run_mut(RunId(4)).surroundings = Surroundings::Indoors;
    draft.run_mut(RunId(5)).surroundings = Surroundings::Indoors;
    draft.joint_mut(JointId(3)).placed = None;
    for joint in [6, 7] {
        draft.joint_mut(JointId(joint)).at.up = 0;
    }
    draft.joint_mut(JointId(7)).placed.as_mut().unwrap().state = State::Existing;
    for id in [
        "concealed",
        "burial-depth",
        "tracer",
        "regulator-union",
        "elevations",
        "makers-data",
    ] {
        assert_eq!(tick(&draft.job, id), Tick::NotCalledFor, "{id}");
    }
    // A job without a fuel cannot be drawn: the kind of gas is always shown.
    assert_eq!(tick(&Job::default(), "fuel"), Tick::Shown);
}

#[test]
fn what_is_missing_leads_to_its_place_and_field() {
    let mut draft = full();
    draft.run_mut(RunId(5)).cover = None;
    heater(&mut draft).input = None;
    draft.job.title.site.clear();
    let list = list(&draft.job);
    let of = |id: &str| {
        let line = line(&list, id);
        (line.places.clone(), line.field)
    };
    assert_eq!(of("burial-depth"), (vec![Place::Run(RunId(5))], Some("run: cover")));
    assert_eq!(of("inputs"), (vec![Place::Joint(JointId(7))], Some("appliance")));
    assert_eq!(of("address"), (vec![], Some("title: job_address, parcel or owner")));
}

/// As many offices as the table of what was read has: 36 items, of which four nobody read names.
#[test]
fn each_item_says_how_many_offices_ask_for_it() {
    let list = list(&Job::default());
    assert_eq!(list.lines.len(), 36);
    assert_eq!(
        list.lines
            .iter()
            .map(|line| line.item.ask.id())
            .collect::<BTreeSet<_>>()
            .len(),
        36
    );
    let asked = |id: &str| line(&list, id).item.asked;
    assert_eq!(
        ["drawing", "sizes", "route", "valves", "tracer"].map(asked),
        [14, 12, 10, 2, 1]
    );
    for line in &list.lines {
        assert_eq!(line.item.read, 23);
        assert_eq!(
            line.item.mark == Mark::Memory,
            line.item.asked == 0,
            "{}",
            line.item.ask.id()
        );
    }
}

#[test]
fn any_job_has_its_list() {
    let random = (0..30).map(|seed| random_job(seed, 40));
    let wild = (0..400).map(|seed| wild_job(seed, 12));
    for job in random.chain(wild).chain([Job::default()]) {
        for line in list(&job).lines {
            assert!(!line.words.is_empty(), "{line:?}");
            for place in &line.places {
                match *place {
                    Place::Joint(id) => assert!(job.joints.get(id).is_some()),
                    Place::Run(id) => assert!(job.runs.get(id).is_some()),
                    Place::Job | Place::Section(_) => {}
                }
            }
        }
    }
}
