//! The formula for what the monitor in the stack shows: opacity of dust of one size.

use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        stack::{grain_extinction, mass_extinction_m2_kg, opacity},
    },
    plant::{REFRACTIVE_INDEX, STACK_M, WAVELENGTH_M},
    theory,
};

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
