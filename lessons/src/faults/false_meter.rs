//! The kilovolt meter of one set shows the wrong number: its divider or shunt is bad.

use super::{Fault, Struck};
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};

/// Share of the voltage that the meter loses at severity 1. Teaching value, no source.
const LOST: f64 = 0.5;

/// The row.
pub(super) const FAULT: Fault = Fault {
    name: "false-meter",
    row: "T27",
    title: "A false kilovolt meter: its divider or shunt is bad.",
    at_full: "it shows half of the voltage (teaching value)",
    signs: "One kV reading wrong; mA, sparks and opacity as before.",
    strike,
};

fn strike(conditions: &mut Conditions, struck: Struck) -> Result<(), PhysicsError> {
    if let Some(defects) = conditions.defects.get_mut(struck.field) {
        defects.meter_share *= 1.0 - LOST * struck.severity;
    }
    Ok(())
}
