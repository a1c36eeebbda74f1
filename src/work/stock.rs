//! The stock plan: which parts are cut from which stick, with the least number of sticks, and from which coil.
//!
//! Each part but the last of a stick costs one kerf. As all sticks of a group are alike, the least number of sticks is
//! the least off-cut. Coils are sold in several lengths: of the plans with one length of coil, each coil then as short as
//! does, the one that buys least.

mod fullest;
mod relaxed;
mod richest;
mod rounded;
mod search;
mod ticks;

use relaxed::{Patience, Relaxed};
use ticks::{Rounding, Ticks};

use super::{CutList, Making};
use crate::codebook::{Codebook, Marked, PipeKind, StockForm};
use crate::job::Material;
use crate::study::Study;
use crate::units::{Length, NominalSize, Show, UnitSystem};
use std::collections::BTreeMap;

/// What is cut from what.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StockPlan {
    /// One group for each material and size.
    pub groups: Vec<StockGroup>,
}

/// The sticks of one material and size, or its coils of one length.
#[derive(Clone, Debug, PartialEq)]
pub struct StockGroup {
    /// The material.
    pub material: Material,
    /// The size.
    pub size: NominalSize,
    /// Whether they are straight lengths or coils.
    pub form: StockForm,
    /// How long a stick or coil is sold.
    pub stick: Marked<Length>,
    /// What the saw takes at each cut.
    pub kerf: Marked<Length>,
    /// The sticks or coils.
    pub sticks: Vec<Stick>,
    /// No plan can do with fewer sticks than this.
    pub bound: usize,
    /// Whether it is proved that fewer sticks do not do.
    pub proved: bool,
}

impl StockGroup {
    /// What is known of a plan with fewer sticks, in words; of one stick there is nothing to say.
    pub fn fewer(&self) -> Option<String> {
        match (self.sticks.len(), self.proved) {
            _ if self.form == StockForm::Coil => None,
            (0 | 1, _) => None,
            (_, true) => Some("cannot be cut from fewer".to_owned()),
            (_, false) => Some(format!("at least {} are needed", self.bound)),
        }
    }

    /// How many of which length are bought: "2 lengths of 21'-0\"", "1 coil of 50'-0\"".
    pub fn bought(&self, units: UnitSystem) -> String {
        let many = self.sticks.len();
        format!(
            "{many} {} of {}",
            self.form.name(many > 1),
            self.stick.value.show(units)
        )
    }
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
    /// Steps of work that were spent on the bound, and on a plan of many pieces: the same on any machine.
    pub work: usize,
}

impl StockPlan {
    /// The plan of a study's cut list, each cut taking what the profile says.
    pub fn of(list: &CutList, study: &Study, book: &Codebook) -> StockPlan {
        let profile = book.profile(&study.profile).unwrap_or(book.default_profile());
        let kerf = profile.kerf();
        let mut groups: BTreeMap<(Material, NominalSize, StockForm), Vec<(usize, usize)>> = BTreeMap::new();
        for (at, piece) in list.pieces.iter().enumerate() {
            if let Some(size) = piece.size {
                let parts = (0..piece.parts.len()).map(|part| (at, part));
                let form = match piece.making {
                    Making::Coil => StockForm::Coil,
                    _ => StockForm::Stick,
                };
                groups.entry((piece.material, size, form)).or_default().extend(parts);
            }
        }
        let mut plan = StockPlan::default();
        for ((material, size, form), parts) in groups {
            let pipe = PipeKind::of(material);
            let group = Parts {
                list,
                material,
                size,
                kerf,
                parts,
            };
            match form {
                StockForm::Stick => plan.groups.extend(group.cut_of_sticks(book.stock_length(pipe))),
                StockForm::Coil => plan.groups.extend(group.cut_of_coils(&book.coils(pipe, size))),
            }
        }
        plan
    }
}

/// The parts of one material and size.
struct Parts<'a> {
    list: &'a CutList,
    material: Material,
    size: NominalSize,
    kerf: Marked<Length>,
    parts: Vec<(usize, usize)>,
}

