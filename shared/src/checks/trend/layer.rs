//! The dust on the plates as a resistance: its field and the voltage that it takes, by Ohm's law from outside the model.

use super::super::TwoWays;
use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        layer::back_corona::{TEACHING_BREAKDOWN_FIELD_V_M, breakdown_field_of_layer_v_m},
    },
    plant::FieldReading,
    simulation::{FieldEnergization, VoltageCurrentPoint, layer_resistivity_ohm_m},
};

/// Field in the layer of one reading, V/m: the voltage that is lost over the thickness against current density times
/// resistivity, at most breakdown.
///
/// `ΔV/h` against `min(jρ, E_b)`
///
/// Nothing where there is no layer or no current.
///
/// # Errors
/// A formula refused the conditions.
pub fn layer_field(
    conditions: &Conditions,
    field: &FieldReading,
) -> Result<Option<TwoWays>, PhysicsError> {
    let ohmic_v_m = field.current_density_a_m2 * layer_resistivity_ohm_m(conditions)?;
    if ohmic_v_m <= 0.0 || field.layer_m <= 0.0 {
        return Ok(None);
    }
    let most_v_m = breakdown_field_of_layer_v_m(TEACHING_BREAKDOWN_FIELD_V_M, field.layer_m);
    Ok(Some(TwoWays {
        shown: field.layer_drop_v / field.layer_m,
        expected: ohmic_v_m.min(most_v_m),
    }))
}

/// How far a layer moves the curve of current against voltage at the current of the set, or where the layer breaks if that
/// is less, V: the two curves as drawn, one less the other, against current density times resistivity times thickness.
///
/// `V_layer(j) − V_clean(j)` against `jρh`
///
/// Nothing without a layer or without current.
#[must_use]
pub fn layer_drop(
    set: &FieldEnergization,
    curve: &[VoltageCurrentPoint],
    resistivity_ohm_m: f64,
    thickness_m: f64,
) -> Option<TwoWays> {
    let breaks_v_m = breakdown_field_of_layer_v_m(TEACHING_BREAKDOWN_FIELD_V_M, thickness_m);
    let breaks_a_m2 = breaks_v_m / resistivity_ohm_m;
    let density_a_m2 = set.state.current_density_a_m2.min(breaks_a_m2);
    let expected = density_a_m2 * resistivity_ohm_m * thickness_m;
    if !expected.is_normal() {
        return None;
    }
    let moved_v = voltage_v(curve, density_a_m2)? - voltage_v(&set.dust_load, density_a_m2)?;
    Some(TwoWays {
        shown: moved_v,
        expected,
    })
}

/// Voltage at a current density, straight between the points of a curve; nothing beyond its ends.
fn voltage_v(curve: &[VoltageCurrentPoint], density_a_m2: f64) -> Option<f64> {
    // The last digit of a current that is the end of a curve.
    let within = |end_a_m2: f64| density_a_m2 <= end_a_m2 * (1.0 + 1e-9);
    let pair = curve.windows(2).find(|pair| {
        density_a_m2 >= pair[0].current_density_a_m2 && within(pair[1].current_density_a_m2)
    })?;
    let width = pair[1].current_density_a_m2 - pair[0].current_density_a_m2;
    let part = (density_a_m2 - pair[0].current_density_a_m2) / width;
    Some(pair[0].voltage_v + part * (pair[1].voltage_v - pair[0].voltage_v))
}
