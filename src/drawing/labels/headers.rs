//! Headers: several runs in one line of one size between tees. Their size is lettered once and their lengths stand as a
//! chain of dimensions with ticks at the tees; where all are alike, one total stands for them.

use super::placement::Placement;
use super::spots::dimension;
use super::wishes::{Span, Wish};
use crate::drawing::block::SIZES;
use crate::drawing::tags::Subject;
use crate::drawing::{Lettered, layers, tags};
use crate::job::Job;
use crate::scene::{Face, Group, Outline, PathItem, Pen, Point, Quad, Role, Segment, Stroke, TextItem, Vector};
use crate::units::{Length, Show, UnitSystem};
use std::collections::HashMap;

/// Runs of a header, at least.
const LEAST: usize = 3;
/// How far a chain of dimensions may stand from its pipe, in mm of its plane; the nearest that is free.
const OFFS: [f64; 6] = [7.5, 9.0, 11.0, 13.5, 16.0, 20.0];
/// From the pipe to its extension lines, mm.
const GAP: f64 = 1.9;
/// How far extension lines go beyond the dimension line, mm.
const BEYOND: f64 = 1.2;
/// Half the length of a tick, mm.
const TICK: f64 = 1.3;
/// From base line to base line, in mm of the plane.
const PITCH: f64 = 5.0;

/// A header that found a place.
pub struct Placed {
    /// Its dimension lines.
    pub lines: Group,
    /// Its words, one group for each of its runs.
    pub words: Vec<Group>,
    /// Where they stand.
    pub lettered: Vec<Lettered>,
    /// The wishes that it fulfills.
    pub wishes: Vec<usize>,
}

/// Places every header that has room, and keeps that room free.
pub fn place(job: &Job, wishes: &[Wish], placement: &mut Placement<'_>) -> Vec<Placed> {
    let mut placed = Vec::new();
    for chain in chains(wishes) {
        if let Some(header) = place_one(job, wishes, &chain, placement) {
            placed.push(header);
        }
    }
    placed
}

/// Runs in line, each as the label that wants to speak of it, from left to right.
fn chains(wishes: &[Wish]) -> Vec<Vec<usize>> {
    let near = |place: Point| ((place.x * 50.0).round() as i64, (place.y * 50.0).round() as i64);
    let mut starting: HashMap<(i64, i64, &str, bool), usize> = HashMap::new();
    let mut ends = HashMap::new();
    let spans = || {
        wishes
            .iter()
            .enumerate()
            .filter_map(|(at, wish)| Some((at, wish.span.as_ref()?, line(wish)?)))
    };
    for (at, span, line) in spans() {
        let (a, b, rises) = (near(line.a), near(line.b), line.b.y < line.a.y);
        starting.insert((a.0, a.1, span.size.as_str(), rises), at);
        ends.insert((b.0, b.1, span.size.as_str(), rises), at);
    }
    let mut chains = Vec::new();
    for (first, span, begin) in spans() {
        let rises = begin.b.y < begin.a.y;
        let a = near(begin.a);
        if ends.contains_key(&(a.0, a.1, span.size.as_str(), rises)) {
            continue;
        }
        let next = |at: &usize| {
            let b = near(line(&wishes[*at])?.b);
            starting.get(&(b.0, b.1, span.size.as_str(), rises)).copied()
        };
        let chain: Vec<usize> = std::iter::successors(Some(first), next).take(wishes.len()).collect();
        if chain.len() >= LEAST {
            chains.push(chain);
        }
    }
    chains
}

/// The line of a label along isometric pipe that is not upright, from left to right.
fn line(wish: &Wish) -> Option<Segment> {
    let line = wish.home.line()?;
    let along = line.vector().unit()?;
    let is_level = (along.y.abs() - 0.5).abs() < 1e-6;
    is_level.then(|| {
        if along.x > 0.0 {
            line
        } else {
            Segment::new(line.b, line.a)
        }
    })
}

/// What stands at one distance to one side.
struct Trial {
    dimension: Segment,
    extensions: Vec<Segment>,
    words: Vec<(TextItem, Quad)>,
}

/// Lengths along a header under one text.
struct Lengths {
    /// The first of its runs.
    first: usize,
    line: Segment,
    words: String,
}

/// Each length by itself, but so many alike after one another as one total.
fn groups(spans: &[&Span], lines: &[Segment], units: UnitSystem) -> Vec<Lengths> {
    let mut groups = Vec::new();
    let mut first = 0;
    while first < spans.len() {
        let alike = spans[first..]
            .iter()
            .take_while(|span| span.length == spans[first].length)
            .count();
        let count = if alike >= LEAST { alike } else { 1 };
        let each = spans[first].length.show(units);
        let total: Length = spans[first..first + count].iter().map(|span| span.length).sum();
        groups.push(Lengths {
            first,
            line: Segment::new(lines[first].a, lines[first + count - 1].b),
            words: match count {
                1 => each,
                _ => format!("{count} × {each} = {}", total.show(units)),
            },
        });
        first += count;
    }
    groups
}

