//! What pipe costs, so that one way of sizing can be held against another.

use crate::codebook::Codebook;
use crate::job::Material;
use crate::units::{Length, NominalSize};

/// By what pipe is counted.
#[derive(Clone, Debug, PartialEq)]
pub enum Price {
    /// By its length, whatever its size: feet.
    Length,
    /// By its weight, where the codebook has one: pounds. Of copper, plastic and corrugated tubing none is published.
    Weight,
    /// By a list of one's own; a size that is not on it is not bought.
    List(Vec<PriceLine>),
}

/// What a foot of one size costs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PriceLine {
    /// The material.
    pub material: Material,
    /// The size.
    pub size: NominalSize,
    /// Price of a foot, in any money; not less than nothing.
    pub per_foot: f64,
}

/// A cost in millionths of a foot, pound or coin: whole, so that sums are exact and equal costs are equal.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Cost(i64);

impl Cost {
    /// Nothing.
    pub const ZERO: Cost = Cost(0);

    /// From feet, pounds or coins.
    pub fn from_amount(amount: f64) -> Cost {
        Cost((amount * MILLION).round() as i64)
    }

    /// So many millionths: too little to be seen, enough to tell equals apart.
    pub(crate) fn trace(millionths: usize) -> Cost {
        Cost(i64::try_from(millionths).unwrap_or(i64::MAX))
    }

    /// By how much this is more than another; nothing where it is not.
    pub(crate) fn beyond(self, other: Cost) -> Cost {
        Cost(self.0.saturating_sub(other.0).max(0))
    }

    /// In feet, pounds or coins.
    pub fn amount(self) -> f64 {
        self.0 as f64 / MILLION
    }
}

impl std::ops::Add for Cost {
    type Output = Cost;
    fn add(self, other: Cost) -> Cost {
        Cost(self.0.saturating_add(other.0))
    }
}

impl std::iter::Sum for Cost {
    fn sum<I: Iterator<Item = Cost>>(all: I) -> Cost {
        all.fold(Cost::ZERO, |sum, cost| sum + cost)
    }
}

const MILLION: f64 = 1e6;

impl Price {
    /// What so much pipe costs; `None` when the size has no price. A length of less than nothing costs nothing.
    pub fn of(&self, book: &Codebook, material: Material, size: NominalSize, length: Length) -> Option<Cost> {
        let per_foot = match self {
            Price::Length => 1.0,
            Price::Weight => book.pipe(material, size)?.pounds_per_foot?.value,
            Price::List(lines) => {
                let line = lines
                    .iter()
                    .find(|line| (line.material, line.size) == (material, size))?;
                Some(line.per_foot).filter(|price| price.is_finite() && *price >= 0.0)?
            }
        };
        Some(Cost::from_amount(per_foot * length.feet().max(0.0)))
    }
}

#[cfg(test)]
mod tests {
    use super::super::price::*;

    #[test]
    fn each_price_counts_in_its_own_unit() {
        let book = Codebook::published();
        let size = NominalSize::Inch(16);
        let feet = Length::from_feet(10.0);
        let cost = |price: &Price, material| price.of(book, material, size, feet).map(Cost::amount);
        assert_eq!(cost(&Price::Length, Material::Csst), Some(10.0));
        // 1.68 lb/ft of 1 in Schedule 40.
        assert_eq!(cost(&Price::Weight, Material::Steel40), Some(16.8));
        assert_eq!(cost(&Price::Weight, Material::CopperL), None);
        let list = |per_foot| {
            Price::List(vec![PriceLine {
                material: Material::CopperL,
                size,
                per_foot,
            }])
        };
        assert_eq!(cost(&list(7.5), Material::CopperL), Some(75.0));
        assert_eq!(cost(&list(7.5), Material::Steel40), None);
        for odd in [f64::NAN, f64::INFINITY, -1.0] {
            assert_eq!(cost(&list(odd), Material::CopperL), None);
        }
    }

    #[test]
    fn no_length_overflows() {
        let long = Length::from_eighths_of_um(i64::MAX);
        let cost = Price::Weight.of(Codebook::published(), Material::Steel40, NominalSize::Inch(16), long);
        assert!(cost.is_some_and(|cost| cost + cost >= cost));
    }
}
