//! What was read on the plant clock against balances and formulas that share no road with it.
//!
//! Readings may lie at any times, one or thousands of them; they are of the conditions that are given beside them.

mod books;
mod hopper;
mod layer;
mod smoke;
#[cfg(test)]
mod tests;

pub use books::{dust_balance, settled_penetration};
pub use hopper::{alarm_volume_m3, hours_to_alarm, time_of_alarm};
pub use layer::{layer_drop, layer_field};
pub use smoke::{mass_extinction_by_shadows_m2_kg, optical_depth};
