//! The start-up record: what was measured at each appliance beside what the drawing leads one to expect, and what its
//! rating plate allows.
//!
//! What the drawing expects: with nothing burning the pressure at which the appliance's zone starts; with everything
//! burning the computed pressure at full load; after that no more than a regulator locks up at. How far a reading may be off
//! is common practice, no source; what a rating plate says is held exactly.

use crate::job::{Detail, Device, Job, StartUp};
use crate::network::{OutletKind, by_letter};
use crate::study::{Study, places};
use crate::units::{Clocked, GaugePressure, HeatRate, PSI_FROM, PressureDrop, Show, UnitSystem};

/// The least by which a reading may be off: two gauges and a regulator differ by as much.
const SLACK: PressureDrop = PressureDrop::from_inches_wc(0.3);
/// The same as a part of the pressure, where that is more.
const SLACK_SHARE: f64 = 0.05;
/// So much over its setting a regulator may lock up with nothing burning.
const LOCK_UP: f64 = 1.25;
/// So far the clocked input may be off the rating plate.
const INPUT_SHARE: f64 = 0.05;

/// How near readings must be to what the drawing leads one to expect, in words for sheets and lists.
pub const NEARNESS: &str = "A reading counts as explained within {0.3 in w.c.} or 5 % of what the drawing gives, a lock-up pressure up to 25 % over \
 the static pressure drawn, a clocked input within 5 % of the rating plate (common practice, no source).";

/// How the readings are taken, in words for sheets and lists.
pub const HOW: &str = "Static: nothing burning. Working: everything burning at full input. Lock-up: a minute after all burners are shut off. Clocked: only \
 this appliance burning at full input; 3,600 × dial volume × heating value ÷ seconds.";

/// The record of a job.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StartUpRecord {
    /// A row for each appliance that stays, in the order of their letters.
    pub rows: Vec<StartUpRow>,
    /// Whether the meter counts gas at a pressure at which its volume must be corrected: then no input is worked out here.
    pub is_metered_high: bool,
}

/// What is known of one appliance.
#[derive(Clone, Debug, PartialEq)]
pub struct StartUpRow {
    /// Its joint, a position in `job.joints`.
    pub joint: usize,
    /// Its letter.
    pub tag: String,
    /// What it is called.
    pub name: String,
    /// Static pressure as drawn: that at which its zone starts.
    pub drawn_static: Option<GaugePressure>,
    /// Pressure at full load as computed.
    pub drawn_working: Option<GaugePressure>,
    /// Minimum inlet pressure of the rating plate.
    pub least: Option<GaugePressure>,
    /// Maximum inlet pressure of the rating plate.
    pub greatest: Option<GaugePressure>,
    /// Input of the rating plate.
    pub input: Option<HeatRate>,
    /// What was entered.
    pub read: StartUp,
    /// The input as clocked.
    pub clocked: Option<HeatRate>,
    /// What the drawing or the rating plate cannot explain.
    pub surprises: Vec<Surprise>,
}

/// A reading that is not as it should be.
#[derive(Clone, Debug, PartialEq)]
pub struct Surprise {
    /// The field in which it was entered.
    pub field: Detail,
    /// What it is off.
    pub off: Off,
    /// What was read, and what it is held against.
    pub what: String,
    /// What to look for.
    pub look: String,
}

/// What a reading is off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Off {
    /// A limit of the rating plate.
    Plate,
    /// What the drawing leads one to expect.
    Drawing,
}

impl StartUpRecord {
    /// The record of a job by its study.
    pub fn of(job: &Job, study: &Study) -> StartUpRecord {
        let metered = study.zones.first().and_then(|zone| zone.inlet);
        let is_metered_high = metered.is_some_and(|pressure| pressure.psi() >= PSI_FROM);
        let mut rows = Vec::new();
        for outlet in by_letter(&study.outlets) {
            let Some(Device::Appliance(appliance)) = places::device(job, outlet.joint) else {
                continue;
            };
            if outlet.kind != OutletKind::Appliance {
                continue;
            }
            let zone = study.joints[outlet.joint].zone.map(|zone| &study.zones[zone]);
            let read = appliance.start_up;
            let clocked = read.clocked.filter(|_| !is_metered_high).map(Clocked::flow);
            let mut row = StartUpRow {
                joint: outlet.joint,
                tag: outlet.tag.clone(),
                name: outlet.called(),
                drawn_static: zone.and_then(|zone| zone.inlet),
                drawn_working: outlet.pressure,
                least: appliance.least_inlet,
                greatest: appliance.greatest_inlet,
                input: appliance.input,
                read,
                clocked: clocked.map(|flow| flow.heat(study.gas.heating_value)),
                surprises: Vec::new(),
            };
            row.judge(study.names.units());
            rows.push(row);
        }
        StartUpRecord { rows, is_metered_high }
    }
}

