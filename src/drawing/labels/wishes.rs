//! Everything that wants to be written on the drawing, and where each belongs.

use super::spots::{Home, LevelPlace};
use super::typical::{self, Says, Typical};
use super::{joint_words, levels, passage_words, run_words, stretch};
use crate::drawing::block::{Block, Lead, Line, wrap};
use crate::drawing::joints;
use crate::drawing::layout::Layout;
use crate::drawing::lines::Look;
use crate::drawing::picture::{Owner, Picture};
use crate::drawing::tags::Subject;
use crate::drawing::used::{Symbol, SymbolSet};
use crate::drawing::{AS_DRAWN, Lettering, OtherWords, Said};
use crate::job::{Device, WordsAt};
use crate::scene::{Point, Quad, Rect, Segment, Vector};
use crate::units::{Length, Show};

/// A straight run that may be part of a header.
#[derive(Clone, Debug)]
pub struct Span {
    /// Its size with what else is said of it.
    pub size: String,
    /// Its true length.
    pub length: Length,
}

/// A label that wants a place.
pub struct Wish {
    /// What it speaks of.
    pub subject: Subject,
    /// Its words.
    pub block: Block,
    /// The same in short, for where they find no place.
    pub short: Option<Block>,
    /// Where it belongs.
    pub home: Home,
    /// Pipe that its leader may touch.
    pub runs: Vec<usize>,
    /// The joints between the ticks of whose fittings its leader may begin, each with its place.
    pub ticks_at: Vec<(usize, Point)>,
    /// From where it is put where a person puts it: the middle of a run, a joint, the place of a passage.
    pub anchor: Point,
    /// Where a person put it.
    pub words_at: Option<WordsAt>,
    /// When it gets its place.
    pub turn: Turn,
    /// What a header would say of it.
    pub span: Option<Span>,
    /// Whether a reader asks for it first: an appliance, the point of delivery, a tie-in.
    pub is_key: bool,
}

/// When a label gets its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// With most.
    First,
    /// Once these have theirs.
    Last,
}

impl Wish {
    /// Where a person put its middle.
    pub fn put(&self) -> Option<Point> {
        let at = self.words_at?;
        Some(self.anchor + Vector::new(at.right_mm(), at.down_mm()))
    }
}

/// Along level pipe that is drawn longer than this an elevation may stand between its joints, mm.
const LEVEL_ALONG: f64 = 14.0;
/// Letters on a line of a note at most.
const NOTE: usize = 36;
/// The same of a penetration.
const PASSAGE: usize = 34;
/// Letters on a line of either where it finds no place else.
const NARROW: usize = 20;

/// All labels of a drawing: joints first, then penetrations, notes and runs.
///
/// What a typical drop says for others is gathered in `spoken_for`.
pub fn all(
    layout: &Layout<'_>,
    picture: &Picture,
    lettering: Lettering<'_>,
    used: &mut SymbolSet,
    spoken_for: &mut Vec<(Subject, String)>,
) -> Vec<Wish> {
    let rooms = symbols(layout, picture);
    let mut wishes = Vec::new();
    let typical = typical::find(layout);
    at_joints(layout, &rooms, &typical, spoken_for, &mut wishes);
    levels(layout, &rooms, used, &mut wishes);
    passages(layout, picture, &mut wishes);
    notes(layout, &rooms, &mut wishes);
    runs(layout, &rooms, lettering, (&typical, spoken_for), &mut wishes);
    sections(layout, picture, &rooms, used, &mut wishes);
    wishes
}

