//! Small houses by chance, of few sections, for searches that try everything. Used as a module beside `dice.rs` and
//! `draft.rs`.
#![allow(dead_code)]

use crate::dice::Dice;
use crate::draft::Draft;
use stubout::job::*;
use stubout::units::*;

/// All new pipe of one material with at most so many sections, which end at tees, appliances and regulators.
pub fn small_tree(seed: u64, most: usize) -> Draft {
    let mut dice = Dice::new(seed ^ 0x7ee);
    let high = dice.percent(20);
    let mut draft = Draft::fed_at(match high {
        true => GaugePressure::from_psi(2.0),
        false => GaugePressure::from_inches_wc(7.0),
    });
    draft.job.settings.material = dice.pick(&[Material::Steel40, Material::Steel40, Material::CopperL, Material::Csst]);
    draft.job.settings.method = Some(dice.pick(&[Method::BranchLength, Method::LongestLength]));
    // From the supply one section leads to the first tee; each tee takes two more sections.
    let mut place = 0;
    let mut open = vec![(line(&mut draft, &mut dice, JointId(1), &mut place), 1)];
    let mut sections = 1;
    let mut ends = Vec::new();
    while let Some((joint, depth)) = open.pop() {
        if sections + 2 > most || (depth > 1 && dice.percent(35)) {
            ends.push(joint);
            continue;
        }
        if high && depth == 1 {
            draft.regulator(joint, GaugePressure::from_inches_wc(8.0));
        }
        for _ in 0..2 {
            let end = line(&mut draft, &mut dice, joint, &mut place);
            open.push((end, depth + 1));
            sections += 1;
        }
    }
    for joint in ends {
        let input = 1000.0 * f64::from(dice.between(20, 120));
        let least = dice
            .percent(70)
            .then(|| GaugePressure::from_inches_wc(6.0 + 0.6 * dice.fraction()));
        draft.burner(joint, "Burner", input).least_inlet = least;
    }
    draft
}

/// One section from a joint, of one to three runs with elbows and perhaps a valve between.
fn line(draft: &mut Draft, dice: &mut Dice, from: JointId, place: &mut i32) -> JointId {
    let mut at = from;
    let runs = dice.between(1, 3);
    let rise = dice.pick(&[-1, 1]);
    // Each line on a level of its own, far from others.
    *place += 40;
    let start = draft.job.joints.get(from).map(|joint| joint.at).unwrap_or_default();
    let mut here = start;
    for run in 0..runs {
        let way = match (run % 2, dice.percent(30)) {
            (_, true) => Direction::new(0, 0, rise * *place),
            (0, _) => Direction::new(*place, 0, 0),
            _ => Direction::new(0, *place, 0),
        };
        here = here + way;
        let to = draft.at(here.east, here.north, here.up);
        draft.run(at, to, f64::from(dice.between(3, 40)));
        if run + 1 < runs && dice.percent(20) {
            draft.put(to, Device::Valve(Valve::default()));
        }
        at = to;
    }
    at
}
