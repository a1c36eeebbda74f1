//! What takes longer than a frame: worked out on another thread, kept for as long as it serves. Knows no widgets.

use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

/// A result that is of one revision of the job.
pub struct Later<T> {
    done: Option<(u64, T)>,
    work: Option<Receiver<(u64, T)>>,
}

impl<T> Default for Later<T> {
    fn default() -> Self {
        Later { done: None, work: None }
    }
}

impl<T: Send + 'static> Later<T> {
    /// The result of a revision where it is there; else `make` is set to it, on another thread, once what is being worked
    /// out is done. `wake` is called when there is something new.
    pub fn of(
        &mut self,
        revision: u64,
        wake: &Arc<dyn Fn() + Send + Sync>,
        make: impl FnOnce() -> T + Send + 'static,
    ) -> Option<&T> {
        if let Some(work) = &self.work {
            match work.try_recv() {
                Ok(done) => (self.done, self.work) = (Some(done), None),
                Err(TryRecvError::Empty) => {}
                Err(TryRecvError::Disconnected) => self.work = None,
            }
        }
        if !self.is_of(revision) && self.work.is_none() {
            let (to, from) = channel();
            let wake = Arc::clone(wake);
            std::thread::spawn(move || {
                // Nobody may be waiting any more: then there is nothing to do.
                if to.send((revision, make())).is_ok() {
                    wake();
                }
            });
            self.work = Some(from);
        }
        self.kept(revision)
    }

    /// The same, made at once.
    pub fn at_once(&mut self, revision: u64, make: impl FnOnce() -> T) -> Option<&T> {
        if !self.is_of(revision) {
            (self.done, self.work) = (Some((revision, make())), None);
        }
        self.kept(revision)
    }

    /// The result of a revision, where it is there already.
    pub fn kept(&self, revision: u64) -> Option<&T> {
        self.done.as_ref().filter(|done| done.0 == revision).map(|done| &done.1)
    }

    fn is_of(&self, revision: u64) -> bool {
        self.done.as_ref().is_some_and(|done| done.0 == revision)
    }
}
