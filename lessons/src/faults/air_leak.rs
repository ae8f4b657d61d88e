//! Outside air is sucked into the gas before the fields.

use super::{Fault, Struck};
use ashlane_shared::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        gas_path::leakage::{OutsideAir, behind_leak, leak_share},
    },
    simulation::gas_at_face,
};

/// Oxygen before and behind the leak at severity 1, dry; the example of `physics.md` 13.
const OXYGEN: (f64, f64) = (0.06, 0.08);

/// The row.
pub(super) const FAULT: Fault = Fault {
    name: "air-leak",
    row: "T10",
    title: "Air in-leakage before the fields: doors, joints, hoppers.",
    at_full: "15.5 % air: oxygen from 6 to 8 %",
    signs: "temperature down, oxygen up, flow up; sparking voltage slightly up in cooler gas; opacity up.",
    strike,
};

fn strike(conditions: &mut Conditions, struck: Struck) -> Result<(), PhysicsError> {
    if struck.severity <= 0.0 {
        return Ok(());
    }
    let before = gas_at_face(conditions);
    let leak = struck.severity * leak_share(OXYGEN.0, OXYGEN.1)?;
    let behind = behind_leak(&before, &OutsideAir::TEACHING, leak)?;
    // The air brings no dust.
    conditions.dust.load_kg_m3 *= before.flow_m3_s / behind.flow_m3_s;
    let gas = &mut conditions.gas;
    gas.flow_m3_s = behind.flow_m3_s;
    gas.temperature_k = behind.temperature_k;
    gas.moisture = behind.moisture;
    gas.in_leakage.inlet = (1.0 + gas.in_leakage.inlet) * (1.0 + leak) - 1.0;
    Ok(())
}
