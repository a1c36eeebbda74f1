//! Take-offs: everything of the drawing once, and all lists from one set of figures.

use crate::draft::Draft;
use crate::random_job::random_job;
use crate::wild_job::wild_job;
use std::collections::HashMap;
use stubout::codebook::{Codebook, Mark};
use stubout::job::*;
use stubout::study::{Place, Study};
use stubout::units::{GaugePressure, Length, NominalSize, Parse, UnitSystem};
use stubout::work::{CutList, Group, Line, Making, OrderOfWork, PriceList, Quantity, Shelf, StockPlan, TakeOff};

struct Lists {
    study: Study,
    cuts: CutList,
    stock: StockPlan,
    take_off: TakeOff,
}

fn lists(job: &Job) -> Lists {
    let book = Codebook::published();
    let study = Study::of(job, book);
    let cuts = CutList::of(job, &study, book);
    let stock = StockPlan::of(&cuts, &study, book);
    let take_off = TakeOff::of(job, &study, book, &cuts, &stock);
    Lists {
        study,
        cuts,
        stock,
        take_off,
    }
}

/// 3/4 in steel: up 8 ft, 50 ft along, down 6 ft, to a grill.
fn house() -> Draft {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let places = [(0, 0, 0), (0, 0, 4), (9, 0, 4), (9, 0, 0)];
    let joints = places.map(|(east, north, up)| draft.at(east, north, up));
    for (pair, feet) in joints.windows(2).zip([8.0, 50.0, 6.0]) {
        let run = draft.run(pair[0], pair[1], feet);
        draft.run_mut(run).size = Some(NominalSize::Inch(12));
    }
    draft.burner(joints[3], "Grill", 40e3);
    draft
}

fn line<'a>(lists: &'a Lists, what: &str) -> &'a Line {
    let mut lines = lists.take_off.lines.iter();
    lines
        .find(|line| line.what == what)
        .unwrap_or_else(|| panic!("no {what}: {:#?}", lists.take_off))
}

#[test]
fn lines_of_ones_own_come_last_as_they_were_typed_and_have_prices() {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let end = draft.at(5, 0, 0);
    draft.run(JointId(1), end, 10.0);
    draft.burner(end, "Grill", 40e3);
    let drawn = lists(&draft.job).take_off.lines.len();
    let line = |what: &str, quantity, note: &str| Extra {
        what: what.to_owned(),
        quantity,
        unit: "can".to_owned(),
        note: note.to_owned(),
    };
    draft.job.by_hand.extra = vec![line("Thread sealant", 2.5, "for gas"), line("", 0.0, "")];
    let take_off = lists(&draft.job).take_off;
    assert_eq!((take_off.lines.len(), take_off.drawn), (drawn + 2, drawn));
    assert_eq!(
        [drawn - 1, drawn, drawn + 1, drawn + 2].map(|at| take_off.own(at)),
        [None, Some(0), Some(1), None]
    );
    let sealant = &take_off.lines[drawn];
    assert_eq!(
        (
            sealant.label(),
            sealant.quantity.show(UnitSystem::Us),
            sealant.remark.as_str()
        ),
        (
            "Thread sealant".to_owned(),
            "2.5 can".to_owned(),
            "for gas (added by hand)"
        )
    );
    let priced = take_off.priced(&PriceList::read("thread sealant;4.00"), UnitSystem::Us);
    assert_eq!((priced.lines[drawn], priced.unused.len()), (Some(1000), 0));
}

