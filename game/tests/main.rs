//! The whole program: the window on a stage, its pictures, a lesson played in it, and the process as a user starts it.
#![expect(
    clippy::expect_used,
    reason = "a test stops at the first thing that is not as it should be"
)]

mod compare;
mod lesson;
mod pictures;
mod process;
mod support;
mod trials;
mod window;
