//! The sheet with the plan.

use super::draw::{self, Which};
use super::{CLEAR, Composer, Packet};
use crate::floor_plan::FloorPlan;
use crate::sheet::purpose::Purpose;
use crate::study::how_many;

/// The plan of a job on one sheet, a set of its own.
pub fn sheet(composer: &Composer<'_>) -> Packet {
    let plan = composer.later_plan();
    let drawn = FloorPlan::of(composer.job, composer.study, plan.body.grown(-CLEAR));
    let which = Which {
        number: 1,
        of: 1,
        purpose: Purpose::Plan,
    };
    let mut remarks = Vec::new();
    if drawn.open > 0 {
        let runs = how_many(drawn.open, "run");
        remarks.push(format!(
            "plan: {runs} not as long as the plan shows: lengths around a closed way do not meet"
        ));
    }
    if drawn.left_out > 0 {
        let letters = how_many(drawn.left_out, "letter");
        remarks.push(format!("plan: {letters} found no room: see the isometric"));
    }
    let mut packet = Packet {
        sheets: Vec::new(),
        names: Vec::new(),
        purposes: Vec::new(),
        numbers: Vec::new(),
        clouded: Vec::new(),
        remarks,
        effort: 0,
    };
    packet.push(
        draw::page(composer, &plan, [drawn.group], which),
        "plan".to_owned(),
        which,
    );
    packet
}
