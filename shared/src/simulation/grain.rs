//! What of a grain depends on its diameter and the gas alone, worked out once when it enters.

use crate::{
    conditions::{Charging, Conditions},
    physics::{
        charging::{self, cochet, field},
        constants::{BOLTZMANN_J_K, ELEMENTARY_CHARGE_C, VACUUM_PERMITTIVITY_F_M},
        gas,
    },
};

/// The gas and dust properties that grains need.
#[derive(Clone, Copy, Debug)]
pub(crate) struct GrainMaker {
    temperature_k: f64,
    viscosity_pa_s: f64,
    gas_density_kg_m3: f64,
    mean_free_path_m: f64,
    permittivity: f64,
    ion_mobility_m2_v_s: f64,
    charging: Charging,
}

/// Constants of one grain; see the fields of `parcels::Parcel` with the same names.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Grain {
    pub(crate) charge_per_field: f64,
    pub(crate) charging_constant: f64,
    pub(crate) mobility: f64,
    pub(crate) reynolds_per_velocity: f64,
    /// Elementary charges per charge ν.
    pub(crate) electrons_per_charge: f64,
}

impl GrainMaker {
    pub(crate) fn new(conditions: &Conditions) -> Self {
        let gas = &conditions.gas;
        Self {
            temperature_k: gas.temperature_k,
            viscosity_pa_s: gas::viscosity_pa_s(gas.temperature_k),
            gas_density_kg_m3: gas::density_kg_m3(
                gas.pressure_pa,
                gas.temperature_k,
                gas::molar_mass_kg_mol(gas.moisture),
            ),
            mean_free_path_m: gas::mean_free_path_m(gas.temperature_k, gas.pressure_pa),
            permittivity: conditions.dust.permittivity,
            ion_mobility_m2_v_s: conditions.ion_mobility_m2_v_s(),
            charging: conditions.teaching.charging,
        }
    }

    /// Constants of a grain of this diameter.
    ///
    /// `W/E = ε/(ε+2)·d e/(2kT)`; `w/(νE) = 2 ε0 kT Cc/(3 μ e)`; `Re/w = ρ_g d/μ`.
    pub(crate) fn grain(&self, diameter_m: f64) -> Grain {
        let thermal_j = BOLTZMANN_J_K * self.temperature_k;
        let slip = gas::slip_factor(diameter_m, self.mean_free_path_m);
        Grain {
            charge_per_field: self.permittivity / (self.permittivity + 2.0)
                * diameter_m
                * ELEMENTARY_CHARGE_C
                / (2.0 * thermal_j),
            charging_constant: self.charging_constant(diameter_m, thermal_j),
            mobility: 2.0 * VACUUM_PERMITTIVITY_F_M * thermal_j * slip
                / (3.0 * self.viscosity_pa_s * ELEMENTARY_CHARGE_C),
            reynolds_per_velocity: self.gas_density_kg_m3 * diameter_m / self.viscosity_pa_s,
            electrons_per_charge: std::f64::consts::TAU
                * VACUUM_PERMITTIVITY_F_M
                * diameter_m
                * thermal_j
                / (ELEMENTARY_CHARGE_C * ELEMENTARY_CHARGE_C),
        }
    }

    fn charging_constant(&self, diameter_m: f64, thermal_j: f64) -> f64 {
        match self.charging {
            // Cochet's saturation charge over that of field charging alone, the same at every field strength.
            Charging::Cochet => {
                let grain = charging::Grain {
                    diameter_m,
                    permittivity: self.permittivity,
                };
                cochet::saturation_c(&grain, self.mean_free_path_m, 1.0)
                    / field::saturation_c(diameter_m, self.permittivity, 1.0)
            }
            // White's A t = d e² N0 v̄ t/(8 ε0 kT), divided by τ = e N0 b t/ε0.
            Charging::White => {
                diameter_m * ELEMENTARY_CHARGE_C * gas::ion_thermal_speed_m_s(self.temperature_k)
                    / (8.0 * self.ion_mobility_m2_v_s * thermal_j)
            }
            Charging::Lawless | Charging::Field => 1.0,
        }
    }
}
