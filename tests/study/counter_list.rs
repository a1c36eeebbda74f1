//! Whole take-offs of four jobs as a fitter asks for them at a counter, worked by hand from the drawing.
//!
//! Lengths and take-outs: as in `hand_counted.rs` (1/2 in elbow 0.5857 in, union 0.4207 in). Sticks of steel are 21 ft (ASTM
//! A53, from memory), coils of tubing 25 ft and more (makers, from memory). Hangers of 1/2 in steel 6 ft apart (IFGC table
//! 415.1), each straight stretch for itself, none on a stub under 1 ft (common practice, no source). A sleeve for 1/2 in
//! is two sizes larger, 1 in (IRC 2018 chapter 26 as quoted). 1/2 in pipe is 0.840 in outside (ASME B36.10M).

use stubout::codebook::{Codebook, OwnLengths};
use stubout::file;
use stubout::study::Study;
use stubout::units::UnitSystem;
use stubout::work::{CutList, Group, StockPlan, TakeOff};

/// What is not there yet or goes: heading, how much, what, size, material.
fn asked_for(text: &str) -> Vec<String> {
    asked_of(text, Codebook::published())
}

fn asked_of(text: &str, book: &Codebook) -> Vec<String> {
    let job = file::read(text).unwrap();
    let study = Study::of(&job, book);
    let cuts = CutList::of(&job, &study, book);
    let stock = StockPlan::of(&cuts, &study, book);
    let lines = TakeOff::of(&job, &study, book, &cuts, &stock).lines;
    let lines = lines.iter().filter(|line| line.group != Group::Stays);
    let cells = lines.map(|line| {
        let how_much = line.quantity.show(UnitSystem::Us);
        let cells = [&line.heading(), &how_much, &line.what, &line.size, line.material];
        cells.join(" | ").trim_end().to_owned()
    });
    cells.collect()
}

#[track_caller]
fn check(text: &str, expected: &str) {
    let expected: Vec<&str> = expected
        .lines()
        .map(str::trim)
        .filter(|line| !line.is_empty())
        .collect();
    assert_eq!(asked_for(text), expected);
}

#[test]
fn a_tee_in_tubing_with_steel_through_a_wall() {
    // Pipe: 36 − 0.5857 and 66 − 2 × 0.5857 are 100.2 in, from one stick. The male end of the street elbow goes into the
    // valve. Hangers: 36 in, one; 66 in, one; down 4 + 5 = 9 in, none. Outdoors 9 in of pipe: π × 0.84/12 × 9/12 = 0.16 ft².
    // Threads: tee 3, elbow 2, street elbow 1, valve 2, reducing coupling 2, quick-disconnect coupling 1.
    check(
        include_str!("../jobs/everyday-tubing-tee.ron"),
        "Buy: pipe and nipples | 1 × 21'-0\" | pipe | 1/2\" | black steel, Schedule 40
         Buy: pipe and nipples | 1 | close nipple | 3/8\" × 1 in | black steel, Schedule 40
         Buy: fittings | 1 | 90° elbow | 1/2\" | malleable iron, class 150
         Buy: fittings | 1 | 90° street elbow | 1/2\" | malleable iron, class 150
         Buy: fittings | 1 | reducing coupling | 1/2\" × 3/8\" | malleable iron, class 150
         Buy: valves and gas controls | 1 | ball valve | 1/2\" |
         Buy: valves and gas controls | 1 | hose | 3/8\" × 12'-0\" |
         Buy: valves and gas controls | 1 | quick-disconnect coupling | 3/8\" |
         Buy: hangers, sleeves and protection | 2 | hanger or strap | for 1/2\" steel |
         Buy: hangers, sleeves and protection | 1 | pipe sleeve | 1\" × 8 in |
         Buy: hangers, sleeves and protection | 0.2 ft² | paint or coating, steel pipe outdoors |  |
         Buy: sealants and test | as needed | thread compound or tape |  |
         Buy: sealants and test | 1 | test cap | 3/8\" | malleable iron, class 150
         Buy: sealants and test | as needed | leak-detection fluid |  |
         Confirm before ordering | 1 | nipple | 1/2\" × to measure | black steel, Schedule 40
         Confirm before ordering | 1 | tee | thread of the EHD 18 fitting × 1/2\", branch thread of the EHD 23 fitting | malleable iron, class 150
         Confirm before ordering | 1 | tubing fitting | EHD 18 | CSST
         Confirm before ordering | 1 | tubing fitting | EHD 23 | CSST
         Confirm before ordering | 2 | test plug | size not known | malleable iron, class 150
         Make on site | 2 | gap to be sealed | for 1/2\" |
         Make on site | 11 | threaded joint to be made up |  |
         Make on site | 2 | tubing-fitting joint to be made up |  |
         Remove | 1 | reducing coupling | EHD 23 × EHD 18 | CSST",
    );
}

