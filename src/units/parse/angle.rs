//! Angles as people type them.

use super::scalar::{Kind, Unit};
use super::{Parse, UnitError};
use crate::units::Angle;

impl Parse for Angle {
    /// A number alone is degrees: nothing else is meant by it on a job.
    fn parse(text: &str) -> Result<Angle, UnitError> {
        const KIND: Kind<Angle> = Kind {
            wanted: "an angle",
            examples: "45°, 22.5° or 60 deg",
            units: &[Unit {
                spellings: &["°", "deg", "degree", "degrees"],
                ten: 0,
                make: Angle::from_degrees,
            }],
            others: None,
            fault: |angle| (angle.degrees().abs() > 360.0).then_some("it is more than 360°"),
        };
        match text.trim_end().ends_with(|last: char| last.is_ascii_digit()) {
            true => KIND.read(&format!("{}°", text.trim_end())),
            false => KIND.read(text),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Show, UnitSystem};

    #[test]
    fn angles_are_read_with_and_without_their_unit_and_written_back() {
        for (text, degrees, shown) in [
            ("45", 45.0, "45°"),
            ("45°", 45.0, "45°"),
            ("22.5 deg", 22.5, "22.5°"),
            (" 22 1/2 degrees ", 22.5, "22.5°"),
            ("11-1/4", 11.25, "11.25°"),
            ("44.974", 44.974, "44.97°"),
        ] {
            let angle = Angle::parse(text).unwrap();
            assert_eq!(
                (angle.degrees(), angle.show(UnitSystem::Us)),
                (degrees, shown.to_owned()),
                "{text}"
            );
            assert_eq!(Angle::parse(&angle.exact()), Ok(angle), "{text}");
        }
        for (text, why) in [
            ("", "nothing is entered"),
            ("45 in", "the unit `in` is not known here"),
            ("361", "it is more than 360°"),
            ("1e300", "it is more than 360°"),
            ("forty-five", "it does not start with a number"),
        ] {
            let error = Angle::parse(text).unwrap_err().to_string();
            assert!(
                error.contains(why) && error.contains("write it like 45°"),
                "{text}: {error}"
            );
        }
    }
}
