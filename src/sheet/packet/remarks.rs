//! What is said to the person who asked for the sheets.

use super::spread::Spread;
use super::{CLEAR, Composer, Packet};
use crate::drawing::first_that_fits;
use crate::scene::Rect;
use crate::sheet::paper::{Orientation, Paper};
use crate::sheet::purpose::Purpose;
use crate::sheet::title_block::TitleBlock;
use crate::study::how_many;

/// What should be said to the person who asked: a drawing too dense for its paper, in how many parts it is, and which paper
/// has room.
pub fn remarks(composer: &Composer<'_>, spread: &Spread) -> Vec<String> {
    let (left_out, parts) = (spread.left_out(), spread.sheets.len());
    let paper = composer.paper.name();
    let lost = how_many(left_out, "label");
    let first = match (parts, left_out) {
        (..=1, 0) => return Vec::new(),
        (..=1, _) => format!("{lost} did not fit on one sheet of {paper}, nor on more."),
        (parts, 0) => format!("The drawing is in {parts} parts: one sheet of {paper} has no room for all its labels."),
        (parts, _) => format!("The drawing is in {parts} parts on {paper}, and {lost} did not fit there either."),
    };
    let first = match spread.first().gave_up {
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

/// From so many sheets on the paper is tried the other way round, and no longer than that takes little: to say that it
/// would need fewer, or to turn it where nobody chose.
const MANY: usize = 3;
const LITTLE: [usize; 2] = [1_500_000, 4_000_000];

/// That the same paper turned round needs fewer sheets of the permit set.
pub fn turned(
    packet: &Packet,
    (paper, other): (Paper, Orientation),
    compose: impl FnOnce(Orientation) -> Packet,
) -> Option<String> {
    if !is_worth_turning(packet, MANY, LITTLE[0]) {
        return None;
    }
    let (now, then) = (packet.of_set(), compose(other).of_set());
    (then < now).then(|| {
        format!(
            "{} {} needs {} instead of {now}.",
            paper.name(),
            other.name(),
            how_many(then, "sheet")
        )
    })
}

/// The landscape packet, or the portrait one where that needs fewer sheets of the permit set, and says so.
pub fn fewest(landscape: Packet, paper: Paper, compose: impl FnOnce(Orientation) -> Packet) -> Packet {
    if !is_worth_turning(&landscape, 2, LITTLE[1]) {
        return landscape;
    }
    let mut portrait = compose(Orientation::Portrait);
    let (now, then) = (landscape.of_set(), portrait.of_set());
    if then >= now {
        return landscape;
    }
    portrait.remarks.push(format!(
        "{} portrait, for {} instead of {now}: --landscape keeps landscape.",
        paper.name(),
        how_many(then, "sheet"),
    ));
    portrait
}

fn is_worth_turning(packet: &Packet, from: usize, little: usize) -> bool {
    let is_issue = packet.purposes.first() == Some(&Purpose::Issue);
    is_issue && packet.of_set() >= from && packet.effort <= little
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
