//! Wet collectors: how cool and wet the gas gets when water saturates it.

use ashlane_shared::physics::gas_path::heat::DryGas;
use ashlane_shared::physics::gas_path::saturation::{adiabatic_saturation, water_balance};
use ashlane_shared::physics::gas_path::stream::GasStream;

use crate::{close, printed};

fn inlet(temperature_k: f64, moisture: f64, dry: DryGas) -> GasStream {
    GasStream {
        flow_m3_s: 118.8,
        temperature_k,
        pressure_pa: 101_325.0,
        moisture,
        dry,
    }
}

#[test]
fn saturation_temperature() {
    // Computed: CoolProp humid air at one atmosphere; to 0.5 K.
    for (celsius, moisture, expected) in [
        (150.0, 0.08, 52.5),
        (150.0, 0.15, 60.3),
        (170.0, 0.10, 56.3),
    ] {
        let inlet = inlet(celsius + 273.15, moisture, DryGas::AIR);
        let behind = adiabatic_saturation(&inlet).expect("saturated").stream;
        printed(
            "value V1",
            behind.temperature_k - 273.15,
            expected,
            0.0,
            1.0,
        );
        // Flue gas holds 4 to 5 % more heat than air, which is worth up to 1 K.
        let inlet = GasStream {
            dry: DryGas::FLUE_GAS,
            ..inlet
        };
        let warmer = adiabatic_saturation(&inlet).expect("saturated").stream;
        let more_k = warmer.temperature_k - behind.temperature_k;
        assert!((0.0..1.0).contains(&more_k), "{more_k} K");
    }
}

#[test]
fn the_demonstration_made_wet() {
    let behind = adiabatic_saturation(&inlet(423.15, 0.08, DryGas::AIR)).expect("saturated");
    // Computed with Python from value V1 alone: 52.5 °C has p_s = 13.96 kPa (steam tables, from memory), so 0.1598 moles
    // of vapour for each of dry gas against 0.08696; 1.1598/1.08696 · 325.65/423.15 · 118.8 m³/s = 97.6 m³/s, and
    // 3147.8 mol/s · 0.0728 · 18.0153 g = 4.13 kg/s. Half a kelvin is 2.5 % of p_s: 0.5 % of the volume, 7 % of the water.
    close("gas behind", behind.stream.flow_m3_s, 97.6, 5e-3);
    close("water evaporated", behind.evaporated_kg_s, 4.13, 0.07);
    close("moisture", behind.stream.moisture, 0.1378, 0.025);
    // Common practice, no source: 0.67 kg of water for each m³ and 80 to 95 % recycled; closed form of the balance.
    let water = water_balance(0.67 * 118.8, behind.evaporated_kg_s, 0.9).expect("a balance");
    let drained_kg_s = 0.67 * 118.8 - behind.evaporated_kg_s;
    close(
        "fresh water",
        water.fresh_kg_s,
        behind.evaporated_kg_s + 0.1 * drained_kg_s,
        1e-12,
    );
}
