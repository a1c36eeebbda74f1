//! What takes longer than a frame: worked out on another thread. Knows no widgets.

use std::panic::resume_unwind;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::thread;

/// Called from another thread when something new is to be seen.
pub type Wake = Arc<dyn Fn() + Send + Sync>;

/// Does two things at a time, the second on another thread, and waits for both.
pub fn both<A, B: Send>(one: impl FnOnce() -> A, other: impl Fn() -> B + Sync) -> (A, B) {
    let other = &other;
    thread::scope(|scope| match thread::Builder::new().spawn_scoped(scope, other) {
        Ok(begun) => {
            let one = one();
            (one, begun.join().unwrap_or_else(|panic| resume_unwind(panic)))
        }
        // A machine that gives no thread does one after the other.
        Err(_) => (one(), other()),
    })
}

/// Lets something go that takes its time to be taken apart: nobody waits for it.
pub fn let_go<T: Send + 'static>(what: T) {
    // Where there is no thread it is dropped here.
    let _ = thread::Builder::new().spawn(move || drop(what));
}

/// What another thread is at.
#[derive(Debug)]
pub struct Task<T>(Receiver<T>);

/// The thread came to no result.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lost;

impl<T: Send + 'static> Task<T> {
    /// Sets another thread to `make`; `wake` is called when it is done.
    pub fn begin(wake: &Wake, make: impl FnOnce() -> T + Send + 'static) -> Task<T> {
        let (to, from) = channel();
        let wake = Arc::clone(wake);
        thread::spawn(move || {
            // Nobody may be waiting any more: then there is nothing to do.
            if to.send(make()).is_ok() {
                wake();
            }
        });
        Task(from)
    }

    /// What was made here, as if another thread had.
    pub fn done(made: T) -> Task<T> {
        let (to, from) = channel();
        // It is received by the task.
        let _ = to.send(made);
        Task(from)
    }

    /// The result of work that has ended, which is then taken away; `None` while it goes on, or where there is none.
    pub fn ended(work: &mut Option<Task<T>>) -> Option<Result<T, Lost>> {
        let result = match work.as_ref()?.0.try_recv() {
            Ok(made) => Ok(made),
            Err(TryRecvError::Disconnected) => Err(Lost),
            Err(TryRecvError::Empty) => return None,
        };
        *work = None;
        Some(result)
    }
}

/// A result that is of one state of things, told by `K`: a revision of the job.
#[derive(Debug)]
pub struct Later<T, K = u64> {
    done: Option<(K, T)>,
    work: Option<Task<(K, T)>>,
}

impl<T, K> Default for Later<T, K> {
    fn default() -> Self {
        Later { done: None, work: None }
    }
}

impl<T: Send + 'static, K: Copy + PartialEq + Send + 'static> Later<T, K> {
    /// The result of a state where it is there; else another thread is set to it, once what is being worked out is done.
    /// `ready` gathers what that thread takes along.
    pub fn of<M: FnOnce() -> T + Send + 'static>(
        &mut self,
        of: K,
        wake: &Wake,
        ready: impl FnOnce() -> M,
    ) -> Option<&T> {
        if let Some(Ok(done)) = Task::ended(&mut self.work) {
            self.done = Some(done);
        }
        if !self.is_of(of) && self.work.is_none() {
            let make = ready();
            self.work = Some(Task::begin(wake, move || (of, make())));
        }
        self.kept(of)
    }

    /// The same, made at once.
    pub fn at_once(&mut self, of: K, make: impl FnOnce() -> T) -> Option<&T> {
        if !self.is_of(of) {
            (self.done, self.work) = (Some((of, make())), None);
        }
        self.kept(of)
    }

    /// The result of a state, where it is there already.
    pub fn kept(&self, of: K) -> Option<&T> {
        self.done.as_ref().filter(|done| done.0 == of).map(|done| &done.1)
    }

    /// The last result, of whatever state.
    pub fn last(&self) -> Option<&T> {
        self.done.as_ref().map(|done| &done.1)
    }

    fn is_of(&self, of: K) -> bool {
        self.done.as_ref().is_some_and(|done| done.0 == of)
    }
}
