//! Which way the gas flows: the tree that hangs from the point of delivery.

/// The piping as a tree of dense indexes. Pipe to be removed is no part of it.
///
/// Joint and run numbers here are positions in `job.joints` and `job.runs`.
#[derive(Clone, Debug, Default)]
pub struct Network {
    /// The joint of the first point of delivery, where there is one.
    pub supply: Option<usize>,
    /// Joints that gas reaches, each after the one upstream of it, a branch finished before the next (depth first).
    pub order: Vec<usize>,
    /// For each joint the run that feeds it.
    pub feed: Vec<Option<usize>>,
    /// For each run its joint upstream and its joint downstream, when gas reaches it through the tree.
    pub ends: Vec<Option<(usize, usize)>>,
    /// For each joint where its runs begin in `legs`; one longer than the joints.
    pub leg_start: Vec<u32>,
    /// The runs that meet at each joint, removed ones too.
    pub legs: Vec<u32>,
    /// Further points of delivery, which this tool does not feed from.
    pub other_supplies: Vec<usize>,
    /// Runs that close a loop, so that they are no part of the tree.
    pub loop_runs: Vec<usize>,
    /// Runs, not to be removed, that no gas reaches.
    pub unreached: Vec<usize>,
}

impl Network {
    /// The runs that meet at a joint.
    pub fn legs(&self, joint: usize) -> impl Iterator<Item = usize> + '_ {
        self.legs[self.leg_start[joint] as usize..self.leg_start[joint + 1] as usize]
            .iter()
            .map(|&run| run as usize)
    }
}
