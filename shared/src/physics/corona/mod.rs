//! The electric field between wires and plates, when the corona starts and how much current it gives.
//!
//! The [`solver`] answers; the closed forms beside it are the lines that a lesson draws and what the solver is tested
//! against.
#![doc = include_str!("limits.md")]

mod jacobi;
pub mod onset;
pub mod planes;
pub mod quadratic_law;
pub mod solver;
pub mod space_charge;
pub mod tube;
pub mod wire_field;
pub mod wire_row;

pub use jacobi::Jacobi;
pub use solver::CoronaSolver;
pub use tube::Tube;
pub use wire_field::WireField;
pub use wire_row::WireRow;
