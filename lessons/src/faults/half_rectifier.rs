//! One set has lost half of its rectifier.

use super::{Fault, Struck};
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};

/// The row.
pub(super) const FAULT: Fault = Fault {
    name: "half-rectifier",
    row: "T26",
    title: "Half of the rectifier lost: every second half cycle is missing.",
    at_full: "every second half cycle is missing",
    signs: "kV down, mA about half, no sparks at one set; opacity up.",
    strike,
};

fn strike(conditions: &mut Conditions, struck: Struck) -> Result<(), PhysicsError> {
    if let Some(defects) = conditions.defects.get_mut(struck.field) {
        defects.missing_half_cycles = defects.missing_half_cycles.max(struck.severity);
    }
    Ok(())
}
