//! What was measured of an offset.

use super::{FoundBy, Offset, true_offset};
use crate::units::{Angle, Length, Show, UnitSystem};

/// An offset as it was measured: how far its two lines lie apart, and by what it turns.
///
/// To which sides it goes is drawn; lengths carry no sign. The drawing of it need not be to scale: where an offset is
/// measured, travel, turn and fittings follow from the measures alone. One of run, angle and the run's own length (the
/// travel) must be given; what else is given must agree.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct MeasuredOffset {
    /// How far it goes up or down; of an offset in a plumb line, how far east or west.
    pub rise: Length,
    /// How far it goes aside; of an offset in a plumb line, how far north or south.
    pub roll: Length,
    /// What it uses along the line that it leaves, centre to centre.
    pub run: Option<Length>,
    /// The turn of each of its two fittings.
    pub angle: Option<Angle>,
}

/// Why measures make no offset.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Misfit {
    /// Neither rise nor roll.
    NoSet,
    /// A measure is less than nothing, or a run or travel is nothing.
    NotPositive(&'static str),
    /// Nothing tells by what it turns.
    NoTurn,
    /// It turns by nothing, or by 90° or more.
    Turn(Angle),
    /// The travel is no longer than the two lines are apart.
    TravelShort {
        /// As typed.
        travel: Length,
        /// How far the lines are apart.
        set: Length,
    },
    /// A measure is not what follows from the others.
    Unlike {
        /// Which: "run".
        what: &'static str,
        /// As typed.
        typed: Length,
        /// By the others.
        follows: Length,
    },
}

/// Measures that differ by no more are one: each of rise, roll and run is read to 1/16 in, which together moves the run
/// or travel by a little more than that (plain geometry; the tool's own choice).
const AGREE: Length = Length::from_eighths_of_um(25_400);

impl MeasuredOffset {
    /// The offset that it makes; `length` is the run's own typed length, the travel.
    ///
    /// # Errors
    /// When the measures are too few, or do not agree to 1/8 in.
    pub fn made(&self, length: Option<Length>) -> Result<Offset, Misfit> {
        let sides = [("rise", self.rise), ("roll", self.roll)];
        if let Some((what, _)) = sides.into_iter().find(|(_, side)| *side < Length::ZERO) {
            return Err(Misfit::NotPositive(what));
        }
        let given = [("run", self.run), ("travel", length)];
        if let Some((what, _)) = given
            .into_iter()
            .find(|(_, given)| given.is_some_and(|it| it <= Length::ZERO))
        {
            return Err(Misfit::NotPositive(what));
        }
        let set = true_offset(self.rise, self.roll);
        if set == Length::ZERO {
            return Err(Misfit::NoSet);
        }
        let offset = Offset::of_set(self.rise, self.roll, FoundBy::Measure, self.found(set, length)?);
        // What is left of a turn that is not quite a stock elbow's is told by the run.
        for (what, typed, follows) in [("run", self.run, offset.along), ("travel", length, offset.travel)] {
            match typed {
                Some(typed) if (typed - follows).magnitude() > AGREE => {
                    return Err(Misfit::Unlike { what, typed, follows });
                }
                Some(_) | None => {}
            }
        }
        Ok(offset)
    }

    /// The turn in degrees, as measured.
    fn found(&self, set: Length, length: Option<Length>) -> Result<f64, Misfit> {
        match (self.angle, self.run, length) {
            (Some(angle), ..) if angle.degrees() > 0.0 && angle.degrees() < 90.0 => Ok(angle.degrees()),
            (Some(angle), ..) => Err(Misfit::Turn(angle)),
            (None, Some(run), _) => Ok(libm::atan2(set.inches(), run.inches()).to_degrees()),
            (None, None, Some(travel)) if travel > set => Ok(libm::asin(set.inches() / travel.inches()).to_degrees()),
            (None, None, Some(travel)) => Err(Misfit::TravelShort { travel, set }),
            (None, None, None) => Err(Misfit::NoTurn),
        }
    }

    /// The same offset in two parts one behind the other, the first so great a share of it; nothing is lost.
    pub fn parted(&self, share: f64) -> [MeasuredOffset; 2] {
        let part = |whole: Length| (whole.times(share), whole - whole.times(share));
        let ((rise, rise_left), (roll, roll_left), run) = (part(self.rise), part(self.roll), self.run.map(part));
        let angle = self.angle;
        [
            (rise, roll, run.map(|run| run.0)),
            (rise_left, roll_left, run.map(|run| run.1)),
        ]
        .map(|(rise, roll, run)| MeasuredOffset { rise, roll, run, angle })
    }

    /// Two offsets one behind the other as one; `None` where they were not measured alike.
    pub fn joined(&self, other: &MeasuredOffset) -> Option<MeasuredOffset> {
        let is_alike = self.angle == other.angle && self.run.is_some() == other.run.is_some();
        is_alike.then(|| MeasuredOffset {
            rise: self.rise + other.rise,
            roll: self.roll + other.roll,
            run: self.run.zip(other.run).map(|(one, other)| one + other),
            angle: self.angle,
        })
    }
}

