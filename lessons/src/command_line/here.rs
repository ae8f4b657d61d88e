//! The thin adaptor to the real process: its arguments, its streams, its terminal.

use std::{
    io::{IsTerminal, stderr, stdout},
    sync::atomic::{AtomicBool, Ordering},
    time::{SystemTime, UNIX_EPOCH},
};

use super::{Io, Opened, Outcome, headless, run};
use crate::store::Day;

/// Whether somebody pressed Ctrl+C.
static STOPPED: AtomicBool = AtomicBool::new(false);

/// Does what the words of this process say, on its own streams.
#[must_use]
pub fn run_here() -> Outcome {
    // Only what asks whether to go on may keep the signal from ending the process; the window has a way of its own.
    if std::env::args_os()
        .nth(1)
        .is_some_and(|word| word == "simulate")
    {
        let told = ctrlc::set_handler(|| STOPPED.store(true, Ordering::Relaxed));
        // Without it Ctrl+C ends the process at once, which leaves nothing half written either.
        drop(told);
    }
    with_streams(|io| run(std::env::args_os(), io))
}

/// Counts this collector instead of opening a window, on the streams of this process; returns the exit code.
#[must_use]
pub fn headless_here(opened: &Opened) -> u8 {
    with_streams(|io| headless(opened, io))
}

fn with_streams<R>(work: impl FnOnce(&mut Io<'_>) -> R) -> R {
    let (mut out, mut err) = (stdout(), stderr());
    let err_is_terminal = err.is_terminal();
    work(&mut Io {
        out: &mut out,
        err: &mut err,
        err_is_terminal,
        go_on: &|| !STOPPED.load(Ordering::Relaxed),
    })
}

/// The day that the clock of this machine says (UTC).
#[expect(
    clippy::disallowed_methods,
    reason = "what is due depends on the day; no simulation does"
)]
pub(super) fn today() -> Day {
    let since_1970 = SystemTime::now().duration_since(UNIX_EPOCH);
    Day::of_unix_time(since_1970.map_or(0, |since| since.as_secs()))
}
