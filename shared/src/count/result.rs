//! The batch count as shares with their standard errors.

use serde::{Deserialize, Serialize};

use super::tally::{STATIONS_PER_FIELD, Tally};
use crate::simulation::{FieldState, Passage};

/// A counted share with its uncertainty.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Counted {
    /// The share itself.
    pub share: f64,
    /// One standard error; where nothing was counted, a third of the rule-of-three bound 3/N, so that three of them
    /// are the bound.
    pub standard_error: f64,
}

impl Counted {
    /// Share of `hits` among `trials`, √(P(1−P)/N).
    #[must_use]
    pub fn new(hits: u64, trials: u64) -> Self {
        if trials == 0 {
            return Self {
                share: 0.0,
                standard_error: 1.0,
            };
        }
        let n = trials as f64;
        let share = hits as f64 / n;
        let inside = hits.min(trials) as f64 / n;
        let standard_error = if hits == 0 || hits >= trials {
            1.0 / n
        } else {
            (inside * (1.0 - inside) / n).sqrt()
        };
        Self {
            share,
            standard_error,
        }
    }
}

/// Penetration of one size class: mass leaving in the class over mass entering in it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct SizeCount {
    /// Geometric middle of the class, m.
    pub diameter_m: f64,
    /// Share of the inlet mass in the class.
    pub inlet_share: f64,
    /// Counted penetration and its uncertainty.
    pub counted: Counted,
}

/// Airborne mass at one place along the collector.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct AlongPoint {
    /// Distance from the start of the first field, m.
    pub along_m: f64,
    /// Share of the inlet mass still in the gas.
    pub counted: Counted,
}

/// What one field did.
#[derive(Clone, Debug, PartialEq)]
pub struct FieldCount {
    /// Net share of the inlet mass that stayed on its plates.
    pub collected: f64,
    /// Share of the inlet mass that went around its charged zone over the top.
    pub over_top: Counted,
    /// Share of the inlet mass that went around its charged zone through the hoppers.
    pub through_hoppers: Counted,
    /// Its electrical state.
    pub state: FieldState,
}

/// The result of a batch count.
#[derive(Clone, Debug, PartialEq)]
pub struct CountResult {
    /// Parcels flown.
    pub parcels: u64,
    /// Penetration of the dust mass.
    pub penetration: Counted,
    /// By size class, fine to coarse.
    pub by_size: Vec<SizeCount>,
    /// Along the collector, from the inlet on.
    pub along: Vec<AlongPoint>,
    /// By field, inlet to outlet.
    pub by_field: Vec<FieldCount>,
    /// Parcels that were still in flight at the very end and were booked as having left.
    pub stranded: u64,
    /// |entered − left − collected| over entered: what the books of the count are off by.
    pub imbalance: f64,
}

impl CountResult {
    pub(crate) fn new(passage: &Passage, tally: &Tally) -> Self {
        let share = |parcels: u64| Counted::new(parcels, tally.entered);
        let by_field: Vec<FieldCount> = (passage.states.iter().enumerate())
            .map(|(field, state)| {
                let [over_top, through_hoppers] = tally.sneaked_by_field[field];
                let kept = tally.captured_by_field[field] - tally.returned_by_field[field];
                FieldCount {
                    collected: share(kept).share,
                    over_top: share(over_top),
                    through_hoppers: share(through_hoppers),
                    state: state.clone(),
                }
            })
            .collect();
        let collected: u64 = tally.captured_by_field.iter().sum::<u64>()
            - tally.returned_by_field.iter().sum::<u64>();
        Self {
            parcels: tally.entered,
            penetration: Counted::new(tally.left, tally.entered),
            by_size: by_size(passage, tally),
            along: along(passage, tally),
            by_field,
            stranded: tally.stranded,
            imbalance: tally.entered.abs_diff(tally.left + collected) as f64
                / tally.entered.max(1) as f64,
        }
    }
}

fn by_size(passage: &Passage, tally: &Tally) -> Vec<SizeCount> {
    let middles = passage.sizes.class_middles_m();
    let counts = tally.entered_by_class.iter().zip(&tally.left_by_class);
    middles
        .into_iter()
        .zip(counts)
        .map(|(diameter_m, (&entered, &left))| SizeCount {
            diameter_m,
            inlet_share: entered as f64 / tally.entered.max(1) as f64,
            counted: size_share(entered, left),
        })
        .collect()
}

/// Dust that returned from the plates may leave in another class than it entered, so the two counts are independent
/// where it dominates: the larger of the binomial and the Poisson error is given.
fn size_share(entered: u64, left: u64) -> Counted {
    let binomial = Counted::new(left, entered);
    if entered == 0 {
        return binomial;
    }
    let (n, k) = (entered as f64, left.max(1) as f64);
    let poisson = (k / n) * (1.0 / k + if left > entered / 2 { 1.0 / n } else { 0.0 }).sqrt();
    Counted {
        share: binomial.share,
        standard_error: binomial
            .standard_error
            .max(if left > entered / 2 { poisson } else { 0.0 }),
    }
}

fn along(passage: &Passage, tally: &Tally) -> Vec<AlongPoint> {
    let stations = passage.stages.len() * STATIONS_PER_FIELD;
    let length_m = passage
        .stages
        .last()
        .map_or(0.0, |stage| f64::from(stage.end_m));
    let mut airborne = tally.entered.cast_signed();
    let mut points = Vec::with_capacity(stations + 1);
    points.push(AlongPoint {
        along_m: 0.0,
        counted: Counted {
            share: 1.0,
            standard_error: 0.0,
        },
    });
    for (station, removed) in tally.removed_along.iter().enumerate() {
        airborne -= removed;
        points.push(AlongPoint {
            along_m: length_m * (station + 1) as f64 / stations as f64,
            counted: Counted::new(airborne.max(0).cast_unsigned(), tally.entered),
        });
    }
    points
}
