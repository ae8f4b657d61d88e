//! The electrical fields of a collector, computed: voltage, current, field and ions, with the dust's own charge in the gas.
//!
//! The dust takes its charge in the field, its charge changes the field: both are worked out in turn until they agree.
//! The answer is a function of the conditions alone; the last few are kept, because count, theory and flight ask for the
//! same.

mod dust;
mod energization;
mod kept;
mod ripple;
mod set;
mod state;
mod supply;

use std::sync::Arc;

use crate::{
    conditions::Conditions,
    parallel,
    physics::{PhysicsError, corona::WireField},
    simulation::Passage,
};

pub use dust::DustCharge;
pub use energization::{FieldEnergization, VoltageCurrentPoint, energization_of};
use set::{RIPPLE_NEAR, Set};
pub use state::{FieldState, HeldBy, corona, wire_row};

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
        self.done = self.electrics.rounds >= *ROUNDS.start() && furthest < AGREED;
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
        let wanted_a_m = wires.solution().current_a_m * self.set.current_share();
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
        reason: "the charge of the dust and the field do not settle".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        conditions::{Sizes, demonstration},
        physics::corona::space_charge::onset_shift_duct_v,
    };

    fn density(conditions: &Conditions, field: usize) -> f64 {
        electrics(conditions).expect("fields").states[field].current_density_a_m2
    }

    #[test]
    fn the_same_conditions_give_the_same_answer_from_memory_and_anew() {
        let conditions = demonstration();
        let mut work = ElectricsWork::new(&conditions).expect("fields");
        while !work.is_done() {
            work.advance().expect("a round");
        }
        assert_eq!(
            &work.electrics,
            electrics(&conditions).expect("fields").as_ref()
        );
    }

    #[test]
    fn current_and_charge_agree() {
        // Flown once more in the fields that were found, the dust holds the charge that the fields were solved with.
        let conditions = demonstration();
        let found = electrics(&conditions).expect("fields");
        let passage = Passage::in_fields(&conditions, &found).expect("a passage");
        for (new, used) in dust::flown(&conditions, &passage).iter().zip(&found.dust) {
            // One more flight has the chance of its parcels: up to 4 % of the voltage in the onset.
            let off_v = onset_shift_duct_v(
                (new.mean_c_m3() - used.mean_c_m3()).abs(),
                conditions.gap_m(),
            );
            assert!(
                off_v < 0.04 * 43e3,
                "{off_v} V of the onset are not explained"
            );
        }
    }

    #[test]
    fn the_charge_of_the_dust_is_that_of_the_grains_in_the_drawn_flight() {
        // Another road to the same charge: the grains of the running simulation, each with its share of the saturation
        // charge of field charging (`physics::charging::field`), times grains per mass of dust.
        use crate::{
            physics::charging::field::saturation_c,
            simulation::{Account, Simulation},
        };
        let diameter_m = 5e-6;
        let mut conditions = demonstration();
        conditions.teaching.single_diameter_m = Some(diameter_m);
        let found = electrics(&conditions).expect("fields");
        let mut simulation = Simulation::new(conditions.clone(), 1).expect("possible");
        let mut sum_c_m3 = 0.0;
        for look in 0..20 {
            for _ in 0..if look == 0 { 3600 } else { 120 } {
                simulation.step();
            }
            let frame = simulation.frame();
            let grain_kg =
                conditions.dust.density_kg_m3 * std::f64::consts::PI / 6.0 * diameter_m.powi(3);
            let parcel_kg = frame.ledger.kg(Account::Airborne) / frame.airborne() as f64;
            let mean_v_m = frame.fields()[0].voltage_v / conditions.gap_m();
            let saturated_c = saturation_c(diameter_m, conditions.dust.permittivity, mean_v_m);
            let shares: f64 = frame
                .grains()
                .filter(|grain| !grain.bypassing)
                .filter(|grain| f64::from(grain.along_m) < conditions.collector.field_length_m)
                .map(|grain| f64::from(grain.charge_share))
                .sum();
            // The books are those of all passages together.
            let gas_m3 = conditions.collector.field_length_m
                * conditions.collector.plate_height_m
                * conditions.collector.plate_spacing_m
                * conditions.collector.passages as f64;
            sum_c_m3 += shares * saturated_c * parcel_kg / grain_kg / gas_m3 / 20.0;
        }
        // Ten thousand grains twenty times, and the chance of the field's own parcels: 1 to 2 %.
        let flown_c_m3 = found.states[0].dust_charge_c_m3;
        assert!(
            (flown_c_m3 / sum_c_m3 - 1.0).abs() < 0.05,
            "{flown_c_m3} flown, {sum_c_m3} C/m³ in the drawn flight"
        );
    }

    #[test]
    fn every_shipped_site_settles() {
        for (name, text) in crate::conditions::SITES {
            let sheet =
                crate::conditions::sheet::read_str(name, text).map_err(|errors| errors.to_string());
            let mut work = ElectricsWork::new(&sheet.expect("a sheet").conditions).expect("fields");
            while !work.is_done() {
                work.advance().expect("it settles");
            }
            assert!(work.finished().is_some(), "{name}");
        }
    }

    #[test]
    fn dust_holds_the_corona_back_most_where_it_is_thickest() {
        let mut conditions = demonstration();
        conditions.electrical.voltage_v = vec![44e3];
        let states = &electrics(&conditions).expect("fields").states;
        for pair in states.windows(2) {
            assert!(
                pair[1].current_density_a_m2 > pair[0].current_density_a_m2,
                "current rises towards the outlet"
            );
        }
        // Kiln-like load: many times the dust of the demonstration.
        conditions.dust.load_kg_m3 *= 5.0;
        let dusty = density(&conditions, 0);
        conditions.dust.load_kg_m3 = 0.0;
        let clean = density(&conditions, 0);
        assert!(
            clean > 3.0 * dusty,
            "{clean} in clean gas, {dusty} A/m² in dusty gas"
        );
    }

    #[test]
    fn the_demonstration_shows_the_pattern_of_a_healthy_collector() {
        // Common practice, no source: 7 to 16 nA/cm² at the dusty inlet, 42 to 52 at the clean outlet, the current
        // rising from field to field while the voltage falls slightly.
        let states = &electrics(&demonstration()).expect("fields").states;
        let density = |field: usize| states[field].current_density_a_m2;
        assert!((7e-5..=16e-5).contains(&density(0)), "{}", density(0));
        assert!((42e-5..=52e-5).contains(&density(3)), "{}", density(3));
        for pair in states.windows(2) {
            assert!(pair[1].current_density_a_m2 > pair[0].current_density_a_m2);
            assert!(pair[1].voltage_v < pair[0].voltage_v);
        }
    }

    #[test]
    fn a_pulverised_coal_collector_draws_several_times_more_at_its_clean_outlet() {
        // Common practice, no source: 5 to 16 nA/cm² at a healthy dusty inlet, 3 to 6 times that at the outlet.
        let (name, text) = crate::conditions::SITES[3];
        let sheet =
            crate::conditions::sheet::read_str(name, text).map_err(|errors| errors.to_string());
        let conditions = sheet.expect("a sheet").conditions;
        let states = &electrics(&conditions).expect("fields").states;
        let inlet = states[0].current_density_a_m2;
        let outlet = states[states.len() - 1].current_density_a_m2;
        assert!((5e-5..16e-5).contains(&inlet), "inlet {inlet} A/m²");
        assert!(
            (3.0..6.0).contains(&(outlet / inlet)),
            "{inlet} to {outlet} A/m²"
        );
    }

    #[test]
    fn finer_dust_of_the_same_load_holds_the_corona_back_more() {
        let mut conditions = demonstration();
        let at = |conditions: &mut Conditions, median_m: f64| {
            conditions.dust.sizes = Sizes::LogNormal {
                mass_median_diameter_m: median_m,
                geometric_deviation: 1.5,
            };
            density(conditions, 0)
        };
        let coarse = at(&mut conditions, 20e-6);
        let fine = at(&mut conditions, 3e-6);
        assert!(
            coarse > 2.0 * fine,
            "{coarse} with coarse, {fine} A/m² with fine dust"
        );
    }
}
