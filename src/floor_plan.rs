//! The plan: the pipe of a job seen from above, to true scale, from its true lengths.
//!
//! [`FloorPlan::of`] is one pure function from a study to a group on paper. East is to the right, north of the lattice up.
//! It knows no codebook and no sheet, and shows where things stand, not what they are: sizes, lengths and fittings are on
//! the isometric.

use crate::job::{Job, NorthAxis, State};
use crate::scene::{
    Anchor, Dash, Face, Group, Ink, Layer, Outline, PathItem, Pen, Point, Rect, Segment, Stroke, TextItem, Vector,
};
use crate::study::{Places, Study};
use crate::units::{Length, UnitSystem};

const PLAN: Layer = Layer::new("plan");
/// Height of letters of outlets and of words, mm.
const LETTER: f64 = 3.5;
const WORDS: f64 = 2.5;
/// Height of the strip with scale, north and key, mm.
const STRIP: f64 = 22.0;
/// Kept free around the pipe for letters, mm.
const MARGIN: f64 = 12.0;
/// The radius of the circle where pipe goes up or down, mm.
const CIRCLE: f64 = 1.4;
/// Ends of a run farther from where its length leads than this do not meet.
const MISFIT: Length = Length::from_eighths_of_um(200_000);
/// Distances at which a letter is tried, mm.
const OFF: [f64; 4] = [5.0, 7.0, 9.0, 11.5];
/// After so many tests for free places no further letter is placed.
const MOST_EFFORT: usize = 50_000_000;

/// Scales that a ruler has: true mm for one on paper, the name, and the length of each part of the bar.
const US: [(f64, &str, f64); 8] = [
    (24.0, "1/2\" = 1'-0\"", 1.0),
    (32.0, "3/8\" = 1'-0\"", 1.0),
    (48.0, "1/4\" = 1'-0\"", 2.0),
    (64.0, "3/16\" = 1'-0\"", 4.0),
    (96.0, "1/8\" = 1'-0\"", 4.0),
    (128.0, "3/32\" = 1'-0\"", 5.0),
    (192.0, "1/16\" = 1'-0\"", 10.0),
    (384.0, "1/32\" = 1'-0\"", 20.0),
];
const METRIC: [(f64, &str, f64); 6] = [
    (20.0, "1:20", 0.5),
    (50.0, "1:50", 1.0),
    (100.0, "1:100", 2.0),
    (200.0, "1:200", 5.0),
    (500.0, "1:500", 10.0),
    (1000.0, "1:1000", 20.0),
];

/// A plan on paper.
#[derive(Clone, Debug, PartialEq)]
pub struct FloorPlan {
    /// What is drawn.
    pub group: Group,
    /// Paper mm for a true one; `None` where a job lies wider than any scale holds, or has no pipe, so that no plan is drawn.
    pub scale: Option<f64>,
    /// Runs whose ends do not lie as far apart as they are long: lengths around a closed way do not meet.
    pub open: usize,
    /// Letters that found no room.
    pub left_out: usize,
}

impl FloorPlan {
    /// The plan of a job in an area of paper.
    pub fn of(job: &Job, study: &Study, area: Rect) -> FloorPlan {
        let strip = Rect::new(Point::new(area.min.x, area.max.y - STRIP), area.max);
        let room = Rect::new(area.min, Point::new(area.max.x, strip.min.y)).grown(-MARGIN);
        let ground: Vec<Point> = study.joints.iter().map(|joint| flat(joint.ground)).collect();
        let bounds = Rect::around(ground.iter().copied()).filter(|_| !job.runs.is_empty());
        let scale = bounds.and_then(|bounds| scale(study.names.units(), bounds, room));
        let mut plan = FloorPlan {
            group: Group::new().on(PLAN).label("plan"),
            scale: scale.map(|(true_mm, ..)| 1.0 / true_mm),
            open: 0,
            left_out: 0,
        };
        let (Some(bounds), Some(scale)) = (bounds, scale) else {
            let words = match bounds {
                None => "No pipe to show on a plan.",
                Some(_) => "The piping reaches too far for a plan on this paper.",
            };
            plan.say(words, room.center(), Anchor::Middle);
            return plan;
        };
        let at = |place: Point| room.center() + (place - bounds.center()) * (1.0 / scale.0);
        let on_paper: Vec<Point> = ground.iter().copied().map(at).collect();
        let (lines, circles) = plan.pipe(job, study, &on_paper);
        plan.letters(job, study, (&on_paper, &lines, circles), area, strip);
        plan.key(job, study, strip, scale);
        plan
    }

