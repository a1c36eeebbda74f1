//! Job files, read and studied, many at once.

use super::{Jobs, TROUBLE};
use crate::codebook::{Codebook, OwnLengths};
use crate::file;
use crate::job::{Job, OwnTable};
use crate::rules::Checked;
use rayon::prelude::*;
use std::borrow::Cow;
use std::fs;
use std::io::{IsTerminal, Read, Write, stderr};
use std::ops::Deref;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};

/// The largest file that is read at all, so that a wrong argument does not fill the memory.
const LARGEST_FILE: u64 = 64 << 20;

/// A job with its study.
pub struct Studied {
    /// The job by the profile that it names itself.
    pub own: Job,
    /// The job as it is worked out: by the profile of the call, where there is one.
    pub job: Job,
    /// What follows from it, and what the rules found.
    pub checked: Checked,
}

/// What is published, with the profile and the tables of a person's own that the arguments name.
pub struct Book {
    /// The codebook.
    pub book: Cow<'static, Codebook>,
    /// The profile by which every job is worked out in place of its own.
    profile: Option<String>,
    /// The variant that every job is to show, by its name.
    variant: Option<String>,
    /// Own tables by which every job is sized, before those that it names itself.
    tables: Vec<OwnTable>,
}

impl Deref for Book {
    type Target = Codebook;

    fn deref(&self) -> &Codebook {
        &self.book
    }
}

/// What is published, with the profile, the tables and the lengths that the arguments name.
pub fn codebook(jobs: &Jobs) -> Result<Book, String> {
    let mut known = Book {
        book: Cow::Borrowed(Codebook::published()),
        profile: None,
        variant: jobs.variant.clone(),
        tables: Vec::new(),
    };
    for path in &jobs.tables {
        let own = known.book.to_mut().add_table(&path.display().to_string(), &text(path)?);
        known.tables.push(own.map_err(|error| error.to_string())?);
    }
    if let Some(path) = &jobs.profile {
        known.profile = Some(add_profile(known.book.to_mut(), path)?);
    }
    if let Some(path) = &jobs.lengths {
        let lengths = OwnLengths::read(&text(path)?);
        if !lengths.faults.is_empty() {
            let faults = lengths.faults.iter();
            let told = faults.map(|(number, fault)| format!("{}, line {number}: {fault}", path.display()));
            return Err(told.collect::<Vec<_>>().join("\n"));
        }
        known.book = Cow::Owned(known.book.with_lengths(lengths));
    }
    Ok(known)
}

/// Adds a profile of a person's own, with the tables that it names beside itself; gives its name.
pub fn add_profile(book: &mut Codebook, path: &Path) -> Result<String, String> {
    let folder = path.parent().unwrap_or(Path::new(""));
    let beside = |named: &str| {
        let path = folder.join(named);
        text(&path).map(|text| (path.display().to_string(), text))
    };
    let own = book.add_profile(&path.display().to_string(), &text(path)?, beside);
    own.map_err(|error| error.to_string())
}

/// Reads and studies each job, and hands it on to `each`; results come back in the order of the arguments.
///
/// Jobs are worked on side by side. Several jobs show a progress line on a terminal.
pub fn for_each<T: Send>(
    jobs: &Jobs,
    book: &Book,
    each: impl Fn(&Path, Studied) -> Result<T, String> + Sync,
) -> Vec<(PathBuf, Result<T, String>)> {
    let done = AtomicUsize::new(0);
    let shown = jobs.jobs.len() > 1 && stderr().is_terminal();
    let results = jobs
        .jobs
        .par_iter()
        .map(|path| {
            let result = study(path, book).and_then(|studied| each(path, studied));
            let done = done.fetch_add(1, Ordering::Relaxed) + 1;
            if shown {
                let _ = write!(stderr(), "\r{done} of {} jobs", jobs.jobs.len());
            }
            (path.clone(), result)
        })
        .collect();
    if shown {
        let _ = write!(stderr(), "\r\x1b[2K");
    }
    results
}

/// Runs a command that prints: for machines one JSON value, else what `say` writes for each job; faults go to standard
/// error. Gives the worst exit code.
pub fn print_each<T: Send>(
    jobs: &Jobs,
    command: &str,
    work: impl Fn(&Codebook, Studied) -> (u8, T) + Sync,
    machine: impl Fn(&T) -> serde_json::Value,
    say: impl Fn(&T) -> String,
) -> u8 {
    print_tried(jobs, command, |book, _, studied| Ok(work(book, studied)), machine, say)
}

