//! How dark the stack is: the light that was lost against the shadows of the grains that leave.

use std::f64::consts::PI;

use super::{super::TwoWays, books::mean_long_run};
use crate::{
    conditions::Conditions,
    physics::{PhysicsError, stack::grain_extinction},
    plant::{PlantReading, REFRACTIVE_INDEX, Rates, STACK_M, WAVELENGTH_M},
};

/// Least share of the light that has to get through for the optical depth to be known from the opacity to four digits:
/// what a number near 1 keeps of its distance to 1.
const DARKEST: f64 = 1e-13;

/// Light that a kilogram of dust takes away, m²/kg: grains of each size by their number, times their shadow, times how much
/// of the light round it each takes.
///
/// `k = Σ_i f_i N_i Q_i πd_i²/4`, `N_i = 1/(ρ_p πd_i³/6)` grains a kilogram
///
/// Nothing without dust.
///
/// # Errors
/// A diameter that is no number above 0.
pub fn mass_extinction_by_shadows_m2_kg(
    density_kg_m3: f64,
    diameters_m: &[f64],
    masses: &[f64],
) -> Result<Option<f64>, PhysicsError> {
    let (mut mass, mut area) = (0.0, 0.0);
    for (diameter_m, share) in diameters_m.iter().zip(masses) {
        let grain_kg = density_kg_m3 * PI * diameter_m.powi(3) / 6.0;
        let shadow_m2 = 0.25 * PI * diameter_m.powi(2);
        let around = grain_extinction(*diameter_m, WAVELENGTH_M, REFRACTIVE_INDEX)?;
        mass += share;
        area += share / grain_kg * around * shadow_m2;
    }
    Ok((mass > 0.0).then_some(area / mass))
}

/// Optical depth of the stack in the long run: by Bouguer's law from the opacity of the readings, with what the layers
/// still owe, against the shadows of the grains that the rates let through.
///
/// `−Σ ln(1−O) Δt/Σ Δt + RR Σ_f Δm_f K_f L/(Q Σ Δt)` against `C L Σ_i k_i (p_i + RR Σ_f C_f l_fi)`,
/// `K_f = Σ_i k_i l_fi + RR Σ_{g>f} r_fg K_g`
///
/// The rates change with what lies on plates and wires: the dust is as dark as by their mean, and as much as in the mean over
/// time of what those of every reading let through.
///
/// Nothing of fewer than two readings, where nothing leaves, or where a reading is so dark that its opacity does not tell
/// how dark.
///
/// # Errors
/// A diameter that is no number above 0.
pub fn optical_depth(
    conditions: &Conditions,
    rates: &Rates,
    readings: &[PlantReading],
) -> Result<Option<TwoWays>, PhysicsError> {
    let [first, .., last] = readings else {
        return Ok(None);
    };
    if readings[1..]
        .iter()
        .any(|reading| 1.0 - reading.opacity < DARKEST)
    {
        return Ok(None);
    }
    let time_s = last.time_s - first.time_s;
    let depth_s: f64 = readings
        .windows(2)
        .map(|pair| -(-pair[1].opacity).ln_1p() * (pair[1].time_s - pair[0].time_s))
        .sum();
    let reentrained = conditions.returned_share();
    let rates = &rates.in_the_mean_of(conditions, readings);
    let light_m2_kg = light_from_behind_m2_kg(conditions, rates)?;
    let fields = first.fields.iter().zip(&last.fields).zip(&light_m2_kg);
    let owed_m2: f64 = fields
        .map(|((before, after), light)| reentrained * (after.layer_kg - before.layer_kg) * light)
        .sum();
    let owed_s = owed_m2 / conditions.gas.flow_m3_s * STACK_M;
    let mut light = light_m2_kg_of(conditions, rates, &rates.fresh.left)?;
    for (arriving, fate) in rates.arriving(reentrained).iter().zip(&rates.behind) {
        light += reentrained * arriving * light_m2_kg_of(conditions, rates, &fate.left)?;
    }
    Ok((time_s > 0.0 && light > 0.0).then_some(TwoWays {
        shown: (depth_s + owed_s) / time_s,
        expected: conditions.dust.load_kg_m3 * light * STACK_M * mean_long_run(readings)
            / rates.long_run_penetration(reentrained),
    }))
}

/// Light that a kilogram which a rap of each field sends into the gas takes away in the stack in the long run, m²/kg.
fn light_from_behind_m2_kg(
    conditions: &Conditions,
    rates: &Rates,
) -> Result<Vec<f64>, PhysicsError> {
    let mut light = vec![0.0; rates.behind.len()];
    for (field, fate) in rates.behind.iter().enumerate().rev() {
        let mut sum = light_m2_kg_of(conditions, rates, &fate.left)?;
        for (caught, later) in fate.caught.iter().zip(&light).skip(field + 1) {
            sum += conditions.returned_share() * caught.iter().sum::<f64>() * later;
        }
        light[field] = sum;
    }
    Ok(light)
}

/// Light that shares of a kilogram by size class take away together, m² for that kilogram.
fn light_m2_kg_of(
    conditions: &Conditions,
    rates: &Rates,
    shares: &[f64],
) -> Result<f64, PhysicsError> {
    let density_kg_m3 = conditions.dust.density_kg_m3;
    let each = mass_extinction_by_shadows_m2_kg(density_kg_m3, &rates.diameters_m, shares)?;
    Ok(each.unwrap_or_default() * shares.iter().sum::<f64>())
}
