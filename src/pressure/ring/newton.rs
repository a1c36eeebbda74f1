//! Flows and pressures in a net of ways whose loss rises with the flow, by Newton's method on the pressures of its nodes.
//!
//! The gradient method for pipe networks (Todini and Pilati, 1988; from memory): flows always balance at every node;
//! each step takes every loss as straight near its flow, finds the pressures of that linear net, and sends round the
//! flows that they drive. Such flows make an energy least that curves upward everywhere, so that a step which is cut
//! or stretched to where that energy is least along it can only come nearer. What a loss owes to the pressures at its
//! ends (the density of the gas) is taken from the step before.
//!
//! Knows numbers only: no run, no gas. Every loop is bounded.

use super::mesh;

/// Steps after which a net that has not settled is given up. Rings of houses take five to ten.
const STEPS: usize = 50;
/// Cuts of one step.
const CUTS: usize = 60;
/// The net has settled when what is left round each ring, against the greatest loss, is less.
const SETTLED: f64 = 1e-11;
/// What will do when no step brings more.
const GOOD_ENOUGH: f64 = 1e-10;

/// Ways between nodes, and what is drawn at each node. Gas enters at node 0. The first ways are a tree: way k ends at
/// node k + 1 and begins at an earlier one.
pub(super) struct Net {
    pub(super) ways: Vec<(usize, usize)>,
    pub(super) draws: Vec<f64>,
}

/// Flows along the ways, less than zero against them, and for each node the pressure above that of node 0.
#[derive(Clone)]
pub(super) struct State {
    pub(super) flows: Vec<f64>,
    pub(super) above: Vec<f64>,
}

/// Why a net has no answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Stalled {
    /// Nobody knows the loss of this way at a flow that it might have.
    NoFigure(usize),
    /// The steps did not come to rest.
    Restless,
    /// More ways meet than can be worked through in a moment.
    TooLarge,
}

impl Net {
    /// All flow in the tree, none in the other ways.
    pub(super) fn opened(&self) -> State {
        let mut flows = vec![0.0; self.ways.len()];
        self.balance(&mut flows, &self.draws);
        State {
            flows,
            above: vec![0.0; self.draws.len()],
        }
    }

    /// Sets the flows of the tree so that at each node comes in what goes out.
    fn balance(&self, flows: &mut [f64], draws: &[f64]) {
        let nodes = self.draws.len();
        let mut wanted = draws.to_vec();
        for (&(from, to), flow) in self.ways.iter().zip(&*flows).skip(nodes - 1) {
            wanted[from] += flow;
            wanted[to] -= flow;
        }
        for node in (1..nodes).rev() {
            flows[node - 1] = wanted[node];
            wanted[self.ways[node - 1].0] += wanted[node];
        }
    }

    /// The pressures that follow along the tree, and what is left over at the other ways: the greatest of it.
    fn walk(&self, drops: &[f64]) -> (Vec<f64>, f64) {
        let nodes = self.draws.len();
        let mut above = vec![0.0; nodes];
        for node in 1..nodes {
            above[node] = above[self.ways[node - 1].0] - drops[node - 1];
        }
        let closing = self.ways.iter().zip(drops).skip(nodes - 1);
        let left = closing.map(|(&(from, to), drop)| (above[from] - above[to] - drop).abs());
        let left = left.fold(0.0, f64::max);
        (above, left)
    }

    /// Brings a state to rest. `drop` tells what a way loses in all, from its beginning to its end, at a flow and at the
    /// pressures of both ends above that of node 0; it rises with the flow.
    pub(super) fn settle(
        &self,
        mut state: State,
        drop: impl Fn(usize, f64, [f64; 2]) -> Option<f64>,
    ) -> Result<State, Stalled> {
        let most: f64 = self.draws.iter().sum();
        let mut best: Option<(f64, State)> = None;
        for step in 0..STEPS {
            let ends = |way: usize| {
                let (from, to) = self.ways[way];
                [state.above[from], state.above[to]]
            };
            let at = |way: usize, flow: f64| {
                let found = drop(way, flow, ends(way)).filter(|drop| drop.is_finite());
                found.ok_or(Stalled::NoFigure(way))
            };
            let drops = each(&state.flows, at)?;
            let largest = drops.iter().fold(0.0, |most: f64, drop| most.max(drop.abs()));
            let (above, left) = self.walk(&drops);
            let moved = above.iter().zip(&state.above).map(|(new, old)| (new - old).abs());
            let unrest = moved.fold(left, f64::max);
            if unrest <= largest * GOOD_ENOUGH && best.as_ref().is_none_or(|(least, _)| unrest < *least) {
                let flows = state.flows.clone();
                best = Some((unrest, State { flows, above }));
            }
            if unrest <= largest * SETTLED {
                break;
            }
            let flow = state.flows.iter().fold(most, |most: f64, flow| most.max(flow.abs()));
            let flow = if flow > 0.0 { flow } else { 1.0 };
            // At first the losses are taken wide, so that a way without flow is not taken for one without loss.
            let trace = flow * libm::pow(0.1, step as f64 + 1.0).max(1e-7);
            let usual = largest / flow;
            let slope = |way: usize, own: f64| {
                let half = (own.abs() * 1e-5).max(trace);
                let slope = (at(way, own + half)? - at(way, own - half)?) / (2.0 * half);
                Ok(slope.clamp(usual * 1e-9, usual * 1e9))
            };
            let slopes = each(&state.flows, slope)?;
            let mut fed = vec![0.0; self.draws.len()];
            for ((&(from, to), drop), slope) in self.ways.iter().zip(&drops).zip(&slopes) {
                fed[from] += drop / slope;
                fed[to] -= drop / slope;
            }
            let links = self.ways.iter().zip(&slopes);
            let links = links.map(|(&(from, to), slope)| (from, to, 1.0 / slope));
            let pressures = mesh::potentials(links, fed).ok_or(Stalled::TooLarge)?;
            let driven = self.ways.iter().zip(&drops).zip(&slopes);
            let driven = driven.map(|((&(from, to), drop), slope)| (pressures[from] - pressures[to] - drop) / slope);
            let mut change: Vec<f64> = driven.collect();
            self.balance(&mut change, &vec![0.0; self.draws.len()]);
            let uphill = |share: f64| {
                let mut sum = 0.0;
                for (way, change) in change.iter().enumerate() {
                    sum += at(way, state.flows[way] + share * change)? * change;
                }
                Ok(sum)
            };
            let share = reach(uphill)?;
            for (flow, change) in state.flows.iter_mut().zip(&change) {
                *flow += share * change;
            }
            self.balance(&mut state.flows, &self.draws);
            state.above = pressures;
        }
        best.map(|(_, state)| state).ok_or(Stalled::Restless)
    }
}

