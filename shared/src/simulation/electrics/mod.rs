//! The electrical fields of a collector, computed: voltage, current, field and ions, with the dust's own charge in the gas.
//!
//! The dust takes its charge in the field, its charge changes the field: both are worked out in turn until they agree.
//! The answer is a function of the conditions alone; the last few are kept, because count, theory and flight ask for the
//! same.

mod charge_along;
mod dust;
mod dust_follows;
mod energization;
mod kept;
mod layer;
mod layered;
mod missing;
mod operating;
mod ripple;
mod set;
mod state;
mod supply;
mod swing;
mod tabulated;
#[cfg(test)]
mod tabulated_tests;
#[cfg(test)]
mod tests;
#[cfg(test)]
mod trouble_tests;
mod what_if;

use std::sync::Arc;

use crate::{
    conditions::Conditions,
    parallel,
    physics::{PhysicsError, corona::WireField},
    simulation::Passage,
};

pub(crate) use charge_along::{ChargeAlong, Met};
pub use dust::DustCharge;
pub use energization::{FieldEnergization, VoltageCurrentPoint, energization_of};
pub use layer::{LayerLoad, layer_resistivity_ohm_m};
use set::{RIPPLE_NEAR, Set};
pub use state::{FieldState, HeldBy, corona, wire_row};
pub(crate) use supply::MEAN_OF_SINE;
pub use swing::Swung;
pub use tabulated::{TabulatedField, TabulatedState, Wear};

/// Least and most rounds of dust and field.
const ROUNDS: std::ops::RangeInclusive<usize> = 8..=60;
/// Share of the way to the new current, in its logarithm, that the first rounds go. Each time the way turns round the
/// share gets smaller (after Kesten 1958): what is left then is the chance of the parcels.
const FIRST_STRIDE: f64 = 0.7;
/// Longest way that is believed, in the logarithm of the current: where dust quenches the corona there is none at all.
const LONGEST: f64 = 3.0;
/// Dust and field agree when the onset with the charge that a flight finds differs by less than this share of the voltage
/// from the onset with the charge that the flight's field was solved with. The chance of one flight alone is 1 to 3 %.
const AGREED: f64 = 0.05;
/// Where dust all but quenches the corona a little current makes much charge: after so many rounds twice as much will do.
const LONG_ROUNDS: usize = 24;
const AGREED_LONG: f64 = 2.0 * AGREED;

/// The electrical fields of a collector.
#[derive(Clone, Debug, PartialEq)]
pub struct Electrics {
    /// State of every field.
    pub states: Vec<FieldState>,
    /// Electric field of every field.
    pub fields: Vec<WireField>,
    /// Charge of the dust in every field.
    pub dust: Vec<DustCharge>,
    /// Rounds of dust and field.
    pub rounds: usize,
}

/// The electrical fields under these conditions.
///
/// # Errors
/// A formula or the solver refused the conditions; the message says which argument.
pub fn electrics(conditions: &Conditions) -> Result<Arc<Electrics>, PhysicsError> {
    kept::or_else(conditions, || {
        let mut work = ElectricsWork::new(conditions)?;
        while !work.is_done() {
            work.advance()?;
        }
        work.finished().ok_or_else(unsettled)
    })
}

impl Electrics {
    /// The same for another number of fields: the last one stands for those that are new.
    pub(crate) fn with_fields(&self, fields: usize) -> Self {
        fn resized<T: Clone>(list: &[T], length: usize) -> Vec<T> {
            let tail = list.last().cloned();
            list.iter()
                .cloned()
                .chain(std::iter::repeat(tail).flatten())
                .take(length)
                .collect()
        }
        Self {
            states: resized(&self.states, fields),
            fields: resized(&self.fields, fields),
            dust: resized(&self.dust, fields),
            rounds: self.rounds,
        }
    }
}

/// Whether [`electrics`] would answer at once.
#[must_use]
pub fn electrics_are_ready(conditions: &Conditions) -> bool {
    kept::kept(conditions).is_some()
}

/// The work of [`electrics`] in slices, for a browser without threads.
#[derive(Debug)]
pub struct ElectricsWork {
    conditions: Conditions,
    sets: Vec<Set>,
    electrics: Electrics,
    ways: Vec<Way>,
    done: bool,
}

/// The mean current of the set's half cycle that one field aims for, and how it has moved so far.
#[derive(Clone, Copy, Debug)]
struct Way {
    current_a_m: f64,
    upwards: Option<bool>,
    turns: u32,
}

impl Way {
    fn new(current_a_m: f64) -> Self {
        Self {
            current_a_m,
            upwards: None,
            turns: 0,
        }
    }

    /// Goes part of the way to a current, none of which is no less than `least_a_m`.
    fn step(&mut self, wanted_a_m: f64, least_a_m: f64) {
        if self.current_a_m <= 0.0 {
            // Below onset in clean gas: dust brings no corona.
            return;
        }
        let change = (wanted_a_m.max(f64::MIN_POSITIVE) / self.current_a_m).ln();
        let upwards = change > 0.0;
        if self.upwards.is_some_and(|before| before != upwards) {
            self.turns += 1;
        }
        self.upwards = Some(upwards);
        let stride = FIRST_STRIDE / f64::from(1 + self.turns);
        let step = change.clamp(-LONGEST, LONGEST) * stride;
        self.current_a_m = (self.current_a_m * step.exp()).max(least_a_m);
    }
}