/// The same for work that may be at fault with a job.
pub fn print_tried<T: Send>(
    jobs: &Jobs,
    command: &str,
    work: impl Fn(&Codebook, &Path, Studied) -> Result<(u8, T), String> + Sync,
    machine: impl Fn(&T) -> serde_json::Value,
    say: impl Fn(&T) -> String,
) -> u8 {
    let book = match codebook(jobs) {
        Ok(book) => book,
        Err(fault) => return report(&fault),
    };
    let results = for_each(jobs, &book, |path, studied| work(&book, path, studied));
    let code = results
        .iter()
        .map(|(_, result)| result.as_ref().map_or(TROUBLE, |(code, _)| *code))
        .max();
    let mut code = code.unwrap_or(TROUBLE);
    if jobs.json {
        code = code.max(super::machine::print(command, &results, |(_, value)| machine(value)));
    } else {
        let many = results.len() > 1;
        for (path, result) in &results {
            match result {
                Ok((_, value)) => {
                    let head = if many {
                        format!("== {}\n", path.display())
                    } else {
                        String::new()
                    };
                    code = code.max(super::table::out(&format!("{head}{}", say(value))));
                }
                Err(fault) => {
                    report(fault);
                }
            }
        }
    }
    code
}

/// Prints a fault and gives the exit code for it.
pub fn report(fault: &str) -> u8 {
    let _ = writeln!(stderr(), "{fault}");
    TROUBLE
}

/// Whether two paths lead to one file that is there, or are the same.
pub fn is_same(one: &Path, other: &Path) -> bool {
    let there = |path: &Path| fs::canonicalize(path).ok();
    one == other || there(one).is_some_and(|file| there(other) == Some(file))
}

/// The text of a file.
pub fn text(path: &Path) -> Result<String, String> {
    String::from_utf8(read(path)?).map_err(|_| format!("{}: this is not UTF-8 text", path.display()))
}

/// Reads and studies one job.
pub fn study(path: &Path, known: &Book) -> Result<Studied, String> {
    studied(path, &read(path)?, known)
}

/// Reads and studies a job as it was issued: the variant of this name, else the `usual` one where it has that, else the one
/// that it shows.
pub fn issued(path: &Path, known: &Book, variant: Option<&str>, usual: Option<&str>) -> Result<Studied, String> {
    let mut job = parsed(path, &read(path)?)?;
    match (variant, usual) {
        (Some(name), _) => job = showing(path, &job, name)?,
        (None, Some(name)) => job = showing(path, &job, name).unwrap_or(job),
        (None, None) => {}
    }
    Ok(study_of(job, known))
}

/// Studies the job of a file that has been read.
pub fn studied(path: &Path, bytes: &[u8], known: &Book) -> Result<Studied, String> {
    let job = parsed(path, bytes)?;
    let job = match &known.variant {
        Some(name) => showing(path, &job, name)?,
        None => job,
    };
    Ok(study_of(job, known))
}

fn parsed(path: &Path, bytes: &[u8]) -> Result<Job, String> {
    file::read_bytes(bytes).map_err(|error| format!("{}: {error}", path.display()))
}

/// The job with the variant of a name shown.
fn showing(path: &Path, job: &Job, name: &str) -> Result<Job, String> {
    let variants = &job.variants;
    let shown = variants.position(name).and_then(|at| job.showing(at));
    shown.ok_or_else(|| {
        let known: Vec<String> = variants.names().map(|name| format!("\"{name}\"")).collect();
        let known = match known.is_empty() {
            true => "it has no variants".to_owned(),
            false => format!("it has {}", known.join(", ")),
        };
        format!(
            "{}: no variant of this job is called \"{name}\"; {known}",
            path.display()
        )
    })
}

fn study_of(mut job: Job, known: &Book) -> Studied {
    let named = std::mem::take(&mut job.settings.tables);
    let others = named
        .into_iter()
        .filter(|table| known.tables.iter().all(|own| own.id != table.id));
    job.settings.tables = known.tables.iter().cloned().chain(others).collect();
    let own = job.clone();
    if let Some(profile) = &known.profile {
        job.settings.profile.clone_from(profile);
    }
    let checked = Checked::of(&job, &known.book);
    Studied { own, job, checked }
}

/// The bytes of a file.
pub fn read(path: &Path) -> Result<Vec<u8>, String> {
    let name = path.display();
    let opened = fs::File::open(path).map_err(|error| match error.kind() {
        std::io::ErrorKind::NotFound => format!("{name}: there is no such file; check the name and the folder"),
        _ => format!("{name}: can't be opened: {error}"),
    })?;
    let mut bytes = Vec::new();
    opened
        .take(LARGEST_FILE + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| format!("{name}: can't be read: {error}"))?;
    if bytes.len() as u64 > LARGEST_FILE {
        return Err(format!(
            "{name}: larger than {} MB: this is not a job file",
            LARGEST_FILE >> 20
        ));
    }
    Ok(bytes)
}
