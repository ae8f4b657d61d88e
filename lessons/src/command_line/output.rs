//! Where results and diagnostics go; a reader who closes the pipe early is no error.

use std::io::{self, ErrorKind, Write};

use serde::Serialize;

use super::Failure;

/// The two streams of the program.
pub struct Io<'w> {
    /// Results.
    pub out: &'w mut dyn Write,
    /// Diagnostics.
    pub err: &'w mut dyn Write,
    /// Whether somebody watches the diagnostics, so that a progress bar is of use.
    pub err_is_terminal: bool,
    /// Asked from time to time by what takes long: no means that it was cancelled, and nothing is to be written.
    pub go_on: GoOn<'w>,
}

/// Whether to go on.
pub type GoOn<'w> = &'w (dyn Fn() -> bool + Sync);

impl std::fmt::Debug for Io<'_> {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.debug_struct("Io")
            .field("err_is_terminal", &self.err_is_terminal)
            .finish_non_exhaustive()
    }
}

impl Io<'_> {
    /// Writes a result.
    pub(super) fn print(&mut self, text: &str) -> Result<(), Failure> {
        let written = self
            .out
            .write_all(text.as_bytes())
            .and_then(|()| self.out.flush());
        match written {
            Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(Failure::Output(error)),
            _ => Ok(()),
        }
    }

    /// Writes a line of diagnostics. When even that fails, there is nobody left to tell.
    pub(super) fn tell(&mut self, text: &str) {
        let written: io::Result<()> = writeln!(self.err, "{text}").and_then(|()| self.err.flush());
        drop(written);
    }
}

/// One JSON object as text.
pub(super) fn one_object(value: &impl Serialize) -> Result<String, Failure> {
    let text =
        serde_json::to_string_pretty(value).map_err(|error| Failure::Output(error.into()))?;
    Ok(text + "\n")
}
