//! What a reader sees of a job on paper: lines and boxes that meet though they have nothing to do with each other. Judged
//! from the job's lattice alone by plain geometry, every pair by itself, without a thought for how lengths were arranged.
#![allow(dead_code)]

use stubout::job::{Device, Job, JointId, LatticePoint};

type Spot = (f64, f64);

/// Where a place of the lattice falls in an isometric drawing (ISO 5456-3: both level axes at 30°, one scale on all three).
fn on_paper(at: LatticePoint, step: f64) -> Spot {
    let (east, north, up) = (f64::from(at.east), f64::from(at.north), f64::from(at.up));
    let (cosine, sine) = (3f64.sqrt() / 2.0, 0.5);
    (step * cosine * (east + north), step * (sine * (east - north) - up))
}

fn from_line(spot: Spot, (a, b): (Spot, Spot)) -> f64 {
    let (x, y) = (b.0 - a.0, b.1 - a.1);
    let square = x * x + y * y;
    let share = if square == 0.0 {
        0.0
    } else {
        ((spot.0 - a.0) * x + (spot.1 - a.1) * y) / square
    };
    let share = share.clamp(0.0, 1.0);
    (a.0 + share * x - spot.0).hypot(a.1 + share * y - spot.1)
}

/// Twice the area of a triangle, by its sense.
fn turn(a: Spot, b: Spot, c: Spot) -> f64 {
    (b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0)
}

fn cross(one: (Spot, Spot), other: (Spot, Spot)) -> bool {
    let sides =
        |line: (Spot, Spot), ends: (Spot, Spot)| turn(line.0, line.1, ends.0) * turn(line.0, line.1, ends.1) < 0.0;
    sides(one, other) && sides(other, one)
}

/// Two strangers on paper.
#[derive(Debug)]
pub struct Meeting {
    /// Whom.
    pub who: String,
    /// How far they are apart, mm; 0 where they cross.
    pub gap: f64,
    /// Whether they are lines that cross in passing, well away from the ends of both.
    pub is_crossing: bool,
}

struct Line {
    name: String,
    joints: [JointId; 2],
    ends: (Spot, Spot),
}

fn lines(job: &Job, step: f64) -> Vec<Line> {
    let place = |id| Some(on_paper(job.joints.get(id)?.at, step));
    let line = |run: &stubout::job::Run| {
        let ends = (place(run.from)?, place(run.to)?);
        (ends.0 != ends.1).then(|| Line {
            name: run.id.to_string(),
            joints: [run.from, run.to],
            ends,
        })
    };
    job.runs.iter().filter_map(line).collect()
}

/// Pairs of runs without a common joint that come nearer than `least` mm.
pub fn pipes(job: &Job, step: f64, least: f64) -> Vec<Meeting> {
    let lines = lines(job, step);
    let mut found = Vec::new();
    for (at, one) in lines.iter().enumerate() {
        for other in &lines[at + 1..] {
            if one.joints.iter().any(|joint| other.joints.contains(joint)) {
                continue;
            }
            let to_ends = [
                from_line(one.ends.0, other.ends),
                from_line(one.ends.1, other.ends),
                from_line(other.ends.0, one.ends),
                from_line(other.ends.1, one.ends),
            ];
            let nearest = to_ends.into_iter().fold(f64::INFINITY, f64::min);
            let crosses = cross(one.ends, other.ends);
            let gap = if crosses { 0.0 } else { nearest };
            if gap < least {
                found.push(Meeting {
                    who: format!("{} and {}", one.name, other.name),
                    gap,
                    is_crossing: crosses && nearest > 1.5,
                });
            }
        }
    }
    found
}

/// Appliances and points of delivery nearer than `least` mm, from their middle, to pipe that does not end there.
pub fn covered(job: &Job, step: f64, least: f64) -> Vec<Meeting> {
    let lines = lines(job, step);
    let mut found = Vec::new();
    for joint in &job.joints {
        let stands = joint.placed.as_ref().map(|placed| &placed.device);
        if !matches!(stands, Some(Device::Appliance(_) | Device::Supply(_))) {
            continue;
        }
        let place = on_paper(joint.at, step);
        for line in lines.iter().filter(|line| !line.joints.contains(&joint.id)) {
            let gap = from_line(place, line.ends);
            if gap < least {
                found.push(Meeting {
                    who: format!("{} and {}", joint.id, line.name),
                    gap,
                    is_crossing: false,
                });
            }
        }
    }
    found
}

/// Width and height of the paper that a job takes, mm.
pub fn size(job: &Job, step: f64) -> (f64, f64) {
    let spots: Vec<Spot> = job.joints.iter().map(|joint| on_paper(joint.at, step)).collect();
    let span = |of: fn(&Spot) -> f64| {
        let all = spots.iter().map(of);
        all.clone().fold(f64::NEG_INFINITY, f64::max) - all.fold(f64::INFINITY, f64::min)
    };
    (span(|spot| spot.0), span(|spot| spot.1))
}

