//! The fields of a collector as the solver asks for them: where place matters, where the field is even, where all mixes.

use super::zones::{LocalField, MixedField, SLOTS, Zone};
use crate::{
    conditions::Conditions,
    physics::{corona::WireField, efficiency::Column},
    simulation::{FieldState, Passage, Stirring},
};

/// The fields of the collector, where place matters and where it does not.
pub(super) enum Places {
    Local(Vec<LocalField>),
    Even(Vec<(LocalField, MixedField)>),
    Mixed(Vec<MixedField>),
}

/// The solved fields and their states.
fn states(passage: &Passage) -> impl Iterator<Item = (&WireField, &FieldState)> {
    passage.fields.iter().zip(&passage.states)
}

/// The fields where every grain is everywhere in turn.
pub(super) fn mixed(conditions: &Conditions, passage: &Passage) -> Vec<MixedField> {
    states(passage)
        .map(|(field, state)| MixedField::new(conditions, field).under(state))
        .collect()
}

impl Places {
    pub(super) fn new(conditions: &Conditions, passage: &Passage, column: &Column) -> Self {
        if passage.stirring == Stirring::Full {
            Self::Mixed(mixed(conditions, passage))
        } else {
            let local =
                |(field, state)| LocalField::new(conditions, field, column.faces_m()).under(state);
            Self::Local(states(passage).map(local).collect())
        }
    }

    pub(super) fn even(conditions: &Conditions, passage: &Passage, column: &Column) -> Self {
        let even = |mixed: MixedField| {
            let local = LocalField::even(conditions, mixed.plate_v_m, column.cells());
            (local, mixed)
        };
        Self::Even(mixed(conditions, passage).into_iter().map(even).collect())
    }

    /// Where the zones of a slot begin, and how many it has from one cell to the next.
    pub(super) fn zones_of_slot(&self, field: usize, slot: usize, cells: usize) -> (usize, usize) {
        match self {
            Self::Local(_) => ((field * SLOTS + slot) * cells, 1),
            Self::Even(_) | Self::Mixed(_) => (field, 0),
        }
    }

    /// All zones, in the order that `Pull` numbers them.
    pub(super) fn zones(&self) -> Vec<&Zone> {
        match self {
            Self::Local(fields) => fields
                .iter()
                .flat_map(|field| &field.slots)
                .flat_map(|slot| &slot.zones)
                .collect(),
            Self::Even(fields) => fields.iter().map(|(_, mixed)| &mixed.zone).collect(),
            Self::Mixed(fields) => fields.iter().map(|field| &field.zone).collect(),
        }
    }

    /// Strongest field that drives grains towards the plate, V/m.
    pub(super) fn strongest_v_m(&self) -> f64 {
        match self {
            Self::Local(fields) => fields
                .iter()
                .flat_map(|field| &field.slots)
                .flat_map(|slot| slot.towards_plate_v_m.iter().copied())
                .fold(0.0, f64::max),
            Self::Even(fields) => fields
                .iter()
                .map(|(_, mixed)| mixed.plate_v_m)
                .fold(0.0, f64::max),
            Self::Mixed(fields) => fields
                .iter()
                .map(|field| field.plate_v_m)
                .fold(0.0, f64::max),
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::{
        conditions::{Mixing, demonstration},
        theory::solve,
    };

    #[test]
    fn an_even_field_with_strong_mixing_and_no_losses_is_what_the_formula_has() {
        let mut conditions = demonstration();
        conditions.dust.load_kg_m3 = 0.0;
        conditions.collector.sneakage = 0.0;
        conditions.rapping.reentrained = 0.0;
        conditions.gas.velocity_spread = 0.0;
        conditions.collector.fields = 1;
        // Péclet number 0.05 or so: Leonard et al. 1980 give P within 1 % of the formula's there.
        conditions.teaching.mixing = Some(Mixing::Diffusivity(0.5));
        let theory = solve(&conditions).expect("possible");
        let even = theory.in_even_field.expect("a computed field");
        assert!(
            (even / theory.deutsch_anderson - 1.0).abs() < 0.02,
            "{even} and {}",
            theory.deutsch_anderson
        );
    }

    #[test]
    fn wires_close_together_make_the_field_more_even() {
        let factor = |pitch_m: f64, voltage_v: f64| {
            let mut conditions = demonstration();
            conditions.dust.load_kg_m3 = 0.0;
            conditions.collector.fields = 1;
            conditions.collector.wire_spacing_m = pitch_m;
            conditions.electrical.voltage_v = vec![voltage_v];
            let theory = solve(&conditions).expect("possible");
            theory.finite_mixing / theory.in_even_field.expect("a computed field")
        };
        let (close, wide) = (factor(0.06, 60e3), factor(0.25, 45e3));
        assert!(
            1.0 < close && close < wide,
            "{close} with close, {wide} with wide wires"
        );
    }
}
