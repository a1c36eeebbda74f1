//! A file of version 1, with every key and every word of that version, opens for ever as the same job.
//!
//! `v1.ron` and this job are never changed to suit the program; what version 1 could not say is not added here.

use std::collections::BTreeSet;

use crate::any_job::any_job;
use stubout::file::{read, write};
use stubout::job::*;
use stubout::units::{
    Angle, Flow, GaugePressure, HeatRate, HeatingValue, Length, NominalSize, PressureDrop, UnitSystem,
};

const TEXT: &str = include_str!("v1.ron");

/// The same job by the names that keys and words have today.
const RENAMED: &str = include_str!("v1_renamed.ron");

/// Words that stand where the file has room for one only; a test below holds each.
const OTHER: [&str; 11] = [
    "for_permit",
    "as_built",
    "us",
    "branch_length",
    "north",
    "south",
    "west",
    "natural",
    "elbow",
    "study",
    "key",
];

#[test]
fn the_file_opens_as_the_job_that_it_always_was() {
    let job = read(TEXT).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(job, expected());
}

/// Every key and word that got another name is read by its old one, and saved by its new one.
#[test]
fn old_names_are_read_and_new_ones_are_saved() {
    assert_eq!(read(RENAMED).unwrap_or_else(|error| panic!("{error}")), expected());
    let (old, new) = (words(TEXT), words(RENAMED));
    let renamed: BTreeSet<&String> = old.difference(&new).collect();
    assert!(renamed.len() > 20, "{renamed:?}");
    let saved = words(&write(&read(TEXT).unwrap()));
    for name in renamed {
        assert!(!saved.contains(name), "`{name}` is still written");
    }
    assert_eq!(read(&write(&expected())).unwrap(), expected());
}

/// No error offers a name of older files.
#[test]
fn old_names_are_not_offered() {
    let wrong = RENAMED.replacen("location:", "place:", 1);
    let fault = read(&wrong).unwrap_err().to_string();
    assert!(fault.contains("location") && !fault.contains("lies"), "{fault}");
}

/// Keys and words that the program writes today, over many jobs.
#[test]
fn the_file_has_every_key_and_every_word() {
    let mut kept = words(RENAMED);
    kept.extend(words(crate::later::TEXT));
    kept.extend(OTHER.map(str::to_owned));
    for seed in 0..300 {
        for word in words(&write(&any_job(seed, 6))) {
            assert!(kept.contains(&word), "`{word}` is in no file that is kept");
        }
    }
}

/// What stands outside of quotes and comments, numbers left out.
fn words(text: &str) -> BTreeSet<String> {
    let mut words = BTreeSet::new();
    for line in text.lines() {
        let mut rest = line;
        while let Some(start) = rest.find(|symbol: char| symbol.is_alphabetic() || symbol == '"' || symbol == '/') {
            rest = &rest[start..];
            if rest.starts_with("//") {
                break;
            }
            let length = match rest.strip_prefix('"') {
                Some(_) => quoted(rest),
                None => rest
                    .find(|symbol: char| !symbol.is_alphanumeric() && symbol != '_')
                    .unwrap_or(rest.len())
                    .max(1),
            };
            if !rest.starts_with('"') {
                words.insert(rest[..length].to_owned());
            }
            rest = &rest[length..];
        }
    }
    words
}

fn quoted(text: &str) -> usize {
    let mut escaped = false;
    for (at, symbol) in text.char_indices().skip(1) {
        match symbol {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            '"' => return at + 1,
            _ => {}
        }
    }
    text.len()
}

