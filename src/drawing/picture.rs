//! Lines and symbols put together, and the room that each of them keeps free of words.

use super::joints::{self, AtJoint};
use super::layout::{Layout, Leg};
use super::lines::{self, Look};
use super::marks::{self, Taken};
use super::section_numbers::{self, SectionNumbers};
use super::used::{Symbol, SymbolSet};
use super::{crossings, layers, passages, planes, tags};
use crate::job::{Run, State, Surroundings};
use crate::scene::{Group, Point, Quad, Segment};

/// Runs drawn longer than this carry an arrow of flow, mm.
const LONG: f64 = 24.0;
/// The longest run of a section carries one from this length, mm.
const FAIR: f64 = 9.0;

/// Whose room it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Owner {
    /// The pipe of a run.
    Pipe(usize),
    /// A symbol at a joint.
    Symbol(usize),
    /// The arrow or break on the pipe of a run.
    Mark(usize),
    /// A helper plane of a run.
    Plane(usize),
    /// A penetration of a run.
    Passage(usize),
    /// The line of a cloud.
    Cloud,
    /// The axes and what stands with them.
    Sheet,
}

/// Where a penetration stands.
#[derive(Clone, Debug)]
pub struct PassageRoom {
    /// Which of the run's penetrations it is.
    pub number: usize,
    /// Where the pipe goes through.
    pub place: Point,
    /// What is drawn there.
    pub rooms: Vec<Quad>,
}

/// Everything drawn but the words.
#[derive(Clone, Debug, Default)]
pub struct Picture {
    /// Helper planes, penetrations, then pipe, then symbols.
    pub group: Group,
    /// Which kinds occur.
    pub used: SymbolSet,
    /// The room of each part.
    pub rooms: Vec<(Quad, Owner)>,
    /// For each joint how far its symbol reaches along the pipe, mm.
    pub reach: Vec<f64>,
    /// For each run how much of its beginning and its end is taken by what is put on it, mm.
    pub on_ends: Vec<[f64; 2]>,
    /// For each run its penetrations, in their order.
    pub passages: Vec<Vec<PassageRoom>>,
    /// Where the numbers of sections stand.
    pub numbers: SectionNumbers,
    /// Whether no drawn length tells a true one, so that none is marked as cut short.
    is_arranged: bool,
}

/// Draws all lines and symbols, and where wanted the numbers of sections on them.
pub fn draw(layout: &Layout<'_>, with_numbers: bool, is_arranged: bool) -> Picture {
    let mut picture = Picture {
        passages: vec![Vec::new(); layout.legs.len()],
        is_arranged,
        ..Picture::default()
    };
    let letters = letters(layout);
    let mut joints: Vec<AtJoint> = (0..layout.places.len())
        .map(|joint| match layout.has(joint) {
            true => joints::draw(layout, joint, letters[joint], &mut picture.used),
            false => AtJoint::default(),
        })
        .collect();
    picture.reach = joints.iter().map(|joint| joint.reach).collect();
    picture.on_ends = vec![[0.0; 2]; layout.legs.len()];
    for (joint, drawn) in joints.iter().enumerate() {
        for &(run, reach) in &drawn.on_ends {
            if let Some(leg) = &layout.legs[run] {
                picture.on_ends[run][usize::from(leg.to == joint)] = reach;
            }
        }
    }
    let mut gaps = crossings::gaps(layout);
    if gaps.iter().any(|gaps| !gaps.is_empty()) {
        picture.used.insert(Symbol::Crossing);
    }
    if with_numbers {
        picture.numbers = section_numbers::place(layout, |leg| {
            taken(layout, leg, layout.job.runs.at(leg.run), &gaps[leg.run], &picture)
        });
    }
    let arrows = arrow_runs(layout);
    let (mut under, mut lines) = (Group::new(), Group::new());
    for under_pipe in joints.iter_mut().filter_map(|joint| joint.under.take()) {
        under.push(under_pipe);
    }
    for leg in layout.legs.iter().flatten() {
        plane(layout, leg, &mut under, &mut picture);
        let run = layout.job.runs.at(leg.run);
        let line = line(
            layout,
            leg,
            run,
            &mut gaps[leg.run],
            arrows[leg.run],
            &mut under,
            &mut picture,
        );
        lines.push(line);
    }
    let mut over = Group::new();
    for (joint, drawn) in joints.into_iter().enumerate() {
        picture
            .rooms
            .extend(drawn.rooms.into_iter().map(|room| (room, Owner::Symbol(joint))));
        if let Some(symbol) = drawn.over {
            over.push(symbol);
        }
    }
    picture.group = Group::new().with(under).with(lines).with(over);
    picture
}