/// A figure for each way.
fn each(flows: &[f64], figure: impl Fn(usize, f64) -> Result<f64, Stalled>) -> Result<Vec<f64>, Stalled> {
    flows.iter().enumerate().map(|(way, &flow)| figure(way, flow)).collect()
}

/// How far to go along a step: all of it, unless the way leads uphill by then, or still much downhill.
fn reach(uphill: impl Fn(f64) -> Result<f64, Stalled>) -> Result<f64, Stalled> {
    let start = uphill(0.0)?;
    let flat = 0.1 * start.abs();
    let (mut low, mut high) = (0.0, 1.0);
    let mut at = uphill(high)?;
    for _ in 0..10 {
        if at >= -5.0 * flat {
            break;
        }
        (low, high) = (high, 2.0 * high);
        at = uphill(high)?;
    }
    if at <= flat || start >= 0.0 {
        return Ok(high);
    }
    for _ in 0..CUTS {
        let middle = 0.5 * (low + high);
        let at = uphill(middle)?;
        if at.abs() <= flat {
            return Ok(middle);
        }
        if at < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(low)
}

#[cfg(test)]
mod tests {
    use super::super::newton::*;

    /// A loss that goes by the square of the flow.
    fn square(resistance: f64, flow: f64) -> Option<f64> {
        Some(resistance * flow * flow.abs())
    }

    #[test]
    fn two_ways_share_by_the_root_of_their_resistance() {
        // 4 q² on one side, q² on the other: the second carries twice as much.
        let net = Net {
            ways: vec![(0, 1), (1, 0)],
            draws: vec![0.0, 30.0],
        };
        let drop = |way: usize, flow, _| square([4.0, 1.0][way], flow);
        let state = net.settle(net.opened(), drop).unwrap();
        assert!(
            (state.flows[0] - 10.0).abs() < 1e-8 && (state.flows[1] + 20.0).abs() < 1e-8,
            "{:?}",
            state.flows
        );
        assert!((state.above[1] + 400.0).abs() < 1e-7);
    }

    #[test]
    fn a_way_without_flow_between_like_pressures_stays_without() {
        // A ladder of one rung, alike on both sides.
        let net = Net {
            ways: vec![(0, 1), (1, 2), (2, 3), (3, 0), (3, 1)],
            draws: vec![0.0, 5.0, 7.0, 5.0],
        };
        let state = net.settle(net.opened(), |_, flow, _| square(1.0, flow)).unwrap();
        assert!(state.flows[4].abs() < 1e-5, "{:?}", state.flows);
        assert!((state.flows[0] - 8.5).abs() < 1e-8, "{:?}", state.flows);
    }

    #[test]
    fn a_loss_that_jumps_ends_the_search() {
        let net = Net {
            ways: vec![(0, 1), (1, 0)],
            draws: vec![0.0, 2.0],
        };
        // The jump at 1 spans what the other way loses there.
        let jump = |way: usize, flow: f64, _: [f64; 2]| match way {
            0 => Some(flow),
            _ => Some(flow * if flow.abs() > 1.0 { 1.5 } else { 0.5 }),
        };
        let found = net.settle(net.opened(), jump);
        assert_eq!(found.err(), Some(Stalled::Restless));
        let none = net.settle(net.opened(), |way, flow, _| (way == 0).then_some(flow));
        assert_eq!(none.err(), Some(Stalled::NoFigure(1)));
    }
}
