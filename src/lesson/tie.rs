//! Which sections are near a tie: where a student who measures or adds a little otherwise finds another size.

use super::reading::Reading;
use crate::codebook::Codebook;
use crate::job::Job;
use crate::sizing::{Section, Verdict, carries};
use crate::study::Study;
use crate::units::{Flow, Length};

/// A load or a length so much larger or smaller must give the same size.
const NEAR: f64 = 0.05;

/// Why a section is near a tie; `None` where it is not: its size is the same in the next longer row of its table, at a
/// length 5 % shorter, and with a load 5 % larger or smaller, and pipe of a given size is within or over capacity in
/// each of these alike.
pub fn tie(job: &Job, book: &Codebook, study: &Study, section: &Section) -> Option<String> {
    let named = format!("section {}", section.number);
    let Some(reading) = Reading::of(job, book, study, section) else {
        return Some(format!("{named} is not sized by a printed table"));
    };
    let (length, load) = (section.design.total(), section.load.flow);
    let row = reading.row(length);
    let Some((row, size)) = row.and_then(|row| Some((row, reading.size(row, load)?))) else {
        return Some(format!("{named} has no size in table {}", reading.table.id));
    };
    if section.sizing.verdict == Verdict::Unknown {
        return Some(format!("{named} is not judged"));
    }
    let shorter = reading.row(Length::from_feet(length.feet() * (1.0 - NEAR)));
    let rows = [reading.longer(row), shorter, Some(row)];
    let loads = [1.0 - NEAR, 1.0, 1.0 + NEAR].map(|share| Flow::from_cfh(load.cfh() * share));
    let given = section.sizing.size.filter(|given| *given != size);
    for row in rows.into_iter().flatten() {
        for near in loads {
            // One step at a time: a longer row with the load as it is.
            if near != load && Some(row) != reading.row(length) {
                continue;
            }
            if reading.size(row, near) != Some(size) {
                return Some(format!("{named} is near a tie between two sizes"));
            }
            let is_enough = |given| reading.capacity(row, given).map(|found| carries(found, near));
            let within = Some(section.sizing.verdict == Verdict::Carries);
            if given.is_some_and(|given| is_enough(given) != within) {
                return Some(format!("{named} is near the capacity of its given size"));
            }
        }
    }
    None
}

/// Why sections are near a tie, in flow order.
pub fn ties(job: &Job, book: &Codebook, study: &Study) -> Vec<(usize, String)> {
    let pipe = study
        .sections
        .iter()
        .enumerate()
        .filter(|(_, section)| section.is_pipe());
    pipe.filter_map(|(at, section)| Some((at, tie(job, book, study, section)?)))
        .collect()
}
