//! How much charge a grain picks up from the ions while it flies.
//!
//! Four models of the same thing, at a constant field and ion density; [`charge_after_c`] asks whichever is chosen.
//! All of them forget how the charge came about, so [`charge_later_c`] continues from any charge.

pub mod cochet;
pub mod field;
pub mod lawless;
pub mod path;
pub mod white;

use std::f64::consts::PI;

use super::constants::{BOLTZMANN_J_K, ELEMENTARY_CHARGE_C, VACUUM_PERMITTIVITY_F_M};
use crate::conditions::Charging;

/// A grain, as far as charging knows it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grain {
    /// Diameter d, m, above 0.
    pub diameter_m: f64,
    /// Relative permittivity `ε_r`, 1 or more, infinite for a conductor.
    pub permittivity: f64,
}

/// The gas and its ions, as far as charging knows them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IonGas {
    /// Temperature T, K, above 0.
    pub temperature_k: f64,
    /// Mean free path λ, m, 0 or more.
    pub mean_free_path_m: f64,
    /// Mobility b of the ions, m²/V/s, above 0.
    pub ion_mobility_m2_v_s: f64,
}

/// What the grain flies through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exposure {
    /// Strength E of the field, V/m, 0 or more.
    pub field_v_m: f64,
    /// Ions per volume N₀, 1/m³, 0 or more.
    pub ion_density_per_m3: f64,
}

impl Exposure {
    /// The exposure in a field with this current density.
    ///
    /// `N₀ = j/(ebE)`
    ///
    /// # Arguments
    /// * `current_density_a_m2` – j, A/m², 0 or more.
    /// * `field_v_m` – E, V/m, above 0.
    /// * `ion_mobility_m2_v_s` – b, m²/V/s, above 0.
    ///
    /// # Source
    /// Definition of the mobility.
    ///
    /// # Validity
    /// All of the current is carried by ions.
    ///
    /// ```
    /// let exposure = ashlane_shared::physics::charging::Exposure::of_current(3e-4, 3e5, 2.2e-4);
    /// assert!((exposure.ion_density_per_m3 / 2.8370e13 - 1.0).abs() < 1e-4);
    /// ```
    #[must_use]
    pub fn of_current(current_density_a_m2: f64, field_v_m: f64, ion_mobility_m2_v_s: f64) -> Self {
        Self {
            field_v_m,
            ion_density_per_m3: current_density_a_m2
                / (ELEMENTARY_CHARGE_C * ion_mobility_m2_v_s * field_v_m),
        }
    }
}

/// Charge of an uncharged grain after some time, C.
///
/// `q(t)` of the chosen model
///
/// # Arguments
/// * `model` – which model.
/// * `grain`, `gas`, `exposure` – see their fields.
/// * `duration_s` – t, s, 0 or more.
///
/// # Source
/// The file of the model.
///
/// # Validity
/// The file of the model.
///
/// ```
/// use ashlane_shared::conditions::Charging;
/// use ashlane_shared::physics::charging::{Exposure, Grain, IonGas, charge_after_c, elementary_charges};
/// let grain = Grain { diameter_m: 1e-6, permittivity: 5.0 };
/// let gas = IonGas { temperature_k: 423.15, mean_free_path_m: 104.693e-9, ion_mobility_m2_v_s: 2.2e-4 };
/// let exposure = Exposure::of_current(3e-4, 3e5, 2.2e-4);
/// let charge = charge_after_c(Charging::Lawless, &grain, &gas, &exposure, 1.0);
/// assert!((elementary_charges(charge) / 179.705 - 1.0).abs() < 1e-4);
/// ```
#[must_use]
pub fn charge_after_c(
    model: Charging,
    grain: &Grain,
    gas: &IonGas,
    exposure: &Exposure,
    duration_s: f64,
) -> f64 {
    charge_later_c(model, grain, gas, exposure, 0.0, duration_s)
}

/// Charge of a grain that already carries some, after some more time, C.
///
/// `q(t+Δt)` from `q(t)` by the chosen model
///
/// # Arguments
/// * `model` – which model.
/// * `grain`, `gas`, `exposure` – see their fields.
/// * `charge_c` – charge at the start, C, counted positive with the sign of the ions.
/// * `duration_s` – Δt, s, 0 or more.
///
/// # Source
/// The file of the model.
///
/// # Validity
/// The file of the model. A grain above the saturation of `Field` or `Cochet` keeps its charge.
#[must_use]
pub fn charge_later_c(
    model: Charging,
    grain: &Grain,
    gas: &IonGas,
    exposure: &Exposure,
    charge_c: f64,
    duration_s: f64,
) -> f64 {
    let ion_field_v_m = exposure.field_v_m;
    let saturating = |saturation_c: f64| {
        let time_s = field::charging_time_s(exposure.ion_density_per_m3, gas.ion_mobility_m2_v_s);
        field::approach_c(charge_c, saturation_c, duration_s / time_s)
    };
    match model {
        Charging::Field => saturating(field::saturation_c(
            grain.diameter_m,
            grain.permittivity,
            ion_field_v_m,
        )),
        Charging::Cochet => saturating(cochet::saturation_c(
            grain,
            gas.mean_free_path_m,
            ion_field_v_m,
        )),
        Charging::White => white::charge_later_c(
            grain.diameter_m,
            gas.temperature_k,
            exposure.ion_density_per_m3,
            charge_c,
            duration_s,
        ),
        Charging::Lawless => lawless::charge_later_c(grain, gas, exposure, charge_c, duration_s),
    }
}

