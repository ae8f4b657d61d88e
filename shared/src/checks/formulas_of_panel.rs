//! Formulas for what a panel shows: the power that a field takes, and the opacity of dust of one size.

use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        stack::{grain_extinction, mass_extinction_m2_kg, opacity},
    },
    plant::{REFRACTIVE_INDEX, STACK_M, WAVELENGTH_M},
    simulation::{electrics, energization_of},
    theory,
};

/// Power that the first field takes from its set, W, by the curve of the field.
///
/// `P = ∫ v I(v) dt / T`: what its capacitance takes it gives back within the half cycle
///
/// # Source
/// Kirchhoff's laws; energy of a capacitor, `∮ C v dv = 0`.
///
/// # Validity
/// A half cycle that repeats; the waveform balances its charge to 1 % from 1 nF and 1 mA on.
///
/// # Errors
/// A formula refused the conditions.
pub fn set_power_balance_w(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let solved = electrics(conditions)?;
    let set = energization_of(conditions, &solved, 0)?;
    let Some(waveform) = set.waveform else {
        return Ok(0.0);
    };
    // Samples are evenly spaced and the last is the first again.
    let moments = waveform.samples.len().saturating_sub(1);
    let taken = waveform.samples.iter().take(moments);
    let sum_w: f64 = taken
        .map(|sample| sample.voltage_v * set.load.curve().current_a(sample.voltage_v))
        .sum();
    Ok(sum_w / moments.max(1) as f64)
}

/// Opacity across the stack of what Deutsch's law lets through, all of one size.
///
/// `O = 1 − e^(−k c L)`, `c = c₀ e^(−w A/Q)`, `k = 3 Q_ext/(2 ρ d)`
///
/// # Source
/// Bouguer 1729; extinction of a grain after van de Hulst 1957.
///
/// # Validity
/// Dust of one diameter (`teaching.single_diameter`), full mixing, no losses; stack of 5 m and light of 550 nm (teaching
/// values).
///
/// # Errors
/// Dust of many sizes, or a formula refused the conditions.
pub fn bouguer_opacity(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let diameter_m = conditions.teaching.single_diameter_m;
    let diameter_m = diameter_m.ok_or_else(|| PhysicsError::Impossible {
        reason: "the opacity by one k needs dust of one diameter: teaching.single_diameter"
            .to_owned(),
    })?;
    let extinction = grain_extinction(diameter_m, WAVELENGTH_M, REFRACTIVE_INDEX)?;
    let k_m2_kg = mass_extinction_m2_kg(diameter_m, conditions.dust.density_kg_m3, extinction)?;
    let load_kg_m3 = conditions.dust.load_kg_m3 * theory::limits(conditions)?.deutsch_anderson;
    opacity(k_m2_kg, load_kg_m3, STACK_M)
}
