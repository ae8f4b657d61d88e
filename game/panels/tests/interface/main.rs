//! The panels as a user and a screen reader meet them: labels found, keys work, commands emitted, nothing cut off.
#![expect(
    clippy::expect_used,
    reason = "a test stops at the first thing that is not as it should be"
)]

mod access;
mod board;
mod caught;
mod clocks;
mod commands;
mod compare;
mod cross_section;
mod drawings;
mod elevation;
mod elevation_gas;
mod energization;
mod everywhere;
mod explore;
mod face;
mod faults;
mod grain;
mod handout;
mod handout_print;
mod handout_work;
mod inside;
mod layer_curve;
mod learning;
mod lesson;
mod parts;
mod plant;
mod plates;
mod presenter;
mod presenter_tools;
mod support;
mod trends;
mod wire;
mod zoom;
