//! Clouds around what changed since the drawing was issued: scalloped lines whose bulges look outward, each with its mark.
//!
//! Around every changed place lies paper within a few mm of it; where such paper runs together it is one cloud. What was
//! taken away is clouded where it stood. Clouds are found before words are placed, so that words keep clear of their
//! lines; the mark, a triangle with the revision and the number of the cloud beside it, takes paper that is free.

mod contour;
mod mark;

pub use mark::Mark;

use super::layers;
use super::layout::Layout;
use crate::changes::{Change, Changes, Spot};
use crate::projection::Projection;
use crate::scene::{Group, Outline, PathItem, Pen, Point, Quad, Rect, Segment, Step, Stroke, Vector};
use contour::Near;

/// From pipe to its cloud, and from a joint or a passage, mm.
const OFF_PIPE: f64 = 5.5;
const OFF_PLACE: f64 = 7.0;
/// Clouds nearer to each other than this are one, mm.
const MERGED: f64 = 5.0;
/// From a cloud to a match line, mm.
const CLEAR_OF_MATCH: f64 = 2.0;
/// So many places are looked at pair by pair for what is near.
const MOST_PAIRED: usize = 300;
/// From foot to foot of a bulge, mm; more where the clouds of a drawing are so long that they had too many.
const BULGE: f64 = 5.0;
/// So many bulges at most all clouds of a drawing have together, about.
const MOST_BULGES: f64 = 4000.0;
/// The control points of a bulge, for each mm from foot to foot.
const SWELL: f64 = 0.46;
/// No bulge goes over a notch that is wider than so many others.
const WIDEST: f64 = 2.5;
/// A turn inward by more than this is a notch, radians.
const NOTCH: f64 = -0.6;

/// One cloud.
#[derive(Clone, Debug)]
pub struct Cloud {
    /// Its number, from 1.
    pub number: usize,
    /// The feet of its bulges, in order, so that the outside is to the left of the way from foot to foot as seen on paper.
    pub feet: Vec<Point>,
}

/// The clouds of a drawing.
#[derive(Clone, Debug, Default)]
pub struct Clouds {
    /// In the order of the changes in them.
    pub all: Vec<Cloud>,
    /// For each change the numbers of the clouds that it is in.
    pub of: Vec<Vec<usize>>,
}

/// Where a changed place lies on paper, and how far from it its cloud is.
fn near(spot: Spot, view: &Projection) -> Near {
    match spot {
        Spot::At(at) => Near {
            line: Segment::new(view.point(at), view.point(at)),
            off: OFF_PLACE,
        },
        Spot::Run(from, to) => Near {
            line: Segment::new(view.point(from), view.point(to)),
            off: OFF_PIPE,
        },
        Spot::On(from, to, share) => {
            let at = view.point(from).toward(view.point(to), share);
            Near {
                line: Segment::new(at, at),
                off: OFF_PLACE,
            }
        }
    }
}

/// What a part of a drawing shows of a changed place on its paper; where pipe goes on elsewhere the cloud ends before the
/// match line.
fn shown(near: Near, layout: &Layout<'_>, paper: Option<Rect>) -> Option<Near> {
    let is_place = near.line.length() == 0.0;
    let is_here = !is_place || layout.holds(near.line.a);
    let line = Segment::new(layout.of_whole(near.line.a), layout.of_whole(near.line.b));
    let near = Near { line, ..near };
    if is_place {
        return is_here.then_some(near);
    }
    let mut seen = layout.seen(near.line)?;
    if let Some(paper) = paper {
        // What was taken away may have gone on farther than anything that the part is drawn for.
        let (from, to) = seen.within(paper)?;
        seen = Segment::new(seen.at(from), seen.at(to));
    }
    if seen == near.line {
        return Some(near);
    }
    let back = (near.off + CLEAR_OF_MATCH).min(seen.length() / 2.0) / seen.length();
    let end = |at: f64, is_whole: bool| if is_whole { at } else { at + back * (1.0 - 2.0 * at) };
    let (from, to) = (end(0.0, seen.a == near.line.a), end(1.0, seen.b == near.line.b));
    Some(Near {
        line: Segment::new(seen.at(from), seen.at(to)),
        ..near
    })
}

impl Clouds {
    /// The clouds around changes, of a part of a drawing around what it shows of them; on `paper` of its own nothing
    /// goes on past the edge.
    pub fn around(changes: &Changes, layout: &Layout<'_>, paper: Option<Rect>) -> Clouds {
        let near = |spot: &Spot| shown(near(*spot, &layout.whole().projection), layout, paper);
        let spots = |change: &Change| change.spots.iter().filter_map(near).collect();
        Clouds::of(changes.list.iter().map(spots).collect())
    }

