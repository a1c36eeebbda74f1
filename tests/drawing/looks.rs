//! One small golden picture for each thing that a drawing can show; its path is its name. Every case of every enum that
//! says how something looks is walked, so that a new one fails here until its picture was looked at.
//!
//! `BLESS=1 cargo test --test drawing looks` takes the pictures of today as right; `stubout`'s legend and the symbols of
//! the trade (EN ISO 6412-1, ASME Y32.2.3) are what they are held against by eye.

use crate::golden::Golden;
use crate::small::{At, Small, WAYS, beyond, framed, in_a_row, only, times};
use std::collections::HashSet;
use stubout::advice::Standing;
use stubout::drawing::strokes::{self, Hatch};
use stubout::drawing::tags::Subject;
use stubout::drawing::{First, Lettering, Options, Projection, Symbol, in_one_part, isometric, legend_sample};
use stubout::editor::PALETTE;
use stubout::fittings::FittingKind;
use stubout::job::{
    Barrier, CopperJoints, Device, DeviceKind, Material, NorthAxis, Penetration, Rating, SedimentTrap, State, Supply,
    Surroundings, Turn, Valve, ValveKind,
};
use stubout::scene::{Group, Outline, PathItem, Point, Rect, Stroke};
use stubout::units::{Length, NominalSize};

/// All cases of an enum, with the names of their pictures: one that is missing does not compile.
macro_rules! cases {
    ($of:ident { $($case:ident $(($with:expr))? => $name:literal),+ $(,)? }) => {{
        fn _every_case_is_listed(case: $of) {
            match case { $($of::$case { .. } => (),)+ }
        }
        [$(($name, $of::$case $(($with))?)),+]
    }};
}