    /// The pipe; its lines on paper, and the boxes of its circles.
    fn pipe(&mut self, job: &Job, study: &Study, on_paper: &[Point]) -> (Vec<Segment>, Vec<Rect>) {
        let mut lines = Vec::new();
        let mut circles = Vec::new();
        for (run, studied) in job.runs.iter().zip(&study.runs) {
            let ends = [run.from, run.to].map(|end| job.joints.position(end));
            let [Some(from), Some(to)] = ends else { continue };
            let [a, b] = [from, to].map(|end| &study.joints[end]);
            let stroke = match run.state {
                State::New | State::Existing if studied.is_hose => Stroke::new(Pen::Medium).dash(Dash::Dotted),
                State::New => Stroke::new(Pen::Heavy),
                State::Existing => Stroke::new(Pen::Medium),
                State::Removed => Stroke::new(Pen::Medium).dash(Dash::Dashed),
            };
            let rise = (b.elevation - a.elevation).mm();
            let level = flat(a.ground).distance(flat(b.ground));
            if (libm::hypot(level, rise) - studied.length.mm()).abs() > MISFIT.mm() {
                self.open += 1;
            }
            if rise.abs() > level {
                circles.push((on_paper[if rise > 0.0 { to } else { from }], stroke));
            }
            if on_paper[from].distance(on_paper[to]) > 0.01 {
                let line = Segment::new(on_paper[from], on_paper[to]);
                self.group
                    .push(PathItem::stroked(Outline::line(line.a, line.b), stroke));
                lines.push(line);
            }
        }
        let boxes = circles
            .iter()
            .map(|(center, _)| Rect::sized(*center, 0.0, 0.0).grown(CIRCLE));
        let boxes = boxes.collect();
        for (center, stroke) in circles {
            let circle = PathItem::stroked(
                Outline::circle(center, CIRCLE),
                Stroke {
                    width: Pen::Medium,
                    ..stroke
                },
            );
            self.group.push(circle.fill(Ink::White));
        }
        (lines, boxes)
    }

    /// The letters of outlets, and where gas comes from, each beside its place with a short line to it.
    fn letters(
        &mut self,
        job: &Job,
        study: &Study,
        (on_paper, lines, mut taken): (&[Point], &[Segment], Vec<Rect>),
        area: Rect,
        strip: Rect,
    ) {
        let mut words: Vec<(Point, String)> = Vec::new();
        let places = Places::of(job, study);
        words.extend(study.network.supply.map(|joint| (on_paper[joint], places.mark(joint))));
        words.extend(study.outlets.iter().map(|it| (on_paper[it.joint], it.tag.clone())));
        let mut effort = 0;
        for (from, words) in words {
            let text = TextItem::new(&words, LETTER, Face::Strong);
            let half = Vector::new(text.advance() / 2.0, LETTER / 2.0);
            let spots = OFF.into_iter().flat_map(|off| {
                let ways = [
                    (0.7, -0.7),
                    (0.7, 0.7),
                    (-0.7, -0.7),
                    (-0.7, 0.7),
                    (1.0, 0.0),
                    (-1.0, 0.0),
                    (0.0, -1.0),
                    (0.0, 1.0),
                ];
                ways.map(|(x, y)| from + Vector::new(x * (off + half.x - LETTER / 2.0), y * off))
            });
            let around = |middle: Point| Rect::new(middle - half, middle + half).grown(0.8);
            let is_free = |room: &Rect| {
                area.encloses(*room)
                    && !room.overlaps(strip)
                    && !taken.iter().any(|other| other.overlaps(*room))
                    && !lines.iter().any(|line| crosses(line, *room))
                    && !on_paper.iter().any(|place| room.contains(*place))
            };
            effort += (lines.len() + on_paper.len() + taken.len()) * OFF.len() * 8;
            let mut spots = spots.filter(|_| effort <= MOST_EFFORT);
            let Some(middle) = spots.find(|middle| is_free(&around(*middle))) else {
                self.left_out += 1;
                continue;
            };
            taken.push(around(middle));
            let end = Point::new(
                from.x.clamp(middle.x - half.x, middle.x + half.x),
                from.y.clamp(middle.y - half.y, middle.y + half.y),
            );
            // It begins at the edge of a circle, where there is one.
            let way = (end - from).unit().unwrap_or_default();
            let start = from + way * (CIRCLE + 0.2);
            if from.distance(end) > CIRCLE + 1.0 {
                let leader = Outline::line(start, end - way * 0.4);
                self.group.push(PathItem::stroked(leader, Stroke::new(Pen::Thin)));
            }
            self.group
                .push(text.at(middle + Vector::new(0.0, LETTER / 2.0), Anchor::Middle));
        }
    }

