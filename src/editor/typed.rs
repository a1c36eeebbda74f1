//! What is typed of a run while it is drawn: its true length, or what was measured of an offset.

use super::Refusal;
use crate::job::{Direction, MeasuredOffset};
use crate::units::{Angle, Length, Parse, UnitSystem};

/// What was typed of a run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Typed {
    /// Nothing: it is as long as it is drawn.
    Nothing,
    /// Its true length.
    Length(Length),
    /// What was measured of it: `8"x12"@45` is rise, roll and angle, `8"x12"x14-7/16"` rise, roll and run along the
    /// line, `12"@45` a rise alone, or a roll where it is drawn level.
    Offset(MeasuredOffset),
}

impl Typed {
    /// Signs that only an offset has: between its lengths, and before its angle.
    pub const OFFSET_SIGNS: [char; 4] = ['x', 'X', '×', '@'];

    /// Reads what was typed for a run that is drawn so.
    ///
    /// # Errors
    /// When it is no length and no offset, or the offset's measures do not agree, or the run goes along an axis.
    pub fn read(text: &str, way: Option<Direction>, units: UnitSystem) -> Result<Typed, Refusal> {
        let text = text.trim();
        if text.is_empty() {
            return Ok(Typed::Nothing);
        }
        let (lengths, angle) = match text.split_once('@') {
            Some((lengths, angle)) => (lengths, Some(Angle::parse(angle)?)),
            None => (text, None),
        };
        let lengths: Vec<Length> = lengths
            .split(['x', 'X', '×'])
            .map(|length| Length::parse_in(length, units))
            .collect::<Result<_, _>>()?;
        let level = way.is_some_and(|way| way.up == 0);
        let (rise, roll, run) = match (lengths.as_slice(), angle) {
            (&[length], None) if length > Length::ZERO => return Ok(Typed::Length(length)),
            (&[_], None) => return Err(Refusal::NoLength),
            (&[set], Some(_)) if level => (Length::ZERO, set, None),
            (&[set], Some(_)) => (set, Length::ZERO, None),
            (&[rise, roll], _) => (rise, roll, None),
            (&[rise, roll, run], _) => (rise, roll, Some(run)),
            _ => return Err(Refusal::OffsetUnread),
        };
        let offset = MeasuredOffset { rise, roll, run, angle };
        if way.is_some_and(|way| way.axis().is_some()) {
            return Err(Refusal::OffsetAlongAxis);
        }
        match offset.made(None) {
            Ok(_) => Ok(Typed::Offset(offset)),
            Err(misfit) => Err(Refusal::misfit("the new run", misfit, units)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ASLANT: Direction = Direction::new(2, 1, 1);

    #[track_caller]
    fn check(text: &str, way: Direction, expected: (f64, f64, Option<f64>, Option<f64>)) {
        let (rise, roll, run, angle) = expected;
        let offset = MeasuredOffset {
            rise: Length::from_inches(rise),
            roll: Length::from_inches(roll),
            run: run.map(Length::from_inches),
            angle: angle.map(Angle::from_degrees),
        };
        assert_eq!(
            Typed::read(text, Some(way), UnitSystem::Us),
            Ok(Typed::Offset(offset)),
            "{text}"
        );
    }

    #[test]
    fn an_offset_is_rise_by_roll_at_its_angle_or_by_its_run() {
        check("8\"x12\"@45", ASLANT, (8.0, 12.0, None, Some(45.0)));
        check("8 in × 12 in @ 22.5°", ASLANT, (8.0, 12.0, None, Some(22.5)));
        check("8\"x1'x14-7/16 in", ASLANT, (8.0, 12.0, Some(14.4375), None));
        check("20\"@45", ASLANT, (20.0, 0.0, None, Some(45.0)));
        check("20\"@45", Direction::new(1, 1, 0), (0.0, 20.0, None, Some(45.0)));
    }

    #[test]
    fn what_makes_no_offset_says_why() {
        let read = |text: &str, way| Typed::read(text, Some(way), UnitSystem::Us).unwrap_err().to_string();
        for (text, way, words) in [
            ("8\"x12\"", ASLANT, "do not give its angle"),
            (
                "8\"x12\"x20\"@45",
                ASLANT,
                "by the other measurements it is 1'-2 7/16\"",
            ),
            ("8\"x12\"@90", ASLANT, "cannot turn 90°"),
            ("8\"x12\"@45", Direction::new(1, 0, 0), "drawn off the axes"),
            ("8\"x12\"x1\"x2\"", ASLANT, "8\"x12\"@45"),
            ("8\"xtwo@45", ASLANT, "is not a length"),
            ("8\"@steep", ASLANT, "is not an angle"),
            ("-8\"", ASLANT, "greater than zero"),
        ] {
            let said = read(text, way);
            assert!(said.contains(words), "{text}: {said}");
        }
        assert_eq!(Typed::read(" ", None, UnitSystem::Us), Ok(Typed::Nothing));
    }
}
