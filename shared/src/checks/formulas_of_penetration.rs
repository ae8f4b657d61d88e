//! Formulas of the penetration of the whole dust that lessons may name: full mixing, none, any, and twice the area.

use crate::{
    conditions::Conditions,
    physics::{PhysicsError, efficiency::limits::matts_ohnfeldt},
    theory,
};

/// Exponent of the stretched exponential for fly ash.
const MATTS_OHNFELDT_EXPONENT: f64 = 0.5;

/// Penetration with full mixing across the gap, summed over the sizes of the dust.
///
/// `P = Σ f(d) e^(−w(d) A/Q)`
///
/// # Source
/// Anderson 1919, Deutsch 1922 (Ann. Phys. 373:335).
///
/// # Validity
/// Full mixing, no losses, even gas; with the computed electric field w is that at the plate.
///
/// # Errors
/// A formula refused the conditions.
pub fn deutsch_anderson_penetration(conditions: &Conditions) -> Result<f64, PhysicsError> {
    Ok(theory::limits(conditions)?.deutsch_anderson)
}

/// Penetration without any mixing across the gap, summed over the sizes of the dust.
///
/// `P = Σ f(d) max(0, 1 − w(d) A/Q)`
///
/// # Source
/// Integral along the paths of the grains, computed.
///
/// # Validity
/// Laminar flow, no losses, even gas.
///
/// # Errors
/// A formula refused the conditions.
pub fn laminar_penetration(conditions: &Conditions) -> Result<f64, PhysicsError> {
    Ok(theory::limits(conditions)?.laminar)
}

/// Penetration by the deterministic solver, with everything that the count has.
///
/// `u ∂C/∂x = D ∂²C/∂y² − ∂(wC)/∂y`, field by field with sneakage and rapping loss, over lanes of uneven gas
///
/// # Source
/// Leonard, Mitchner & Self 1980, Atmos. Environ. 14:1289; losses after US EPA, Air Pollution Control Cost Manual.
///
/// # Validity
/// 1 % with one migration velocity, 10 % with the computed electric field.
///
/// # Errors
/// A formula refused the conditions.
pub fn finite_mixing_penetration(conditions: &Conditions) -> Result<f64, PhysicsError> {
    Ok(theory::solve(conditions)?.finite_mixing)
}

/// What Deutsch's law makes of this collector's own penetration when the area is doubled.
///
/// `P₂ = e^(−2 w A/Q) = P₁²`
///
/// # Source
/// Deutsch 1922 (Ann. Phys. 373:335), solved for twice the area.
///
/// # Validity
/// One migration velocity, full mixing, no losses; elsewhere it promises too much.
///
/// # Errors
/// A formula refused the conditions.
///
/// ```
/// use ashlane_shared::{checks, conditions::{Mixing, demonstration}};
/// let mut conditions = demonstration();
/// conditions.collector.sneakage = 0.0;
/// conditions.rapping.reentrained = 0.0;
/// conditions.gas.velocity_spread = 0.0;
/// conditions.teaching.mixing = Some(Mixing::Full);
/// // Efficiency 90 %: w A/Q = ln 10. Twice the area gives 99 %.
/// conditions.teaching.migration_velocity_m_s = Some(10f64.ln() / conditions.specific_collection_area_s_m());
/// let escaped = checks::deutsch_after_doubling_area(&conditions)?;
/// assert!((escaped - 0.01).abs() < 1e-9);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn deutsch_after_doubling_area(conditions: &Conditions) -> Result<f64, PhysicsError> {
    Ok(finite_mixing_penetration(conditions)?.powi(2))
}

/// What the stretched exponential of the trade makes of this collector's own penetration when the area is doubled.
///
/// `P = e^(−(w_k A/Q)^k)`, so `P₂ = P₁^(2^k)`, k = 0.5
///
/// # Source
/// Matts & Öhnfeldt 1963, SF Review 6/7; k from memory of it.
///
/// # Validity
/// A fit for fly ash of many sizes, near the area it was measured at.
///
/// # Errors
/// A formula refused the conditions.
pub fn matts_ohnfeldt_after_doubling_area(conditions: &Conditions) -> Result<f64, PhysicsError> {
    // −ln P = (w_k A/Q)^k gives w_k A/Q back, and that doubles with the area.
    let number = (-finite_mixing_penetration(conditions)?.ln()).powf(1.0 / MATTS_OHNFELDT_EXPONENT);
    Ok(matts_ohnfeldt(2.0 * number, MATTS_OHNFELDT_EXPONENT))
}
