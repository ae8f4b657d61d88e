//! What a blow on a plate does: how hard it is, how much dust it throws off, how long that falls and shows.
//!
//! `E = mgh`, `a = a_r √(E/E_r)`, `φ = Φ(ln(a/a₅₀)/σ)` with `a₅₀ ∝ 1/(ρ_b h)`, `t = √(2H/g) + L/u`

use super::PhysicsError;
use super::constants::GRAVITY_M_S2;
use super::error::{not_negative, positive, share};
use super::normal;

/// Standard deviation of the logarithm of the acceleration that removes the dust; common practice, no source.
const SPREAD: f64 = 0.6;
/// Acceleration that removes [`REFERENCE_SHARE_QUANTILE`] of the reference layer, m/s². Source: from memory of
/// J. Soc. Powder Technol. Japan 16(10).
const REFERENCE_ACCELERATION_M_S2: f64 = 1000.0;
/// Value below which 90 % of a standard normal quantity lie; the share is of the same source.
const REFERENCE_SHARE_QUANTILE: f64 = 1.2816;
/// Mass of the reference layer, kg/m²: 10 mm of 600 kg/m³; common practice, no source.
const REFERENCE_LAYER_KG_M2: f64 = 0.010 * 600.0;
/// Layer that comes off as whole sheets, m: what is known of the dust that returns was seen on such layers; common
/// practice, no source.
const SHEET_M: f64 = 0.010;

/// A blow whose acceleration is known, to scale others by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReferenceBlow {
    /// Energy of the blow, J, above 0.
    pub energy_j: f64,
    /// Peak acceleration of the plate under it, m/s², above 0.
    pub acceleration_m_s2: f64,
}

impl ReferenceBlow {
    /// The blow of the lessons: invented, for teaching only; no plate was measured.
    pub const TEACHING: Self = Self {
        energy_j: 50.0,
        acceleration_m_s2: 1500.0,
    };
}

/// Energy of a tumbling hammer when it strikes, J.
///
/// `E = mgh`
///
/// # Arguments
/// * `hammer_mass_kg` – m, kg, 0 or more.
/// * `drop_height_m` – h that its centre of mass falls, m, 0 or more.
///
/// # Source
/// Conservation of energy.
///
/// # Validity
/// No friction in the bearing; the shaft turns slowly.
///
/// # Errors
/// A number outside its range.
///
/// ```
/// let energy = ashlane_shared::physics::rapping::blow_energy_j(5.0, 0.6)?;
/// assert!((energy - 29.42).abs() < 0.01);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn blow_energy_j(hammer_mass_kg: f64, drop_height_m: f64) -> Result<f64, PhysicsError> {
    not_negative("hammer_mass_kg", hammer_mass_kg)?;
    not_negative("drop_height_m", drop_height_m)?;
    Ok(hammer_mass_kg * GRAVITY_M_S2 * drop_height_m)
}

/// Peak acceleration of the plate under a blow, m/s².
///
/// `a = a_r √(E/E_r)`: a hammer that meets a spring of stiffness k presses with at most `F = √(2kE)`
///
/// # Arguments
/// * `energy_j` – E of the blow, J, 0 or more.
/// * `reference` – a blow on the same plate whose acceleration is known.
///
/// # Source
/// Energy of a linear spring; [`ReferenceBlow::TEACHING`] is invented.
///
/// # Validity
/// The same plate, anvil and place; far from the anvil the plate moves less.
///
/// # Errors
/// A number outside its range.
pub fn peak_acceleration_m_s2(
    energy_j: f64,
    reference: &ReferenceBlow,
) -> Result<f64, PhysicsError> {
    not_negative("energy_j", energy_j)?;
    positive("reference.energy_j", reference.energy_j)?;
    positive("reference.acceleration_m_s2", reference.acceleration_m_s2)?;
    Ok(reference.acceleration_m_s2 * (energy_j / reference.energy_j).sqrt())
}

