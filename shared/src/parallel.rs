//! The only place that knows threads: work on many things at once, answers in the order of the things.
//!
//! In a browser there are no threads, and the same call works through the list one by one.

use std::sync::OnceLock;

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
