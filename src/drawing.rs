//! What a job and its study look like: the isometric drawing in paper millimetres.
//!
//! [`isometric`] draws pipe, symbols and words into a given area; the sheet around it is made elsewhere. Words never
//! touch other words, pipe or symbols: what finds no place beside its subject is led to by a thin line, what finds none
//! there becomes a numbered point whose words stand in a table, and what finds not even that is counted as crowding. A
//! drawing too dense for its paper can be drawn in [`Parts`].
//! The same input gives the same scene. [`tags`] tells how parts are found again.

mod asked;
mod block;
mod clouds;
mod compass;
mod crossings;
mod joints;
mod key_plan;
mod labels;
pub mod layers;
mod layout;
mod legend;
mod lines;
mod marks;
mod match_lines;
mod parts;
mod passages;
mod picture;
mod planes;
mod section_numbers;
pub mod strokes;
mod symbols;
pub mod tags;
mod used;
pub(crate) mod words;

pub use crate::projection::{Projection, nearness};
pub use asked::{Asked, Blank};
pub use legend::{SAMPLE_HEIGHT, SAMPLE_WIDTH, legend_sample};
pub use parts::{First, Match, Part, Parts};
pub use used::{Symbol, SymbolSet};

use crate::changes::Changes;
use crate::job::{Job, LatticePoint};
use crate::scene::{Group, Point, Rect, Vector};
use crate::study::Study;
use clouds::Clouds;
use labels::Beside;
use layout::{Layout, Leg};
use parts::Spot;
use picture::Owner;
use std::borrow::Cow;
use tags::Subject;

/// A lattice step is never drawn longer than this, mm.
pub const LARGEST_STEP: f64 = 12.0;

/// Room for words around a drawing whose scale is fixed, mm.
const WIDE: f64 = 80.0;

/// How a drawing is made.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Options<'a> {
    /// How large it is drawn.
    pub scale: Scale,
    /// Which words are on it.
    pub lettering: Lettering<'a>,
    /// What changed since the issue that it is compared with: clouds stand around it.
    pub since: Option<&'a Changes>,
    /// Whether what is to be removed is drawn.
    pub gone: Gone,
    /// Which part of it is drawn, at a scale that fits; `None` for the whole.
    pub part: Option<Part<'a>>,
    /// What becomes of words that find no place.
    pub homeless: Homeless,
    /// Where the axes with north are.
    pub compass: Compass,
    /// Whether drawn lengths were arranged so that the drawing can be read, so that none tells a true length.
    pub is_arranged: bool,
    /// What is asked in place of being said.
    pub asked: Asked,
}

/// Where the axes of a drawing are. Their room is kept free in either case, so that words stand alike.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Compass {
    /// Among what is drawn, with the scale and the zero of elevations.
    #[default]
    Drawn,
    /// The axes alone, apart from what is drawn: [`Isometric::compass`].
    Apart,
}

/// What becomes of words that find no place on a drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Homeless {
    /// They become numbered points, counted after so many that stand elsewhere.
    Numbered {
        /// How many.
        after: usize,
    },
    /// They are left out: they stand on another sheet.
    LeftOut,
}

impl Default for Homeless {
    fn default() -> Self {
        Homeless::Numbered { after: 0 }
    }
}

/// Whether what is to be removed is drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Gone {
    /// It is still there, to be taken out.
    #[default]
    Drawn,
    /// It was taken out.
    LeftOut,
}

/// How large a drawing is and where it lies.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Scale {
    /// As large as the area allows, with margins for words, and in its middle.
    #[default]
    Fit,
    /// As told, whatever the area: a drawing that stays in place while it is worked on.
    Fixed(Projection),
}

/// Which words are on a drawing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Lettering<'a> {
    /// All.
    #[default]
    All,
    /// All, as on the screen: a length that follows from the drawing, and was never typed, has [`AS_DRAWN`] before it.
    OnScreen,
    /// Those of somebody else instead.
    Other(&'a OtherWords),
    /// None: pipe and symbols only.
    Nothing,
}

/// Before a length on the screen that nobody typed: it is as drawn.
pub const AS_DRAWN: char = '~';

/// Words that stand on a drawing instead of its own.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct OtherWords {
    /// Those along runs, by position in `job.runs`.
    pub runs: Vec<Said>,
    /// Those at joints, by position in `job.joints`.
    pub joints: Vec<Said>,
}

