//! The numbers inside what people type: decimals, fractions, mixed numbers, thousands parted by commas.
//!
//! A fraction stays a ratio of whole numbers, so that 6 1/2 in is stored without rounding.

/// Digits of the longest number that is read.
const MOST_DIGITS: usize = 24;

/// A number without sign.
#[derive(Clone, Debug, PartialEq)]
pub enum Number {
    /// Figures with the point taken out, and the power of ten that puts it back.
    Decimal { figures: String, ten: i32 },
    /// A whole number and a fraction.
    Mixed { whole: u32, over: u32, under: u32 },
}

impl Number {
    /// Whether it is written without point, power or fraction.
    pub fn is_whole(&self) -> bool {
        matches!(self, Number::Decimal { ten: 0, .. })
    }

    /// The number nearest to this one times a power of ten; rounded once.
    pub fn to_f64(&self, power: i32) -> f64 {
        match self {
            // Figures and a power are always a number to the standard library.
            Number::Decimal { figures, ten } => format!("{figures}e{}", ten + power).parse().unwrap_or(f64::NAN),
            Number::Mixed { whole, over, under } => {
                let over = f64::from(*whole) * f64::from(*under) + f64::from(*over);
                over / f64::from(*under) * libm::exp10(f64::from(power))
            }
        }
    }

    /// Numerator and denominator; `None` when they are too long to count with.
    pub fn to_ratio(&self) -> Option<(i128, i128)> {
        match self {
            Number::Decimal { figures, ten } => {
                let power = 10i128.checked_pow(ten.unsigned_abs())?;
                let figures: i128 = figures.parse().ok()?;
                if *ten < 0 {
                    Some((figures, power))
                } else {
                    Some((figures.checked_mul(power)?, 1))
                }
            }
            Number::Mixed { whole, over, under } => {
                let (whole, over, under) = (i128::from(*whole), i128::from(*over), i128::from(*under));
                Some((whole * under + over, under))
            }
        }
    }
}

/// A place in a plain text.
#[derive(Clone, Copy)]
pub struct Scan<'a> {
    rest: &'a str,
}

impl<'a> Scan<'a> {
    /// The start of `plain`.
    pub fn new(plain: &'a str) -> Scan<'a> {
        Scan { rest: plain }
    }

    /// What is left.
    pub fn rest(self) -> &'a str {
        self.rest.trim()
    }

    /// Steps over spaces.
    pub fn space(&mut self) {
        self.rest = self.rest.trim_start();
    }

    /// Steps over `symbol` if it comes next.
    pub fn eat(&mut self, symbol: char) -> bool {
        match self.rest.strip_prefix(symbol) {
            Some(rest) => {
                self.rest = rest;
                true
            }
            None => false,
        }
    }

    /// Steps over the sign, if there is one: true when it is a minus.
    pub fn minus(&mut self) -> bool {
        let minus = self.eat('-');
        if !minus {
            self.eat('+');
        }
        self.space();
        minus
    }

