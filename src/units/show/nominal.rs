//! Nominal sizes: `3/4"`, `DN 20`, `EHD 18`, `22 mm`, `type 20A`; in files `3/4`.

use super::length::ascii;
use super::{Show, UnitSystem};
use crate::units::NominalSize;

impl Show for NominalSize {
    /// A metric drawing shows the DN; a size without a DN partner stays in inches.
    fn show(&self, units: UnitSystem) -> String {
        match (*self, self.dn()) {
            (_, Some(dn)) if units.is_metric() => format!("DN {dn}"),
            (NominalSize::Inch(_), _) => format!("{}\"", self.exact()),
            (NominalSize::Ehd(_) | NominalSize::Millimeter(_) | NominalSize::Named(_), _) => self.exact(),
        }
    }

    fn exact(&self) -> String {
        match *self {
            NominalSize::Ehd(number) => format!("EHD {number}"),
            NominalSize::Millimeter(tenths) => format!("{} mm", f64::from(tenths) / 10.0),
            NominalSize::Named(name) => format!("type {name}"),
            NominalSize::Inch(sixteenths) => {
                let fraction = ascii((sixteenths % 16).into(), 16);
                match (sixteenths / 16, fraction.as_str()) {
                    (0, fraction) => fraction.into(),
                    (whole, "") => whole.to_string(),
                    (whole, fraction) => format!("{whole}-{fraction}"),
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Parse;

    #[track_caller]
    fn check(text: &str, us: &str, metric: &str, exact: &str) {
        let size = NominalSize::parse(text).unwrap();
        assert_eq!(size.show(UnitSystem::Us), us);
        assert_eq!(size.show(UnitSystem::Metric), metric);
        assert_eq!(size.exact(), exact);
    }

    #[test]
    fn as_a_fitter_writes() {
        check("1/2", "1/2\"", "DN 15", "1/2");
        check("3/4", "3/4\"", "DN 20", "3/4");
        check("1-1/4", "1-1/4\"", "DN 32", "1-1/4");
        check("2", "2\"", "DN 50", "2");
        check("3/16", "3/16\"", "3/16\"", "3/16");
        check("1-3/16", "1-3/16\"", "1-3/16\"", "1-3/16");
        check("EHD 18", "EHD 18", "EHD 18", "EHD 18");
        check("22 mm", "22 mm", "22 mm", "22 mm");
        check("19.1mm", "19.1 mm", "19.1 mm", "19.1 mm");
        check("type 20a", "type 20A", "type 20A", "type 20A");
        check("type 1-1/4", "type 1-1/4", "type 1-1/4", "type 1-1/4");
    }

    #[test]
    fn every_size_is_read_back() {
        let inch = (1..=80 * 16).map(NominalSize::Inch);
        let others = (1..=999).map(NominalSize::Ehd);
        for size in inch.chain(others).chain((1..=20_000).map(NominalSize::Millimeter)) {
            assert_eq!(NominalSize::parse(&size.exact()), Ok(size));
            for units in [UnitSystem::Us, UnitSystem::Metric] {
                assert_eq!(NominalSize::parse(&size.show(units)), Ok(size));
            }
        }
    }
}
