//! The stock plan: which parts are cut from which stick, with the least number of sticks.
//!
//! Each part but the last of a stick costs one kerf. As all sticks of a group are alike, the least number of sticks is
//! the least off-cut. Nothing is planned for what comes in coils.

mod fullest;
mod mend;
mod search;

use super::CutList;
use crate::codebook::{Codebook, Marked, PipeKind};
use crate::job::Material;
use crate::units::{Length, NominalSize};
use std::collections::BTreeMap;

/// What is cut from what.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StockPlan {
    /// One group for each material and size.
    pub groups: Vec<StockGroup>,
}

/// The sticks of one material and size.
#[derive(Clone, Debug, PartialEq)]
pub struct StockGroup {
    /// The material.
    pub material: Material,
    /// The size.
    pub size: NominalSize,
    /// How long a stick is sold.
    pub stick: Marked<Length>,
    /// What the saw takes at each cut.
    pub kerf: Length,
    /// The sticks.
    pub sticks: Vec<Stick>,
    /// No plan can do with fewer sticks than this.
    pub bound: usize,
    /// Whether it is proved that fewer sticks do not do.
    pub proved: bool,
}

/// One stick.
#[derive(Clone, Debug, PartialEq)]
pub struct Stick {
    /// What is cut from it, longest first: positions of a piece in the cut list and of a part in the piece.
    pub parts: Vec<(usize, usize)>,
    /// What is left of it.
    pub off_cut: Length,
}

/// Lengths laid into sticks.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Packing {
    /// For each stick the positions of its lengths, longest first.
    pub sticks: Vec<Vec<usize>>,
    /// No packing can do with fewer sticks than this.
    pub bound: usize,
    /// Whether it is proved that fewer sticks do not do.
    pub proved: bool,
}

/// What a saw or wheel takes at a cut: 1/8 in, common practice, no source.
pub fn kerf() -> Length {
    Length::from_inches(0.125)
}

impl StockPlan {
    /// The plan of a cut list, each cut taking `kerf`.
    pub fn of(list: &CutList, book: &Codebook, kerf: Length) -> StockPlan {
        let mut groups: BTreeMap<(Material, NominalSize), Vec<(usize, usize)>> = BTreeMap::new();
        for (at, piece) in list.pieces.iter().enumerate() {
            if let Some(size) = piece.size {
                let parts = (0..piece.parts.len()).map(|part| (at, part));
                groups.entry((piece.material, size)).or_default().extend(parts);
            }
        }
        let length = |(piece, part): (usize, usize)| list.pieces[piece].parts[part].length;
        let groups = groups.into_iter().filter_map(|((material, size), parts)| {
            let stick = book
                .stock_length(PipeKind::of(material))
                .filter(|_| !parts.is_empty())?;
            let lengths: Vec<Length> = parts.iter().map(|&part| length(part)).collect();
            let packing = pack(&lengths, stick.value, kerf);
            let sticks = packing.sticks.iter().map(|inside| {
                let cuts = kerf.times(inside.len() as f64);
                let used: Length = inside.iter().map(|&at| lengths[at]).sum();
                Stick {
                    parts: inside.iter().map(|&at| parts[at]).collect(),
                    off_cut: (stick.value - used - cuts).max(Length::ZERO),
                }
            });
            Some(StockGroup {
                material,
                size,
                stick,
                kerf,
                sticks: sticks.collect(),
                bound: packing.bound,
                proved: packing.proved,
            })
        });
        StockPlan {
            groups: groups.collect(),
        }
    }
}

/// Lays lengths into as few sticks as can be: proved for up to 40 lengths but where the search gives up, which it says;
/// beyond, the better of two quick ways, searched on while that is quick, beside the bound below which no plan can go.
///
/// A length over that of a stick has a stick of its own.
pub fn pack(lengths: &[Length], stick: Length, kerf: Length) -> Packing {
    // A stick longer by one kerf and each length longer by one: then plain sums tell what fits.
    let kerf = kerf.max(Length::ZERO);
    let room = (stick + kerf).eighths_of_um().max(1);
    let needs = |at: &usize| (lengths[*at].max(Length::ZERO) + kerf).eighths_of_um().min(room);
    let mut order: Vec<usize> = (0..lengths.len()).collect();
    order.sort_by_key(|at| (std::cmp::Reverse(needs(at)), *at));
    let items: Vec<i64> = order.iter().map(needs).collect();
    let bound = lower_bound(&items, room);
    let mut sticks = best_fit(&items, room);
    if sticks.len() > bound {
        let fuller = fullest::one_by_one(&items, room);
        if fuller.len() <= sticks.len() {
            sticks = fuller;
        }
        mend::mend(&items, room, bound, &mut sticks);
    }
    let mut proved = sticks.len() == bound;
    if !proved {
        let found = search::fewest(&items, room, bound, sticks.len());
        proved = found.proved;
        sticks = found.sticks.unwrap_or(sticks);
    }
    let named = |inside: Vec<usize>| inside.into_iter().map(|item| order[item]).collect();
    Packing {
        bound: if proved { sticks.len() } else { bound },
        sticks: sticks.into_iter().map(named).collect(),
        proved,
    }
}