fn expected() -> Job {
    Job {
        title: TitleBlock {
            job: "Patio kitchen".into(),
            site: "1 Example Lane".into(),
            parcel: "Lot 7".into(),
            owner: "A. Owner".into(),
            firm: "Example Gas Fitting".into(),
            contact: "555-0100".into(),
            licence_holder: "B. Fitter".into(),
            licence: "GF-0001".into(),
            permit: "P-2".into(),
            drawn_by: "B. Fitter".into(),
            checked_by: "C. Checker".into(),
            drawing: "G-1".into(),
            date: "2 May".into(),
            description: "Adds a \"patio\" kitchen\\grill.".into(),
            status: Status::Exercise,
            revisions: vec![Revision {
                mark: "A".into(),
                date: "3 May".into(),
                what: "Moved the grill".into(),
                by: "B. Fitter".into(),
            }],
        },
        settings: Settings {
            units: UnitSystem::Metric,
            step: Length::from_mm(250.0),
            material: Material::CopperK,
            copper: CopperJoints::Flared,
            profile: "example".into(),
            tables: vec![OwnTable {
                id: "Example tubing".into(),
                figures: "0123456789abcdef".into(),
            }],
            method: Some(Method::LongestLength),
            allowed_drop: Some(PressureDrop::from_inches_wc(0.5)),
            altitude: Some(Length::from_metres(1200.0)),
            datum: Length::from_inches(-4.0),
            datum_name: "patio slab".into(),
            north: NorthAxis::East,
        },
        gas: Gas {
            fuel: Fuel::Propane,
            specific_gravity: Some(1.5),
            heating_value: Some(HeatingValue::from_btu_per_ft3(2490.0)),
        },
        joints: joints().into_iter().collect(),
        runs: runs().into_iter().collect(),
        notes: vec![Note {
            at: JointId(9),
            text: "Two\nlines".into(),
            words_at: Some(WordsAt::from_mm(0.0, 2000.0)),
        }],
        by_hand: by_hand(),
        variants: Variants::default(),
    }
}

fn by_hand() -> ByHand {
    let line = |what: &str, quantity| Extra {
        what: what.into(),
        quantity,
        ..Extra::default()
    };
    let step = |step: &str| OwnStep {
        step: step.into(),
        ..OwnStep::default()
    };
    ByHand {
        extra: vec![
            Extra {
                unit: "can".into(),
                note: "for gas".into(),
                ..line("Thread sealant", 2.5)
            },
            line("Tags", 4.0),
            line("Lock", 1.0),
        ],
        order: vec![
            OwnStep {
                words: Some("Shut {places}.".into()),
                ..step("shut")
            },
            OwnStep {
                after: vec!["Call the office.".into(), "Wait.".into()],
                ..step("test")
            },
            OwnStep {
                left_out: true,
                ..step("paint")
            },
        ],
    }
}