/// For each joint the letter of the outlet that stands there.
fn letters<'a>(layout: &Layout<'a>) -> Vec<&'a str> {
    let mut letters = vec![""; layout.places.len()];
    for outlet in &layout.study.outlets {
        if let Some(letter) = letters.get_mut(outlet.joint) {
            *letter = &outlet.tag;
        }
    }
    letters
}

/// Which runs carry an arrow of flow: the long ones, and the longest of each section.
fn arrow_runs(layout: &Layout<'_>) -> Vec<bool> {
    let length = |run: usize| match layout.legs.get(run) {
        Some(Some(leg)) if leg.flows => leg.length,
        _ => 0.0,
    };
    let mut arrows: Vec<bool> = (0..layout.legs.len()).map(|run| length(run) >= LONG).collect();
    for section in &layout.study.sections {
        // Of equally long ones the first downstream.
        let longest = section
            .runs
            .iter()
            .copied()
            .rev()
            .max_by(|a, b| length(*a).total_cmp(&length(*b)));
        if let Some(run) = longest.filter(|run| length(*run) >= FAIR) {
            arrows[run] = true;
        }
    }
    arrows
}

fn plane(layout: &Layout<'_>, leg: &Leg, into: &mut Group, picture: &mut Picture) {
    if let Some((plane, rooms)) = planes::helper(layout, leg) {
        let tag = tags::plane(layout.job.runs.at(leg.run).id);
        into.push(
            Group::tagged(tag.role, tag.key)
                .on(layers::PLANES)
                .label("offset plane")
                .with(plane),
        );
        picture
            .rooms
            .extend(rooms.into_iter().map(|room| (room, Owner::Plane(leg.run))));
        picture.used.insert(Symbol::HelperPlane);
    }
}

/// What of a run is taken by what stands at its ends, by pipe before it and by its penetrations.
fn taken(layout: &Layout<'_>, leg: &Leg, run: &Run, gaps: &[(f64, f64)], picture: &Picture) -> Taken {
    let ends = (picture.reach[leg.from], picture.reach[leg.to]);
    let on_ends = picture.on_ends[leg.run];
    let mut taken = Taken::default();
    taken.take(f64::NEG_INFINITY, ends.0.max(on_ends[0]) + 0.6);
    taken.take(leg.length - ends.1.max(on_ends[1]) - 0.6, f64::INFINITY);
    for (from, to) in gaps {
        taken.take(*from, *to);
    }
    for passage in &run.penetrations {
        if let Some((from, to)) = passages::stretch(layout, leg, passage, ends) {
            taken.take(from, to);
        }
    }
    taken
}

