//! The dust on the discharge wires of one field, and the blows that clean them.

use std::f64::consts::PI;

use super::layer::{Blow, returned};
use crate::{conditions::Conditions, physics::PhysicsError};

/// Growth of the coat on the wires over that of the layer on the plates, m over m: dust that drifts away from the wire
/// coats it little. Teaching value, no source.
const GROWTH: f64 = 0.02;

/// The coat on the wires of one field.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct WireCoat {
    /// Mass by size class, kg.
    kg: Vec<f64>,
    /// When the wires are struck next, s.
    pub(super) next_blow_s: f64,
    interval_s: f64,
    radius_m: f64,
    length_m: f64,
    density_kg_m3: f64,
    /// Share of what the field catches that settles on the wires.
    pub(super) share: f64,
}

impl WireCoat {
    pub(super) fn new(conditions: &Conditions, field: usize, classes: usize) -> Self {
        let collector = &conditions.collector;
        let wires = f64::from(conditions.wires_per_field()) * collector.passages as f64;
        let length_m = wires * collector.plate_height_m;
        let radius_m = 0.5 * collector.wire_diameter_m;
        let plates_m2 = conditions.collecting_area_m2() / collector.fields as f64;
        let coated_m2 = GROWTH * 2.0 * PI * radius_m * length_m;
        Self {
            kg: vec![0.0; classes],
            next_blow_s: conditions.rapping.wire_interval_s[field],
            interval_s: conditions.rapping.wire_interval_s[field],
            radius_m,
            length_m,
            density_kg_m3: conditions.dust.layer_density_kg_m3,
            share: coated_m2 / (plates_m2 + coated_m2),
        }
    }

    /// From now on as these conditions say; coat and due blow stay.
    pub(super) fn adopt(&mut self, conditions: &Conditions, field: usize) {
        let (kg, next_blow_s) = (std::mem::take(&mut self.kg), self.next_blow_s);
        let classes = kg.len();
        *self = Self {
            kg,
            next_blow_s,
            ..Self::new(conditions, field, classes)
        };
    }

    pub(super) fn total_kg(&self) -> f64 {
        self.kg.iter().sum()
    }

    /// Thickness of the coat, m: of a tube of dust around every wire.
    pub(super) fn thickness_m(&self) -> f64 {
        let tube_m2 = self.total_kg() / (self.density_kg_m3 * self.length_m);
        (self.radius_m * self.radius_m + tube_m2 / PI).sqrt() - self.radius_m
    }

    /// Lays down these shares of a mass; returns how much that is, kg.
    pub(super) fn add(&mut self, caught: &[f64], mass_kg: f64) -> f64 {
        for (kg, share) in self.kg.iter_mut().zip(caught) {
            *kg += share * mass_kg;
        }
        caught.iter().sum::<f64>() * mass_kg
    }

    /// A blow on the wires, which leaves this share of the coat.
    pub(super) fn strike(
        &mut self,
        time_s: f64,
        left: f64,
        conditions: &Conditions,
    ) -> Result<Blow, PhysicsError> {
        self.next_blow_s = time_s + self.interval_s;
        let returned = returned(conditions, self.thickness_m())?;
        let off = self.kg.iter_mut().map(|kg| {
            let stays = left * *kg;
            std::mem::replace(kg, stays) - stays
        });
        Ok(Blow {
            kg: off.collect(),
            returned,
        })
    }
}