fn joints() -> Vec<Joint> {
    let rating = Rating {
        capacity: Some(Flow::from_cfh(250.0)),
        drop: Some(PressureDrop::from_pa(125.0)),
    };
    let valve = |kind| {
        Device::Valve(Valve {
            kind,
            rating: Rating::default(),
        })
    };
    let burner = |season| {
        Device::Appliance(Appliance {
            season,
            ..Appliance::default()
        })
    };
    let mut joints: Vec<Joint> = [
        Device::Supply(Supply {
            pressure: Some(GaugePressure::from_psi(2.0)),
            meter: Some(rating.clone()),
            regulator: Some(Rating::default()),
            before: SupplyBefore {
                pressure: Some(GaugePressure::from_psi(0.5)),
                meter: Some(rating.clone()),
                regulator: Some(Rating::default()),
            },
        }),
        Device::Meter(Meter { rating: rating.clone() }),
        Device::Regulator(Regulator {
            outlet: Some(GaugePressure::from_inches_wc(11.0)),
            allowed_drop: Some(PressureDrop::from_inches_wc(1.0)),
            rating: rating.clone(),
            vent: Vent::Outdoors,
        }),
        Device::Valve(Valve {
            kind: ValveKind::Plug,
            rating: rating.clone(),
        }),
        Device::Union,
        Device::SedimentTrap(SedimentTrap {
            depth: Some(Length::from_inches(3.0)),
        }),
        Device::Connector(Connector {
            length: Some(Length::from_feet(3.0)),
            rating: rating.clone(),
        }),
        Device::QuickCoupling(QuickCoupling { rating }),
        Device::Appliance(Appliance {
            name: "Grill".into(),
            class: Some("barbecue".into()),
            input: Some(HeatRate::from_kw(17.5)),
            least_inlet: Some(GaugePressure::from_pa(2000.0)),
            greatest_inlet: Some(GaugePressure::from_inches_wc(14.0)),
            season: Season::Heating,
            start_up: stubout::job::StartUp::default(),
        }),
        Device::Cap(Cap {
            future_input: Some(HeatRate::from_btuh(40_000.0)),
            projection: Some(Length::from_inches(2.5)),
        }),
        Device::TestGauge,
        valve(ValveKind::Ball),
        valve(ValveKind::Gate),
        valve(ValveKind::Globe),
        burner(Season::AllYear),
        burner(Season::Cooling),
        Device::Regulator(Regulator {
            vent: Vent::Limiter,
            ..Regulator::default()
        }),
        Device::ExcessFlow {
            trips: Some(Flow::from_cfh(400.0)),
            loss: Rating {
                capacity: Some(Flow::from_cfh(275.0)),
                drop: Some(PressureDrop::from_inches_wc(0.3)),
            },
        },
    ]
    .into_iter()
    .zip(1..)
    .map(|(device, id)| Joint {
        id: JointId(id),
        at: LatticePoint::new(id as i32, -2, 3),
        placed: Some(Placed::new(device)),
        ..Joint::default()
    })
    .collect();
    joints[3].label = Some("Riser".into());
    joints[3].turn = Turn::StreetElbow;
    joints[3].fitting_takes = Some(Length::from_mm(40.0));
    joints[11].turn = Turn::StreetElbowUpstream;
    joints[12].turn = Turn::StreetElbowDownstream;
    joints[3].words_at = Some(WordsAt::from_mm(12.0, -7.5));
    joints[3].placed = joints[3].placed.take().map(|placed| Placed {
        state: State::Existing,
        size: Some(NominalSize::Inch(6)),
        salvaged: true,
        takes: Some(Length::from_inches(2.125)),
        ..placed
    });
    joints[8].placed.as_mut().unwrap().letter = Some(Letter(28));
    joints
}

fn runs() -> Vec<Run> {
    let run = |id, material, state, surroundings| Run {
        id: RunId(id),
        from: JointId(id),
        to: JointId(id + 1),
        material: Some(material),
        state,
        surroundings,
        ..Run::default()
    };
    let through = |barrier, seal| Penetration {
        barrier,
        seal,
        ..Penetration::default()
    };
    vec![
        Run {
            length: Some(Length::from_inches(150.5)),
            size: Some(NominalSize::Inch(20)),
            replaces: Some(NominalSize::Inch(12)),
            cover: Some(Length::from_inches(18.0)),
            coated: true,
            tracer: true,
            bonded: true,
            jacketed: true,
            salvaged: true,
            words_at: Some(WordsAt::from_mm(-8.25, 0.0)),
            penetrations: vec![
                Penetration {
                    barrier: Barrier::ExteriorWall,
                    at: Some(Length::from_feet(3.0)),
                    construction: Some("2x6 frame".into()),
                    thickness: Some(Length::from_inches(7.25)),
                    sleeved: true,
                    seal: Seal::BothFaces,
                    words_at: None,
                },
                through(Barrier::InteriorWall, Seal::Open),
                Penetration {
                    words_at: Some(WordsAt::from_mm(3.0, 4.0)),
                    ..through(Barrier::Foundation, Seal::Outside)
                },
                through(Barrier::Floor, Seal::Open),
                through(Barrier::Roof, Seal::Open),
                through(Barrier::Slab, Seal::Open),
                through(Barrier::Ground, Seal::Open),
            ],
            ..run(1, Material::Steel40, State::Existing, Surroundings::Outdoors)
        },
        run(2, Material::CopperK, State::New, Surroundings::Indoors),
        run(3, Material::CopperL, State::Removed, Surroundings::Concealed),
        Run {
            size: Some(NominalSize::Ehd(18)),
            offset: Some(MeasuredOffset {
                rise: Length::from_inches(8.0),
                roll: Length::from_inches(12.0),
                run: Some(Length::from_inches(14.4375)),
                angle: Some(Angle::from_degrees(45.0)),
            }),
            ..run(4, Material::Csst, State::New, Surroundings::Indoors)
        },
        run(5, Material::Pe, State::New, Surroundings::Underground),
    ]
}

