//! One row of hoppers under a field: how full it is, and when it is emptied.

use crate::{
    conditions::Conditions,
    physics::{PhysicsError, hopper::Hopper},
};

/// Side of the outlet over the side of the top. Teaching value, no source.
const OUTLET_SHARE: f64 = 0.1;
/// Level of the alarm as a share of the height. Teaching value, no source: the site's own probe is where it is.
pub(super) const ALARM_LEVEL: f64 = 0.8;

/// A row of hoppers.
#[derive(Clone, Debug)]
pub(super) struct HopperRow {
    /// Ash in the row, kg.
    pub(super) kg: f64,
    /// When it is emptied next, s.
    pub(super) next_emptying_s: f64,
    interval_s: f64,
    density_kg_m3: f64,
    hopper: Hopper,
}

impl HopperRow {
    /// The row as one hopper as long as its field and as wide as the collector.
    pub(super) fn new(conditions: &Conditions, field: usize) -> Result<Self, PhysicsError> {
        let collector = &conditions.collector;
        let length_m = collector.field_length_m;
        let width_m = collector.passages as f64 * collector.plate_spacing_m;
        let interval_s = conditions.hoppers.evacuation_interval_s[field];
        Ok(Self {
            kg: 0.0,
            next_emptying_s: interval_s,
            interval_s,
            density_kg_m3: conditions.hoppers.ash_density_kg_m3,
            hopper: Hopper::of_volume(
                conditions.hoppers.volume_m3,
                (length_m, width_m),
                (OUTLET_SHARE * length_m, OUTLET_SHARE * width_m),
            )?,
        })
    }

    /// Takes everything away, kg.
    pub(super) fn empty(&mut self) -> f64 {
        self.next_emptying_s += self.interval_s;
        std::mem::take(&mut self.kg)
    }

    /// Share of the volume that is full; above 1 the ash stands in the field.
    pub(super) fn filled(&self) -> f64 {
        self.kg / self.density_kg_m3 / self.hopper.volume_m3()
    }

    /// Level as a share of the height, 1 where it is full and more.
    pub(super) fn level(&self) -> Result<f64, PhysicsError> {
        let volume_m3 = (self.kg / self.density_kg_m3).min(self.hopper.volume_m3());
        Ok(self.hopper.level_m(volume_m3)? / self.hopper.height_m())
    }

    /// Ash that is missing until the alarm, kg; nothing once it is there.
    pub(super) fn until_alarm_kg(&self) -> Result<f64, PhysicsError> {
        let alarm_m3 = self
            .hopper
            .volume_below_m3(ALARM_LEVEL * self.hopper.height_m())?;
        Ok((alarm_m3 * self.density_kg_m3 - self.kg).max(0.0))
    }
}
