//! How fast the layer of dust on the plates grows.
//!
//! `dh/dt = η_f C Q/(A_f ρ_b)`

use crate::physics::PhysicsError;
use crate::physics::error::{not_negative, positive};

/// Thickness of a layer, m.
///
/// `h = m/(A ρ_b)`
///
/// # Arguments
/// * `mass_kg` – m, dust on the plates, kg, 0 or more.
/// * `area_m2` – A, plate area that it covers, m², above 0; both sides of a plate count.
/// * `layer_density_kg_m3` – `ρ_b` of the layer with its voids, kg/m³, above 0 (fly ash 500–1000).
///
/// # Source
/// Definition; the densities are common practice, no source.
///
/// # Validity
/// Dust spread evenly over the area.
///
/// # Errors
/// A number outside its range.
pub fn thickness_m(
    mass_kg: f64,
    area_m2: f64,
    layer_density_kg_m3: f64,
) -> Result<f64, PhysicsError> {
    not_negative("mass_kg", mass_kg)?;
    positive("area_m2", area_m2)?;
    positive("layer_density_kg_m3", layer_density_kg_m3)?;
    Ok(mass_kg / (area_m2 * layer_density_kg_m3))
}

/// Speed at which the layer grows, m/s.
///
/// `dh/dt = η_f C Q/(A_f ρ_b)`
///
/// # Arguments
/// * `collected_kg_s` – `η_f C Q`, dust caught on the plates, kg/s, 0 or more.
/// * `area_m2` – `A_f`, plate area that catches it, m², above 0; both sides of a plate count.
/// * `layer_density_kg_m3` – `ρ_b` of the layer with its voids, kg/m³, above 0 (fly ash 500–1000).
///
/// # Source
/// Conservation of mass.
///
/// # Validity
/// Between two blows of the rapper, dust spread evenly over the area; near the inlet of a field it grows faster.
///
/// # Errors
/// A number outside its range.
///
/// ```
/// use ashlane_shared::physics::layer::growth::growth_m_s;
/// // 70 % of 8 g/m³ on a field of 20 s/m (30 m³/s, 600 m²), layer of 600 kg/m³: 1.68 mm/h.
/// let growth = growth_m_s(0.7 * 8e-3 * 30.0, 600.0, 600.0)?;
/// assert!((growth * 3600.0 - 1.68e-3).abs() < 1e-12);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn growth_m_s(
    collected_kg_s: f64,
    area_m2: f64,
    layer_density_kg_m3: f64,
) -> Result<f64, PhysicsError> {
    not_negative("collected_kg_s", collected_kg_s)?;
    thickness_m(collected_kg_s, area_m2, layer_density_kg_m3)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_hour_of_growth_is_the_thickness_of_an_hour_of_dust() {
        let growth = growth_m_s(0.2, 600.0, 550.0).expect("in range");
        let thickness = thickness_m(0.2 * 3600.0, 600.0, 550.0).expect("in range");
        assert!(
            (growth * 3600.0 / thickness - 1.0).abs() < 1e-14,
            "{growth} m/s, {thickness} m"
        );
    }

    #[test]
    fn impossible_layers_are_refused_by_name() {
        let refusal = growth_m_s(-1.0, 600.0, 600.0).expect_err("negative catch");
        assert!(refusal.to_string().contains("collected_kg_s"), "{refusal}");
        assert!(thickness_m(1.0, 0.0, 600.0).is_err(), "no plate");
        assert!(thickness_m(1.0, 600.0, f64::NAN).is_err(), "no density");
    }
}
