//! `stubout count`: the fittings that the drawing implies.

use super::input::{Studied, print_each};
use super::{CLEAR, Jobs, table};
use crate::codebook::SizeNames;
use crate::fittings::FittingCount;
use crate::units::Show;
use serde_json::{Value, json};

/// Counts of one job, in its units.
struct Counted {
    counts: Vec<FittingCount>,
    joints: Vec<Vec<u32>>,
    names: SizeNames,
}

/// Counts the fittings of each job.
pub fn run(jobs: &Jobs) -> u8 {
    print_each(jobs, "count", |_, studied| (CLEAR, Counted::of(&studied)), machine, say)
}

impl Counted {
    fn of(studied: &Studied) -> Counted {
        let counts = studied.checked.study.fitting_counts();
        let ids = |count: &FittingCount| count.joints.iter().map(|&at| studied.job.joints.at(at).id.0).collect();
        let joints = counts.iter().map(ids).collect();
        Counted {
            counts,
            joints,
            names: studied.checked.study.names,
        }
    }
}

fn say(counted: &Counted) -> String {
    let row = |(count, joints): (&FittingCount, &Vec<u32>)| {
        let joints: Vec<String> = joints.iter().map(|joint| format!("J{joint}")).collect();
        vec![
            count.count.to_string(),
            count.sizes_named(counted.names),
            count.name(),
            count.material.short().to_owned(),
            count.state.name().to_owned(),
            joints.join(" "),
        ]
    };
    let rows: Vec<_> = counted.counts.iter().zip(&counted.joints).map(row).collect();
    let list = table::columns(&[">quantity", "size", "fitting", "material", "state", "at"], &rows);
    format!(
        "{list}Counted from the drawing; measure and count on site. A drip leg is a nipple and a cap.\n{}\n",
        table::CAUTION
    )
}

fn machine(counted: &Counted) -> Value {
    let entry = |(count, joints): (&FittingCount, &Vec<u32>)| {
        json!({
            "fitting": count.kind.key(),
            "name": count.name(),
            "sizes": count.sizes.iter().map(Show::exact).collect::<Vec<_>>(),
            "material": count.material.key(),
            "state": count.state.name(),
            "count": count.count,
            "joints": joints,
            "female_thread": count.female,
        })
    };
    let fittings: Vec<Value> = counted.counts.iter().zip(&counted.joints).map(entry).collect();
    json!({ "fittings": fittings })
}