    /// The clouds around places, those of each change together.
    fn of(places: Vec<Vec<Near>>) -> Clouds {
        let mut shapes: Vec<Near> = places.iter().flatten().copied().collect();
        bridge(&mut shapes);
        let lines = contour::around(&shapes);
        let enclosed: Vec<Outline> = lines
            .iter()
            .map(|line| Outline::polygon(line.iter().copied()))
            .collect();
        let bounds: Vec<Option<Rect>> = lines.iter().map(|line| Rect::around(line.iter().copied())).collect();
        let whole: f64 = lines.iter().map(|line| around(line)).sum();
        let bulge = BULGE.max(whole / MOST_BULGES);
        let mut all: Vec<Cloud> = Vec::new();
        let mut number_of: Vec<Option<usize>> = vec![None; lines.len()];
        let mut of = Vec::with_capacity(places.len());
        for change in &places {
            let mut numbers: Vec<usize> = Vec::new();
            for place in change {
                let middle = place.line.at(0.5);
                let holds = |at: &usize| {
                    bounds[*at].is_some_and(|bounds| bounds.contains(middle)) && enclosed[*at].contains(middle)
                };
                let Some(at) = (0..lines.len()).find(holds) else {
                    continue;
                };
                let number = *number_of[at].get_or_insert_with(|| {
                    all.push(Cloud {
                        number: all.len() + 1,
                        feet: feet(&lines[at], bulge),
                    });
                    all.len()
                });
                if !numbers.contains(&number) {
                    numbers.push(number);
                }
            }
            numbers.sort_unstable();
            of.push(numbers);
        }
        Clouds { all, of }
    }

    /// The lines of all clouds.
    pub fn draw(&self) -> Group {
        let mut group = Group::new().on(layers::CLOUDS);
        for cloud in &self.all {
            let line = PathItem::stroked(outline(&cloud.feet), Stroke::new(Pen::Thin));
            group.push(Group::new().label(format!("cloud {}", cloud.number)).with(line));
        }
        group
    }
}

impl Cloud {
    /// From foot to foot, with the way that a bulge swells.
    pub fn bulges(&self) -> impl Iterator<Item = (Segment, Vector)> + '_ {
        let next = self.feet.iter().cycle().skip(1);
        (self.feet.iter().zip(next)).map(|(a, b)| (Segment::new(*a, *b), outward(*a, *b)))
    }

    /// The paper that its line takes.
    pub fn rooms(&self) -> impl Iterator<Item = Quad> + '_ {
        self.bulges().map(|(chord, out)| {
            let tip = out * (swell(chord.length()) * 0.75);
            Quad([chord.a, chord.b, chord.b + tip, chord.a + tip])
        })
    }
}

/// A cloud of these feet.
pub fn outline(feet: &[Point]) -> Outline {
    let mut outline = Outline::new();
    if let Some(first) = feet.first() {
        outline.push(Step::Move(*first));
    }
    for (at, a) in feet.iter().enumerate() {
        let b = feet[(at + 1) % feet.len()];
        let swell = outward(*a, b) * swell(a.distance(b));
        outline.push(Step::Cubic(*a + swell, b + swell, b));
    }
    outline.close()
}

/// How far the control points of a bulge are from its chord, mm.
fn swell(chord: f64) -> f64 {
    chord.min(1.4 * BULGE) * SWELL
}

/// The outside of a chord, 1 mm long.
fn outward(a: Point, b: Point) -> Vector {
    -(b - a).unit().unwrap_or_default().turned()
}

/// From each point of a closed line to the next.
fn closed(line: &[Point]) -> impl Iterator<Item = (&Point, &Point)> {
    line.iter().zip(line.iter().cycle().skip(1))
}

/// How long a closed line is, mm.
fn around(line: &[Point]) -> f64 {
    closed(line).map(|(a, b)| a.distance(*b)).sum()
}

/// Feet at equal distances along a closed line, about `bulge` mm apart.
fn feet(line: &[Point], bulge: f64) -> Vec<Point> {
    let whole = around(line);
    let count = (whole / bulge).round().clamp(6.0, MOST_BULGES);
    let (step, mut next, mut walked) = (whole / count, 0.0, 0.0);
    let mut feet = Vec::with_capacity(count as usize);
    for (a, b) in closed(line) {
        let length = a.distance(*b);
        while next < walked + length && feet.len() < count as usize {
            feet.push(a.toward(*b, (next - walked) / length));
            next += step;
        }
        walked += length;
    }
    divided(&without_notches(feet), bulge)
}

/// The line with further feet wherever two are far apart.
fn divided(feet: &[Point], bulge: f64) -> Vec<Point> {
    let pieces = closed(feet).flat_map(|(a, b)| {
        let count = (a.distance(*b) / bulge).round().max(1.0) as usize;
        (0..count).map(move |at| a.toward(*b, at as f64 / count as f64))
    });
    pieces.collect()
}

