//! The Deutsch number of every grain along the collector: w at the plate under perfect mixing, times area over flow.

use super::{
    grains::Grains,
    medium::Medium,
    places::mixed,
    pull::Pull,
    zones::{MixedField, Zone},
};
use crate::{
    conditions::Conditions,
    count::STATIONS_PER_FIELD,
    simulation::{Motion, Passage},
};

/// Steps per station.
const STEPS: usize = 8;

/// ∫ w dA/Q of one grain from the inlet to each station.
#[derive(Clone, Debug)]
pub(super) struct DeutschCurve {
    pub(super) mass_share: f64,
    pub(super) number: Vec<f64>,
}

impl DeutschCurve {
    /// At the outlet.
    pub(super) fn total(&self) -> f64 {
        self.number.last().copied().unwrap_or(0.0)
    }
}

/// The curves of all grains.
pub(super) fn curves(
    conditions: &Conditions,
    passage: &Passage,
    grains: &Grains,
) -> Vec<DeutschCurve> {
    let fields = mixed(conditions, passage);
    grains
        .list
        .iter()
        .map(|grain| curve(conditions, passage, &fields, grain.diameter_m, grain.inlet))
        .collect()
}

/// The curves of single grains of these diameters, m.
pub(super) fn curves_of(
    conditions: &Conditions,
    passage: &Passage,
    diameters_m: &[f64],
) -> Vec<DeutschCurve> {
    let fields = mixed(conditions, passage);
    let of = |&diameter_m: &f64| curve(conditions, passage, &fields, diameter_m, 1.0);
    diameters_m.iter().map(of).collect()
}

/// The curve of the median grain.
pub(super) fn median_curve(conditions: &Conditions, passage: &Passage) -> DeutschCurve {
    curve(
        conditions,
        passage,
        &mixed(conditions, passage),
        passage.sizes.median_m(),
        1.0,
    )
}

fn curve(
    conditions: &Conditions,
    passage: &Passage,
    fields: &[MixedField],
    diameter_m: f64,
    mass_share: f64,
) -> DeutschCurve {
    let pull = match passage.motion {
        Motion::Fixed => None,
        Motion::Charged(_) => {
            let zones: Vec<&Zone> = fields.iter().map(|field| &field.zone).collect();
            let strongest_v_m = fields
                .iter()
                .map(|field| field.plate_v_m)
                .fold(0.0, f64::max);
            Some(Pull::new(
                &Medium::new(conditions),
                diameter_m,
                &zones,
                strongest_v_m,
                true,
            ))
        }
    };
    let steps = STATIONS_PER_FIELD * STEPS;
    let step_s = conditions.collector.field_length_m / conditions.gas_velocity_m_s() / steps as f64;
    let per_drift = step_s / conditions.gap_m();
    let (mut charge_c, mut sum, mut number) = (0.0, 0.0, vec![0.0]);
    for (field, stage) in passage.stages.iter().enumerate() {
        for step in 1..=steps {
            let drift_m_s = match &pull {
                None => stage.fixed_drift_m_s,
                Some(pull) => {
                    // Half a step before and half a step after: the charge in the middle of the step drifts.
                    charge_c = pull.charge_later_c(field, charge_c, 0.5 * step_s);
                    let drift_m_s = pull.drift_m_s(charge_c, fields[field].plate_v_m);
                    charge_c = pull.charge_later_c(field, charge_c, 0.5 * step_s);
                    drift_m_s
                }
            };
            sum += drift_m_s * per_drift;
            if step % STEPS == 0 {
                number.push(sum);
            }
        }
    }
    DeutschCurve { mass_share, number }
}