const STATES: fn() -> [(&'static str, State); 3] = || {
    cases!(State {
        New => "new",
        Existing => "existing",
        Removed => "to_be_removed",
    })
};

const HERE: At = (0, 0, 0);
const EAST: At = (1, 0, 0);
const NORTH: At = (0, 1, 0);
const UP: At = (0, 0, 1);
const DOWN: At = (0, 0, -1);

fn golden(kind: &str) -> Golden {
    Golden::of(&format!("tests/drawing/golden/{kind}"))
}

fn slug(words: &str) -> String {
    words.replace([' ', '-'], "_")
}

/// A line of pipe to the east with nothing at its ends.
fn line(state: State, surroundings: Surroundings, material: Material) -> Small {
    let mut small = Small::default();
    let run = small.pipe(HERE, times(EAST, 6));
    let run = small.draft.run_mut(run);
    (run.state, run.surroundings, run.material) = (state, surroundings, Some(material));
    small
}

/// Pipe from several sides meeting at the lattice's zero, two steps each, of which the first is fed.
fn meeting(ways: &[At]) -> Small {
    let mut small = Small::fed_from(times(ways[0], 2));
    for way in ways {
        small.pipe(HERE, times(*way, 2));
    }
    small.keep(HERE);
    small
}

/// The same of one material.
fn meeting_of(material: Material, ways: &[At]) -> Small {
    let mut small = meeting(ways);
    small.draft.job.settings.material = material;
    if material == Material::Csst {
        small.draft.job.runs = small.draft.job.runs.iter().cloned().map(ehd).collect();
    }
    small
}

fn ehd(run: stubout::job::Run) -> stubout::job::Run {
    stubout::job::Run {
        size: Some(NominalSize::Ehd(18)),
        ..run
    }
}

/// Two runs in line, the first of other pipe.
fn in_line(material: Material, size: NominalSize) -> Small {
    let mut small = Small::fed_from(times(EAST, -2));
    let feed = small.pipe(times(EAST, -2), HERE);
    let feed = small.draft.run_mut(feed);
    (feed.material, feed.size) = (Some(material), Some(size));
    small.pipe(HERE, times(EAST, 2));
    small.keep(HERE);
    small
}

/// Polyethylene that lies in the soil, to steel: below grade, or where it comes up.
fn plastic(comes_up: bool) -> Small {
    let foot = times(if comes_up { DOWN } else { times(EAST, -1) }, 3);
    let mut small = Small::fed_from(foot);
    let feed = small.pipe(foot, HERE);
    let feed = small.draft.run_mut(feed);
    (feed.material, feed.surroundings) = (Some(Material::Pe), Surroundings::Underground);
    let next = small.pipe(HERE, times(EAST, 3));
    small.draft.run_mut(next).surroundings = match comes_up {
        true => Surroundings::Outdoors,
        false => Surroundings::Underground,
    };
    small.keep(HERE);
    small
}

/// A device at the lattice's zero, fed along a way, with pipe that goes on where it has two ends.
fn device(device: Device, state: State, way: At) -> Small {
    let mut small = match device {
        Device::Supply(_) => Small::default(),
        _ => Small::fed_from(times(way, -2)),
    };
    let is_start = matches!(device, Device::Supply(_));
    let is_end = matches!(device, Device::Appliance(_) | Device::Cap(_));
    let is_trap = matches!(device, Device::SedimentTrap(_));
    let mut runs = Vec::new();
    if !is_start {
        runs.push(small.pipe(times(way, -2), HERE));
    }
    // Gas comes down into a trap and leaves by its side.
    let on = if is_trap && way == DOWN { EAST } else { way };
    if !is_end {
        runs.push(small.pipe(HERE, times(on, 2)));
    }
    small.device(HERE, device).state = state;
    if state == State::Existing {
        for run in runs {
            small.draft.run_mut(run).state = State::Existing;
        }
    }
    small
}

/// Every device of the palette, of every kind that has a symbol of its own.
fn devices() -> Vec<(String, Device)> {
    let mut all = Vec::new();
    for device in PALETTE.iter().filter_map(|row| row.item.device()) {
        match &device {
            Device::Valve(valve) => all.extend(valves().map(|(name, kind)| {
                let valve = Valve { kind, ..valve.clone() };
                (name.to_owned(), Device::Valve(valve))
            })),
            Device::Supply(supply) => {
                let metered = Supply {
                    meter: Some(Rating::default()),
                    ..supply.clone()
                };
                all.push(("point_of_delivery_meter".to_owned(), Device::Supply(metered)));
                all.push((slug(device.name()), device));
            }
            _ => all.push((slug(device.name()), device)),
        }
    }
    // Appliances of every class have one symbol.
    let mut seen = HashSet::new();
    all.retain(|(name, _)| seen.insert(name.clone()));
    all
}

fn valves() -> [(&'static str, ValveKind); 5] {
    cases!(ValveKind {
        Ball => "ball_valve",
        Plug => "plug_valve",
        Gate => "gate_valve",
        Globe => "globe_valve",
        Key => "key_valve",
    })
}

fn barriers() -> [(&'static str, Barrier); 7] {
    cases!(Barrier {
        ExteriorWall => "exterior_wall",
        InteriorWall => "interior_wall",
        Foundation => "foundation_wall",
        Floor => "floor",
        Roof => "roof",
        Slab => "slab",
        Ground => "ground_line",
    })
}

/// Pipe along a way through a part of the building.
fn passing(barrier: Barrier, sleeved: bool, way: At) -> Small {
    let mut small = Small::default();
    let run = small.pipe(times(way, -3), times(way, 3));
    small.draft.run_mut(run).penetrations.push(Penetration {
        barrier,
        sleeved,
        ..Penetration::default()
    });
    small
}

/// Two runs that cross on paper; the first lies in front.
fn crossing(front: At, behind: At) -> Small {
    // Toward the viewer along the line of sight: to the south-east and up.
    let nearer = (2, -2, 2);
    let mut small = Small::default();
    small.pipe(times(behind, -3), times(behind, 3));
    small.pipe(beyond(times(front, -3), nearer), beyond(times(front, 3), nearer));
    small
}

/// A line that gas flows along, drawn from either of its ends.
fn flowing(way: At, drawn_backward: bool) -> Small {
    let end = times(way, 7);
    let mut small = Small::fed_from(HERE);
    if drawn_backward {
        small.pipe(end, HERE);
    } else {
        small.pipe(HERE, end);
    }
    small
}

/// The name of a symbol's pictures, and a job that shows it.
fn showing(symbol: Symbol) -> (&'static str, Small) {
    let new = |surroundings| line(State::New, surroundings, Material::Steel40);
    let valve = |kind| {
        let valve = Valve {
            kind,
            ..Valve::default()
        };
        device(Device::Valve(valve), State::New, EAST)
    };
    let item = |item: Item, way| device(item.device().unwrap(), State::New, way);
    use stubout::editor::Item;
    match symbol {
        Symbol::NewPipe => ("new_pipe", new(Surroundings::Indoors)),
        Symbol::ExistingPipe => {
            let small = line(State::Existing, Surroundings::Indoors, Material::Steel40);
            ("existing_pipe", small)
        }
        Symbol::RemovedPipe | Symbol::SalvagedPipe => {
            let mut small = line(State::Removed, Surroundings::Indoors, Material::Steel40);
            let is_kept = symbol == Symbol::SalvagedPipe;
            let run = small.draft.job.runs.at(0).id;
            small.draft.run_mut(run).salvaged = is_kept;
            let name = if is_kept { "salvaged_pipe" } else { "pipe_to_be_removed" };
            small.keep_words(Subject::Run(0));
            (name, small)
        }
        Symbol::ConcealedPipe => ("concealed_pipe", new(Surroundings::Concealed)),
        Symbol::OutdoorPipe => ("outdoor_pipe", new(Surroundings::Outdoors)),
        Symbol::BuriedPipe => ("buried_pipe", new(Surroundings::Underground)),
        Symbol::Csst => ("csst", line(State::New, Surroundings::Indoors, Material::Csst)),
        Symbol::Tick => ("threaded_joint", meeting(&[times(EAST, -1), NORTH])),
        Symbol::Dot => ("brazed_joint", meeting_of(Material::CopperL, &[times(EAST, -1), NORTH])),
        Symbol::Flare => {
            let mut small = meeting_of(Material::CopperL, &[times(EAST, -1), NORTH]);
            small.draft.job.settings.copper = CopperJoints::Flared;
            ("flared_joint", small)
        }
        Symbol::Reducer => ("reducer", in_line(Material::Steel40, NominalSize::Inch(20))),
        Symbol::Transition => ("transition", in_line(Material::CopperL, NominalSize::Inch(12))),
        Symbol::Riser => ("anodeless_riser", plastic(true)),
        Symbol::SupplyMeter => {
            let supply = Supply {
                meter: Some(Rating::default()),
                ..Supply::default()
            };
            let small = device(Device::Supply(supply), State::New, EAST);
            ("point_of_delivery_meter", small)
        }
        Symbol::Supply => ("point_of_delivery", item(Item::Device(DeviceKind::Supply), EAST)),
        Symbol::Meter => ("meter", item(Item::Device(DeviceKind::Meter), EAST)),
        Symbol::Regulator => ("line_regulator", item(Item::Device(DeviceKind::Regulator), EAST)),
        Symbol::BallValve => ("ball_valve", valve(ValveKind::Ball)),
        Symbol::PlugValve => ("plug_valve", valve(ValveKind::Plug)),
        Symbol::GateValve => ("gate_valve", valve(ValveKind::Gate)),
        Symbol::GlobeValve => ("globe_valve", valve(ValveKind::Globe)),
        Symbol::KeyValve => ("key_valve", valve(ValveKind::Key)),
        Symbol::ExcessFlow => ("excess_flow_valve", item(Item::Device(DeviceKind::ExcessFlow), EAST)),
        Symbol::Union => ("union", item(Item::Device(DeviceKind::Union), EAST)),
        Symbol::SedimentTrap => ("sediment_trap", item(Item::Device(DeviceKind::SedimentTrap), DOWN)),
        Symbol::Connector => ("flexible_connector", item(Item::Device(DeviceKind::Connector), EAST)),
        Symbol::QuickCoupling => ("quick_coupling", item(Item::Device(DeviceKind::QuickCoupling), EAST)),
        Symbol::Appliance => ("appliance", item(Item::Device(DeviceKind::Appliance), EAST)),
        Symbol::Cap => ("cap", item(Item::Device(DeviceKind::Cap), EAST)),
        Symbol::Plug => {
            let mut small = meeting(&[times(EAST, -1), EAST]);
            small.device(HERE, Device::Cap(stubout::job::Cap::default()));
            ("plugged_outlet", small)
        }
        Symbol::TestGauge => ("test_gauge", item(Item::Device(DeviceKind::TestGauge), EAST)),
        Symbol::Barrier => ("barrier", passing(Barrier::ExteriorWall, false, EAST)),
        Symbol::Sleeve => ("sleeve", passing(Barrier::ExteriorWall, true, EAST)),
        Symbol::Ground => ("ground_line", passing(Barrier::Ground, false, UP)),
        Symbol::Flow => ("flow", flowing(EAST, false)),
        Symbol::Break => {
            let mut small = new(Surroundings::Indoors);
            let run = small.draft.job.runs.at(0).id;
            small.draft.run_mut(run).length = Some(Length::from_feet(60.0));
            ("longer_than_drawn", small)
        }
        Symbol::TieIn => {
            let mut small = meeting(&[times(EAST, -1), EAST, UP]);
            for number in 0..2 {
                let run = small.draft.job.runs.at(number).id;
                small.draft.run_mut(run).state = State::Existing;
            }
            ("tie_in", small)
        }
        Symbol::SectionNumber => {
            let mut small = flowing(EAST, false);
            small.shows_words = true;
            ("section_number", small)
        }
        Symbol::Crossing => ("crossing", crossing(EAST, NORTH)),
        Symbol::HelperPlane => {
            let mut small = Small::default();
            small.pipe(HERE, (4, 0, 3));
            ("helper_plane", small)
        }
        Symbol::Elevation => {
            let mut small = new(Surroundings::Indoors);
            small.keep_words_at(HERE);
            ("elevation", small)
        }
        Symbol::NumberedPoint => {
            let mut small = new(Surroundings::Indoors);
            let joint = small.joint(HERE);
            small.draft.joint_mut(joint).label = Some("a name far longer than the paper is wide ".repeat(6));
            small.area = Some((30.0, 20.0));
            small.keep_words_at(HERE);
            ("numbered_point", small)
        }
        Symbol::Cloud => {
            let mut small = meeting(&[times(EAST, -1), EAST]);
            small.issued = Some(small.draft.clone());
            let joint = small.joint(HERE);
            small.draft.put(joint, Device::Union);
            ("cloud", small)
        }
    }
}

/// The name of a fitting's picture, and a job in which it stands at the lattice's zero.
fn fitted(kind: FittingKind) -> (&'static str, Small) {
    let back = times(EAST, -1);
    let south = times(NORTH, -1);
    let street = |turn| {
        let mut small = meeting(&[back, NORTH]);
        let joint = small.joint(HERE);
        small.draft.joint_mut(joint).turn = turn;
        small
    };
    match kind {
        FittingKind::Elbow90 => ("elbow_90", meeting(&[back, NORTH])),
        FittingKind::StreetElbow90 => ("street_elbow", street(Turn::StreetElbowDownstream)),
        FittingKind::Elbow45 => ("elbow_45", meeting(&[back, (1, 1, 0)])),
        FittingKind::OddElbow(_) => ("elbow_of_another_angle", meeting(&[back, (1, 2, 0)])),
        FittingKind::Bend => ("bend", meeting_of(Material::Csst, &[back, NORTH])),
        FittingKind::Tee => ("tee", meeting(&[back, EAST, NORTH])),
        FittingKind::SideOutletElbow => ("side_outlet_elbow", meeting(&[back, NORTH, UP])),
        FittingKind::Cross => ("cross", meeting(&[back, EAST, NORTH, south])),
        FittingKind::SideOutletTee => ("side_outlet_tee", meeting(&[back, EAST, NORTH, UP])),
        FittingKind::ManyWays(_) => ("many_ways", meeting(&[back, EAST, NORTH, south, UP])),
        FittingKind::Coupling => ("coupling", meeting(&[back, EAST])),
        FittingKind::ReducingCoupling => ("reducing_coupling", in_line(Material::Steel40, NominalSize::Inch(20))),
        FittingKind::TubingFitting => ("tubing_fitting", in_line(Material::Csst, NominalSize::Ehd(23))),
        FittingKind::Adapter => ("copper_adapter", in_line(Material::CopperL, NominalSize::Inch(12))),
        FittingKind::Transition => ("transition_in_the_soil", plastic(false)),
        FittingKind::Riser => ("anodeless_riser", plastic(true)),
        FittingKind::Nipple => {
            let mut small = meeting(&[back, NORTH]);
            small.device(HERE, Device::Valve(Valve::default()));
            ("nipple_between_valve_and_elbow", small)
        }
        FittingKind::TrapNipple => {
            let small = device(Device::SedimentTrap(SedimentTrap::default()), State::New, DOWN);
            ("trap_nipple", small)
        }
        FittingKind::Cap => {
            let cap = Device::Cap(stubout::job::Cap::default());
            ("cap", device(cap, State::New, EAST))
        }
        FittingKind::Plug => ("plug_in_a_tee", plugged()),
    }
}

/// A branch that goes from a tee that stays.
fn plugged() -> Small {
    let mut small = meeting(&[times(EAST, -1), EAST, NORTH]);
    for (number, run) in small
        .draft
        .job
        .runs
        .iter()
        .map(|run| run.id)
        .collect::<Vec<_>>()
        .into_iter()
        .enumerate()
    {
        small.draft.run_mut(run).state = if number == 2 { State::Removed } else { State::Existing };
    }
    small
}

fn fittings() -> [FittingKind; 20] {
    cases!(FittingKind {
        Elbow90 => "",
        StreetElbow90 => "",
        Elbow45 => "",
        OddElbow(634) => "",
        Bend => "",
        Tee => "",
        SideOutletElbow => "",
        Cross => "",
        SideOutletTee => "",
        ManyWays(5) => "",
        Coupling => "",
        ReducingCoupling => "",
        TubingFitting => "",
        Adapter => "",
        Transition => "",
        Riser => "",
        Nipple => "",
        TrapNipple => "",
        Cap => "",
        Plug => "",
    })
    .map(|(_, kind)| kind)
}

#[test]
fn every_symbol_is_drawn_as_it_was_looked_at() {
    let mut golden = golden("symbol");
    for symbol in Symbol::ALL {
        let (name, small) = showing(symbol);
        assert!(
            small.drawn().used.contains(symbol),
            "{name}: the job does not show {symbol:?}"
        );
        golden.picture(name, &framed(name, small.group()));
    }
    golden.done();
}

#[test]
fn every_row_of_the_legend_is_as_it_was_looked_at() {
    let mut golden = golden("legend");
    for symbol in Symbol::ALL {
        let (name, _) = showing(symbol);
        golden.picture(name, &framed(name, legend_sample(symbol, Point::default())));
    }
    golden.done();
}

/// What stays is thin, what goes is struck out.
#[test]
fn every_device_tells_its_state() {
    let mut golden = golden("device");
    for (name, of) in devices() {
        for (state, which) in STATES() {
            let name = format!("{name}_{state}");
            let way = if matches!(of, Device::SedimentTrap(_)) {
                DOWN
            } else {
                EAST
            };
            golden.picture(&name, &framed(&name, device(of.clone(), which, way).group()));
        }
    }
    golden.done();
}

/// East, west, north, south, up, down, each beside the one before.
#[test]
fn every_device_turns_with_its_pipe() {
    let mut golden = golden("turned");
    for (name, of) in devices() {
        let turned = WAYS.map(|(_, way)| device(of.clone(), State::New, way).group());
        golden.picture(&name, &framed(&name, in_a_row(turned)));
    }
    golden.done();
}

#[test]
fn every_line_tells_state_surroundings_and_tubing() {
    let mut golden = golden("line");
    let surroundings = cases!(Surroundings {
        Indoors => "indoors",
        Concealed => "concealed",
        Outdoors => "outdoors",
        Underground => "underground",
    });
    for (state, which) in STATES() {
        for (place, where_) in surroundings {
            for (material, of) in [("", Material::Steel40), ("_tubing", Material::Csst)] {
                let name = format!("{state}_{place}{material}");
                golden.picture(&name, &framed(&name, line(which, where_, of).group()));
            }
        }
    }
    golden.done();
}

/// On all three axes: the line beside outdoor pipe, waves and crosses lie as they do on the level.
#[test]
fn lines_of_every_material_lie_along_every_axis() {
    let mut golden = golden("material");
    for material in Material::ALL {
        let name = slug(material.short());
        let along = [EAST, NORTH, UP].map(|way| {
            let mut small = Small::default();
            let run = small.pipe(HERE, times(way, 6));
            let run = small.draft.run_mut(run);
            (run.material, run.surroundings) = (Some(material), Surroundings::Outdoors);
            small.group()
        });
        golden.picture(&name, &framed(&name, in_a_row(along)));
    }
    golden.done();
}

#[test]
fn at_every_crossing_the_pipe_behind_is_broken() {
    let mut golden = golden("crossing");
    let axes = [("east", EAST), ("north", NORTH), ("up", UP)];
    for (front, one) in axes {
        for (behind, other) in axes.into_iter().filter(|(_, other)| *other != one) {
            let name = format!("{front}_in_front_of_{behind}");
            golden.picture(&name, &framed(&name, crossing(one, other).group()));
        }
    }
    golden.done();
}

/// Whichever end a run was drawn from.
#[test]
fn arrows_point_the_way_that_gas_flows() {
    let mut golden = golden("flow");
    for (name, way) in WAYS {
        let [forward, backward] = [false, true].map(|backward| framed(name, flowing(way, backward).group()));
        assert_eq!(forward, backward, "{name}");
        golden.picture(name, &forward);
    }
    golden.done();
}

#[test]
fn every_barrier_lies_across_its_pipe() {
    let mut golden = golden("barrier");
    for (name, barrier) in barriers() {
        for (along, way) in [("east", EAST), ("north", NORTH), ("up", UP)] {
            for (sleeve, sleeved) in [("", false), ("_sleeved", true)] {
                let name = format!("{name}_along_{along}{sleeve}");
                golden.picture(&name, &framed(&name, passing(barrier, sleeved, way).group()));
            }
        }
    }
    golden.done();
}

#[test]
fn every_fitting_is_drawn_as_it_was_looked_at() {
    let mut golden = golden("fitting");
    for kind in fittings() {
        let (name, mut small) = fitted(kind);
        let joint = small.joint(HERE);
        let study = small.study();
        let here = study.assemblies[small.draft.joint_index(joint)].fittings.clone();
        let found: Vec<FittingKind> = study.fittings[here].iter().map(|fitting| fitting.kind).collect();
        let is_there = |found: &FittingKind| std::mem::discriminant(found) == std::mem::discriminant(&kind);
        assert!(found.iter().any(is_there), "{name}: {found:?}");
        golden.picture(name, &framed(name, small.group()));
    }
    golden.done();
}

/// What is said where the work begins, how high pipe lies, which way north is.
#[test]
fn words_of_the_drawing_itself_are_as_they_were_looked_at() {
    let mut golden = golden("words");
    let mut tie_in = meeting(&[times(EAST, -1), EAST, UP]);
    for number in 0..2 {
        let run = tie_in.draft.job.runs.at(number).id;
        tie_in.draft.run_mut(run).state = State::Existing;
    }
    tie_in.keep_words_at(HERE);
    golden.picture("tie_in", &framed("tie_in", tie_in.group()));
    let norths = cases!(NorthAxis {
        North => "north",
        East => "east",
        South => "south",
        West => "west",
    });
    for (name, north) in norths {
        let mut small = Small::default();
        small.pipe(HERE, times(EAST, 6));
        small.kept.clear();
        small.keep_words(Subject::Sheet);
        small.draft.job.settings.north = north;
        let name = format!("compass_north_is_the_lattices_{name}");
        golden.picture(&name, &framed(&name, small.group()));
    }
    golden.done();
}

#[test]
fn every_helper_plane_is_hatched_along_its_deviation() {
    let mut golden = golden("plane");
    for (name, way) in [
        ("rise_along_east", (4, 0, 3)),
        ("rise_along_north", (0, 4, 3)),
        ("fall_along_east", (4, 0, -3)),
        ("aside_along_east", (4, 3, 0)),
        ("aside_along_north", (3, 4, 0)),
        ("rolling", (4, 2, 3)),
    ] {
        let mut small = Small::default();
        small.pipe(HERE, way);
        golden.picture(name, &framed(name, small.group()));
    }
    golden.done();
}

/// Where pipe goes on on another sheet, and which part of the whole this is.
#[test]
fn each_part_shows_its_match_line_and_where_it_lies() {
    let mut golden = golden("part");
    let corner = times(EAST, 30);
    let mut small = Small::default();
    small.pipe(HERE, corner);
    small.pipe(corner, beyond(corner, times(NORTH, 30)));
    let (job, study) = (&small.draft.job, small.study());
    let bare = Options {
        lettering: Lettering::Nothing,
        ..Options::default()
    };
    let paper = Rect::sized(Point::default(), 90.0, 70.0);
    let first = First { sheet: 2, letter: 0 };
    let halves = in_one_part(job, &study, bare, 5.0, first)
        .splits(0, paper)
        .swap_remove(0);
    for (number, name) in ["first_of_two", "second_of_two"].into_iter().enumerate() {
        let options = Options {
            part: Some(halves.part(number)),
            ..bare
        };
        let drawn = isometric(job, &study, paper, options);
        golden.picture(name, &framed(name, only(&drawn.group, &small.kept)));
    }
    golden.done();
}

#[test]
fn strokes_of_a_study_tell_every_standing() {
    let mut golden = golden("strokes");
    let standings = cases!(Standing {
        Holds => "within_capacity",
        Fails => "over_capacity",
        Unknown => "not_judged",
    });
    for (name, standing) in standings {
        let small = line(State::Existing, Surroundings::Indoors, Material::Steel40);
        let job = &small.draft.job;
        let view = Projection {
            origin: Point::default(),
            step: crate::small::STEP,
        };
        let mut group = Group::new().with(small.group());
        for stroke in strokes::along(job, job.runs.at(0).id, &view, Hatch::of(standing)) {
            let line = Outline::line(stroke.from, stroke.to);
            group.push(PathItem::stroked(line, Stroke::new(stroke.pen)));
        }
        golden.picture(name, &framed(name, group));
    }
    golden.done();
}