/// Labels of somebody else: those along pipe get their places before those at joints. Places that a person gave to other
/// words are not theirs.
pub fn other(layout: &Layout<'_>, picture: &Picture, words: &OtherWords) -> Vec<Wish> {
    let rooms = symbols(layout, picture);
    let is_written = |(_, said): &(usize, &Said)| !said.words.is_empty();
    let joints = words.joints.iter().enumerate().take(layout.places.len());
    let joints = joints.filter(|(joint, _)| layout.has(*joint));
    let joints = joints.filter(is_written).map(|(joint, said)| Wish {
        subject: Subject::Joint(joint),
        block: Block::new(vec![Line::plain(&said.words)]),
        short: short(said, |words| Block::new(vec![Line::plain(words)])),
        home: around(layout, joint, &rooms),
        runs: layout.legs_at(joint).map(|leg| leg.run).collect(),
        ticks_at: vec![(joint, layout.places[joint])],
        anchor: layout.places[joint],
        words_at: None,
        turn: Turn::Last,
        span: None,
        is_key: false,
    });
    let runs = words.runs.iter().enumerate().filter(is_written);
    let runs = runs.filter_map(|(run, said)| {
        let leg = layout.legs.get(run)?.as_ref()?;
        let whole = layout.whole().legs.get(run)?.as_ref()?;
        if !layout.says(whole.line) {
            return None;
        }
        Some(Wish {
            subject: Subject::Run(run),
            block: Block::along_pipe(said.words.clone()),
            short: short(said, Block::along_pipe),
            home: along(layout, &rooms, run, leg.line),
            runs: vec![run],
            ticks_at: Vec::new(),
            anchor: leg.line.at(0.5),
            words_at: None,
            turn: Turn::First,
            span: None,
            is_key: false,
        })
    });
    joints.chain(runs).collect()
}

fn short(said: &Said, block: impl Fn(String) -> Block) -> Option<Block> {
    (!said.short.is_empty()).then(|| block(said.short.clone()))
}

/// What is drawn at each joint.
fn symbols(layout: &Layout<'_>, picture: &Picture) -> Vec<Vec<Quad>> {
    let mut rooms = vec![Vec::new(); layout.places.len()];
    for (room, owner) in &picture.rooms {
        if let Owner::Symbol(joint) = owner {
            rooms[*joint].push(*room);
        }
    }
    rooms
}

/// Along a run and those in line with it.
fn along(layout: &Layout<'_>, rooms: &[Vec<Quad>], run: usize, line: Segment) -> Home {
    let it = layout.job.runs.at(run);
    let (half, below) = Look::of(it, layout.job.material(it).bends()).reach();
    let ends = layout.legs[run].iter().flat_map(|leg| [leg.from, leg.to]);
    Home::Along {
        line,
        half,
        below,
        ends: ends.flat_map(|joint| rooms[joint].iter().copied()).collect(),
    }
}

fn at_joints(
    layout: &Layout<'_>,
    rooms: &[Vec<Quad>],
    typical: &Typical,
    spoken_for: &mut Vec<(Subject, String)>,
    wishes: &mut Vec<Wish>,
) {
    let mut outlets = vec![None; layout.places.len()];
    for outlet in &layout.study.outlets {
        if let Some(slot) = outlets.get_mut(outlet.joint) {
            *slot = Some(outlet);
        }
    }
    for joint in (0..layout.places.len()).filter(|joint| layout.has(*joint)) {
        let mut lines = joint_words::lines(layout, joint, outlets[joint]);
        match typical.joint(joint) {
            Some(Says::Nothing) if !lines.is_empty() => {
                spoken_for.push((Subject::Joint(joint), Block::new(lines).text()));
                continue;
            }
            Some(Says::ForAll(group)) => {
                if let Some(line) = lines.first_mut() {
                    line.words += typical.members(group);
                }
            }
            Some(Says::OwnOnly | Says::Nothing) | None => {}
        }
        if !lines.is_empty() {
            let it = layout.job.joints.at(joint);
            let is_led = lines
                .iter()
                .any(|line| matches!(line.lead, Lead::Letter(_) | Lead::Flag));
            // What the only label of a typical drop says for others stays whole.
            let is_own = typical.joint(joint).is_none() && layout.tie_ins[joint].is_none();
            let short = joint_words::in_short(layout, joint, outlets[joint]).filter(|_| is_own);
            wishes.push(Wish {
                subject: Subject::Joint(joint),
                block: Block::new(lines),
                short: short.map(Block::new),
                home: around(layout, joint, rooms),
                runs: layout.legs_at(joint).map(|leg| leg.run).collect(),
                ticks_at: vec![(joint, layout.places[joint])],
                anchor: layout.places[joint],
                words_at: it.words_at,
                turn: Turn::First,
                span: None,
                is_key: is_led
                    || matches!(
                        it.device(),
                        Some(Device::Supply(_) | Device::Meter(_) | Device::Regulator(_))
                    ),
            });
        }
    }
}

