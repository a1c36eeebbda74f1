//! Numbers by chance from a seed, the same on every machine (splitmix64: Steele, Lea and Flood, *Fast Splittable
//! Pseudorandom Number Generators*, OOPSLA 2014).
#![allow(dead_code)]

/// A source of numbers by chance.
#[derive(Clone)]
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Dice {
        Dice(seed)
    }

    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number below `end`, which is not zero.
    pub fn below(&mut self, end: usize) -> usize {
        (self.next() % end as u64) as usize
    }

    /// A number from `low` to `high`, both among them.
    pub fn between(&mut self, low: i32, high: i32) -> i32 {
        low + self.below((high - low + 1) as usize) as i32
    }

    /// A fraction from 0 up to 1.
    pub fn fraction(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// True in so many of a hundred throws.
    pub fn percent(&mut self, chance: usize) -> bool {
        self.below(100) < chance
    }

    pub fn pick<T: Clone>(&mut self, from: &[T]) -> T {
        from[self.below(from.len())].clone()
    }
}