impl Parts<'_> {
    fn lengths(&self) -> Vec<Length> {
        let parts = self.parts.iter();
        parts
            .map(|&(piece, part)| self.list.pieces[piece].parts[part].length)
            .collect()
    }

    fn group(&self, form: StockForm, stick: Marked<Length>) -> StockGroup {
        StockGroup {
            material: self.material,
            size: self.size,
            form,
            stick,
            kerf: self.kerf,
            sticks: Vec::new(),
            bound: 0,
            proved: false,
        }
    }

    fn cut_of_sticks(&self, stick: Option<Marked<Length>>) -> Option<StockGroup> {
        let stick = stick.filter(|_| !self.parts.is_empty())?;
        let lengths = self.lengths();
        let packing = pack(&lengths, stick.value, self.kerf.value);
        let sticks = packing.sticks.iter().map(|inside| {
            let cuts = self.kerf.value.times(inside.len() as f64);
            let used: Length = inside.iter().map(|&at| lengths[at]).sum();
            Stick {
                parts: inside.iter().map(|&at| self.parts[at]).collect(),
                off_cut: (stick.value - used - cuts).max(Length::ZERO),
            }
        });
        Some(StockGroup {
            sticks: sticks.collect(),
            bound: packing.bound,
            proved: packing.proved,
            ..self.group(StockForm::Stick, stick)
        })
    }

    /// Coils, cut without a saw. What is longer than any coil has none: it is told by the take-off.
    fn cut_of_coils(&self, coils: &[Marked<Length>]) -> Vec<StockGroup> {
        let all = self.lengths();
        let longest = coils.last().map_or(Length::ZERO, |coil| coil.value);
        let fits: Vec<usize> = (0..all.len()).filter(|&at| all[at] <= longest).collect();
        let lengths: Vec<Length> = fits.iter().map(|&at| all[at]).collect();
        let Some(most) = lengths.iter().copied().max() else {
            return Vec::new();
        };
        let used = |inside: &Vec<usize>| -> Length { inside.iter().map(|&at| lengths[at]).sum() };
        let shortest = |inside: &Vec<usize>| coils.iter().find(|coil| used(inside) <= coil.value).copied();
        let plan = |coil: &Marked<Length>| -> Vec<(Marked<Length>, Vec<usize>)> {
            let packed = pack(&lengths, coil.value, Length::ZERO).sticks.into_iter();
            packed
                .map(|inside| (shortest(&inside).unwrap_or(*coil), inside))
                .collect()
        };
        let plans = coils.iter().filter(|coil| most <= coil.value).map(plan);
        let bought =
            |plan: &Vec<(Marked<Length>, Vec<usize>)>| -> Length { plan.iter().map(|(coil, _)| coil.value).sum() };
        let Some(best) = plans.min_by_key(|plan| (bought(plan), plan.len())) else {
            return Vec::new();
        };
        let mut groups: Vec<StockGroup> = Vec::new();
        for coil in coils {
            let alike = best.iter().filter(|(of, _)| of.value == coil.value);
            let sticks: Vec<Stick> = alike
                .map(|(_, inside)| Stick {
                    parts: inside.iter().map(|&at| self.parts[fits[at]]).collect(),
                    off_cut: coil.value - used(inside),
                })
                .collect();
            if !sticks.is_empty() {
                groups.push(StockGroup {
                    bound: sticks.len(),
                    sticks,
                    ..self.group(StockForm::Coil, *coil)
                });
            }
        }
        groups
    }
}

/// So many lengths are searched to the end.
const SMALL: usize = 40;
/// Work for a bound, and for a plan that may save one stick or more than one: a moment each.
const FOR_BOUND: usize = 900_000_000;
const FOR_ONE: usize = 250_000_000;
const FOR_MORE: usize = 2_400_000_000;

