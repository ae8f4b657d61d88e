//! Wagner et al. 2000, J. Eng. Gas Turbines Power 122:150 (IAPWS-IF97): the saturation line of water.

use ashlane_shared::physics::gas_path::saturation::{
    boiling_temperature_k, saturation_pressure_pa,
};

use crate::{close, printed};

#[test]
fn pressure_on_the_line() {
    // Table 35 of the release, from memory: MPa to nine digits.
    for (temperature_k, expected_mpa) in [
        (300.0, 0.353_658_941e-2),
        (500.0, 0.263_889_776e1),
        (600.0, 0.123_443_146e2),
    ] {
        let got = saturation_pressure_pa(temperature_k).expect("in range");
        close("table 35", got * 1e-6, expected_mpa, 2e-9);
    }
}

#[test]
fn temperature_on_the_line() {
    // Table 36 of the release, from memory: K to nine digits.
    for (pressure_pa, expected_k) in [
        (0.1e6, 372.755_919),
        (1e6, 453.035_632),
        (10e6, 584.149_488),
    ] {
        let got = boiling_temperature_k(pressure_pa).expect("in range");
        close("table 36", got, expected_k, 2e-9);
    }
}

#[test]
fn water_boils_at_one_atmosphere() {
    // From memory of steam tables: 101.42 kPa at 100 °C; boiling at one atmosphere at 99.974 °C (ITS-90).
    let pressure_pa = saturation_pressure_pa(373.15).expect("in range");
    printed("at 100 °C", pressure_pa, 101_420.0, 0.0, 10.0);
    let boiling_k = boiling_temperature_k(101_325.0).expect("in range");
    printed("at one atmosphere", boiling_k, 373.124, 0.0, 2e-3);
}