/// A charge counted in electrons.
///
/// `n = q/e`
///
/// # Arguments
/// * `charge_c` – q, C.
///
/// # Source
/// SI 2019.
///
/// # Validity
/// Always.
#[must_use]
pub fn elementary_charges(charge_c: f64) -> f64 {
    charge_c / ELEMENTARY_CHARGE_C
}

/// How much a grain draws the field into itself: 1 for a grain like air, 3 for a conductor.
///
/// `p_ε = 3ε_r/(ε_r+2)`
///
/// # Arguments
/// * `permittivity` – `ε_r`, 1 or more, infinite for a conductor.
///
/// # Source
/// Sphere in a uniform field; Pauthenier & Moreau-Hanot 1932.
///
/// # Validity
/// Spheres.
///
/// ```
/// let factor = ashlane_shared::physics::charging::polarisation(5.0);
/// assert!((factor - 15.0 / 7.0).abs() < 1e-15);
/// ```
#[must_use]
pub fn polarisation(permittivity: f64) -> f64 {
    // Divided by ε_r, so that an infinite permittivity gives 3.
    3.0 / (1.0 + 2.0 / permittivity)
}

/// Charge at which the potential of a grain equals the thermal energy of an ion, C: the unit of diffusion charging.
///
/// `2πε₀ d kT/e`
pub(crate) fn thermal_charge_c(diameter_m: f64, temperature_k: f64) -> f64 {
    2.0 * PI * VACUUM_PERMITTIVITY_F_M * diameter_m * BOLTZMANN_J_K * temperature_k
        / ELEMENTARY_CHARGE_C
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const MODELS: [Charging; 4] = [
        Charging::Lawless,
        Charging::Cochet,
        Charging::White,
        Charging::Field,
    ];
    const GAS: IonGas = IonGas {
        temperature_k: 423.15,
        mean_free_path_m: 104.693e-9,
        ion_mobility_m2_v_s: 2.2e-4,
    };

    proptest! {
        #[test]
        fn charging_in_two_parts_is_charging_in_one(
            log_diameter in -7.5..-4.5_f64, first in 0.0..1.0_f64, second in 0.0..1.0_f64, field in 0.0..6e5_f64,
        ) {
            let grain = Grain { diameter_m: 10_f64.powf(log_diameter), permittivity: 5.0 };
            let exposure = Exposure { field_v_m: field, ion_density_per_m3: 2.8e13 };
            for model in MODELS {
                let halfway = charge_after_c(model, &grain, &GAS, &exposure, first);
                let twice = charge_later_c(model, &grain, &GAS, &exposure, halfway, second);
                let once = charge_after_c(model, &grain, &GAS, &exposure, first + second);
                prop_assert!((twice - once).abs() <= 1e-8 * once, "{:?}: {} not {}", model, twice, once);
            }
        }

        #[test]
        fn charge_never_falls(log_diameter in -7.5..-4.5_f64, duration in 0.0..2.0_f64, field in 0.0..6e5_f64) {
            let grain = Grain { diameter_m: 10_f64.powf(log_diameter), permittivity: 5.0 };
            let exposure = Exposure { field_v_m: field, ion_density_per_m3: 2.8e13 };
            for model in MODELS {
                let early = charge_after_c(model, &grain, &GAS, &exposure, duration);
                let late = charge_after_c(model, &grain, &GAS, &exposure, 1.1 * duration);
                prop_assert!(late >= early * (1.0 - 1e-9), "{:?}: {} then {}", model, early, late);
            }
        }
    }

    #[test]
    fn without_ions_nothing_charges() {
        let grain = Grain {
            diameter_m: 1e-6,
            permittivity: 5.0,
        };
        let exposure = Exposure {
            field_v_m: 3e5,
            ion_density_per_m3: 0.0,
        };
        for model in MODELS {
            let charge_c = charge_later_c(model, &grain, &GAS, &exposure, 3e-18, 5.0);
            assert!(
                (charge_c / 3e-18 - 1.0).abs() < 1e-14,
                "{model:?}: {charge_c}"
            );
        }
    }

    #[test]
    fn a_conductor_is_three() {
        assert!(
            (polarisation(f64::INFINITY) - 3.0).abs() < 1e-15,
            "conductor"
        );
        assert!((polarisation(1.0) - 1.0).abs() < 1e-15, "like air");
    }
}
