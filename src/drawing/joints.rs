//! What stands at joints: devices, turned and scaled to the room there is, and the ticks, flares and dots of fittings.

use super::layout::{Layout, Leg, frame, turned};
use super::symbols::{self, CUBE, CubeFace, Shape};
use super::used::{Stance, Symbol, SymbolSet};
use super::{layers, tags};
use crate::fittings::{Fitting, FittingKind, PortKind, Takes};
use crate::job::{Axis, Device, Direction, Joint, Placed, State, Vent};
use crate::projection::axis;
use crate::scene::{Affine, Group, Ink, Outline, PathItem, Pen, Point, Quad, Segment, Stroke, Tag, Vector};

/// Distance of a tick from its joint, mm.
const TICK_AT: f64 = 1.6;
/// Half the length of a tick, mm.
const TICK: f64 = 1.2;
/// How far from its joint the middle of what is put on the end of plastic pipe is drawn, mm.
const BESIDE: f64 = 4.4;
/// How far it reaches from its middle, mm.
const ON_END: f64 = 2.7;
/// Radius of the dot of a permanent joint, mm.
const DOT: f64 = 1.0;
/// Radius of the ring around a tie-in, mm.
const TIE_IN: f64 = 3.0;

/// What is drawn at one joint.
#[derive(Clone, Debug, Default)]
pub struct AtJoint {
    /// Drawn before the pipe.
    pub under: Option<Group>,
    /// Drawn after the pipe.
    pub over: Option<Group>,
    /// The room that it keeps free of words.
    pub rooms: Vec<Quad>,
    /// How far from the joint it reaches along the pipe, mm.
    pub reach: f64,
    /// The runs on whose end something more is put, and how far from the joint that reaches, mm.
    pub on_ends: Vec<(usize, f64)>,
}

/// Draws what stands at a joint.
pub fn draw(layout: &Layout<'_>, joint: usize, letter: &str, used: &mut SymbolSet) -> AtJoint {
    let mut drawn = AtJoint::default();
    let it = layout.job.joints.at(joint);
    let tag = tags::symbol(it.id);
    let words = it.placed.as_ref().map_or("fitting", |placed| placed.device.name());
    let own = state(layout, joint);
    let mut over = group(tag, own, words);
    ticks(layout, joint, &mut over, &mut drawn, used);
    if let Some(placed) = &it.placed
        && let Some((mut shape, at, is_under)) = device(layout, joint, placed, letter, used)
    {
        if placed.state == State::Removed {
            strike(&mut shape);
        }
        let (symbol, room) = shape.place(at);
        drawn.rooms.push(room);
        drawn.reach = drawn.reach.max(reach(&placed.device) * room_scale(layout, joint));
        if is_under {
            drawn.under = Some(group(tag, own, words).with(symbol));
        } else {
            over.push(symbol);
        }
    }
    if layout.tie_ins[joint].is_some() {
        let place = layout.places[joint];
        let radius = TIE_IN.max(drawn.reach + 0.6);
        over.push(PathItem::stroked(
            Outline::circle(place, radius),
            Stroke::new(Pen::Wide),
        ));
        drawn.rooms.push(square(place, radius));
        drawn.reach = radius + 0.3;
        used.insert(Symbol::TieIn);
    }
    drawn.over = (!over.is_empty()).then_some(over);
    drawn
}

fn group(tag: Tag, state: State, words: &str) -> Group {
    Group::tagged(tag.role, tag.key).on(layers::symbols(state)).label(words)
}

/// Whether nothing but pipe stands at a joint, with ticks or a dot at most.
pub fn is_bare(layout: &Layout<'_>, joint: usize) -> bool {
    let has_symbol = |fitting: &Fitting| {
        matches!(
            fitting.kind,
            FittingKind::ReducingCoupling
                | FittingKind::TubingFitting
                | FittingKind::Adapter
                | FittingKind::Transition
                | FittingKind::Riser
        )
    };
    let here = layout.study.assemblies[joint].fittings.clone();
    layout.job.joints.at(joint).placed.is_none()
        && layout.tie_ins[joint].is_none()
        && !layout.study.fittings[here].iter().any(has_symbol)
}

/// The state of what stands at a joint: of the device there, else of the fitting.
fn state(layout: &Layout<'_>, joint: usize) -> State {
    match &layout.job.joints.at(joint).placed {
        Some(placed) => placed.state,
        None => fitting(layout, joint).map_or(State::New, |fitting| fitting.state),
    }
}

fn fitting<'a>(layout: &Layout<'a>, joint: usize) -> Option<&'a Fitting> {
    let at = layout.study.joints.get(joint)?.fitting?;
    layout.study.fittings.get(at)
}

