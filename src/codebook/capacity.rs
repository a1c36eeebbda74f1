//! What a pipe carries, in the unit in which its table is printed.

use crate::units::{Flow, HeatRate, HeatingValue};
use std::cmp::Ordering;

/// The unit in which a capacity table is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CapacityUnit {
    /// Cubic feet of gas per hour.
    Cfh,
    /// Thousands of Btu per hour.
    Mbh,
    /// Cubic meters of gas per hour, measured at 15 °C and 1013.25 mbar, which is within 0.2 % of the gas of a cubic foot.
    CubicMeters,
    /// Kilowatts, by the same heating value as the inputs of the job.
    Kilowatts,
}

impl CapacityUnit {
    /// As printed beside a figure.
    pub const fn name(self) -> &'static str {
        match self {
            CapacityUnit::Cfh => "cfh",
            CapacityUnit::Mbh => "MBH",
            CapacityUnit::CubicMeters => "m3/h",
            CapacityUnit::Kilowatts => "kW",
        }
    }
}

/// A capacity, or a load to be held against one, in the unit of a table.
///
/// Two capacities compare only in one unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Capacity {
    amount: f64,
    unit: CapacityUnit,
}

impl Capacity {
    /// So many of a unit.
    pub const fn new(amount: f64, unit: CapacityUnit) -> Capacity {
        Capacity { amount, unit }
    }

    /// A load in the unit of a table; only a table of volumes needs the heating value.
    pub fn of_load(load: HeatRate, value: HeatingValue, unit: CapacityUnit) -> Capacity {
        let amount = match unit {
            CapacityUnit::Cfh => load.flow(value).cfh(),
            CapacityUnit::Mbh => load.mbh(),
            CapacityUnit::CubicMeters => load.flow(value).m3h(),
            CapacityUnit::Kilowatts => load.kw(),
        };
        Capacity { amount, unit }
    }

    /// The bare number, as printed in the table.
    pub const fn amount(self) -> f64 {
        self.amount
    }

    /// Its unit.
    pub const fn unit(self) -> CapacityUnit {
        self.unit
    }

    /// This capacity times a factor, for a gas heavier than the table's.
    pub fn times(self, factor: f64) -> Capacity {
        Capacity {
            amount: self.amount * factor,
            unit: self.unit,
        }
    }

    /// As a flow of gas of a heating value.
    pub fn flow(self, value: HeatingValue) -> Flow {
        match self.unit {
            CapacityUnit::Cfh => Flow::from_cfh(self.amount),
            CapacityUnit::Mbh => HeatRate::from_mbh(self.amount).flow(value),
            CapacityUnit::CubicMeters => Flow::from_m3h(self.amount),
            CapacityUnit::Kilowatts => HeatRate::from_kw(self.amount).flow(value),
        }
    }

    /// As the heat in a gas of a heating value.
    pub fn heat(self, value: HeatingValue) -> HeatRate {
        match self.unit {
            CapacityUnit::Cfh => Flow::from_cfh(self.amount).heat(value),
            CapacityUnit::Mbh => HeatRate::from_mbh(self.amount),
            CapacityUnit::CubicMeters => Flow::from_m3h(self.amount).heat(value),
            CapacityUnit::Kilowatts => HeatRate::from_kw(self.amount),
        }
    }
}

impl PartialOrd for Capacity {
    fn partial_cmp(&self, other: &Capacity) -> Option<Ordering> {
        match self.unit == other.unit {
            true => self.amount.partial_cmp(&other.amount),
            false => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_load_compares_with_a_capacity_of_its_unit_only() {
        let value = HeatingValue::from_btu_per_ft3(1000.0);
        let load = HeatRate::from_mbh(75.0);
        let (cfh, mbh) = (CapacityUnit::Cfh, CapacityUnit::Mbh);
        assert!(Capacity::of_load(load, value, cfh) <= Capacity::new(75.0, cfh));
        assert!(Capacity::of_load(load, value, mbh) > Capacity::new(74.0, mbh));
        assert_eq!(
            Capacity::of_load(load, value, cfh).partial_cmp(&Capacity::new(75.0, mbh)),
            None
        );
    }

    #[test]
    fn metric_capacities_are_the_same_flow_and_heat() {
        // NIST SP 811, App. B.8: 1 ft3/h = 0.028 316 85 m3/h, 1 Btu/h = 0.293 071 1 W.
        let value = HeatingValue::from_btu_per_ft3(1000.0);
        let meters = Capacity::new(2.831_685, CapacityUnit::CubicMeters);
        assert!((meters.flow(value).cfh() - 100.0).abs() < 1e-4);
        assert!((meters.heat(value).mbh() - 100.0).abs() < 1e-4);
        let kilowatts = Capacity::new(29.307_11, CapacityUnit::Kilowatts);
        assert!((kilowatts.flow(value).cfh() - 100.0).abs() < 1e-4);
        let load = HeatRate::from_mbh(100.0);
        for unit in [CapacityUnit::CubicMeters, CapacityUnit::Kilowatts] {
            let taken = Capacity::of_load(load, value, unit);
            assert!((taken.heat(value).mbh() - 100.0).abs() < 1e-9, "{taken:?}");
        }
    }

    #[test]
    fn a_capacity_in_heat_needs_the_heating_value_to_be_a_flow() {
        let value = HeatingValue::from_btu_per_ft3(2500.0);
        let capacity = Capacity::new(250.0, CapacityUnit::Mbh);
        assert_eq!(capacity.flow(value).cfh(), 100.0);
        assert_eq!(capacity.heat(value).btuh(), 250_000.0);
    }
}
