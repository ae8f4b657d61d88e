//! Case X: the grain and gas that the values of the charging models are stated for.
//!
//! j = 3e-4 A/m², E = 3e5 V/m, b = 2.2e-4 m²/V/s, T = 423.15 K, `ε_r` = 5, t = 1 s, λ = 104.693 nm.

use ashlane_shared::conditions::Charging;
use ashlane_shared::physics::charging::{
    Exposure, Grain, IonGas, charge_after_c, elementary_charges, field,
};
use ashlane_shared::physics::{drag, gas};

use crate::{close, printed};

pub(crate) const FIELD_V_M: f64 = 3e5;
pub(crate) const TEMPERATURE_K: f64 = 423.15;
pub(crate) const PERMITTIVITY: f64 = 5.0;
const CURRENT_A_M2: f64 = 3e-4;
const MOBILITY_M2_V_S: f64 = 2.2e-4;
const DURATION_S: f64 = 1.0;

pub(crate) fn mean_free_path_m() -> f64 {
    gas::mean_free_path_m(TEMPERATURE_K, 101_325.0)
}

/// Charge of a grain of this size after one second, C.
pub(crate) fn charge_c(model: Charging, diameter_m: f64) -> f64 {
    let grain = Grain {
        diameter_m,
        permittivity: PERMITTIVITY,
    };
    let ions = IonGas {
        temperature_k: TEMPERATURE_K,
        mean_free_path_m: mean_free_path_m(),
        ion_mobility_m2_v_s: MOBILITY_M2_V_S,
    };
    let exposure = Exposure::of_current(CURRENT_A_M2, FIELD_V_M, MOBILITY_M2_V_S);
    charge_after_c(model, &grain, &ions, &exposure, DURATION_S)
}

/// Migration velocity by Stokes' law with slip, m/s, as the values K1 and M1 are stated.
pub(crate) fn drift_m_s(model: Charging, diameter_m: f64) -> f64 {
    let slip = gas::slip_factor(diameter_m, mean_free_path_m());
    let mobility =
        drag::stokes_mobility_m_n_s(diameter_m, slip, gas::viscosity_pa_s(TEMPERATURE_K));
    charge_c(model, diameter_m) * FIELD_V_M * mobility
}

/// Value K1 for one model: (diameter in µm, electrons, last printed digit).
#[track_caller]
pub(crate) fn check_numbers(model: Charging, values: &[(f64, f64, f64)]) {
    for (diameter_um, expected, last_digit) in values {
        let number = elementary_charges(charge_c(model, diameter_um * 1e-6));
        printed(
            &format!("value K1, {model:?}, {diameter_um} µm"),
            number,
            *expected,
            1e-4,
            *last_digit,
        );
    }
}

/// Value K1 for one model: (diameter in µm, migration velocity in m/s), five decimals.
#[track_caller]
pub(crate) fn check_drifts(model: Charging, values: &[(f64, f64)]) {
    for (diameter_um, expected) in values {
        let drift = drift_m_s(model, diameter_um * 1e-6);
        printed(
            &format!("value K1, w, {model:?}, {diameter_um} µm"),
            drift,
            *expected,
            1e-4,
            1e-5,
        );
    }
}

/// Value M1: diameter of the slowest grain between 0.2 and 0.6 µm, m.
pub(crate) fn slowest_m(model: Charging) -> f64 {
    let step_m = 1e-9;
    let diameters = (200..=600).map(|nanometres| f64::from(nanometres) * step_m);
    diameters
        .min_by(|a, b| drift_m_s(model, *a).total_cmp(&drift_m_s(model, *b)))
        .expect("a range of sizes")
}

#[test]
fn the_case_has_the_stated_ions() {
    let exposure = Exposure::of_current(CURRENT_A_M2, FIELD_V_M, MOBILITY_M2_V_S);
    // Computed: N₀ = j/(ebE), v̄ = √(8RT/πM) with M of O₂⁻, τ = 4ε₀E/j.
    printed(
        "case X, N0",
        exposure.ion_density_per_m3,
        2.8370e13,
        0.0,
        1e9,
    );
    printed(
        "case X, ion speed",
        gas::ion_thermal_speed_m_s(TEMPERATURE_K),
        529.13,
        0.0,
        0.01,
    );
    let time_s = field::charging_time_s(exposure.ion_density_per_m3, MOBILITY_M2_V_S);
    printed("case X, charging time", time_s, 0.035_417, 0.0, 1e-6);
    close(
        "case X, mean free path",
        mean_free_path_m(),
        104.693e-9,
        1e-5,
    );
}
