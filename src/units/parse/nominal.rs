//! Nominal sizes as people type them: inches, NPS, DN, EHD, millimeters, a manufacturer's own name.

use super::number::{Number, Scan};
use super::plain::plain;
use super::{Parse, UnitError, printable};
use crate::units::{Designation, NominalSize};

/// The largest nominal pipe of ASME B36.10M, NPS 80, in sixteenths (from memory).
const LARGEST: i128 = 80 * 16;
/// The largest EHD that is read; manufacturers list none above 62 (from memory).
const LARGEST_EHD: i128 = 999;
/// The largest outside diameter that is read, 2 m, in tenths of a millimeter.
const LARGEST_MM: i128 = 20_000;

impl Parse for NominalSize {
    fn parse(text: &str) -> Result<NominalSize, UnitError> {
        plain(text).and_then(|plain| size(Scan::new(&plain))).map_err(|reason| {
            UnitError::new(
                text,
                "a pipe size",
                reason,
                "3/4, 1-1/4, DN 20, EHD 18, 22 mm or type 20A",
            )
        })
    }
}

fn size(mut scan: Scan) -> Result<NominalSize, String> {
    let series = scan.letters();
    scan.space();
    if series == "type" {
        let named = Designation::new(scan.rest()).map(NominalSize::Named);
        return named.ok_or_else(|| {
            format!(
                "a manufacturer's name for a size has at most {} letters and figures and no spaces",
                Designation::LONGEST
            )
        });
    }
    let number = scan.number()?;
    let marked = match scan.rest() {
        "" => false,
        "mm" | "mm od" if matches!(series, "" | "od") => return millimeters(&number),
        "\"" | "in" | "in." | "inch" | "inches" => true,
        "od" | "\" od" | "in od" | "in. od" if series.is_empty() => return outside(&number),
        rest => return Err(format!("`{}` has no meaning there", printable(rest))),
    };
    match (series, marked) {
        ("" | "nps", _) => inches(&number),
        ("dn", false) => {
            let dn = whole(&number).ok_or("a DN is a whole number")?;
            let dn = u16::try_from(dn).ok().and_then(NominalSize::from_dn);
            dn.ok_or_else(|| "there is no such DN with an inch size".into())
        }
        ("ehd", false) => match whole(&number) {
            Some(ehd @ 1..=LARGEST_EHD) => Ok(NominalSize::Ehd(ehd as u16)),
            _ => Err("an EHD is a whole number such as 18".into()),
        },
        ("dn" | "ehd", true) => Err("only inch sizes take an inch mark".into()),
        (other, _) => Err(format!("`{other}` is not a series of sizes")),
    }
}

fn whole(number: &Number) -> Option<i128> {
    number.to_ratio().filter(|(_, under)| *under == 1).map(|(over, _)| over)
}

/// Copper tube named by its outside diameter is 1/8 in less in nominal size.
fn outside(number: &Number) -> Result<NominalSize, String> {
    match inches(number)? {
        NominalSize::Inch(sixteenths @ 3..) => Ok(NominalSize::Inch(sixteenths - 2)),
        _ => Err("no tube is that thin".into()),
    }
}

fn millimeters(number: &Number) -> Result<NominalSize, String> {
    let tenths = number.to_ratio().and_then(|(over, under)| {
        let over = over.checked_mul(10)?;
        (over % under == 0).then_some(over / under)
    });
    match tenths {
        Some(tenths @ 1..=LARGEST_MM) => Ok(NominalSize::Millimeter(tenths as u16)),
        Some(0) => Err("a pipe size must be above zero".into()),
        Some(_) => Err("it is more than 2 m".into()),
        None => Err("outside diameters go by tenths of a millimeter".into()),
    }
}