/// Share of a layer that a blow removes, 0 to 1.
///
/// `φ = Φ(ln(a/a₅₀)/σ)`, `a₅₀ = 1000·e^(−1.2816σ)·(6 kg/m²)/(ρ_b h)` m/s², `σ = 0.6`
///
/// # Arguments
/// * `acceleration_m_s2` – peak acceleration a of the plate, m/s², 0 or more; 0 removes nothing.
/// * `thickness_m` – h of the layer, m, 0 or more; of a bare plate nothing is removed.
/// * `layer_density_kg_m3` – `ρ_b` of the layer, kg/m³, above 0.
///
/// # Source
/// 90 % at 1000 m/s², log-normal, thick layers more easily: from memory of J. Soc. Powder Technol. Japan 16(10). The
/// width σ and `a₅₀ ∝ 1/(ρ_b h)` (force of inertia against a strength of the bond) are common practice, no source.
///
/// # Validity
/// Dry fly ash that is not sticky; layers of about 1–20 mm.
///
/// # Errors
/// A number outside its range.
///
/// ```
/// let removed = ashlane_shared::physics::rapping::removed_share(1000.0, 0.010, 600.0)?;
/// assert!((removed - 0.9).abs() < 1e-4);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn removed_share(
    acceleration_m_s2: f64,
    thickness_m: f64,
    layer_density_kg_m3: f64,
) -> Result<f64, PhysicsError> {
    not_negative("acceleration_m_s2", acceleration_m_s2)?;
    not_negative("thickness_m", thickness_m)?;
    positive("layer_density_kg_m3", layer_density_kg_m3)?;
    let pull = acceleration_m_s2 * thickness_m * layer_density_kg_m3;
    let reference_pull = REFERENCE_ACCELERATION_M_S2 * REFERENCE_LAYER_KG_M2;
    // A pull of 0 has the logarithm −∞ and removes nothing.
    let log_ratio = (pull / reference_pull).ln();
    Ok(normal::cumulative(
        log_ratio / SPREAD + REFERENCE_SHARE_QUANTILE,
    ))
}

/// Share of the dislodged dust that goes back into the gas, by the thickness of its layer.
///
/// `r = 1 − (1 − RR)·min(1, (1 − e^(−h/h₀))/(1 − e^(−h_s/h₀)))`, `h_s` = 10 mm
///
/// # Arguments
/// * `thickness_m` – h of the layer before the blow, m, 0 or more.
/// * `sheet_share` – RR of a layer of 10 mm and more, 0 to below 1.
/// * `thin_layer_m` – `h₀`, thickness below which the layer leaves as powder and not as sheets, m, above 0.
///
/// # Source
/// Teaching form, no source: all of a bare film of dust returns, RR of a sheet of 10 mm, a share of the way between them
/// that falls with the number of `h₀` in the layer. That thin layers return more is common practice, no source.
///
/// # Validity
/// A trend and no measurement.
///
/// # Errors
/// A number outside its range.
///
/// ```
/// let returned = ashlane_shared::physics::rapping::returned_share(0.010, 0.124, 0.002)?;
/// assert!((returned - 0.124).abs() < 1e-12);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn returned_share(
    thickness_m: f64,
    sheet_share: f64,
    thin_layer_m: f64,
) -> Result<f64, PhysicsError> {
    not_negative("thickness_m", thickness_m)?;
    share("sheet_share", sheet_share)?;
    positive("thin_layer_m", thin_layer_m)?;
    let sheets = |layer_m: f64| -(-layer_m / thin_layer_m).exp_m1();
    Ok(1.0 - (1.0 - sheet_share) * (sheets(thickness_m) / sheets(SHEET_M)).min(1.0))
}

/// Time in which a sheet of dust slides down a plate, s.
///
/// `t = √(2H/g)`
///
/// # Arguments
/// * `height_m` – H that it falls, m, 0 or more.
///
/// # Source
/// Free fall (Galilei 1638).
///
/// # Validity
/// A sheet that has come off; friction at the plate and drag of the gas are left out, so it is the shortest time.
///
/// # Errors
/// A number outside its range.
///
/// ```
/// let time = ashlane_shared::physics::rapping::slide_time_s(10.0)?;
/// assert!((time - 1.43).abs() < 0.005);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn slide_time_s(height_m: f64) -> Result<f64, PhysicsError> {
    Ok((2.0 * not_negative("height_m", height_m)? / GRAVITY_M_S2).sqrt())
}

