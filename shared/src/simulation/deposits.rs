//! Dust on the plates of the passage, as the picture shows it: how much lies where, and the last grains that arrived.

use std::{collections::VecDeque, ops::Range};

use super::parcels::Parcel;

/// Places along a field at which the layer is kept.
pub const LAYER_BINS_PER_FIELD: usize = 60;
/// Grains that are remembered one by one.
const RECENT: usize = 6000;

/// A grain on a plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StuckGrain {
    /// Distance from the start of the first field, m.
    pub along_m: f32,
    /// Height, m.
    pub height_m: f32,
    /// On the plate with y > 0.
    pub upper: bool,
    /// Diameter, m.
    pub diameter_m: f32,
}

/// Dust on both plates.
#[derive(Clone, Debug, PartialEq)]
pub struct Deposits {
    /// Mass that has settled by place along, whatever fell since, of the plates with y > 0 and y < 0, kg.
    bins_kg: [Vec<f64>; 2],
    bins_per_m: f64,
    recent: VecDeque<StuckGrain>,
}

impl Deposits {
    pub(super) fn new(fields: usize, length_m: f64) -> Self {
        let bins = fields * LAYER_BINS_PER_FIELD;
        Self {
            bins_kg: [vec![0.0; bins], vec![0.0; bins]],
            bins_per_m: bins as f64 / length_m,
            recent: VecDeque::with_capacity(RECENT),
        }
    }

    pub(super) fn add(&mut self, parcel: &Parcel) {
        let plate = usize::from(parcel.across_m <= 0.0);
        let bins = &mut self.bins_kg[plate];
        let bin =
            ((f64::from(parcel.along_m) * self.bins_per_m).max(0.0) as usize).min(bins.len() - 1);
        bins[bin] += f64::from(parcel.mass_kg);
        if self.recent.len() == RECENT {
            self.recent.pop_front();
        }
        self.recent.push_back(StuckGrain {
            along_m: parcel.along_m,
            height_m: parcel.height_m,
            upper: plate == 0,
            diameter_m: parcel.diameter_m,
        });
    }

    /// The grains along this part of a plate are gone; where dust settles stays known.
    pub(super) fn fell(&mut self, along_m: Range<f64>, upper: bool) {
        self.recent
            .retain(|grain| grain.upper != upper || !along_m.contains(&f64::from(grain.along_m)));
    }

    /// Mass by place along the plate with y > 0 (`upper`) or y < 0, kg.
    #[must_use]
    pub fn bins_kg(&self, upper: bool) -> &[f64] {
        &self.bins_kg[usize::from(!upper)]
    }

    /// The last grains that arrived, oldest first.
    pub fn recent(&self) -> impl Iterator<Item = &StuckGrain> {
        self.recent.iter()
    }
}
