//! Bickelhaupt 1979, *A Technique for Predicting Fly Ash Resistivity*, EPA-600/7-79-204: the layer of ash as a resistor.

use ashlane_shared::physics::layer::resistivity::{
    AshComposition, LayerSurroundings, ash_resistivity_ohm_m,
};

use crate::{close, printed};

const ASH: AshComposition = AshComposition {
    lithium_sodium_percent: 0.42,
    iron_percent: 1.0,
    magnesium_calcium_percent: 1.5,
    potassium_percent: 0.5,
};
const KELVIN_AT_0_C: f64 = 273.15;

fn resistivity_ohm_cm(temperature_k: f64, moisture: f64) -> f64 {
    let surroundings = LayerSurroundings {
        temperature_k,
        moisture,
        sulphur_trioxide_ppm: 0.0,
        field_v_m: 10e5,
    };
    100.0 * ash_resistivity_ohm_m(&ASH, &surroundings).expect("in range")
}

/// Temperature of the largest resistivity in steps of 0.02 K, °C.
fn peak_c(moisture: f64) -> f64 {
    let peak = (0..18_000)
        .map(|step| 340.0 + 0.02 * f64::from(step))
        .max_by(|a, b| {
            resistivity_ohm_cm(*a, moisture).total_cmp(&resistivity_ohm_cm(*b, moisture))
        });
    peak.expect("a temperature") - KELVIN_AT_0_C
}

#[test]
fn four_temperatures_of_one_ash() {
    // Computed apart from this code from the report's form and coefficients (from memory of it), four digits printed.
    for (temperature_k, expected_ohm_cm) in [
        (373.0, 1.352e11),
        (423.0, 5.678e11),
        (473.0, 2.008e11),
        (573.0, 5.887e9),
    ] {
        close(
            "value Z1",
            resistivity_ohm_cm(temperature_k, 0.09),
            expected_ohm_cm,
            1e-3,
        );
    }
    // Computed, as above; the search steps by 0.02 K.
    printed("value Z1, peak", peak_c(0.09), 153.9, 0.0, 0.1);
}

#[test]
fn the_peak_lies_where_measured_ashes_have_it() {
    // Environmental Engineers' Handbook, figure 5.17.6 (dust resistivity against temperature): 121 to 177 °C.
    for moisture in [0.06, 0.09, 0.12] {
        let peak_c = peak_c(moisture);
        assert!(
            (121.0..=177.0).contains(&peak_c),
            "value Z2: {peak_c} °C at moisture {moisture}"
        );
    }
}
