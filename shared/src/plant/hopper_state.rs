//! The rows of hoppers as somebody would see them who looks inside at this moment.

use super::{Plant, reading::falling_kg_s};
use crate::physics::PhysicsError;

/// One row of hoppers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HopperState {
    /// Ash in it, kg.
    pub ash_kg: f64,
    /// Depth from brim to outlet, m.
    pub height_m: f64,
    /// Height of the ash over the outlet as a share of the depth, at most 1.
    pub level: f64,
    /// Share of the volume that is full; above 1 the ash stands over the brim.
    pub filled: f64,
    /// Whether the level alarm is on.
    pub alarm: bool,
    /// Time until it is, at the rate at which ash falls in the long run and if nobody empties the row, s; nothing where no
    /// rates have been counted.
    pub until_alarm_s: Option<f64>,
}

impl Plant {
    /// The rows of hoppers, that of the first field first.
    ///
    /// # Errors
    /// A formula refused the state.
    pub fn hoppers(&self) -> Result<Vec<HopperState>, PhysicsError> {
        let state = |(field, row): (usize, &super::HopperRow)| {
            let falling_kg_s = falling_kg_s(self, field);
            let until_alarm_s = row.until_alarm_s(falling_kg_s)?;
            Ok(HopperState {
                ash_kg: row.total_kg(),
                height_m: row.height_m(),
                level: row.level()?,
                filled: row.filled(),
                alarm: row.is_alarmed()?,
                until_alarm_s: (falling_kg_s > 0.0).then_some(until_alarm_s),
            })
        };
        self.rows.iter().enumerate().map(state).collect()
    }

    /// Ash that fell into each row of hoppers since the start, kg, what was taken away included.
    #[must_use]
    pub fn fallen_kg(&self) -> Vec<f64> {
        self.rows.iter().map(|row| row.fallen_kg).collect()
    }
}
