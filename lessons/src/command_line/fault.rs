//! `ashlane fault list`: what an instructor can do to a collector, and how it shows.

use super::{FINE, Failure, Io, words::FaultWord};
use crate::{engine::NOTICE, faults::FAULTS};

pub(super) fn fault(word: &FaultWord, io: &mut Io<'_>) -> Result<u8, Failure> {
    let FaultWord::List = word;
    let rows: Vec<String> = FAULTS
        .iter()
        .map(|fault| {
            format!(
                "{} ({})\n  {}\n  severity 1: {}\n  signs: {}\n",
                fault.name, fault.row, fault.title, fault.at_full, fault.signs
            )
        })
        .collect();
    io.print(&format!("{}\n{NOTICE}\n", rows.join("\n")))?;
    Ok(FINE)
}