/// Elevations, each on a short level line from pipe at that height.
fn levels(layout: &Layout<'_>, rooms: &[Vec<Quad>], used: &mut SymbolSet, wishes: &mut Vec<Wish>) {
    for level in levels::levels(layout.whole()) {
        let Some(&first) = level.joints.first().filter(|joint| layout.has(**joint)) else {
            continue;
        };
        used.insert(Symbol::Elevation);
        let here = level.joints.iter().copied().filter(|joint| layout.has(*joint));
        let here: Vec<usize> = here.collect();
        let joints = here.iter().map(|joint| LevelPlace {
            at: layout.places[*joint],
            rooms: rooms[*joint].clone(),
            is_bare: joints::is_bare(layout, *joint),
        });
        let legs = || here.iter().flat_map(|joint| layout.legs_at(*joint));
        let along = legs().filter(|leg| leg.way.up == 0 && leg.length > LEVEL_ALONG);
        let along = along.flat_map(|leg| [0.5, 0.3, 0.7].map(|share| leg.line.at(share)));
        let along = along.map(|at| LevelPlace {
            at,
            rooms: Vec::new(),
            is_bare: true,
        });
        wishes.push(Wish {
            subject: Subject::Level(first),
            block: Block::new(vec![Line {
                lead: Lead::Level,
                words: level.elevation.show_elevation(layout.job.settings.units),
            }]),
            short: None,
            home: Home::Level {
                places: joints.chain(along).collect(),
            },
            runs: layout.legs_at(first).map(|leg| leg.run).collect(),
            anchor: layout.places[first],
            words_at: None,
            turn: Turn::First,
            span: None,
            is_key: false,
            ticks_at: here.iter().map(|joint| (*joint, layout.places[*joint])).collect(),
        });
    }
}

fn around(layout: &Layout<'_>, joint: usize, rooms: &[Vec<Quad>]) -> Home {
    let place = layout.places[joint];
    let mut rooms = rooms[joint].clone();
    rooms.push(Quad(Rect::sized(place, 0.0, 0.0).grown(0.4).corners()));
    let is_bare = joints::is_bare(layout, joint);
    Home::Around {
        place,
        rooms,
        is_bare,
        pipe: layout.legs_at(joint).map(|leg| leg.away_from(joint)).collect(),
    }
}

fn passages(layout: &Layout<'_>, picture: &Picture, wishes: &mut Vec<Wish>) {
    let mut before = 0;
    for (run, passages) in picture.passages.iter().enumerate() {
        let penetrations = &layout.job.runs.at(run).penetrations;
        for passage in passages {
            let penetration = &penetrations[passage.number];
            let words = |most| passage_words::lines(penetration, layout.job.settings.units, most);
            wishes.push(Wish {
                subject: Subject::Passage(before + passage.number),
                block: Block::new(words(PASSAGE)),
                short: Some(Block::new(words(NARROW))),
                home: Home::Around {
                    place: passage.place,
                    rooms: passage.rooms.clone(),
                    is_bare: false,
                    pipe: layout.legs[run]
                        .iter()
                        .flat_map(|leg| [leg.along, -leg.along])
                        .collect(),
                },
                runs: vec![run],
                ticks_at: Vec::new(),
                anchor: passage.place,
                words_at: penetration.words_at,
                turn: Turn::First,
                span: None,
                is_key: false,
            });
        }
        before += penetrations.len();
    }
}

fn notes(layout: &Layout<'_>, rooms: &[Vec<Quad>], wishes: &mut Vec<Wish>) {
    for (number, note) in layout.job.notes.iter().enumerate() {
        let joint = layout.job.joints.position(note.at);
        let Some(joint) = joint.filter(|joint| layout.has(*joint)) else {
            continue;
        };
        let lines: Vec<Line> = wrap(&note.text, NOTE);
        if !lines.is_empty() {
            wishes.push(Wish {
                subject: Subject::Note(number),
                block: Block::new(lines),
                short: Some(Block::new(wrap(&note.text, NARROW))),
                home: around(layout, joint, rooms),
                runs: layout.legs_at(joint).map(|leg| leg.run).collect(),
                ticks_at: vec![(joint, layout.places[joint])],
                anchor: layout.places[joint],
                words_at: note.words_at,
                turn: Turn::First,
                span: None,
                is_key: false,
            });
        }
    }
}

