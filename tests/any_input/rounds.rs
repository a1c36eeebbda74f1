//! Many inputs one after the other: none may panic, none take longer than it may, all together no more memory.

use crate::through::Given;
use std::fs;
use std::ops::Range;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::time::{Duration, Instant};

/// How long one input may take on its processor, in a build without optimization many times longer unless
/// `STUBOUT_LONGEST` says how many milliseconds.
const LONGEST: Duration = match cfg!(debug_assertions) {
    true => Duration::from_secs(20),
    false => Duration::from_secs(1),
};
/// How much memory the whole run may take, the program itself among it, bytes.
const MOST_MEMORY: u64 = 500 << 20;

/// The files of a folder, by name; none where there is no such folder.
pub fn files(folder: &str) -> Vec<(PathBuf, Vec<u8>)> {
    let Ok(entries) = fs::read_dir(folder) else {
        return Vec::new();
    };
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    let is_text = |path: &PathBuf| {
        let ending = path.extension().and_then(|ending| ending.to_str());
        path.is_file() && matches!(ending, Some("ron" | "tsv" | "txt" | "svg"))
    };
    paths.retain(is_text);
    paths.sort();
    paths
        .into_iter()
        .map(|path| (path.clone(), fs::read(path).unwrap()))
        .collect()
}

fn from_outside(name: &str) -> Option<u64> {
    std::env::var(name).ok()?.parse().ok()
}

/// The one seed of a round, as a run tells it: `0x…`.
fn one_seed() -> Option<u64> {
    u64::from_str_radix(std::env::var("STUBOUT_SEED").ok()?.strip_prefix("0x")?, 16).ok()
}

/// A run of many inputs.
pub struct Rounds {
    what: String,
    seeds: Range<u64>,
    longest: Duration,
    done: u64,
    slowest: (Duration, u64),
    failed: Vec<String>,
}

impl Rounds {
    /// As many as `STUBOUT_ROUNDS` says, usually so many, beginning where `STUBOUT_SEED` says; only one where that is
    /// the seed of a round.
    pub fn new(what: &str, usual: u64) -> Rounds {
        let rounds = from_outside("STUBOUT_ROUNDS").unwrap_or(usual);
        let first = from_outside("STUBOUT_SEED").unwrap_or(1) << 32;
        Rounds {
            what: what.to_owned(),
            seeds: one_seed().map_or(first..first + rounds, |seed| seed..seed + 1),
            longest: from_outside("STUBOUT_LONGEST").map_or(LONGEST, Duration::from_millis),
            done: 0,
            slowest: (Duration::ZERO, 0),
            failed: Vec::new(),
        }
    }

    /// The seed of each round.
    pub fn seeds(&self) -> Range<u64> {
        self.seeds.clone()
    }

    /// One input.
    pub fn run(&mut self, given: &Given, seed: u64, work: impl FnOnce()) {
        let before = on_processor();
        let outcome = catch_unwind(AssertUnwindSafe(work));
        let took = on_processor().saturating_sub(before);
        self.done += 1;
        if took > self.slowest.0 {
            self.slowest = (took, seed);
        }
        let why = match outcome {
            Err(_) => "panics".to_owned(),
            Ok(()) if took > self.longest => format!("takes {took:?}"),
            Ok(()) => return,
        };
        let path = std::env::temp_dir().join(format!("stubout-{}-{seed:x}.{}", self.done, given.ending()));
        fs::write(&path, given.bytes()).unwrap();
        self.failed.push(format!("{} {why}: seed {seed:#x}", path.display()));
    }

    /// Says how it went, and fails where something did.
    pub fn finish(self) {
        let peak = peak_memory();
        eprintln!(
            "{}: {} inputs, slowest {:?} on its processor (seed {:#x}), peak memory {} MB",
            self.what,
            self.done,
            self.slowest.0,
            self.slowest.1,
            peak.map_or("not known".to_owned(), |peak| (peak >> 20).to_string()),
        );
        assert!(self.failed.is_empty(), "{}", self.failed.join("\n"));
        assert!(peak.is_none_or(|peak| peak < MOST_MEMORY), "{peak:?}");
    }
}

/// How long this thread has been on its processor: other programs do not count. Elsewhere than on Linux, the clock.
fn on_processor() -> Duration {
    use std::sync::LazyLock;
    static START: LazyLock<Instant> = LazyLock::new(Instant::now);
    let told = fs::read_to_string("/proc/thread-self/schedstat").ok();
    let nanoseconds = told.and_then(|told| told.split_whitespace().next()?.parse().ok());
    nanoseconds.map_or_else(|| START.elapsed(), Duration::from_nanos)
}

/// The most memory that this process has had at once, bytes; known on Linux.
fn peak_memory() -> Option<u64> {
    let told = fs::read_to_string("/proc/self/status").ok()?;
    let line = told.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    Some(line.trim().strip_suffix("kB")?.trim().parse::<u64>().ok()? << 10)
}
