//! Notes: the profile's, those that follow from the job, and what was too long for its place, in full.

mod follow;
mod full;

use super::block::{Block, Part};
use super::field::Field;
use super::findings::{Found, sentence};
use super::lettering::Hand;
use super::tags::Schedule;
use super::text::Paragraph;
use super::{built, cautions};
use crate::codebook::{Codebook, Profile};
use crate::drawing::Crowding;
use crate::job::Job;
use crate::rules::Findings;
use crate::sizing::carrier::MAKER_GOVERNS;
use crate::sizing::{Basis, Section};
use crate::study::{Places, Study, how_many};
use crate::units::{in_units, ranges};

/// Everything that notes are made from.
pub struct Ground<'a> {
    /// The job.
    pub job: &'a Job,
    /// What follows from it.
    pub study: &'a Study,
    /// What the drawing calls its places.
    pub places: &'a Places<'a>,
    /// What the rules found.
    pub findings: &'a Findings,
    /// What is published.
    pub book: &'a Codebook,
    /// The profile in force.
    pub profile: &'a Profile,
    /// Whether the drawing has room.
    pub crowding: Crowding,
}

/// The notes of a job; `cut` are the fields of the title block whose value did not fit.
pub fn block(ground: &Ground<'_>, cut: &[(Field, String)]) -> Block {
    let mut block = numbered(said(ground, cut));
    // Before all notes, so that nobody approves it unread.
    if let Some(open) = open(ground) {
        let open = Paragraph::new(format!("STILL TO BE CHECKED: {open}.")).hand(Hand::STRONG);
        block.parts.insert(0, Part::Text(vec![open]));
    }
    block
}

/// What is still to be checked: nothing where more must be fixed first, nor where what was built is to be signed.
fn open(ground: &Ground<'_>) -> Option<String> {
    let found = Found::of(ground.findings);
    if found.blocking() > 0 || built::is_built(ground.job) {
        return None;
    }
    // What the tubing's maker must say stands among the notes.
    let pipe = (ground.study.sections.iter()).filter(|section| section.is_pipe());
    let mut remarks = pipe.flat_map(|section| &section.sizing.remarks);
    let told: &[&str] = match remarks.any(|remark| sentence(remark) == sentence(MAKER_GOVERNS)) {
        true => &["csst-by-ehd"],
        false => &[],
    };
    found.open(ground.places, told)
}

/// The notes of a worksheet: nothing that follows from an answer.
pub fn of_worksheet(ground: &Ground<'_>, cut: &[(Field, String)]) -> Block {
    let mut said = vec![
        "Exercise, not for permit. Write each answer on its ruled line; sizes by the tables named here.".to_owned(),
    ];
    said.extend(cautions::disclaimer(ground.profile));
    let of_tables = table_notes(ground);
    if !of_tables.is_empty() {
        said.push(of_tables.join(" "));
    }
    said.extend(full::notes(ground, cut));
    numbered(said)
}

fn numbered(said: Vec<String>) -> Block {
    // One after the other, as far as a line goes.
    let numbered = said
        .iter()
        .enumerate()
        .map(|(at, words)| format!("{}\u{a0}{words}", at + 1));
    let running = numbered.collect::<Vec<_>>().join(" ");
    let running = format!("NOTES: {running}");
    Block::new(Schedule::Notes, "", vec![Part::Text(vec![Paragraph::new(running)])])
}

/// Each note: what the reader of the sheet needs, and nothing of the program.
fn said(ground: &Ground<'_>, cut: &[(Field, String)]) -> Vec<String> {
    let mut said: Vec<String> = Vec::new();
    if let Crowding::TooDense { left_out } = ground.crowding {
        said.push(format!(
            "THE DRAWING IS TOO DENSE FOR THIS PAPER: {} left out.",
            how_many(left_out, "label")
        ));
    }
    let variants = &ground.job.variants;
    if !variants.is_empty() {
        let (at, of) = (variants.shown() + 1, variants.count());
        said.push(format!(
            "Drawn here: the variant \"{}\", {at} of {of} of this job.",
            variants.name.trim()
        ));
    }
    said.extend(cautions::disclaimer(ground.profile));
    let units = ground.study.names.units();
    said.extend((ground.profile.notes.iter()).map(|note| sentence(&in_units(note, units))));
    match built::is_built(ground.job) {
        true => said.extend(built::notes(ground.job)),
        false => said.extend(follow::notes(ground)),
    }
    let tables = table_notes(ground).into_iter();
    let of_tables: Vec<String> = tables.chain(section_remarks(ground.study)).collect();
    if !of_tables.is_empty() {
        said.push(of_tables.join(" "));
    }
    said.extend(full::notes(ground, cut));
    said
}

