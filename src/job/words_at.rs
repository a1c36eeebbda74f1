//! Where a person put words: kept in whole quarters of a millimetre of paper, so that it is the same on every machine.

/// Where words stand that a person put somewhere: the way from what they speak of to their middle, on paper, whatever
/// the scale.
///
/// What they speak of is the middle of a run, a joint, the joint that a note points at, or the place of a passage.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct WordsAt {
    right: i16,
    down: i16,
}

impl WordsAt {
    /// Words are put no farther than this to a side, mm.
    pub const FARTHEST_MM: f64 = 2000.0;

    /// So far to the right and down, to the nearest quarter of a millimetre; what is too far stops at the farthest, what
    /// is no number at nothing.
    pub fn from_mm(right: f64, down: f64) -> WordsAt {
        // A cast of what is no number gives nothing.
        let quarters = |mm: f64| (mm.clamp(-Self::FARTHEST_MM, Self::FARTHEST_MM) * 4.0).round() as i16;
        WordsAt {
            right: quarters(right),
            down: quarters(down),
        }
    }

    /// How far to the right, mm.
    pub fn right_mm(self) -> f64 {
        f64::from(self.right) / 4.0
    }

    /// How far down, mm.
    pub fn down_mm(self) -> f64 {
        f64::from(self.down) / 4.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_kept_to_a_quarter_of_a_millimetre_and_within_bounds() {
        let at = |right, down| {
            let at = WordsAt::from_mm(right, down);
            (at.right_mm(), at.down_mm())
        };
        assert_eq!(at(6.1, -4.38), (6.0, -4.5));
        assert_eq!(at(1e300, f64::NEG_INFINITY), (2000.0, -2000.0));
        assert_eq!(at(f64::NAN, 0.0), (0.0, 0.0));
    }
}