/// Time for which the puff of one blow passes a place downstream, s.
///
/// `t = √(2H/g) + L/u`
///
/// # Arguments
/// * `height_m` – H of the plate, m, 0 or more.
/// * `transit_length_m` – L along the gas over which the dust comes off, m, 0 or more.
/// * `gas_velocity_m_s` – u, m/s, above 0.
///
/// # Source
/// Fall of the sheet and passage of the gas, one after the other; common practice, no source.
///
/// # Validity
/// The puff is not drawn out further by uneven gas.
///
/// # Errors
/// A number outside its range.
pub fn puff_duration_s(
    height_m: f64,
    transit_length_m: f64,
    gas_velocity_m_s: f64,
) -> Result<f64, PhysicsError> {
    not_negative("transit_length_m", transit_length_m)?;
    positive("gas_velocity_m_s", gas_velocity_m_s)?;
    Ok(slide_time_s(height_m)? + transit_length_m / gas_velocity_m_s)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn removed(acceleration_m_s2: f64, thickness_m: f64, density_kg_m3: f64) -> f64 {
        removed_share(acceleration_m_s2, thickness_m, density_kg_m3).expect("in range")
    }

    #[test]
    fn twice_the_layer_is_removed_as_by_twice_the_blow() {
        let hard = removed(1400.0, 0.004, 550.0);
        for (what, same) in [
            ("thick", removed(700.0, 0.008, 550.0)),
            ("dense", removed(700.0, 0.004, 1100.0)),
        ] {
            assert!((hard - same).abs() < 1e-14, "{what}: {hard} {same}");
        }
        assert!(removed(700.0, 0.004, 550.0) < hard, "softer blow");
    }

    #[test]
    fn nothing_is_removed_without_a_blow_or_a_layer() {
        for share in [removed(0.0, 0.01, 600.0), removed(1000.0, 0.0, 600.0)] {
            assert!(share.abs() < 1e-300, "{share}");
        }
        assert!((removed(1e9, 1.0, 600.0) - 1.0).abs() < 1e-15, "all");
    }

    #[test]
    fn four_times_the_drop_is_twice_the_acceleration() {
        let acceleration = |drop_m: f64| {
            let energy_j = blow_energy_j(8.0, drop_m).expect("a blow");
            peak_acceleration_m_s2(energy_j, &ReferenceBlow::TEACHING).expect("a plate")
        };
        let ratio = acceleration(0.8) / acceleration(0.2);
        assert!((ratio - 2.0).abs() < 1e-14, "{ratio}");
        let same =
            peak_acceleration_m_s2(ReferenceBlow::TEACHING.energy_j, &ReferenceBlow::TEACHING)
                .expect("a plate");
        assert!((same / ReferenceBlow::TEACHING.acceleration_m_s2 - 1.0).abs() < 1e-15);
    }

    #[test]
    fn a_puff_lasts_fall_and_passage() {
        // By hand: √(20/9.80665) = 1.428 09 s, and 3 m at 1.2 m/s take 2.5 s.
        let puff = puff_duration_s(10.0, 3.0, 1.2).expect("a puff");
        assert!((puff - 3.928_09).abs() < 1e-5, "{puff}");
    }

    #[test]
    fn the_thinner_the_layer_the_more_of_it_returns() {
        let returned = |layer_m| returned_share(layer_m, 0.124, 0.003).expect("in range");
        assert!((returned(0.0) - 1.0).abs() < 1e-15, "powder");
        // Whole sheets from 10 mm on.
        for thick_m in [0.010, 0.02] {
            let share = returned(thick_m);
            assert!((share - 0.124).abs() < 1e-14, "{share}");
        }
        // By hand: e^(−1/3) = 0.716 531, e^(−10/3) = 0.035 674: 1 − 0.876·0.283 469/0.964 326 = 0.742 495.
        let thin = returned(0.001);
        assert!((thin - 0.742_495).abs() < 1e-6, "{thin}");
        assert!(returned(0.003) < thin && returned(0.003) > 0.124);
    }

    #[test]
    fn impossible_blows_are_refused() {
        assert!(returned_share(0.01, 1.0, 0.002).is_err(), "all of it");
        assert!(returned_share(0.01, 0.1, 0.0).is_err(), "no layer at all");
        assert!(blow_energy_j(-1.0, 0.5).is_err(), "negative mass");
        assert!(removed_share(f64::NAN, 0.01, 600.0).is_err(), "no number");
        assert!(removed_share(1000.0, 0.01, 0.0).is_err(), "no density");
        assert!(puff_duration_s(10.0, 3.0, 0.0).is_err(), "standing gas");
        assert!(slide_time_s(-1.0).is_err(), "upwards");
        let nothing = ReferenceBlow {
            energy_j: 0.0,
            acceleration_m_s2: 1.0,
        };
        assert!(peak_acceleration_m_s2(1.0, &nothing).is_err(), "no blow");
    }
}
