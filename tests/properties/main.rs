//! Properties that hold for the whole pipeline, one file a property.

#![expect(clippy::expect_used, reason = "a test helper fails by panicking")]

mod agreement;
mod clear_errors;
mod command_line;
mod conservation;
mod corona_solver;
mod determinism;
mod finite_mixing_count;
mod gusts;
mod house_rules;
mod lessons;
mod plant_books;
mod site_sheet;
mod sneakage;
mod two_clocks;
