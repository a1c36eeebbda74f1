//! Words on the drawing, each where it touches nothing.
//!
//! `wishes` gathers what wants to be written, `spots` knows where each could stand, `field` what is in the way, `choices`
//! where what is drawn lets it stand, and `placement` decides. The words themselves come from the files named for them; `headers` letters runs in line once,
//! `typical` drops that are alike.

mod choices;
mod ends;
mod field;
mod headers;
mod joint_words;
mod layer;
mod levels;
mod passage_words;
mod placement;
mod raster;
mod run_words;
mod several;
mod spots;
mod stretch;
mod typical;
mod wishes;

use super::block::{Block, Flush};
use super::clouds::{Clouds, Mark};
use super::layout::Layout;
use super::picture::{Owner, Picture};
use super::tags::Subject;
use super::used::{Symbol, SymbolSet};
use super::{Compass, Homeless, Lettered, Lettering, NumberedPoint, Options, Scale, compass, key_plan, layers};
use crate::scene::{Group, Ink, Outline, PathItem, Pen, Point, Rect, Role, Segment, Stroke, Vector};
use ends::Ends;
use field::Field;
use placement::Placement;
use spots::{Lay, Spot};
use std::borrow::Cow;
use wishes::Wish;

/// Radius of the dot in which a leader ends on what it speaks of, mm.
const DOT: f64 = 0.6;

/// No leader is longer, mm.
const LONGEST: f64 = 25.0;

/// All words of a drawing.
pub struct Labels {
    /// Leaders, then labels.
    pub group: Group,
    /// Those that stand in a table.
    pub numbered: Vec<NumberedPoint>,
    /// Where each that found a place stands.
    pub lettered: Vec<Lettered>,
    /// How many found no place.
    pub left_out: usize,
    /// How many of what a reader asks for first lack their words.
    pub demoted: usize,
    /// The kinds of lines, symbols and marks of the whole drawing.
    pub used: SymbolSet,
    /// The axes, where they are not among the labels.
    pub compass: Option<Group>,
    /// How many tests it took, and whether the search was ended by that.
    pub effort: (usize, bool),
}

/// What words give way to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beside {
    /// To clouds with their marks, and to the key plan of a part.
    All,
    /// To clouds with their marks; a part has no key plan.
    Clouds,
    /// To the marks of clouds only.
    OverClouds,
}