/// The line of a run with everything on it; its penetrations go `under` it.
fn line(
    layout: &Layout<'_>,
    leg: &Leg,
    run: &Run,
    gaps: &mut Vec<(f64, f64)>,
    has_arrow: bool,
    under: &mut Group,
    picture: &mut Picture,
) -> Group {
    let ends = (picture.reach[leg.from], picture.reach[leg.to]);
    let mut taken = taken(layout, leg, run, gaps, picture);
    for (number, penetration) in run.penetrations.iter().enumerate() {
        let Some(passage) = passages::draw(layout, leg, penetration, ends, &mut picture.used) else {
            continue;
        };
        gaps.extend(passage.behind);
        picture
            .rooms
            .extend(passage.rooms.iter().map(|room| (*room, Owner::Passage(leg.run))));
        picture.passages[leg.run].push(PassageRoom {
            number,
            place: leg.at(passage.at),
            rooms: passage.rooms,
        });
        let tag = tags::plane(run.id);
        under.push(
            Group::tagged(tag.role, tag.key)
                .on(layers::BUILDING)
                .label("penetration")
                .with(passage.group),
        );
    }
    crossings::join(gaps);
    let tag = tags::line(run.id);
    let mut group = Group::tagged(tag.role, tag.key)
        .on(layers::pipe(run.state))
        .label(format!("run {}", run.id));
    let mut marks = Group::new().on(layers::MARKS);
    let mark = Owner::Mark(leg.run);
    if let Some((number, at)) = picture.numbers.on.get(leg.run).copied().flatten() {
        let (hexagon, room) = section_numbers::hexagon(leg.at(at), number);
        marks.push(hexagon);
        picture.rooms.push((room, mark));
        picture.used.insert(Symbol::SectionNumber);
        let half = section_numbers::half_width(number) + 0.4;
        taken.take(at - half, at + half);
    }
    if !picture.is_arranged && is_broken(layout, run) && layout.holds_share(leg.run, 0.5) {
        let half = marks::BREAK + 0.8;
        if let Some(at) = taken.find(leg, leg.length * 0.5, half) {
            let (strokes, room) = marks::strokes(leg.at(at), leg.along);
            marks.push(strokes);
            picture.rooms.push((room, mark));
            picture.used.insert(Symbol::Break);
            taken.take(at - half, at + half);
            gaps.push((at - marks::BREAK, at + marks::BREAK));
            crossings::join(gaps);
        }
    }
    let look = Look::of(run, layout.job.material(run).bends());
    let clear = (ends.0.max(1.2) + 0.3, leg.length - ends.1.max(1.2) - 0.3);
    // On tubing an arrow stands on a straight end.
    let wishes = match lines::stubs(clear).filter(|_| look.wavy) {
        Some(stubs) => stubs.map(|(from, to)| Some((from + to) / 2.0)),
        None => [(!look.wavy).then_some(leg.length * 0.62), None],
    };
    let half = marks::ARROW / 2.0 + 0.4;
    let is_near = |at: &f64, wish: f64| !look.wavy || (at - wish).abs() < 0.6;
    let place = |wish: f64| taken.find(leg, wish, half).filter(|at| is_near(at, wish));
    if has_arrow && let Some(at) = wishes.into_iter().flatten().find_map(place) {
        let (arrow, room) = marks::arrow(leg.at(at), leg.along);
        marks.push(arrow);
        picture.rooms.push((room, mark));
        picture.used.insert(Symbol::Flow);
    }
    look.draw(
        &mut group,
        leg.line.a,
        leg.along,
        &lines::pieces(leg.length, gaps),
        clear,
    );
    group.push(marks);
    picture.rooms.push((room(leg, &look), Owner::Pipe(leg.run)));
    note_line(run, look.wavy, &mut picture.used);
    group
}

/// Whether the run is at least twice as long as it is drawn.
fn is_broken(layout: &Layout<'_>, run: &Run) -> bool {
    let drawn = layout.job.drawn_length(run).inches();
    drawn > 0.0 && layout.job.true_length(run).inches() >= 2.0 * drawn
}

/// The strip of paper that a line and its marks take.
fn room(leg: &Leg, look: &Look) -> Quad {
    let (half, below) = look.reach();
    let side = lines::below(leg.along);
    let (up, down) = (side * -half, side * below);
    let end = leg.along * (look.stroke.width.mm() / 2.0);
    let Segment { a, b } = leg.line;
    Quad([a - end + up, b + end + up, b + end + down, a - end + down])
}

fn note_line(run: &Run, wavy: bool, used: &mut SymbolSet) {
    used.insert(match run.state {
        State::New => Symbol::NewPipe,
        State::Existing => Symbol::ExistingPipe,
        State::Removed if run.salvaged => Symbol::SalvagedPipe,
        State::Removed => Symbol::RemovedPipe,
    });
    if wavy {
        used.insert(Symbol::Csst);
    }
    if run.state != State::Removed {
        match run.surroundings {
            Surroundings::Indoors => {}
            Surroundings::Concealed => used.insert(Symbol::ConcealedPipe),
            Surroundings::Outdoors => used.insert(Symbol::OutdoorPipe),
            Surroundings::Underground => used.insert(Symbol::BuriedPipe),
        }
    }
}
