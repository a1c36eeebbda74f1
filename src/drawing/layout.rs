//! Where every joint and run lies on paper, before anything is drawn.

use super::parts::Part;
use super::{Asked, Gone};
use crate::job::{Axis, Direction, Job, Joint, LatticePoint, State};
use crate::projection::{self, Projection};
use crate::scene::{Affine, Point, Rect, Segment, Vector};
use crate::study::{Study, tie_ins};

/// A run as it lies on paper. A run without drawn length has none.
#[derive(Clone, Debug)]
pub struct Leg {
    /// Its position in `job.runs`.
    pub run: usize,
    /// The joint at its beginning: the one upstream where gas reaches it.
    pub from: usize,
    /// The joint at its end.
    pub to: usize,
    /// Its centre line on paper, from beginning to end: of a part of a drawing what lies within its window.
    pub line: Segment,
    /// The same with what lies beyond.
    pub whole: Segment,
    /// How much of the whole lies beyond the beginning of `line`, mm.
    pub before: f64,
    /// How near to the viewer its line begins and ends; see [`projection::nearness`].
    pub depths: [f64; 2],
    /// Its way on the lattice.
    pub way: Direction,
    /// Direction on paper, 1 mm long.
    pub along: Vector,
    /// Drawn length in mm.
    pub length: f64,
    /// Whether the study knows which way gas flows, so that the leg runs downstream.
    pub flows: bool,
}

impl Leg {
    /// The direction on paper away from one of its joints, 1 mm long.
    pub fn away_from(&self, joint: usize) -> Vector {
        if joint == self.from { self.along } else { -self.along }
    }

    /// The joint at the other end.
    pub fn other(&self, joint: usize) -> usize {
        if joint == self.from { self.to } else { self.from }
    }

    /// The way on the lattice away from one of its joints.
    pub fn way_from(&self, joint: usize) -> Direction {
        if joint == self.from { self.way } else { -self.way }
    }

    /// The place on paper `mm` from its beginning.
    pub fn at(&self, mm: f64) -> Point {
        self.line.a + self.along * mm
    }

    /// Whether some of it lies beyond the window of a part.
    pub fn is_cut(&self) -> bool {
        self.line != self.whole
    }
}

/// Everything that the parts of the drawing look at.
pub struct Layout<'a> {
    /// What was drawn.
    pub job: &'a Job,
    /// What follows from it.
    pub study: &'a Study,
    /// From the lattice to paper.
    pub projection: Projection,
    /// Where each joint lies, in the order of `job.joints`.
    pub places: Vec<Point>,
    /// How each run lies, in the order of `job.runs`; `None` also for one that a part of a drawing does not show.
    pub legs: Vec<Option<Leg>>,
    /// For each joint its number where new pipe is tied into existing pipe.
    pub tie_ins: Vec<Option<usize>>,
    /// What is asked in place of being said.
    pub asked: Asked,
    leg_start: Vec<u32>,
    legs_at: Vec<u32>,
    /// The part of the drawing that this is, and the whole at the scale of all parts' agreement.
    part: Option<(Part<'a>, Box<Layout<'a>>)>,
    /// The area of paper on which a part is drawn.
    paper: Option<Rect>,
}

impl<'a> Layout<'a> {
    /// Lays the job out on paper.
    pub fn new(job: &'a Job, study: &'a Study, projection: Projection, gone: Gone) -> Self {
        let places: Vec<Point> = job.joints.iter().map(|joint| projection.point(joint.at)).collect();
        let is_drawn = |run: &usize| gone == Gone::Drawn || job.runs.at(*run).state != State::Removed;
        let legs: Vec<Option<Leg>> = (0..job.runs.len())
            .map(|run| Some(run).filter(is_drawn).and_then(|run| leg(job, study, &places, run)))
            .collect();
        Layout::laid(job, study, projection, places, legs)
    }

    /// The same with figures that are asked.
    pub fn asking(self, asked: Asked) -> Self {
        Layout { asked, ..self }
    }

    /// What a part of the drawing shows of it: pipe ends at the edge of its window.
    pub fn part(whole: Layout<'a>, part: Part<'a>, projection: Projection, paper: Rect) -> Self {
        let places = whole
            .job
            .joints
            .iter()
            .map(|joint| projection.point(joint.at))
            .collect();
        let to_paper = |place| projection.of_unit(whole.projection.to_unit(place));
        let seen = |leg: &Leg| {
            let line = Segment::new(to_paper(leg.whole.a), to_paper(leg.whole.b));
            let (from, to) = part.seen(Segment::new(projection.to_unit(line.a), projection.to_unit(line.b)))?;
            let [near, far] = leg.depths;
            let seen = match (from, to) {
                (0.0, 1.0) => line,
                _ => Segment::new(line.at(from), line.at(to)),
            };
            Some(Leg {
                line: seen,
                whole: line,
                before: line.length() * from,
                depths: [from, to].map(|share| near + (far - near) * share),
                length: seen.length(),
                ..leg.clone()
            })
        };
        let legs = whole.legs.iter().map(|leg| leg.as_ref().and_then(seen)).collect();
        let laid = Layout::laid(whole.job, whole.study, projection, places, legs);
        Layout {
            asked: whole.asked,
            part: Some((part, Box::new(whole))),
            paper: Some(paper),
            ..laid
        }
    }

