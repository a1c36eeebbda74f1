//! Where two runs cross on paper without meeting, the one behind is broken to both sides of the one in front
//! (EN ISO 6412-1: about 2 mm clear).

use super::layout::{Layout, Leg};
use crate::scene::{Grid, Rect};

/// Clear distance to the pipe in front, mm.
const CLEAR: f64 = 1.8;
/// Pairs that are looked at before the search ends: a drawing that has more is past reading.
const MOST_PAIRS: usize = 4_000_000;

/// For each run the stretches, in mm from its beginning, at which it passes behind others; sorted, not overlapping.
pub fn gaps(layout: &Layout<'_>) -> Vec<Vec<(f64, f64)>> {
    let mut gaps = vec![Vec::new(); layout.legs.len()];
    let Some(bounds) = Rect::around(layout.legs.iter().flatten().flat_map(|leg| [leg.line.a, leg.line.b])) else {
        return gaps;
    };
    let count = layout.legs.len().max(1) as f64;
    let mean = layout.legs.iter().flatten().map(|leg| leg.length).sum::<f64>() / count;
    let mut grid = Grid::new(bounds, mean.max((bounds.width() + bounds.height()) / 500.0));
    for leg in layout.legs.iter().flatten() {
        grid.insert_along(leg.run as u32, leg.line, 0.0);
    }
    let mut pairs = 0;
    let mut runs: Vec<u32> = Vec::new();
    for cell in 0..grid.count() {
        runs.clear();
        runs.extend(grid.cell(cell));
        for (at, one) in runs.iter().enumerate() {
            pairs += runs.len() - at - 1;
            if pairs > MOST_PAIRS {
                break;
            }
            for other in &runs[at + 1..] {
                let (Some(one), Some(other)) = (&layout.legs[*one as usize], &layout.legs[*other as usize]) else {
                    continue;
                };
                if let Some((behind, gap)) = crossing(one, other, |place| grid.cell_of(place) == cell) {
                    gaps[behind].push(gap);
                }
            }
        }
    }
    for gaps in &mut gaps {
        join(gaps);
    }
    gaps
}

/// Which of two legs is broken, and where, if they cross within a cell of paper.
fn crossing(one: &Leg, other: &Leg, is_here: impl Fn(crate::scene::Point) -> bool) -> Option<(usize, (f64, f64))> {
    if [other.from, other.to]
        .iter()
        .any(|joint| [one.from, one.to].contains(joint))
    {
        return None;
    }
    let (s, t) = one.line.crossing(other.line)?;
    if !is_here(one.line.at(s)) {
        return None;
    }
    let depth_of = |leg: &Leg, t: f64| leg.depths[0] + (leg.depths[1] - leg.depths[0]) * t;
    let ahead = depth_of(one, s) - depth_of(other, t);
    if ahead.abs() < 1e-6 {
        // They touch in space: nobody is behind.
        return None;
    }
    let (behind, at) = if ahead > 0.0 { (other, t) } else { (one, s) };
    let sine = one.along.cross(other.along).abs().max(0.25);
    let half = CLEAR / sine;
    Some((behind.run, (at * behind.length - half, at * behind.length + half)))
}

/// Sorts stretches and joins those that overlap.
pub fn join(stretches: &mut Vec<(f64, f64)>) {
    stretches.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let mut joined: Vec<(f64, f64)> = Vec::with_capacity(stretches.len());
    for stretch in stretches.drain(..) {
        match joined.last_mut() {
            Some(last) if stretch.0 <= last.1 => last.1 = last.1.max(stretch.1),
            _ => joined.push(stretch),
        }
    }
    *stretches = joined;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stretches_that_overlap_become_one() {
        let mut stretches = vec![(5.0, 6.0), (1.0, 2.0), (1.5, 3.0), (3.0, 4.0)];
        join(&mut stretches);
        assert_eq!(stretches, [(1.0, 4.0), (5.0, 6.0)]);
    }
}