#[test]
fn sticks_are_planned_by_the_saw_of_the_profile() {
    // Three pieces of 84 in: with a cut of 1/8 in two come from a stick of 21 ft, with none three.
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let text = Codebook::profile_text("us-ifgc").unwrap();
    let mine = |kerf: &str| {
        let text = text
            .replace("M(\"1/8 in\")", kerf)
            .replace("name: \"us-ifgc\"", "name: \"mine\"");
        Codebook::published().with_profile("mine.ron", &text).unwrap()
    };
    let mut last = draft.at(0, 0, 0);
    for east in 1..=3 {
        let next = draft.at(4 * east, 0, 0);
        let run = draft.run(last, next, 7.0);
        draft.run_mut(run).size = Some(NominalSize::parse("3/4").unwrap());
        // A valve takes nothing out: pieces are as long as runs.
        draft.put(next, Device::Valve(Valve::default()));
        last = next;
    }
    draft.job.settings.profile = "mine".to_owned();
    let plan = |kerf: &str| {
        let book = mine(kerf);
        let study = Study::of(&draft.job, &book);
        let cuts = CutList::of(&draft.job, &study, &book);
        let plan = StockPlan::of(&cuts, &study, &book);
        (plan.groups[0].kerf.mark, plan.groups[0].sticks.len())
    };
    assert_eq!(
        [plan("L(\"0 in\")"), plan("F(\"1/8 in\")")],
        [(Mark::Local, 1), (Mark::Found, 2)]
    );
}

#[test]
fn a_small_house_is_counted_as_by_hand() {
    let mut draft = house();
    let wall = Penetration {
        sleeved: true,
        seal: Seal::BothFaces,
        ..Penetration::default()
    };
    draft.run_mut(RunId(2)).penetrations.push(wall);
    draft.run_mut(RunId(3)).surroundings = Surroundings::Outdoors;
    let lists = lists(&draft.job);
    assert_eq!(line(&lists, "90° elbow").quantity, Quantity::Count(2));
    assert_eq!(
        line(&lists, "90° elbow").label(),
        "90° elbow 3/4\" malleable iron, class 150"
    );
    // 50 ft less take-outs is over two sticks of 21 ft: two couplings more.
    let coupling = line(&lists, "coupling");
    assert_eq!(
        (coupling.quantity.clone(), coupling.places.clone()),
        (Quantity::Count(2), vec![Place::Run(RunId(2))])
    );
    // 21, 21, 7-10, 7-11, 5-11: four sticks, as the sum of 64 ft asks for.
    assert_eq!(lists.stock.groups[0].sticks.len(), 4);
    let pipe = line(&lists, "pipe");
    assert_eq!(pipe.quantity, Quantity::Stock(4, Length::from_feet(21.0)));
    // IFGC table 415.1: 3/4 in steel every 8 ft, plumb or level: 8/8 = 1, 50/8 = 7 started, 6/8 = 1 started.
    assert_eq!(line(&lists, "hanger or strap").quantity, Quantity::Count(9));
    assert_eq!(line(&lists, "pipe sleeve").quantity, Quantity::Count(1));
    assert_eq!(line(&lists, "gap to be sealed").quantity, Quantity::Count(2));
    // Six ends of three pieces, four more at two couplings.
    assert_eq!(
        line(&lists, "threaded joint to be made up").quantity,
        Quantity::Count(10)
    );
    // ASME B36.10M: outside diameter of 3/4 is 1.050 in; π × 1.05/12 × 6 = 1.649 ft².
    let Quantity::SquareFeet(area) = line(&lists, "paint or coating, steel pipe outdoors").quantity else {
        panic!("an area")
    };
    assert!((area - 1.649).abs() < 1e-3, "{area}");
    // Nobody buys these by a list of pipe.
    let named = |what: &str| lists.take_off.lines.iter().any(|line| line.what == what);
    assert!(!named("appliance") && !named("point of delivery"));
}

/// 3/4 in steel that stands, 6 ft and 6 ft, and a branch from its midst.
fn branched(standing: &[(i32, i32, i32)]) -> Draft {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let mut last = JointId(1);
    for &(east, north, up) in standing {
        let next = draft.at(east, north, up);
        let run = draft.run(last, next, 6.0);
        let run = draft.run_mut(run);
        (run.size, run.state) = (Some(NominalSize::Inch(12)), State::Existing);
        last = next;
    }
    draft.burner(last, "Furnace", 40e3);
    // They stand too: no thread is made up there.
    for old in [JointId(1), last] {
        draft.joint_mut(old).placed.as_mut().unwrap().state = State::Existing;
    }
    let end = draft.at(4, 5, 0);
    draft.run(JointId(2), end, 5.0);
    draft.burner(end, "Grill", 30e3);
    draft
}

