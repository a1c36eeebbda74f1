//! A file is written whole or not at all, whatever call of the system fails and whenever the power goes.
//!
//! A disk in memory stands in for the system: it keeps apart what programs see and what would still be there after a power
//! cut. As POSIX has it (IEEE Std 1003.1, `fsync`, `rename`), only what was synced is sure to be: of a file not synced
//! nothing, a part, zeros or all may lie there, and of names not synced any may have been changed. Every call is made to
//! fail in every way, the power goes between any two calls, and everything that may then lie there is looked at.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fs::Permissions;
use std::io;
use std::path::{Path, PathBuf};
use stubout::disk::{About, Layer, What, write_by};

/// What goes wrong at a call.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fault {
    /// The system reports this number.
    Errno(i32),
    /// Less is written than was asked for.
    Short,
    /// The power is gone before the call.
    PowerCut,
}

const ENOSPC: i32 = 28;
const EIO: i32 = 5;
const EACCES: i32 = 13;
const EINTR: i32 = 4;
const ALL: [Fault; 5] = [
    Fault::Short,
    Fault::Errno(ENOSPC),
    Fault::Errno(EIO),
    Fault::Errno(EACCES),
    Fault::Errno(EINTR),
];

/// A change of the names in the folder that may not lie on the disk yet: the name, and the file that it leads to now.
type Renamed = Vec<(PathBuf, Option<usize>)>;

#[derive(Clone, Default)]
struct State {
    /// What programs see.
    names: BTreeMap<PathBuf, usize>,
    /// For each file what was written, and what of it was synced.
    files: Vec<(Vec<u8>, Option<Vec<u8>>)>,
    /// The names that are sure to lie on the disk.
    sure: BTreeMap<PathBuf, usize>,
    pending: Vec<Renamed>,
    calls: usize,
    is_dark: bool,
}

/// A disk in memory, with what goes wrong at which of its calls.
struct Disk {
    state: RefCell<State>,
    faults: Vec<(usize, Fault)>,
}

impl Disk {
    fn with(old: Option<&[u8]>, faults: &[(usize, Fault)]) -> Disk {
        let mut state = State::default();
        if let Some(old) = old {
            state.files.push((old.to_vec(), Some(old.to_vec())));
            state.names.insert(path(), 0);
            state.sure = state.names.clone();
        }
        Disk {
            state: RefCell::new(state),
            faults: faults.to_vec(),
        }
    }

    /// Counts a call; whether it writes less than asked for.
    fn call(&self) -> io::Result<bool> {
        let mut state = self.state.borrow_mut();
        let number = state.calls;
        state.calls += 1;
        let fault = self
            .faults
            .iter()
            .find(|(at, _)| *at == number)
            .map(|(_, fault)| *fault);
        state.is_dark |= fault == Some(Fault::PowerCut);
        match fault {
            _ if state.is_dark => Err(io::Error::other("the power is gone")),
            Some(Fault::Errno(errno)) => Err(io::Error::from_raw_os_error(errno)),
            Some(Fault::Short) => Ok(true),
            Some(Fault::PowerCut) | None => Ok(false),
        }
    }

    fn change(&self, renamed: Renamed) {
        let mut state = self.state.borrow_mut();
        for (name, file) in &renamed {
            put(&mut state.names, name, *file);
        }
        state.pending.push(renamed);
    }

    /// What a file holds as programs see it.
    fn seen(&self, at: &Path) -> Option<Vec<u8>> {
        let state = self.state.borrow();
        Some(state.files[*state.names.get(at)?].0.clone())
    }

    /// All that the file may hold when the power comes back.
    fn after_a_power_cut(&self) -> Vec<Option<Vec<u8>>> {
        let state = self.state.borrow();
        let mut all = Vec::new();
        for chosen in 0..1_u32 << state.pending.len() {
            let mut names = state.sure.clone();
            for (at, renamed) in state.pending.iter().enumerate() {
                if chosen & (1 << at) != 0 {
                    renamed.iter().for_each(|(name, file)| put(&mut names, name, *file));
                }
            }
            let Some(file) = names.get(&path()) else {
                all.push(None);
                continue;
            };
            match &state.files[*file] {
                (written, Some(synced)) if written == synced => all.push(Some(synced.clone())),
                (written, _) => {
                    all.extend([0, written.len() / 2, written.len()].map(|length| Some(written[..length].to_vec())));
                    all.push(Some(vec![0; written.len()]));
                }
            }
        }
        all
    }
}

fn put(names: &mut BTreeMap<PathBuf, usize>, name: &Path, file: Option<usize>) {
    match file {
        Some(file) => drop(names.insert(name.to_owned(), file)),
        None => drop(names.remove(name)),
    }
}

impl Layer for Disk {
    type Open = usize;

    fn target(&self, path: &Path) -> PathBuf {
        path.to_owned()
    }

    fn about(&self, path: &Path) -> io::Result<Option<About>> {
        self.call()?;
        let there = self.state.borrow().names.contains_key(path);
        Ok(there.then_some(About {
            what: What::File,
            is_protected: false,
            permissions: None,
        }))
    }

