//! What a formula is asked about a time on the plant clock, and the fields in a row that such formulas are made of.

use crate::{
    conditions::Conditions,
    physics::{PhysicsError, error::require},
    theory,
};

/// A time on the plant clock, and the field that is meant.
#[derive(Clone, Copy, Debug)]
pub struct OnPlant<'a> {
    /// Conditions of the time before the change.
    pub before: &'a Conditions,
    /// How long the plant ran under them, s.
    pub settle_s: f64,
    /// Conditions of the time that is asked about.
    pub conditions: &'a Conditions,
    /// How long it is, s.
    pub time_s: f64,
    /// The field that is meant, from 0.
    pub field: usize,
}

/// Equal fields one after the other, with one migration velocity and full mixing.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    /// Share of the dust between the plates of a field that gets through.
    pub(super) charged: f64,
    /// Share of the gas past a field.
    pub(super) around: f64,
    /// Fields.
    pub(super) fields: usize,
    /// Deutsch number of one field.
    pub(super) deutsch: f64,
}

impl Row {
    /// `p_c = e^(−w A/(n Q))`.
    pub(super) fn new(conditions: &Conditions) -> Result<Self, PhysicsError> {
        let whole = theory::limits(conditions)?.deutsch_anderson;
        let fields = conditions.collector.fields;
        let deutsch = -whole.ln() / fields as f64;
        Ok(Self {
            charged: (-deutsch).exp(),
            around: conditions.collector.sneakage,
            fields,
            deutsch,
        })
    }

    /// Share of what reaches a field that comes to lie on its plates: `(1−S)(1−p_c)`.
    pub(super) fn lands(&self) -> f64 {
        (1.0 - self.around) * (1.0 - self.charged)
    }

    /// Share of what reaches a field that goes on, where this share of what lands is sent back.
    pub(super) fn passes(&self, returned: f64) -> f64 {
        1.0 - self.lands() * (1.0 - returned)
    }

    /// Share of the inlet dust that reaches a field.
    pub(super) fn reaches(&self, field: usize, returned: f64) -> f64 {
        (0..field).fold(1.0, |share, _| share * self.passes(returned))
    }
}

/// The field that is meant, if there is one.
pub(super) fn field_of(asked: &OnPlant<'_>) -> Result<usize, PhysicsError> {
    let there = asked.field < asked.conditions.collector.fields;
    require(
        there,
        "field",
        asked.field as f64,
        "one of the fields, from 0",
    )?;
    Ok(asked.field)
}

/// Dust that comes to lie on the plates of a field while nothing is rapped upstream, kg/s.
pub(super) fn landing_kg_s(conditions: &Conditions, field: usize) -> Result<f64, PhysicsError> {
    let row = Row::new(conditions)?;
    Ok(conditions.inlet_mass_kg_s() * row.reaches(field, 0.0) * row.lands())
}

/// Ash that falls into the hoppers below a field in the long run, kg/s.
pub(super) fn falling_kg_s(conditions: &Conditions, field: usize) -> Result<f64, PhysicsError> {
    let row = Row::new(conditions)?;
    let returned = conditions.returned_share();
    let lands = conditions.inlet_mass_kg_s() * row.reaches(field, returned) * row.lands();
    Ok(lands * (1.0 - returned))
}

/// Plate area of one field, m².
pub(super) fn field_m2(conditions: &Conditions) -> f64 {
    conditions.collecting_area_m2() / conditions.collector.fields as f64
}
