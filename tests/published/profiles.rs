//! The profiles that come with the program, against the figures that were read.

use stubout::codebook::{Codebook, Equation, Equations, FittingSwitch, Mark, Profile, TestTime};
use stubout::job::{Fuel, Material};
use stubout::units::{GaugePressure, NominalSize};

fn profile(name: &str) -> &'static Profile {
    Codebook::published().profile(name).unwrap()
}

/// The loss that a profile allows, in w.c.
#[track_caller]
fn check(name: &str, fuel: Fuel, inches: f64, expected: Option<f64>) {
    let allowed = profile(name).allowed_drop(fuel, GaugePressure::from_inches_wc(inches));
    let allowed = allowed.map(|drop| (drop.value.inches_wc() * 100.0).round() / 100.0);
    assert_eq!(allowed, expected, "{name} {inches} in w.c.");
}

const PSI: f64 = 27.679_9;

/// IFGC: the drops for which its tables are made.
#[test]
fn united_states_drops_are_those_of_the_tables() {
    check("us-ifgc", Fuel::Natural, 7.0, Some(0.5));
    check("us-ifgc", Fuel::Natural, 2.0 * PSI, Some(27.68));
    check("us-ifgc", Fuel::Natural, 3.0 * PSI, Some(55.36));
    check("us-ifgc", Fuel::Natural, 5.0 * PSI, Some(96.88));
    check("us-ifgc", Fuel::Propane, 11.0, Some(0.5));
    check("us-ifgc", Fuel::Propane, 2.0 * PSI, Some(27.68));
    check("us-ifgc", Fuel::Propane, 10.0 * PSI, Some(27.68));
    check("us-ifgc", Fuel::Natural, 0.0, None);
}

/// Every drop that the profile allows at a pressure of a table has a table in steel.
#[test]
fn every_united_states_drop_has_a_steel_table() {
    let book = Codebook::published();
    for (fuel, inlet) in [
        (Fuel::Natural, GaugePressure::from_inches_wc(7.0)),
        (Fuel::Natural, GaugePressure::from_psi(2.0)),
        (Fuel::Natural, GaugePressure::from_psi(3.0)),
        (Fuel::Natural, GaugePressure::from_psi(5.0)),
        (Fuel::Propane, GaugePressure::from_inches_wc(11.0)),
        (Fuel::Propane, GaugePressure::from_psi(2.0)),
        (Fuel::Propane, GaugePressure::from_psi(10.0)),
    ] {
        let allowed = profile("us-ifgc").allowed_drop(fuel, inlet).unwrap().value;
        let tables = book.tables_for(profile("us-ifgc"), &stubout::job::Settings::default());
        let choice = tables
            .table_for(fuel, stubout::codebook::PipeKind::Steel, inlet, allowed)
            .unwrap();
        assert_eq!((choice.table.drop, choice.remark), (allowed, None));
    }
}

#[test]
fn united_states_test_and_burial_carry_their_marks() {
    let profile = profile("us-ifgc");
    let test = profile.test.as_ref().unwrap();
    assert_eq!(
        (test.multiple.value, test.least.value.psi(), test.gauge_top.value),
        (1.5, 3.0, 5.0)
    );
    assert!(matches!(&test.hold, TestTime::ByVolume { small_minutes, .. } if small_minutes.mark == Mark::Memory));
    let burial = profile.burial.as_ref().unwrap();
    let depths = [burial.usual, burial.damage_likely, burial.single_appliance];
    assert_eq!(depths.map(|depth| depth.value.inches()), [12.0, 18.0, 8.0]);
    assert_eq!(depths.map(|depth| depth.mark), [Mark::Found, Mark::Found, Mark::Memory]);
    assert_eq!(profile.equations, Equations::Never);
}

/// CPC 2013 1210.1.1: 18 in of cover. The tables are shared, so every drop that us-ifgc allows is allowed here too.
#[test]
fn california_cover_is_that_of_its_code_and_its_drops_are_those_of_the_tables() {
    let (here, there) = (profile("us-ca"), profile("us-ifgc"));
    let burial = here.burial.as_ref().unwrap();
    let depths = [burial.usual, burial.damage_likely, burial.single_appliance];
    assert!(
        depths
            .iter()
            .all(|depth| (depth.value.inches(), depth.mark) == (18.0, Mark::Found))
    );
    for fuel in [Fuel::Natural, Fuel::Propane] {
        for inches in [0.1, 7.0, 2.0 * PSI, 3.0 * PSI, 5.0 * PSI, 10.0 * PSI] {
            let at = GaugePressure::from_inches_wc(inches);
            let drop = |profile: &Profile| profile.allowed_drop(fuel, at).map(|drop| drop.value);
            assert_eq!(drop(here), drop(there), "{fuel:?} {inches}");
        }
    }
}