    fn create(&self, path: &Path) -> io::Result<usize> {
        self.call()?;
        assert!(self.seen(path).is_none(), "a new file");
        let file = self.state.borrow().files.len();
        self.state.borrow_mut().files.push((Vec::new(), None));
        self.change(vec![(path.to_owned(), Some(file))]);
        Ok(file)
    }

    fn permit(&self, _: &mut usize, _: &Permissions) -> io::Result<()> {
        self.call().map(drop)
    }

    fn write(&self, file: &mut usize, bytes: &[u8]) -> io::Result<usize> {
        let count = if self.call()? { bytes.len() / 2 } else { bytes.len() };
        self.state.borrow_mut().files[*file].0.extend(&bytes[..count]);
        Ok(count)
    }

    fn sync(&self, file: &mut usize) -> io::Result<()> {
        self.call()?;
        let file = &mut self.state.borrow_mut().files[*file];
        file.1 = Some(file.0.clone());
        Ok(())
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.call()?;
        let file = self.state.borrow().names[from];
        self.change(vec![(from.to_owned(), None), (to.to_owned(), Some(file))]);
        Ok(())
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        self.call()?;
        self.change(vec![(path.to_owned(), None)]);
        Ok(())
    }

    fn sync_folder(&self, _: &Path) -> io::Result<()> {
        self.call()?;
        let mut state = self.state.borrow_mut();
        state.sure = state.names.clone();
        state.pending.clear();
        Ok(())
    }
}

const OLD: &[u8] = b"what a person drew yesterday";
const NEW: &[u8] = b"what a person drew today, and that is more";

fn path() -> PathBuf {
    PathBuf::from("folder/house.ron")
}

/// Writes over `old` while things go wrong; old or new whole, and nothing between.
fn check(old: Option<&[u8]>, faults: &[(usize, Fault)]) -> (usize, io::Result<()>, Disk) {
    let disk = Disk::with(old, faults);
    let outcome = write_by(&disk, &path(), NEW);
    let old = old.map(<[u8]>::to_vec);
    let new = Some(NEW.to_vec());
    let is_whole = |found: &Option<Vec<u8>>| *found == old || *found == new;
    assert!(is_whole(&disk.seen(&path())), "{faults:?}");
    for found in disk.after_a_power_cut() {
        assert!(is_whole(&found), "{faults:?}: {found:?}");
    }
    match &outcome {
        Ok(()) => assert_eq!(disk.seen(&path()), new, "{faults:?}: told as written"),
        Err(_) => assert_eq!(disk.seen(&path()), old, "{faults:?}: told as not written"),
    }
    let calls = disk.state.borrow().calls;
    (calls, outcome, disk)
}

#[test]
fn what_is_written_is_sure_to_lie_there() {
    for old in [None, Some(OLD)] {
        let (calls, outcome, disk) = check(old, &[]);
        assert!(outcome.is_ok() && calls >= 6, "{calls}");
        assert!(
            disk.after_a_power_cut()
                .iter()
                .all(|found| found.as_deref() == Some(NEW))
        );
        assert_eq!(disk.state.borrow().names.len(), 1, "nothing is left beside it");
    }
}

#[test]
fn every_call_may_fail_in_every_way() {
    for old in [None, Some(OLD)] {
        let (calls, ..) = check(old, &[]);
        for at in 0..calls {
            for fault in ALL {
                let (_, outcome, disk) = check(old, &[(at, fault)]);
                let others = disk.state.borrow().names.keys().filter(|name| **name != path()).count();
                assert_eq!(others, 0, "nothing is left beside it: {fault:?} at call {at}");
                let is_nothing = matches!(fault, Fault::Short | Fault::Errno(EINTR));
                // That the folder could not be flushed is no fault of the file.
                let is_last = at + 1 == calls;
                assert_eq!(outcome.is_ok(), is_nothing || is_last, "{fault:?} at call {at}");
            }
        }
    }
}

#[test]
fn the_power_may_go_between_any_two_calls_after_whatever_went_wrong() {
    let mut cases = 0;
    for old in [None, Some(OLD)] {
        for cut in 0..16 {
            drop(check(old, &[(cut, Fault::PowerCut)]));
            for at in 0..cut {
                for fault in ALL {
                    drop(check(old, &[(at, fault), (cut, Fault::PowerCut)]));
                    for next in at + 1..cut {
                        for second in ALL {
                            drop(check(old, &[(at, fault), (next, second), (cut, Fault::PowerCut)]));
                            cases += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(cases > 20_000, "{cases}");
}

#[test]
fn the_check_itself_finds_what_is_written_in_place() {
    // A file that is not synced before it takes its place may come back as nothing, a part or zeros.
    let disk = Disk::with(Some(OLD), &[]);
    let mut open = disk.create(Path::new("folder/part")).unwrap();
    disk.write(&mut open, NEW).unwrap();
    disk.rename(Path::new("folder/part"), &path()).unwrap();
    let found = disk.after_a_power_cut();
    assert!(
        found
            .iter()
            .any(|found| found.as_deref().is_some_and(|bytes| bytes != OLD && bytes != NEW))
    );
}
