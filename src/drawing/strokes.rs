//! Strokes across pipe that tell of it without colour, so that they outlive a photocopy: what is over capacity is hatched
//! dense and long, what was held against nothing sparse and short, what is within capacity has a stroke here and there.
//! No words.

use super::Projection;
use crate::advice::{Audit, AuditPart, AuditRow, Standing, TieIn, TieInPlace, TieInStanding};
use crate::job::{Job, RunId};
use crate::scene::{Pen, Point};

/// A stroke on paper, in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Across {
    /// One end.
    pub from: Point,
    /// The other end.
    pub to: Point,
    /// How heavy.
    pub pen: Pen,
}

/// A kind of strokes: half their length and how far apart they stand, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hatch {
    /// Half the length of a stroke.
    pub half: f64,
    /// From stroke to stroke.
    pub every: f64,
    /// How heavy.
    pub pen: Pen,
}

impl Hatch {
    /// What fails.
    pub const FAILS: Hatch = Hatch {
        half: 2.4,
        every: 1.5,
        pen: Pen::Medium,
    };
    /// What was held against nothing.
    pub const UNKNOWN: Hatch = Hatch {
        half: 1.0,
        every: 4.0,
        pen: Pen::Thin,
    };
    /// What holds.
    pub const HOLDS: Hatch = Hatch {
        half: 1.6,
        every: 9.0,
        pen: Pen::Thin,
    };

    /// How a judgement is drawn.
    pub const fn of(standing: Standing) -> Hatch {
        match standing {
            Standing::Fails => Hatch::FAILS,
            Standing::Unknown => Hatch::UNKNOWN,
            Standing::Holds => Hatch::HOLDS,
        }
    }
}

/// The most strokes on one run.
const MOST: f64 = 400.0;

/// Strokes all along a run.
pub fn along(job: &Job, run: RunId, view: &Projection, hatch: Hatch) -> Vec<Across> {
    let Some([a, b]) = ends(job, run, view) else {
        return Vec::new();
    };
    let count = (a.distance(b) / hatch.every + 1e-9).floor().clamp(1.0, MOST);
    let stroke = |number: u32| (f64::from(number) + 0.5) / count;
    (0..count as u32)
        .filter_map(|number| at(job, run, stroke(number), view, hatch))
        .collect()
}

/// One stroke across a run at a share of its way.
pub fn at(job: &Job, run: RunId, share: f64, view: &Projection, hatch: Hatch) -> Option<Across> {
    let [a, b] = ends(job, run, view)?;
    let along = b - a;
    let length = a.distance(b);
    if length <= 0.0 {
        return None;
    }
    // Leaning, so that it is told from the ticks of joints.
    let way = along * (1.0 / length);
    let lean = (way.turned() + way * 0.5) * (hatch.half / 1.25_f64.sqrt());
    let middle = a.toward(b, share.clamp(0.0, 1.0));
    Some(Across {
        from: middle + lean * -1.0,
        to: middle + lean,
        pen: hatch.pen,
    })
}

/// A cross over a joint.
fn cross(job: &Job, joint: usize, view: &Projection, half: f64) -> [Across; 2] {
    let middle = view.point(job.joints.at(joint).at);
    [(1.0, 1.0), (1.0, -1.0)].map(|(x, y)| Across {
        from: Point::new(middle.x - half * x, middle.y - half * y),
        to: Point::new(middle.x + half * x, middle.y + half * y),
        pen: Pen::Medium,
    })
}

/// What existing parts will carry, over the drawing of the job: pipe hatched by its judgement, a cross over each device
/// and inlet that fails.
pub fn carried(job: &Job, audit: &Audit, view: &Projection) -> Vec<Across> {
    let row = |row: &AuditRow| -> Vec<Across> {
        let Some(standing) = row.after.map(|held| held.standing()) else {
            return Vec::new();
        };
        match &row.part {
            AuditPart::Pipe { runs, .. } => {
                let runs = runs.iter().map(|&run| job.runs.at(run).id);
                runs.flat_map(|run| along(job, run, view, Hatch::of(standing)))
                    .collect()
            }
            AuditPart::Device { joint, .. } | AuditPart::Inlet { joint, .. } | AuditPart::Setting { joint }
                if standing == Standing::Fails =>
            {
                cross(job, *joint, view, 3.2).to_vec()
            }
            AuditPart::Device { .. } | AuditPart::Inlet { .. } | AuditPart::Setting { .. } => Vec::new(),
        }
    };
    audit.rows.iter().flat_map(row).collect()
}

/// A survey of tie-ins over the drawing of the job, in the strokes of [`carried`]: over capacity is long on every sheet.
/// Strokes that would touch are left out.
pub fn surveyed(job: &Job, rows: &[TieIn], view: &Projection) -> Vec<Across> {
    let mut rows: Vec<&TieIn> = rows.iter().collect();
    rows.sort_by_key(|row| row.place);
    let mut last: Option<(RunId, Point)> = None;
    let mut all = Vec::new();
    for row in rows {
        let hatch = match row.standing() {
            TieInStanding::Holds | TieInStanding::Before => Hatch::HOLDS,
            TieInStanding::Unknown => Hatch::UNKNOWN,
            TieInStanding::Fails => Hatch::FAILS,
        };
        match row.place {
            TieInPlace::Joint(joint) => {
                if let Some(joint) = job.joints.position(joint) {
                    all.extend(cross(job, joint, view, hatch.half * 0.6));
                }
            }
            TieInPlace::Run { run, along } => {
                let Some(drawn) = job.runs.get(run) else { continue };
                let share = along.feet() / job.true_length(drawn).feet().max(1e-9);
                let Some(stroke) = at(job, run, share, view, hatch) else {
                    continue;
                };
                let middle = stroke.from.toward(stroke.to, 0.5);
                let touches = last.is_some_and(|(of, place)| of == run && place.distance(middle) < NEAREST);
                if !touches {
                    last = Some((run, middle));
                    all.push(stroke);
                }
            }
        }
    }
    all
}

/// Strokes stand no nearer than this, mm.
const NEAREST: f64 = 1.2;

fn ends(job: &Job, run: RunId, view: &Projection) -> Option<[Point; 2]> {
    let run = job.runs.get(run)?;
    let place = |joint| Some(view.point(job.joints.get(joint)?.at));
    Some([place(run.from)?, place(run.to)?])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Joint, JointId, LatticePoint, Run};

    #[test]
    fn strokes_cross_pipe_at_their_distance_and_lie_on_it() {
        let mut job = Job::default();
        for (id, up) in [(1, 0), (2, 9)] {
            job.joints.insert(Joint {
                id: JointId(id),
                at: LatticePoint::new(0, 0, up),
                ..Joint::default()
            });
        }
        let id = RunId(1);
        job.runs.insert(Run {
            id,
            from: JointId(1),
            to: JointId(2),
            ..Run::default()
        });
        let view = Projection {
            origin: Point::default(),
            step: 5.0,
        };
        let strokes = along(&job, id, &view, Hatch::FAILS);
        assert_eq!(strokes.len(), 30, "45 mm, one each 1.5");
        for stroke in &strokes {
            let middle = stroke.from.toward(stroke.to, 0.5);
            assert!(middle.x.abs() < 1e-9 && (-45.0..=0.0).contains(&middle.y));
            assert!((stroke.from.distance(stroke.to) - 2.0 * Hatch::FAILS.half).abs() < 1e-9);
            assert!(stroke.from.x * stroke.to.x < 0.0, "from one side to the other");
        }
        assert!(along(&job, RunId(9), &view, Hatch::HOLDS).is_empty());
    }
}
