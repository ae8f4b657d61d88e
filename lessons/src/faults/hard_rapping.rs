//! The plates are struck too hard: the dust comes off as a cloud instead of a sheet.

use super::{Fault, Struck};
use ashlane_shared::{conditions::Conditions, physics::PhysicsError};

/// The most of the dislodged dust that may go back into the gas.
const MOST: f64 = 0.6;

/// The row.
pub(super) const FAULT: Fault = Fault {
    name: "hard-rapping",
    row: "T13",
    title: "Rapping too hard: the dust comes off as a cloud instead of a sheet.",
    at_full: "twice the acceleration, and twice the share that goes back into the gas (invented)",
    signs: "kV, mA and sparks as before; sharp, regular spikes of opacity in the rhythm of the raps.",
    strike,
};

fn strike(conditions: &mut Conditions, struck: Struck) -> Result<(), PhysicsError> {
    let rapping = &mut conditions.rapping;
    let factor = 1.0 + struck.severity;
    rapping.acceleration_m_s2 *= factor;
    rapping.reentrained = (rapping.reentrained * factor).min(MOST);
    Ok(())
}
