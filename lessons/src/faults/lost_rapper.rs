//! The hammers of one field no longer reach its plates, and the layer grows.

use super::{Fault, Struck};
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};

/// Share of the energy that is lost at severity 1: a shaft that is disconnected.
const LOST: f64 = 1.0;

/// The row.
pub(super) const FAULT: Fault = Fault {
    name: "lost-rapper",
    row: "T14",
    title: "Plate build-up: rappers frozen or disconnected, their energy lost.",
    at_full: "no blow reaches the plates of one field",
    signs: "Held by the current limit kV up; held by sparks kV and mA down, sparks up; opacity slowly up.",
    strike,
};

fn strike(conditions: &mut Conditions, struck: Struck) -> Result<(), PhysicsError> {
    if let Some(defects) = conditions.defects.get_mut(struck.field) {
        defects.lost_blow = defects.lost_blow.max(LOST * struck.severity);
    }
    Ok(())
}
