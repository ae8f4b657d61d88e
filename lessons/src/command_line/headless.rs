//! What happens where there is no display: the same count, with a progress bar and a printed result.

use super::{
    Failure, Io, Opened, WRONG_INPUT,
    simulate::{Request, Simulated, report},
};

/// Parcels of the count.
const PARCELS: usize = 200_000;
const SEED: u64 = 1;

/// Says that there is no display and counts this collector; returns the exit code.
pub fn headless(opened: &Opened, io: &mut Io<'_>) -> u8 {
    io.tell(&format!(
        "There is no display to open a window on. Counting the collector \"{}\" here instead.",
        opened.sheet.conditions.title
    ));
    counted(opened, io).unwrap_or_else(|failure| {
        io.tell(&failure.to_string());
        WRONG_INPUT
    })
}

fn counted(opened: &Opened, io: &mut Io<'_>) -> Result<u8, Failure> {
    let request = Request {
        parcels: PARCELS,
        seed: SEED,
        threads: None,
    };
    let simulated = Simulated::new(opened, &request, (io.err_is_terminal, io.go_on))?;
    io.print(&report(&simulated))?;
    Ok(simulated.exit_code())
}
