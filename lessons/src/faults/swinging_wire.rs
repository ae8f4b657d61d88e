//! A broken wire or a loose stabiliser swings between the plates of one field.

use std::f64::consts::PI;

use super::{Fault, Struck};
use ashlane_shared::{
    conditions::Conditions,
    physics::{PhysicsError, constants::GRAVITY_M_S2},
};

/// Share of the gap that it swings to either side at severity 1. Teaching value, no source.
const SWING: f64 = 0.4;

/// The row.
pub(super) const FAULT: Fault = Fault {
    name: "swinging-wire",
    row: "T7",
    title: "A broken wire or a loose stabiliser swings.",
    at_full: "40 % of the gap to either side (teaching value)",
    signs: "kV and mA of one field go up and down in rhythm, it sparks; opacity up.",
    strike,
};

fn strike(conditions: &mut Conditions, struck: Struck) -> Result<(), PhysicsError> {
    let swing_m = struck.severity * SWING * conditions.gap_m();
    let length_m = conditions.collector.plate_height_m;
    if let Some(defects) = conditions.defects.get_mut(struck.field)
        && swing_m > 0.0
    {
        defects.swing_m += swing_m;
        // A pendulum as long as the plate is high (Huygens 1673).
        defects.swing_s = 2.0 * PI * (length_m / GRAVITY_M_S2).sqrt();
    }
    Ok(())
}
