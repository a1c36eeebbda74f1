//! Stock plans against exhaustive search, and against what a packing must be.

use crate::dice::Dice;
use stubout::study::{Packing, pack};
use stubout::units::Length;

fn inches(inches: i32) -> Length {
    Length::from_inches(f64::from(inches) / 8.0)
}

/// The fewest sticks by trying every place for every piece.
fn fewest(pieces: &[i64], room: i64) -> usize {
    fn place(pieces: &[i64], room: i64, left: &mut Vec<i64>, best: &mut usize) {
        if left.len() >= *best {
            return;
        }
        let Some((piece, rest)) = pieces.split_first() else {
            *best = left.len();
            return;
        };
        for stick in 0..left.len() {
            if left[stick] >= *piece {
                left[stick] -= piece;
                place(rest, room, left, best);
                left[stick] += piece;
            }
        }
        left.push(room - piece);
        place(rest, room, left, best);
        left.pop();
    }
    let mut best = pieces.len() + 1;
    place(pieces, room, &mut Vec::new(), &mut best);
    best
}

fn is_a_plan(packing: &Packing, lengths: &[Length], stick: Length, kerf: Length) {
    let mut all: Vec<usize> = packing.sticks.iter().flatten().copied().collect();
    all.sort_unstable();
    assert_eq!(all, (0..lengths.len()).collect::<Vec<_>>(), "each piece once");
    for inside in &packing.sticks {
        let used: Length = inside.iter().map(|&at| lengths[at]).sum();
        let cuts = kerf.times(inside.len().saturating_sub(1) as f64);
        assert!(used + cuts <= stick, "a stick is overfull: {inside:?}");
    }
    assert!(packing.bound <= packing.sticks.len());
    assert!(!packing.proved || packing.bound == packing.sticks.len());
}

#[test]
fn small_plans_are_those_of_exhaustive_search() {
    for seed in 0..200 {
        let mut dice = Dice::new(seed);
        let (stick, kerf) = (inches(dice.between(160, 2016)), inches(dice.below(3) as i32));
        let count = dice.between(1, 9);
        let whole = (stick.inches() * 8.0) as i32;
        let lengths: Vec<Length> = (0..count).map(|_| inches(dice.between(whole / 8, whole))).collect();
        let packing = pack(&lengths, stick, kerf);
        is_a_plan(&packing, &lengths, stick, kerf);
        let needs: Vec<i64> = lengths.iter().map(|length| (*length + kerf).eighths_of_um()).collect();
        assert!(packing.proved);
        assert_eq!(
            packing.sticks.len(),
            fewest(&needs, (stick + kerf).eighths_of_um()),
            "seed {seed}"
        );
    }
}

#[test]
fn forty_pieces_are_planned_exactly_and_more_lie_within_one_stick_of_the_bound_but_for_one_plan() {
    let (stick, kerf) = (Length::from_feet(21.0), Length::from_inches(0.125));
    let (mut unproved, mut far) = (0, Vec::new());
    for seed in 0..150 {
        let mut dice = Dice::new(seed);
        let count = if seed % 2 == 0 { 40 } else { dice.between(41, 400) };
        let longest = dice.pick(&[600, 1000, 2016]);
        let lengths: Vec<Length> = (0..count).map(|_| inches(dice.between(50, longest))).collect();
        let packing = pack(&lengths, stick, kerf);
        is_a_plan(&packing, &lengths, stick, kerf);
        unproved += usize::from(count == 40 && !packing.proved);
        if packing.sticks.len() > packing.bound + 1 {
            far.push((seed, packing.sticks.len(), packing.bound));
        }
    }
    // Whether the plan or the bound is at fault there is not known: the plan says that it is not proved.
    assert_eq!(
        far,
        [(25, 164, 162)],
        "seed, sticks and bound: one of 75 large plans is two above its bound"
    );
    assert_eq!(unproved, 0, "of 75 plans of 40 pieces");
}

#[test]
fn odd_figures_end() {
    let far = Length::from_eighths_of_um(i64::MAX);
    let odd = [far, Length::ZERO, -far, Length::from_feet(1.0)];
    for stick in odd {
        for kerf in odd {
            let packing = pack(&odd, stick, kerf);
            assert_eq!(packing.sticks.iter().flatten().count(), 4);
        }
    }
}
