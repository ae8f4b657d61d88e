//! The running simulation: a steady stream of dust through one gas passage, a step at a time.
//!
//! It owns all state; the window, the command line and the tests call the same [`Simulation::step`].

use std::sync::Arc;

use super::{
    Account, Command, CommandError, Deposits, Frame, Ledger, LoggedCommand, TIME_STEP_S,
    chunk::{Chunk, Entry, become_grain, random_entry_s},
    electrics::{Electrics, electrics, electrics_are_ready, wire_row},
    events::{Events, Flown, OfRap},
    followed::{Followed, Watch},
    parcels::Parcel,
    passage::Passage,
    puff::Puff,
};
use crate::{
    conditions::{self, Conditions},
    parallel,
    physics::PhysicsError,
    theory,
};

/// Chunks that the stream is dealt to in turn; as many again hold the dust of raps, so that it shifts nobody's dice.
const CHUNKS: usize = 8;
/// Grains that should be in the gas at a time.
pub const DRAWN_GRAINS: usize = 10_000;
/// Steps after a change of the conditions at which their computed field takes over; until then the field before holds.
pub const FIELD_DELAY_STEPS: u64 = 30;
/// Fewest and most parcels a second.
const LEAST_PER_S: f64 = 200.0;
const MOST_PER_S: f64 = 60_000.0;

/// Dust flying through one gas passage.
#[derive(Debug)]
pub struct Simulation {
    conditions: Conditions,
    passage: Passage,
    electrics: Arc<Electrics>,
    /// Step before which the field of the present conditions takes over.
    field_due: Option<u64>,
    field_trouble: Option<PhysicsError>,
    seed: u64,
    step: u64,
    chunks: Vec<Chunk>,
    parcels_per_s: f64,
    /// Parcels due but not yet let in, below one.
    due: f64,
    ledger: Ledger,
    /// What happened since somebody asked, by field and class.
    flown: Flown,
    puffs: Vec<Puff>,
    deposits: Deposits,
    /// Looks on; nothing of the flight depends on it.
    followed: Option<Followed>,
    log: Vec<LoggedCommand>,
}

impl Simulation {
    /// An empty passage under these conditions.
    ///
    /// # Errors
    /// A formula refused the conditions; the message names which argument.
    pub fn new(conditions: Conditions, seed: u64) -> Result<Self, PhysicsError> {
        let electrics = electrics(&conditions)?;
        let passage = Passage::in_fields(&conditions, &electrics)?;
        let parcels_per_s = parcels_per_s(&conditions, &passage)?;
        let deposits = Deposits::new(conditions.collector.fields, conditions.length_m());
        Ok(Self {
            chunks: (0..2 * CHUNKS as u64)
                .map(|chunk| Chunk::new(seed, chunk))
                .collect(),
            flown: Flown::nothing(passage.stages.len(), passage.sizes.classes()),
            puffs: Vec::new(),
            conditions,
            passage,
            electrics,
            field_due: None,
            field_trouble: None,
            seed,
            step: 0,
            parcels_per_s,
            due: 0.0,
            ledger: Ledger::default(),
            deposits,
            followed: None,
            log: Vec::new(),
        })
    }

    /// Runs a recording again: the same conditions, seed and log give the same bits.
    ///
    /// # Errors
    /// A formula refused the conditions, or a logged command does not apply.
    pub fn replay(
        conditions: Conditions,
        seed: u64,
        log: &[LoggedCommand],
        steps: u64,
    ) -> Result<Self, CommandError> {
        let mut simulation = Self::new(conditions, seed)?;
        let mut log = log.iter().peekable();
        while simulation.step < steps {
            while let Some(logged) = log.next_if(|logged| logged.step <= simulation.step) {
                simulation.apply(logged.command.clone())?;
            }
            simulation.step();
        }
        Ok(simulation)
    }

    /// Whether the next step has to wait until the field of the present conditions is solved.
    ///
    /// [`Self::step`] would solve it itself; who must not stand still has it solved elsewhere and asks again.
    #[must_use]
    pub fn waits_for_field(&self) -> bool {
        self.field_due.is_some_and(|due| due <= self.step) && !electrics_are_ready(&self.conditions)
    }

