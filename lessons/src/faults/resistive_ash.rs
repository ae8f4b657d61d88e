//! The ash resists the current more, and the layer that it makes clings to every plate: early sparks, or back corona.

use super::{Fault, Struck};
use ashlane_shared::{
    conditions::{Conditions, Resistivity},
    physics::PhysicsError,
    simulation::layer_resistivity_ohm_m,
};

/// Resistivity at severity 1, Ω·m: sparks before it glows, and glows. Teaching values, no source; 2e10 Ω·cm is where it
/// begins to matter.
const SPARKING_OHM_M: f64 = 3e9;
const GLOWING_OHM_M: f64 = 1e10;
/// Layer that raps leave on every plate then, m. Teaching value, no source: current presses such a layer to the plate.
const CLINGS_M: f64 = 1e-3;

/// The row of sparking.
pub(super) const SPARKING: Fault = Fault {
    name: "high-resistivity",
    row: "T3",
    title: "High resistivity: less sulphur, moisture or conditioning, or gas at the worst temperature.",
    at_full: "3e11 Ω·cm, and 1 mm that no rap takes off (invented)",
    signs: "kV as before or down, mA far down where it was high, sparks up: inlet and outlet alike; opacity up.",
    strike: |conditions, struck| strike(conditions, struck, SPARKING_OHM_M),
};

/// The row of back corona.
pub(super) const GLOWING: Fault = Fault {
    name: "back-corona",
    row: "T2",
    title: "Back corona in a layer of very high resistivity.",
    at_full: "1e12 Ω·cm, and 1 mm that no rap takes off (invented)",
    signs: "kV down, mA far up, few or no sparks, the V–I curve bends back; opacity up; less power makes it better.",
    strike: |conditions, struck| strike(conditions, struck, GLOWING_OHM_M),
};

fn strike(
    conditions: &mut Conditions,
    struck: Struck,
    worst_ohm_m: f64,
) -> Result<(), PhysicsError> {
    if struck.severity <= 0.0 {
        return Ok(());
    }
    let sound_ohm_m = layer_resistivity_ohm_m(conditions)?.max(f64::MIN_POSITIVE);
    let worse = (worst_ohm_m / sound_ohm_m).max(1.0).powf(struck.severity);
    conditions.dust.resistivity = Resistivity::Given(sound_ohm_m * worse);
    for layer_m in &mut conditions.rapping.layer_m {
        *layer_m = layer_m.max(struck.severity * CLINGS_M);
    }
    Ok(())
}