fn place_one(job: &Job, wishes: &[Wish], chain: &[usize], placement: &mut Placement<'_>) -> Option<Placed> {
    let lines: Vec<Segment> = chain.iter().filter_map(|at| line(&wishes[*at])).collect();
    let spans: Vec<&Span> = chain.iter().filter_map(|at| wishes[*at].span.as_ref()).collect();
    let (first, last) = (lines.first()?, lines.last()?);
    let whole = Segment::new(first.a, last.b);
    let (along, down, tall) = dimension::frame(whole)?;
    let stops: Vec<Point> = lines.iter().map(|line| line.a).chain([last.b]).collect();
    let units = job.settings.units;
    let size = format!("{} HEADER", spans[0].size);
    let groups = groups(&spans, &lines, units);
    let lettering = |words: &str| TextItem::new(words, SIZES, Face::Regular);
    let trial = |side: f64, off: f64| -> Option<Trial> {
        let way = down * (side * off);
        let dimension = Segment::new(whole.a + way, whole.b + way);
        let extensions = stops
            .iter()
            .map(|stop| Segment::new(*stop + down * (side * GAP), *stop + down * (side * (off + BEYOND))));
        // Rows away from the pipe: lengths next to the dimension line, then the size.
        let row = |number: f64, words: &TextItem| {
            // Clear of the ticks, and of the extension lines between the first and the last of alike spans.
            let clear = TICK + 0.6;
            if side < 0.0 {
                -(clear + PITCH * number) - words.extent().max.y.max(0.0) * tall.length()
            } else {
                clear + PITCH * number - words.extent().min.y * tall.length()
            }
        };
        let lay = |words: TextItem, middle: Point, number: f64| {
            let place = middle + down * row(number, &words);
            dimension::lay(words, place, along, tall)
        };
        let mut words = vec![lay(lettering(&size), dimension.at(0.5), 1.0)];
        for group in &groups {
            let text = lettering(&group.words);
            if text.advance() > group.line.length() - 1.5 {
                return None;
            }
            words.push(lay(text, group.line.at(0.5) + way, 0.0));
        }
        if words.iter().any(|(text, _)| text.advance() > whole.length()) {
            return None;
        }
        Some(Trial {
            dimension,
            extensions: extensions.collect(),
            words,
        })
    };
    let tries = OFFS.iter().flat_map(|off| [(-1.0, *off), (1.0, *off)]);
    let strip = |line: &Segment| Quad::strip(*line, 0.8);
    let is_clear = |trial: &Trial| {
        let lines = std::iter::once(&trial.dimension).chain(&trial.extensions);
        lines
            .map(strip)
            .chain(trial.words.iter().map(|(_, room)| *room))
            .all(|room| placement.is_clear_quad(&room))
    };
    let trial = tries.filter_map(|(side, off)| trial(side, off)).find(is_clear)?;
    for room in std::iter::once(&trial.dimension).chain(&trial.extensions).map(strip) {
        placement.keep_quad_free(room);
    }
    for (_, room) in &trial.words {
        placement.keep_quad_free(room.grown(0.4));
    }
    let run = |at: usize| match wishes[chain[at]].subject {
        Subject::Run(run) => Some(job.runs.at(run).id),
        _ => None,
    };
    let mut lines_group = Group::new().on(layers::LEADERS);
    let tag = tags::plane(run(0)?);
    let mut drawn = Group::tagged(tag.role, tag.key).label("dimensions");
    let mut thin = Outline::line(trial.dimension.a, trial.dimension.b);
    for line in &trial.extensions {
        thin.extend(&Outline::line(line.a, line.b));
    }
    drawn.push(PathItem::stroked(thin, Stroke::new(Pen::Thin)));
    let mut ticks = Outline::new();
    let slant = (along - down).unit().unwrap_or(Vector::new(0.0, -1.0)) * TICK;
    let way = trial.dimension.a - whole.a;
    for stop in &stops {
        ticks.extend(&Outline::line(*stop + way - slant, *stop + way + slant));
    }
    drawn.push(PathItem::stroked(ticks, Stroke::new(Pen::Medium)));
    lines_group.push(drawn);
    // The size with the first run; each length or total with the first run that it speaks of.
    let mut words = Vec::new();
    let mut lettered = Vec::new();
    for (at, wish) in chain.iter().map(|at| &wishes[*at]).enumerate() {
        let text = format!("{} × {}", spans[at].size, spans[at].length.show(units));
        let mut group = Group::tagged(Role::Label, wish.subject.key())
            .on(layers::WORDS)
            .label(text);
        let of_group = groups.iter().position(|group| group.first == at).map(|group| group + 1);
        let own = (at == 0).then_some(0).into_iter().chain(of_group);
        let own = own.map(|at| &trial.words[at]);
        for (item, room) in own {
            group.push(item.clone());
            lettered.push(Lettered {
                subject: wish.subject,
                room: room.bounds(),
                anchor: wish.anchor,
            });
        }
        words.push(group);
    }
    Some(Placed {
        lines: lines_group,
        words,
        lettered,
        wishes: chain.to_vec(),
    })
}