#[test]
fn a_tee_that_is_cut_into_standing_pipe_takes_a_union() {
    let mut draft = branched(&[(4, 0, 0), (9, 0, 0), (14, 0, 0)]);
    let lists_of = |draft: &Draft| lists(&draft.job);
    let found = lists_of(&draft);
    let union = line(&found, "union");
    assert_eq!(
        (
            union.size.as_str(),
            union.quantity.clone(),
            union.places.clone(),
            union.group
        ),
        ("3/4\"", Quantity::Count(1), vec![Place::Joint(JointId(2))], Group::Buy)
    );
    assert!(union.remark.contains("common practice, no source"));
    let cut_in = |draft: &Draft| {
        let study = Study::of(&draft.job, Codebook::published());
        let order = OrderOfWork::of(&draft.job, &study, Codebook::published());
        let step = order.steps.into_iter().find(|step| step.id == "cut-in");
        step.unwrap().words
    };
    assert!(
        cut_in(&draft).contains("At J2 make the existing line up again with a union"),
        "{}",
        cut_in(&draft)
    );
    // Two ends of the branch, two of the tee's run, two of the union.
    assert_eq!(
        line(&found, "threaded joint to be made up").quantity,
        Quantity::Count(6)
    );
    // In a wall no union may stand.
    draft.run_mut(RunId(1)).surroundings = Surroundings::Concealed;
    let found = lists_of(&draft);
    let union = line(&found, "union");
    assert!(
        union.group == Group::Settle && union.remark.contains("G2415.3"),
        "{union:?}"
    );
    draft.run_mut(RunId(1)).surroundings = Surroundings::Indoors;
    // The line comes apart at a union that stands in it.
    let none = |draft: &Draft| {
        lists_of(draft)
            .take_off
            .lines
            .iter()
            .all(|line| line.what != "union" || line.state != State::New)
    };
    let mut with_union = branched(&[(4, 0, 0), (9, 0, 0), (14, 0, 0)]);
    with_union.put(JointId(3), Device::Union);
    with_union.joint_mut(JointId(3)).placed.as_mut().unwrap().state = State::Existing;
    assert!(none(&with_union));
    // An old branch was taken from the tee.
    let old = draft.at(4, -5, 0);
    let run = draft.run(JointId(2), old, 5.0);
    draft.run_mut(run).state = State::Removed;
    assert!(none(&draft));
    // Copper is soldered or brazed together again.
    let mut copper = branched(&[(4, 0, 0), (9, 0, 0)]);
    copper.job.settings.material = Material::CopperL;
    assert!(none(&copper));
}

#[test]
fn sizes_of_tubing_are_not_sold_as_sizes_of_threads() {
    // Tubing of EHD 18 from a valve of steel pipe to a tee of tubing, and on to a valve with an end of 1/2.
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let places = [(0, 0, 0), (3, 0, 0), (9, 0, 0), (14, 0, 0), (18, 0, 0), (9, 5, 0)];
    let [supply, valve, tee, stop, grill, range] = places.map(|(east, north, up)| draft.at(east, north, up));
    for (from, to) in [(supply, valve), (valve, tee), (tee, stop), (stop, grill), (tee, range)] {
        let run = draft.run(from, to, 5.0);
        let run = draft.run_mut(run);
        run.material = (from != supply).then_some(Material::Csst);
        run.size = Some(match from == supply {
            true => NominalSize::Inch(12),
            false => NominalSize::Ehd(18),
        });
    }
    draft.put(valve, Device::Valve(Valve::default()));
    draft.put(stop, Device::Valve(Valve::default()));
    draft.joint_mut(stop).placed.as_mut().unwrap().size = Some(NominalSize::Inch(8));
    draft.burner(grill, "Grill", 40e3);
    draft.burner(range, "Range", 40e3);
    let lists = lists(&draft.job);
    let told = |what: &str| {
        let lines = lists.take_off.lines.iter().filter(|line| line.what == what);
        lines
            .map(|line| (line.size.as_str(), line.quantity.clone(), line.group))
            .collect::<Vec<_>>()
    };
    let one = Quantity::Count(1);
    assert_eq!(
        told("ball valve"),
        [("1/2\"", one.clone(), Group::Buy), ("3/4\"", one.clone(), Group::Buy)]
    );
    assert_eq!(
        told("tee"),
        [("threads of the EHD 18 fittings", one.clone(), Group::Settle)]
    );
    // Two at the valve of 1/2, three at the tee, two at appliances, one behind the valve of steel.
    assert_eq!(
        told("tubing fitting"),
        [
            ("EHD 18 × 1/2\"", Quantity::Count(2), Group::Buy),
            ("EHD 18 × 3/4\"", one, Group::Buy),
            ("EHD 18", Quantity::Count(5), Group::Settle)
        ]
    );
    assert_eq!(told("transition"), []);
    let tee = line(&lists, "tee");
    assert!(tee.remark.contains("not known"), "{tee:?}");
}

