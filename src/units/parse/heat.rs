//! Heat rate, flow and heating value as people type them.

use super::scalar::{Kind, Unit};
use super::{Parse, UnitError};
use crate::units::{Flow, HeatRate, HeatingValue};

impl Parse for HeatRate {
    fn parse(text: &str) -> Result<HeatRate, UnitError> {
        const KIND: Kind<HeatRate> = Kind {
            wanted: "an input",
            examples: "75,000 Btu/h, 75 MBH or 22 kW",
            units: &[
                Unit {
                    // Rating plates and price lists write Btu and mean Btu an hour (common practice, no source).
                    spellings: &["btu/h", "btuh", "btu"],
                    ten: 0,
                    make: HeatRate::from_btuh,
                },
                Unit {
                    // M is the Roman thousand, in capitals or not; "50k" is 50,000 Btu/h (common practice, no source).
                    spellings: &["mbh", "mbtuh", "mbtu/h", "kbtuh", "kbtu/h", "k", "thousand"],
                    ten: 3,
                    make: HeatRate::from_btuh,
                },
                Unit {
                    spellings: &["mmbtuh", "mmbtu/h"],
                    ten: 6,
                    make: HeatRate::from_btuh,
                },
                Unit {
                    spellings: &["kw", "kilowatt", "kilowatts"],
                    ten: 0,
                    make: HeatRate::from_kw,
                },
                Unit {
                    spellings: &["w", "watt", "watts"],
                    ten: -3,
                    make: HeatRate::from_kw,
                },
            ],
            others: None,
            fault: |heat| fault(heat.btuh(), 1e9, "it is more than 1,000,000,000 Btu/h"),
        };
        KIND.read(text)
    }
}

impl Parse for Flow {
    fn parse(text: &str) -> Result<Flow, UnitError> {
        const KIND: Kind<Flow> = Kind {
            wanted: "a flow of gas",
            examples: "75 cfh, 75 ft3/h or 2.1 m3/h",
            units: &[
                Unit {
                    spellings: &["cfh", "scfh", "cf/h", "ft3/h"],
                    ten: 0,
                    make: Flow::from_cfh,
                },
                Unit {
                    spellings: &["m3/h", "cmh"],
                    ten: 0,
                    make: Flow::from_m3h,
                },
            ],
            others: Some((
                &["btu/h", "btuh", "btu", "mbh", "kw"],
                "this is an input; divide its Btu/h by the heating value of the gas (usually 1,000 Btu/ft3 for natural gas, \
                 2,500 for propane) and write cfh",
            )),
            fault: |flow| fault(flow.cfh(), 1e7, "it is more than 10,000,000 cfh"),
        };
        KIND.read(text)
    }
}

impl Parse for HeatingValue {
    fn parse(text: &str) -> Result<HeatingValue, UnitError> {
        const KIND: Kind<HeatingValue> = Kind {
            wanted: "a heating value",
            examples: "1,000 Btu/ft3 or 37.3 MJ/m3",
            units: &[
                Unit {
                    spellings: &["btu/ft3", "btu/cf", "btu/scf"],
                    ten: 0,
                    make: HeatingValue::from_btu_per_ft3,
                },
                Unit {
                    spellings: &["mj/m3"],
                    ten: 0,
                    make: HeatingValue::from_mj_per_m3,
                },
                Unit {
                    spellings: &["kj/m3"],
                    ten: -3,
                    make: HeatingValue::from_mj_per_m3,
                },
            ],
            others: None,
            fault: |value| match value.btu_per_ft3() {
                0.0 => Some("gas with no heat does not burn"),
                value => fault(value, 1e4, "it is more than 10,000 Btu/ft3"),
            },
        };
        KIND.read(text)
    }
}

fn fault(value: f64, limit: f64, beyond: &'static str) -> Option<&'static str> {
    if value < 0.0 {
        return Some("it must be zero or more");
    }
    (value.is_nan() || value > limit).then_some(beyond)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check<T: Parse>(text: &str, number: fn(T) -> f64, expected: f64) {
        match T::parse(text) {
            Ok(value) => {
                let value = number(value);
                assert!((value - expected).abs() <= 2e-7 * expected, "{text}: {value}");
            }
            Err(error) => panic!("{error}"),
        }
    }

    /// NIST SP 811 (2008), appendix B.8: Btu(IT)/h 2.930 711 E-01 W.
    #[test]
    fn heat_rates() {
        for text in [
            "75,000 Btu/h",
            "75000BTUH",
            "75 MBH",
            "75 mBH",
            "75 mbh",
            "75000 BTU/hr",
            "75000 btu per hour",
            "75 kBtu/h",
            "0.075 MMBtu/h",
            "75000 BTU",
            "75k",
            "75 thousand",
        ] {
            check(text, HeatRate::btuh, 75_000.0);
        }
        check("0.2930711 W", HeatRate::btuh, 1.0);
        check("22 kW", HeatRate::btuh, 22.0 / 0.293_071_1e-3);
        check("22,000 W", HeatRate::kw, 22.0);
        check("0 Btu/h", HeatRate::btuh, 0.0);
        assert_eq!(HeatRate::parse("75.123 MBH"), HeatRate::parse("75,123 Btu/h"));
    }

    /// NIST SP 811 (2008), appendix B.8: cubic foot 2.831 685 E-02 m3.
    #[test]
    fn flows() {
        for text in [
            "75 cfh",
            "75 CFH",
            "75 ft3/h",
            "75 ft³/h",
            "75 ft^3/hr",
            "75 cu ft/h",
            "75 cu. ft. per hour",
        ] {
            check(text, Flow::cfh, 75.0);
        }
        check("2.831685 m3/h", Flow::cfh, 100.0);
        check("2.831685 m³/h", Flow::cfh, 100.0);
    }

    /// NIST SP 811 (2008), appendix B.8: Btu(IT)/ft3 3.725 895 E+04 J/m3.
    #[test]
    fn heating_values() {
        for text in ["1,000 Btu/ft3", "1000 BTU/ft³", "1000 Btu per cu ft", "1000 btu/cf"] {
            check(text, HeatingValue::btu_per_ft3, 1_000.0);
        }
        check("37.25895 MJ/m3", HeatingValue::btu_per_ft3, 1_000.0);
        check("37258.95 kJ/m³", HeatingValue::btu_per_ft3, 1_000.0);
    }

    #[test]
    fn what_is_out_of_bounds_is_refused() {
        assert!(HeatRate::parse("1000000001 Btu/h").is_err());
        assert!(HeatRate::parse("1000000000 Btu/h").is_ok());
        assert!(HeatRate::parse("-1 Btu/h").is_err());
        assert!(HeatRate::parse("75000").is_err());
        assert!(HeatRate::parse("75 MW").is_err());
        assert!(Flow::parse("1e8 cfh").is_err());
        assert!(HeatingValue::parse("0 Btu/ft3").is_err());
        assert!(HeatingValue::parse("1e5 Btu/ft3").is_err());
    }
}
