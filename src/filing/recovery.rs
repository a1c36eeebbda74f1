//! Copies of work that was not saved, so that a crash or a power cut costs little.
//!
//! Each window has a copy of its own, `<process>-<time>-<count>.ron`, and holds a lock on a file beside it for as long
//! as it runs: a copy whose lock is free was left behind. A copy goes only when its work is saved, when somebody says
//! that it may go, or when another window has taken it up.

use crate::disk::{self, Trouble};
use crate::file;
use crate::job::Job;
use crate::study::how_many;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{SystemTime, UNIX_EPOCH};

const TASK: &str = "Keep a safety copy";

/// What a copy starts with; the path of its file follows, as a JSON text.
const HEAD: &str = "// Work that was not saved, of the file ";

/// Where the copy of this window lies.
#[derive(Debug, Default)]
pub struct Recovery {
    folder: Option<PathBuf>,
    own: Option<Own>,
}

#[derive(Debug)]
struct Own {
    copy: PathBuf,
    /// Locked as long as it is open.
    _lock: Option<File>,
    lock_path: PathBuf,
}

/// Work that was left behind.
#[derive(Debug)]
pub struct Left {
    /// Where the copy lies.
    pub copy: PathBuf,
    /// The file that it belongs to; `None` for work that was never saved.
    pub of: Option<PathBuf>,
    /// When it was written.
    pub written: SystemTime,
    /// Whether its file was changed after that.
    pub is_older: bool,
    lock_path: PathBuf,
    /// Locked, so that no second window offers it.
    _lock: Option<File>,
}

impl Recovery {
    /// Copies in a folder, which is made when the first is written; without a folder none are made.
    pub fn in_folder(folder: Option<PathBuf>) -> Recovery {
        Recovery { folder, own: None }
    }

    /// Whether copies are made at all.
    pub fn is_on(&self) -> bool {
        self.folder.is_some()
    }

    /// Writes the copy anew.
    pub fn keep(&mut self, job: &Job, of: Option<&Path>) -> Result<(), Trouble> {
        let Some(folder) = &self.folder else { return Ok(()) };
        if self.own.is_none() {
            fs::create_dir_all(folder).map_err(|error| Trouble::of(TASK, folder, &error))?;
            self.own = Some(Own::new(folder));
        }
        let Some(own) = &self.own else { return Ok(()) };
        let of = of.and_then(Path::to_str).unwrap_or_default();
        let text = format!("{HEAD}{}\n{}", serde_json::Value::from(of), file::write(job));
        disk::write(&own.copy, text.as_bytes()).map_err(|error| Trouble::of(TASK, &own.copy, &error))
    }

    /// Takes the copy away: its work is safe, or nobody wants it.
    pub fn forget(&mut self) {
        if let Some(own) = self.own.take() {
            // What cannot be taken away is offered at the next start: no harm.
            let _ = fs::remove_file(&own.copy);
            let _ = fs::remove_file(&own.lock_path);
        }
    }

    /// Work left behind by windows that no longer run, the latest first.
    pub fn left(&self) -> Vec<Left> {
        let Some(folder) = &self.folder else { return Vec::new() };
        let Ok(entries) = fs::read_dir(folder) else {
            return Vec::new();
        };
        let own = self.own.as_ref().map(|own| own.copy.as_path());
        let mut left: Vec<Left> = entries
            .flatten()
            .map(|entry| entry.path())
            .filter(|path| path.extension().is_some_and(|ending| ending == "ron") && Some(path.as_path()) != own)
            .filter_map(Left::found)
            .collect();
        left.sort_by_key(|one| std::cmp::Reverse(one.written));
        left
    }
}

impl Own {
    fn new(folder: &Path) -> Own {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let time = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
        let count = COUNT.fetch_add(1, Ordering::Relaxed);
        let copy = folder.join(format!("{}-{}-{count}.ron", std::process::id(), time.as_millis()));
        let lock_path = copy.with_extension("lock");
        let lock = OpenOptions::new()
            .write(true)
            .create(true)
            .truncate(false)
            .open(&lock_path);
        // Where the disk knows no locks, another window may offer this copy; it goes only when somebody says so.
        let lock = lock.ok().filter(|lock| lock.try_lock().is_ok());
        Own {
            copy,
            _lock: lock,
            lock_path,
        }
    }
}

impl Left {
    fn found(copy: PathBuf) -> Option<Left> {
        // A pipe or a device is no copy of ours, and whoever opens one may wait for ever.
        let about = fs::metadata(&copy).ok().filter(fs::Metadata::is_file)?;
        let lock_path = copy.with_extension("lock");
        let is_odd = fs::metadata(&lock_path).is_ok_and(|about| !about.is_file());
        let opened = match is_odd {
            true => Err(ErrorKind::Other.into()),
            false => OpenOptions::new().write(true).open(&lock_path),
        };
        let lock = match opened {
            Ok(lock) => match lock.try_lock() {
                Ok(()) => Some(lock),
                // Its window still runs, or another one is offering it.
                Err(TryLockError::WouldBlock) => return None,
                Err(TryLockError::Error(_)) => None,
            },
            Err(_) => None,
        };
        let written = about.modified().ok()?;
        let of = head(&copy);
        let changed = of
            .as_ref()
            .and_then(|of| fs::metadata(of).and_then(|about| about.modified()).ok());
        Some(Left {
            is_older: changed.is_some_and(|changed| changed > written),
            of,
            copy,
            written,
            lock_path,
            _lock: lock,
        })
    }

    /// The work itself.
    pub fn read(&self) -> Result<Job, Trouble> {
        disk::read(&self.copy).map(|(job, _)| job)
    }