/// Pairs of runs of which one is truly at least twice as long as the other, and how many of these are drawn the other way
/// round; then pairs that are truly alike, to a twentieth, and how many of these are drawn more than twice as long as the other.
pub fn proportion(job: &Job) -> [usize; 4] {
    let drawn: Vec<(f64, f64)> = (job.runs.iter())
        .filter_map(|run| {
            let place = |id| Some(on_paper(job.joints.get(id)?.at, 1.0));
            let (from, to) = (place(run.from)?, place(run.to)?);
            let length = (to.0 - from.0).hypot(to.1 - from.1);
            (length > 0.0).then(|| (job.true_length(run).feet(), length))
        })
        .collect();
    let mut counted = [0; 4];
    for one in &drawn {
        for other in &drawn {
            if one.0 >= 2.0 * other.0 {
                counted[0] += 1;
                counted[1] += usize::from(one.1 < other.1 - 1e-6);
            }
            if one.0 >= other.0 && one.0 <= 1.05 * other.0 {
                counted[2] += 1;
                counted[3] += usize::from(one.1.max(other.1) > 2.0 * one.1.min(other.1) + 1e-6);
            }
        }
    }
    counted
}

/// Pairs of runs without a common joint that lie on one line, one after the other, with less than `least` mm between them: they
/// read as one run.
pub fn in_line(job: &Job, step: f64, least: f64) -> Vec<String> {
    let lines = lines(job, step);
    let mut found = Vec::new();
    for (at, one) in lines.iter().enumerate() {
        for other in &lines[at + 1..] {
            if one.joints.iter().any(|joint| other.joints.contains(joint)) {
                continue;
            }
            let way = (one.ends.1.0 - one.ends.0.0, one.ends.1.1 - one.ends.0.1);
            let length = way.0.hypot(way.1);
            let aside = |spot: Spot| ((spot.0 - one.ends.0.0) * way.1 - (spot.1 - one.ends.0.1) * way.0).abs() / length;
            let gap = [other.ends.0, other.ends.1].map(|end| from_line(end, one.ends));
            if aside(other.ends.0) < 1.5 && aside(other.ends.1) < 1.5 && gap[0].min(gap[1]) < least {
                found.push(format!("{} and {}", one.name, other.name));
            }
        }
    }
    found
}

/// Joints drawn below others that they are truly above by more than half a foot, compared where level pipe or an end of
/// pipe stands. True heights by adding typed lengths of upright pipe along the way from the first joint; of pipe that leans
/// the share that goes up. Only for jobs without loops, where there is one way.
pub fn upside_down(job: &Job) -> Vec<String> {
    let place = |id: JointId| job.joints.get(id).map(|joint| joint.at);
    let mut height = std::collections::BTreeMap::new();
    let mut waiting: Vec<(JointId, f64)> = job.joints.iter().take(1).map(|joint| (joint.id, 0.0)).collect();
    while let Some((id, feet)) = waiting.pop() {
        if height.insert(id, feet).is_some() {
            continue;
        }
        for run in job.runs.iter().filter(|run| run.from == id || run.to == id) {
            let other = if run.from == id { run.to } else { run.from };
            let (Some(from), Some(to)) = (place(id), place(other)) else {
                continue;
            };
            let way = [to.east - from.east, to.north - from.north, to.up - from.up].map(f64::from);
            let steps = way.iter().map(|part| part * part).sum::<f64>().sqrt();
            let rise = if steps > 0.0 { way[2] / steps } else { 0.0 };
            if !height.contains_key(&other) {
                waiting.push((other, feet + rise * job.true_length(run).feet()));
            }
        }
    }
    let is_told = |id: &JointId| {
        let legs: Vec<_> = job.runs.iter().filter(|run| run.from == *id || run.to == *id).collect();
        let is_level = |run: &&stubout::job::Run| match (place(run.from), place(run.to)) {
            (Some(from), Some(to)) => from.up == to.up,
            _ => false,
        };
        legs.len() == 1 || legs.iter().any(is_level)
    };
    let told: Vec<(JointId, f64, i32)> = height
        .into_iter()
        .filter(|(id, _)| is_told(id))
        .filter_map(|(id, feet)| Some((id, feet, place(id)?.up)))
        .collect();
    let mut found = Vec::new();
    for (high, above, drawn) in &told {
        for (low, below, its) in &told {
            if above - below > 0.5 + 1e-9 && drawn < its {
                found.push(format!(
                    "{high} at {above:.1} ft is drawn at {drawn}, {low} at {below:.1} ft at {its}"
                ));
            }
        }
    }
    found
}
