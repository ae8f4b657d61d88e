//! Reads what is worked at in a segment instead of moving controls, and the conditions that are counted after it.

use ashlane_shared::conditions::{Conditions, sheet::Report};

use super::{board::board, diagnosis::diagnosis, section::Section};
use crate::engine::Work;

/// The work of a segment; nothing inside where it has none, nothing at all where it is wrong.
pub(super) fn work(
    section: &Section<'_>,
    start: &Conditions,
    report: &mut Report<'_>,
) -> Option<Option<Work>> {
    match (section.has("diagnosis"), section.has("board")) {
        (false, false) => Some(None),
        (true, false) => {
            let case = diagnosis(section, start, report)?;
            Some(Some(Work::Diagnosis(Box::new(case))))
        }
        (false, true) => {
            let exercise = board(section, report)?;
            Some(Some(Work::Sequence(Box::new(exercise))))
        }
        (true, true) => {
            let message = "a segment has a diagnosis or a board, not both; keep one".to_owned();
            section.wrong(report, "board", message);
            None
        }
    }
}

/// What is counted after the work: of a case the machine with its fault, of the board the collector as it is.
pub(super) fn worked(work: &Work, start: &Conditions) -> Conditions {
    match work {
        // A case whose fault this machine cannot have was refused.
        Work::Diagnosis(case) => case.holds(start).unwrap_or_else(|_| start.clone()),
        Work::Sequence(_) => start.clone(),
    }
}
