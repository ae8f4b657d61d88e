//! Diameters of fresh and of returning parcels, and the classes that they are counted in.

use crate::{
    conditions::Conditions,
    physics::{PhysicsError, efficiency::SizeDistribution},
};

/// Size classes of the count.
const CLASSES: usize = 20;
/// Share of the mass below the finest and above the coarsest class edge; both ends are open.
const TAIL: f64 = 2e-4;
/// Median of the dust that returns from the plates, m: agglomerates of the rapped layer.
///
/// US EPA Cost Manual (EPA/452/B-02-001), from memory: 5 µm where the inlet median is above 5 µm, else 3 µm.
const RETURNED_MEDIAN_M: f64 = 5e-6;
const RETURNED_MEDIAN_OF_FINE_DUST_M: f64 = 3e-6;
/// Geometric deviation of the dust that returns; a teaching setting, no source.
const RETURNED_DEVIATION: f64 = 2.5;

/// Steps of a table of quantiles, and the share at both ends that it leaves to the exact quantile.
const STEPS: usize = 4096;
const EXACT: f64 = 2e-3;

/// A distribution with a table of its quantiles: drawing a diameter is one look-up.
#[derive(Clone, Debug)]
struct Dice {
    dust: SizeDistribution,
    /// ln d at equal steps of the mass fraction from `EXACT` to 1 − `EXACT`.
    logs: Vec<f64>,
}

impl Dice {
    fn new(dust: SizeDistribution) -> Self {
        let share = |step: usize| EXACT + (1.0 - 2.0 * EXACT) * step as f64 / STEPS as f64;
        let logs = (0..=STEPS)
            .map(|step| dust.quantile_m(share(step)).ln())
            .collect();
        Self { dust, logs }
    }

    /// Diameter with the mass fraction `random` in finer grains, m.
    fn diameter_m(&self, random: f64) -> f64 {
        let place = (random - EXACT) / (1.0 - 2.0 * EXACT) * STEPS as f64;
        if !(0.0..STEPS as f64).contains(&place) {
            return self.dust.quantile_m(random);
        }
        let below = (place as usize).min(STEPS - 1);
        let (low, high) = (self.logs[below], self.logs[below + 1]);
        (low + (place - below as f64) * (high - low)).exp()
    }
}

/// Draws diameters and sorts them into classes.
#[derive(Clone, Debug)]
pub(crate) struct SizeSampler {
    inlet: Option<Dice>,
    returned: Option<Dice>,
    single_m: f64,
    /// Class edges, m: one more than classes.
    edges_m: Vec<f64>,
}

impl SizeSampler {
    pub(crate) fn new(conditions: &Conditions) -> Result<Self, PhysicsError> {
        if let Some(single_m) = conditions.teaching.single_diameter_m {
            let edges_m = vec![0.9 * single_m, 1.1 * single_m];
            return Ok(Self {
                inlet: None,
                returned: None,
                single_m,
                edges_m,
            });
        }
        let inlet = SizeDistribution::of(&conditions.dust.sizes)?;
        let inlet_median_m = inlet.quantile_m(0.5);
        let median_m = if inlet_median_m > RETURNED_MEDIAN_M {
            RETURNED_MEDIAN_M
        } else {
            RETURNED_MEDIAN_OF_FINE_DUST_M
        };
        let returned =
            SizeDistribution::log_normal(median_m.min(inlet_median_m), RETURNED_DEVIATION)?;
        let (low, high) = (
            inlet.quantile_m(TAIL).ln(),
            inlet.quantile_m(1.0 - TAIL).ln(),
        );
        let edges_m = (0..=CLASSES)
            .map(|edge| (low + (high - low) * edge as f64 / CLASSES as f64).exp())
            .collect();
        Ok(Self {
            inlet: Some(Dice::new(inlet)),
            returned: Some(Dice::new(returned)),
            single_m: inlet_median_m,
            edges_m,
        })
    }

    /// Number of classes.
    pub(crate) fn classes(&self) -> usize {
        self.edges_m.len() - 1
    }

    /// Edges of the classes, m.
    pub(crate) fn edges_m(&self) -> &[f64] {
        &self.edges_m
    }

    /// Geometric middle of each class, m.
    pub(crate) fn class_middles_m(&self) -> Vec<f64> {
        self.edges_m
            .windows(2)
            .map(|edge| (edge[0] * edge[1]).sqrt())
            .collect()
    }

    /// Share of the inlet mass in each class, the open ends included.
    pub(crate) fn class_shares(&self) -> Vec<f64> {
        let classes = self.classes();
        let Some(inlet) = &self.inlet else {
            return vec![1.0 / classes as f64; classes];
        };
        let below = |edge: usize| match edge {
            0 => 0.0,
            edge if edge == classes => 1.0,
            edge => inlet.dust.cumulative(self.edges_m[edge]),
        };
        (0..classes)
            .map(|class| below(class + 1) - below(class))
            .collect()
    }

    /// Class of a diameter; beyond the ends, the end class.
    pub(crate) fn class(&self, diameter_m: f64) -> usize {
        let last = self.classes() - 1;
        let (low, high) = (self.edges_m[0].ln(), self.edges_m[last + 1].ln());
        let place = (diameter_m.ln() - low) / (high - low) * (last + 1) as f64;
        (place.max(0.0) as usize).min(last)
    }

    /// Diameter with the share `random` of the inlet mass in finer grains, m.
    pub(crate) fn diameter_m(&self, random: f64) -> f64 {
        self.inlet
            .as_ref()
            .map_or(self.single_m, |inlet| inlet.diameter_m(random))
    }

    /// Diameter of dust that returns from the plates, m; dust of one size returns as it was.
    pub(crate) fn reentrained_diameter_m(&self, captured_m: f64, random: f64) -> f64 {
        self.returned
            .as_ref()
            .map_or(captured_m, |returned| returned.diameter_m(random))
    }

    /// The inlet and the returned distribution; nothing where all grains have one size.
    pub(crate) fn distributions(&self) -> Option<(&SizeDistribution, &SizeDistribution)> {
        Some((&self.inlet.as_ref()?.dust, &self.returned.as_ref()?.dust))
    }

    /// The one diameter, where all grains have it; else the median of the inlet, m.
    pub(crate) fn median_m(&self) -> f64 {
        self.single_m
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::conditions::{SITES, sheet};

    #[test]
    fn the_table_draws_the_diameters_of_the_distribution() {
        for (name, text) in SITES {
            let conditions = sheet::read_str(name, text)
                .expect("a good sheet")
                .conditions;
            let sampler = SizeSampler::new(&conditions).expect("possible");
            let (inlet, _) = sampler.distributions().expect("a spread");
            for step in 1..5000_u32 {
                let random = f64::from(step) / 5000.0;
                // Compared by the share of the mass below, because a table may hold a stretch without mass.
                let below = inlet.cumulative(sampler.diameter_m(random));
                assert!(
                    (below - random).abs() < 3e-4,
                    "{name}: {below} of the mass lies below what {random} draws"
                );
            }
        }
    }

    #[test]
    fn classes_hold_their_own_middles_and_the_ends_are_open() {
        let sampler = SizeSampler::new(&crate::conditions::demonstration()).expect("possible");
        for (class, middle_m) in sampler.class_middles_m().into_iter().enumerate() {
            assert_eq!(sampler.class(middle_m), class);
        }
        assert_eq!(sampler.class(1e-12), 0);
        assert_eq!(sampler.class(1.0), sampler.classes() - 1);
    }
}