    fn laid(
        job: &'a Job,
        study: &'a Study,
        projection: Projection,
        places: Vec<Point>,
        legs: Vec<Option<Leg>>,
    ) -> Self {
        let mut leg_start = vec![0u32; places.len() + 1];
        for leg in legs.iter().flatten() {
            leg_start[leg.from + 1] += 1;
            leg_start[leg.to + 1] += 1;
        }
        for joint in 0..places.len() {
            leg_start[joint + 1] += leg_start[joint];
        }
        let mut next = leg_start.clone();
        let mut legs_at = vec![0u32; leg_start.last().map_or(0, |all| *all as usize)];
        for leg in legs.iter().flatten() {
            for joint in [leg.from, leg.to] {
                legs_at[next[joint] as usize] = leg.run as u32;
                next[joint] += 1;
            }
        }
        Self {
            job,
            study,
            projection,
            places,
            legs,
            tie_ins: tie_ins(job, &study.network),
            asked: Asked::default(),
            leg_start,
            legs_at,
            part: None,
            paper: None,
        }
    }

    /// The whole drawing of which this is a part, or this where it is all: what goes by all of the job looks there.
    pub fn whole(&self) -> &Layout<'a> {
        self.part.as_ref().map_or(self, |(_, whole)| whole)
    }

    /// Whether a place of the whole drawing belongs to this part; each belongs to one. All parts reckon with the same
    /// figures, so that none is lost between two.
    pub fn holds(&self, place: Point) -> bool {
        (self.part.as_ref()).is_none_or(|(part, whole)| part.holds(whole.projection.to_unit(place)))
    }

    /// Whether a joint is drawn here, with what stands on it.
    pub fn has(&self, joint: usize) -> bool {
        self.holds(self.whole().places[joint])
    }

    /// Whether what is said of a line of the whole drawing stands in this part: in the one that shows most of it.
    pub fn says(&self, line: Segment) -> bool {
        (self.part.as_ref()).is_none_or(|(part, whole)| {
            let unit = |place| whole.projection.to_unit(place);
            part.says(Segment::new(unit(line.a), unit(line.b)))
        })
    }

    /// Whether a share of the whole of a run is in this part.
    pub fn holds_share(&self, run: usize, share: f64) -> bool {
        let whole = self.whole().legs.get(run).and_then(Option::as_ref);
        whole.is_some_and(|leg| self.holds(leg.line.at(share)))
    }

    /// What is seen of a line of this paper.
    pub fn seen(&self, line: Segment) -> Option<Segment> {
        let Some((part, _)) = &self.part else { return Some(line) };
        let unit = |place| self.projection.to_unit(place);
        let (from, to) = part.seen(Segment::new(unit(line.a), unit(line.b)))?;
        Some(Segment::new(line.at(from), line.at(to)))
    }

    /// What is seen of a line of a helper plane, which may lead beyond the paper where no match line ends a part.
    pub fn seen_of_plane(&self, line: Segment) -> Option<Segment> {
        let line = self.seen(line)?;
        let Some(paper) = self.paper else { return Some(line) };
        match line.within(paper)? {
            (0.0, 1.0) => Some(line),
            (from, to) => Some(Segment::new(line.at(from), line.at(to))),
        }
    }

    /// Whether some of these runs lie beyond the window of a part.
    pub fn legs_cut(&self, runs: &[usize]) -> bool {
        runs.iter().any(|run| self.legs[*run].as_ref().is_none_or(Leg::is_cut))
    }

    /// Where a place of the whole drawing lies on this paper.
    pub fn of_whole(&self, place: Point) -> Point {
        match &self.part {
            Some((_, whole)) => self.projection.of_unit(whole.projection.to_unit(place)),
            None => place,
        }
    }

    /// The legs that meet at a joint, in the order of runs.
    pub fn legs_at(&self, joint: usize) -> impl Iterator<Item = &Leg> + Clone {
        let range = self.leg_start[joint] as usize..self.leg_start[joint + 1] as usize;
        self.legs_at[range]
            .iter()
            .filter_map(|run| self.legs[*run as usize].as_ref())
    }

    /// The axis directions that no leg of a joint takes, in the order asked for.
    pub fn free_way(&self, joint: usize, wishes: &[Direction]) -> Option<Direction> {
        let taken = |way: Direction| {
            self.legs_at(joint)
                .any(|leg| way.angle_to(leg.way_from(joint)).is_none_or(|angle| angle < 20.0))
        };
        wishes.iter().copied().find(|way| !taken(*way))
    }
}