/// Lays lengths into as few sticks as can be: proved for up to 40 lengths but where the search gives up, which it says.
/// Beyond, a quick plan is held against the bound of the relaxed plan, below which no plan goes, and where it is above
/// it, planned by that.
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
    let mut sticks = quick(&items, room);
    let mut patience = Patience(FOR_BOUND);
    let bound = lower_bound(&items, room, &sticks, &mut patience);
    let mut work = FOR_BOUND - patience.0;
    let mut proved = sticks.len() <= bound;
    if !proved && items.len() <= SMALL {
        let found = search::fewest(&items, room, bound, sticks.len());
        proved = found.proved;
        sticks = found.sticks.unwrap_or(sticks);
    } else if !proved {
        let given = if sticks.len() > bound + 1 { FOR_MORE } else { FOR_ONE };
        let mut patience = Patience(given);
        let planned = rounded::plan(&items, room, &sticks, &mut patience);
        work += given - patience.0;
        if planned.len() < sticks.len() {
            sticks = planned;
        }
        proved = sticks.len() <= bound;
    }
    let named = |inside: Vec<usize>| inside.into_iter().map(|item| order[item]).collect();
    Packing {
        bound: if proved { sticks.len() } else { bound },
        sticks: sticks.into_iter().map(named).collect(),
        proved,
        work,
    }
}

/// A number of sticks below which no plan of `items`, longest first, goes; sought until it reaches a plan that is known.
fn lower_bound(items: &[i64], room: i64, known: &[Vec<usize>], patience: &mut Patience) -> usize {
    let plain = by_length(items, room);
    if plain >= known.len() {
        return plain;
    }
    let ticks = Ticks::of(items, room, Rounding::ForBound);
    let way = |stick: &Vec<usize>| stick.iter().map(|&item| ticks.whole(items[item])).collect();
    let mut relaxed = Relaxed::of(ticks.rows(items.iter().copied()), &ticks);
    let mut ways = known.iter().map(way).collect();
    plain.max(relaxed.better(&mut ways, known.len(), patience))
}

/// As many sticks as all lengths make in one line.
fn by_length(items: &[i64], room: i64) -> usize {
    let all: i128 = items.iter().map(|&item| i128::from(item)).sum();
    usize::try_from((all + i128::from(room) - 1) / i128::from(room)).unwrap_or(usize::MAX)
}

/// The better of two quick plans.
fn quick(items: &[i64], room: i64) -> Vec<Vec<usize>> {
    /// Of more pieces only one plan is made.
    const MANY: usize = 10_000;
    let fitted = best_fit(items, room);
    if items.len() > MANY || fitted.len() <= by_length(items, room) {
        return fitted;
    }
    let fuller = fullest::one_by_one(items, room);
    if fuller.len() < fitted.len() { fuller } else { fitted }
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

#[cfg(test)]
mod tests {
    use super::super::stock::*;

    fn kerf() -> Length {
        Length::from_inches(0.125)
    }

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

    #[test]
    fn the_bound_is_never_above_what_a_search_finds() {
        let mut chance: u64 = 7;
        let mut next = move |end: u64| {
            chance = chance.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            (chance >> 33) % end
        };
        let mut tight = 0;
        for round in 0..400 {
            // Stick and pieces with and without a measure in common.
            let room = [2017, 51_231_800, 1_000_003][round % 3];
            let count = 2 + next(12);
            let least = room / (2 + next(8) as i64);
            let mut items: Vec<i64> = (0..count)
                .map(|_| 1 + least + next((room - least) as u64) as i64)
                .collect();
            items.iter_mut().for_each(|item| *item = (*item).min(room));
            items.sort_unstable_by_key(|item| std::cmp::Reverse(*item));
            let alone: Vec<Vec<usize>> = (0..items.len()).map(|at| vec![at]).collect();
            let bound = lower_bound(&items, room, &alone, &mut Patience(FOR_BOUND));
            let fewest = search::fewest(&items, room, 0, items.len() + 1);
            let fewest = fewest.sticks.expect("each in a stick of its own").len();
            assert!(bound <= fewest, "{bound} over {fewest} for {items:?} in {room}");
            tight += usize::from(bound == fewest);
        }
        assert!(tight > 360, "{tight} of 400 bounds are reached");
    }
}
