//! Where dust ends, by field and grain size, counted once for steady conditions.

use super::segments::SEGMENTS_ALONG;
use crate::{
    conditions::{Conditions, FieldDefects},
    count::{Count, Fates},
    physics::PhysicsError,
    simulation::{TabulatedField, electrics, layer_resistivity_ohm_m},
};

/// Where a kilogram of dust ends, by size class: shares that add up to 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Fate {
    /// Share that each field catches in each class.
    pub caught: Vec<Vec<f64>>,
    /// Share that leaves in each class.
    pub left: Vec<f64>,
    /// How the catch of each field is spread over its length, inlet end first: shares that add up to 1.
    pub along: Vec<[f64; SEGMENTS_ALONG]>,
}

/// The rates of a collector under steady conditions.
#[derive(Clone, Debug, PartialEq)]
pub struct Rates {
    /// Of fresh dust, with nothing coming back from the plates.
    pub fresh: Fate,
    /// Of dust that a rap of each field sent back into the gas.
    pub behind: Vec<Fate>,
    /// Geometric middle of each class, m.
    pub diameters_m: Vec<f64>,
    /// What layers, wires and ash make of every field.
    pub(crate) fields: Vec<TabulatedField>,
}

impl Rates {
    /// Counts them with so many parcels of fresh dust, and a tenth as many for the raps of each field; `continue_after` is told the share done and answers whether to go on.
    ///
    /// # Errors
    /// A formula refused the conditions. `Ok(None)` where it was cancelled.
    pub fn count(
        conditions: &Conditions,
        parcels: usize,
        seed: u64,
        mut continue_after: impl FnMut(f64) -> bool,
    ) -> Result<Option<Self>, PhysicsError> {
        let fields = conditions.collector.fields;
        let parts = (fields + 1) as f64;
        let mut done = 0.0;
        let mut flown = |behind: Option<u32>, parcels: usize| {
            let mut count = Count::without_returns(conditions, parcels, seed, behind)?;
            let whole = count.run(|share| continue_after((done + share) / parts));
            done += 1.0;
            Ok::<_, PhysicsError>(whole.then(|| (Fate::of(&count.fates()), count.diameters_m())))
        };
        let Some((fresh, diameters_m)) = flown(None, parcels)? else {
            return Ok(None);
        };
        let mut behind = Vec::with_capacity(fields);
        for field in 0..fields as u32 {
            let Some((fate, _)) = flown(Some(field), (parcels / 10).max(1))? else {
                return Ok(None);
            };
            behind.push(fate);
        }
        Ok(Some(Self {
            fresh,
            behind,
            diameters_m,
            fields: tables(conditions)?,
        }))
    }

    /// Share of the dust that a rap of each field sends into the gas that leaves in the long run: at once, or after it
    /// was caught and sent back again further down.
    ///
    /// `L_f = l_f + RR Σ_{g>f} r_fg L_g`
    #[must_use]
    pub fn escaping_from_behind(&self, reentrained: f64) -> Vec<f64> {
        let mut escaping = vec![0.0; self.behind.len()];
        for (field, fate) in self.behind.iter().enumerate().rev() {
            let mut share: f64 = fate.left.iter().sum();
            for (caught, later) in fate.caught.iter().zip(&escaping).skip(field + 1) {
                share += reentrained * caught.iter().sum::<f64>() * later;
            }
            escaping[field] = share;
        }
        escaping
    }

    /// Share of the inlet mass that leaves in the long run, when every field gives up what it catches at its raps:
    /// what a field gets is its own catch and its catch of all puffs from upstream.
    ///
    /// `C_f = c_f + RR Σ_{g<f} C_g r_gf`, `P = p + RR Σ_f C_f l_f`
    #[must_use]
    pub fn long_run_penetration(&self, reentrained: f64) -> f64 {
        let sum = |shares: &[f64]| shares.iter().sum::<f64>();
        let puffs = self.arriving(reentrained).into_iter().zip(&self.behind);
        puffs.fold(sum(&self.fresh.left), |escaped, (arriving, fate)| {
            escaped + reentrained * arriving * sum(&fate.left)
        })
    }

    /// Share of the inlet mass that comes to lie on the plates of each field in the long run, what raps upstream sent
    /// back into the gas included: `C_f` of [`Self::long_run_penetration`].
    #[must_use]
    pub fn arriving(&self, reentrained: f64) -> Vec<f64> {
        let sum = |shares: &[f64]| shares.iter().sum::<f64>();
        let mut arriving: Vec<f64> = self.fresh.caught.iter().map(|caught| sum(caught)).collect();
        for field in 0..arriving.len() {
            let puff = reentrained * arriving[field];
            for (later, caught) in arriving.iter_mut().zip(&self.behind[field].caught) {
                *later += puff * sum(caught);
            }
        }
        arriving
    }
}

/// Tables of every field, solved with clean plates and wires at rest: layers and swings are what they are looked up by.
fn tables(conditions: &Conditions) -> Result<Vec<TabulatedField>, PhysicsError> {
    let mut clean = conditions.clone();
    clean.rapping.layer_m.fill(0.0);
    for defects in &mut clean.defects {
        defects.swing_m = 0.0;
    }
    let solved = electrics(&clean)?;
    let resistivity_ohm_m = layer_resistivity_ohm_m(&clean)?;
    let table = |(field, defects): (usize, &FieldDefects)| {
        let table = TabulatedField::new(&clean, &solved, field, resistivity_ohm_m)?;
        Ok(table.swinging(defects.swing_m))
    };
    conditions.defects.iter().enumerate().map(table).collect()
}

impl Fate {
    fn of(fates: &Fates) -> Self {
        let entered: u64 = fates.entered.iter().sum();
        let share = |count: &u64| *count as f64 / entered.max(1) as f64;
        Self {
            caught: fates
                .caught
                .iter()
                .map(|field| field.iter().map(share).collect())
                .collect(),
            left: fates.left.iter().map(share).collect(),
            along: fates.along.iter().map(|field| along(field)).collect(),
        }
    }
}

/// Shares of a field's catch by segment; even where it caught nothing.
fn along(stations: &[u64]) -> [f64; SEGMENTS_ALONG] {
    let total: u64 = stations.iter().sum();
    let mut shares = [1.0 / SEGMENTS_ALONG as f64; SEGMENTS_ALONG];
    if total > 0 {
        let stretch = stations.len().div_ceil(SEGMENTS_ALONG);
        for (share, stations) in shares.iter_mut().zip(stations.chunks(stretch)) {
            *share = stations.iter().sum::<u64>() as f64 / total as f64;
        }
    }
    shares
}