/// How far a reading may be off a pressure.
fn slack(pressure: GaugePressure) -> f64 {
    SLACK.pa().max(pressure.pa().abs() * SLACK_SHARE)
}

impl StartUpRow {
    /// Its name with the letter that the drawing gives it.
    pub fn lettered(&self) -> String {
        match self.name.ends_with(&format!("outlet {}", self.tag)) {
            true => self.name.clone(),
            false => format!("{} ({})", self.name, self.tag),
        }
    }

    /// Whether anything was entered.
    pub fn is_measured(&self) -> bool {
        self.read != StartUp::default()
    }

    /// What comes of it in a few words: for a column.
    pub fn result(&self) -> &'static str {
        match (!self.is_measured(), self.surprises.first().map(|found| found.off)) {
            (true, _) => "not measured",
            (false, None) => "explained by the drawing",
            (false, Some(Off::Plate)) => "outside the rating plate",
            (false, Some(Off::Drawing)) => "not explained by the drawing",
        }
    }

    fn judge(&mut self, units: UnitSystem) {
        let mut found = self.off_plate(units);
        found.extend(self.off_static(units));
        found.extend(self.off_working(units));
        found.extend(self.off_lock_up(units));
        found.extend(self.off_input(units));
        // A sentence that ends in a unit with a stop of its own has no second one.
        for surprise in &mut found {
            surprise.what = surprise.what.replace("w.c..", "w.c.");
        }
        self.surprises = found;
    }

    fn readings(&self) -> [(Detail, &'static str, Option<GaugePressure>); 3] {
        [
            (Detail::StaticPressure, "static pressure", self.read.static_pressure),
            (Detail::WorkingPressure, "working pressure", self.read.working),
            (Detail::LockUpPressure, "lock-up pressure", self.read.lock_up),
        ]
    }

    /// Readings outside the limits of the rating plate. Only at full load is there a least.
    fn off_plate(&self, units: UnitSystem) -> Vec<Surprise> {
        let surprise = |field, what: String, look: &str| Surprise {
            field,
            off: Off::Plate,
            what,
            look: look.to_owned(),
        };
        let mut found = Vec::new();
        for (field, name, read) in self.readings() {
            let Some(read) = read else { continue };
            if let Some(greatest) = self.greatest.filter(|greatest| read > *greatest) {
                found.push(surprise(
                    field,
                    format!(
                        "{}: {name} was read at {}; the rating plate allows at most {}.",
                        self.lettered(),
                        read.show(units),
                        greatest.show(units)
                    ),
                    "Shut the appliance off. Have the regulator upstream set or replaced, or one added, and read again before it is lit.",
                ));
            }
            let least = self
                .least
                .filter(|least| field == Detail::WorkingPressure && read < *least);
            if let Some(least) = least {
                found.push(surprise(
                    field,
                    format!(
                        "{}: {name} was read at {}; the rating plate calls for at least {}.",
                        self.lettered(),
                        read.show(units),
                        least.show(units)
                    ),
                    "Do not leave it in use. Look for an undersized section, a valve that is not fully open, dirt, a kinked hose, or a starved \
                     regulator: read the pressure at the meter and upstream of each regulator with everything burning.",
                ));
            }
        }
        found
    }

    fn unexplained(&self, field: Detail, what: String, look: &str) -> Option<Surprise> {
        Some(Surprise {
            field,
            off: Off::Drawing,
            what: format!("{}: {what}", self.lettered()),
            look: look.to_owned(),
        })
    }

    fn off_static(&self, units: UnitSystem) -> Option<Surprise> {
        let (read, drawn) = (self.read.static_pressure?, self.drawn_static?);
        let said = format!(
            "static pressure was read at {}; its piping starts at {} on the drawing.",
            read.show(units),
            drawn.show(units)
        );
        if read.pa() < drawn.pa() - slack(drawn) {
            let look = "Read the pressure at the meter or regulator itself. Where it is as low there, have the regulator set, or correct the pressure \
                        on the drawing; where it is higher there, gas is still flowing: shut everything off, look for a leak, and read again.";
            return self.unexplained(Detail::StaticPressure, said, look);
        }
        if read.pa() > drawn.pa() * LOCK_UP + slack(drawn) {
            let look = "Look for a regulator that is set higher than drawn, does not shut off tight, or is not there; or correct the pressure on \
                        the drawing.";
            return self.unexplained(Detail::StaticPressure, said, look);
        }
        None
    }

    fn off_working(&self, units: UnitSystem) -> Option<Surprise> {
        let read = self.read.working?;
        if let Some(standing) = self
            .read
            .static_pressure
            .filter(|standing| read.pa() > standing.pa() + slack(*standing))
        {
            let said = format!(
                "working pressure was read at {}, above the static pressure of {}.",
                read.show(units),
                standing.show(units)
            );
            return self.unexplained(
                Detail::WorkingPressure,
                said,
                "Read both again: the two may be exchanged, or not everything was burning.",
            );
        }
        let drawn = self.drawn_working?;
        let said = format!(
            "working pressure was read at {}; the drawing gives {} with everything burning.",
            read.show(units),
            drawn.show(units)
        );
        // What the static pressure lacks already is told there.
        let lacks = match (self.read.static_pressure, self.drawn_static) {
            (Some(read), Some(drawn)) => (drawn.pa() - read.pa()).max(0.0),
            _ => 0.0,
        };
        if read.pa() < drawn.pa() - lacks - slack(drawn) {
            let look = "Look for a section that is smaller or longer than drawn, a valve that is not fully open, dirt or a kinked hose, an appliance \
                        that burns more than drawn, or a starved regulator: read the pressure upstream of each with everything burning, and \
                        measure the sizes on the way.";
            return self.unexplained(Detail::WorkingPressure, said, look);
        }
        if read.pa() > drawn.pa() + slack(drawn) {
            let look = "See that everything burned at full input when it was read. If it did, a size is drawn too small, a length or an input too large, or \
                        the delivery pressure is higher than drawn: correct the drawing.";
            return self.unexplained(Detail::WorkingPressure, said, look);
        }
        None
    }

    fn off_lock_up(&self, units: UnitSystem) -> Option<Surprise> {
        let read = self.read.lock_up?;
        let (name, held) = match (self.read.static_pressure, self.drawn_static) {
            (Some(read), _) => ("the static pressure read is", read),
            (None, Some(drawn)) => ("its piping starts on the drawing at", drawn),
            (None, None) => return None,
        };
        let share = if self.read.static_pressure.is_some() {
            1.0
        } else {
            LOCK_UP
        };
        if read.pa() <= held.pa() * share + slack(held) {
            return None;
        }
        let said = format!(
            "lock-up pressure was read at {}; {name} {}.",
            read.show(units),
            held.show(units)
        );
        self.unexplained(
            Detail::LockUpPressure,
            said,
            "The regulator upstream does not shut off tight: watch whether the pressure goes on rising, and have the regulator cleaned or replaced.",
        )
    }

    fn off_input(&self, units: UnitSystem) -> Option<Surprise> {
        let (clocked, plate, reading) = (self.clocked?, self.input?, self.read.clocked?);
        let off = clocked.btuh() - plate.btuh();
        if off.abs() <= plate.btuh() * INPUT_SHARE {
            return None;
        }
        let said = format!(
            "input was clocked at {} ({}); the rating plate says {}.",
            clocked.show(units),
            reading.show(units),
            plate.show(units)
        );
        let look = match off > 0.0 {
            true => {
                "See that nothing else burned while it was clocked. Then check its manifold pressure, its orifices for this gas and elevation, and the \
                 heating value with the supplier. What burns more than drawn also takes more from the piping."
            }
            false => {
                "See that it burned at full input all the time, and which dial was read. Then check its manifold pressure, its orifices for this gas and \
                 elevation, and the heating value with the supplier."
            }
        };
        self.unexplained(Detail::ClockedInput, said, look)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codebook::Codebook;
    use crate::job::{Appliance, JointId};

    /// What comes of readings at the built-in grill of the patio kitchen, for which the drawing gives 7 in w.c. static.
    fn grill(enter: impl Fn(&mut Appliance, GaugePressure)) -> StartUpRow {
        let mut job = crate::file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap();
        let book = Codebook::published();
        let at = job.joints.position(JointId(21)).unwrap();
        let row = |job: &Job| {
            let record = StartUpRecord::of(job, &Study::of(job, book));
            record.rows.into_iter().find(|row| row.joint == at).unwrap()
        };
        let working = row(&job).drawn_working.unwrap();
        let placed = job.joints.get_mut(JointId(21)).unwrap().placed.as_mut().unwrap();
        if let Device::Appliance(appliance) = &mut placed.device {
            enter(appliance, working);
        }
        row(&job)
    }

    fn inches(inches: f64) -> Option<GaugePressure> {
        Some(GaugePressure::from_inches_wc(inches))
    }

    #[track_caller]
    fn check(expected: &[(Detail, Off)], enter: impl Fn(&mut Appliance, GaugePressure)) -> StartUpRow {
        let row = grill(enter);
        let found: Vec<(Detail, Off)> = row.surprises.iter().map(|found| (found.field, found.off)).collect();
        assert_eq!(found, expected, "{:#?}", row.surprises);
        row
    }

    #[test]
    fn readings_that_the_drawing_explains_are_no_surprise() {
        let row = check(&[], |_, _| {});
        assert_eq!((row.result(), row.drawn_static), ("not measured", inches(7.0)));
        let row = check(&[], |appliance, working| {
            let read = &mut appliance.start_up;
            (read.static_pressure, read.lock_up) = (inches(7.2), inches(7.4));
            read.working = Some(working);
        });
        assert_eq!(row.result(), "explained by the drawing");
    }

    #[test]
    fn each_reading_says_what_to_look_for() {
        use Detail::{ClockedInput, LockUpPressure, StaticPressure, WorkingPressure};
        let low = check(&[(StaticPressure, Off::Drawing)], |it, _| {
            it.start_up.static_pressure = inches(6.0)
        });
        assert!(low.surprises[0].look.contains("regulator set"), "{low:?}");
        let low = check(&[(WorkingPressure, Off::Drawing)], |it, _| {
            it.start_up.working = inches(5.2)
        });
        assert!(low.surprises[0].look.contains("starved regulator"), "{low:?}");
        check(&[(WorkingPressure, Off::Drawing)], |it, _| {
            it.start_up.working = inches(7.3)
        });
        let creeps = check(&[(LockUpPressure, Off::Drawing)], |it, _| {
            (it.start_up.static_pressure, it.start_up.lock_up) = (inches(7.0), inches(8.5));
        });
        assert!(
            creeps.surprises[0].look.contains("does not shut off tight"),
            "{creeps:?}"
        );
        // 2 ft³ in 58 s are 124 cfh, which burn 75,000 Btu/h only in gas of 604 Btu/ft³.
        let clocked = check(&[(ClockedInput, Off::Drawing)], |it, _| {
            it.start_up.clocked = Some(Clocked::from_ft3_and_seconds(2.0, 58.0));
        });
        assert!(clocked.surprises[0].what.contains("2 ft³ in 58 s"), "{clocked:?}");
    }

    #[test]
    fn the_rating_plate_is_held_exactly() {
        use Detail::{LockUpPressure, StaticPressure, WorkingPressure};
        // The plate of the grill: 5 in w.c. to 10.5 in w.c.
        check(
            &[(WorkingPressure, Off::Plate), (WorkingPressure, Off::Drawing)],
            |it, _| {
                it.start_up.working = inches(4.9);
            },
        );
        check(
            &[(StaticPressure, Off::Plate), (StaticPressure, Off::Drawing)],
            |it, _| {
                it.start_up.static_pressure = inches(10.6);
            },
        );
        check(
            &[(LockUpPressure, Off::Plate), (LockUpPressure, Off::Drawing)],
            |it, _| {
                it.start_up.lock_up = inches(11.0);
            },
        );
    }

    #[test]
    fn a_shortfall_of_the_static_pressure_is_told_once() {
        check(&[(Detail::StaticPressure, Off::Drawing)], |it, working| {
            let short = PressureDrop::from_inches_wc(1.0);
            it.start_up.static_pressure = inches(6.0);
            it.start_up.working = Some(GaugePressure::from_pa(working.pa() - short.pa()));
        });
    }
}
