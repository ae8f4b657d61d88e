//! One moment of the simulation, read-only: all that views, panels and lessons may see of it.

use super::{
    Deposits, FieldState, FollowedGrain, Ledger, Motion, TIME_STEP_S,
    chunk::{Chunk, Way},
    parcels::Parcel,
    passage::Passage,
};
use crate::{conditions::Conditions, physics::corona::WireField};

/// One moment.
#[derive(Clone, Copy, Debug)]
pub struct Frame<'a> {
    pub(super) conditions: &'a Conditions,
    pub(super) passage: &'a Passage,
    pub(super) chunks: &'a [Chunk],
    /// Grains of a moment that is kept; there are no chunks then.
    pub(super) kept: &'a [Grain],
    pub(super) step: u64,
    pub(super) followed: Option<&'a FollowedGrain>,
    /// The books.
    pub ledger: &'a Ledger,
    /// Dust on the plates.
    pub deposits: &'a Deposits,
}

/// A grain in the gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grain {
    /// Distance from the start of the first field, m.
    pub along_m: f32,
    /// Distance from the wire line, m.
    pub across_m: f32,
    /// Height above the bottom edge of the plates, m.
    pub height_m: f32,
    /// Diameter, m.
    pub diameter_m: f32,
    /// Charge over that which field charging gives at the mean field V/s; 1 is fully charged, as is every grain where
    /// one migration velocity is given and no charge is computed.
    pub charge_share: f32,
    /// Whether it is on its way around the charged zone.
    pub bypassing: bool,
    /// Whether that way is the one through the hoppers and not the one over the top.
    pub through_hopper: bool,
}

impl<'a> Frame<'a> {
    /// The conditions that hold.
    #[must_use]
    pub fn conditions(&self) -> &'a Conditions {
        self.conditions
    }

    /// Steps taken since the start.
    #[must_use]
    pub fn step(&self) -> u64 {
        self.step
    }

    /// Flight time since the start, s.
    #[must_use]
    pub fn time_s(&self) -> f64 {
        self.step as f64 * TIME_STEP_S
    }

    /// Electrical state of every field.
    #[must_use]
    pub fn fields(&self) -> &'a [FieldState] {
        &self.passage.states
    }

    /// Solved field round the wires of every electrical field.
    #[must_use]
    pub fn wire_fields(&self) -> &'a [WireField] {
        &self.passage.fields
    }

    /// The record of the grain that is followed; nothing where none is to be followed.
    #[must_use]
    pub fn followed(&self) -> Option<&'a FollowedGrain> {
        self.followed
    }

    /// Number of grains in the gas.
    #[must_use]
    pub fn airborne(&self) -> usize {
        let flying: usize = self.chunks.iter().map(|chunk| chunk.parcels.len()).sum();
        flying + self.kept.len()
    }

    /// All grains in the gas in lots, which can be looked at side by side; one lot after the other they are [`Self::grains`].
    pub fn lots(
        &self,
    ) -> impl Iterator<Item = impl Iterator<Item = Grain> + Send + use<'a>> + use<'a> {
        let (passage, gap_m) = (self.passage, self.passage.gap_m);
        let empty: &[Grain] = &[];
        let flying = self.chunks.iter().map(move |chunk| (Some(chunk), empty));
        let lots = flying.chain(std::iter::once((None, self.kept)));
        lots.map(move |(chunk, kept)| {
            let parcels = chunk.into_iter().flat_map(|chunk| chunk.parcels.iter());
            let flying = parcels.map(move |parcel| grain(passage, gap_m, &parcel));
            flying.chain(kept.iter().copied())
        })
    }

    /// All grains in the gas.
    pub fn grains(&self) -> impl Iterator<Item = Grain> + 'a {
        let (passage, chunks) = (self.passage, self.chunks);
        let gap_m = passage.gap_m;
        chunks
            .iter()
            .flat_map(|chunk| chunk.parcels.iter())
            .map(move |parcel| grain(passage, gap_m, &parcel))
            .chain(self.kept.iter().copied())
    }

    /// Gust velocity (along, across) at a place and the present time, m/s; nothing where there are no gusts.
    #[must_use]
    pub fn gust_m_s(&self, along_m: f32, across_m: f32) -> Option<(f32, f32)> {
        let gusts = self.passage.gusts?;
        Some(gusts.at(self.time_s()).velocity_m_s(along_m, across_m))
    }

    /// Electric field strength at a place (along, towards the plate) of a field, V/m, from the table the grains use.
    #[must_use]
    pub fn field_v_m(&self, field: usize, along_m: f32, across_m: f32) -> (f32, f32) {
        self.passage.maps.field_v_m(field, along_m, across_m)
    }
}

fn grain(passage: &Passage, gap_m: f32, parcel: &Parcel) -> Grain {
    let state = passage
        .states
        .get(parcel.field as usize)
        .or_else(|| passage.states.last());
    let mean_v_m = state.map_or(0.0, |state| state.gap_v() as f32) / gap_m;
    let saturation = 3.0 * parcel.charge_per_field * mean_v_m;
    Grain {
        along_m: parcel.along_m,
        across_m: parcel.across_m,
        height_m: parcel.height_m,
        diameter_m: parcel.diameter_m,
        charge_share: match passage.motion {
            Motion::Fixed => 1.0,
            Motion::Charged(_) if saturation > 0.0 => parcel.charge / saturation,
            Motion::Charged(_) => 0.0,
        },
        bypassing: parcel.exposed == 0.0,
        through_hopper: parcel.way == Way::Hopper as u32,
    }
}
