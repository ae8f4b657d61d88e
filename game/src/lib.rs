//! The window, the pictures and the program of Ashlane.
#![expect(
    clippy::too_many_arguments,
    reason = "a system names what it reads and writes as its arguments"
)]
#![expect(
    elided_lifetimes_in_paths,
    reason = "the lifetimes of system parameters say nothing to a reader"
)]

mod alarms;
mod app;
mod board;
mod clocks;
mod close_looks;
mod commands;
mod compare;
mod counting;
mod exports;
mod face;
mod faults;
mod files;
mod flight;
mod handouts;
mod interface;
mod lesson;
mod machine;
mod pace;
mod pictures;
mod plan_view;
mod plant_days;
mod program;
mod schedule;
mod session;
mod stage;
mod trials;

pub use interface::Arrangement;
pub use machine::{adapter, has_display};
pub use program::run;
pub use stage::Stage;
