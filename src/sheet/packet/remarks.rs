//! What is said to the person who asked for the sheets.

use super::{CLEAR, Composer, Packet};
use crate::drawing::{Crowding, Isometric, first_that_fits};
use crate::scene::Rect;
use crate::sheet::paper::{Orientation, Paper};
use crate::sheet::purpose::Purpose;
use crate::sheet::title_block::TitleBlock;
use crate::study::how_many;

/// What should be said to the person who asked: a drawing too dense for its paper, where its words stand, and which paper
/// has room.
pub fn remarks(composer: &Composer<'_>, drawing: &Isometric) -> Vec<String> {
    let left_out = left_out(drawing);
    if left_out == 0 {
        return Vec::new();
    }
    let first = format!(
        "{} did not fit on the first sheet of {}",
        how_many(left_out, "label"),
        composer.paper.name()
    );
    let first = match composer.larger() {
        None => format!("{first}."),
        Some(larger) => {
            let places = larger.told().places();
            match larger.left_out() {
                0 => format!("{first}: the drawing is enlarged, with all of them, on {places}."),
                still => format!("{first}, and {still} of them did not fit on {places} either, where it is enlarged."),
            }
        }
    };
    let first = match drawing.gave_up {
        true => format!("{first} The drawing is so dense that not every place for its labels was tried."),
        false => first,
    };
    let larger = [Paper::AnsiB, Paper::A3]
        .into_iter()
        .flat_map(|paper| [Orientation::Landscape, Orientation::Portrait].map(|orientation| (paper, orientation)));
    let larger: Vec<(Paper, Orientation)> = larger
        .filter(|one| *one != (composer.paper, composer.orientation))
        .collect();
    let areas: Vec<Rect> = larger
        .iter()
        .map(|(paper, orientation)| {
            let other = Composer::new(composer.job, composer.checked, composer.book, *paper, *orientation);
            other.first_plan().body.grown(-CLEAR)
        })
        .collect();
    if composer.has_tried_enough() {
        return vec![format!("{first} Other paper was not tried.")];
    }
    vec![
        match first_that_fits(composer.drawn, composer.study, &areas, composer.options()).and_then(|at| larger.get(at))
        {
            Some((paper, orientation)) => format!("{first} {} {} has room.", paper.name(), orientation.name()),
            None => format!("{first} No paper size of this tool has room for it on one sheet."),
        },
    ]
}

/// From so many sheets on the paper is tried the other way round, and no longer than that takes little.
const MANY: usize = 3;
const LITTLE: usize = 4_000_000;

/// That the same paper turned round needs fewer sheets of the permit set.
pub fn turned(
    packet: &Packet,
    (paper, other): (Paper, Orientation),
    compose: impl FnOnce(Orientation) -> Packet,
) -> Option<String> {
    let sheets = |packet: &Packet| packet.numbers.first().map_or(0, |(_, of)| *of);
    let is_issue = packet.purposes.first() == Some(&Purpose::Issue);
    if !is_issue || sheets(packet) < MANY || packet.effort > LITTLE {
        return None;
    }
    let (now, then) = (sheets(packet), sheets(&compose(other)));
    (then < now).then(|| {
        format!(
            "{} {} needs {} instead of {now}.",
            paper.name(),
            other.name(),
            how_many(then, "sheet")
        )
    })
}

/// That values of the title block are cut there.
pub fn cut(title: &TitleBlock) -> Option<String> {
    let fields: Vec<&str> = title.cut.iter().map(|(field, _)| field.caption()).collect();
    let said = || {
        format!(
            "not all of this fits in the title block: {}; the notes give it in full",
            fields.join(", ")
        )
    };
    (!fields.is_empty()).then(said)
}

/// How many labels found no place on a drawing.
pub const fn left_out(drawing: &Isometric) -> usize {
    match drawing.crowding {
        Crowding::Fits => 0,
        Crowding::TooDense { left_out } => left_out,
    }
}