fn inches(number: &Number) -> Result<NominalSize, String> {
    let sixteenths = number.to_ratio().and_then(|(over, under)| {
        let over = over.checked_mul(16)?;
        (over % under == 0).then_some(over / under)
    });
    match sixteenths {
        Some(sixteenths @ 1..=LARGEST) => Ok(NominalSize::Inch(sixteenths as u16)),
        Some(0) => Err("a pipe size must be above zero".into()),
        Some(_) => Err("it is more than 80 inches".into()),
        None => Err("inch sizes go by sixteenths".into()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: NominalSize) {
        match NominalSize::parse(text) {
            Ok(size) => assert_eq!(size, expected, "{text}"),
            Err(error) => panic!("{error}"),
        }
    }

    #[test]
    fn inch_sizes() {
        for text in [
            "1/2", "1/2\"", "½", "½”", "NPS 1/2", "nps½", "0.5", "1/2 in", "8/16", "DN15", "DN 15", "dn 15",
        ] {
            check(text, NominalSize::HALF);
        }
        for text in ["1-1/4", "1 1/4\"", "1¼\"", "1.25\"", "NPS 1-1/4", "5/4", "DN 32"] {
            check(text, NominalSize::Inch(20));
        }
        check("NPS 3/4", NominalSize::Inch(12));
        check("2", NominalSize::Inch(32));
        check("2\"", NominalSize::Inch(32));
    }

    /// ISO 6708 with ASME B36.10M, from memory.
    #[test]
    fn every_dn_has_its_inch_size() {
        for (dn, nps) in [
            ("DN 8", "1/4"),
            ("DN 10", "3/8"),
            ("DN 15", "1/2"),
            ("DN 20", "3/4"),
            ("DN 25", "1"),
            ("DN 32", "1-1/4"),
            ("DN 40", "1-1/2"),
            ("DN 50", "2"),
            ("DN 65", "2-1/2"),
            ("DN 80", "3"),
            ("DN 90", "3-1/2"),
            ("DN 100", "4"),
            ("DN 125", "5"),
            ("DN 150", "6"),
            ("DN 200", "8"),
            ("DN 250", "10"),
            ("DN 300", "12"),
        ] {
            check(dn, NominalSize::parse(nps).unwrap());
        }
    }

    #[test]
    fn copper_tube_by_its_outside_diameter() {
        for text in ["7/8 OD", "7/8\" OD", "7/8 in OD", "0.875 od"] {
            check(text, NominalSize::Inch(12));
        }
        check("1-1/8 OD", NominalSize::Inch(16));
    }

    #[test]
    fn tubing_sizes() {
        check("EHD 18", NominalSize::Ehd(18));
        check("ehd18", NominalSize::Ehd(18));
    }

    #[test]
    fn outside_diameters_and_makers_names() {
        for text in ["22 mm", "22mm", "22.0 mm", "OD 22 mm", "22 mm OD"] {
            check(text, NominalSize::Millimeter(220));
        }
        check("15.9 mm", NominalSize::Millimeter(159));
        let named = |name| NominalSize::Named(Designation::new(name).unwrap());
        check("type 20A", named("20A"));
        check("Type 3/4", named("3/4"));
        check("TYPE ct-20", named("CT-20"));
    }

    #[test]
    fn what_is_no_size_is_refused() {
        for (text, reason) in [
            ("", "nothing"),
            ("0", "above zero"),
            ("-1/2", "number"),
            ("1/0", "zero"),
            ("1/3", "sixteenths"),
            // Until sizes in millimeters were known, this read `20 mm`.
            ("DN 20 mm", "no meaning"),
            ("20 cm", "no meaning"),
            ("0 mm", "above zero"),
            ("2001 mm", "more than 2 m"),
            ("12.25 mm", "tenths"),
            ("type", "at most 12"),
            ("type 20 A", "at most 12"),
            ("type ABCDEFGHIJKLM", "at most 12"),
            ("81", "80 inches"),
            ("DN 16", "no such DN"),
            ("DN 99999999", "no such DN"),
            ("DN 15\"", "inch mark"),
            ("EHD", "number"),
            ("EHD 0", "whole"),
            ("EHD 1.5", "whole"),
            ("EHD 1000", "whole"),
            ("IPS 2", "series"),
            ("1/8 OD", "that thin"),
            ("EHD 18 OD", "no meaning"),
            ("NaN", "number"),
        ] {
            let error = NominalSize::parse(text).expect_err(text);
            assert!(error.reason.contains(reason), "{text}: {error}");
        }
    }
}