impl Misfit {
    /// What is wrong, as a clause.
    pub fn words(&self, units: UnitSystem) -> String {
        match *self {
            Misfit::NoSet => "it has neither rise nor roll".to_owned(),
            Misfit::NotPositive(what) => format!("its {what} is not above zero"),
            Misfit::NoTurn => "rise and roll alone do not give its angle".to_owned(),
            Misfit::Turn(angle) => format!("it cannot turn {}", angle.show(units)),
            Misfit::TravelShort { travel, set } => format!(
                "its travel of {} is not longer than its set of {}",
                travel.show(units),
                set.show(units)
            ),
            Misfit::Unlike { what, typed, follows } => format!(
                "its {what} is entered as {}; by the other measurements it is {}",
                typed.show(units),
                follows.show(units)
            ),
        }
    }

    /// What to do, as a sentence.
    pub const fn remedy(&self) -> &'static str {
        match self {
            Misfit::NoSet => "Enter how far the line goes up or down (rise) and sideways (roll).",
            Misfit::NotPositive(_) => "Enter it without a sign: the drawing says to which side it goes.",
            Misfit::NoTurn => {
                "Enter the angle of its fittings, its run along the line, or its travel as the true length."
            }
            Misfit::Turn(_) => "Enter an angle over 0° and under 90°; 45° is a stock elbow.",
            Misfit::TravelShort { .. } => "Measure again, or leave the true length out: travel follows from the rest.",
            Misfit::Unlike { .. } => {
                "Measure again, or leave one out: rise, roll and one of angle, run and travel are enough."
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(inches: f64) -> Length {
        Length::from_inches(inches)
    }

    fn measured(rise: f64, roll: f64, run: Option<f64>, angle: Option<f64>) -> MeasuredOffset {
        MeasuredOffset {
            rise: inches(rise),
            roll: inches(roll),
            run: run.map(inches),
            angle: angle.map(Angle::from_degrees),
        }
    }

    #[test]
    fn angle_run_or_travel_tell_the_same_offset() {
        // Rise 8 in, roll 12 in: true offset 14.4222 in, at 45° a travel of 20.3961 in.
        let by_angle = measured(8.0, 12.0, None, Some(45.0)).made(None).unwrap();
        assert!((by_angle.travel.inches() - 20.3961).abs() < 1e-4, "{by_angle:?}");
        // Read off a tape to 1/16 in, run and travel mean the same elbows, so the same pipe.
        for (measures, length) in [
            (measured(8.0, 12.0, Some(14.4375), None), None),
            (measured(8.0, 12.0, None, None), Some(20.375)),
            (measured(8.0, 12.0, Some(14.4375), Some(45.0)), Some(20.375)),
        ] {
            let made = measures.made(length.map(inches)).unwrap();
            assert_eq!(
                (made.travel, made.along, made.degrees),
                (by_angle.travel, by_angle.along, 45.0)
            );
        }
        let by_run = measured(8.0, 12.0, Some(14.4375), None).made(None).unwrap();
        assert!((by_run.found.degrees - 44.97).abs() < 0.005 && !by_run.is_as_found());
    }

    #[test]
    fn measures_that_do_not_agree_make_no_offset() {
        let check = |measures: MeasuredOffset, length: Option<f64>, words: &str| {
            let misfit = measures.made(length.map(inches)).unwrap_err();
            assert!(
                misfit.words(UnitSystem::Us).contains(words),
                "{}",
                misfit.words(UnitSystem::Us)
            );
            assert!(misfit.remedy().ends_with('.'));
        };
        check(measured(0.0, 0.0, None, Some(45.0)), None, "neither rise nor roll");
        check(measured(-8.0, 12.0, None, Some(45.0)), None, "rise is not above zero");
        check(measured(8.0, 12.0, Some(0.0), None), None, "run is not above zero");
        check(measured(8.0, 12.0, None, None), None, "do not give its angle");
        check(measured(8.0, 12.0, None, Some(90.0)), None, "cannot turn 90°");
        check(measured(8.0, 12.0, None, Some(-45.0)), None, "cannot turn -45°");
        check(
            measured(8.0, 12.0, None, None),
            Some(14.0),
            "not longer than its set of 1'-2 7/16\"",
        );
        check(
            measured(8.0, 12.0, Some(16.0), Some(45.0)),
            None,
            "run is entered as 1'-4\"; by the other measurements it is 1'-2 7/16\"",
        );
        check(
            measured(8.0, 12.0, None, Some(45.0)),
            Some(24.0),
            "travel is entered as 2'-0\"",
        );
        // 44.6° by the run, made with 45° elbows: the line would end 3/16 in short of where it was measured.
        check(
            measured(8.0, 12.0, Some(14.625), None),
            None,
            "by the other measurements it is 1'-2 7/16\"",
        );
    }
}
