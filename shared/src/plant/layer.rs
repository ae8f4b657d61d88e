//! The dust on the plates of one field: what it weighs, how thick it lies where, what a blow throws off.

use super::segments::{SEGMENTS, SEGMENTS_HIGH};
use crate::{
    conditions::{Conditions, Kind},
    physics::{PhysicsError, layer::growth, rapping},
};

/// The layer of one field, by groups of plates that are struck together.
///
/// All groups get the same dust, so what arrives is summed up once, and each remembers the sum at its last blow.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct PlateLayer {
    groups: Vec<Group>,
    /// What one group has got since the start.
    arrived: Dust,
    /// Both faces of all plates of the field, m².
    area_m2: f64,
    /// Share of them on which dust can stay: the dry patches of wet plates, all of dry ones.
    dry_share: f64,
    density_kg_m3: f64,
}

/// Dust on plates that are struck together.
#[derive(Clone, Debug, PartialEq)]
struct Dust {
    /// By place, kg.
    segments_kg: [f64; SEGMENTS],
    /// The same mass by size class, kg; one make-up for all places.
    kg: Vec<f64>,
}

/// Plates that are struck together.
#[derive(Clone, Debug, PartialEq)]
struct Group {
    /// What the last blow left on them.
    left: Dust,
    /// What had arrived by then.
    arrived: Dust,
}

impl Dust {
    fn none(classes: usize) -> Self {
        Self {
            segments_kg: [0.0; SEGMENTS],
            kg: vec![0.0; classes],
        }
    }
}

impl Group {
    /// Dust that lies at a place, kg, with what arrived since the last blow.
    fn segment_kg(&self, arrived: &Dust, place: usize) -> f64 {
        self.left.segments_kg[place]
            + (arrived.segments_kg[place] - self.arrived.segments_kg[place])
    }

    /// The same over all places.
    fn total_kg(&self, arrived: &Dust) -> f64 {
        (0..SEGMENTS)
            .map(|place| self.segment_kg(arrived, place))
            .sum()
    }
}

/// What a blow throws off.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Blow {
    /// By size class, kg.
    pub(super) kg: Vec<f64>,
    /// Share of it that goes back into the gas.
    pub(super) returned: f64,
}

impl PlateLayer {
    pub(super) fn new(
        conditions: &Conditions,
        field: usize,
        groups: usize,
        classes: usize,
    ) -> Self {
        let clean = Group {
            left: Dust::none(classes),
            arrived: Dust::none(classes),
        };
        let mut layer = Self {
            groups: vec![clean; groups],
            arrived: Dust::none(classes),
            area_m2: conditions.collecting_area_m2() / conditions.collector.fields as f64,
            dry_share: 1.0,
            density_kg_m3: 1.0,
        };
        layer.adopt(conditions, field);
        layer
    }

    /// From now on as these conditions say; the dust stays.
    pub(super) fn adopt(&mut self, conditions: &Conditions, field: usize) {
        self.density_kg_m3 = conditions.dust.layer_density_kg_m3;
        self.dry_share = match conditions.collector.kind {
            Kind::Dry => 1.0,
            Kind::Wet => conditions.defects[field].dry_share,
        };
    }

    pub(super) fn dry_share(&self) -> f64 {
        self.dry_share
    }

    pub(super) fn total_kg(&self) -> f64 {
        let groups = self.groups.iter();
        groups.map(|group| group.total_kg(&self.arrived)).sum()
    }

    /// Mean thickness over all plates of the field, m.
    pub(super) fn thickness_m(&self) -> Result<f64, PhysicsError> {
        growth::thickness_m(self.total_kg(), self.area_m2, self.density_kg_m3)
    }

    /// Mean thickness over the plates of one group, m.
    pub(super) fn group_m(&self, group: usize) -> Result<f64, PhysicsError> {
        let lies = &self.groups[group];
        let places = (0..SEGMENTS).map(|place| self.at_m(lies.segment_kg(&self.arrived, place), 1));
        Ok(places.sum::<Result<f64, _>>()? / SEGMENTS as f64)
    }

    /// Thickness at every place along and over the height, mean of the groups, m.
    pub(super) fn map_m(&self) -> Result<[f64; SEGMENTS], PhysicsError> {
        let mut map_m = [0.0; SEGMENTS];
        for (place, thickness_m) in map_m.iter_mut().enumerate() {
            let groups = self.groups.iter();
            let kg: f64 = groups
                .map(|group| group.segment_kg(&self.arrived, place))
                .sum();
            *thickness_m = self.at_m(kg, self.groups.len())?;
        }
        Ok(map_m)
    }