    /// Steps over the letters that come next.
    pub fn letters(&mut self) -> &'a str {
        self.split_at_end_of(|symbol| symbol.is_alphabetic())
    }

    /// Steps over a number: `12`, `12.5`, `.5`, `75,000`, `1/2`, `6 1/2`, `6-1/2`, `1e-7`.
    pub fn number(&mut self) -> Result<Number, String> {
        let first = self.decimal()?;
        if !first.is_whole() {
            return Ok(first);
        }
        let Number::Decimal { figures, .. } = &first else {
            return Ok(first);
        };
        let whole: u32 = figures.parse().unwrap_or(u32::MAX);
        if self.rest.starts_with('/') && self.rest[1..].starts_with(|next: char| next.is_ascii_digit()) {
            self.rest = &self.rest[1..];
            let under = self.count()?;
            return mixed(0, whole, under);
        }
        let mut ahead = *self;
        ahead.space();
        ahead.eat('-');
        ahead.space();
        if ahead.rest.len() < self.rest.len()
            && let Ok(over) = ahead.count()
            && ahead.eat('/')
        {
            *self = ahead;
            let under = self.count()?;
            if over >= under && under > 0 {
                return Err("the fraction after a whole number must be less than one".into());
            }
            return mixed(whole, over, under);
        }
        Ok(first)
    }

    fn split_at_end_of(&mut self, wanted: impl Fn(char) -> bool) -> &'a str {
        let end = self.rest.find(|symbol| !wanted(symbol)).unwrap_or(self.rest.len());
        let (taken, rest) = self.rest.split_at(end);
        self.rest = rest;
        taken
    }

    fn digits(&mut self) -> &'a str {
        self.split_at_end_of(|symbol| symbol.is_ascii_digit())
    }

    fn count(&mut self) -> Result<u32, String> {
        self.digits().parse().map_err(|_| "a number is missing".into())
    }

    fn decimal(&mut self) -> Result<Number, String> {
        let mut figures = self.digits().to_owned();
        let groupable = (1..=3).contains(&figures.len()) && !figures.starts_with('0');
        while self.eat(',') {
            let group = self.digits();
            if group.len() != 3 || !groupable {
                return Err("a comma only separates thousands; decimals take a point".into());
            }
            figures.push_str(group);
        }
        let mut ten = 0;
        let mut ahead = *self;
        if ahead.eat('.') {
            let decimals = ahead.digits();
            if !decimals.is_empty() {
                *self = ahead;
                figures.push_str(decimals);
                ten -= decimals.len() as i32;
            }
        }
        if figures.is_empty() {
            return Err("it does not start with a number".into());
        }
        if figures.len() > MOST_DIGITS {
            return Err("the number has too many figures".into());
        }
        ten += self.power();
        Ok(Number::Decimal { figures, ten })
    }

    /// Steps over the power of ten of `1e-7`, if there is one.
    fn power(&mut self) -> i32 {
        let mut ahead = *self;
        if !ahead.eat('e') {
            return 0;
        }
        let minus = ahead.eat('-');
        match ahead.count() {
            Ok(power) if power < 1000 => {
                *self = ahead;
                if minus { -(power as i32) } else { power as i32 }
            }
            _ => 0,
        }
    }
}

fn mixed(whole: u32, over: u32, under: u32) -> Result<Number, String> {
    if under == 0 {
        return Err("it divides by zero".into());
    }
    if whole == u32::MAX || over == u32::MAX {
        return Err("the number has too many figures".into());
    }
    Ok(Number::Mixed { whole, over, under })
}

#[cfg(test)]
mod tests {
    use super::super::plain::plain;
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: f64, left: &str) {
        let plain = plain(text).unwrap();
        let mut scan = Scan::new(&plain);
        let number = scan.number().unwrap();
        assert_eq!(number.to_f64(0), expected, "{text}");
        assert_eq!(scan.rest(), left, "{text}");
        if let Some((over, under)) = number.to_ratio() {
            assert_eq!(over as f64 / under as f64, expected, "{text}");
        }
    }

    #[test]
    fn a_number_is_read_up_to_its_end() {
        check("12", 12.0, "");
        check("0.05", 0.05, "");
        check(".5 psi", 0.5, "psi");
        check("75,000", 75_000.0, "");
        check("1,234,567.25", 1_234_567.25, "");
        check("1/2", 0.5, "");
        check("3/2", 1.5, "");
        check("6 1/2\"", 6.5, "\"");
        check("1-1/4", 1.25, "");
        check("1¼\"", 1.25, "\"");
        check("6-½", 6.5, "");
        check("3⁄4", 0.75, "");
        check("12-6 1/2", 12.0, "-6 1/2");
        check("12'6", 12.0, "'6");
        check("6. in", 6.0, ". in");
        check("2.5e-7 pa", 2.5e-7, "pa");
        check("18 ehd", 18.0, "ehd");
        check("1ehd", 1.0, "ehd");
    }

    #[test]
    fn a_comma_that_could_be_a_point_is_refused() {
        for text in [
            "3,8", "0,125", "3,80", "1234,567", "1,23,456", "1,0000", "1,,000", "1,", "012,500",
        ] {
            assert!(Scan::new(text).number().unwrap_err().contains("comma"), "{text}");
        }
    }

    #[test]
    fn what_is_no_number_is_refused() {
        for text in [
            "",
            "/",
            "1/0",
            "1 1/0",
            "6 3/2",
            "6 2/2",
            ".",
            "e5",
            "x",
            "-1",
            &"9".repeat(25),
        ] {
            assert!(Scan::new(text).number().is_err(), "{text}");
        }
    }

    #[test]
    fn a_power_of_ten_is_rounded_once() {
        let mut scan = Scan::new("75.123");
        assert_eq!(scan.number().unwrap().to_f64(3), 75_123.0);
        assert_eq!(Scan::new("0.3").number().unwrap().to_f64(-1), 0.03);
    }
}