/// What is said of a part; where `words` are empty, nothing.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Said {
    /// All of it.
    pub words: String,
    /// The same in short, for a place where the whole finds no room; empty for none.
    pub short: String,
}

/// A finished drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Isometric {
    /// Everything drawn.
    pub group: Group,
    /// The kinds of lines, symbols and marks that occur.
    pub used: SymbolSet,
    /// Where each label stands that found a place.
    pub lettered: Vec<Lettered>,
    /// For each change since the issue the numbers of the clouds that it is in.
    pub clouded: Vec<Vec<usize>>,
    /// Labels that stand as a number on the drawing; their words belong in a table.
    pub numbered: Vec<NumberedPoint>,
    /// How many of what a reader asks for first lack their words: appliances, the point of delivery, tie-ins.
    pub demoted: usize,
    /// From the lattice to paper; its step is the scale.
    pub projection: Projection,
    /// Whether everything found a place.
    pub crowding: Crowding,
    /// How long places were looked for, in tests of one thing against another: the same on every machine.
    pub effort: usize,
    /// Whether that was ended before every place was tried: the drawing is far too dense for its paper.
    pub gave_up: bool,
    /// The box around all ink; `None` for an empty drawing.
    pub bounds: Option<Rect>,
    /// The axes with north, where they are asked for apart and have room.
    pub compass: Option<Group>,
}

/// Where a label stands on the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lettered {
    /// What it speaks of.
    pub subject: Subject,
    /// The box around its words.
    pub room: Rect,
    /// From where its place is counted when a person puts it somewhere: see [`crate::job::WordsAt`].
    pub anchor: Point,
}

/// A label that stands in a table, under its number on the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct NumberedPoint {
    /// The number on the drawing, from 1.
    pub number: usize,
    /// What it speaks of.
    pub subject: Subject,
    /// What the label would say.
    pub text: String,
}

/// Whether a drawing has room on its paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Crowding {
    /// Every label has a place, beside its subject or as a numbered point.
    Fits,
    /// Some labels found no place at all: the drawing needs larger paper or more sheets.
    TooDense {
        /// How many labels found none.
        left_out: usize,
    },
}

/// Draws a job and its study into an area of paper.
pub fn isometric(job: &Job, study: &Study, area: Rect, options: Options<'_>) -> Isometric {
    let area = sound(area);
    let projection = match (options.scale, options.part) {
        (Scale::Fixed(projection), _) => projection,
        (Scale::Fit, Some(part)) => part.projection(area, margins(area)),
        (Scale::Fit, None) => fit(job, area, options.since),
    };
    let standing = match options.gone {
        Gone::Drawn => Cow::Borrowed(job),
        Gone::LeftOut => Cow::Owned(layout::standing(job)),
    };
    let layout = match options.part {
        None => Layout::new(&standing, study, projection, options.gone).asking(options.asked),
        Some(part) => {
            let agreed = Projection {
                step: part.of.step(),
                ..Projection::UNIT
            };
            let whole = Layout::new(&standing, study, agreed, options.gone).asking(options.asked);
            Layout::part(whole, part, projection, area)
        }
    };
    let with_numbers = matches!(options.lettering, Lettering::All | Lettering::OnScreen);
    let mut picture = picture::draw(&layout, with_numbers, options.is_arranged);
    if let Some(part) = options.part {
        let (lines, rooms) = match_lines::draw(part, area, &projection, &picture.rooms);
        picture.group.push(lines);
        picture.rooms.extend(rooms.into_iter().map(|room| (room, Owner::Sheet)));
    }
    let paper = options.part.map(|_| area);
    let clouds = options
        .since
        .map_or_else(Clouds::default, |since| Clouds::around(since, &layout, paper));
    if !clouds.all.is_empty() {
        picture.group.push(clouds.draw());
        picture.used.insert(Symbol::Cloud);
    }
    let area = match options.scale {
        Scale::Fit => options.part.map_or(area, |part| part.words_area(area, &projection)),
        Scale::Fixed(_) => picture
            .group
            .bounds()
            .map_or(area, |bounds| area.union(bounds.grown(WIDE))),
    };
    let mut effort = 0;
    let mut draw = |beside| {
        let labels = labels::draw(&layout, &picture, &clouds, area, options, beside);
        effort += labels.effort.0;
        labels
    };
    let mut labels = draw(Beside::All);
    let lacks = |labels: &labels::Labels| (labels.left_out, labels.numbered.len());
    if options.part.is_some() && lacks(&labels) > (0, 0) {
        // Better words than a key plan.
        let bare = draw(Beside::Clouds);
        if lacks(&bare) < lacks(&labels) {
            labels = bare;
        }
    }
    if labels.left_out > 0 && !clouds.all.is_empty() {
        // Better words over the line of a cloud than no words.
        let over = draw(Beside::OverClouds);
        if over.left_out < labels.left_out {
            labels = over;
        }
    }
    let used = labels.used;
    let group = Group::new().with(picture.group).with(labels.group);
    Isometric {
        bounds: group.bounds(),
        group,
        used,
        lettered: labels.lettered,
        clouded: clouds.of,
        numbered: labels.numbered,
        demoted: labels.demoted,
        compass: labels.compass,
        effort,
        gave_up: labels.effort.1,
        projection,
        crowding: match labels.left_out {
            0 => Crowding::Fits,
            left_out => Crowding::TooDense { left_out },
        },
    }
}