    /// Takes the copy away: somebody said so, or its work has been copied by the window that took it up.
    pub fn discard(self) {
        let _ = fs::remove_file(&self.copy);
        let _ = fs::remove_file(&self.lock_path);
    }

    /// "yesterday's" age in words: "5 minutes ago".
    pub fn age(&self) -> String {
        age(self.written.elapsed().unwrap_or_default().as_secs())
    }
}

/// The file that a copy says it belongs to.
fn head(copy: &Path) -> Option<PathBuf> {
    use std::io::Read;
    let mut start = Vec::new();
    File::open(copy).ok()?.take(20_000).read_to_end(&mut start).ok()?;
    let start = String::from_utf8_lossy(&start);
    let path = start.lines().next()?.strip_prefix(HEAD)?;
    let path: serde_json::Value = serde_json::from_str(path).ok()?;
    path.as_str().filter(|path| !path.is_empty()).map(PathBuf::from)
}

fn age(seconds: u64) -> String {
    let (count, one) = match seconds {
        0..=59 => return "less than a minute ago".to_owned(),
        60..=3_599 => (seconds / 60, "minute"),
        3_600..=86_399 => (seconds / 3_600, "hour"),
        _ => (seconds / 86_400, "day"),
    };
    format!("{} ago", how_many(usize::try_from(count).unwrap_or(usize::MAX), one))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn job(name: &str) -> Job {
        let mut job = Job::default();
        job.title.job = name.to_owned();
        job
    }

    #[test]
    fn work_of_a_window_that_is_gone_is_found_and_of_one_that_runs_is_not() {
        let folder = tempfile::tempdir().unwrap();
        let at = || Recovery::in_folder(Some(folder.path().join("copies")));
        let (mut gone, mut runs) = (at(), at());
        let of = folder.path().join("odd \"name\"\n.ron");
        gone.keep(&job("lost"), Some(&of)).unwrap();
        runs.keep(&job("running"), None).unwrap();
        assert_eq!(at().left().len(), 0, "both windows run");
        drop(gone);
        let left = at().left();
        assert_eq!(left.len(), 1);
        assert_eq!(
            (left[0].of.as_deref(), left[0].read().unwrap()),
            (Some(of.as_path()), job("lost"))
        );
        assert_eq!(at().left().len(), 0, "one window at a time offers it");
        drop(left);
        at().left().pop().unwrap().discard();
        drop(runs);
        let left = at().left();
        assert_eq!(
            (left.len(), left[0].of.clone()),
            (1, None),
            "the running window's copy was left alone"
        );
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn odd_files_among_the_copies_are_passed_by() {
        use std::os::fd::AsRawFd;
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        // A pipe into which nobody writes: whoever reads it waits for ever.
        let (from, _to) = std::io::pipe().unwrap();
        let pipe = format!("/proc/self/fd/{}", from.as_raw_fd());
        std::os::unix::fs::symlink(&pipe, at("1-1-0.ron")).unwrap();
        std::os::unix::fs::symlink(&pipe, at("2-1-0.lock")).unwrap();
        fs::write(at("2-1-0.ron"), "no job").unwrap();
        fs::create_dir(at("3-1-0.ron")).unwrap();
        std::os::unix::fs::symlink("/dev/zero", at("4-1-0.ron")).unwrap();
        std::os::unix::fs::symlink(at("nothing"), at("5-1-0.ron")).unwrap();
        fs::write(at("6-1-0.ron"), [0xff, 0, 7]).unwrap();
        fs::create_dir(at("6-1-0.lock")).unwrap();
        let left = Recovery::in_folder(Some(folder.path().to_owned())).left();
        let mut names: Vec<_> = left.iter().filter_map(|left| left.copy.file_name()).collect();
        names.sort();
        assert_eq!(names, ["2-1-0.ron", "6-1-0.ron"], "plain files only");
        for left in left {
            assert!(left.read().is_err());
            let copy = left.copy.clone();
            left.discard();
            assert!(!copy.exists());
        }
    }

    #[test]
    fn a_copy_goes_when_its_work_is_safe() {
        let folder = tempfile::tempdir().unwrap();
        let mut recovery = Recovery::in_folder(Some(folder.path().to_owned()));
        recovery.keep(&job("a"), None).unwrap();
        recovery.keep(&job("b"), None).unwrap();
        recovery.forget();
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
        recovery.keep(&job("c"), None).unwrap();
        drop(recovery);
        assert_eq!(Recovery::in_folder(Some(folder.path().to_owned())).left().len(), 1);
    }

    #[test]
    fn a_copy_older_than_its_file_is_told_so() {
        let folder = tempfile::tempdir().unwrap();
        let of = folder.path().join("house.ron");
        let mut recovery = Recovery::in_folder(Some(folder.path().join("copies")));
        recovery.keep(&job("a"), Some(&of)).unwrap();
        drop(recovery);
        let at = Recovery::in_folder(Some(folder.path().join("copies")));
        assert!(!at.left()[0].is_older, "there is no file");
        fs::write(&of, "").unwrap();
        let later = SystemTime::now() + std::time::Duration::from_mins(1);
        File::options()
            .write(true)
            .open(&of)
            .unwrap()
            .set_modified(later)
            .unwrap();
        assert!(at.left()[0].is_older);
    }

    #[test]
    fn ages_are_told_in_words() {
        for (seconds, expected) in [
            (3, "less than a minute ago"),
            (60, "1 minute ago"),
            (7_300, "2 hours ago"),
            (90_000, "1 day ago"),
        ] {
            assert_eq!(age(seconds), expected);
        }
    }
}
