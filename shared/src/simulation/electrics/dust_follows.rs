//! The dust's own charge follows the current: a weaker corona charges it less and catches less of it.

use super::{
    Electrics,
    charge_along::{ChargeAlong, Met},
};
use crate::{conditions::Conditions, physics::PhysicsError, simulation::SizeSampler};

/// Grains that stand for the dust, evenly dealt: the share s of the mass below a grain is u³, as fine grains hold most of
/// the charge.
const GRAINS: usize = 24;
/// Points between two solved ones.
const BETWEEN: usize = 6;

/// The dust of one field.
pub(super) struct DustFollows {
    charging: ChargeAlong,
    /// Diameter, m, and number of each grain, in any unit.
    grains: Vec<(f64, f64)>,
    /// The fields upstream, and the field itself as it was solved.
    met: Vec<Met>,
    /// How much later the corona starts with this dust, V.
    later_v: f64,
    /// Plate area of a field over the gas flow, s/m.
    area_s_m: f64,
}

impl DustFollows {
    /// The dust as these electrics have it in a field.
    pub(super) fn new(
        conditions: &Conditions,
        electrics: &Electrics,
        field: usize,
    ) -> Result<Self, PhysicsError> {
        let sizes = SizeSampler::new(conditions)?;
        let grain = |index: usize| {
            let even = (index as f64 + 0.5) / GRAINS as f64;
            let diameter_m = sizes.diameter_m(even.powi(3));
            (diameter_m, even * even / diameter_m.powi(3))
        };
        let states = &electrics.states[..=field];
        let fields = states.iter().zip(&electrics.fields);
        let state = &electrics.states[field];
        Ok(Self {
            charging: ChargeAlong::new(conditions),
            grains: (0..GRAINS).map(grain).collect(),
            met: fields
                .map(|(state, solved)| Met {
                    gap_v: state.gap_v(),
                    ions_a_m2: solved.plate_current_a_m2(),
                })
                .collect(),
            area_s_m: conditions.specific_collection_area_s_m()
                / conditions.collector.fields as f64,
            later_v: (state.dusty_onset_v - state.onset_v).max(0.0),
        })
    }

    /// A curve that was solved with the dust's charge held, gap voltage and current density from the onset up, as it is
    /// with the charge that belongs to each current: moved along the voltage by what the onset moves.
    pub(super) fn followed(&self, held: &[(f64, f64)]) -> Vec<(f64, f64)> {
        let whole = self.charge(None);
        if self.later_v <= 0.0 || whole <= 0.0 {
            return held.to_vec();
        }
        let mut moved: Vec<(f64, f64)> = Vec::new();
        for (gap_v, density_a_m2) in finer(held) {
            let share = self.charge(Some(Met {
                gap_v,
                ions_a_m2: density_a_m2,
            })) / whole;
            let at_v = gap_v - (1.0 - share) * self.later_v;
            // With more current there is never less voltage.
            let least_v = moved.last().map_or(0.0, |last| last.0 * (1.0 + 1e-9));
            moved.push((at_v.max(least_v), density_a_m2));
        }
        moved
    }

    /// Charge of all grains in the field, as solved or at another voltage and current there: of those that the fields
    /// upstream let through and that are not caught yet, by Deutsch's law.
    fn charge(&self, instead: Option<Met>) -> f64 {
        let mut met = self.met.clone();
        if let (Some(last), Some(instead)) = (met.last_mut(), instead) {
            *last = instead;
        }
        let grains = self.grains.iter();
        grains
            .map(|(diameter_m, number)| {
                let charges_c = self.charging.charges_c(*diameter_m, &met);
                let deutsch = |(charge_c, met): (&f64, &Met)| {
                    self.area_s_m * self.charging.drift_m_s(*diameter_m, *charge_c, met)
                };
                let numbers: Vec<f64> = charges_c.iter().zip(&met).map(deutsch).collect();
                let Some((own, upstream)) = numbers.split_last() else {
                    return 0.0;
                };
                let arriving = number * (-upstream.iter().sum::<f64>()).exp();
                let charge_c = charges_c.last().copied().unwrap_or(0.0);
                arriving * mean_left(*own) * charge_c
            })
            .sum()
    }
}

/// Share of what enters a field that is in its gas in the mean over the length: `(1 − e^{−De})/De`.
fn mean_left(deutsch: f64) -> f64 {
    if deutsch > 1e-9 {
        -(-deutsch).exp_m1() / deutsch
    } else {
        1.0
    }
}

/// The same curve with points between: closer together where the current is small, for there the charge changes most.
fn finer(points: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut finer: Vec<(f64, f64)> = points.first().copied().into_iter().collect();
    for pair in points.windows(2) {
        for step in 1..=BETWEEN {
            let even = step as f64 / BETWEEN as f64;
            let part = even * even;
            finer.push((
                pair[0].0 + part * (pair[1].0 - pair[0].0),
                pair[0].1 + part * (pair[1].1 - pair[0].1),
            ));
        }
    }
    finer
}
