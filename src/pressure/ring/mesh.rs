//! Potentials in a mesh of linear ways: a sparse symmetric system solved by taking out one node after the other.
//!
//! A node that is taken out leaves a way between each two of its neighbours (star–mesh, which is Cholesky without a
//! difference of near numbers: every conductance stays a sum of positive ones). The node with the fewest neighbours goes
//! first, so that a ring of a thousand joints costs what a chain costs.

use std::collections::{BTreeMap, BTreeSet};

/// More pairs of neighbours than this are not worked through: some thousand joints of a plain grid have fewer.
const MOST_PAIRS: usize = 200_000;

/// For each node the potential that drives `fed` out of it, node 0 held at zero. `links` are two nodes and the
/// conductance between them, greater than zero. `None` when a node hangs on nothing, or there is too much to do.
pub(super) fn potentials(links: impl IntoIterator<Item = (usize, usize, f64)>, mut fed: Vec<f64>) -> Option<Vec<f64>> {
    let mut near: Vec<BTreeMap<usize, f64>> = vec![BTreeMap::new(); fed.len()];
    for (a, b, conductance) in links {
        link(&mut near, a, b, conductance);
    }
    let mut waiting: BTreeSet<(usize, usize)> = (1..fed.len()).map(|node| (near[node].len(), node)).collect();
    let mut taken = Vec::with_capacity(fed.len());
    let mut pairs = 0;
    while let Some((_, node)) = waiting.pop_first() {
        let star: Vec<(usize, f64)> = std::mem::take(&mut near[node]).into_iter().collect();
        let sum: f64 = star.iter().map(|(_, conductance)| conductance).sum();
        pairs += star.len() * star.len() / 2;
        if !(sum > 0.0 && sum.is_finite()) || pairs > MOST_PAIRS {
            return None;
        }
        for &(other, conductance) in &star {
            waiting.remove(&(near[other].len(), other));
            near[other].remove(&node);
            fed[other] += fed[node] * (conductance / sum);
        }
        for (at, &(a, one)) in star.iter().enumerate() {
            for &(b, other) in &star[at + 1..] {
                link(&mut near, a, b, one * (other / sum));
            }
        }
        waiting.extend(
            star.iter()
                .filter(|(other, _)| *other != 0)
                .map(|&(other, _)| (near[other].len(), other)),
        );
        taken.push((node, star, sum));
    }
    let mut potential = vec![0.0; fed.len()];
    for (node, star, sum) in taken.iter().rev() {
        let around: f64 = star
            .iter()
            .map(|&(other, conductance)| conductance * potential[other])
            .sum();
        potential[*node] = (fed[*node] + around) / sum;
    }
    Some(potential)
}

fn link(near: &mut [BTreeMap<usize, f64>], a: usize, b: usize, conductance: f64) {
    if a != b {
        *near[a].entry(b).or_default() += conductance;
        *near[b].entry(a).or_default() += conductance;
    }
}

#[cfg(test)]
mod tests {
    use super::super::mesh::*;

    #[test]
    fn a_square_with_a_diagonal_is_solved() {
        let links = [
            (0, 1, 1.0),
            (1, 2, 2.0),
            (2, 3, 3.0),
            (3, 0, 4.0),
            (0, 2, 0.5),
            (1, 2, 1.0),
        ];
        let fed = vec![0.0, 5.0, -2.0, 7.0];
        let found = potentials(links, fed.clone()).unwrap();
        for (node, fed) in fed.iter().enumerate().skip(1) {
            let out: f64 = links
                .iter()
                .map(|&(a, b, conductance)| match node {
                    _ if node == a => conductance * (found[a] - found[b]),
                    _ if node == b => conductance * (found[b] - found[a]),
                    _ => 0.0,
                })
                .sum();
            assert!((out - fed).abs() < 1e-12, "node {node}: {out}");
        }
    }

    #[test]
    fn what_hangs_on_nothing_and_what_is_too_much_has_no_answer() {
        assert_eq!(potentials([(0, 1, 1.0)], vec![0.0; 3]), None);
        let all = (0..300).flat_map(|a| (0..a).map(move |b| (a, b, 1.0)));
        assert_eq!(potentials(all, vec![0.0; 300]), None);
    }
}
