//! The electric field between wires and plates, when the corona starts and how much current it gives.
//!
//! Closed forms only: they are the first guess of the field solver, the lines a lesson draws beside it, and the
//! answers it is tested against.

pub mod first_order;
mod jacobi;
pub mod onset;
pub mod planes;
pub mod quadratic_law;
pub mod space_charge;
pub mod tube;
pub mod wire_row;

pub use first_order::FirstOrderField;
pub use jacobi::Jacobi;
pub use tube::Tube;
pub use wire_row::WireRow;