    /// Scale, bar, north and what the plan means.
    fn key(&mut self, job: &Job, study: &Study, strip: Rect, (true_mm, name, part): (f64, &str, f64)) {
        let is_metric = study.names.units().is_metric();
        let true_part = if is_metric {
            Length::from_metres(part)
        } else {
            Length::from_feet(part)
        };
        let each = true_part.mm() / true_mm;
        let start = Point::new(strip.min.x + 18.0, strip.min.y + 10.0);
        for number in 0..4 {
            let bar = Rect::sized(start + Vector::new(f64::from(number) * each, 0.0), each, 1.6);
            let mut item = PathItem::stroked(Outline::rect(bar), Stroke::new(Pen::Thin));
            if number % 2 == 0 {
                item = item.fill(Ink::Black);
            }
            self.group.push(item);
        }
        for number in [0_u8, 2, 4] {
            let figure = f64::from(number) * part;
            let unit = if number < 4 {
                ""
            } else if is_metric {
                " m"
            } else {
                " ft"
            };
            let at = start + Vector::new(f64::from(number) * each, -1.0);
            self.say(&format!("{figure}{unit}"), at, Anchor::Middle);
        }
        let below = start + Vector::new(0.0, 6.0);
        self.say(&format!("SCALE {name}, if printed at full size"), below, Anchor::Start);
        let way = match job.settings.north {
            NorthAxis::North => Vector::new(0.0, -1.0),
            NorthAxis::East => Vector::new(1.0, 0.0),
            NorthAxis::South => Vector::new(0.0, 1.0),
            NorthAxis::West => Vector::new(-1.0, 0.0),
        };
        let middle = Point::new(strip.min.x + 6.0, strip.min.y + 11.0);
        let (tip, tail) = (middle + way * 5.0, middle - way * 5.0);
        let side = way.turned() * 1.1;
        self.group
            .push(PathItem::stroked(Outline::line(tail, tip), Stroke::new(Pen::Thin)));
        let head = Outline::polygon([tip, tip - way * 3.0 + side, tip - way * 3.0 - side]);
        self.group.push(PathItem::filled(head, Ink::Black));
        self.say("N", tip + way * 2.2 + Vector::new(0.0, WORDS / 2.0), Anchor::Middle);
        let mut said = vec![
            "Pipe at its true lengths, seen from above; heavy: new; thin: existing; dashed: to be removed;".to_owned(),
            "dotted: a hose or connector, drawn straight. A circle: pipe goes up or down. Letters are those of the"
                .to_owned(),
            "isometric, which tells sizes, lengths and fittings.".to_owned(),
        ];
        if self.open > 0 {
            said.push("NOT ALL TO SCALE: lengths around a closed way do not meet.".to_owned());
        }
        if self.left_out > 0 {
            said.push(format!(
                "{} without room for letters: see the isometric.",
                self.left_out
            ));
        }
        let left = strip.max.x
            - said
                .iter()
                .map(|line| crate::scene::measure(line, WORDS, Face::Regular))
                .fold(0.0, f64::max);
        for (row, line) in (0_u8..).zip(&said) {
            self.say(
                line,
                Point::new(left, strip.min.y + 6.0 + 4.2 * f64::from(row)),
                Anchor::Start,
            );
        }
    }