#[test]
fn a_tee_in_tubing_with_a_branch_of_tubing() {
    // Pipe: 66 − 0.5857 in. Tubing: 36 in, the shortest coil. Between elbow and valve 4 − 0.5857 in: 3-1/2, the valve still to
    // be measured; between valve and coupling both. Hangers: 66 in, one; tubing as its maker says. Tubing stands that is bonded.
    // Threads: tee 3, tubing fitting at the pipe 1, elbow 2, valve 2, reducing coupling 2, coupling 1. Nuts: 3 and 1.
    check(
        include_str!("../jobs/tubing-branch.ron"),
        "Buy: pipe and nipples | 1 × 21'-0\" | pipe | 1/2\" | black steel, Schedule 40
         Buy: pipe and nipples | 1 | close nipple | 3/8\" × 1 in | black steel, Schedule 40
         Buy: fittings | 1 | 90° elbow | 1/2\" | malleable iron, class 150
         Buy: fittings | 1 | reducing coupling | 1/2\" × 3/8\" | malleable iron, class 150
         Buy: valves and gas controls | 1 | ball valve | 1/2\" |
         Buy: valves and gas controls | 1 | hose | 3/8\" × 12'-0\" |
         Buy: valves and gas controls | 1 | quick-disconnect coupling | 3/8\" |
         Buy: tubing manufacturer's parts | 1 × 25'-0\" | tube | EHD 23 | CSST
         Buy: tubing manufacturer's parts | 1 | tubing fitting, female thread | EHD 23 × 1/2\" | CSST
         Buy: hangers, sleeves and protection | 1 | hanger or strap | for 1/2\" steel |
         Buy: hangers, sleeves and protection | 1 | pipe sleeve | 1\" × 8 in |
         Buy: hangers, sleeves and protection | 0.2 ft² | paint or coating, steel pipe outdoors |  |
         Buy: sealants and test | as needed | thread compound or tape |  |
         Buy: sealants and test | 1 | test cap | 3/8\" | malleable iron, class 150
         Buy: sealants and test | as needed | leak-detection fluid |  |
         Confirm before ordering | 1 | nipple | 1/2\" × to measure | black steel, Schedule 40
         Confirm before ordering | 1 | nipple | 1/2\" × 3 1/2 in | black steel, Schedule 40
         Confirm before ordering | 1 | tee | thread of the EHD 23 fitting × thread of the EHD 18 fitting, branch thread of the EHD 23 fitting | malleable iron, class 150
         Confirm before ordering | 1 | tubing fitting | EHD 18 | CSST
         Confirm before ordering | 2 | tubing fitting | EHD 23 | CSST
         Confirm before ordering | per manufacturer | hanger or strap | for EHD 23 CSST |
         Confirm before ordering | 1 | bonding clamp |  |
         Confirm before ordering | as needed | bonding wire, copper, 6 AWG |  |
         Confirm before ordering | 2 | test plug | size not known | malleable iron, class 150
         Make on site | 1 | bend | EHD 23 | CSST
         Make on site | 2 | gap to be sealed | for 1/2\" |
         Make on site | 11 | threaded joint to be made up |  |
         Make on site | 4 | tubing-fitting joint to be made up |  |
         Remove | 1 | reducing coupling | EHD 23 × EHD 18 | CSST",
    );
}

#[test]
fn an_elbow_with_two_female_ends_outside_the_wall() {
    // As the first, with a nipple from elbow to valve, 4 − 0.5857 in: 3-1/2, the valve still to be measured. Threads: tee 3,
    // elbows 4, valve 2, reducing coupling 2, quick-disconnect coupling 1.
    check(
        include_str!("../jobs/street-elbow-through-wall.ron"),
        "Buy: pipe and nipples | 1 × 21'-0\" | pipe | 1/2\" | black steel, Schedule 40
         Buy: pipe and nipples | 1 | close nipple | 3/8\" × 1 in | black steel, Schedule 40
         Buy: fittings | 2 | 90° elbow | 1/2\" | malleable iron, class 150
         Buy: fittings | 1 | reducing coupling | 1/2\" × 3/8\" | malleable iron, class 150
         Buy: valves and gas controls | 1 | ball valve | 1/2\" |
         Buy: valves and gas controls | 1 | hose | 3/8\" × 12'-0\" |
         Buy: valves and gas controls | 1 | quick-disconnect coupling | 3/8\" |
         Buy: hangers, sleeves and protection | 2 | hanger or strap | for 1/2\" steel |
         Buy: hangers, sleeves and protection | 1 | pipe sleeve | 1\" × 8 in |
         Buy: hangers, sleeves and protection | 0.2 ft² | paint or coating, steel pipe outdoors |  |
         Buy: sealants and test | as needed | thread compound or tape |  |
         Buy: sealants and test | 1 | test cap | 3/8\" | malleable iron, class 150
         Buy: sealants and test | as needed | leak-detection fluid |  |
         Confirm before ordering | 1 | nipple | 1/2\" × to measure | black steel, Schedule 40
         Confirm before ordering | 1 | nipple | 1/2\" × 3 1/2 in | black steel, Schedule 40
         Confirm before ordering | 1 | tee | thread of the EHD 18 fitting × 1/2\", branch thread of the EHD 23 fitting | malleable iron, class 150
         Confirm before ordering | 1 | tubing fitting | EHD 18 | CSST
         Confirm before ordering | 1 | tubing fitting | EHD 23 | CSST
         Confirm before ordering | 2 | test plug | size not known | malleable iron, class 150
         Make on site | 2 | gap to be sealed | for 1/2\" |
         Make on site | 12 | threaded joint to be made up |  |
         Make on site | 2 | tubing-fitting joint to be made up |  |
         Remove | 1 | reducing coupling | EHD 23 × EHD 18 | CSST",
    );
}

