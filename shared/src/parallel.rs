//! The only place that knows threads: work on many things at once, answers in the order of the things.
//!
//! In a browser there are no threads, and the same call works through the list one by one.

use std::{
    panic::resume_unwind,
    sync::{
        OnceLock,
        atomic::{AtomicUsize, Ordering},
    },
    thread,
};

use rayon::prelude::*;

/// Applies `work` to 0, 1, … `count` − 1 and gives the results in that order.
pub(crate) fn map_indices<R: Send>(
    range: std::ops::Range<usize>,
    work: impl Fn(usize) -> R + Send + Sync,
) -> Vec<R> {
    range.into_par_iter().map(work).collect()
}

/// Applies `work` to every item, which it may change, and gives the results in the order of the items.
pub(crate) fn map_mut<T: Send, R: Send>(
    items: &mut [T],
    work: impl Fn(&mut T) -> R + Send + Sync,
) -> Vec<R> {
    items.par_iter_mut().map(work).collect()
}

/// How many things are worked on at once.
pub(crate) fn width() -> usize {
    rayon::current_num_threads()
}

/// Runs long `work` on threads of its own, so that short work elsewhere does not wait behind it: a drawn flight steps
/// between two frames, while a count goes on for seconds.
///
/// Where no more threads can be started, and in a browser, it runs as all work does.
pub fn beside<R: Send>(work: impl FnOnce() -> R + Send) -> R {
    static BESIDE: OnceLock<Option<rayon::ThreadPool>> = OnceLock::new();
    let started = || {
        let builder = rayon::ThreadPoolBuilder::new().num_threads(width());
        builder.build().ok()
    };
    match BESIDE.get_or_init(started) {
        Some(pool) => pool.install(work),
        None => work(),
    }
}

/// Does long `work` on every item, each on a thread of its own while there is one, and gives the results in the order of
/// the items; the first items begin first.
///
/// Not on the threads of the pool: work that waits for a lock there might be given, while it waits for others, work
/// that wants the same lock. Where no more threads can be started, and in a browser, it goes through the items one by one.
pub fn side_by_side<T: Sync, R: Send>(items: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let next = AtomicUsize::new(0);
    let take = || {
        let mut done = Vec::new();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            let Some(item) = items.get(index) else {
                return done;
            };
            done.push((index, work(item)));
        }
    };
    let mut done = thread::scope(|scope| {
        let others: Vec<_> = (1..width().min(items.len()))
            .filter_map(|_| thread::Builder::new().spawn_scoped(scope, take).ok())
            .collect();
        let mut done = take();
        for other in others {
            match other.join() {
                Ok(of_other) => done.extend(of_other),
                Err(panic) => resume_unwind(panic),
            }
        }
        done
    });
    done.sort_by_key(|(index, _)| *index);
    done.into_iter().map(|(_, result)| result).collect()
}

/// Runs `work` with a given number of threads; nothing means as many as the machine or the environment says.
///
/// # Errors
/// The threads could not be started.
pub fn with_threads<R: Send>(
    threads: Option<usize>,
    work: impl FnOnce() -> R + Send,
) -> Result<R, ThreadError> {
    let Some(threads) = threads else {
        return Ok(work());
    };
    rayon::ThreadPoolBuilder::new()
        .num_threads(threads)
        .build()
        .map(|pool| pool.install(work))
        .map_err(|cause| ThreadError(cause.to_string()))
}

/// The threads could not be started.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("cannot start the threads: {0}")]
pub struct ThreadError(String);

#[cfg(test)]
mod tests {
    use std::sync::Mutex;

    use super::*;

    #[test]
    fn results_come_in_the_order_of_the_items_also_where_the_work_locks_and_uses_the_pool() {
        static LOCK: Mutex<()> = Mutex::new(());
        let items: Vec<usize> = (0..40).collect();
        let sums = side_by_side(&items, |&item| {
            let _turn = LOCK.lock().expect("a lock");
            map_indices(0..item + 1, |index| index)
                .iter()
                .sum::<usize>()
        });
        let expected: Vec<usize> = items.iter().map(|item| item * (item + 1) / 2).collect();
        assert_eq!(sums, expected);
        assert!(side_by_side::<usize, usize>(&[], |item| *item).is_empty());
    }
}
