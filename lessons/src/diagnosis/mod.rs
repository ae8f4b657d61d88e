//! Diagnosis: a fault is hidden in a real machine, readings are opened and checks ordered, and a cause is named from them.
//!
//! A [`Case`] says which fault, where, for how long, and which causes are offered. [`Evidence`] runs the sound and the ill
//! machine on the plant clock; every row of [`CHECKS`] reads both and writes nothing. What a learner does is a list of
//! [`Act`]s: [`Desk::replayed`] makes the same desk of the same list, so that the list is the record and a shorter one
//! is an undo. [`score()`] says what came of it; speed counts for nothing.

mod act;
mod actions;
mod case;
mod checks;
mod evidence;
mod finding;
mod readings;
mod score;
#[cfg(test)]
mod tests;

pub use act::{Act, Desk, DeskError};
pub use actions::{ACTIONS, Action, find_action};
pub use case::{Case, Cause, Sign, Solution};
pub use checks::{CHECKS, Check, Reach, Signs, find_check};
pub use evidence::{Evidence, Shown};
pub use finding::{Finding, Turn, same_pattern};
pub use score::{
    Attempt, CaseReport, Citation, Outcome, Separation, SignResult, score, separations, signs,
};
