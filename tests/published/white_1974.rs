//! White 1974 and Hall 1971 (both in J. Air Pollut. Control Assoc.): a layer of high resistivity and its breakdown.

use ashlane_shared::physics::layer::back_corona::{
    charge_factor, counter_current_density_a_m2, held_drop_v, onset_current_density_a_m2,
};
use ashlane_shared::physics::layer::drop::{ohmic_drop_v, ohmic_field_v_m};

use crate::close;

/// 1 nA/cm² in A/m².
const NA_CM2: f64 = 1e-5;
/// 1 Ω·cm in Ω·m.
const OHM_CM: f64 = 0.01;

#[test]
fn three_resistivities_at_ten_kilovolts_a_centimetre() {
    // Computed by hand: E_b/ρ with E_b = 10 kV/cm (from memory of White 1974, Hall 1971: 10 to 20), jρh at 30 nA/cm², 5 mm.
    for (resistivity_ohm_cm, most_na_cm2, drop_kv) in
        [(1e10, 1000.0, 0.15), (1e11, 100.0, 1.5), (1e12, 10.0, 15.0)]
    {
        let resistivity = resistivity_ohm_cm * OHM_CM;
        let most = onset_current_density_a_m2(1e6, resistivity) / NA_CM2;
        close("value B1, current", most, most_na_cm2, 1e-12);
        let drop_v = ohmic_drop_v(30.0 * NA_CM2, resistivity, 5e-3);
        close("value B1, drop", drop_v, drop_kv * 1e3, 1e-12);
    }
}

#[test]
fn the_layer_of_the_lesson() {
    // Computed by hand: 1e11 Ω·cm at 20 nA/cm² is 2 kV/cm; 5e11 is 10 kV/cm and over 5 mm 5 kV.
    close(
        "2 kV/cm",
        ohmic_field_v_m(20.0 * NA_CM2, 1e11 * OHM_CM),
        2e5,
        1e-12,
    );
    close(
        "10 kV/cm",
        ohmic_field_v_m(20.0 * NA_CM2, 5e11 * OHM_CM),
        1e6,
        1e-12,
    );
    close(
        "5 kV",
        ohmic_drop_v(20.0 * NA_CM2, 5e11 * OHM_CM, 5e-3),
        5e3,
        1e-12,
    );
}

#[test]
fn past_breakdown_the_drop_stays_and_the_grains_lose_charge() {
    // Computed by hand: the third row of B1 at 30 nA/cm² is three times past onset; the field stays at 10 kV/cm, so 5 kV
    // over 5 mm, and of κ = 0.75 there come back 15 nA/cm², half of the current. Common practice, no source.
    let (density, resistivity) = (30.0 * NA_CM2, 1e12 * OHM_CM);
    close(
        "held drop",
        held_drop_v(density, resistivity, 1e6, 5e-3),
        5e3,
        1e-12,
    );
    let counter = counter_current_density_a_m2(density, resistivity, 1e6, 0.75);
    close("counter current", counter / NA_CM2, 15.0, 1e-12);
    close(
        "charge left",
        charge_factor(density, resistivity, 1e6, 0.75),
        0.5,
        1e-12,
    );
}
