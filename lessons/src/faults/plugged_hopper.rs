//! The ash of one row of hoppers bridges over its outlets and is not taken away.

use super::{Fault, Struck};
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};

/// The row.
pub(super) const FAULT: Fault = Fault {
    name: "plugged-hopper",
    row: "T8",
    title: "Hopper filling: a plugged outlet, wet ash, a heater out.",
    at_full: "all ash of one row stays in its hoppers",
    signs: "Level rises to the alarm, later kV falls with sparks as the ash nears the frame, then a dead short; opacity up.",
    strike,
};

fn strike(conditions: &mut Conditions, struck: Struck) -> Result<(), PhysicsError> {
    if let Some(defects) = conditions.defects.get_mut(struck.field) {
        defects.bridged = defects.bridged.max(struck.severity);
    }
    Ok(())
}
