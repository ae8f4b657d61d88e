//! One grain followed as it flies: where it is, what it feels, how much charge it carries and how it ends.
//!
//! Following only looks. Places and charge are those of the step; the field and the ions beside them are read from the
//! solved field, not from the table that the step uses, so that formulas of them stand apart from the step.

use serde::{Deserialize, Serialize};

use super::{
    TIME_STEP_S,
    chunk::Chunk,
    noise_block::NoiseStream,
    parcels::{Parcel, Parcels},
    passage::{Passage, Stirring},
    step::step,
    streams::Purpose,
};
use crate::{conditions::Conditions, physics::constants::ELEMENTARY_CHARGE_C};

/// A grain fits a wish when its diameter differs by no more than this share.
pub const FOLLOW_TOLERANCE: f64 = 0.15;
/// Steps for which an ended record is left alone before the next grain takes its place: 2 s.
const REST_STEPS: u64 = 480;
/// Most points of a record: 16 s of flight.
const MOST_POINTS: usize = 4000;

/// A wish: the next grain of about this size that enters.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Follow {
    /// Diameter, m. Where the dust has one diameter only, any wish is met by it.
    pub diameter_m: f64,
}

/// How the flight of a followed grain ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GrainFate {
    /// On a plate of this field, 0 for the first. Whatever comes back from the plate is another grain.
    Caught {
        /// Field, 0 for the first.
        field: usize,
    },
    /// Out of the last field with the gas.
    Left,
    /// Still in the gas when the record was full.
    RecordFull,
}

/// One moment of a followed grain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GrainPoint {
    /// Time since it entered, s.
    pub time_s: f64,
    /// Distance from the start of the first field, m.
    pub along_m: f64,
    /// Distance from the wire line, towards one plate positive, m.
    pub across_m: f64,
    /// Height above the bottom edge of the plates, m.
    pub height_m: f64,
    /// Charge that the negative ions gave it, elementary charges.
    pub charge_e: f64,
    /// Share of it that it keeps where it is: less than 1 under back corona.
    pub charge_share: f64,
    /// Solved field along the gas where it is, V/m; 0 while it is led around the charged zone.
    pub field_along_v_m: f64,
    /// Solved field towards the nearer plate, V/m; 0 while it is led around the charged zone.
    pub field_towards_plate_v_m: f64,
    /// Ions per volume in the solved field, 1/m³; 0 while it is led around the charged zone.
    pub ion_density_per_m3: f64,
    /// Speed towards the plate through the gas, m/s: how far the step moves a copy that flies without gusts and mixing.
    pub speed_m_s: f64,
    /// The same along the gas, m/s.
    pub drift_along_m_s: f64,
    /// Whether it flies through the charged zone, and not around it.
    pub exposed: bool,
    /// Present field, 0 for the first.
    pub field: usize,
}

/// The record of a followed grain.
#[derive(Clone, Debug, PartialEq)]
pub struct FollowedGrain {
    /// Number of the step in which it entered, from 1 on: another grain, another number. 0 while none has come yet.
    pub number: u64,
    /// Diameter, m; what is wished for while none has come yet.
    pub diameter_m: f64,
    /// From its entry on, one point a step; empty while none has come yet.
    pub points: Vec<GrainPoint>,
    /// How it ended; nothing while it flies.
    pub fate: Option<GrainFate>,
    /// Whether no grain that fits has come yet.
    pub waiting: bool,
}

impl FollowedGrain {
    fn awaited(diameter_m: f64) -> Self {
        Self {
            number: 0,
            diameter_m,
            points: Vec::new(),
            fate: None,
            waiting: true,
        }
    }
}

/// What a chunk is to look out for during a step.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Watch {
    /// Smallest and largest diameter of a grain that may enter, m.
    wanted_m: Option<(f32, f32)>,
    /// The grain in flight.
    flying: Option<u32>,
}

/// What a chunk looked out for, and what it saw of it.
#[derive(Debug, Default)]
pub(super) struct Seen {
    watch: Watch,
    entered: Option<Parcel>,
    ended: Option<(GrainFate, Parcel)>,
}

impl Seen {
    /// Nothing seen yet.
    pub(super) fn watching(watch: Watch) -> Self {
        Self {
            watch,
            ..Self::default()
        }
    }

    pub(super) fn entered(&mut self, parcel: &Parcel) {
        let fits = |(least, most): (f32, f32)| (least..=most).contains(&parcel.diameter_m);
        if self.entered.is_none() && self.watch.wanted_m.is_some_and(fits) {
            self.entered = Some(*parcel);
            self.watch.flying = Some(parcel.identity);
        }
    }

    pub(super) fn captured(&mut self, parcel: &Parcel) {
        let field = parcel.field as usize;
        self.ended(parcel, GrainFate::Caught { field });
    }