    fn say(&mut self, words: &str, at: Point, anchor: Anchor) {
        self.group
            .push(TextItem::new(words, WORDS, Face::Regular).at(at, anchor));
    }
}

/// The largest scale at which a box of true mm has room.
fn scale(units: UnitSystem, bounds: Rect, room: Rect) -> Option<(f64, &'static str, f64)> {
    let scales: &[_] = if units.is_metric() { &METRIC } else { &US };
    let has_room =
        |true_mm: f64| bounds.width() <= room.width() * true_mm && bounds.height() <= room.height() * true_mm;
    scales.iter().copied().find(|(true_mm, ..)| has_room(*true_mm))
}

/// A place on the ground in true mm, y down as on paper.
fn flat([east, north]: [Length; 2]) -> Point {
    Point::new(east.mm(), -north.mm())
}

/// Whether a line comes into a box, looked at every half mm.
fn crosses(line: &Segment, room: Rect) -> bool {
    if !line.bounds().grown(0.1).overlaps(room) {
        return false;
    }
    let length = line.length();
    let mut at = 0.0;
    while at <= length {
        if room.contains(line.a.toward(line.b, at / length)) {
            return true;
        }
        at += 0.5;
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codebook::Codebook;
    use crate::job::{Device, Joint, JointId, LatticePoint, Placed, Run, RunId, Supply};

    const AREA: Rect = Rect {
        min: Point::new(0.0, 0.0),
        max: Point::new(400.0, 250.0),
    };

    /// Three sides of a square as drawn, and a fourth that closes it where asked.
    fn job(lengths: &[f64]) -> Job {
        let mut job = Job::default();
        for (id, at) in (1..).zip([(0, 0, 0), (4, 0, 0), (4, 4, 0), (4, 4, 3)]) {
            job.joints.insert(Joint {
                id: JointId(id),
                at: LatticePoint::new(at.0, at.1, at.2),
                placed: (id == 1).then(|| Placed::new(Device::Supply(Supply::default()))),
                ..Joint::default()
            });
        }
        for (id, feet) in (1..).zip(lengths) {
            job.runs.insert(Run {
                id: RunId(id),
                from: JointId(id),
                to: JointId(id % 4 + 1),
                length: Some(Length::from_feet(*feet)),
                ..Run::default()
            });
        }
        job
    }

    fn plan(job: &Job) -> (Study, FloorPlan) {
        let study = Study::of(job, Codebook::published());
        let plan = FloorPlan::of(job, &study, AREA);
        (study, plan)
    }

    #[test]
    fn pipe_lies_by_its_true_lengths_and_a_riser_takes_no_ground() {
        let (study, plan) = plan(&job(&[20.0, 10.0, 9.0]));
        let feet = |joint: usize| study.joints[joint].ground.map(|way| way.feet().round());
        assert_eq!([feet(1), feet(2), feet(3)], [[20.0, 0.0], [20.0, 10.0], [20.0, 10.0]]);
        assert_eq!(plan.scale, Some(1.0 / 24.0), "half an inch for a foot");
        assert_eq!((plan.open, plan.left_out), (0, 0));
    }

    #[test]
    fn lengths_that_do_not_meet_are_told() {
        assert_eq!(plan(&job(&[20.0, 10.0, 9.0, 5.0])).1.open, 1);
    }

    #[test]
    fn what_no_scale_holds_is_said_and_not_drawn() {
        let (_, plan) = plan(&job(&[9_000.0, 10.0, 9.0]));
        assert_eq!((plan.scale, plan.group.items().len()), (None, 1));
    }
}