/// Takes out feet in sharp notches, where bulges would run into each other: the line goes straight over them.
fn without_notches(mut feet: Vec<Point>) -> Vec<Point> {
    let mut at = 0;
    let mut passed = 0;
    while passed < feet.len() && feet.len() > 6 {
        let count = feet.len();
        let (before, here, after) = (feet[(at + count - 1) % count], feet[at % count], feet[(at + 1) % count]);
        let (one, other) = ((here - before).unit(), (after - here).unit());
        let turn = one
            .zip(other)
            .map_or(0.0, |(one, other)| libm::atan2(one.cross(other), one.dot(other)));
        if turn < NOTCH && before.distance(after) < WIDEST * BULGE {
            feet.remove(at % count);
            // Its neighbours stand otherwise now.
            at = (at % count + feet.len() - 1) % feet.len();
            passed = 0;
        } else {
            at = (at + 1) % count;
            passed += 1;
        }
    }
    feet
}

/// Joins what lies so near to each other that two clouds would nearly touch.
fn bridge(shapes: &mut Vec<Near>) {
    if shapes.len() > MOST_PAIRED {
        return;
    }
    let mut bridges = Vec::new();
    for (at, one) in shapes.iter().enumerate() {
        for other in &shapes[at + 1..] {
            let gap = one.line.gap(other.line) - one.off - other.off;
            if (0.0..MERGED).contains(&gap) {
                bridges.push(Near {
                    line: between(one.line, other.line),
                    off: one.off.min(other.off),
                });
            }
        }
    }
    shapes.extend(bridges);
}

/// The shortest way between two lines that do not cross.
fn between(one: Segment, other: Segment) -> Segment {
    let to = |point: Point, line: Segment| Segment::new(point, line.at(line.nearest(point)));
    let ways = [to(one.a, other), to(one.b, other), to(other.a, one), to(other.b, one)];
    let shortest = ways.into_iter().min_by(|a, b| a.length().total_cmp(&b.length()));
    shortest.unwrap_or(one)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::changes::{ChangedPart, Turn};
    use crate::codebook::Codebook;
    use crate::drawing::Gone;
    use crate::job::{Job, LatticePoint, RunId};
    use crate::study::Study;

    const VIEW: Projection = Projection {
        origin: Point::new(0.0, 0.0),
        step: 5.0,
    };

    fn at(east: i32) -> Spot {
        Spot::At(LatticePoint::new(east, 0, 0))
    }

    fn clouds(spots: Vec<Vec<Spot>>) -> Clouds {
        let change = |spots| Change {
            turn: Turn::Changed,
            part: ChangedPart::Run(RunId(1)),
            name: String::new(),
            words: Vec::new(),
            spots,
        };
        let changes = Changes {
            list: spots.into_iter().map(change).collect(),
            ..Changes::default()
        };
        let (job, book) = (Job::default(), Codebook::published());
        let study = Study::of(&job, book);
        Clouds::around(&changes, &Layout::new(&job, &study, VIEW, Gone::Drawn), None)
    }

    #[test]
    fn near_changes_share_a_cloud_and_far_ones_do_not() {
        let of = clouds(vec![
            vec![at(0)],
            vec![at(40)],
            vec![at(1)],
            vec![],
            vec![at(0), at(40)],
        ])
        .of;
        assert_eq!(of, [vec![1], vec![2], vec![1], vec![], vec![1, 2]]);
        // Their edges would be 2 mm apart.
        assert_eq!(clouds(vec![vec![at(0)], vec![at(3)]]).all.len(), 1);
    }

    #[test]
    fn a_cloud_keeps_its_distance_all_round_and_swells_outward() {
        let spot = Spot::Run(LatticePoint::new(0, 0, 0), LatticePoint::new(12, 0, 0));
        let clouds = clouds(vec![vec![spot]]);
        let Spot::Run(from, to) = spot else { unreachable!() };
        let pipe = Segment::new(VIEW.point(from), VIEW.point(to));
        let cloud = &clouds.all[0];
        assert!(cloud.feet.len() >= 20);
        for (chord, out) in cloud.bulges() {
            let away = pipe.distance(chord.a);
            assert!((away - OFF_PIPE).abs() < 0.7, "{away}");
            let middle = chord.at(0.5);
            assert!(pipe.distance(middle + out) > pipe.distance(middle), "outward");
        }
        let line = clouds.draw().bounds().expect("a line");
        assert!(line.encloses(pipe.bounds().grown(5.0)));
    }

    #[test]
    fn a_cloud_around_pipe_of_kilometers_has_no_more_bulges_than_can_be_drawn() {
        let far = |east| LatticePoint::new(east, 1_000_000, -1_000_000);
        let spots = (0..40).map(|n| vec![Spot::Run(LatticePoint::new(n * 9, 0, 0), far(n * 90_000))]);
        let clouds = clouds(spots.collect());
        let bulges: usize = clouds.all.iter().map(|cloud| cloud.feet.len()).sum();
        assert!((20..=8_000).contains(&bulges), "{bulges}");
        assert!(clouds.of.iter().all(|of| !of.is_empty()));
    }

    #[test]
    fn places_as_far_away_as_the_lattice_goes_are_clouded_too() {
        let far = Spot::At(LatticePoint::new(i32::MAX, i32::MIN, 7));
        let clouds = clouds(vec![vec![at(0)], vec![far]]);
        assert_eq!(clouds.of, [vec![1], vec![2]]);
    }
}
