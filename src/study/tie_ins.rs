//! Where new pipe is tied into existing pipe, numbered along the flow.

use crate::job::{Job, State};
use crate::network::Network;

/// For each joint at which new and existing pipe meet its number, from 1 in flow order; those that no gas reaches come
/// last.
pub fn tie_ins(job: &Job, network: &Network) -> Vec<Option<usize>> {
    let mut meets = vec![[false; 2]; job.joints.len()];
    for run in &job.runs {
        let which = match run.state {
            State::Existing => 0,
            State::New => 1,
            State::Removed => continue,
        };
        for joint in [run.from, run.to].iter().filter_map(|id| job.joints.position(*id)) {
            meets[joint][which] = true;
        }
    }
    let mut numbers = vec![None; job.joints.len()];
    let mut count = 0;
    for joint in network.order.iter().copied().chain(0..job.joints.len()) {
        if let (Some([true, true]), Some(slot @ None)) = (meets.get(joint), numbers.get_mut(joint)) {
            count += 1;
            *slot = Some(count);
        }
    }
    numbers
}