/// The words of choices that one file has room for only once each.
#[test]
fn the_other_words_open_too() {
    let title = |status| format!("(version: 1, title: (status: {status}))");
    for (word, status) in [
        ("for_permit", Status::ForPermit),
        ("as_built", Status::AsBuilt),
        ("exercise", Status::Exercise),
        ("study", Status::Study),
    ] {
        assert_eq!(read(&title(word)).unwrap().title.status, status);
    }
    let settings = |key, word| {
        read(&format!("(version: 1, settings: ({key}: {word}))"))
            .unwrap()
            .settings
    };
    assert_eq!(settings("units", "us").units, UnitSystem::Us);
    assert_eq!(settings("method", "branch_length").method, Some(Method::BranchLength));
    for (word, north) in [
        ("north", NorthAxis::North),
        ("east", NorthAxis::East),
        ("south", NorthAxis::South),
        ("west", NorthAxis::West),
    ] {
        assert_eq!(settings("north", word).north, north);
    }
    let gas = read("(version: 1, gas: (fuel: natural))").unwrap().gas;
    assert_eq!(gas.fuel, Fuel::Natural);
    for (word, turn) in [
        ("elbow", Turn::Elbow),
        ("street_elbow", Turn::StreetElbow),
        ("street_elbow_upstream", Turn::StreetElbowUpstream),
        ("street_elbow_downstream", Turn::StreetElbowDownstream),
    ] {
        let text = format!("(version: 1, joints: [(id: 1, at: (0, 0, 0), turn: {word})])");
        assert_eq!(read(&text).unwrap().joints.at(0).turn, turn);
    }
}

/// `vented: true`, which older files say, is a vent to the outdoors; what is said in so many words goes before it.
#[test]
fn an_older_word_for_the_vent_is_still_read() {
    for (keys, vent) in [
        ("", Vent::NotSaid),
        ("vented: false", Vent::NotSaid),
        ("vented: true", Vent::Outdoors),
        ("vent: not_said", Vent::NotSaid),
        ("vent: outdoors", Vent::Outdoors),
        ("vent: limiter, vented: true", Vent::Limiter),
    ] {
        let job = read(&format!(
            "(version: 1, joints: [(id: 1, at: (0, 0, 0), device: regulator({keys}))])"
        ))
        .unwrap();
        let placed = job.joints.at(0).placed.as_ref().unwrap();
        assert!(
            matches!(&placed.device, Device::Regulator(it) if it.vent == vent),
            "{keys}"
        );
    }
}

/// What version 1 says by leaving everything out; not the defaults of the program, which may change.
#[test]
fn what_is_left_out_means_what_it_always_meant() {
    let job =
        read("(version: 1, joints: [(id: 1, at: (0, 0, 0)), (id: 2, at: (1, 0, 0))], runs: [(id: 1, from: 1, to: 2)])")
            .unwrap();
    assert_eq!(job.title, TitleBlock::default());
    assert_eq!(job.settings.units, UnitSystem::Us);
    assert_eq!(job.settings.step, Length::from_feet(1.0));
    assert_eq!(job.settings.material, Material::Steel40);
    assert_eq!(job.settings.profile, "us-ifgc");
    assert_eq!(job.settings.method, None);
    assert_eq!(job.settings.datum, Length::ZERO);
    assert_eq!(job.settings.datum_name, "finished floor");
    assert_eq!(job.settings.north, NorthAxis::North);
    assert_eq!(job.gas.fuel, Fuel::Natural);
    assert_eq!((job.gas.specific_gravity, job.gas.heating_value), (None, None));
    let run = job.runs.at(0);
    assert_eq!((run.state, run.surroundings), (State::New, Surroundings::Indoors));
    assert_eq!((run.length, run.size, run.material), (None, None, None));
    assert!(!run.coated && !run.tracer && !run.bonded && !run.jacketed && !run.salvaged && run.penetrations.is_empty());
}
