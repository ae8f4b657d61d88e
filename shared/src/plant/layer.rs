//! The dust on the plates of one field: what it weighs, how thick it lies, what a blow throws off.

use crate::{
    conditions::Conditions,
    physics::{PhysicsError, layer::growth, rapping},
};

/// The layer of one field, the same everywhere on its plates.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct PlateLayer {
    /// Mass by size class, kg.
    pub(super) kg: Vec<f64>,
    /// When the field is struck next, s.
    pub(super) next_rap_s: f64,
    interval_s: f64,
    area_m2: f64,
    density_kg_m3: f64,
}

impl PlateLayer {
    pub(super) fn new(conditions: &Conditions, field: usize, classes: usize) -> Self {
        let interval_s = conditions.rapping.interval_s[field];
        Self {
            kg: vec![0.0; classes],
            next_rap_s: interval_s,
            interval_s,
            area_m2: conditions.collecting_area_m2() / conditions.collector.fields as f64,
            density_kg_m3: conditions.dust.layer_density_kg_m3,
        }
    }

    pub(super) fn total_kg(&self) -> f64 {
        self.kg.iter().sum()
    }

    /// Thickness, m.
    pub(super) fn thickness_m(&self) -> Result<f64, PhysicsError> {
        growth::thickness_m(self.total_kg(), self.area_m2, self.density_kg_m3)
    }

    /// Lays down these shares of a mass; returns how much that is, kg.
    pub(super) fn add(&mut self, shares: &[f64], mass_kg: f64) -> f64 {
        let mut sum_kg = 0.0;
        for (kg, share) in self.kg.iter_mut().zip(shares) {
            *kg += share * mass_kg;
            sum_kg += share * mass_kg;
        }
        sum_kg
    }

    /// From now on struck at this interval, s; the blow that is due stays due.
    pub(super) fn strike_every(&mut self, interval_s: f64) {
        self.interval_s = interval_s;
    }

    /// A blow; returns what comes off, kg.
    pub(super) fn strike(
        &mut self,
        conditions: &Conditions,
        time_s: f64,
    ) -> Result<f64, PhysicsError> {
        self.next_rap_s = time_s + self.interval_s;
        let acceleration_m_s2 = conditions.rapping.acceleration_m_s2;
        let share =
            rapping::removed_share(acceleration_m_s2, self.thickness_m()?, self.density_kg_m3)?;
        let dislodged_kg = share * self.total_kg();
        self.kg.iter_mut().for_each(|kg| *kg *= 1.0 - share);
        Ok(dislodged_kg)
    }
}
