//! The electrical fields of a collector, computed: voltage, current, field and ions, with the dust's own charge in the gas.
//!
//! The dust takes its charge in the field, its charge changes the field: both are worked out in turn until they agree.
//! The answer is a function of the conditions alone; the last few are kept, because count, theory and flight ask for the
//! same.

mod dust;
mod kept;
mod state;

use std::sync::Arc;

use crate::{
    conditions::Conditions,
    physics::{PhysicsError, corona::WireField},
    simulation::Passage,
};

pub use dust::DustCharge;
use state::Sets;
pub use state::{FieldState, HeldBy, corona, wire_row};

/// Least and most rounds of dust and field.
const ROUNDS: std::ops::RangeInclusive<usize> = 8..=40;
/// Share of the way to the new current, in its logarithm, that the first rounds go. Each time the way turns round the
/// share gets smaller (Kesten's rule): what is left then is the chance of the parcels.
const FIRST_STRIDE: f64 = 0.7;
/// Longest way that is believed, in the logarithm of the current: where dust quenches the corona there is none at all.
const LONGEST: f64 = 2.0;
/// Dust and field agree when a round changes no current by more than this share, of it or of a tenth of its limit.
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
    sets: Sets,
    electrics: Electrics,
    ways: Vec<Way>,
    done: bool,
}

/// How the current of one field has moved so far.
#[derive(Clone, Copy, Debug, Default)]
struct Way {
    upwards: Option<bool>,
    turns: u32,
}

impl Way {
    /// How far to go now that the logarithm of the current should change by `change`.
    fn step(&mut self, change: f64) -> f64 {
        let upwards = change > 0.0;
        if self.upwards.is_some_and(|before| before != upwards) {
            self.turns += 1;
        }
        self.upwards = Some(upwards);
        change.clamp(-LONGEST, LONGEST) * FIRST_STRIDE / f64::from(1 + self.turns)
    }
}

impl ElectricsWork {
    /// Begins with clean gas.
    ///
    /// # Errors
    /// As [`electrics`].
    pub fn new(conditions: &Conditions) -> Result<Self, PhysicsError> {
        let mut sets = Sets::new(conditions)?;
        let dust = vec![DustCharge::none(conditions.gap_m()); conditions.collector.fields];
        let electrics = clean(&mut sets, dust)?;
        // One migration velocity for every grain: no charge is computed, so none is in the gas.
        let charged = conditions.teaching.migration_velocity_m_s.is_none();
        Ok(Self {
            done: !charged || conditions.inlet_mass_kg_s() <= 0.0,
            conditions: conditions.clone(),
            sets,
            ways: vec![Way::default(); electrics.dust.len()],
            electrics,
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
        let mut next = Electrics {
            states: Vec::new(),
            fields: Vec::new(),
            dust: Vec::new(),
            rounds: self.electrics.rounds + 1,
        };
        let mut furthest = 0.0_f64;
        for (field, charge) in flown.iter().enumerate() {
            let near = self.electrics.fields[field].solution();
            let (wanted, _) = self.sets.field(field, charge, Some(near))?;
            let step = self.ways[field].step(change(
                self.electrics.states[field].current_density_a_m2,
                wanted.current_density_a_m2,
            ));
            let density = self.electrics.states[field].current_density_a_m2;
            furthest =
                furthest.max(step.abs() * density / density.max(0.1 * self.sets.limit_a_m2()));
            let current_a_m = near.current_a_m * step.exp();
            let (state, wires, used) = self.sets.balanced(field, charge, current_a_m, near)?;
            next.states.push(state);
            next.fields.push(wires);
            next.dust.push(used);
        }
        self.electrics = next;
        self.done = self.electrics.rounds >= *ROUNDS.start() && furthest < AGREED;
        if !self.done && self.electrics.rounds >= *ROUNDS.end() {
            return Err(unsettled());
        }
        Ok(())
    }
}

fn unsettled() -> PhysicsError {
    PhysicsError::Impossible {
        reason: "the charge of the dust and the field do not settle".to_owned(),
    }
}

/// Logarithm of the new current over the old; fields without corona stay as they are.
fn change(old: f64, new: f64) -> f64 {
    if old <= 0.0 {
        0.0
    } else if new <= 0.0 {
        -LONGEST
    } else {
        (new / old).ln()
    }
}

/// The fields in clean gas.
fn clean(sets: &mut Sets, dust: Vec<DustCharge>) -> Result<Electrics, PhysicsError> {
    let (mut states, mut fields) = (Vec::new(), Vec::new());
    for (index, charge) in dust.iter().enumerate() {
        let (state, field) = sets.field(index, charge, None)?;
        states.push(state);
        fields.push(field);
    }
    Ok(Electrics {
        states,
        fields,
        dust,
        rounds: 0,
    })
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
