//! Take-offs: everything of the drawing once, and all lists from one set of figures.

use crate::draft::Draft;
use crate::random_job::random_job;
use crate::wild_job::wild_job;
use std::collections::HashMap;
use stubout::codebook::{Codebook, Mark};
use stubout::job::*;
use stubout::study::{CutList, Line, Making, Place, PriceList, Quantity, StockPlan, Study, TakeOff};
use stubout::units::{GaugePressure, Length, NominalSize, Parse, UnitSystem};

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
    assert_eq!(line(&lists, "90° elbow").label(), "90° elbow 3/4\" steel");
    // 50 ft less take-outs is over two sticks of 21 ft: two couplings more.
    let coupling = line(&lists, "coupling");
    assert_eq!(
        (coupling.quantity.clone(), coupling.places.clone()),
        (Quantity::Count(2), vec![Place::Run(RunId(2))])
    );
    // 21, 21, 7-10, 7-11, 5-11: four sticks, as the sum of 64 ft asks for.
    assert_eq!(lists.stock.groups[0].sticks.len(), 4);
    // IFGC table 415.1: 3/4 in steel every 8 ft, plumb or level: 1 + 7 + 1.
    assert_eq!(line(&lists, "hanger or strap").quantity, Quantity::Count(9));
    assert_eq!(line(&lists, "sleeve").quantity, Quantity::Count(1));
    assert_eq!(line(&lists, "gap to be sealed").quantity, Quantity::Count(2));
    // Six ends of three pieces, four more at two couplings.
    assert_eq!(
        line(&lists, "threaded joint to be made up").quantity,
        Quantity::Count(10)
    );
    // ASME B36.10M: outside diameter of 3/4 is 1.050 in; π × 1.05/12 × 6 = 1.649 ft².
    let Quantity::SquareFeet(area) = line(&lists, "paint or coating, pipe outdoors").quantity else {
        panic!("an area")
    };
    assert!((area - 1.649).abs() < 1e-3, "{area}");
    assert_eq!(line(&lists, "appliance").quantity, Quantity::Count(1));
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

/// Every fitting and device once, and the same pieces in plan and list.
fn is_whole(job: &Job) {
    let lists = lists(job);
    let mut at_joints: HashMap<JointId, usize> = HashMap::new();
    for line in &lists.take_off.lines {
        let joints = line.places.iter().filter_map(|place| match place {
            Place::Joint(joint) => Some(*joint),
            _ => None,
        });
        if line.what != "threaded joint to be made up" {
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
        let device = joint.placed.as_ref().is_some_and(|placed| {
            let among_fittings = matches!(placed.device, Device::SedimentTrap(_) | Device::Cap(_));
            !among_fittings || placed.state == State::Removed
        });
        let told = at_joints.get(&joint.id).copied().unwrap_or_default();
        assert_eq!(told, fittings + usize::from(device), "joint {}", joint.id);
    }
    let cut = lists.cuts.pieces.iter().filter(|piece| piece.making == Making::Cut);
    let parts: usize = cut.map(|piece| piece.parts.len()).sum();
    let planned = lists.stock.groups.iter().flat_map(|group| &group.sticks);
    assert_eq!(planned.map(|stick| stick.parts.len()).sum::<usize>(), parts);
    let couplings: usize = lists.cuts.pieces.iter().map(|piece| piece.couplings()).sum();
    let counted = lists
        .take_off
        .lines
        .iter()
        .filter(|line| line.remark.contains("a stick ends"));
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
    assert_eq!(priced.without, lists.take_off.lines.len() - 2);
}