/// How far around a joint what stands there may reach, mm.
pub fn around(joint: &Joint) -> f64 {
    match &joint.placed {
        Some(placed) => match placed.device {
            // The cube stands on its face, beside the joint.
            Device::Appliance(_) => CUBE * 1.6,
            _ => reach(&placed.device) + 3.0,
        },
        None => TICK_AT + 1.4,
    }
}

/// How far a device's symbol reaches along the pipe at full size, mm.
fn reach(device: &Device) -> f64 {
    Symbol::stance(device).1
}

/// The scale at which the symbol at a joint leaves its neighbours their room: 0.4 to 1.
fn room_scale(layout: &Layout<'_>, joint: usize) -> f64 {
    let Some(placed) = &layout.job.joints.at(joint).placed else {
        return 1.0;
    };
    let own = reach(&placed.device).max(TICK_AT);
    layout
        .legs_at(joint)
        .map(|leg| {
            let there = match &layout.job.joints.at(leg.other(joint)).placed {
                Some(neighbour) => reach(&neighbour.device).max(TICK_AT) + 0.6,
                None => TICK_AT + 1.0,
            };
            leg.length / (own + there)
        })
        .fold(1.0, f64::min)
        .max(0.4)
}

/// The symbol of a device, where it goes, and whether pipe is drawn over it.
fn device(
    layout: &Layout<'_>,
    joint: usize,
    placed: &Placed,
    letter: &str,
    used: &mut SymbolSet,
) -> Option<(Shape, Affine, bool)> {
    let place = layout.places[joint];
    let pen = symbols::pen(placed.state);
    let scale = room_scale(layout, joint);
    let plugged = is_plug(layout, joint, &placed.device);
    let symbol = if plugged {
        Symbol::Plug
    } else {
        Symbol::of(&placed.device)
    };
    used.insert(symbol);
    let way = run_through(layout, joint);
    let at = match Symbol::stance(&placed.device).0 {
        _ if plugged => turned(place, beside(layout, joint), scale),
        Stance::Upright => Affine::scale(scale).then(Affine::to(place)),
        Stance::Along => frame(place, way, scale),
        Stance::Straight => turned(place, way, scale),
        Stance::Hanging => turned(place, free(layout, joint, [DOWN, EAST, -NORTH, -EAST]), scale),
        Stance::Standing => {
            let up = free(layout, joint, [-DOWN, NORTH, EAST, DOWN]);
            Affine::frame(place, up.turned() * scale, up * -scale)
        }
        Stance::Cube => return Some(appliance(layout, joint, letter, pen, scale)),
    };
    let pipe = match placed.state {
        State::New => Pen::Heavy,
        State::Existing | State::Removed => Pen::Medium,
    };
    let shape = match &placed.device {
        Device::Regulator(regulator) if regulator.vent == Vent::Outdoors => symbols::bow_tie::vented(pen),
        _ => symbol.shape(pen, pipe)?,
    };
    Some((shape, at, false))
}

/// Whether a cap closes no end, but the outlet of a tee in a line.
fn is_plug(layout: &Layout<'_>, joint: usize, device: &Device) -> bool {
    let legs = layout.legs_at(joint);
    let live = legs.filter(|leg| layout.job.runs.at(leg.run).state != State::Removed);
    matches!(device, Device::Cap(_)) && live.count() > 1
}

/// The direction on paper of the outlet that a tee has for what stands beside a line: straight on where gas comes from
/// and turns, else to a side.
fn beside(layout: &Layout<'_>, joint: usize) -> Vector {
    let feed = layout.legs_at(joint).find(|leg| leg.flows && leg.to == joint);
    let on = feed
        .or(layout.legs_at(joint).next())
        .map_or(-DOWN, |leg| -leg.way_from(joint));
    free(layout, joint, [on, -DOWN, NORTH, EAST])
}

const EAST: Direction = Direction::new(1, 0, 0);
const NORTH: Direction = Direction::new(0, 1, 0);
const DOWN: Direction = Direction::new(0, 0, -1);

/// The direction on paper of the first of some ways that no pipe takes; of the first one where all are taken.
fn free(layout: &Layout<'_>, joint: usize, wishes: [Direction; 4]) -> Vector {
    let way = layout.free_way(joint, &wishes).unwrap_or(wishes[0]);
    layout.projection.vector(way).unit().unwrap_or_default()
}

