//! Properties that hold for the whole pipeline, one file a property.

#![expect(clippy::expect_used, reason = "a test helper fails by panicking")]

mod agreement;
mod conservation;
mod determinism;
mod finite_mixing_count;
mod gusts;
mod site_sheet;
