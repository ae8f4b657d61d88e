//! The library everything in Ashlane shares: what a precipitator is told, what it computes, and how that is checked.
//!
//! One straight pipeline: [`conditions`] (what the sheet or the controls say) go through [`physics`] (pure formulas
//! and solvers) into the [`simulation`] (state and step); [`checks`] compare what was counted with what theory says.
//! It knows no window, no engine, no clock and no lesson.

pub mod alarms;
pub mod checks;
pub mod conditions;
pub mod count;
pub mod machine;
mod parallel;
pub mod physics;
pub mod plant;
pub mod simulation;
pub mod theory;
pub mod units;

pub use parallel::{ThreadError, beside, side_by_side, with_threads};