/// A job without what stands on joints to be removed, and without the names of joints from which all pipe goes. Positions
/// and runs stay.
pub fn standing(job: &Job) -> Job {
    let mut stays = vec![None; job.joints.len()];
    for run in &job.runs {
        for at in [run.from, run.to].iter().filter_map(|id| job.joints.position(*id)) {
            *stays[at].get_or_insert(false) |= run.state != State::Removed;
        }
    }
    let joint = |(joint, stays): (&Joint, Option<bool>)| {
        let mut joint = joint.clone();
        joint.placed = joint.placed.filter(|placed| placed.state != State::Removed);
        joint.label = joint.label.filter(|_| stays != Some(false));
        joint
    };
    Job {
        joints: job.joints.iter().zip(stays).map(joint).collect(),
        ..job.clone()
    }
}

fn leg(job: &Job, study: &Study, places: &[Point], run: usize) -> Option<Leg> {
    let it = job.runs.at(run);
    let (a, b) = (job.joints.position(it.from)?, job.joints.position(it.to)?);
    let ends = study.network.ends.get(run).copied().flatten();
    let (from, to) = ends.filter(|ends| *ends == (a, b) || *ends == (b, a)).unwrap_or((a, b));
    let way = job.joints.at(to).at - job.joints.at(from).at;
    let line = Segment::new(places[from], places[to]);
    let along = line.vector().unit()?;
    Some(Leg {
        run,
        from,
        to,
        line,
        whole: line,
        before: 0.0,
        depths: [nearness(job, from), nearness(job, to)],
        way,
        along,
        length: line.length(),
        flows: ends.is_some(),
    })
}

/// The direction across a line on paper that lies in its isometric plane: straight up for all but upright lines, east
/// for those.
pub fn across(along: Vector) -> Vector {
    if along.x.abs() > 0.3 {
        projection::axis(Axis::Up)
    } else {
        projection::axis(Axis::East)
    }
}

/// Local mm to paper for a symbol on a line: x along it, y down across it.
pub fn frame(at: Point, along: Vector, scale: f64) -> Affine {
    Affine::frame(at, along * scale, across(along) * -scale)
}

/// Local mm to paper for a symbol that is turned along a line without being slanted into a plane.
pub fn turned(at: Point, along: Vector, scale: f64) -> Affine {
    Affine::frame(at, along * scale, along.turned() * scale)
}

/// How near to the viewer a lattice point lies; see [`projection::nearness`].
pub fn nearness(job: &Job, joint: usize) -> f64 {
    let at: LatticePoint = job.joints.at(joint).at;
    projection::nearness(at)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codebook::Codebook;
    use crate::drawing::{First, Options, in_one_part};

    #[test]
    fn pipe_in_parts_is_as_long_as_in_one_and_every_joint_is_in_one_part() {
        let paper = Rect::sized(Point::new(20.0, 10.0), 180.0, 160.0);
        for text in [
            include_str!("../../examples/patio-kitchen.ron"),
            include_str!("../../examples/two-pressure-house.ron"),
            include_str!("../../examples/classroom.ron"),
        ] {
            let (job, book) = (crate::file::read(text).unwrap(), Codebook::published());
            let study = Study::of(&job, book);
            let mut parts = in_one_part(&job, &study, Options::default(), 5.0, First { sheet: 2, letter: 0 });
            for at in [0, 1, 0, 2] {
                parts = parts.splits(at, paper).swap_remove(0);
            }
            let whole = || Layout::new(&job, &study, Projection::UNIT, Gone::Drawn);
            let laid = |at| {
                let part: Part<'_> = parts.part(at);
                Layout::part(whole(), part, part.projection(paper, Vector::new(20.0, 20.0)), paper)
            };
            let layouts: Vec<Layout<'_>> = (0..parts.count()).map(laid).collect();
            for leg in whole().legs.iter().flatten() {
                let seen = layouts.iter().filter_map(|layout| {
                    let leg = layout.legs[leg.run].as_ref()?;
                    Some(leg.length / layout.projection.step)
                });
                let seen: Vec<f64> = seen.collect();
                assert!(
                    (seen.iter().sum::<f64>() - leg.length).abs() < 1e-6,
                    "{seen:?} of {}",
                    leg.length
                );
            }
            for joint in 0..job.joints.len() {
                assert_eq!(layouts.iter().filter(|layout| layout.has(joint)).count(), 1);
            }
        }
    }
}