    pub(super) fn left(&mut self, parcel: &Parcel) {
        self.ended(parcel, GrainFate::Left);
    }

    /// The first end counts: a grain that comes back from the plate is another one.
    fn ended(&mut self, parcel: &Parcel, fate: GrainFate) {
        if self.ended.is_none() && self.watch.flying == Some(parcel.identity) {
            self.ended = Some((fate, *parcel));
        }
    }
}

/// The grain in flight: its chunk, its number there, and the flight time it owed when it entered.
#[derive(Clone, Copy, Debug)]
struct Flying {
    chunk: usize,
    identity: u32,
    owed_s: f64,
}

/// A wish, and the record of the grain that met it.
#[derive(Debug)]
pub(super) struct Followed {
    wish: Follow,
    record: FollowedGrain,
    flying: Option<Flying>,
    /// Step from which on the next grain is taken.
    armed_from: u64,
    bench: Bench,
}

impl Followed {
    pub(super) fn new(wish: Follow, conditions: &Conditions, passage: &Passage) -> Self {
        Self {
            record: FollowedGrain::awaited(wish.diameter_m),
            wish,
            flying: None,
            armed_from: 0,
            bench: Bench::new(conditions, passage),
        }
    }

    /// The record as everyone may see it.
    pub(super) fn record(&self) -> &FollowedGrain {
        &self.record
    }

    /// Drops the record and waits for the next grain.
    pub(super) fn forget(&mut self) {
        self.record = FollowedGrain::awaited(self.wish.diameter_m);
        self.flying = None;
        self.armed_from = 0;
    }

    /// Another passage from now on; where one record cannot hold for both, it starts anew.
    pub(super) fn moved(&mut self, (old, new): (&Conditions, &Conditions), passage: &Passage) {
        if Surroundings::of(old) != Surroundings::of(new) {
            self.forget();
        }
        self.bench = Bench::new(new, passage);
    }

    /// What a chunk is to look out for in the coming step, which has this number.
    pub(super) fn watch(&self, chunk: usize, step: u64, conditions: &Conditions) -> Watch {
        if let Some(flying) = &self.flying {
            let here = flying.chunk == chunk;
            return Watch {
                wanted_m: None,
                flying: here.then_some(flying.identity),
            };
        }
        let wanted_m = self.wish.diameter_m;
        let range = match conditions.teaching.single_diameter_m {
            Some(_) => (0.0, f32::MAX),
            None => (
                (wanted_m * (1.0 - FOLLOW_TOLERANCE)) as f32,
                (wanted_m * (1.0 + FOLLOW_TOLERANCE)) as f32,
            ),
        };
        Watch {
            wanted_m: (step >= self.armed_from).then_some(range),
            flying: None,
        }
    }

    /// After a step: the next point of the record, or the next grain.
    pub(super) fn look<'a>(
        &mut self,
        passage: &Passage,
        chunks: &[Chunk],
        seen: impl Iterator<Item = &'a Seen>,
        steps_taken: u64,
    ) {
        for (chunk, seen) in seen.enumerate() {
            if let (None, Some(parcel)) = (self.flying, &seen.entered) {
                self.begin(passage, (chunk, parcel), steps_taken);
            }
            let Some(flying) = self.flying.filter(|flying| flying.chunk == chunk) else {
                continue;
            };
            if let Some((fate, parcel)) = &seen.ended {
                self.push(passage, parcel, flying.owed_s);
                self.end(*fate, steps_taken);
            } else if let Some(parcel) = chunks[chunk].parcels.find(flying.identity) {
                self.push(passage, &parcel, flying.owed_s);
                if self.record.points.len() >= MOST_POINTS {
                    self.end(GrainFate::RecordFull, steps_taken);
                }
            }
            return;
        }
    }

    fn begin(&mut self, passage: &Passage, (chunk, parcel): (usize, &Parcel), steps_taken: u64) {
        self.flying = Some(Flying {
            chunk,
            identity: parcel.identity,
            owed_s: f64::from(parcel.owed_s),
        });
        self.record = FollowedGrain {
            number: steps_taken,
            diameter_m: f64::from(parcel.diameter_m),
            points: vec![self.bench.point(passage, parcel, 0.0)],
            fate: None,
            waiting: false,
        };
    }

    fn push(&mut self, passage: &Passage, parcel: &Parcel, owed_s: f64) {
        let time_s = self.record.points.len() as f64 * TIME_STEP_S + owed_s;
        let point = self.bench.point(passage, parcel, time_s);
        self.record.points.push(point);
    }

    fn end(&mut self, fate: GrainFate, steps_taken: u64) {
        self.record.fate = Some(fate);
        self.flying = None;
        self.armed_from = steps_taken + REST_STEPS;
    }
}