#[test]
fn pipe_costs_what_must_be_bought() {
    // 6 ft of 1/2 in steel: a whole length of 21 ft (ASTM A53, from memory) at 2.10 a foot is 44.10.
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let end = draft.at(5, 0, 0);
    let run = draft.run(JointId(1), end, 6.0);
    draft.run_mut(run).size = Some(NominalSize::HALF);
    draft.burner(end, "Grill", 40e3);
    let mut cost = |prices: &str| {
        let priced = lists(&draft.job)
            .take_off
            .priced(&PriceList::read(prices), UnitSystem::Us);
        draft.run_mut(run).material = Some(Material::Csst);
        draft.run_mut(run).size = Some(NominalSize::Ehd(18));
        (priced.total, priced.unused)
    };
    assert_eq!(cost("pipe 1/2 steel;2.10"), (4410, vec![]));
    // The same of tubing: the shortest coil, 25 ft.
    assert_eq!(cost("tube EHD 18 CSST;3.00"), (7500, vec![]));
}

#[test]
fn tubing_is_planned_from_the_coils_that_buy_least() {
    // 40, 30 and 20 ft of one tubing: one coil of 100 ft, not 50 + 50 (40 and 30 + 20) nor 75 + 25.
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let mut last = JointId(1);
    for (east, feet) in [(4, 40.0), (8, 30.0), (12, 20.0)] {
        let next = draft.at(east, 0, 0);
        let run = draft.run(last, next, feet);
        let run = draft.run_mut(run);
        (run.material, run.size) = (Some(Material::Csst), Some(NominalSize::Ehd(18)));
        draft.put(next, Device::Valve(Valve::default()));
        last = next;
    }
    let bought = |draft: &Draft| {
        let groups = lists(&draft.job).stock.groups;
        groups
            .iter()
            .map(|group| group.bought(UnitSystem::Us))
            .collect::<Vec<_>>()
    };
    // Equal lengths bought: the fewest coils.
    assert_eq!(bought(&draft), ["1 coil of 100'-0\""]);
    draft.run_mut(RunId(1)).length = Some(Length::from_feet(60.0));
    // 110 ft: 75 (60) and 50 (30 + 20) are 125 ft, where one coil is 150.
    assert_eq!(bought(&draft), ["1 coil of 50'-0\"", "1 coil of 75'-0\""]);
}

#[test]
fn copper_in_the_soil_is_laid_from_a_coil() {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    draft.job.settings.material = Material::CopperL;
    let end = draft.at(9, 0, 0);
    let run = draft.run(JointId(1), end, 45.0);
    draft.run_mut(run).size = Some(NominalSize::HALF);
    draft.burner(end, "Grill", 40e3);
    let bought = |draft: &Draft| lists(&draft.job).stock.groups[0].bought(UnitSystem::Us);
    assert_eq!(bought(&draft), "3 lengths of 20'-0\"");
    draft.run_mut(run).surroundings = Surroundings::Underground;
    assert_eq!(bought(&draft), "1 coil of 60'-0\"");
    let found = lists(&draft.job);
    assert!(found.take_off.lines.iter().all(|line| line.what != "coupling"));
}

