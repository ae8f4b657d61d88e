//! What lessons hold lost gas, uneven gas and voltage against: sections with losses, their floor, lanes, a pilot plant.
//!
//! The rows that name them stand in `formulas.rs`.

use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        efficiency::{losses, velocity_spread},
    },
    simulation::electrics,
    theory,
};

/// Constant and exponent of the pilot collector's line: penetration in per cent, voltage in kV.
const PILOT_LINE: (f64, f64) = (6.59e8, -5.46);

/// Penetration with sneakage and returned dust in every field, Deutsch's law between the plates.
///
/// `P = (LF + (1−LF) p_c)^n`, `LF = S + RR(1−S)`, `p_c = e^(−w A/(n Q))`
///
/// # Arguments
/// * `conditions` – of the collector; RR is all that goes back into the gas, by raps or out of the hoppers.
///
/// # Source
/// US EPA *Air Pollution Control Cost Manual* (EPA/452/B-02-001), Sec. 6 Ch. 3, from memory of it.
///
/// # Validity
/// One migration velocity, equal fields, full mixing, even gas.
///
/// # Errors
/// A formula refused the conditions.
///
/// ```
/// use ashlane_shared::{checks, conditions::{Mixing, demonstration}};
/// let mut conditions = demonstration();
/// conditions.collector.sneakage = 0.05;
/// conditions.rapping.reentrained = 0.0;
/// conditions.teaching.mixing = Some(Mixing::Full);
/// conditions.teaching.migration_velocity_m_s = Some(6.9078 / conditions.specific_collection_area_s_m());
/// // physics.md value R2: De 6.9078 in four sections, 5 % past each.
/// let escaped = checks::section_loss_penetration(&conditions)?;
/// assert!((escaped / 2.297513e-3 - 1.0).abs() < 1e-5);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn section_loss_penetration(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let (factor, sections) = sections(conditions)?;
    let charged = theory::limits(conditions)?.deutsch_anderson;
    let charged = charged.powf(1.0 / f64::from(sections));
    Ok(losses::section_penetration(factor, charged).powi(sections))
}

/// Penetration that no plate area and no voltage can undercut.
///
/// `P ≥ LF^n`
///
/// # Arguments
/// * `conditions` – of the collector.
///
/// # Source
/// As [`section_loss_penetration`].
///
/// # Validity
/// Equal losses in every field.
///
/// # Errors
/// A share outside its range.
pub fn loss_floor(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let (factor, sections) = sections(conditions)?;
    Ok(losses::floor(factor, sections))
}

/// Loss factor of a field, and how many fields there are.
fn sections(conditions: &Conditions) -> Result<(f64, i32), PhysicsError> {
    let sneakage = conditions.collector.sneakage;
    let factor = losses::loss_factor(sneakage, conditions.returned_share())?;
    let sections = i32::try_from(conditions.collector.fields).unwrap_or(i32::MAX);
    Ok((factor, sections))
}

/// Penetration where the gas is faster here and slower there, each lane by Deutsch's law.
///
/// `P = ∫ v e^(−De/v) g(v) dv / ∫ v g(v) dv`, g normal with mean 1
///
/// # Arguments
/// * `conditions` – of the collector; the spread is the RMS of the face velocity over its mean, 0 to 0.5.
///
/// # Source
/// Flux mean of Deutsch's law, computed.
///
/// # Validity
/// One migration velocity, full mixing within a lane, no losses; a lane keeps its velocity through all fields.
///
/// # Errors
/// A formula refused the conditions.
pub fn uneven_gas_penetration(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let deutsch_number = -theory::limits(conditions)?.deutsch_anderson.ln();
    velocity_spread::deutsch_penetration(deutsch_number, conditions.gas.velocity_spread)
}

