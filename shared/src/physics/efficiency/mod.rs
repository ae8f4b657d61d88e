//! What share of the dust escapes, from the simplest textbook law to the exact answer for real mixing, and what
//! bypass, rapping and uneven gas add to it.

pub mod column;
pub mod corona_power;
pub mod finite_mixing;
pub mod limits;
pub mod losses;
pub mod march;
pub mod size_distribution;
pub mod sizing;
pub mod velocity_spread;

pub use column::{Column, ColumnStep};
pub use finite_mixing::penetration;
pub use size_distribution::{SizeClass, SizeDistribution};
