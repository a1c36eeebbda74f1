//! `stubout start-up`: what was measured at each appliance beside what the drawing and the rating plate say.

use super::list::{ListArguments, Listed};
use super::{list, table};
use crate::study::words::NONE;
use crate::units::{Clocked, GaugePressure, HeatRate, UnitSystem, in_units};
use crate::work::{HOW, NEARNESS, Off, StartUpRecord, StartUpRow, spreadsheet};
use serde_json::{Value, json};

/// The record of a job.
struct Record {
    record: StartUpRecord,
    units: UnitSystem,
}

/// Prints it for each job.
pub fn run(arguments: &ListArguments) -> u8 {
    list::print(arguments, "start-up", |_, studied| Record {
        record: StartUpRecord::of(&studied.job, &studied.checked.study),
        units: studied.checked.study.names.units(),
    })
}

impl Listed for Record {
    fn say(&self) -> String {
        let mut rows = self.table();
        let heads = rows.remove(0);
        let heads: Vec<&str> = heads.iter().map(String::as_str).collect();
        for cell in rows.iter_mut().flatten().filter(|cell| cell.is_empty()) {
            NONE.clone_into(cell);
        }
        let mut text = match rows.is_empty() {
            true => "No appliance is drawn that gas reaches.\n".to_owned(),
            false => table::columns(&heads, &rows),
        };
        for row in &self.record.rows {
            for found in &row.surprises {
                text += &format!("\n{}\n  {}\n", found.what, found.look);
            }
        }
        if self.record.is_metered_high {
            let high = "The meter counts gas at {1 psi} or more: correct its volume by the supplier's factor; no input is worked out here.";
            text += &format!("\n{}\n", in_units(high, self.units));
        }
        format!(
            "{text}\n{HOW}\n{}\n{}",
            in_units(NEARNESS, self.units),
            table::closing()
        )
    }

    fn table(&self) -> Vec<Vec<String>> {
        spreadsheet::start_up(&self.record, self.units)
    }

    fn machine(&self) -> Value {
        let inches = |pressure: Option<GaugePressure>| pressure.map(GaugePressure::inches_wc);
        let btuh = |heat: Option<HeatRate>| heat.map(HeatRate::btuh);
        let row = |row: &StartUpRow| {
            let surprises = row.surprises.iter().map(|found| {
                json!({
                    "off": match found.off { Off::Plate => "rating_plate", Off::Drawing => "drawing" },
                    "what": found.what,
                    "remedy": found.look,
                })
            });
            json!({
                "tag": row.tag,
                "name": row.name,
                "drawn_static_inwc": inches(row.drawn_static),
                "static_inwc": inches(row.read.static_pressure),
                "drawn_working_inwc": inches(row.drawn_working),
                "working_inwc": inches(row.read.working),
                "lock_up_inwc": inches(row.read.lock_up),
                "min_inlet_inwc": inches(row.least),
                "max_inlet_inwc": inches(row.greatest),
                "input_btuh": btuh(row.input),
                "clocked_ft3": row.read.clocked.map(Clocked::cubic_feet),
                "clocked_s": row.read.clocked.map(Clocked::seconds),
                "clocked_btuh": btuh(row.clocked),
                "result": match (!row.is_measured(), row.surprises.first().map(|found| found.off)) {
                    (true, _) => "not_measured",
                    (false, None) => "explained",
                    (false, Some(Off::Plate)) => "outside_rating_plate",
                    (false, Some(Off::Drawing)) => "not_explained",
                },
                "found": surprises.collect::<Vec<_>>(),
            })
        };
        json!({
            "appliances": self.record.rows.iter().map(row).collect::<Vec<_>>(),
            "meter_volume_to_be_corrected": self.record.is_metered_high,
        })
    }
}
