//! The frame of one field stands too close to its plates.

use super::{Fault, Struck};
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};

/// Share of the gap that is lost at severity 1: the example of physics.md 13.
const LOST: f64 = 1.0 / 6.0;

/// The row.
pub(super) const FAULT: Fault = Fault {
    name: "close-clearance",
    row: "T6",
    title: "Close clearance: a bowed plate, a shifted frame, a bent wire.",
    at_full: "25 of 150 mm, a sixth of the gap",
    signs: "kV, mA down and sparks up at one field that sparks; at the same kV more current; opacity up.",
    strike,
};

fn strike(conditions: &mut Conditions, struck: Struck) -> Result<(), PhysicsError> {
    let lost_m = struck.severity * LOST * conditions.gap_m();
    if let Some(defects) = conditions.defects.get_mut(struck.field) {
        defects.displaced_m += lost_m;
    }
    Ok(())
}
