//! The drawing to cut by: new pipe with the marks and cut lengths of the cut list, and joints as that list calls them.

use super::block::{Block, Part};
use super::tags::Schedule;
use super::text::Paragraph;
use crate::codebook::SizeNames;
use crate::drawing::{OtherWords, Said};
use crate::job::{Device, Job, State};
use crate::study::{Places, Study};
use crate::units::{Show, UnitSystem};
use crate::work::{CutList, Making, Piece};

/// What stands along runs and at joints: for each piece of pipe its mark, size and length at its longest run, for pipe to
/// be taken out that it is, and the names of the joints at which pieces end.
pub fn words(job: &Job, cuts: &CutList, places: &Places<'_>) -> OtherWords {
    let units = job.settings.units;
    let name = |joint: usize| Said {
        words: places.mark(joint),
        short: job.joints.at(joint).id.to_string(),
    };
    let mut words = OtherWords {
        runs: vec![Said::default(); job.runs.len()],
        joints: vec![Said::default(); job.joints.len()],
    };
    for (run, said) in job.runs.iter().zip(&mut words.runs) {
        if run.state == State::Removed {
            if run.salvaged { "SALVAGE" } else { "REMOVE" }.clone_into(&mut said.words);
        }
    }
    for (at, joint) in job.joints.iter().enumerate() {
        if let Some(Device::Supply(_)) = joint.device() {
            words.joints[at] = name(at);
        }
    }
    for piece in &cuts.pieces {
        let drawn = |run: &&usize| {
            let run = job.runs.at(**run);
            let at = |id| job.joints.get(id).map(|joint| joint.at);
            let way = at(run.from).zip(at(run.to)).map(|(from, to)| to - from);
            way.map_or(0.0, |way| way.steps())
        };
        let longest = piece.runs.iter().rev().max_by(|a, b| drawn(a).total_cmp(&drawn(b)));
        if let Some(&run) = longest {
            words.runs[run] = Said {
                words: said(piece, cuts.names, units),
                short: piece.mark.clone(),
            };
        }
        for end in &piece.ends {
            words.joints[end.joint] = name(end.joint);
        }
    }
    words
}

/// The same, for a drawing that lies on no sheet.
pub fn piece_words(job: &Job, study: &Study, cuts: &CutList) -> OtherWords {
    words(job, cuts, &Places::of(job, study))
}

/// `P3 3/4" × 2'-6"`, as the cut list has it.
fn said(piece: &Piece, names: SizeNames, units: UnitSystem) -> String {
    let size = piece
        .size
        .map_or_else(|| "size ?".to_owned(), |size| names.show(piece.material, size));
    if piece.must_be_measured() {
        return format!("{} {size} {}", piece.mark, piece.to_measure());
    }
    format!("{} {size} {}", piece.mark, length(piece, units))
}

/// What a piece is cut to, or what else is done; with a question mark where an end is not measured.
pub fn length(piece: &Piece, units: UnitSystem) -> String {
    let length = match (piece.parts.as_slice(), piece.making) {
        ([], Making::Nipple(length)) => format!("× {} nipple", length.show_short(units)),
        ([], Making::TooShort(_)) => "CANNOT BE MADE".to_owned(),
        ([], _) => piece.made(units),
        ([one], _) => format!("× {}", one.length.show(units)),
        (parts, _) => {
            let parts: Vec<String> = parts.iter().map(|part| part.length.show(units)).collect();
            format!("× ({})", parts.join(" + "))
        }
    };
    let sure = if piece.is_known() { "" } else { " ?" };
    format!("{length}{sure}")
}

/// What the drawing is, and what it is not.
pub fn key() -> Block {
    let said = [
        "Marks and lengths of new pipe as on the cut list: cut lengths, not center to center. With ? an end must be \
         measured first. Symbols as on the permit drawing.",
        "Not the permit drawing: that one shows center-to-center lengths, loads and pressures. Measure your \
         fittings, and on site, before you cut.",
    ];
    let said = said.into_iter().map(Paragraph::new).collect();
    Block::new(Schedule::Pieces, "Pieces to cut", vec![Part::Text(said)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::codebook::Codebook;

    #[test]
    fn every_piece_stands_once_on_the_drawing_with_the_length_of_the_list() {
        for text in [
            include_str!("../../examples/patio-kitchen.ron"),
            include_str!("../../examples/two-pressure-house.ron"),
            include_str!("../../examples/propane-cabin.ron"),
            include_str!("../../examples/classroom.ron"),
        ] {
            let (job, book) = (crate::file::read(text).unwrap(), Codebook::published());
            let study = Study::of(&job, book);
            let cuts = CutList::of(&job, &study, book);
            let words = words(&job, &cuts, &Places::of(&job, &study));
            let written: Vec<&String> = words.runs.iter().map(|said| &said.words).collect();
            let written: Vec<&String> = written.into_iter().filter(|words| words.starts_with('P')).collect();
            assert_eq!(written.len(), cuts.pieces.len());
            for piece in &cuts.pieces {
                let mark = format!("{} ", piece.mark);
                let found: Vec<_> = written.iter().filter(|words| words.starts_with(&mark)).collect();
                assert_eq!(found.len(), 1, "{mark}");
                // Between two ends that nobody has measured no length stands.
                let is_told = !piece.must_be_measured();
                assert_eq!(found[0].ends_with("measure"), !is_told, "{found:?}");
                for part in piece.parts.iter().filter(|_| is_told) {
                    assert!(found[0].contains(&part.length.show(job.settings.units)), "{found:?}");
                }
                for end in &piece.ends {
                    assert!(!words.joints[end.joint].words.is_empty());
                }
            }
        }
    }
}
