//! What is done with an input: read, studied, drawn, compared, exported.

use crate::dice::Dice;
use stubout::advice::{Audit, Headroom};
use stubout::changes::Changes;
use stubout::codebook::{Codebook, OwnLengths};
use stubout::editor::edit::Fixes;
use stubout::export::packet::Format;
use stubout::export::pdf::PdfInfo;
use stubout::export::svg::{TextStyle, write_with};
use stubout::file;
use stubout::job::Job;
use stubout::permit_list::PermitList;
use stubout::rules::Checked;
use stubout::sheet::{About, Matter, Orientation, Paper, Work, compose, compose_about};
use stubout::work::{CutList, OrderOfWork, PriceList, StockPlan, TakeOff, TestSheet};

/// An input, and by which reader it is read.
pub enum Given {
    /// A job file, or an SVG that carries a job.
    Job(Vec<u8>),
    /// A profile.
    Profile(Vec<u8>),
    /// A capacity table.
    Table(Vec<u8>),
    /// A price list.
    Prices(Vec<u8>),
    /// Lengths of parts of one's own.
    Lengths(Vec<u8>),
}

impl Given {
    pub fn bytes(&self) -> &[u8] {
        match self {
            Given::Job(bytes)
            | Given::Profile(bytes)
            | Given::Table(bytes)
            | Given::Prices(bytes)
            | Given::Lengths(bytes) => bytes,
        }
    }

    /// Another for the same reader.
    pub fn with(&self, change: impl FnOnce(&[u8]) -> Vec<u8>) -> Given {
        let bytes = change(self.bytes());
        match self {
            Given::Job(_) => Given::Job(bytes),
            Given::Profile(_) => Given::Profile(bytes),
            Given::Table(_) => Given::Table(bytes),
            Given::Prices(_) => Given::Prices(bytes),
            Given::Lengths(_) => Given::Lengths(bytes),
        }
    }

    /// The ending of a file of it.
    pub fn ending(&self) -> &'static str {
        match self {
            Given::Job(_) | Given::Profile(_) => "ron",
            Given::Table(_) => "tsv",
            Given::Prices(_) | Given::Lengths(_) => "txt",
        }
    }
}

fn kitchen() -> Job {
    file::read(include_str!("../../examples/patio-kitchen.ron")).unwrap()
}

/// A drawing with a job inside.
pub fn svg_with(job: &[u8]) -> Vec<u8> {
    let job = file::read_bytes(job).unwrap();
    let book = Codebook::published();
    let packet = compose(
        &job,
        &Checked::of(&job, book),
        book,
        Paper::AnsiB,
        Orientation::Landscape,
    );
    write_with(&packet.sheets[0], TextStyle::Live, Some(&file::element(&job))).into_bytes()
}

/// The job that a text gives, which comes back the same when it is written and read again.
fn job(bytes: &[u8]) -> Option<Job> {
    match file::read_bytes(bytes) {
        Ok(job) => {
            assert_eq!(
                file::read(&file::write(&job)).as_ref(),
                Ok(&job),
                "written and read again"
            );
            Some(job)
        }
        Err(error) => {
            assert!(error.to_string().len() < 2_000, "{error}");
            None
        }
    }
}

/// What an input is read and studied to: a job by what is published, anything else with a job of ours.
fn studied(given: &Given) -> Option<(Job, Codebook, Option<PriceList>)> {
    let text = String::from_utf8_lossy(given.bytes());
    let mut book = Codebook::published().clone();
    let mut prices = None;
    let mut job = match given {
        Given::Job(bytes) => job(bytes)?,
        _ => kitchen(),
    };
    match given {
        Given::Job(_) => {}
        Given::Profile(_) => {
            let beside = |_: &str| Err("no table lies here".to_owned());
            job.settings.profile = book.add_profile("own.ron", &text, beside).ok()?;
        }
        Given::Table(_) => job.settings.tables = vec![book.add_table("own.tsv", &text).ok()?],
        Given::Prices(_) => {
            let list = PriceList::read(&text);
            assert!(list.faults.len() < 30, "faults are told in short");
            prices = Some(list);
        }
        Given::Lengths(_) => {
            let lengths = OwnLengths::read(&text);
            assert!(lengths.faults.len() < 30, "faults are told in short");
            book = book.with_lengths(lengths);
        }
    }
    Some((job, book, prices))
}

/// Read and studied.
pub fn reading(given: &Given) {
    if let Some((job, book, _)) = studied(given) {
        Checked::of(&job, &book);
    }
}

/// Read, studied, and everything that the program makes of it.
pub fn everything(given: &Given, dice: &mut Dice) {
    let Some((job, book, prices)) = studied(given) else {
        return;
    };
    let book = &book;
    let checked = Checked::of(&job, book);
    let study = &checked.study;
    Audit::beside(&job, book, study);
    Headroom::of(&job, book);
    Fixes::of(&job, book, &checked);
    let cuts = CutList::of(&job, study, book);
    let stock = StockPlan::of(&cuts, study, book);
    let take_off = TakeOff::of(&job, study, book, &cuts, &stock);
    if let Some(prices) = &prices {
        let priced = take_off.priced(prices, job.settings.units);
        let sum: i128 = priced.lines.iter().flatten().map(|price| i128::from(*price)).sum();
        assert_eq!(i128::from(priced.total), sum, "the sum is exact");
    }
    OrderOfWork::of(&job, study, book);
    TestSheet::of(&job, study, book);
    PermitList::of(&job, study, book);
    let work = Work::of(&job, study, book).with_permit_list(&job, study, book);
    let paper = dice.pick(&[Paper::AnsiA, Paper::AnsiB, Paper::A4, Paper::A3]);
    let orientation = dice.pick(&[Orientation::Landscape, Orientation::Portrait]);
    let others = [kitchen(), Job::default(), earlier(&job, dice)];
    let issued = dice.pick(&others);
    let since = [
        Changes::since(&issued, &job, study, book),
        Changes::since(&job, &issued, &Checked::of(&issued, book).study, book),
    ];
    let about = About {
        matter: if dice.percent(50) {
            Matter::Permit
        } else {
            Matter::Whole(&work)
        },
        since: dice.percent(60).then_some(&since[0]),
        ..About::default()
    };
    let packet = compose_about(&job, &checked, book, paper, orientation, about);
    let element = file::element(&job);
    let format = dice.pick(&[
        Format::Svg(TextStyle::Outlines),
        Format::Svg(TextStyle::Live),
        Format::Pdf,
        Format::Dxf,
    ]);
    for (number, (_, bytes)) in format
        .files("x".as_ref(), &packet.sheets, &PdfInfo::default(), Some(&element))
        .enumerate()
    {
        let bytes = bytes.unwrap();
        assert!(!bytes.is_empty());
        if number == 0 && matches!(format, Format::Svg(_)) {
            assert_eq!(
                file::read_bytes(&bytes).as_ref(),
                Ok(&job),
                "the SVG gives its job back"
            );
        }
    }
}

/// The job without some of its parts, as if they were drawn since.
fn earlier(job: &Job, dice: &mut Dice) -> Job {
    let mut earlier = job.clone();
    for run in job.runs.iter().map(|run| run.id) {
        if dice.percent(20) {
            earlier.runs.remove(run);
        }
    }
    earlier.notes.truncate(dice.below(job.notes.len() + 1));
    earlier
}
