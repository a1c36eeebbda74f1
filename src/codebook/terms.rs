//! Words of a code family that differ from those of the United States, in one table.

use super::{CodeFamily, Profile};
use std::borrow::Cow;

/// What texts of the program say, and what Canada says. A word that begins another comes after it.
const CANADA: [(&str, &str); 4] = [
    ("permit offices", "authorities having jurisdiction"),
    ("permit office", "authority having jurisdiction"),
    ("Parcel (APN)", "Legal description"),
    ("License", "Licence"),
];

impl Profile {
    /// A text of the program in the words of the profile's code family; nothing that a person typed goes through here.
    pub fn terms<'a>(&self, words: &'a str) -> Cow<'a, str> {
        if self.family != Some(CodeFamily::B149) {
            return Cow::Borrowed(words);
        }
        CANADA
            .iter()
            .fold(Cow::Borrowed(words), |said, (of_us, own)| match said.contains(of_us) {
                true => Cow::Owned(said.replace(of_us, own)),
                false => said,
            })
    }

    /// What tables of these names are called: those of another country's code by its name.
    pub fn tables_called(&self, names: &[&str]) -> &'static str {
        let foreign = self.family == Some(CodeFamily::B149) && names.iter().all(|name| name.starts_with("402.4"));
        match (foreign, names.len()) {
            (true, 1) => "US (IFGC) table",
            (true, _) => "US (IFGC) tables",
            (false, 1) => "Table",
            (false, _) => "Tables",
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::codebook::Codebook;

    #[test]
    fn a_canadian_sheet_says_licence_and_authority() {
        let book = Codebook::published();
        let canada = book.profile("ca-b149").unwrap();
        assert_eq!(canada.terms("License no."), "Licence no.");
        assert_eq!(
            canada.terms("Ask the permit office."),
            "Ask the authority having jurisdiction."
        );
        assert_eq!(book.default_profile().terms("License no."), "License no.");
    }

    #[test]
    fn a_pressure_said_in_round_kilopascals_is_the_one_in_inches() {
        use crate::job::Fuel;
        use crate::units::{GaugePressure, Parse};
        let book = Codebook::published();
        let canada = book.profile("ca-b149").unwrap();
        let drop = |typed: &str| {
            let pressure = GaugePressure::parse(typed).unwrap();
            canada.allowed_drop(Fuel::Natural, pressure).unwrap().value
        };
        assert_eq!(drop("1.74 kPa"), drop("7 in w.c."));
        assert_eq!(drop("1.75 kPa"), drop("7 in w.c."));
        assert!(drop("1.7 kPa") < drop("7 in w.c."));
    }
}
