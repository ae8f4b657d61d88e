//! One row of hoppers under a field: how full it is, when it is emptied, and when its ash stands in the field.

use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        hopper::{Hopper, fill_time_s, heap_volume_m3},
    },
};

/// Side of the outlet over the side of the top. Teaching value, no source.
pub const OUTLET_SHARE: f64 = 0.1;
/// Level of the alarm as a share of the height. Teaching value, no source: the site's own probe is where it is.
pub const ALARM_LEVEL: f64 = 0.8;
/// Room between the top of the hoppers and the frame of the wires, m. Teaching value, no source.
pub const ROOM_M: f64 = 1.0;
/// Slope of a heap of ash at rest, degrees: middle of 35 to 45; common practice, no source.
const REPOSE_DEGREES: f64 = 40.0;

/// A row of hoppers.
#[derive(Clone, Debug)]
pub(super) struct HopperRow {
    /// Ash in the row by size class, kg.
    kg: Vec<f64>,
    /// Ash that came in since the start, kg.
    pub(super) fallen_kg: f64,
    /// When it is emptied next, s.
    pub(super) next_emptying_s: f64,
    interval_s: f64,
    density_kg_m3: f64,
    hopper: Hopper,
    /// What ash over the brim fills.
    room: Room,
}

/// The room between the brim of a row and the frame of the wires: a heap under its middle grows until its foot is as wide as
/// the row, then the ash rises as a whole.
#[derive(Clone, Copy, Debug)]
struct Room {
    /// Largest foot of the heap, m.
    foot_m: f64,
    /// Its volume, m³.
    heap_m3: f64,
    area_m2: f64,
}

impl HopperRow {
    /// The row as one hopper as long as its field and as wide as the collector.
    pub(super) fn new(
        conditions: &Conditions,
        field: usize,
        classes: usize,
    ) -> Result<Self, PhysicsError> {
        let collector = &conditions.collector;
        let length_m = collector.field_length_m;
        let width_m = collector.passages as f64 * collector.plate_spacing_m;
        let interval_s = conditions.hoppers.evacuation_interval_s[field];
        Ok(Self {
            kg: vec![0.0; classes],
            fallen_kg: 0.0,
            next_emptying_s: interval_s,
            interval_s,
            density_kg_m3: conditions.hoppers.ash_density_kg_m3,
            hopper: Hopper::of_volume(
                conditions.hoppers.volume_m3,
                (length_m, width_m),
                (OUTLET_SHARE * length_m, OUTLET_SHARE * width_m),
            )?,
            room: Room::new(length_m, width_m)?,
        })
    }

    /// From now on as these conditions say; ash and due emptying stay.
    pub(super) fn adopt(
        &mut self,
        conditions: &Conditions,
        field: usize,
    ) -> Result<(), PhysicsError> {
        let other = Self::new(conditions, field, self.kg.len())?;
        let (kg, next_emptying_s) = (std::mem::take(&mut self.kg), self.next_emptying_s);
        *self = Self {
            kg,
            fallen_kg: self.fallen_kg,
            next_emptying_s,
            ..other
        };
        Ok(())
    }

    pub(super) fn total_kg(&self) -> f64 {
        self.kg.iter().sum()
    }

    /// Ash comes in: a share of these masses; returns how much, kg.
    pub(super) fn add(&mut self, kg: &[f64], share: f64) -> f64 {
        let mut sum_kg = 0.0;
        for (held_kg, more_kg) in self.kg.iter_mut().zip(kg) {
            *held_kg += share * more_kg;
            sum_kg += share * more_kg;
        }
        self.fallen_kg += sum_kg;
        sum_kg
    }

    /// Takes away all that does not bridge over the outlets, kg by size class.
    pub(super) fn empty(&mut self, bridged: f64) -> Vec<f64> {
        self.next_emptying_s += self.interval_s;
        let taken = self.kg.iter_mut().map(|kg| {
            let stays = bridged * *kg;
            std::mem::replace(kg, stays) - stays
        });
        taken.collect()
    }

    /// Share of the volume that is full; above 1 the ash stands over the brim.
    pub(super) fn filled(&self) -> f64 {
        self.volume_m3() / self.hopper.volume_m3()
    }

    /// Depth from brim to outlet, m.
    pub(super) fn height_m(&self) -> f64 {
        self.hopper.height_m()
    }

    /// Level as a share of the height, 1 where it is full and more.
    pub(super) fn level(&self) -> Result<f64, PhysicsError> {
        let volume_m3 = self.volume_m3().min(self.hopper.volume_m3());
        Ok(self.hopper.level_m(volume_m3)? / self.hopper.height_m())
    }

    /// Time until the level alarm at this rate, s, if nobody empties the row; 0 once it is there.
    pub(super) fn until_alarm_s(&self, rate_kg_s: f64) -> Result<f64, PhysicsError> {
        let missing_m3 = self.alarm_m3()? - self.volume_m3();
        fill_time_s(missing_m3.max(0.0), self.density_kg_m3, rate_kg_s)
    }

    /// Whether the level alarm is on.
    pub(super) fn is_alarmed(&self) -> Result<bool, PhysicsError> {
        Ok(self.volume_m3() >= self.alarm_m3()?)
    }

    /// Clear height between the ash and the frame of the wires, m; 0 where the frame stands in it.
    pub(super) fn below_frame_m(&self) -> f64 {
        let over_m3 = self.volume_m3() - self.hopper.volume_m3();
        (ROOM_M - self.room.height_m(over_m3)).max(0.0)
    }

    fn volume_m3(&self) -> f64 {
        self.total_kg() / self.density_kg_m3
    }

    fn alarm_m3(&self) -> Result<f64, PhysicsError> {
        self.hopper
            .volume_below_m3(ALARM_LEVEL * self.hopper.height_m())
    }
}

impl Room {
    fn new(length_m: f64, width_m: f64) -> Result<Self, PhysicsError> {
        let slope = REPOSE_DEGREES.to_radians();
        let foot_m = (ROOM_M / slope.tan()).min(0.5 * length_m.min(width_m));
        Ok(Self {
            foot_m,
            heap_m3: heap_volume_m3(foot_m, slope)?,
            area_m2: length_m * width_m,
        })
    }

    /// How high so much ash stands over the brim, m: a heap grows by its cube, a bed evenly.
    fn height_m(&self, over_m3: f64) -> f64 {
        let full_m = self.foot_m * REPOSE_DEGREES.to_radians().tan();
        if over_m3 < self.heap_m3 {
            full_m * (over_m3.max(0.0) / self.heap_m3).cbrt()
        } else {
            full_m + (over_m3 - self.heap_m3) / self.area_m2
        }
    }
}
