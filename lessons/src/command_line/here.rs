//! The thin adaptor to the real process: its arguments, its streams, its terminal.

use std::io::{IsTerminal, stderr, stdout};

use super::{Io, Outcome, run};

/// Does what the words of this process say, on its own streams.
#[must_use]
pub fn run_here() -> Outcome {
    let (mut out, mut err) = (stdout(), stderr());
    let err_is_terminal = err.is_terminal();
    let mut io = Io {
        out: &mut out,
        err: &mut err,
        err_is_terminal,
    };
    run(std::env::args_os(), &mut io)
}