#[test]
fn hangers_are_counted_along_each_straight_stretch() {
    // 1/2 in copper is 5/8 in outside: 6 ft (IFGC table 415.1, from memory). 7 ft and 4 ft with a valve between lie in
    // one line: 11/6 = 2 started; round the corner 5 ft: 1; down 10 in: held by what it joins.
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let places = [(7, 0, 0), (11, 0, 0), (11, 5, 0), (11, 5, -1)];
    let mut last = JointId(1);
    for ((east, north, up), feet) in places.into_iter().zip([7.0, 4.0, 5.0, 10.0 / 12.0]) {
        let next = draft.at(east, north, up);
        let run = draft.run(last, next, feet);
        draft.run_mut(run).size = Some(NominalSize::HALF);
        last = next;
    }
    draft.put(JointId(2), Device::Valve(Valve::default()));
    draft.burner(last, "Grill", 40e3);
    let count = |draft: &Draft| line(&lists(&draft.job), "hanger or strap").quantity.clone();
    // Steel of 1/2 in is held every 6 ft as well.
    assert_eq!(count(&draft), Quantity::Count(3));
    draft.job.settings.material = Material::CopperL;
    // Soft tube is held for itself down to the last stub.
    assert_eq!(count(&draft), Quantity::Count(4));
}

#[test]
fn a_riser_is_held_at_every_floor_that_it_passes() {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let top = draft.at(0, 0, 9);
    let run = draft.run(JointId(1), top, 27.0);
    let through = Penetration {
        barrier: Barrier::Floor,
        ..Penetration::default()
    };
    let run = draft.run_mut(run);
    run.size = Some(NominalSize::parse("1-1/4").unwrap());
    run.penetrations = vec![through.clone(), through];
    draft.burner(top, "Furnace", 40e3);
    // IFGC table 415.1: 1-1/4 and larger, plumb: every floor level.
    assert_eq!(line(&lists(&draft.job), "hanger or strap").quantity, Quantity::Count(2));
}

#[test]
fn a_sleeve_is_two_sizes_larger_and_as_long_as_the_wall_is_thick() {
    let mut draft = house();
    draft.run_mut(RunId(2)).penetrations = vec![Penetration {
        sleeved: true,
        thickness: Some(Length::from_inches(12.0)),
        ..Penetration::default()
    }];
    let found = lists(&draft.job);
    // 3/4, 1, 1-1/4: two sizes (IRC 2018 chapter 26 as quoted).
    let sleeve = line(&found, "pipe sleeve");
    assert_eq!((sleeve.size.as_str(), sleeve.group), ("1-1/4\" × 12 in", Group::Buy));
    draft.run_mut(RunId(2)).penetrations[0].thickness = None;
    assert_eq!(line(&lists(&draft.job), "pipe sleeve").group, Group::Settle);
}

#[test]
fn new_tubing_is_bonded_once_and_shielded_where_it_is_concealed() {
    let mut draft = house();
    let has = |draft: &Draft, what: &str| {
        let found = lists(&draft.job).take_off.lines;
        found.into_iter().find(|line| line.what == what).map(|line| line.group)
    };
    for what in ["bonding clamp", "strike plate"] {
        assert_eq!(has(&draft, what), None);
    }
    let run = draft.run_mut(RunId(2));
    (run.material, run.size) = (Some(Material::Csst), Some(NominalSize::Ehd(23)));
    run.surroundings = Surroundings::Concealed;
    assert_eq!(has(&draft, "bonding clamp"), Some(Group::Buy));
    assert_eq!(has(&draft, "bonding wire, copper, 6 AWG"), Some(Group::Buy));
    assert_eq!(has(&draft, "strike plate"), Some(Group::Buy));
    // Tubing listed with an arc-resistant jacket: IFGC 310.2 (IRC 2018 G2411.2) spares it, CPC 2013 1210.15.2 does not.
    draft.run_mut(RunId(2)).jacketed = true;
    assert_eq!(has(&draft, "bonding clamp"), None);
    draft.job.settings.profile = "us-ca".to_owned();
    assert_eq!(has(&draft, "bonding clamp"), Some(Group::Buy));
    draft.job.settings.profile = "us-ifgc".to_owned();
    draft.run_mut(RunId(2)).jacketed = false;
    // Beside tubing that is bonded already the bond is looked for first.
    let run = draft.run_mut(RunId(1));
    (run.material, run.size) = (Some(Material::Csst), Some(NominalSize::Ehd(23)));
    (run.state, run.bonded) = (State::Existing, true);
    assert_eq!(has(&draft, "bonding clamp"), Some(Group::Settle));
}

