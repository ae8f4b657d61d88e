//! Dust sticks to the discharge wires of one field.

use super::{Fault, Struck};
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};

/// Coat at severity 1, m. Teaching value, no source.
const COAT_M: f64 = 1e-3;

/// The row.
pub(super) const FAULT: Fault = Fault {
    name: "dusty-wires",
    row: "T4",
    title: "Dust-coated discharge wires: their rapper has failed.",
    at_full: "1 mm of dust on the wires (invented)",
    signs: "kV up at the current limit, mA down at the same kV, corona starts later, fewer sparks; opacity slowly up.",
    strike,
};

fn strike(conditions: &mut Conditions, struck: Struck) -> Result<(), PhysicsError> {
    if let Some(defects) = conditions.defects.get_mut(struck.field) {
        defects.wire_coating_m += struck.severity * COAT_M;
        defects.uncleaned_wires = defects.uncleaned_wires.max(struck.severity);
    }
    Ok(())
}