/// Finds a place for every label; those that a person put somewhere come first.
pub fn draw(
    layout: &Layout<'_>,
    picture: &Picture,
    clouds: &Clouds,
    area: Rect,
    options: Options<'_>,
    beside: Beside,
) -> Labels {
    let mut used = picture.used;
    let mut spoken_for = Vec::new();
    let wishes = match options.lettering {
        Lettering::Nothing => Vec::new(),
        Lettering::Other(words) => wishes::other(layout, picture, words),
        Lettering::All | Lettering::OnScreen => {
            wishes::all(layout, picture, options.lettering, &mut used, &mut spoken_for)
        }
    };
    let mut field = Field::new(area, wishes.len());
    for (room, owner) in &picture.rooms {
        field.add_drawn(*room, *owner);
    }
    if beside != Beside::OverClouds {
        for room in clouds.all.iter().flat_map(|cloud| cloud.rooms()) {
            field.add_drawn(room, Owner::Cloud);
        }
    }
    let (mut leaders, mut labels) = (Group::new(), Group::new());
    let mut left_out = 0;
    let mut placement = Placement::new(&wishes, field);
    for (label, wish) in wishes.iter().enumerate() {
        if let Some(middle) = wish.put() {
            let spot = spots::put(&wish.block, &wish.home, middle);
            // A sheet has an end: words are brought back onto it. The paper of a fixed drawing has none.
            let spot = match options.scale {
                Scale::Fit => spots::put(&wish.block, &wish.home, middle + back(spot.words(), area)),
                Scale::Fixed(_) => spot,
            };
            placement.hold(label, &spot);
        }
    }
    let mut apart = None;
    match compass::place(layout.job, options.is_arranged, area, |room| placement.is_free(room)) {
        Some(placed) => {
            placement.keep_free(placed.room);
            match options.compass {
                Compass::Drawn => labels.push(placed.whole()),
                Compass::Apart => apart = Some(placed.axes),
            }
        }
        None => left_out += 1,
    }
    let whole = layout.whole();
    let outlets = layout.study.outlets.iter();
    let letters = outlets.filter_map(|outlet| {
        let at = whole.places.get(outlet.joint)?;
        Some((whole.projection.to_unit(*at), outlet.tag.as_str()))
    });
    let letters: Vec<(Point, &str)> = letters.collect();
    let key_plan = options
        .part
        .and_then(|part| key_plan::place(part, &letters, area, |room| placement.is_free(room)));
    if let Some((plan, room)) = key_plan {
        labels.push(plan);
        placement.keep_free(room);
    }
    let revision = options.since.and_then(|since| since.mark.as_deref());
    for cloud in &clouds.all {
        // The list of changes counts clouds as the drawing of the whole does: those of a part have no number.
        let mark = Mark::new(revision, options.part.is_none().then_some(cloud.number));
        match mark.place(cloud, |room| placement.is_free(room)) {
            Some(room) => {
                let key = Subject::Change(cloud.number).key();
                let mut group = Group::tagged(Role::Label, key)
                    .on(layers::CLOUDS)
                    .label(format!("mark of cloud {}", cloud.number));
                mark.draw(room, &mut group);
                labels.push(group);
                placement.keep_free(room);
            }
            None => left_out += 1,
        }
    }
    let headers = headers::place(layout.job, &wishes, &mut placement);
    for label in headers.iter().flat_map(|header| &header.wishes) {
        placement.settle(*label);
    }
    let placed = place(&wishes, &mut placement, options.homeless);
    left_out += placed.left_out;
    if !placed.numbered.is_empty() {
        used.insert(Symbol::NumberedPoint);
    }
    let mut lettered = Vec::new();
    let mut dimensions = Group::new();
    for (subject, words) in spoken_for {
        labels.push(Group::tagged(Role::Label, subject.key()).on(layers::WORDS).label(words));
    }
    for header in headers {
        dimensions.push(header.lines);
        header.words.into_iter().for_each(|words| labels.push(words));
        lettered.extend(header.lettered);
    }
    let mut all = Ends::new(area, &placed.chosen);
    for (label, ((wish, block), spot)) in wishes.iter().zip(&placed.blocks).zip(&placed.chosen).enumerate() {
        if let Some(spot) = spot {
            let ends = wish
                .runs
                .iter()
                .flat_map(|run| layout.legs[*run].iter().flat_map(|leg| [leg.from, leg.to]));
            let own: Vec<usize> = wish.ticks_at.iter().map(|(joint, _)| *joint).chain(ends).collect();
            let more = on_ink(wish, spot)
                .filter(|more| all.admit(label, *more) && placement.admits_end(*more, &wish.runs, &own));
            if let Some(more) = more {
                all.add(label, more);
            }
            letter((wish, block), spot, more, &mut leaders, &mut labels);
            lettered.push(Lettered {
                subject: wish.subject,
                room: spot.words(),
                anchor: wish.anchor,
            });
        }
    }
    Labels {
        compass: apart,
        effort: placement.effort(),
        lettered,
        group: Group::new().with(dimensions).with(leaders).with(labels),
        numbered: placed.numbered,
        left_out,
        demoted: placed.demoted,
        used,
    }
}

/// Where all labels stand that are not with others.
struct Placed<'a> {
    /// With which words.
    blocks: Vec<Cow<'a, Block>>,
    /// Where; `None` for a label without a place.
    chosen: Vec<Option<Spot>>,
    /// Those that stand in a table.
    numbered: Vec<NumberedPoint>,
    /// How many found no place.
    left_out: usize,
    /// How many of those that a reader asks for first found none with all their words.
    demoted: usize,
}