    /// Whether the field is still that of the conditions before.
    #[must_use]
    pub fn has_field_before(&self) -> bool {
        self.field_due.is_some()
    }

    /// Why the field of the present conditions could not be solved; the one before still holds then.
    #[must_use]
    pub fn field_trouble(&self) -> Option<&PhysicsError> {
        self.field_trouble.as_ref()
    }

    /// Takes one step of 1/240 s.
    pub fn step(&mut self) {
        if self.field_due.is_some_and(|due| due <= self.step) {
            self.field_due = None;
            self.field_trouble = self.take_over_field().err();
        }
        let time_s = self.step as f64 * TIME_STEP_S;
        let mass_kg = (self.conditions.inlet_mass_kg_s() / self.parcels_per_s) as f32;
        let shares = self.shares();
        let passage = &self.passage;
        let mut work: Vec<_> = self.chunks.iter_mut().zip(shares).collect();
        let events = parallel::map_mut(&mut work, |(chunk, share)| {
            let mut events = Events::watching(share.watch);
            for _ in 0..share.fresh {
                let entry = entry(chunk, mass_kg);
                chunk.inject(passage, entry, &mut events);
            }
            for (field, mass_kg) in &share.of_raps {
                let entry = entry(chunk, *mass_kg);
                chunk.inject_behind(passage, entry, *field, &mut OfRap(&mut events));
            }
            chunk.step(passage, time_s, &mut events);
            events
        });
        for events in &events {
            self.book(events);
        }
        self.step += 1;
        if let Some(followed) = &mut self.followed {
            let seen = events.iter().map(|events| &events.seen);
            followed.look(&self.passage, &self.chunks, seen, self.step);
        }
    }

    /// Applies a command between two steps and keeps it in the log.
    ///
    /// # Errors
    /// Impossible conditions; nothing is changed then.
    pub fn apply(&mut self, command: Command) -> Result<(), CommandError> {
        match &command {
            Command::Conditions(wanted) => {
                conditions::check(wanted).map_err(CommandError::Conditions)?;
                self.change(wanted)?;
            }
            Command::Restart => self.restart(),
            Command::Clock(_) | Command::RapNow { .. } => return Err(CommandError::NoPlant),
            Command::Follow(wish) => {
                let follow = |wish| Followed::new(wish, &self.conditions, &self.passage);
                self.followed = wish.clone().map(follow);
            }
        }
        self.note(command);
        Ok(())
    }

    /// Keeps a command in the log that is somebody else's to obey.
    pub(crate) fn note(&mut self, command: Command) {
        self.log.push(LoggedCommand {
            step: self.step,
            command,
        });
    }

    /// What happened since the last time somebody asked.
    pub(crate) fn take_flown(&mut self) -> Flown {
        let nothing = self.nothing_flown();
        std::mem::replace(&mut self.flown, nothing)
    }

    fn nothing_flown(&self) -> Flown {
        Flown::nothing(self.passage.stages.len(), self.classes())
    }

    /// Number of size classes.
    pub(crate) fn classes(&self) -> usize {
        self.passage.sizes.classes()
    }

    /// From now on dust of a rap comes off the plates of a field, spread over a time.
    pub(crate) fn puff(&mut self, field: u32, mass_kg: f64, duration_s: f64) {
        self.ledger
            .transfer(Account::Layers, Account::Airborne, mass_kg);
        self.puffs.push(Puff::new(field, mass_kg, duration_s));
    }

    /// The dust on a plate of a field fell; none of its grains is on the picture any more.
    pub(crate) fn fell(&mut self, field: usize, upper: bool) {
        let field_m = self.conditions.collector.field_length_m;
        let start_m = field as f64 * field_m;
        self.deposits.fell(start_m..start_m + field_m, upper);
    }

    /// Dust in the gas or about to come off the plates, kg.
    pub(crate) fn airborne_kg(&self) -> f64 {
        let parcels = self.chunks.iter().flat_map(|chunk| chunk.parcels.iter());
        let flying_kg: f64 = parcels.map(|parcel| f64::from(parcel.mass_kg)).sum();
        flying_kg + self.puffs.iter().map(Puff::waiting_kg).sum::<f64>()
    }

