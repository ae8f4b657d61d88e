//! The lessons of Ashlane and the words of its command line.
//!
//! The [`engine`] reads a lesson file, plays it step by step and judges what was measured; it touches no file, no
//! window and no clock. The [`catalog`] holds the lessons that come with the program; [`check_table`] tells what each of
//! them measured. The [`store`] keeps what a learner did. The [`faults`] are what an instructor can do to a collector. The
//! [`glossary`] explains the words of the trade. The [`command_line`] is the whole program `ashlane` as a library: it does
//! everything but open windows and render pictures.

pub mod catalog;
pub mod check_table;
pub mod command_line;
pub mod diagnosis;
pub mod engine;
pub mod faults;
pub mod glossary;
pub mod prompts;
pub mod sequence;
pub mod store;
