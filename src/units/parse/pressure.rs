//! Gauge pressure and pressure drop as people type them.

use super::scalar::{Kind, Unit};
use super::{Parse, UnitError};
use crate::units::{AbsolutePressure, GaugePressure, PressureDrop};

const INCH_WC: &[&str] = &[
    "inwc",
    "iwc",
    "inwg",
    "inh2o",
    "inwater",
    "inofwater",
    "inwatercolumn",
    "inofwatercolumn",
    // Whoever speaks of gas and says inches means a water column, and by pounds and ounces those on a square inch (common
    // practice, no source).
    "in",
];
const PSI: &[&str] = &["psi", "psig", "lb/in2", "lbf/in2", "lb", "lbs", "pound", "pounds", "#"];
const OUNCE: &[&str] = &["oz", "ounce", "ounces", "osi", "oz/in2"];
const PA: &[&str] = &["pa", "pascal", "pascals"];
const KPA: &[&str] = &["kpa", "kpag", "kpa(g)"];
const MBAR: &[&str] = &["mbar", "mb", "millibar", "millibars", "hpa"];
const BAR: &[&str] = &["bar", "barg"];

/// Pascals in 100 bar, more than any piping job.
const LIMIT_PA: f64 = 1e7;

macro_rules! pressure {
    ($name:ident, $wanted:literal, $examples:literal, $fault:expr) => {
        impl Parse for $name {
            fn parse(text: &str) -> Result<$name, UnitError> {
                const fn unit(spellings: &'static [&'static str], ten: i32, make: fn(f64) -> $name) -> Unit<$name> {
                    Unit { spellings, ten, make }
                }
                const KIND: Kind<$name> = Kind {
                    wanted: $wanted,
                    examples: $examples,
                    units: &[
                        unit(INCH_WC, 0, $name::from_inches_wc),
                        unit(PSI, 0, $name::from_psi),
                        unit(OUNCE, 0, |ounces| $name::from_psi(ounces / 16.0)),
                        unit(PA, 0, $name::from_pa),
                        unit(KPA, 3, $name::from_pa),
                        unit(MBAR, 2, $name::from_pa),
                        unit(BAR, 5, $name::from_pa),
                    ],
                    others: None,
                    fault: |pressure| $fault(pressure.pa()),
                };
                KIND.read(text)
            }
        }
    };
}
pressure!(
    GaugePressure,
    "a gauge pressure",
    "7 in w.c., 2 psi, 17.4 mbar or 1.7 kPa",
    gauge_fault
);
pressure!(
    PressureDrop,
    "a pressure drop",
    "0.5 in w.c., 1 psi, 1.2 mbar or 125 Pa",
    drop_fault
);

fn gauge_fault(pa: f64) -> Option<&'static str> {
    if pa < -AbsolutePressure::ATMOSPHERE.pa() {
        return Some("it is less than a vacuum");
    }
    drop_fault(pa)
}

fn drop_fault(pa: f64) -> Option<&'static str> {
    (pa.is_nan() || pa.abs() > LIMIT_PA).then_some("it is more than 100 bar")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, pa: f64) {
        let gauge = GaugePressure::parse(text).unwrap().pa();
        let drop = PressureDrop::parse(text).unwrap().pa();
        assert!((gauge - pa).abs() <= 1e-6 * pa.abs(), "{text}: {gauge}");
        assert_eq!(gauge, drop, "{text}");
    }

    /// NIST SP 811 (2008), appendix B.8: inch of water, conventional, 2.490 889 E+02 Pa; psi 6.894 757 E+03 Pa; bar
    /// 1.0 E+05 Pa; an ounce is a sixteenth of a pound.
    #[test]
    fn every_spelling_is_read() {
        for text in [
            "1 in wc",
            "1 in w.c.",
            "1\"wc",
            "1\" w.c.",
            "1″ WC",
            "1 inWC",
            "1 inches water",
            "1 in. H2O",
            "1inwc",
            "1 inch of water",
            "1 IN. W.C.",
            "1 in",
            "1 inch",
        ] {
            check(text, 249.0889);
        }
        check("2 psi", 2.0 * 6_894.757);
        check("2 PSIG", 2.0 * 6_894.757);
        for text in ["2 lb", "2 lbs", "2#", "2 pounds", "32 oz", "32 ounces"] {
            check(text, 2.0 * 6_894.757);
        }
        check("½ psi", 0.5 * 6_894.757);
        check("1/2 in wc", 0.5 * 249.0889);
        check("125 Pa", 125.0);
        check("1.7 kPa", 1_700.0);
        check("7 mbar", 700.0);
        check("0.1 bar", 10_000.0);
        check("1,000 Pa", 1_000.0);
        check("-0.5 in wc", -0.5 * 249.0889);
    }

    #[test]
    fn what_is_no_pressure_is_refused() {
        for (text, reason) in [
            ("7", "no unit"),
            ("7 in hg", "`in hg`"),
            ("14.7 psia", "`psia`"),
            ("7 in wc or so", "not known"),
            ("101 bar", "100 bar"),
            ("-101 bar", "vacuum"),
            ("1e400 Pa", "100 bar"),
            ("NaN Pa", "number"),
            ("inf Pa", "number"),
            ("0,5 mbar", "point"),
            ("1/0 psi", "zero"),
            ("", "nothing"),
        ] {
            let error = GaugePressure::parse(text).expect_err(text);
            assert!(error.reason.contains(reason), "{text}: {error}");
        }
        assert!(PressureDrop::parse("-101 bar").is_err());
        assert!(PressureDrop::parse("-1.5 bar").is_ok());
    }
}