/// Common practice, no source: 1/8 in where a profile does not say; its own figure else.
#[test]
fn the_saw_takes_what_the_profile_says() {
    let kerf = |profile: &Profile| (profile.kerf().value.inches(), profile.kerf().mark);
    assert_eq!(kerf(profile("us-ifgc")), (0.125, Mark::Memory));
    assert_eq!(profile("us-ca").kerf, None);
    assert_eq!(kerf(profile("us-ca")), (0.125, Mark::Memory));
    let text = Codebook::profile_text("us-ifgc").unwrap();
    let own = Profile::read("own.ron", &text.replace("M(\"1/8 in\")", "L(\"2 mm\")")).unwrap();
    assert!((own.kerf().value.mm() - 2.0).abs() < 1e-9 && own.kerf().mark == Mark::Local);
    assert!(Profile::read("own.ron", &text.replace("M(\"1/8 in\")", "L(\"-2 mm\")")).is_err());
}

/// CSA B149.1 through training texts: 0.5 in w.c. below 7 in, 1.0 from 7 to 14 in, 1 psi at 2 psi; propane at 11 in, 1.0, and
/// 5 psi at 10 psi. Only what was read is set.
#[test]
fn canadian_drops_are_those_that_were_read() {
    check("ca-b149", Fuel::Natural, 6.9, Some(0.5));
    check("ca-b149", Fuel::Natural, 7.0, Some(1.0));
    check("ca-b149", Fuel::Natural, 14.0, Some(1.0));
    check("ca-b149", Fuel::Natural, 14.1, None);
    check("ca-b149", Fuel::Propane, 11.0, Some(1.0));
    check("ca-b149", Fuel::Propane, 14.0, None);
    check("ca-b149", Fuel::Natural, 2.0 * PSI, Some(27.68));
    check("ca-b149", Fuel::Natural, 5.0 * PSI, None);
    check("ca-b149", Fuel::Propane, 10.0 * PSI, Some(138.4));
    let profile = profile("ca-b149");
    assert!(profile.allowed_drops.iter().all(|line| line.drop.mark == Mark::Found));
    assert_eq!(
        profile
            .indoor_limit
            .map(|limit| (limit.value.psi().round(), limit.mark)),
        Some((2.0, Mark::Found))
    );
    assert_eq!(
        (
            &profile.test,
            &profile.burial,
            profile.least_size.map(|least| (least.value, least.mark))
        ),
        (&None, &None, Some((NominalSize::HALF, Mark::Derived)))
    );
    let read: Vec<f64> = profile
        .rows
        .iter()
        .filter(|row| row.mark == Mark::Found)
        .map(|row| row.value.feet())
        .collect();
    assert_eq!(read, [10.0, 30.0, 40.0, 50.0, 175.0]);
    assert!(
        profile
            .rows
            .iter()
            .all(|row| matches!(row.mark, Mark::Found | Mark::Derived))
    );
    assert_eq!(
        (profile.street_elbows, profile.close_nipples),
        (FittingSwitch::Barred, FittingSwitch::Barred)
    );
}

#[test]
fn the_metric_profile_sizes_by_equation_and_says_that_no_table_stands_behind_it() {
    let profile = profile("metric-equation");
    assert_eq!(
        (profile.equations, profile.equation),
        (Equations::Always, Equation::DarcyColebrook)
    );
    assert!(profile.disclaimer.contains("No code table"));
    assert!(!profile.allows(Material::Csst));
}

#[test]
fn the_text_of_a_profile_can_be_copied_and_read_again() {
    for profile in Codebook::published().profiles() {
        let text = Codebook::profile_text(&profile.name).unwrap();
        assert_eq!(Profile::read("copy.ron", text).as_ref(), Ok(profile));
    }
    assert_eq!(Codebook::profile_text("../Cargo"), None);
}
