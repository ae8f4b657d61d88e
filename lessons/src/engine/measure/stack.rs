//! The instrument in the stack: the opacity of what a count let through.

use ashlane_shared::{
    conditions::Conditions,
    count::{Counted, SizeCount},
    physics::{
        PhysicsError,
        stack::{grain_extinction, mass_extinction_m2_kg},
    },
    plant::{REFRACTIVE_INDEX, STACK_M, WAVELENGTH_M},
};

/// Opacity across the stack: the light that the counted grains of each class let through, class after class.
pub(super) fn opacity(
    conditions: &Conditions,
    classes: &[SizeCount],
) -> Result<Counted, PhysicsError> {
    let (mut light, mut blocked_by_error) = (1.0, 0.0_f64);
    for class in classes {
        let extinction = grain_extinction(class.diameter_m, WAVELENGTH_M, REFRACTIVE_INDEX)?;
        let per_kg_m2 =
            mass_extinction_m2_kg(class.diameter_m, conditions.dust.density_kg_m3, extinction)?;
        let path = per_kg_m2 * conditions.dust.load_kg_m3 * class.inlet_share * STACK_M;
        light *= (-path * class.counted.share).exp();
        blocked_by_error = blocked_by_error.hypot(path * class.counted.standard_error);
    }
    Ok(Counted {
        share: 1.0 - light,
        standard_error: light * blocked_by_error,
    })
}
