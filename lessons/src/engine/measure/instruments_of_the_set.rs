//! The instruments at an electrical set: its meters, its recorder, and what the dust on the plates takes of its voltage.

use ashlane_shared::{
    conditions::Conditions,
    physics::{PhysicsError, energization::Trace},
    simulation::{
        Electrics, FieldEnergization, FieldState, electrics, energization_of,
        layer_resistivity_ohm_m,
    },
};

use super::instruments::impossible;

/// How long the recorder writes, s, and how much of its beginning is left out, as the voltage comes up.
const RECORDED_S: f64 = 600.0;
const START_UP_S: f64 = 20.0;
/// Seed of the dice of the recorder's sparks.
const SEED: u64 = 3;
/// Temperatures among which the worst for the layer is looked for, K, and the step.
const SEARCHED_K: (f64, f64) = (343.15, 573.15);
const STEP_K: f64 = 0.25;

/// The first field as it was solved.
fn first(solved: &Electrics) -> Result<&FieldState, PhysicsError> {
    let state = solved.states.first();
    state.ok_or_else(|| impossible("there is no field"))
}

/// The set of the first field.
fn set(conditions: &Conditions) -> Result<FieldEnergization, PhysicsError> {
    energization_of(conditions, electrics(conditions)?.as_ref(), 0)
}

/// Mean voltage that the set of the first field reaches, V.
pub(super) fn voltage_v(conditions: &Conditions) -> Result<f64, PhysicsError> {
    Ok(first(electrics(conditions)?.as_ref())?.metered_v())
}

/// Mean current of the set over the plates, A/m²: what its milliammeter shows.
pub(super) fn current_a_m2(conditions: &Conditions) -> Result<f64, PhysicsError> {
    Ok(first(electrics(conditions)?.as_ref())?.metered_a_m2())
}

/// Voltage that is lost in the layer, V: that of the set less that of the solved gap.
pub(super) fn layer_drop_v(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let solved = electrics(conditions)?;
    let wires = solved.fields.first();
    let wires = wires.ok_or_else(|| impossible("there is no field"))?;
    Ok(first(&solved)?.voltage_v - wires.solution().voltage_v)
}

/// Field in the layer, V/m: the voltage that is lost over its thickness.
pub(super) fn layer_field_v_m(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let thickness_m = conditions.rapping.layer_m.first().copied().unwrap_or(0.0);
    if thickness_m <= 0.0 {
        return Err(impossible("there is no dust on the plates"));
    }
    Ok(layer_drop_v(conditions)? / thickness_m)
}

/// Resistivity of the layer as a probe finds it, Ω·m: its field over the current through it.
pub(super) fn layer_resistivity(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let density_a_m2 = current_a_m2(conditions)?;
    if density_a_m2 <= 0.0 {
        return Err(impossible("no current flows through the layer"));
    }
    Ok(layer_field_v_m(conditions)? / density_a_m2)
}

/// Temperature at which this dust resists most, K.
pub(super) fn worst_temperature_k(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let mut at = conditions.clone();
    let mut worst = (0.0, 0.0);
    let steps = ((SEARCHED_K.1 - SEARCHED_K.0) / STEP_K) as u32;
    for step in 0..=steps {
        at.gas.temperature_k = SEARCHED_K.0 + f64::from(step) * STEP_K;
        let resistivity_ohm_m = layer_resistivity_ohm_m(&at)?;
        if resistivity_ohm_m > worst.0 {
            worst = (resistivity_ohm_m, at.gas.temperature_k);
        }
    }
    Ok(worst.1)
}

/// What the recorder of the first field's set writes, half cycle by half cycle, once its voltage has come up.
fn recorded(conditions: &Conditions) -> Result<Trace, PhysicsError> {
    let mut trace = set(conditions)?.trace(SEED, RECORDED_S)?;
    let left_out = (START_UP_S / trace.half_cycle_s) as usize;
    trace.points.drain(..left_out.min(trace.points.len()));
    Ok(trace)
}

/// Mean voltage of the recording, V: the waits after sparks count.
pub(super) fn recorded_voltage_v(conditions: &Conditions) -> Result<f64, PhysicsError> {
    Ok(recorded(conditions)?.mean_voltage_v())
}

/// Mean current of the recording over the plates, A/m².
pub(super) fn recorded_current_a_m2(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let area_m2 = set(conditions)?.plate_area_m2;
    Ok(recorded(conditions)?.mean_current_a() / area_m2)
}

/// Sparks counted in the recording, 1/s.
pub(super) fn recorded_sparks_per_s(conditions: &Conditions) -> Result<f64, PhysicsError> {
    Ok(recorded(conditions)?.sparks_per_min() / 60.0)
}

/// Power behind the rectifier, W: voltage times current of every moment of a half cycle, added up.
pub(super) fn secondary_power_w(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let cycle = set(conditions)?.waveform;
    cycle
        .map(|cycle| cycle.secondary_power_w)
        .ok_or_else(|| impossible("the field is off"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use ashlane_shared::conditions::{Composition, Resistivity, demonstration};

    /// One field with little dust in its gas and a layer of 5 mm on its plates.
    fn with_layer(resistivity_ohm_m: f64) -> Conditions {
        let mut conditions = demonstration();
        conditions.set_fields(1);
        conditions.dust.load_kg_m3 = 1e-6;
        conditions.electrical.voltage_v = vec![38e3];
        conditions.rapping.layer_m = vec![5e-3];
        conditions.dust.resistivity = Resistivity::Given(resistivity_ohm_m);
        conditions
    }

    #[test]
    fn the_layer_shows_the_resistivity_that_it_was_given() {
        for resistivity_ohm_m in [1e8, 1e9] {
            let conditions = with_layer(resistivity_ohm_m);
            let found = layer_resistivity(&conditions).expect("a layer");
            let ratio = found / resistivity_ohm_m;
            assert!((ratio - 1.0).abs() < 1e-3, "{ratio}");
        }
        assert!(layer_field_v_m(&demonstration()).is_err(), "no layer");
    }

    #[test]
    fn the_demonstration_ash_is_worst_at_its_known_temperature() {
        let mut conditions = demonstration();
        conditions.gas.moisture = 0.09;
        conditions.dust.resistivity = Resistivity::FromComposition(Composition {
            lithium_sodium_percent: 0.42,
            iron_percent: 1.0,
            magnesium_calcium_percent: 1.5,
            potassium_percent: 1.2,
        });
        // physics.md value Z1: 153.9 °C.
        let worst_k = worst_temperature_k(&conditions).expect("a layer");
        assert!((worst_k - 427.05).abs() < 0.5, "{worst_k}");
    }

    #[test]
    fn a_set_below_sparking_is_recorded_without_sparks() {
        let conditions = with_layer(1e8);
        let sparks_per_s = recorded_sparks_per_s(&conditions).expect("a set");
        assert!(sparks_per_s < 1e-9, "{sparks_per_s}");
        let recorded_v = recorded_voltage_v(&conditions).expect("a set");
        let ratio = recorded_v / voltage_v(&conditions).expect("a set");
        assert!((ratio - 1.0).abs() < 0.01, "{ratio}");
    }
}
