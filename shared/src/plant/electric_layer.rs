//! What the current does in the dust on the plates: the field in the layer, the voltage that is lost there, back corona.

use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        layer::back_corona::{TEACHING_BREAKDOWN_FIELD_V_M, held_drop_v, held_field_v_m},
    },
    simulation::{FieldState, electrics, layer_resistivity_ohm_m},
};

/// Current through the layers of all fields, and their resistivity.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct ElectricLayers {
    states: Vec<FieldState>,
    resistivity_ohm_m: f64,
}

impl ElectricLayers {
    /// The currents are those without a layer: what it takes off the voltage does not act back yet.
    pub(super) fn new(conditions: &Conditions) -> Result<Self, PhysicsError> {
        Ok(Self {
            states: electrics(conditions)?.states.clone(),
            resistivity_ohm_m: layer_resistivity_ohm_m(conditions)?,
        })
    }

    /// State of one field.
    pub(super) fn state(&self, field: usize) -> &FieldState {
        &self.states[field]
    }

    fn current_a_m2(&self, field: usize) -> f64 {
        self.states[field].current_density_a_m2
    }

    /// Field in the layer of one field, V/m: `E = jρ`, held at breakdown where back corona sets in.
    pub(super) fn field_v_m(&self, field: usize) -> f64 {
        held_field_v_m(
            self.current_a_m2(field),
            self.resistivity_ohm_m,
            TEACHING_BREAKDOWN_FIELD_V_M,
        )
    }

    /// Voltage that is lost in it, V.
    pub(super) fn drop_v(&self, field: usize, thickness_m: f64) -> f64 {
        held_drop_v(
            self.current_a_m2(field),
            self.resistivity_ohm_m,
            TEACHING_BREAKDOWN_FIELD_V_M,
            thickness_m,
        )
    }

    /// Whether the layer breaks down.
    pub(super) fn has_back_corona(&self, field: usize) -> bool {
        self.current_a_m2(field) * self.resistivity_ohm_m > TEACHING_BREAKDOWN_FIELD_V_M
    }
}