/// Places all labels.
fn place<'a>(wishes: &'a [Wish], placement: &mut Placement<'a>, homeless: Homeless) -> Placed<'a> {
    placement.run();
    let (mut left_out, mut demoted) = (0, 0);
    let mut missing = Vec::new();
    for (label, wish) in wishes.iter().enumerate() {
        if placement.chosen()[label].is_some() || placement.is_settled(label) {
            continue;
        }
        demoted += usize::from(wish.is_key);
        match &wish.short {
            Some(short) if placement.place_instead(label, Cow::Borrowed(short)) => {}
            // A number for a number would help nobody.
            _ if matches!(wish.subject, Subject::Section(_)) => left_out += 1,
            Some(_) | None => missing.push(label),
        }
    }
    let after = match homeless {
        Homeless::Numbered { after } => after,
        Homeless::LeftOut => {
            left_out += missing.len();
            missing.clear();
            0
        }
    };
    let figures = digits(after + missing.len());
    let mut numbered: Vec<NumberedPoint> = Vec::new();
    for label in missing {
        let number = after + numbered.len() + 1;
        if placement.place_instead(label, Cow::Owned(Block::number(number, figures))) {
            numbered.push(NumberedPoint {
                number,
                subject: wishes[label].subject,
                text: wishes[label].block.text(),
            });
        } else {
            left_out += 1;
        }
    }
    Placed {
        blocks: placement.blocks().to_vec(),
        chosen: placement.chosen().to_vec(),
        numbered,
        left_out,
        demoted,
    }
}

/// The way that brings a box back onto the paper; what is larger than the paper comes to its left or upper edge.
fn back(room: Rect, area: Rect) -> Vector {
    let way = |low: f64, high: f64, min: f64, max: f64| (min - low).max((max - high).min(0.0));
    Vector::new(
        way(room.min.x, room.max.x, area.min.x, area.max.x),
        way(room.min.y, room.max.y, area.min.y, area.max.y),
    )
}

fn digits(number: usize) -> usize {
    number.max(1).ilog10() as usize + 1
}

/// From the beginning of a leader on to the ink that it speaks of, from there.
fn on_ink(wish: &Wish, spot: &Spot) -> Option<Segment> {
    // The number of a section leads to any of its pipe, beside which a thin line may lie.
    let [start, knee, end] = spot.leader.filter(|_| !matches!(wish.subject, Subject::Section(_)))?;
    let ink = spots::on_ink(&wish.home, start);
    (ink.distance(knee) + knee.distance(end) <= LONGEST).then_some(Segment::new(ink, start))
}

/// Draws a label at its spot; `more` is how much farther its leader goes than it was looked for.
fn letter((wish, block): (&Wish, &Block), spot: &Spot, more: Option<Segment>, leaders: &mut Group, labels: &mut Group) {
    let key = wish.subject.key();
    let mut group = Group::tagged(Role::Label, key).on(layers::WORDS).label(block.text());
    match spot.lay {
        Lay::Pair(at) => {
            for (words, at) in block.pair().into_iter().flatten().zip(at) {
                group.push(words.clone().map(at));
            }
        }
        Lay::Block(corner, flush) => block.draw(corner, flush, &mut group),
        Lay::Line(at) => {
            if let Some(words) = block.single() {
                group.push(words.clone().map(at));
            }
        }
    }
    labels.push(group);
    if let Some([start, knee, end]) = spot.leader {
        let start = more.map_or(start, |more| more.a);
        let line = Outline::polyline([start, knee, end]);
        let mut leader = Group::tagged(Role::Leader, key)
            .on(layers::LEADERS)
            .with(PathItem::stroked(line, Stroke::new(Pen::Thin)));
        // The line of a level is no leader: it has no dot.
        if !matches!(wish.subject, Subject::Level(_)) {
            leader.push(PathItem::filled(Outline::circle(start, DOT), Ink::Black));
        }
        leaders.push(leader);
    }
}

/// The mark of a numbered point, its middle at a place.
pub fn numbered_mark(middle: Point, number: usize) -> Group {
    let block = Block::number(number, 1);
    let mut group = Group::new();
    let room = block.room(Point::default());
    block.draw(Point::default() + (middle - room.center()), Flush::Left, &mut group);
    group
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_box_is_brought_back_onto_the_paper_by_the_shortest_way() {
        let area = Rect::sized(Point::default(), 100.0, 50.0);
        let back = |x, y, width| super::back(Rect::sized(Point::new(x, y), width, 5.0), area);
        assert_eq!(back(10.0, 10.0, 20.0), Vector::default());
        assert_eq!(back(90.0, -3.0, 20.0), Vector::new(-10.0, 3.0));
        assert_eq!(back(-7.0, 49.0, 300.0), Vector::new(7.0, -4.0), "too wide: flush left");
    }

    #[test]
    fn figures_are_counted() {
        for (number, expected) in [(0, 1), (9, 1), (10, 2), (999, 3), (1000, 4)] {
            assert_eq!(digits(number), expected);
        }
    }
}
