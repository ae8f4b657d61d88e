//! Chase 1998, NIST-JANAF Thermochemical Tables: how much heat the gases hold.

use ashlane_shared::physics::gas_path::heat::{DryGas, dry_heat_j_mol, vapour_heat_j_mol};

use crate::printed;

const NITROGEN: DryGas = DryGas {
    nitrogen: 1.0,
    carbon_dioxide: 0.0,
    oxygen: 0.0,
};
const CARBON_DIOXIDE: DryGas = DryGas {
    nitrogen: 0.0,
    carbon_dioxide: 1.0,
    oxygen: 0.0,
};
const OXYGEN: DryGas = DryGas {
    nitrogen: 0.0,
    carbon_dioxide: 0.0,
    oxygen: 1.0,
};

#[test]
fn heat_from_room_temperature() {
    // From memory of the tables: H(T) − H(298.15 K) in kJ/mol at 400 and 500 K, to three decimals. The polynomials are a
    // fit to a later edition of the same data: 0.1 % on top.
    for (name, gas, table) in [
        ("nitrogen", NITROGEN, [2.971, 5.911]),
        ("carbon dioxide", CARBON_DIOXIDE, [4.003, 8.305]),
        ("oxygen", OXYGEN, [3.025, 6.084]),
    ] {
        for (temperature_k, expected) in [400.0, 500.0].into_iter().zip(table) {
            let got = dry_heat_j_mol(&gas, temperature_k) - dry_heat_j_mol(&gas, 298.15);
            printed(name, got * 1e-3, expected, 1e-3, 1e-3);
        }
    }
    for (temperature_k, expected) in [(400.0, 3.452), (500.0, 6.925)] {
        let got = vapour_heat_j_mol(temperature_k) - vapour_heat_j_mol(298.15);
        printed("water vapour", got * 1e-3, expected, 1e-3, 1e-3);
    }
}

#[test]
fn saturated_vapour_at_sixty_degrees() {
    // From memory of steam tables: 2608.8 kJ/kg at 60 °C; the ideal gas is 0.1 % above it.
    let got = vapour_heat_j_mol(333.15) / 18.0153;
    printed("vapour of 60 °C", got, 2608.8, 2e-3, 0.1);
}