    /// Thickness at the one place of all groups where it is thickest, m.
    pub(super) fn thickest_m(&self) -> Result<f64, PhysicsError> {
        let groups = self.groups.iter();
        let places = groups
            .flat_map(|group| (0..SEGMENTS).map(|place| group.segment_kg(&self.arrived, place)));
        self.at_m(places.fold(0.0, f64::max), 1)
    }

    /// Thickness of a mass on the same segment of so many groups, m.
    fn at_m(&self, kg: f64, groups: usize) -> Result<f64, PhysicsError> {
        let share = groups as f64 / (self.groups.len() * SEGMENTS) as f64;
        if kg > 0.0 {
            // Plates that water has reached again keep what had dried on them: the last patch stands for its size.
            let patch = if self.dry_share > 0.0 {
                self.dry_share
            } else {
                1.0
            };
            growth::thickness_m(kg, share * patch * self.area_m2, self.density_kg_m3)
        } else {
            Ok(0.0)
        }
    }

    /// A layer of this thickness everywhere, of dust of this make-up; returns its mass, kg.
    pub(super) fn lay_evenly(&mut self, makeup: &[f64], thickness_m: f64) -> f64 {
        let mass_kg = thickness_m * self.dry_share * self.area_m2 * self.density_kg_m3;
        self.add(makeup, &[1.0 / SEGMENTS as f64; SEGMENTS], mass_kg)
    }

    /// Lays down these shares of a mass; returns how much that is, kg.
    pub(super) fn add(&mut self, caught: &[f64], places: &[f64; SEGMENTS], mass_kg: f64) -> f64 {
        let arrived_kg = caught.iter().sum::<f64>() * mass_kg;
        let of_group = 1.0 / self.groups.len() as f64;
        for (kg, share) in self.arrived.kg.iter_mut().zip(caught) {
            *kg += share * mass_kg * of_group;
        }
        for (kg, share) in self.arrived.segments_kg.iter_mut().zip(places) {
            *kg += share * arrived_kg * of_group;
        }
        arrived_kg
    }

    /// A blow on one group: thick places come off more easily, thin ones return more of what comes off.
    pub(super) fn strike(
        &mut self,
        group: usize,
        acceleration_m_s2: f64,
        conditions: &Conditions,
    ) -> Result<Blow, PhysicsError> {
        let lying_kg = self.groups[group].total_kg(&self.arrived);
        let (mut off_kg, mut back_kg) = (0.0, 0.0);
        for place in 0..SEGMENTS {
            let kg = self.groups[group].segment_kg(&self.arrived, place);
            let thickness_m = self.at_m(kg, 1)?;
            let removed =
                rapping::removed_share(acceleration_m_s2, thickness_m, self.density_kg_m3)?;
            off_kg += removed * kg;
            back_kg += removed * kg * returned(conditions, thickness_m)?;
            self.groups[group].left.segments_kg[place] = (1.0 - removed) * kg;
        }
        let over = |part: f64, whole: f64| if whole > 0.0 { part / whole } else { 0.0 };
        let struck = &mut self.groups[group];
        let kg = take(struck, &self.arrived.kg, over(off_kg, lying_kg));
        struck.arrived.clone_from(&self.arrived);
        Ok(Blow {
            kg,
            returned: over(back_kg, off_kg),
        })
    }
}

/// Takes a share of every size class off a group, kg.
fn take(group: &mut Group, arrived_kg: &[f64], share: f64) -> Vec<f64> {
    let arrivals = arrived_kg.iter().zip(&group.arrived.kg);
    let classes = group.left.kg.iter_mut().zip(arrivals);
    classes
        .map(|(left_kg, (now_kg, then_kg))| {
            let lies_kg = *left_kg + (now_kg - then_kg);
            *left_kg = (1.0 - share) * lies_kg;
            share * lies_kg
        })
        .collect()
}

/// Share of what comes off a layer of this thickness that goes back into the gas, what is swept out of the hoppers included.
pub(super) fn returned(conditions: &Conditions, thickness_m: f64) -> Result<f64, PhysicsError> {
    let sheets = conditions.returned_share();
    match conditions.teaching.thin_layer_m {
        Some(thin_m) => rapping::returned_share(thickness_m, sheets, thin_m),
        None => Ok(sheets),
    }
}

/// The map as rows of the height, the roof first, each along the gas.
pub(super) fn rows_m(map_m: &[f64; SEGMENTS]) -> Vec<Vec<f64>> {
    (0..SEGMENTS_HIGH)
        .map(|row| {
            map_m
                .iter()
                .skip(row)
                .step_by(SEGMENTS_HIGH)
                .copied()
                .collect()
        })
        .collect()
}
