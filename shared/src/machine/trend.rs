//! What the instruments of the plant showed: readings at even intervals, the oldest forgotten.

use crate::{
    physics::PhysicsError,
    plant::{Plant, PlantReading},
};

/// Time between two readings, s.
pub const TREND_EVERY_S: f64 = 600.0;
/// Readings that are kept: a week of them.
pub const TREND_READINGS: usize = 1009;

/// Readings, oldest first.
#[derive(Clone, Debug, Default)]
pub(super) struct Trend {
    readings: Vec<PlantReading>,
}

impl Trend {
    pub(super) fn readings(&self) -> &[PlantReading] {
        &self.readings
    }

    pub(super) fn forget(&mut self) {
        self.readings.clear();
    }

    /// When the next reading is due, s; at once where there is none.
    pub(super) fn next_s(&self) -> f64 {
        let last = self.readings.last();
        last.map_or(f64::NEG_INFINITY, |last| last.time_s + TREND_EVERY_S)
    }

    /// Reads the plant.
    pub(super) fn read(&mut self, plant: &mut Plant) -> Result<(), PhysicsError> {
        if self.readings.len() >= TREND_READINGS {
            drop(self.readings.remove(0));
        }
        self.readings.push(plant.reading()?);
        Ok(())
    }
}