    /// The present moment.
    #[must_use]
    pub fn frame(&self) -> Frame<'_> {
        Frame {
            conditions: &self.conditions,
            passage: &self.passage,
            chunks: &self.chunks,
            kept: &[],
            step: self.step,
            followed: self.followed.as_ref().map(Followed::record),
            ledger: &self.ledger,
            deposits: &self.deposits,
        }
    }

    /// Commands applied so far.
    #[must_use]
    pub fn log(&self) -> &[LoggedCommand] {
        &self.log
    }

    /// Seed of all chance.
    #[must_use]
    pub fn seed(&self) -> u64 {
        self.seed
    }

    /// A number that changes with every bit of the state: FNV-1a over step, parcels and books.
    #[must_use]
    pub fn digest(&self) -> u64 {
        let mut digest = Digest::new();
        digest.add(self.step);
        for parcel in self.chunks.iter().flat_map(|chunk| chunk.parcels.iter()) {
            for value in [
                parcel.along_m,
                parcel.across_m,
                parcel.charge,
                parcel.diameter_m,
                parcel.mass_kg,
            ] {
                digest.add(u64::from(value.to_bits()));
            }
        }
        for value in self.ledger.values() {
            digest.add(value.to_bits());
        }
        digest.value()
    }

    /// What each chunk gets in this step.
    ///
    /// Chunk k gets every `CHUNKS`-th of the fresh parcels, starting with another chunk at each step.
    fn shares(&mut self) -> Vec<Share> {
        self.due += self.parcels_per_s * TIME_STEP_S;
        let fresh = self.due as usize;
        self.due -= fresh as f64;
        let first = (self.step % CHUNKS as u64) as usize;
        let mut shares: Vec<Share> = (0..2 * CHUNKS)
            .map(|chunk| Share {
                fresh: match chunk {
                    0..CHUNKS => (fresh + CHUNKS - 1 - (chunk + first) % CHUNKS) / CHUNKS,
                    _ => 0,
                },
                of_raps: Vec::new(),
                watch: self.watch(chunk),
            })
            .collect();
        let fields = self.conditions.collector.fields;
        let released = self.puffs.iter_mut().flat_map(|puff| puff.release(fields));
        for (number, parcel) in released.enumerate() {
            shares[CHUNKS + number % CHUNKS].of_raps.push(parcel);
        }
        self.puffs.retain(|puff| !puff.is_over());
        shares
    }

    fn watch(&self, chunk: usize) -> Watch {
        self.followed
            .as_ref()
            .map_or_else(Watch::default, |followed| {
                followed.watch(chunk, self.step, &self.conditions)
            })
    }

    fn book(&mut self, events: &Events) {
        self.ledger
            .transfer(Account::Inlet, Account::Airborne, events.entered_kg);
        self.ledger
            .transfer(Account::Airborne, Account::Layers, events.captured_kg);
        self.ledger
            .transfer(Account::Layers, Account::Airborne, events.returned_kg);
        self.ledger
            .transfer(Account::Airborne, Account::Outlet, events.left_kg);
        self.flown.add(events);
        for parcel in &events.stuck {
            self.deposits.add(parcel);
        }
    }

    fn restart(&mut self) {
        for chunk in &mut self.chunks {
            chunk.parcels.clear();
        }
        self.puffs.clear();
        self.ledger = Ledger::default();
        self.flown = self.nothing_flown();
        self.deposits = Deposits::new(self.conditions.collector.fields, self.conditions.length_m());
        self.due = 0.0;
        if let Some(followed) = &mut self.followed {
            followed.forget();
        }
    }

    /// New conditions: grains in the gas stay where they are in proportion, with the velocities and constants that now hold.
    fn change(&mut self, wanted: &Conditions) -> Result<(), PhysicsError> {
        wire_row(wanted)?;
        let meanwhile = self.electrics.with_fields(wanted.collector.fields);
        let passage = Passage::in_fields(wanted, &meanwhile)?;
        let old = &self.conditions;
        let ratio = |new: f64, old: f64| (new / old) as f32;
        let stretch = Stretch {
            along: ratio(wanted.length_m(), old.length_m()),
            across: ratio(wanted.gap_m(), old.gap_m()),
            height: ratio(
                wanted.collector.plate_height_m,
                old.collector.plate_height_m,
            ),
            velocity: ratio(wanted.gas_velocity_m_s(), old.gas_velocity_m_s()),
            // ν = q e/(2π ε0 d k T): the charge itself stays.
            charge: ratio(old.gas.temperature_k, wanted.gas.temperature_k),
        };
        for chunk in &mut self.chunks {
            for index in 0..chunk.parcels.len() {
                let mut parcel = chunk.parcels.get(index);
                stretch.apply(&passage, &mut parcel);
                chunk.parcels.set(index, &parcel);
            }
        }
        let same_plates =
            wanted.collector.fields == old.collector.fields && wanted.length_m() == old.length_m();
        if !same_plates {
            self.deposits = Deposits::new(wanted.collector.fields, wanted.length_m());
        }
        if let Some(followed) = &mut self.followed {
            followed.moved((old, wanted), &passage);
        }
        self.passage = passage;
        self.conditions = wanted.clone();
        self.flown = self.nothing_flown();
        self.electrics = Arc::new(meanwhile);
        self.field_due = Some(self.step + FIELD_DELAY_STEPS);
        self.field_trouble = None;
        Ok(())
    }

    /// The computed field of the present conditions takes over.
    fn take_over_field(&mut self) -> Result<(), PhysicsError> {
        let electrics = electrics(&self.conditions)?;
        let passage = Passage::in_fields(&self.conditions, &electrics)?;
        self.parcels_per_s = parcels_per_s(&self.conditions, &passage)?;
        for chunk in &mut self.chunks {
            for index in 0..chunk.parcels.len() {
                let mut parcel = chunk.parcels.get(index);
                parcel.fixed_drift_m_s = passage.stage(parcel.field).fixed_drift_m_s as f32;
                chunk.parcels.set(index, &parcel);
            }
        }
        if let Some(followed) = &mut self.followed {
            followed.moved((&self.conditions, &self.conditions), &passage);
        }
        self.passage = passage;
        self.electrics = electrics;
        Ok(())
    }
}