/// The direction on paper in which gas passes a joint; east where no pipe meets it.
fn run_through(layout: &Layout<'_>, joint: usize) -> Vector {
    let leaving = |leg: &&Leg| leg.from == joint;
    let ending = |leg: &&Leg| leg.to == joint;
    let mut legs = layout.legs_at(joint).filter(|leg| leg.flows);
    match (legs.clone().find(ending), legs.find(leaving)) {
        (Some(feed), Some(next)) if layout.legs_at(joint).count() == 2 => {
            if feed.along.dot(next.along) > 0.95 {
                feed.along
            } else {
                next.along
            }
        }
        (Some(feed), _) => feed.along,
        (None, Some(next)) => next.along,
        (None, None) => layout
            .legs_at(joint)
            .next()
            .map_or(axis(Axis::East), |leg| -leg.away_from(joint)),
    }
}

/// The cube stands on the face that its pipe enters. Where that face is seen, the pipe is drawn over the cube.
fn appliance(layout: &Layout<'_>, joint: usize, letter: &str, pen: Pen, scale: f64) -> (Shape, Affine, bool) {
    let edge = CUBE * scale;
    let mut legs = layout.legs_at(joint);
    let entry = match (legs.next(), legs.next()) {
        (Some(leg), None) => Some((-leg.away_from(joint), -leg.way_from(joint))),
        _ => None,
    };
    let offset = entry.map_or(Vector::default(), |(along, _)| along * (edge / 2.0));
    let way = entry.map_or(Direction::default(), |(_, way)| way);
    let (is_square, sum) = (way.axis().is_some(), way.north - way.east - way.up);
    let is_seen = is_square && sum > 0;
    let face = if is_seen && way.north > 0 {
        CubeFace::East
    } else {
        CubeFace::South
    };
    let at = Affine::to(layout.places[joint] + offset);
    (symbols::cube(edge, letter, face, pen), at, is_seen)
}

fn strike(shape: &mut Shape) {
    let [a, b, c, d] = shape.room.corners();
    let mut cross = Outline::line(a, c);
    cross.extend(&Outline::line(b, d));
    shape.group.push(PathItem::stroked(cross, Stroke::new(Pen::Thin)));
}

/// Ticks on the legs of a threaded fitting, flares on those of a flared one, a dot at a brazed or fused one, nothing at a
/// bend; what leads from one kind of pipe to another by its symbol.
fn ticks(layout: &Layout<'_>, joint: usize, into: &mut Group, drawn: &mut AtJoint, used: &mut SymbolSet) {
    let Some(fitting) = fitting(layout, joint) else {
        return;
    };
    let own = state(layout, joint);
    let place = layout.places[joint];
    let pen = symbols::pen(fitting.state);
    let is_bare = layout.job.joints.at(joint).placed.is_none();
    plastic(layout, joint, into, drawn, used);
    let in_line = |symbol: Symbol, shape: Shape, into: &mut Group, drawn: &mut AtJoint, used: &mut SymbolSet| {
        if is_bare {
            let scale = leg_scale(layout, joint);
            used.insert(symbol);
            let (shape, room) = shape.place(frame(place, run_through(layout, joint), scale));
            into.push(shape);
            drawn.rooms.push(room);
            drawn.reach = drawn.reach.max(1.8 * scale);
        }
    };
    match fitting.kind {
        FittingKind::Bend
        | FittingKind::Cap
        | FittingKind::Plug
        | FittingKind::Nipple
        | FittingKind::Transition
        | FittingKind::Riser => return,
        FittingKind::ReducingCoupling => {
            in_line(Symbol::Reducer, symbols::fitting::reducer(pen), into, drawn, used);
            return;
        }
        FittingKind::TubingFitting | FittingKind::Adapter => {
            in_line(Symbol::Transition, symbols::fitting::transition(pen), into, drawn, used);
            return;
        }
        FittingKind::Elbow90
        | FittingKind::StreetElbow90
        | FittingKind::Elbow45
        | FittingKind::OddElbow(_)
        | FittingKind::Tee
        | FittingKind::SideOutletElbow
        | FittingKind::Cross
        | FittingKind::SideOutletTee
        | FittingKind::ManyWays(_)
        | FittingKind::Coupling
        | FittingKind::TrapNipple => {}
    }
    let made = |mark: JointMark| fitting.ports.iter().any(|port| JointMark::of(port.kind) == mark);
    if made(JointMark::Dot) {
        if is_bare {
            let radius = DOT * leg_scale(layout, joint);
            into.push(PathItem::filled(Outline::circle(place, radius), Ink::Black));
            drawn.rooms.push(square(place, radius));
            drawn.reach = drawn.reach.max(radius);
            used.insert(Symbol::Dot);
        }
        return;
    }
    let flared = made(JointMark::Flares);
    for leg in layout.legs_at(joint) {
        let run = layout.job.runs.at(leg.run);
        if run.state == State::Removed {
            continue;
        }
        let at = TICK_AT.min(leg.length * 0.25);
        let (middle, away) = (place + leg.away_from(joint) * at, leg.away_from(joint));
        let (tick, room) = match flared {
            true => flare(middle, away, at / TICK_AT, run.state),
            false => tick(middle, leg.along, at / TICK_AT, run.state),
        };
        if run.state == own {
            into.push(tick);
        } else {
            into.push(Group::new().on(layers::symbols(run.state)).with(tick));
        }
        drawn.rooms.push(room);
        drawn.reach = drawn.reach.max(at + if flared { 0.4 + TICK } else { 0.4 });
        used.insert(if flared { Symbol::Flare } else { Symbol::Tick });
    }
}

