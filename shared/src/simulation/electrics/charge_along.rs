//! What charge and drift a grain has in the middle of every field when each has one strength and one current: quick enough
//! for the plant clock.

use crate::{
    conditions::{Charging, Conditions},
    physics::{
        charging::{Exposure, Grain, IonGas, path},
        drag, gas,
    },
};

/// Gas, dust and fields as the charging of a grain knows them.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct ChargeAlong {
    model: Charging,
    gas: IonGas,
    permittivity: f64,
    viscosity_pa_s: f64,
    gap_m: f64,
    /// Time in half a field, s.
    half_s: f64,
}

/// What a grain meets in one field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Met {
    /// Voltage across the gap, V.
    pub(crate) gap_v: f64,
    /// Current density of the ions, A/m².
    pub(crate) ions_a_m2: f64,
}

impl ChargeAlong {
    pub(crate) fn new(conditions: &Conditions) -> Self {
        let state = &conditions.gas;
        Self {
            model: conditions.teaching.charging,
            gas: IonGas {
                temperature_k: state.temperature_k,
                mean_free_path_m: gas::mean_free_path_m(state.temperature_k, state.pressure_pa),
                ion_mobility_m2_v_s: conditions.ion_mobility_m2_v_s(),
            },
            permittivity: conditions.dust.permittivity,
            viscosity_pa_s: gas::viscosity_pa_s(state.temperature_k),
            gap_m: conditions.gap_m(),
            half_s: 0.5 * conditions.treatment_time_s() / conditions.collector.fields as f64,
        }
    }

    /// Charge of a grain in the middle of every field, C.
    pub(crate) fn charges_c(&self, diameter_m: f64, met: &[Met]) -> Vec<f64> {
        let grain = Grain {
            diameter_m,
            permittivity: self.permittivity,
        };
        let pieces: Vec<(f64, Exposure)> = met
            .iter()
            .flat_map(|met| [(self.half_s, self.exposure(met)); 2])
            .collect();
        let charges_c = path::charges_c(self.model, &grain, &self.gas, &pieces);
        charges_c.into_iter().step_by(2).collect()
    }

    /// Stokes drift of a grain with this charge in the mean strength of a field, m/s.
    pub(crate) fn drift_m_s(&self, diameter_m: f64, charge_c: f64, met: &Met) -> f64 {
        let slip = gas::slip_factor(diameter_m, self.gas.mean_free_path_m);
        let mobility_m_n_s = drag::stokes_mobility_m_n_s(diameter_m, slip, self.viscosity_pa_s);
        charge_c * self.strength_v_m(met) * mobility_m_n_s
    }

    fn strength_v_m(&self, met: &Met) -> f64 {
        met.gap_v / self.gap_m
    }

    fn exposure(&self, met: &Met) -> Exposure {
        let field_v_m = self.strength_v_m(met);
        if field_v_m > 0.0 && met.ions_a_m2 > 0.0 {
            Exposure::of_current(met.ions_a_m2, field_v_m, self.gas.ion_mobility_m2_v_s)
        } else {
            Exposure {
                field_v_m,
                ion_density_per_m3: 0.0,
            }
        }
    }
}