#[test]
fn a_profile_that_bars_galvanized_says_so_on_pipe_and_fittings() {
    let text = Codebook::profile_text("us-ifgc").unwrap();
    let barred = text.replace("galvanized: Allowed", "galvanized: Barred");
    let book = Codebook::published().with_profile("mine.ron", &barred).unwrap();
    let job = house().job;
    let said = |book: &Codebook| {
        let study = Study::of(&job, book);
        let cuts = CutList::of(&job, &study, book);
        let stock = StockPlan::of(&cuts, &study, book);
        let lines = TakeOff::of(&job, &study, book, &cuts, &stock).lines;
        let said = lines.into_iter().filter(|line| line.remark.contains("not galvanized"));
        said.map(|line| line.what).collect::<Vec<_>>()
    };
    assert_eq!(said(Codebook::published()), Vec::<String>::new());
    assert_eq!(said(&book), ["pipe", "90° elbow", "coupling"]);
}

#[test]
fn what_has_no_size_is_nothing_to_buy() {
    let mut draft = house();
    for run in 1..=3 {
        draft.run_mut(RunId(run)).size = None;
    }
    draft.put(JointId(4), Device::Cap(Cap::default()));
    let lists = lists(&draft.job);
    assert_eq!(line(&lists, "90° elbow").group, Group::Settle);
    assert!(line(&lists, "90° elbow").remark.contains("not known yet"));
    for line in &lists.take_off.lines {
        let unsized_line = line.size.contains("not known");
        assert!(!unsized_line || line.group != Group::Buy, "{line:?}");
    }
}

#[test]
fn one_changed_length_changes_every_list() {
    let mut draft = house();
    let before = lists(&draft.job);
    draft.run_mut(RunId(2)).length = Some(Length::from_feet(20.0));
    let after = lists(&draft.job);
    assert_ne!(before.cuts, after.cuts);
    assert_ne!(before.stock, after.stock);
    assert_ne!(line(&before, "pipe").quantity, line(&after, "pipe").quantity);
    assert_ne!(
        line(&before, "hanger or strap").quantity,
        line(&after, "hanger or strap").quantity
    );
    assert!(after.take_off.lines.iter().all(|line| line.what != "coupling"));
    draft.run_mut(RunId(2)).length = Some(Length::from_feet(50.0));
    let again = lists(&draft.job);
    assert_eq!(
        (&before.cuts, &before.stock, &before.take_off),
        (&again.cuts, &again.stock, &again.take_off)
    );
}

#[test]
fn what_is_kept_for_use_again_is_told_apart_from_what_goes() {
    let mut draft = Draft::fed_at(GaugePressure::from_inches_wc(7.0));
    let places = [(4, 0, 0), (9, 0, 0), (14, 0, 0), (14, 4, 0)];
    let mut last = JointId(1);
    for (east, north, up) in places {
        let next = draft.at(east, north, up);
        let run = draft.run(last, next, 6.0);
        let run = draft.run_mut(run);
        (run.size, run.state) = (Some(NominalSize::Inch(12)), State::Removed);
        last = next;
    }
    for (joint, salvaged) in [(JointId(2), true), (JointId(3), false)] {
        let placed = draft.put(joint, Device::Valve(Valve::default()));
        (placed.state, placed.salvaged) = (State::Removed, salvaged);
    }
    // Said of pipe that stays it counts nothing.
    draft.run_mut(RunId(1)).salvaged = true;
    draft.run_mut(RunId(1)).state = State::Existing;
    for run in [RunId(3), RunId(4)] {
        draft.run_mut(run).salvaged = true;
    }
    let lists = lists(&draft.job);
    let told = |what: &str| {
        let lines = lists.take_off.lines.iter().filter(|line| line.what == what);
        lines.map(|line| (line.group, line.places.len())).collect::<Vec<_>>()
    };
    assert_eq!(
        told("pipe"),
        [(Group::Kept, 2), (Group::TakenOut, 1), (Group::Stays, 1)]
    );
    assert_eq!(told("ball valve"), [(Group::Kept, 1), (Group::TakenOut, 1)]);
    assert_eq!(told("90° elbow"), [(Group::Kept, 1)]);
    // Where a valve stood no coupling did.
    assert_eq!(told("coupling"), []);
}