/// Longest first, each into the fullest stick that has room.
fn best_fit(items: &[i64], room: i64) -> Vec<Vec<usize>> {
    let mut sticks: Vec<Vec<usize>> = Vec::new();
    let mut free: BTreeMap<i64, Vec<usize>> = BTreeMap::new();
    for (at, &item) in items.iter().enumerate() {
        let fullest = free.range(item..).next().map(|(left, _)| *left);
        let from = fullest.and_then(|left| {
            let among = free.get_mut(&left)?;
            let stick = among.pop()?;
            if among.is_empty() {
                free.remove(&left);
            }
            Some((left, stick))
        });
        let (left, stick) = from.unwrap_or_else(|| {
            sticks.push(Vec::new());
            (room, sticks.len() - 1)
        });
        sticks[stick].push(at);
        free.entry(left - item).or_default().push(stick);
    }
    sticks
}

/// A number of sticks below which nothing goes, by the functions of Fekete and Schepers: pieces too short to matter are
/// left out and those that then stand alone count as a whole stick, the rest by how many of a length go into one.
fn lower_bound(items: &[i64], room: i64) -> usize {
    const LEASTS: usize = 100;
    let wide = |item: &i64| i128::from(*item);
    let room = i128::from(room);
    let up = |sum: i128, by: i128| usize::try_from((sum + by - 1) / by).unwrap_or(usize::MAX);
    let bound = |least: i128, k: i128| {
        let share = |item: i128| match item {
            item if item > room - least => room * k,
            item if item < least => 0,
            item if ((k + 1) * item) % room == 0 => item * k,
            item => (k + 1) * item / room * room,
        };
        up(items.iter().map(wide).map(share).sum(), k * room)
    };
    let mut leasts: Vec<i128> = items.iter().map(wide).filter(|item| 2 * item <= room).collect();
    leasts.dedup();
    let apart = leasts.len().div_ceil(LEASTS).max(1);
    let plain = (1..=60).map(|k| bound(0, k));
    let shortened = leasts.iter().step_by(apart);
    let shortened = shortened.flat_map(|&least| (1..=20).map(move |k| (least, k)));
    let best = plain.chain(shortened.map(|(least, k)| bound(least, k))).max();
    let sum = up(items.iter().map(wide).sum(), room);
    best.unwrap_or(0).max(sum).min(items.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn feet(feet: &[f64]) -> Vec<Length> {
        feet.iter().map(|feet| Length::from_feet(*feet)).collect()
    }

    #[test]
    fn two_of_eight_feet_go_into_a_stick_and_the_bound_knows_it() {
        let packing = pack(&feet(&[8.0; 90]), Length::from_feet(21.0), kerf());
        assert_eq!((packing.sticks.len(), packing.bound, packing.proved), (45, 45, true));
    }

    #[test]
    fn the_last_piece_of_a_stick_needs_no_cut() {
        let thirds = |kerf| pack(&feet(&[7.0; 3]), Length::from_feet(21.0), kerf).sticks.len();
        assert_eq!((thirds(Length::ZERO), thirds(kerf())), (1, 2));
        assert_eq!(pack(&feet(&[21.0]), Length::from_feet(21.0), kerf()).sticks.len(), 1);
        assert_eq!(pack(&[], Length::from_feet(21.0), kerf()).sticks.len(), 0);
    }

    #[test]
    fn best_fit_is_mended_where_it_wastes_a_stick() {
        // Longest first needs three sticks here: 6 + 3, 5 + 4, 2. Two do: 6 + 4 and 5 + 3 + 2.
        let packing = pack(&feet(&[6.0, 5.0, 4.0, 3.0, 2.0]), Length::from_feet(10.0), Length::ZERO);
        assert_eq!(packing.sticks.len(), 2);
    }
}
