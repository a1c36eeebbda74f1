//! A plan of many pieces from the plan with fractions: of that the ways that cut most sticks are taken as whole ones, the
//! rest is planned again, and so on until few pieces are left, which are searched.

use super::relaxed::{Patience, Relaxed, Way};
use super::ticks::{Rounding, Ticks};
use super::{by_length, quick, search};

/// So many pieces are left to the search.
const FEW: usize = 20;
/// One of so many sticks is taken before the rest is planned again.
const PART: f64 = 4.0;
/// A way that cuts less of a stick is no guide.
const SHARE: f64 = 0.1;
/// A slot is nearly filled where no more than this part of it is left.
const CLOSE: i64 = 200;

/// Lays items, longest first, into sticks, beginning with the ways that `known` sticks are cut.
pub(super) fn plan(items: &[i64], room: i64, known: &[Vec<usize>], patience: &mut Patience) -> Vec<Vec<usize>> {
    let ticks = Ticks::of(items, room, Rounding::ForPlan);
    let way = |stick: &Vec<usize>| stick.iter().map(|&item| ticks.whole(items[item])).collect();
    let mut ways: Vec<Way> = known.iter().map(way).collect();
    let mut laying = Laying {
        items,
        room,
        left: (0..items.len()).collect(),
        sticks: Vec::new(),
    };
    while laying.left.len() > FEW {
        let rows = ticks.rows(laying.left.iter().map(|&item| items[item]));
        let mut relaxed = Relaxed::of(rows, &ticks);
        relaxed.better(&mut ways, usize::MAX, patience);
        let mut cut = relaxed.cut();
        cut.sort_by(|one, other| other.0.total_cmp(&one.0));
        let part = cut.iter().map(|(sticks, _)| sticks).sum::<f64>() / PART;
        let before = laying.sticks.len();
        for (sticks, way) in cut {
            let taken = laying.sticks.len() - before;
            if taken > 0 && (taken as f64 >= part || sticks < SHARE) {
                break;
            }
            for _ in 0..(sticks + SHARE).floor().max(1.0) as usize {
                let need = match laying.sticks.len() == before {
                    true => Need::Any,
                    false => Need::Close,
                };
                let patient = patience.spend(laying.left.len());
                if !patient || !laying.lay(way.iter().map(|&slot| ticks.length(slot)), need) {
                    break;
                }
            }
        }
        if laying.sticks.len() == before {
            break;
        }
    }
    laying.end()
}

/// How well a slot must be filled.
#[derive(Clone, Copy, PartialEq)]
enum Need {
    Any,
    /// Nearly.
    Close,
}

struct Laying<'a> {
    items: &'a [i64],
    room: i64,
    /// Items that are in no stick yet, longest first.
    left: Vec<usize>,
    sticks: Vec<Vec<usize>>,
}

impl Laying<'_> {
    /// Fills a stick by its slots, each with the longest item that it takes, and then with what fits; says whether it
    /// was done.
    fn lay(&mut self, slots: impl Iterator<Item = i64>, need: Need) -> bool {
        let (mut left, mut room) = (self.left.clone(), self.room);
        let mut stick = Vec::new();
        for slot in slots {
            let at = left.partition_point(|&item| self.items[item] > slot.min(room));
            let close = left
                .get(at)
                .is_some_and(|&item| self.items[item] >= slot - slot / CLOSE);
            if need == Need::Close && !close {
                return false;
            }
            if at < left.len() {
                room -= self.items[left[at]];
                stick.push(left.remove(at));
            }
        }
        let mut at = 0;
        while at < left.len() {
            at += left[at..].partition_point(|&item| self.items[item] > room);
            if at < left.len() {
                room -= self.items[left[at]];
                stick.push(left.remove(at));
            }
        }
        if stick.is_empty() {
            return false;
        }
        stick.sort_unstable();
        (self.left, ()) = (left, self.sticks.push(stick));
        true
    }

    /// All sticks, with what is left in the fewest that are found for it.
    fn end(mut self) -> Vec<Vec<usize>> {
        let lengths: Vec<i64> = self.left.iter().map(|&item| self.items[item]).collect();
        let mut rest = quick(&lengths, self.room);
        if lengths.len() <= FEW {
            let bound = by_length(&lengths, self.room);
            rest = search::fewest(&lengths, self.room, bound, rest.len())
                .sticks
                .unwrap_or(rest);
        }
        let named = |stick: Vec<usize>| stick.into_iter().map(|at| self.left[at]).collect();
        self.sticks.extend(rest.into_iter().map(named));
        self.sticks
    }
}