/// A copy of the passage in which a copy of the grain flies one step alone.
///
/// It has no gusts, no mixing and no ions, and its plates stand back so far that they stop nothing: what is left of a
/// step is the drift at the present place and charge.
#[derive(Debug)]
struct Bench {
    passage: Passage,
    unused: NoiseStream,
    wire_spacing_m: f64,
    gap_m: f64,
}

impl Bench {
    fn new(conditions: &Conditions, passage: &Passage) -> Self {
        let mut alone = passage.clone();
        alone.stirring = Stirring::None;
        alone.gusts = None;
        alone.parabolic = false;
        alone.gap_m *= 10.0;
        alone.maps.drop_ions();
        let wires = f64::from(conditions.wires_per_field());
        Self {
            passage: alone,
            unused: NoiseStream::new(0, 0, Purpose::Tracers),
            wire_spacing_m: conditions.collector.field_length_m / wires,
            gap_m: conditions.gap_m(),
        }
    }

    fn point(&mut self, passage: &Passage, parcel: &Parcel, time_s: f64) -> GrainPoint {
        let diameter_m = f64::from(parcel.diameter_m);
        let solved = self.solved(passage, parcel);
        let (drift_along_m_s, speed_m_s) = self.drift_m_s(parcel);
        GrainPoint {
            time_s,
            along_m: f64::from(parcel.along_m),
            across_m: f64::from(parcel.across_m),
            height_m: f64::from(parcel.height_m),
            charge_e: f64::from(parcel.charge) * passage.grain(diameter_m).electrons_per_charge,
            field_along_v_m: solved.0,
            field_towards_plate_v_m: solved.1,
            ion_density_per_m3: solved.2,
            speed_m_s,
            drift_along_m_s,
            charge_share: (passage.states.get(parcel.field as usize))
                .map_or(1.0, |state| state.charge_share),
            exposed: parcel.exposed > 0.0,
            field: parcel.field as usize,
        }
    }

    /// Field along and towards the plate (V/m) and ions (1/m³) where the parcel is, from the solved field.
    ///
    /// The solved cell is stretched to the spacing at which a whole number of wires stands, as the step's table is.
    fn solved(&self, passage: &Passage, parcel: &Parcel) -> (f64, f64, f64) {
        let index = parcel.field as usize;
        let Some(field) = passage.fields.get(index).filter(|_| parcel.exposed > 0.0) else {
            return (0.0, 0.0, 0.0);
        };
        let turns = f64::from(parcel.along_m) / self.wire_spacing_m - 0.5;
        let from_wire = turns - turns.round();
        let gaps = f64::from(parcel.across_m) / self.gap_m;
        let row = field.row();
        let ion_share = passage
            .states
            .get(index)
            .map_or(1.0, |state| state.ion_share);
        let state = field.at(from_wire * row.pitch_m(), gaps * row.gap_m());
        (
            state.along_v_m,
            state.across_v_m * 1.0_f64.copysign(gaps),
            ion_share * state.ions_c_m3 / ELEMENTARY_CHARGE_C,
        )
    }

    /// Drift along and towards the plate, m/s: how far the copy gets in a step.
    fn drift_m_s(&mut self, parcel: &Parcel) -> (f64, f64) {
        let mut copy = *parcel;
        // The same place at another wire, where single precision is finer; at rest, far from the end of its field.
        copy.along_m %= self.wire_spacing_m as f32;
        copy.velocity_m_s = 0.0;
        copy.edge_m = 1e9;
        copy.owed_s = 0.0;
        let mut alone = Parcels::default();
        alone.push(&copy);
        step(&self.passage, &mut alone, &mut self.unused, 0.0);
        let after = alone.get(0);
        let moved = |to: f32, from: f32| (f64::from(to) - f64::from(from)) / TIME_STEP_S;
        (
            moved(after.along_m, copy.along_m),
            moved(after.across_m.abs(), copy.across_m.abs()),
        )
    }
}

/// What has to stay the same during one record: lengths, gas, dust and charging law. Voltage and flow may change.
#[derive(PartialEq)]
struct Surroundings {
    fields: usize,
    lengths_m: [f64; 4],
    gas: [f64; 4],
    dust: [f64; 2],
    charging: crate::conditions::Charging,
    fixed: bool,
}

impl Surroundings {
    fn of(conditions: &Conditions) -> Self {
        let (collector, gas) = (&conditions.collector, &conditions.gas);
        Self {
            fields: collector.fields,
            lengths_m: [
                collector.field_length_m,
                collector.plate_spacing_m,
                collector.plate_height_m,
                collector.wire_spacing_m,
            ],
            gas: [
                gas.temperature_k,
                gas.pressure_pa,
                gas.moisture,
                conditions.ion_mobility_m2_v_s(),
            ],
            dust: [conditions.dust.permittivity, conditions.dust.density_kg_m3],
            charging: conditions.teaching.charging,
            fixed: conditions.teaching.migration_velocity_m_s.is_some(),
        }
    }
}

#[cfg(test)]
mod tests;
