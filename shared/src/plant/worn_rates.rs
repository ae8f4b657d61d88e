//! Where dust ends when its drift is another than when the rates were counted.

use super::{
    PlantReading,
    rates::{Fate, Rates},
};
use crate::conditions::Conditions;

/// Least share of a class that gets through a field where none of the counted did: far less than one of them.
const LEAST: f64 = 1e-6;
/// Share of a class that has to arrive at a field for its own count to tell how much of it gets through.
const TELLING: f64 = 2e-3;

impl Rates {
    /// As they were in the mean over some readings, whose fields changed with what lay in them.
    #[must_use]
    pub fn in_the_mean_of(&self, conditions: &Conditions, readings: &[PlantReading]) -> Self {
        let mean = |field: usize, class: usize| {
            let drifts = (readings.iter())
                .filter_map(|reading| reading.fields.get(field)?.drifts.get(class).copied());
            drifts.sum::<f64>() / readings.len().max(1) as f64
        };
        let drifts: Vec<Vec<f64>> = (0..self.behind.len())
            .map(|field| {
                (0..self.diameters_m.len())
                    .map(|class| mean(field, class))
                    .collect()
            })
            .collect();
        self.worn(&drifts, conditions.collector.sneakage)
    }

    /// The same with so much more drift by field and size class, of which a share goes around every field.
    ///
    /// What flies through a field gets through as `p^r`: its penetration to the power of the drift over that with which it was
    /// counted (Deutsch 1922).
    pub(super) fn worn(&self, drifts: &[Vec<f64>], around: f64) -> Self {
        Self {
            fresh: worn(&self.fresh, drifts, around),
            behind: (self.behind.iter())
                .map(|fate| worn(fate, drifts, around))
                .collect(),
            diameters_m: self.diameters_m.clone(),
            fields: self.fields.clone(),
        }
    }
}

fn worn(fate: &Fate, drifts: &[Vec<f64>], around: f64) -> Fate {
    let mut worn = fate.clone();
    for class in 0..fate.left.len() {
        let entered: f64 =
            fate.left[class] + fate.caught.iter().map(|field| field[class]).sum::<f64>();
        let (mut arrives, mut arrived) = (entered, entered);
        let mut through_before = 1.0;
        for (field, drifts) in drifts.iter().enumerate() {
            let caught = fate.caught[field][class];
            let through = if arrived > TELLING * entered {
                let share = ((arrived - caught) / arrived - around) / (1.0 - around);
                share.clamp(LEAST, 1.0)
            } else {
                through_before
            };
            arrived -= caught;
            let now = arrives * (1.0 - around) * (1.0 - through.powf(drifts[class]));
            worn.caught[field][class] = now;
            arrives -= now;
            through_before = through;
        }
        worn.left[class] = arrives;
    }
    worn
}