/// Penetration that a pilot collector had at this mean voltage.
///
/// `P = 6.59·10⁸ V^(−5.46) %`, V in kV
///
/// # Arguments
/// * `conditions` – of the collector; V is the mean of the voltages that its fields reach.
///
/// # Source
/// US EPA pilot precipitator experiments, 1978 (abstract): fitted to measurements, r² = 0.97.
///
/// # Validity
/// That pilot collector and its dust, fitted near 30 to 36 kV; elsewhere only its slope is of use.
///
/// # Errors
/// A formula refused the conditions.
pub fn pilot_plant_penetration(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let electrics = electrics(conditions)?;
    let reached = electrics.states.iter().map(|state| state.voltage_v);
    let mean_kv = reached.sum::<f64>() / (1e3 * electrics.states.len() as f64);
    let (constant, exponent) = PILOT_LINE;
    Ok((0.01 * constant * mean_kv.powf(exponent)).min(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::proofs::ideal;

    #[test]
    fn without_losses_the_sections_are_one_collector_and_the_floor_is_the_ground() {
        let conditions = ideal(3.0);
        let whole = (-3.0f64).exp();
        let sections = section_loss_penetration(&conditions).expect("possible");
        assert!((sections / whole - 1.0).abs() < 1e-9, "{sections}");
        let lanes = uneven_gas_penetration(&conditions).expect("possible");
        assert!((lanes / whole - 1.0).abs() < 1e-9, "{lanes}");
        assert!(loss_floor(&conditions).expect("possible") < 1e-15);
    }

    #[test]
    fn the_floor_is_that_of_the_cost_manual() {
        let mut conditions = ideal(1.0);
        conditions.collector.sneakage = 0.07;
        conditions.rapping.reentrained = 0.14;
        // physics.md value R1, from memory of the EPA Cost Manual.
        let floor = loss_floor(&conditions).expect("possible");
        assert!((floor / 1.6064e-3 - 1.0).abs() < 1e-4, "{floor}");
        // However strong the pull, the sections come down to it.
        conditions.teaching.migration_velocity_m_s = Some(1.0);
        let sections = section_loss_penetration(&conditions).expect("possible");
        assert!((sections / floor - 1.0).abs() < 1e-4, "{sections}");
    }

    #[test]
    fn ash_out_of_the_hoppers_counts_as_returned() {
        let mut conditions = ideal(6.9078);
        conditions.collector.sneakage = 0.10;
        // physics.md value R2: S = 0.10.
        let alone = section_loss_penetration(&conditions).expect("possible");
        assert!((alone / 4.572_809e-3 - 1.0).abs() < 1e-5, "{alone}");
        conditions.collector.hopper_sweepage = 1.0;
        let swept = section_loss_penetration(&conditions).expect("possible");
        assert!(swept > 1.3 * alone, "{swept}, without {alone}");
    }

    #[test]
    fn uneven_gas_costs_what_the_flux_mean_says() {
        // physics.md value N2.
        for (deutsch, spread, ratio) in [(3.0, 0.15, 1.0995), (100f64.ln(), 0.25, 1.6325)] {
            let mut conditions = ideal(deutsch);
            conditions.gas.velocity_spread = spread;
            let lanes = uneven_gas_penetration(&conditions).expect("possible");
            let got = lanes / (-deutsch).exp();
            assert!((got / ratio - 1.0).abs() < 0.005, "{got}, not {ratio}");
        }
    }

    #[test]
    fn the_pilot_line_goes_through_its_published_points() {
        // training.md L7: 5.7 % at 30 kV and 2.1 % at 36 kV, computed from the published fit.
        for (voltage_v, percent) in [(30e3, 5.7), (36e3, 2.1)] {
            let mut conditions = ideal(1.0);
            conditions.electrical.voltage_v = vec![voltage_v; 4];
            let got = 100.0 * pilot_plant_penetration(&conditions).expect("possible");
            assert!((got - percent).abs() < 0.05, "{got} %, not {percent} %");
        }
        let mut off = ideal(1.0);
        off.electrical.voltage_v = vec![0.0; 4];
        let got = pilot_plant_penetration(&off).expect("possible");
        assert!(
            (got - 1.0).abs() < 1e-12,
            "nothing is caught without voltage"
        );
    }
}
