//! How a coordinate is written down: at most three decimals, nothing superfluous, never "-0".

/// Writes a number of mm to the nearest thousandth, without trailing zeros. What is not a number is written as 0 and
/// what is beyond nine million kilometres is cut there, so that every text stays readable.
pub fn push_number(into: &mut String, mm: f64) {
    let thousandths = (mm.clamp(-9e12, 9e12) * 1000.0).round() as i64;
    if thousandths < 0 {
        into.push('-');
    }
    let size = thousandths.unsigned_abs();
    push_digits(into, size / 1000);
    let rest = size % 1000;
    if rest != 0 {
        into.push('.');
        let mut unit = 100;
        let mut rest = rest;
        while rest != 0 {
            into.push(char::from(b'0' + (rest / unit) as u8));
            rest %= unit;
            unit /= 10;
        }
    }
}

fn push_digits(into: &mut String, number: u64) {
    if number >= 10 {
        push_digits(into, number / 10);
    }
    into.push(char::from(b'0' + (number % 10) as u8));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(number: f64, expected: &str) {
        let mut text = String::new();
        push_number(&mut text, number);
        assert_eq!(text, expected);
    }

    #[test]
    fn numbers_are_short_and_exact_to_a_thousandth() {
        check(0.0, "0");
        check(-0.0, "0");
        check(-0.0004, "0");
        check(-0.25, "-0.25");
        check(12.3456, "12.346");
        check(1000.05, "1000.05");
        check(7.001, "7.001");
        check(0.9996, "1");
        check(279.4, "279.4");
    }

    #[test]
    fn the_worst_number_still_gives_text_that_reads_as_a_number() {
        for worst in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX] {
            let mut text = String::new();
            push_number(&mut text, worst);
            assert!(text.parse::<f64>().is_ok(), "{text}");
        }
    }
}
