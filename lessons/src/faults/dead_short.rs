//! The wires of one field touch something grounded.

use super::{Fault, Struck};
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};

/// Conductance of the short at severity 1, S. Teaching value, no source.
const SHORT_S: f64 = 0.05;

/// The row.
pub(super) const FAULT: Fault = Fault {
    name: "dead-short",
    row: "T1",
    title: "Dead short of one field: a broken wire on a plate, ash up to the frame, a failed insulator.",
    at_full: "20 Ω to ground (invented)",
    signs: "kV about 0, mA at the limit, no sparks; opacity up.",
    strike,
};

fn strike(conditions: &mut Conditions, struck: Struck) -> Result<(), PhysicsError> {
    if let Some(defects) = conditions.defects.get_mut(struck.field) {
        defects.leakage_s += struck.severity * SHORT_S;
    }
    Ok(())
}
