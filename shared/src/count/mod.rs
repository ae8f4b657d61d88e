//! The batch count: many parcels flown through the whole collector, and how sure that makes the answer.
//!
//! It is the experiment beside the theory. Parcels are drawn by mass and have equal mass, so the penetration is the
//! share of them that leaves. Chunks of a fixed size have their own random streams: the result depends on the
//! conditions, the number of parcels and the seed, and on nothing else.

mod emission;
mod result;
mod tally;

use crate::{
    conditions::Conditions,
    parallel,
    physics::PhysicsError,
    simulation::{Chunk, Entry, Passage, TIME_STEP_S},
};

pub use emission::{Emission, emission};
pub use result::{AlongPoint, CountResult, Counted, FieldCount, SizeCount};
pub(crate) use tally::{STATIONS_PER_FIELD, Tally};

/// Parcels of one chunk.
pub const CHUNK: usize = 4096;

/// Steps after which parcels that are still in flight are booked as having left: hundreds of times the treatment time.
const MOST_TREATMENT_TIMES: f64 = 400.0;

/// Where parcels ended, by size class.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fates {
    /// Parcels that entered.
    pub entered: Vec<u64>,
    /// Parcels that each field caught.
    pub caught: Vec<Vec<u64>>,
    /// Parcels that left.
    pub left: Vec<u64>,
    /// Parcels of all classes that each field caught, by stretch of its length, less those that it gave back.
    pub along: Vec<Vec<u64>>,
}

/// A count that runs chunk by chunk, so that it can be sliced, shown and cancelled.
#[derive(Debug)]
pub struct Count {
    passage: Passage,
    seed: u64,
    parcels: usize,
    next_chunk: usize,
    most_steps: u64,
    tally: Tally,
    /// The field behind which the parcels start; nothing for fresh dust at the inlet.
    behind: Option<u32>,
}

impl Count {
    /// Prepares a count of `parcels` parcels.
    ///
    /// # Errors
    /// A formula refused the conditions; the message names which argument.
    pub fn new(conditions: &Conditions, parcels: usize, seed: u64) -> Result<Self, PhysicsError> {
        let passage = Passage::new(conditions)?;
        let most_steps =
            (MOST_TREATMENT_TIMES * conditions.treatment_time_s() / TIME_STEP_S).min(1e9) as u64;
        let tally = Tally::new(
            passage.stages.len(),
            passage.sizes.classes(),
            conditions.length_m(),
        );
        Ok(Self {
            passage,
            seed,
            parcels,
            next_chunk: 0,
            most_steps,
            tally,
            behind: None,
        })
    }

    /// Prepares a count in which no dust comes back from the plates: of fresh dust, or of dust that a rap of the field
    /// `behind` (0 for the first) sent back into the gas.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn without_returns(
        conditions: &Conditions,
        parcels: usize,
        seed: u64,
        behind: Option<u32>,
    ) -> Result<Self, PhysicsError> {
        let mut count = Self::new(conditions, parcels, seed)?;
        count.passage.reentrained = 0.0;
        count.behind = behind;
        Ok(count)
    }

    /// Geometric middle of each size class, m.
    #[must_use]
    pub fn diameters_m(&self) -> Vec<f64> {
        self.passage.sizes.class_middles_m()
    }

    /// Parcels caught so far by field and class, parcels that left by class, and parcels that entered by class.
    #[must_use]
    pub fn fates(&self) -> Fates {
        let classes = self.tally.entered_by_class.len();
        Fates {
            entered: self.tally.entered_by_class.clone(),
            caught: self
                .tally
                .captured_by_field_and_class
                .chunks(classes)
                .map(<[u64]>::to_vec)
                .collect(),
            left: self.tally.left_by_class.clone(),
            along: self
                .tally
                .removed_along
                .chunks(STATIONS_PER_FIELD)
                .map(|field| {
                    field
                        .iter()
                        .map(|&net| net.max(0).cast_unsigned())
                        .collect()
                })
                .collect(),
        }
    }

    /// Chunks of the whole count.
    #[must_use]
    pub fn chunks(&self) -> usize {
        self.parcels.div_ceil(CHUNK)
    }

    /// Chunks counted so far.
    #[must_use]
    pub fn chunks_done(&self) -> usize {
        self.next_chunk
    }

    /// Whether all parcels have been flown.
    #[must_use]
    pub fn is_done(&self) -> bool {
        self.next_chunk >= self.chunks()
    }

    /// Flies up to `chunks` more chunks, on the threads of the current pool.
    pub fn advance(&mut self, chunks: usize) {
        let end = self.chunks().min(self.next_chunk + chunks);
        let tallies = parallel::map_indices(self.next_chunk..end, |chunk| self.fly(chunk));
        for tally in &tallies {
            self.tally.add(tally);
        }
        self.next_chunk = end;
    }

    /// Flies everything that is left; `continue_after` is told the share done and answers whether to go on.
    ///
    /// Returns whether the count was finished.
    pub fn run(&mut self, mut continue_after: impl FnMut(f64) -> bool) -> bool {
        let slice = 4 * parallel::width();
        while !self.is_done() {
            self.advance(slice);
            if !continue_after(self.next_chunk as f64 / self.chunks() as f64) && !self.is_done() {
                return false;
            }
        }
        true
    }

    /// What has been counted so far.
    #[must_use]
    pub fn result(&self) -> CountResult {
        CountResult::new(&self.passage, &self.tally)
    }

    /// Steps flown so far, summed over all parcels.
    #[must_use]
    pub fn steps(&self) -> u64 {
        self.tally.parcel_steps
    }

    fn fly(&self, index: usize) -> Tally {
        let mut tally = self.tally.empty();
        let mut chunk = Chunk::new(self.seed, index as u64);
        let size = CHUNK.min(self.parcels - index * CHUNK);
        let entry = Entry {
            owed_s: 0.0,
            mass_kg: 1.0,
            own_gusts: true,
        };
        for _ in 0..size {
            match self.behind {
                None => chunk.inject(&self.passage, entry, &mut tally),
                Some(field) => chunk.inject_behind(&self.passage, entry, field, &mut tally),
            }
        }
        // Chunks meet the gusts at different times, and their parcels at different places.
        let start_s = 1e3 * chunk.injection_unit();
        let mut steps = 0_u64;
        while chunk.parcels.len() > 0 && steps < self.most_steps {
            tally.parcel_steps += chunk.parcels.len() as u64;
            let time_s = start_s + steps as f64 * TIME_STEP_S;
            chunk.step(&self.passage, time_s, &mut tally);
            steps += 1;
        }
        tally.book_the_rest(&chunk.parcels);
        tally
    }
}
