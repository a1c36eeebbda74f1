//! Published worked example: the effect of temperature on a pressure test.
//!
//! Source: IFGC 2012 Appendix A, A.6.5 (A.7.5 in 2018), as adopted in the 2013 California Residential Code, App. A.

use stubout::gas::{Temperature, pressure_at_temperature};
use stubout::units::{AbsolutePressure, GaugePressure};

/// 14.7 psi, as printed there.
const AIR: AbsolutePressure = AbsolutePressure::from_psi(14.7);

#[test]
fn twenty_psig_at_seventy_degrees_read_eighteen_at_forty() {
    // Printed with 459 for absolute zero.
    let [warm, cold] = [70.0, 40.0].map(|degrees| Temperature::from_rankine(degrees + 459.0));
    let printed = pressure_at_temperature(GaugePressure::from_psi(20.0), warm, cold, AIR);
    assert!((printed.psi() - 18.03).abs() < 0.005, "{}", printed.psi());

    let [warm, cold] = [70.0, 40.0].map(Temperature::from_fahrenheit);
    let exact = pressure_at_temperature(GaugePressure::from_psi(20.0), warm, cold, AIR);
    assert_eq!(exact.psi().round(), 18.0);
    assert!((exact.psi() - printed.psi()).abs() < 0.005);
}
