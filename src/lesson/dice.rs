//! Chance that is the same on every machine: SplitMix64 (Steele, Lea and Flood, OOPSLA 2014).

/// A source of numbers by a seed.
#[derive(Clone, Debug)]
pub(super) struct Dice(u64);

impl Dice {
    /// Dice for the so manyth thing made by a seed: each has numbers of its own.
    pub(super) fn new(seed: u64, number: usize) -> Dice {
        let mut dice = Dice(seed);
        let first = dice.next();
        Dice(first ^ (number as u64).wrapping_mul(0xD134_2543_DE82_EF95))
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number below `end`, or 0.
    pub(super) fn below(&mut self, end: usize) -> usize {
        (self.next() % (end.max(1) as u64)) as usize
    }

    /// A number from `low` up to `high`.
    pub(super) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * ((self.next() >> 11) as f64 / (1u64 << 53) as f64)
    }

    /// One of several; `None` where there are none.
    pub(super) fn pick<'a, T>(&mut self, from: &'a [T]) -> Option<&'a T> {
        from.get(self.below(from.len()))
    }

    /// So many times in a hundred.
    pub(super) fn percent(&mut self, chance: usize) -> bool {
        self.below(100) < chance
    }
}
