//! The running simulation: a steady stream of dust through one gas passage, a step at a time.
//!
//! It owns all state; the window, the command line and the tests call the same [`Simulation::step`].

use std::sync::Arc;

use super::{
    Account, Command, CommandError, Deposits, Frame, Ledger, LoggedCommand, TIME_STEP_S,
    chunk::{Books, Chunk, Entry, become_grain, random_entry_s},
    electrics::{Electrics, electrics, electrics_are_ready, wire_row},
    followed::{Followed, Seen, Watch},
    parcels::Parcel,
    passage::Passage,
};
use crate::{
    conditions::{self, Conditions},
    parallel,
    physics::PhysicsError,
    theory,
};

/// Chunks that the stream is dealt to in turn.
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
            chunks: (0..CHUNKS as u64)
                .map(|chunk| Chunk::new(seed, chunk))
                .collect(),
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
        self.due += self.parcels_per_s * TIME_STEP_S;
        let fresh = self.due as usize;
        self.due -= fresh as f64;
        let mass_kg = (self.conditions.inlet_mass_kg_s() / self.parcels_per_s) as f32;
        let passage = &self.passage;
        let first = (self.step % CHUNKS as u64) as usize;
        // Chunk k of this step gets every CHUNKS-th of the fresh parcels, starting with another chunk at each step.
        let shares: Vec<usize> = (0..CHUNKS)
            .map(|chunk| (fresh + CHUNKS - 1 - (chunk + first) % CHUNKS) / CHUNKS)
            .collect();
        let watches: Vec<Watch> = (0..CHUNKS).map(|chunk| self.watch(chunk)).collect();
        let mut work: Vec<_> = self
            .chunks
            .iter_mut()
            .zip(shares.into_iter().zip(watches))
            .collect();
        let events = parallel::map_mut(&mut work, |(chunk, (share, watch))| {
            let mut events = Events {
                seen: Seen::watching(*watch),
                ..Events::default()
            };
            for _ in 0..*share {
                let owed_s = random_entry_s(chunk.injection_unit());
                chunk.inject(
                    passage,
                    Entry {
                        owed_s,
                        mass_kg,
                        own_gusts: false,
                    },
                    &mut events,
                );
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
            Command::Follow(wish) => {
                let follow = |wish| Followed::new(wish, &self.conditions, &self.passage);
                self.followed = wish.clone().map(follow);
            }
        }
        self.log.push(LoggedCommand {
            step: self.step,
            command,
        });
        Ok(())
    }

    /// The present moment.
    #[must_use]
    pub fn frame(&self) -> Frame<'_> {
        Frame {
            conditions: &self.conditions,
            passage: &self.passage,
            chunks: &self.chunks,
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
        digest.0
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
        for parcel in &events.stuck {
            self.deposits.add(parcel);
        }
    }

    fn restart(&mut self) {
        for chunk in &mut self.chunks {
            chunk.parcels.clear();
        }
        self.ledger = Ledger::default();
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

/// What happened to the mass in one chunk during a step.
#[derive(Debug, Default)]
struct Events {
    entered_kg: f64,
    captured_kg: f64,
    returned_kg: f64,
    left_kg: f64,
    stuck: Vec<Parcel>,
    seen: Seen,
}

impl Books for Events {
    fn entered(&mut self, parcel: &Parcel) {
        self.entered_kg += f64::from(parcel.mass_kg);
        self.seen.entered(parcel);
    }

    fn captured(&mut self, parcel: &Parcel) {
        self.captured_kg += f64::from(parcel.mass_kg);
        self.seen.captured(parcel);
        self.stuck.push(*parcel);
    }

    fn returned(&mut self, parcel: &Parcel) {
        self.returned_kg += f64::from(parcel.mass_kg);
    }

    fn left(&mut self, parcel: &Parcel) {
        self.left_kg += f64::from(parcel.mass_kg);
        self.seen.left(parcel);
    }
}

/// Fowler–Noll–Vo hash, variant 1a, 64 bits, by bytes.
struct Digest(u64);

impl Digest {
    fn new() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }

    fn add(&mut self, value: u64) {
        for byte in value.to_le_bytes() {
            self.0 = (self.0 ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
        }
    }
}