#[test]
fn an_outlet_through_the_rim_joist() {
    // Pipe: 8 − 0.4207 = 7.5793 in (over 6, and no nipple within 1/8) and 74 − 0.4207 in. From the street elbow down 3 −
    // 0.5857 = 2.4143: 2-1/2, the coupling still to be measured. Hangers: 8 + 74 + 2-1/16 in one line are 7 ft, two; down 3 in,
    // none. Outdoors 5-1/16 in: π × 0.84/12 × 5.0625/12 = 0.09 ft². Threads: tee 3, union 2, valve 2, street elbow 1, reducing
    // coupling 2, quick-disconnect coupling 1.
    check(
        include_str!("../jobs/rim-joist-outlet.ron"),
        "Buy: pipe and nipples | 1 × 21'-0\" | pipe | 1/2\" | black steel, Schedule 40
         Buy: pipe and nipples | 1 | close nipple | 3/8\" × 1 in | black steel, Schedule 40
         Buy: fittings | 1 | 90° street elbow | 1/2\" | malleable iron, class 150
         Buy: fittings | 1 | reducing coupling | 1/2\" × 3/8\" | malleable iron, class 150
         Buy: fittings | 1 | union | 1/2\" | malleable iron, class 150
         Buy: valves and gas controls | 1 | ball valve | 1/2\" |
         Buy: valves and gas controls | 1 | hose | 3/8\" × 10'-0\" |
         Buy: valves and gas controls | 1 | quick-disconnect coupling | 3/8\" |
         Buy: hangers, sleeves and protection | 2 | hanger or strap | for 1/2\" steel |
         Buy: hangers, sleeves and protection | 1 | pipe sleeve | 1\" × 2 1/4 in |
         Buy: hangers, sleeves and protection | 0.1 ft² | paint or coating, steel pipe outdoors |  |
         Buy: sealants and test | as needed | thread compound or tape |  |
         Buy: sealants and test | 1 | test cap | 3/8\" | malleable iron, class 150
         Buy: sealants and test | as needed | leak-detection fluid |  |
         Confirm before ordering | 1 | nipple | 1/2\" × 2 1/2 in | black steel, Schedule 40
         Confirm before ordering | 1 | tee | thread of the EHD 23 fitting × thread of the EHD 18 fitting, branch 1/2\" | malleable iron, class 150
         Confirm before ordering | 1 | tubing fitting | EHD 18 | CSST
         Confirm before ordering | 1 | tubing fitting | EHD 23 | CSST
         Confirm before ordering | 2 | test plug | size not known | malleable iron, class 150
         Make on site | 2 | gap to be sealed | for 1/2\" |
         Make on site | 11 | threaded joint to be made up |  |
         Make on site | 2 | tubing-fitting joint to be made up |  |
         Remove | 1 | reducing coupling | EHD 23 × EHD 18 | CSST",
    );
}