/// Numbers of sections whose pipe has no room to bear them.
fn sections(layout: &Layout<'_>, picture: &Picture, rooms: &[Vec<Quad>], used: &mut SymbolSet, wishes: &mut Vec<Wish>) {
    for &(at, run) in &picture.numbers.beside {
        let section = &layout.study.sections[at];
        let whole = layout.whole().legs[run].as_ref().map(|leg| leg.line);
        let Some(leg) = layout.legs[run]
            .as_ref()
            .filter(|_| whole.is_some_and(|line| layout.says(line)))
        else {
            continue;
        };
        used.insert(Symbol::SectionNumber);
        wishes.push(Wish {
            subject: Subject::Section(at),
            block: Block::section(section.number),
            short: None,
            home: along(layout, rooms, run, leg.line),
            runs: vec![run],
            ticks_at: Vec::new(),
            anchor: leg.line.at(0.5),
            words_at: None,
            turn: Turn::First,
            span: None,
            is_key: false,
        });
    }
}

fn runs(
    layout: &Layout<'_>,
    rooms: &[Vec<Quad>],
    lettering: Lettering<'_>,
    (typical, spoken_for): (&Typical, &mut Vec<(Subject, String)>),
    wishes: &mut Vec<Wish>,
) {
    let whole = layout.whole();
    // The side that is kept is marked where new pipe is tied into it.
    let is_kept_side = |run: &usize| {
        let mut ends = whole.legs[*run].iter().flat_map(|leg| [leg.from, leg.to]);
        ends.any(|joint| layout.tie_ins[joint].is_some())
    };
    for stretch in stretch::stretches(whole) {
        let is_kept = stretch.runs.iter().any(is_kept_side);
        let is_drawn = |run: &usize| layout.job.runs.at(*run).given_length().is_none();
        let mut length = stretch.length.show(layout.job.settings.units);
        if lettering == Lettering::OnScreen && stretch.runs.iter().any(is_drawn) {
            length.insert(0, AS_DRAWN);
        }
        let words = run_words::words(layout, stretch.run, &length, is_kept);
        // Words that a person put somewhere stay with the run for which they were put.
        let is_put = |run: &&usize| layout.job.runs.at(**run).words_at.is_some();
        let holder = [stretch.run];
        let holder = *holder.iter().chain(&stretch.runs).find(is_put).unwrap_or(&stretch.run);
        let words_at = layout.job.runs.at(holder).words_at;
        let middle = whole.legs[holder]
            .as_ref()
            .map_or(stretch.line.at(0.5), |leg| leg.line.at(0.5));
        let anchor = layout.of_whole(middle);
        let line = [stretch.line.a, stretch.line.b].map(|end| layout.of_whole(end));
        let line = Segment::new(line[0], line[1]);
        let stands_here = match words_at {
            Some(_) => layout.holds(middle),
            None => layout.says(stretch.line),
        };
        let Some(line) = layout.seen(line).filter(|_| stands_here) else {
            continue;
        };
        let says = typical.run(stretch.run);
        if says == Some(Says::Nothing) {
            spoken_for.push((Subject::Run(holder), Block::of_pipe(words.size, words.length).text()));
            continue;
        }
        let may_span = says.is_none() && words_at.is_none() && words.is_plain && !layout.legs_cut(&stretch.runs);
        let span = may_span.then(|| Span {
            size: words.size.clone(),
            length: stretch.length,
        });
        wishes.push(Wish {
            subject: Subject::Run(holder),
            block: match says {
                None => Block::of_pipe(words.size, words.length),
                Some(Says::OwnOnly | Says::Nothing) => Block::along_pipe(words.size),
                Some(Says::ForAll(group)) => Block::of_pipe(words.size, words.length + typical.members(group)),
            },
            span,
            is_key: false,
            short: None,
            home: along(layout, rooms, stretch.run, line),
            anchor,
            words_at,
            turn: Turn::First,
            runs: stretch.runs,
            ticks_at: Vec::new(),
        });
    }
}
