//! Heavier gas: IFGC appendix A, table A.2.4, against its closed form.

use stubout::codebook::{Codebook, Mark};
use stubout::job::Fuel::{Natural, Propane};

fn factor(fuel: stubout::job::Fuel, gravity: f64) -> Option<f64> {
    Codebook::published()
        .gravity_factor(fuel, gravity)
        .map(|found| found.factor.value)
}

#[test]
fn every_listed_multiplier_is_the_root_of_the_gravities() {
    let listed = Codebook::published().gravity_multipliers();
    assert_eq!(listed.len(), 24);
    for (gravity, multiplier) in listed {
        assert!((multiplier.value - (0.60 / gravity).sqrt()).abs() < 0.01, "{gravity}");
        assert_eq!(multiplier.mark, Mark::Found);
    }
}

#[test]
fn up_to_0_70_the_tables_serve_directly() {
    for gravity in [0.35, 0.60, 0.65, 0.70] {
        assert_eq!(factor(Natural, gravity), Some(1.0));
    }
    assert_eq!(factor(Propane, 1.50), Some(1.0));
}

#[test]
fn above_it_the_next_higher_listed_gravity_takes_capacity_away() {
    assert_eq!(factor(Natural, 0.71), Some(0.90));
    assert_eq!(factor(Natural, 0.75), Some(0.90));
    assert_eq!(factor(Natural, 0.76), Some(0.87));
    assert_eq!(factor(Natural, 0.95), Some(0.78));
    assert_eq!(
        Codebook::published()
            .gravity_factor(Natural, 0.95)
            .unwrap()
            .listed_gravity,
        Some(1.0)
    );
    let heavy = Codebook::published().gravity_factor(Propane, 1.55).unwrap();
    assert!((heavy.factor.value - (1.5f64 / 1.6).sqrt()).abs() < 0.01);
    assert_eq!(heavy.factor.mark, Mark::Derived);
}

#[test]
fn a_heavier_gas_never_has_more_capacity() {
    for fuel in [Natural, Propane] {
        let mut last = 1.0;
        for hundredth in 30..=210 {
            let now = factor(fuel, f64::from(hundredth) / 100.0).unwrap();
            assert!(now <= last, "{fuel:?} {hundredth}");
            last = now;
        }
    }
}

#[test]
fn what_is_not_listed_has_no_factor() {
    for gravity in [2.11, 0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(factor(Natural, gravity), None, "{gravity}");
    }
}
