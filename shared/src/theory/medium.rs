//! Gas and dust as charging and drag know them: the formulas of `physics` with everything but the grain filled in.

use crate::{
    conditions::{Charging, Conditions},
    physics::{
        charging::{self, Exposure, Grain, IonGas, field, lawless, thermal_charge_c},
        constants::{ELEMENTARY_CHARGE_C, VACUUM_PERMITTIVITY_F_M},
        drag, gas,
    },
    simulation::TIME_STEP_S,
};

/// The gas and dust properties that charging and drag need.
#[derive(Clone, Copy, Debug)]
pub(super) struct Medium {
    model: Charging,
    ion_gas: IonGas,
    permittivity: f64,
    viscosity_pa_s: f64,
    density_kg_m3: f64,
}

impl Medium {
    pub(super) fn new(conditions: &Conditions) -> Self {
        let state = &conditions.gas;
        Self {
            model: conditions.teaching.charging,
            ion_gas: IonGas {
                temperature_k: state.temperature_k,
                mean_free_path_m: gas::mean_free_path_m(state.temperature_k, state.pressure_pa),
                ion_mobility_m2_v_s: conditions.ion_mobility_m2_v_s(),
            },
            permittivity: conditions.dust.permittivity,
            viscosity_pa_s: gas::viscosity_pa_s(state.temperature_k),
            density_kg_m3: gas::density_kg_m3(
                state.pressure_pa,
                state.temperature_k,
                gas::molar_mass_kg_mol(state.moisture),
            ),
        }
    }

    fn grain(&self, diameter_m: f64) -> Grain {
        Grain {
            diameter_m,
            permittivity: self.permittivity,
        }
    }

    /// Charge after `time_s` from nothing in an even field, C.
    pub(super) fn charge_c(&self, diameter_m: f64, exposure: &Exposure, time_s: f64) -> f64 {
        charging::charge_after_c(
            self.model,
            &self.grain(diameter_m),
            &self.ion_gas,
            exposure,
            time_s,
        )
    }

    /// Charging rate, C/s, of a grain with the charge `charge_c`.
    fn rate_c_s(&self, diameter_m: f64, charge_c: f64, exposure: &Exposure) -> f64 {
        let grain = self.grain(diameter_m);
        let clock_1_s =
            ELEMENTARY_CHARGE_C * exposure.ion_density_per_m3 * self.ion_gas.ion_mobility_m2_v_s
                / VACUUM_PERMITTIVITY_F_M;
        if clock_1_s <= 0.0 {
            return 0.0;
        }
        if self.model == Charging::Lawless {
            let unit_c = thermal_charge_c(diameter_m, self.ion_gas.temperature_k);
            let w = lawless::field_number(&grain, self.ion_gas.temperature_k, exposure.field_v_m);
            return unit_c * clock_1_s * lawless::rate(charge_c / unit_c, w);
        }
        // The other models are known by what they reach: the gain over a short while is the rate.
        let short_s = 1e-5 / clock_1_s;
        let later_c = charging::charge_later_c(
            self.model,
            &grain,
            &self.ion_gas,
            exposure,
            charge_c,
            short_s,
        );
        (later_c - charge_c).max(0.0) / short_s
    }

    /// Rate over one step of the count, C/s: it falls short of the rate at the start where the charge saturates within
    /// the step, by `1 + θ dt/τ` with `θ = 1 − q/q_s`.
    pub(super) fn step_rate_c_s(&self, diameter_m: f64, charge_c: f64, exposure: &Exposure) -> f64 {
        let saturation_c = field::saturation_c(diameter_m, self.permittivity, exposure.field_v_m);
        let open = (1.0 - charge_c / saturation_c.max(f64::MIN_POSITIVE)).max(0.0);
        let time_s = field::charging_time_s(
            exposure.ion_density_per_m3,
            self.ion_gas.ion_mobility_m2_v_s,
        );
        self.rate_c_s(diameter_m, charge_c, exposure) / (1.0 + open * TIME_STEP_S / time_s)
    }

    /// Stokes drift per charge and field strength, m/s per C and V/m.
    pub(super) fn stokes_mobility(&self, diameter_m: f64) -> f64 {
        let slip = gas::slip_factor(diameter_m, self.ion_gas.mean_free_path_m);
        drag::stokes_mobility_m_n_s(diameter_m, slip, self.viscosity_pa_s)
    }

    /// Terminal drift for a Stokes drift, m/s.
    pub(super) fn terminal_drift_m_s(&self, diameter_m: f64, stokes_m_s: f64) -> f64 {
        drag::terminal_drift_m_s(
            stokes_m_s,
            diameter_m,
            self.density_kg_m3,
            self.viscosity_pa_s,
        )
    }
}
