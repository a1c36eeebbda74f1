//! The same work for many labels, on several threads where there are enough of them.
//!
//! Not by the threads that search in the background: whoever draws would wait until they have nothing else to do.

use std::ops::Range;
use std::panic::resume_unwind;
use std::thread;

/// So many are worth a thread.
const LEAST: usize = 256;
/// More threads gain nothing.
const MOST: usize = 8;

/// What `each` finds for the numbers below `count`, in their order.
pub fn find<T: Send>(count: usize, each: impl Fn(Range<usize>) -> Vec<T> + Sync) -> Vec<T> {
    let threads = thread::available_parallelism().map_or(1, usize::from);
    let threads = threads.min(count / LEAST).clamp(1, MOST);
    let share = |number: usize| count * number / threads..count * (number + 1) / threads;
    let each = &each;
    thread::scope(|scope| {
        let others = (1..threads).map(|number| {
            let begun = thread::Builder::new().spawn_scoped(scope, move || each(share(number)));
            (number, begun)
        });
        let others: Vec<_> = others.collect();
        let mut all = each(share(0));
        for (number, begun) in others {
            all.extend(match begun {
                Ok(thread) => thread.join().unwrap_or_else(|panic| resume_unwind(panic)),
                // A machine that gives no thread does it all here.
                Err(_) => each(share(number)),
            });
        }
        all
    })
}

#[cfg(test)]
mod tests {
    #[test]
    fn everything_comes_once_and_in_order() {
        for count in [0, 1, 255, 256, 1_000, 5_003] {
            let found = super::find(count, |range| range.map(|number| number * 3).collect());
            assert!(found.iter().enumerate().all(|(number, found)| *found == number * 3));
            assert_eq!(found.len(), count);
        }
    }
}