/// How the joints of a fitting are drawn.
#[derive(Clone, Copy, PartialEq)]
enum JointMark {
    /// A tick on each leg.
    Ticks,
    /// A dot: brazed or fused, for good.
    Dot,
    /// The flared end of tube on each leg.
    Flares,
}

impl JointMark {
    const fn of(kind: PortKind) -> JointMark {
        match kind {
            PortKind::Socket | PortKind::Tube | PortKind::Fusion | PortKind::Plastic => JointMark::Dot,
            PortKind::FlareEnd | PortKind::FlareNut => JointMark::Flares,
            PortKind::FemaleThread
            | PortKind::MaleThread
            | PortKind::TubingNut
            | PortKind::Tubing
            | PortKind::Connector => JointMark::Ticks,
        }
    }
}

/// Risers and transition fittings, each on the plastic pipe that it takes, beside the joint.
fn plastic(layout: &Layout<'_>, joint: usize, into: &mut Group, drawn: &mut AtJoint, used: &mut SymbolSet) {
    let here = layout.study.assemblies[joint].fittings.clone();
    for fitting in &layout.study.fittings[here] {
        let pen = symbols::pen(fitting.state);
        let (symbol, shape) = match fitting.kind {
            FittingKind::Riser => (Symbol::Riser, symbols::fitting::riser(pen)),
            FittingKind::Transition => (Symbol::Transition, symbols::fitting::transition(pen)),
            _ => continue,
        };
        let takes = |run: usize| fitting.ports.iter().any(|port| port.takes == Takes::Run(run));
        let Some(leg) = layout.legs_at(joint).find(|leg| takes(leg.run)) else {
            continue;
        };
        let scale = (leg.length / 9.0).clamp(0.4, 1.0);
        let at = layout.places[joint] + leg.away_from(joint) * (BESIDE * scale);
        let (shape, room) = shape.place(frame(at, -leg.away_from(joint), scale));
        into.push(shape);
        drawn.rooms.push(room);
        drawn.on_ends.push((leg.run, (BESIDE + ON_END) * scale));
        used.insert(symbol);
    }
}

fn leg_scale(layout: &Layout<'_>, joint: usize) -> f64 {
    let shortest = layout
        .legs_at(joint)
        .map(|leg| leg.length)
        .fold(f64::INFINITY, f64::min);
    (shortest / 5.0).clamp(0.4, 1.0)
}

fn square(middle: Point, half: f64) -> Quad {
    Quad(crate::scene::Rect::sized(middle, 0.0, 0.0).grown(half).corners())
}

/// The flared end of a tube: two strokes at 45° that open toward its joint; `away` leads along the pipe, away from that.
pub fn flare(at: Point, away: Vector, scale: f64, state: State) -> (PathItem, Quad) {
    let pen = if state == State::New { Pen::Medium } else { Pen::Thin };
    let half = TICK * scale.max(0.4);
    let (across, end) = (super::layout::across(away) * half, at + away * half);
    let mut strokes = Outline::line(at + across, end);
    strokes.extend(&Outline::line(end, at - across));
    let room = Quad::strip(Segment::new(at, end), 2.0 * half + pen.mm() + 0.1);
    (PathItem::stroked(strokes, Stroke::new(pen)), room)
}

/// One tick across a line.
pub fn tick(at: Point, along: Vector, scale: f64, state: State) -> (PathItem, Quad) {
    let pen = if state == State::New { Pen::Medium } else { Pen::Thin };
    let half = super::layout::across(along) * (TICK * scale.max(0.4));
    let line = Segment::new(at - half, at + half);
    let item = PathItem::stroked(Outline::line(line.a, line.b), Stroke::new(pen));
    (item, Quad::strip(line, pen.mm() + 0.1))
}
