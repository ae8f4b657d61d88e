//! Current runs over the damp support insulators of one field.

use super::{Fault, Struck};
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};

/// Conductance at severity 1, S, and the share of the spark voltage that such insulators lose. Teaching values, no source.
const TRACK_S: f64 = 0.5e-6;
const WEAKER: f64 = 0.25;

/// The row.
pub(super) const FAULT: Fault = Fault {
    name: "insulator-tracking",
    row: "T9",
    title: "Insulator tracking: condensation or dirt, a heater or the purge air off.",
    at_full: "2 MΩ to ground, and flashover at three quarters of the spark voltage (invented)",
    signs: "mA up where the field does not spark, also below onset; where it sparks then, kV and mA down; damp weather, start-up; opacity up.",
    strike,
};

fn strike(conditions: &mut Conditions, struck: Struck) -> Result<(), PhysicsError> {
    if let Some(defects) = conditions.defects.get_mut(struck.field) {
        defects.leakage_s += struck.severity * TRACK_S;
        defects.insulator_share *= 1.0 - struck.severity * WEAKER;
    }
    Ok(())
}
