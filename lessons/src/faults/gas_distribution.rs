//! The gas comes in unevenly and more of it goes round the fields.

use super::{Fault, Struck};
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};

/// What severity 1 adds. Teaching values, no source; little sneakage, because the dust that goes round a field is missing
/// in it: with 5 % more its current rises by a quarter, and the meters would not stay as the row has them.
const SPREAD: f64 = 0.15;
const SNEAKAGE: f64 = 0.02;
/// The most of each that the conditions may have.
const MOST: f64 = 0.5;

/// The row.
pub(super) const FAULT: Fault = Fault {
    name: "gas-distribution",
    row: "T16",
    title: "Plugged or holed distribution plate: uneven gas, and more of it round the fields.",
    at_full: "15 % more spread of the face velocity and 2 % more sneakage a field (invented)",
    signs: "kV, mA and sparks as before at every field; opacity up and steady.",
    strike,
};

fn strike(conditions: &mut Conditions, struck: Struck) -> Result<(), PhysicsError> {
    let (gas, collector) = (&mut conditions.gas, &mut conditions.collector);
    gas.velocity_spread = (gas.velocity_spread + SPREAD * struck.severity).min(MOST);
    collector.sneakage = (collector.sneakage + SNEAKAGE * struck.severity).min(MOST);
    Ok(())
}
