//! A quantity that is one number and one unit, read by the list of its units.

use super::number::Scan;
use super::plain::plain;
use super::{UnitError, printable};

/// A unit: how it can be spelled, and what a number of it is.
pub struct Unit<T: 'static> {
    /// Spellings, as [`spelling`] brings them to one form.
    pub spellings: &'static [&'static str],
    /// Power of ten from this unit to the one that `make` takes.
    pub ten: i32,
    /// The quantity.
    pub make: fn(f64) -> T,
}

/// A kind of quantity.
pub struct Kind<T: 'static> {
    /// With its article: "a flow of gas".
    pub wanted: &'static str,
    /// Accepted ways to write it.
    pub examples: &'static str,
    /// Its units.
    pub units: &'static [Unit<T>],
    /// Spellings of the units of another quantity that people write in its place, and what to do then, as a clause.
    pub others: Option<(&'static [&'static str], &'static str)>,
    /// Why a value is out of bounds, if it is. A bound must not be true of NaN.
    pub fault: fn(&T) -> Option<&'static str>,
}

impl<T> Kind<T> {
    /// Reads `text`.
    ///
    /// # Errors
    /// When it is not one number with one of the units, or is out of bounds.
    pub fn read(&self, text: &str) -> Result<T, UnitError> {
        plain(text)
            .and_then(|plain| self.value(Scan::new(&plain)))
            .map_err(|reason| UnitError::new(text, self.wanted, reason, self.examples))
    }

    fn value(&self, mut scan: Scan) -> Result<T, String> {
        let minus = scan.minus();
        let number = scan.number()?;
        let spelled = spelling(scan.rest());
        if spelled.is_empty() {
            return Err("it has no unit".into());
        }
        let Some(unit) = self.units.iter().find(|unit| unit.spellings.contains(&&*spelled)) else {
            return Err(match self.others {
                Some((others, instead)) if others.contains(&&*spelled) => instead.into(),
                Some(_) | None => format!("the unit `{}` is not known here", printable(scan.rest())),
            });
        };
        let number = number.to_f64(unit.ten);
        let value = (unit.make)(if minus { -number } else { number });
        match (self.fault)(&value) {
            Some(fault) => Err(fault.into()),
            None => Ok(value),
        }
    }
}

/// A unit in lower case, without spaces and points, its variants brought to one form: `in`, `/`, `h`, `ft3`, `btu`.
fn spelling(unit: &str) -> String {
    let mut unit: String = unit
        .chars()
        .filter(|symbol| !matches!(symbol, ' ' | '.' | '^'))
        .collect();
    for (variant, form) in [
        ("\"", "in"),
        ("inches", "in"),
        ("inch", "in"),
        ("per", "/"),
        ("/hour", "/h"),
        ("/hr", "/h"),
        ("btus", "btu"),
        ("cubicfeet", "ft3"),
        ("cubicfoot", "ft3"),
        ("cuft", "ft3"),
    ] {
        unit = unit.replace(variant, form);
    }
    unit
}