/// What one chunk gets in a step.
struct Share {
    /// Parcels of fresh dust.
    fresh: usize,
    /// Field and mass of parcels that a rap sent back into the gas, kg.
    of_raps: Vec<(u32, f32)>,
    watch: Watch,
}

/// A parcel that enters somewhen within the step.
fn entry(chunk: &mut Chunk, mass_kg: f32) -> Entry {
    Entry {
        owed_s: random_entry_s(chunk.injection_unit()),
        mass_kg,
        own_gusts: false,
    }
}

/// How a change of conditions moves grains that are in the gas.
struct Stretch {
    along: f32,
    across: f32,
    height: f32,
    velocity: f32,
    charge: f32,
}

impl Stretch {
    fn apply(&self, passage: &Passage, parcel: &mut Parcel) {
        parcel.along_m *= self.along;
        parcel.across_m = (parcel.across_m * self.across).clamp(-passage.gap_m, passage.gap_m);
        parcel.height_m *= self.height;
        parcel.velocity_m_s *= self.velocity;
        parcel.charge *= self.charge;
        let last = passage.stages.len() - 1;
        let field = passage
            .stages
            .iter()
            .position(|stage| parcel.along_m < stage.end_m)
            .unwrap_or(last);
        parcel.field = field as u32;
        parcel.edge_m = passage.stages[field].end_m;
        parcel.fixed_drift_m_s = passage.stages[field].fixed_drift_m_s as f32;
        become_grain(passage, parcel, f64::from(parcel.diameter_m));
    }
}

/// Parcels a second such that about [`DRAWN_GRAINS`] are in the gas.
fn parcels_per_s(conditions: &Conditions, passage: &Passage) -> Result<f64, PhysicsError> {
    let airborne_s =
        conditions.treatment_time_s() * theory::mean_airborne_share_in(conditions, passage)?;
    Ok((DRAWN_GRAINS as f64 / airborne_s).clamp(LEAST_PER_S, MOST_PER_S))
}

/// Fowler–Noll–Vo hash, variant 1a, 64 bits, by bytes.
pub(crate) struct Digest(u64);

impl Digest {
    pub(crate) fn value(&self) -> u64 {
        self.0
    }

    pub(crate) fn new() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }

    pub(crate) fn add(&mut self, value: u64) {
        for byte in value.to_le_bytes() {
            self.0 = (self.0 ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
        }
    }
}
