//! One field has no supply any more: its set gives nothing.

use super::{Fault, Struck};
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};

/// The row.
pub(super) const FAULT: Fault = Fault {
    name: "supply-lost",
    row: "T17",
    title: "No primary supply of one set: breaker, fuse, thyristor or an interlock that is open.",
    at_full: "the set gives no voltage; between, that share of it is missing",
    signs: "kV 0 and mA 0 at one set, no sparks; opacity up; the others as before.",
    strike,
};

fn strike(conditions: &mut Conditions, struck: Struck) -> Result<(), PhysicsError> {
    if let Some(voltage_v) = conditions.electrical.voltage_v.get_mut(struck.field) {
        *voltage_v *= 1.0 - struck.severity;
    }
    Ok(())
}