/// The propane job of the Canadian figure 6-15 (`tests/published/canada.rs`) with flared copper; tube by its outside diameter.
#[test]
fn propane_in_flared_copper() {
    // Three sizes: 50 ft of 3/8 in at 10 psi, 20 + 10 ft of 7/8 in, 5 ft of 1/2 in; each from one coil of soft tube, 60 ft the
    // shortest. Adapters: at the tank and before the regulator for 3/8 in tube, threads of 1/4 in pipe size as the regulator
    // has; behind it for 7/8 in tube; at A 7/8 in with the 3/4 in thread of the appliance, at B 1/2 in with 3/8 in. Tee: 7/8,
    // branch 1/2. Nuts: 3/8 two, 7/8 four, 1/2 two. Flared joints: one a nut. Threads: one an adapter.
    let text = include_str!("../jobs/canada-fig-6-15.ron").replace("copper_l", "copper_l, copper: flared");
    // Hangers: 3/8 has no published spacing; 5 ft at 4 ft, two; 30 ft in one line at 8 ft, four. Test caps on the adapters' threads,
    // the tank, both sides of the regulator and both appliances being off.
    check(
        &text,
        "Buy: pipe and nipples | 1 × 60'-0\" | tube | 3/8\" OD | copper, type L
         Buy: pipe and nipples | 1 × 60'-0\" | tube | 1/2\" OD | copper, type L
         Buy: pipe and nipples | 1 × 60'-0\" | tube | 7/8\" OD | copper, type L
         Buy: fittings | 1 | tee | 7/8\" OD × 7/8\" OD × 1/2\" OD | brass, for flared copper
         Buy: fittings | 2 | copper adapter | 3/8\" OD × 1/4\" | brass, for flared copper
         Buy: fittings | 1 | copper adapter | 1/2\" OD × 3/8\" | brass, for flared copper
         Buy: fittings | 1 | copper adapter | 7/8\" OD × 1/4\" | brass, for flared copper
         Buy: fittings | 1 | copper adapter | 7/8\" OD × 3/4\" | brass, for flared copper
         Buy: fittings | 2 | flare nut | 3/8\" OD | brass, for flared copper
         Buy: fittings | 2 | flare nut | 1/2\" OD | brass, for flared copper
         Buy: fittings | 4 | flare nut | 7/8\" OD | brass, for flared copper
         Buy: valves and gas controls | 1 | line regulator | 1/4\" |
         Buy: hangers, sleeves and protection | 2 | hanger or strap | for 1/2\" OD copper L |
         Buy: hangers, sleeves and protection | 4 | hanger or strap | for 7/8\" OD copper L |
         Buy: sealants and test | as needed | thread compound or tape |  |
         Buy: sealants and test | 3 | test cap | 1/4\" | malleable iron, class 150
         Buy: sealants and test | 1 | test cap | 3/8\" | malleable iron, class 150
         Buy: sealants and test | 1 | test cap | 3/4\" | malleable iron, class 150
         Buy: sealants and test | as needed | leak-detection fluid |  |
         Confirm before ordering | as needed | vent line to the outdoors |  |
         Confirm before ordering | per manufacturer | hanger or strap | for 3/8\" OD copper L |
         Make on site | 5 | threaded joint to be made up |  |
         Make on site | 8 | flared joint to be made up |  |",
    );
}

/// With the person's own list of fittings the tee in tubing is asked for by its threads, and plugs for its test too.
#[test]
fn threads_of_ones_own_fittings_settle_the_tee_in_tubing() {
    let own = OwnLengths::read("tubing fitting; EHD 23 x 3/4; 41 mm\ntubing fitting; EHD 18 x 1/2; 38 mm");
    assert_eq!(own.faults, []);
    let book = Codebook::published().with_lengths(own);
    let lines = asked_of(include_str!("../jobs/everyday-tubing-tee.ron"), &book);
    for expected in [
        "Buy: fittings | 1 | tee | 1/2\" × 1/2\" × 3/4\" | malleable iron, class 150",
        "Buy: tubing manufacturer's parts | 1 | tubing fitting | EHD 18 × 1/2\" | CSST",
        "Buy: tubing manufacturer's parts | 1 | tubing fitting | EHD 23 × 3/4\" | CSST",
        "Buy: sealants and test | 1 | test plug | 1/2\" | malleable iron, class 150",
        "Buy: sealants and test | 1 | test plug | 3/4\" | malleable iron, class 150",
        "Make on site | 11 | threaded joint to be made up |  |",
    ] {
        assert!(lines.iter().any(|line| line == expected), "{expected}\n{lines:#?}");
    }
    // The valve alone is left to be measured.
    let left: Vec<&String> = lines
        .iter()
        .filter(|line| line.starts_with("Confirm before ordering"))
        .collect();
    assert_eq!(
        left,
        ["Confirm before ordering | 1 | nipple | 1/2\" × to measure | black steel, Schedule 40"]
    );
}

/// The vent of a regulator in a basement is led outdoors by a line that the drawing does not show.
#[test]
fn the_vent_of_a_regulator_indoors_takes_a_line() {
    let house = include_str!("../../examples/two-pressure-house.ron");
    let vent = "Confirm before ordering | as needed | vent line to the outdoors |  |";
    assert!(asked_for(house).iter().any(|line| line == vent));
    let limited = house.replace("vent: outdoors", "vent: limiter");
    assert!(!asked_for(&limited).iter().any(|line| line == vent));
    // The cabin's regulator stands outdoors.
    assert!(
        !asked_for(include_str!("../../examples/propane-cabin.ron"))
            .iter()
            .any(|line| line == vent)
    );
}