/// Conditions that the tables used are printed with.
fn table_notes(ground: &Ground<'_>) -> Vec<String> {
    let mut used: Vec<&str> = Vec::new();
    for section in &ground.study.sections {
        if let Basis::Table { table, .. } = &section.sizing.basis
            && !used.contains(&&**table)
        {
            used.push(table);
        }
    }
    // What several tables are printed with is said once.
    let mut said: Vec<(&str, Vec<&str>)> = Vec::new();
    for table in used.into_iter().filter_map(|id| ground.book.table(id)) {
        for note in &table.notes {
            match said.iter_mut().find(|known| known.0 == *note) {
                Some(known) => known.1.push(&*table.id),
                None => said.push((note, vec![&*table.id])),
            }
        }
    }
    let words = said.into_iter().map(|(note, tables)| {
        let name = ground.profile.tables_called(&tables);
        let note = in_units(note, ground.study.names.units());
        format!("{name} {}: {}", tables.join(", "), sentence(&note))
    });
    words.collect()
}

/// What must stand beside sizes, each sentence once with the sections it is for.
fn section_remarks(study: &Study) -> Vec<String> {
    let mut remarks: Vec<(&str, Vec<usize>)> = Vec::new();
    let mut places = std::collections::HashMap::new();
    // What a hose or connector goes by stands in the schedule.
    let pipe = |section: &&Section| section.is_pipe();
    for section in study.sections.iter().filter(pipe) {
        let lacking = match &section.sizing.basis {
            Basis::Nothing(lacking) => Some(lacking),
            Basis::Table { .. } | Basis::Equation { .. } => None,
        };
        for remark in section.sizing.remarks.iter().chain(lacking) {
            let at = *places.entry(remark.as_str()).or_insert(remarks.len());
            match remarks.get_mut(at) {
                Some((_, sections)) => sections.push(section.number),
                None => remarks.push((remark, vec![section.number])),
            }
        }
    }
    remarks
        .into_iter()
        .map(|(remark, mut sections)| {
            sections.dedup();
            let name = if sections.len() == 1 { "Section" } else { "Sections" };
            format!("{name} {}: {}", ranges(sections), sentence(remark))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::Checked;
    use std::path::Path;

    /// Every example and every job of the tests: the notes of its permit drawing.
    fn all() -> Vec<(String, Vec<String>)> {
        let root = Path::new(env!("CARGO_MANIFEST_DIR"));
        let folders = ["examples", "tests/jobs"].map(|folder| std::fs::read_dir(root.join(folder)).unwrap());
        let paths = folders.into_iter().flatten().map(|entry| entry.unwrap().path());
        let jobs = paths.filter(|path| path.extension().is_some_and(|ending| ending == "ron"));
        jobs.map(|path| {
            let job = crate::file::read(&std::fs::read_to_string(&path).unwrap()).unwrap();
            let book = Codebook::published();
            let checked = Checked::of(&job, book);
            let ground = Ground {
                job: &job,
                study: &checked.study,
                places: &Places::of(&job, &checked.study),
                findings: &checked.findings,
                book,
                profile: book
                    .profile(&job.settings.profile)
                    .unwrap_or_else(|| book.default_profile()),
                crowding: Crowding::Fits,
            };
            (path.display().to_string(), said(&ground, &[]))
        })
        .collect()
    }

    #[test]
    fn notes_are_few_and_say_nothing_of_the_program() {
        let all = all();
        assert!(all.len() > 20, "{}", all.len());
        for (name, notes) in all {
            assert!(notes.len() <= 8, "{name}: {notes:#?}");
            for note in &notes {
                // Ids of runs and joints, and names of profiles, are not on the drawing.
                let is_id = |word: &str| {
                    let number = word.strip_prefix(['R', 'J']);
                    number
                        .is_some_and(|number| !number.is_empty() && number.chars().all(|digit| digit.is_ascii_digit()))
                };
                let mut words = note.split(|letter: char| !(letter.is_alphanumeric() || letter == '-'));
                let inside = ["us-ifgc", "us-ca", "us-federal", "ca-b149", "lattice", "compute,"];
                assert!(
                    !words.any(|word| is_id(word) || inside.contains(&word)),
                    "{name}: {note}"
                );
                assert!(!note.contains(['{', '}']), "{name}: {note}");
            }
        }
    }
}
