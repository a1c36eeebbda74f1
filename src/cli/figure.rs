//! Figures for machines: as many digits as the thing has, and no more.
//!
//! The end of a key names the unit, and the unit the decimals that mean something. A number under a key without a unit is a
//! count, or has the digits of the one for which it stands.

use serde_json::{Number, Value};

/// Ends of keys, and how many decimals a number under them has; the first that fits counts.
pub const DECIMALS: [(&str, usize); 15] = [
    ("ft3_per_ft", 5),
    ("btuh", 0),
    ("cfh", 2),
    ("cost", 2),
    ("price", 2),
    ("total", 2),
    ("amount", 3),
    ("degrees", 2),
    ("_f", 1),
    ("_ft", 3),
    ("_ft3", 5),
    ("_in", 4),
    ("_inwc", 3),
    ("_lb", 2),
    ("_psi", 3),
];

/// So many decimals a number of no named kind has: minutes, shares.
const OTHERS: usize = 3;

/// How many decimals a number has under a key.
fn decimals(key: &str) -> usize {
    let kind = DECIMALS.iter().find(|(end, _)| key.ends_with(end));
    kind.map_or(OTHERS, |(_, decimals)| *decimals)
}

/// Rounds every number of a value to what is meant; `key` is the key that it stands under.
pub fn round(key: &str, value: &mut Value) {
    match value {
        Value::Object(entries) => entries.iter_mut().for_each(|(key, value)| round(key, value)),
        Value::Array(values) => values.iter_mut().for_each(|value| round(key, value)),
        Value::Number(number) if number.is_f64() => {
            let rounded = number
                .as_f64()
                .and_then(|number| Number::from_f64(rounded(number, decimals(key))));
            if let Some(rounded) = rounded {
                *number = rounded;
            }
        }
        Value::Number(_) | Value::Null | Value::Bool(_) | Value::String(_) => {}
    }
}

/// A number with so many decimals; what is nothing has no sign.
fn rounded(number: f64, decimals: usize) -> f64 {
    let text = format!("{number:.decimals$}");
    text.parse().map_or(number, |rounded: f64| rounded + 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn a_number_has_the_digits_of_its_unit_wherever_it_stands() {
        let mut value = json!({
            "demand": { "pressure_psi": 59.999_999_999_999_99 },
            "lines": [{ "ft3_per_ft": 0.002_110_01, "length_ft": 12.500_000_000_1, "cut_in": 7.499_999_999, "margin_inwc": -0.000_01, "count": 3 }],
            "input_btuh": 64_999.999_999, "x": f64::NAN, "minutes": 10.0, "profile": "us-ifgc",
        });
        round("", &mut value);
        assert_eq!(
            value,
            json!({
                "demand": { "pressure_psi": 60.0 },
                "lines": [{ "ft3_per_ft": 0.002_11, "length_ft": 12.5, "cut_in": 7.5, "margin_inwc": 0.0, "count": 3 }],
                "input_btuh": 65_000.0, "x": null, "minutes": 10.0, "profile": "us-ifgc",
            })
        );
        assert_eq!(format!("{}", value["lines"][0]["margin_inwc"]), "0.0");
    }
}
