//! The sheets as they will be handed over, made anew when job or paper change: small jobs at once, others on another
//! thread, so that the window never waits.

use crate::advice::{ComparedVariants, OwnLists};
use crate::changes::Changes;
use crate::codebook::Codebook;
use crate::desk::Desk;
use crate::desk::issued::Issued;
use crate::desk::later::Later;
use crate::desk::settings::{Contents, Settings};
use crate::drawing::Asked;
use crate::job::Job;
use crate::rules::Checked;
use crate::scene::{Item, Rect, Scene};
use crate::sheet::tags::{Part, part};
use crate::sheet::{About, Field, Matter, Orientation, Packet, Paper, Purpose, Work, compose_about, sizing_steps};
use std::sync::Arc;

/// Jobs of up to so many runs are composed in the same frame.
const AT_ONCE: usize = 60;

/// What sheets are made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Of {
    /// The editor's revision.
    pub revision: u64,
    /// The paper.
    pub paper: Paper,
    /// Which edge of it lies below.
    pub orientation: Orientation,
    /// Which sheets.
    pub contents: Contents,
}

impl Of {
    /// What sheets would be made of now.
    pub fn now(desk: &Desk, settings: &Settings) -> Of {
        Of {
            revision: desk.revision(),
            paper: settings.paper,
            orientation: settings.orientation,
            contents: settings.contents,
        }
    }
}

impl Of {
    fn is_for_class(self) -> bool {
        matches!(self.contents, Contents::Worksheet | Contents::SizingSteps)
    }
}

/// A field of the title block where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// The field.
    pub field: Field,
    /// Its cell, mm.
    pub cell: Rect,
    /// What stands in it.
    pub value: String,
}

/// Finished sheets with what they were made of.
#[derive(Debug)]
pub struct Composed {
    /// What they were made of.
    pub of: Of,
    /// The job.
    pub job: Arc<Job>,
    /// What follows from it, and what the rules found.
    pub checked: Arc<Checked>,
    /// What changed since the issue that it is compared with.
    pub changes: Option<Changes>,
    /// The sheets.
    pub packet: Packet,
    /// The fields of the title block, sheet by sheet.
    pub fields: Vec<Vec<Placed>>,
}

impl Composed {
    fn of(of: Of, job: Arc<Job>, checked: Arc<Checked>, book: &Codebook, issued: Option<&Issued>) -> Composed {
        let study = &checked.study;
        let work = match of.contents {
            Contents::Permit | Contents::Worksheet | Contents::SizingSteps | Contents::Variants => None,
            Contents::Whole => Some(Work::of(&job, study, book)),
            Contents::Listed => Some(Work::of(&job, study, book).with_permit_list(&job, study, book)),
        };
        let is_for_class = of.is_for_class();
        let compared =
            (of.contents == Contents::Variants).then(|| ComparedVariants::of(&job, book, OwnLists::default()));
        let matter = match (&work, &compared) {
            (Some(work), _) => Matter::Whole(work),
            (None, Some(compared)) => Matter::Variants(compared),
            (None, None) if of.contents == Contents::Worksheet => Matter::Worksheet(Asked::of(&Asked::USUAL)),
            (None, None) => Matter::Permit,
        };
        let changes = issued.map(|issued| issued.changes(&job, study));
        let about = About {
            matter,
            since: changes.as_ref(),
            ..About::default()
        };
        let packet = match of.contents {
            Contents::SizingSteps => sizing_steps(&job, &checked, book, of.paper, of.orientation),
            _ => compose_about(&job, &checked, book, of.paper, of.orientation, about),
        };
        let packet = match of.contents {
            Contents::Worksheet => packet.for_class(),
            _ => packet,
        };
        let sheets = packet.sheets.iter().zip(&packet.purposes).zip(&packet.numbers);
        let fields = sheets
            .map(|((sheet, purpose), (number, of))| {
                let number = format!("{number} of {of}");
                match is_for_class {
                    // A worksheet is filled in by hand.
                    true => Vec::new(),
                    false => fields(sheet, (*purpose, number), &job, &checked, book),
                }
            })
            .collect();
        Composed {
            of,
            job,
            checked,
            changes,
            packet,
            fields,
        }
    }