impl ElectricsWork {
    /// Begins with clean gas.
    ///
    /// # Errors
    /// As [`electrics`].
    pub fn new(conditions: &Conditions) -> Result<Self, PhysicsError> {
        let mut sets = Set::all(conditions)?;
        // One migration velocity for every grain: no charge is computed, so none is in the gas.
        let charged = conditions.teaching.migration_velocity_m_s.is_none();
        let done = !charged || conditions.inlet_mass_kg_s() <= 0.0;
        let dust = DustCharge::none(conditions.gap_m());
        let answers = parallel::map_mut(&mut sets, |set| {
            if done {
                set.settled(&dust, None)
            } else {
                let (state, wires) = set.field(&dust, None)?;
                set.learn(state.held_by, wires.solution(), RIPPLE_NEAR)?;
                Ok((state, wires))
            }
        });
        let (states, fields) = answers
            .into_iter()
            .collect::<Result<(Vec<_>, Vec<_>), PhysicsError>>()?;
        Ok(Self {
            done,
            conditions: conditions.clone(),
            ways: fields
                .iter()
                .zip(&sets)
                .map(|(field, set): (&WireField, _)| {
                    Way::new(field.solution().current_a_m * set.current_share())
                })
                .collect(),
            electrics: Electrics {
                dust: vec![dust; sets.len()],
                states,
                fields,
                rounds: 0,
            },
            sets,
        })
    }

    /// Whether dust and field agree.
    #[must_use]
    pub fn is_done(&self) -> bool {
        self.done
    }

    /// The fields, once dust and field agree.
    #[must_use]
    pub fn finished(self) -> Option<Electrics> {
        self.done.then_some(self.electrics)
    }

    /// Leaves the fields for [`electrics`] to answer with, once dust and field agree.
    pub fn keep(self) {
        if self.done {
            kept::keep(&self.conditions, Ok(self.electrics));
        }
    }

    /// Leaves word that there is no field under these conditions, so that nobody tries again.
    pub fn keep_failure(conditions: &Conditions, error: &PhysicsError) {
        kept::keep(conditions, Err(error.clone()));
    }

    /// One round: parcels fly in the present fields; their charge says which current the set would give; the current
    /// goes part of the way there, with as much charge in the gas as belongs to it.
    ///
    /// # Errors
    /// As [`electrics`]; or dust and field do not settle.
    pub fn advance(&mut self) -> Result<(), PhysicsError> {
        let passage = Passage::in_fields(&self.conditions, &self.electrics)?;
        let flown = dust::flown(&self.conditions, &passage);
        let mut tasks: Vec<Task<'_>> = (self.sets.iter_mut())
            .zip(&mut self.ways)
            .zip(self.electrics.fields.iter().zip(&flown))
            .map(|((set, way), (before, charge))| Task {
                set,
                way,
                before,
                charge,
            })
            .collect();
        let answers = parallel::map_mut(&mut tasks, Task::advance);
        let mut next = Electrics {
            states: Vec::new(),
            fields: Vec::new(),
            dust: Vec::new(),
            rounds: self.electrics.rounds + 1,
        };
        let mut furthest = 0.0_f64;
        for (answer, before) in answers.into_iter().zip(&self.electrics.states) {
            let Advanced {
                wanted,
                state,
                wires,
                used,
            } = answer?;
            let off_v = (wanted.dusty_onset_v - before.dusty_onset_v).abs();
            furthest = furthest.max(off_v / wanted.voltage_v.max(wanted.dusty_onset_v));
            next.states.push(state);
            next.fields.push(wires);
            next.dust.push(used);
        }
        self.electrics = next;
        let agreed = if self.electrics.rounds <= LONG_ROUNDS {
            AGREED
        } else {
            AGREED_LONG
        };
        self.done = self.electrics.rounds >= *ROUNDS.start() && furthest < agreed;
        if !self.done && self.electrics.rounds >= *ROUNDS.end() {
            return Err(unsettled());
        }
        if self.done {
            self.settle()?;
        }
        Ok(())
    }

    /// Voltage and ripple with the dust that was found.
    fn settle(&mut self) -> Result<(), PhysicsError> {
        let mut tasks: Vec<_> = (self.sets.iter_mut())
            .zip(self.electrics.fields.iter().zip(&self.electrics.dust))
            .collect();
        let answers = parallel::map_mut(&mut tasks, |(set, (near, dust))| {
            set.settled(dust, Some(near.solution()))
        });
        let settled = answers.into_iter().collect::<Result<_, PhysicsError>>()?;
        (self.electrics.states, self.electrics.fields) = settled;
        Ok(())
    }
}

/// One field's share of a round.
struct Task<'a> {
    set: &'a mut Set,
    way: &'a mut Way,
    before: &'a WireField,
    charge: &'a DustCharge,
}

/// What came of it.
struct Advanced {
    /// The state with all the charge that was flown.
    wanted: FieldState,
    state: FieldState,
    wires: WireField,
    used: DustCharge,
}

impl Task<'_> {
    fn advance(&mut self) -> Result<Advanced, PhysicsError> {
        let near = self.before.solution();
        let (wanted, wires) = self.set.field(self.charge, Some(near))?;
        let wanted_a_m = self.set.driven_a_m(&wanted, wires.solution());
        self.way.step(wanted_a_m, self.set.least_a_m());
        let (state, wires, used) = self.set.balanced(self.charge, self.way.current_a_m, near)?;
        self.set
            .learn(state.held_by, wires.solution(), RIPPLE_NEAR)?;
        Ok(Advanced {
            wanted,
            state,
            wires,
            used,
        })
    }
}

fn unsettled() -> PhysicsError {
    PhysicsError::Impossible {
        reason: "so much fine dust all but quenches the corona, and its charge and the field do not settle; less dust, \
                 coarser dust or another voltage can be computed"
            .to_owned(),
    }
}
