//! Charge of a grain that flies through changing field and ions: the laws of constant conditions, piece by piece.
//!
//! `q(t+Δt)` from `q(t)` by the chosen law on every piece; exact where field and ions are constant on the piece.

use super::{Exposure, Grain, IonGas, charge_later_c, cochet, field};
use crate::conditions::Charging;

/// Charges at the ends of the pieces of a path, C, starting without charge.
///
/// `q_i = q(Δt_i; q_{i−1}, E_i, N_i)` by the chosen law
///
/// # Arguments
/// * `model` – which law.
/// * `grain`, `gas` – see their fields.
/// * `path` – duration, s, 0 or more, and exposure of every piece.
///
/// # Source
/// The file of the law.
///
/// # Validity
/// The file of the law; pieces so short that field and ions hardly change on them.
///
/// ```
/// use ashlane_shared::{conditions::Charging, physics::charging::{Exposure, Grain, IonGas, charge_after_c, path}};
/// let grain = Grain { diameter_m: 5e-6, permittivity: 5.0 };
/// let gas = IonGas { temperature_k: 423.15, mean_free_path_m: 104.693e-9, ion_mobility_m2_v_s: 2.2e-4 };
/// let exposure = Exposure::of_current(3e-4, 3e5, 2.2e-4);
/// let charges = path::charges_c(Charging::Field, &grain, &gas, &[(0.1, exposure); 10]);
/// let once = charge_after_c(Charging::Field, &grain, &gas, &exposure, 1.0);
/// assert!((charges[9] / once - 1.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn charges_c(
    model: Charging,
    grain: &Grain,
    gas: &IonGas,
    path: &[(f64, Exposure)],
) -> Vec<f64> {
    path.iter()
        .scan(0.0, |charge_c, (duration_s, exposure)| {
            *charge_c = charge_later_c(model, grain, gas, exposure, *charge_c, *duration_s);
            Some(*charge_c)
        })
        .collect()
}

/// Charge at which the field brings no more ions, C, at one moment of a path.
///
/// `q_s = π ε₀ p_ε E d²`; with Cochet's law `q_∞` of its file
///
/// # Arguments
/// * `model` – which law.
/// * `grain`, `gas`, `exposure` – see their fields.
///
/// # Source
/// Pauthenier & Moreau-Hanot 1932; Cochet 1961.
///
/// # Validity
/// `Lawless` goes on beyond it by diffusion, ever more slowly; `White` knows no such charge: that of the field is given.
#[must_use]
pub fn saturation_c(model: Charging, grain: &Grain, gas: &IonGas, exposure: &Exposure) -> f64 {
    match model {
        Charging::Cochet => cochet::saturation_c(grain, gas.mean_free_path_m, exposure.field_v_m),
        Charging::Lawless | Charging::Field | Charging::White => {
            field::saturation_c(grain.diameter_m, grain.permittivity, exposure.field_v_m)
        }
    }
}