/// The first of some areas, in the order given, on which every label finds a place; `None` where none does.
pub fn first_that_fits(job: &Job, study: &Study, areas: &[Rect], options: Options<'_>) -> Option<usize> {
    areas
        .iter()
        .position(|area| isometric(job, study, *area, options).crowding == Crowding::Fits)
}

/// A drawing as one part, to be split: with `step`, the scale of the whole, at which words of runs in line are joined.
pub fn in_one_part(job: &Job, study: &Study, options: Options<'_>, step: f64, first: First) -> Parts {
    let standing = match options.gone {
        Gone::Drawn => Cow::Borrowed(job),
        Gone::LeftOut => Cow::Owned(layout::standing(job)),
    };
    let layout = Layout::new(&standing, study, Projection::UNIT, options.gone);
    let spot = |at, reach| Spot { at, reach };
    let joints = layout
        .places
        .iter()
        .zip(&job.joints)
        .map(|(at, joint)| spot(*at, joints::around(joint)));
    let legs = layout.legs.iter().flatten();
    let passages = legs.clone().flat_map(|leg| {
        let passages = job.runs.at(leg.run).penetrations.iter();
        passages.map(|passage| spot(leg.line.at(passages::share(job, leg, passage)), passages::AROUND))
    });
    let changed = changed(options.since).map(|at| spot(Projection::UNIT.point(at), 0.1));
    let is_drop = |leg: &Leg| {
        let section = study.runs.get(leg.run).and_then(|run| study.sections.get(run.section?));
        section.is_some_and(|section| section.serves.len() == 1)
    };
    Parts::one(
        joints.chain(passages).chain(changed).collect(),
        legs.map(|leg| (leg.line, is_drop(leg))).collect(),
        step,
        first,
    )
}

/// The room for words at the sides of an area, and above and below, mm.
fn margins(area: Rect) -> Vector {
    let margin = |mm: f64, most: f64| (mm * 0.14).min(most);
    Vector::new(margin(area.width(), 34.0), margin(area.height(), 20.0))
}

/// What stood there at the issue with which a drawing is compared.
fn changed(since: Option<&Changes>) -> impl Iterator<Item = LatticePoint> + '_ {
    let changes = since.into_iter().flat_map(|since| &since.list);
    changes.flat_map(|change| change.spots.iter().flat_map(|spot| spot.places()))
}

/// The projection that leaves room for words around the drawing.
fn fit(job: &Job, area: Rect, since: Option<&Changes>) -> Projection {
    let Vector { x, y } = margins(area);
    let inner = Rect::new(
        Point::new(area.min.x + x, area.min.y + y),
        Point::new(area.max.x - x, area.max.y - y),
    );
    let planes = job.runs.iter().filter_map(|run| {
        let ends = job.joints.get(run.from).zip(job.joints.get(run.to));
        ends.map(|(from, to)| planes::corners(from.at, to.at - from.at))
    });
    let joints = job.joints.iter().map(|joint| joint.at);
    let places = joints.chain(planes.flatten()).chain(changed(since));
    Projection::fit(places, inner, LARGEST_STEP)
}

/// An area of paper that can be drawn on, whatever was given.
fn sound(area: Rect) -> Rect {
    let is_sound = area.min.is_drawable() && area.max.is_drawable() && area.width() >= 1.0 && area.height() >= 1.0;
    if is_sound {
        area
    } else {
        Rect::sized(Point::default(), 250.0, 180.0)
    }
}
