//! What of the counted dust would be seen in the stack: its mass in the gas, and its opacity.

use serde::Serialize;

use super::CountResult;
use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        stack::{grain_extinction, mass_extinction_m2_kg, opacity},
    },
};

/// Light of the opacity monitor, m: green, where the eye is keenest; common practice, no source.
const WAVELENGTH_M: f64 = 550e-9;
/// Refractive index of fly ash; common practice, no source.
const REFRACTIVE_INDEX: f64 = 1.5;
/// Width of the stack where the monitor looks across, m. Teaching value, no source.
const STACK_M: f64 = 5.0;

/// Dust in the gas that leaves.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Emission {
    /// Mass per actual volume of the gas at the face, kg/m³.
    pub dust_kg_m3: f64,
    /// Mass flow, kg/s.
    pub dust_kg_s: f64,
    /// Opacity over a stack of 5 m (invented).
    pub opacity: f64,
}

/// What leaves by a count: the classes by the mass that left in each.
///
/// # Errors
/// A formula refused a class.
pub fn emission(conditions: &Conditions, count: &CountResult) -> Result<Emission, PhysicsError> {
    let dust_kg_m3 = conditions.dust.load_kg_m3 * count.penetration.share;
    let mut extinction_1_m = 0.0;
    for class in &count.by_size {
        let extinction = grain_extinction(class.diameter_m, WAVELENGTH_M, REFRACTIVE_INDEX)?;
        let area_m2_kg =
            mass_extinction_m2_kg(class.diameter_m, conditions.dust.density_kg_m3, extinction)?;
        let left = class.inlet_share * class.counted.share;
        extinction_1_m += conditions.dust.load_kg_m3 * left * area_m2_kg;
    }
    Ok(Emission {
        dust_kg_m3,
        dust_kg_s: dust_kg_m3 * conditions.gas.flow_m3_s,
        opacity: opacity(extinction_1_m, 1.0, STACK_M)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{conditions::demonstration, count::Count};

    #[test]
    fn dust_of_one_size_darkens_as_much_as_its_shadows() {
        let mut conditions = demonstration();
        conditions.teaching.single_diameter_m = Some(20e-6);
        conditions.teaching.migration_velocity_m_s = Some(0.05);
        let mut count = Count::new(&conditions, 8192, 1).expect("possible");
        count.run(|_| true);
        let result = count.result();
        let found = emission(&conditions, &result).expect("possible");
        // Shadow of a sphere over its mass, 3/(2 ρ d), twice that for its diffraction (van de Hulst 1957).
        let shadows_m2_kg = 2.0 * 1.5 / (conditions.dust.density_kg_m3 * 20e-6);
        let by_hand = 1.0 - (-shadows_m2_kg * found.dust_kg_m3 * 5.0).exp();
        // Within 10 %: classes have a middle of their own, and 20 µm is not yet very large beside the light.
        assert!(
            (found.opacity / by_hand - 1.0).abs() < 0.1,
            "{found:?} {by_hand}"
        );
        let kg_m3 = 8e-3 * result.penetration.share;
        assert!((found.dust_kg_m3 / kg_m3 - 1.0).abs() < 1e-12);
    }
}
