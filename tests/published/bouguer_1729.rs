//! Bouguer 1729, *Essai d'optique* (Lambert 1760, Beer 1852): light through the dust of a stack.

use ashlane_shared::physics::stack::{
    COARSE_EXTINCTION, mass_extinction_m2_kg, opacity, scaled_opacity,
};

use crate::{close, printed};

#[test]
fn the_stack_of_the_lessons() {
    // Computed by hand: k = 0.5 m²/g (invented), 2.9 m; 1 − e^(−0.0232) and 1 − e^(−0.25955).
    for (load_mg_m3, expected, last_digit) in [(16.0, 0.023, 1e-3), (179.0, 0.23, 1e-2)] {
        let got = opacity(500.0, load_mg_m3 * 1e-6, 2.9).expect("an opacity");
        printed("stack", got, expected, 0.0, last_digit);
    }
    // Computed by hand: 4.73 times the dust, 1 − (1 − 0.02293)^4.73.
    let one = opacity(500.0, 16e-6, 2.9).expect("an opacity");
    let lost = scaled_opacity(one, 4.73).expect("an opacity");
    printed("one field lost", lost, 0.104, 0.0, 1e-3);
}

#[test]
fn another_path_length() {
    // From memory of US EPA 40 CFR 60, Appendix B, Performance Specification 1: log(1−O₁) = (L₁/L₂) log(1−O₂).
    let (monitor_m, exit_m, monitor) = (4.0_f64, 2.5_f64, 0.30_f64);
    let exit = scaled_opacity(monitor, exit_m / monitor_m).expect("an opacity");
    close(
        "path",
        (1.0 - monitor).log10(),
        monitor_m / exit_m * (1.0 - exit).log10(),
        1e-12,
    );
    // Computed by hand: 1 − 0.7^0.625 = 0.19983.
    printed("path", exit, 0.1998, 0.0, 1e-4);
}

#[test]
fn coarse_grains_hide_by_their_shadow() {
    // Computed by hand: 1 kg of 2.609 µm grains of 2300 kg/m³ are 4.676e13 spheres of 5.346e-12 m² shadow, twice over:
    // 500 m²/kg, the k of the lessons.
    let k = mass_extinction_m2_kg(2.609e-6, 2300.0, COARSE_EXTINCTION).expect("k");
    close("k", k, 2.0 * 4.676e13 * 5.346e-12, 1e-3);
    close("k", k, 500.0, 1e-3);
}