/// Every fitting and device once, and the same pieces in plan and list.
fn is_whole(job: &Job) {
    let lists = lists(job);
    let mut at_joints: HashMap<JointId, usize> = HashMap::new();
    for line in &lists.take_off.lines {
        let joints = line.places.iter().filter_map(|place| match place {
            Place::Joint(joint) => Some(*joint),
            _ => None,
        });
        // What seals and tests, the nuts on flared tube, the union beside a tee that is cut in, nipples for what is put into old pipe, the cap of a
        // drip leg, and the vent line and gauge tees of a regulator are no part of the drawing.
        let of_the_drawing = line.shelf != Shelf::Sealants
            && line.what != "vent line to the outdoors"
            && line.what != "plugged gauge tee"
            && line.what != "flare nut"
            && !line.remark.contains("put into the existing pipe")
            && !line.remark.contains("the existing line up again")
            && !line.remark.contains("of the drip leg");
        if of_the_drawing {
            joints.for_each(|joint| *at_joints.entry(joint).or_default() += 1);
        }
    }
    for (at, joint) in job.joints.iter().enumerate() {
        let fittings = lists
            .study
            .fittings
            .iter()
            .filter(|fitting| fitting.joint == at)
            .count();
        let device = joint.placed.as_ref().is_some_and(|placed| match placed.device {
            // Traps and caps stand among the fittings; the others are not bought by a list of pipe.
            Device::SedimentTrap(_) | Device::Cap(_) => false,
            Device::Appliance(_) | Device::Supply(_) => placed.state == State::Removed,
            _ => true,
        });
        let told = at_joints.get(&joint.id).copied().unwrap_or_default();
        assert_eq!(told, fittings + usize::from(device), "joint {}", joint.id);
    }
    let cut = lists.cuts.pieces.iter();
    let cut = cut.filter(|piece| matches!(piece.making, Making::Cut | Making::Coil));
    let parts: usize = cut.map(|piece| piece.parts.len()).sum();
    let planned = lists.stock.groups.iter().flat_map(|group| &group.sticks);
    assert_eq!(planned.map(|stick| stick.parts.len()).sum::<usize>(), parts);
    let couplings: usize = lists.cuts.pieces.iter().map(|piece| piece.couplings()).sum();
    let counted = lists
        .take_off
        .lines
        .iter()
        .filter(|line| line.remark.contains("joins two lengths"));
    let counted = counted
        .filter_map(|line| line.quantity.amount(UnitSystem::Us))
        .sum::<f64>();
    assert_eq!(counted as usize, couplings);
}

#[test]
fn every_joint_is_told_once_on_random_jobs() {
    for seed in 0..500 {
        is_whole(&random_job(seed, 1 + seed as usize % 40));
    }
}

#[test]
fn any_job_gives_a_take_off() {
    for seed in 0..300 {
        let lists = lists(&wild_job(seed, 12));
        lists.take_off.priced(&PriceList::read("pipe;1"), UnitSystem::Us);
    }
}

#[test]
fn prices_of_one_s_own_are_summed_and_what_has_none_is_told() {
    let lists = lists(&house().job);
    let list = PriceList::read("what;price\n90° Elbow 3/4\" Steel;2.50\ncoupling 3/4 steel;1.10\nspanner;9\n");
    assert_eq!(list.faults, []);
    let priced = lists.take_off.priced(&list, UnitSystem::Us);
    assert_eq!((priced.total, priced.unused), (500 + 220, vec![4]));
    let to_buy = lists.take_off.lines.iter().filter(|line| line.group == Group::Buy);
    assert_eq!(priced.without, to_buy.count() - 2);
}