    /// Whether they are for a class: a worksheet and its key, or a sizing step by step.
    pub fn is_for_class(&self) -> bool {
        self.of.is_for_class()
    }

    /// How many findings are to be mended first.
    pub fn to_mend(&self) -> usize {
        self.checked.must_fix().count()
    }
}

/// The fields of a sheet for a purpose and with its number, in reading order: what stands on the paper.
fn fields(
    sheet: &Scene,
    (purpose, number): (Purpose, String),
    job: &Job,
    checked: &Checked,
    book: &Codebook,
) -> Vec<Placed> {
    let profile = book.profile(&checked.study.profile).unwrap_or(book.default_profile());
    let mut fields = Vec::new();
    sheet.walk(|_, item| {
        if let Item::Group(group) = item
            && let Some(Part::Field(field)) = group.tag.and_then(part)
            && let Some(Item::Path(cell)) = group.items().first()
            && let Some(cell) = cell.bounds()
        {
            let value = match field {
                Field::Sheet => number.clone(),
                field => purpose.value(field, job, checked, profile),
            };
            fields.push(Placed { field, cell, value });
        }
    });
    fields
}

/// Sheets that are kept up to the job.
#[derive(Debug, Default)]
pub struct Composing {
    sheets: Later<Arc<Composed>, Of>,
    /// What was asked for in the frame before: it has been said that they are made.
    announced: Option<Of>,
}

impl Composing {
    /// Brings the sheets up to the job and what is asked for, or sets another thread to it; gives what there is.
    pub fn of(&mut self, desk: &Desk, settings: &Settings) -> Option<Arc<Composed>> {
        let of = Of::now(desk, settings);
        let at_once = desk.is_current() && desk.job().runs.len() <= AT_ONCE;
        let ready = || {
            // What is shown is studied already; a job that changed since is studied with its sheets.
            let (job, checked) = match desk.is_current() {
                true => (Arc::clone(&desk.shown().job), Some(Arc::clone(&desk.shown().checked))),
                false => (Arc::new(desk.job().clone()), None),
            };
            let (book, issued) = (desk.book(), desk.issued().cloned());
            move || {
                let checked = checked.unwrap_or_else(|| Arc::new(Checked::of(&job, &book)));
                Arc::new(Composed::of(of, job, checked, &book, issued.as_deref()))
            }
        };
        let is_announced = self.announced.replace(of) == Some(of);
        match at_once {
            true if is_announced => drop(self.sheets.at_once(of, || ready()())),
            // A frame that says so comes first: the next one may take its time.
            true => desk.wake()(),
            false => drop(self.sheets.of(of, &desk.wake(), ready)),
        }
        self.sheets.last().cloned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_stands_on_the_first_sheet_and_all_within_theirs() {
        let book = Codebook::published();
        let mut job = Job::default();
        job.title.firm = "Invented Gas Fitters".to_owned();
        for paper in Paper::ALL {
            let of = Of {
                revision: 0,
                paper,
                orientation: Orientation::Portrait,
                contents: Contents::Whole,
            };
            let composed = Composed::of(of, Arc::new(job.clone()), Arc::new(Checked::of(&job, book)), book, None);
            assert_eq!(composed.fields.len(), composed.packet.sheets.len());
            for (fields, sheet) in composed.fields.iter().zip(&composed.packet.sheets) {
                let mut found: Vec<Field> = fields.iter().map(|placed| placed.field).collect();
                found.sort();
                // The first of a set has the title block, the others a strip.
                if found.len() == Field::ALL.len() {
                    assert_eq!(found, Field::ALL);
                    let firm = fields.iter().find(|placed| placed.field == Field::Firm);
                    assert_eq!(firm.map(|firm| firm.value.as_str()), Some("Invented Gas Fitters"));
                }
                assert!(found.contains(&Field::Sheet) && found.contains(&Field::Title));
                let paper = Rect::sized(crate::scene::Point::default(), sheet.width(), sheet.height());
                assert!(fields.iter().all(|placed| paper.encloses(placed.cell)));
            }
        }
    }
}
