//! What a voltage control is told: how it ramps, how long it waits after a spark, where it starts again, its limits.
//!
//! All defaults are teaching values, no source; nothing here is a setting recommendation.

use super::{SparkGap, sawtooth};
use crate::physics::PhysicsError;
use crate::physics::error::{not_negative, positive, require};

/// How fast the voltage rises between sparks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ramp {
    /// Always at the same rate.
    Constant {
        /// Rate of rise, V/s, above 0.
        rate_v_s: f64,
    },
    /// At the rate that brings the wanted number of sparks: a spark slows it, time without sparks quickens it.
    SparkRate {
        /// Wanted sparks per minute, above 0, below 60 over the quench time in s.
        sparks_per_min: f64,
    },
}

/// Which half cycles are let through: `on` of them, then `off` blocked ones, over and over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Energization {
    /// Half cycles on, 1 or more.
    pub on: u32,
    /// Half cycles off, 0 or more; 0 is continuous.
    pub off: u32,
}

impl Energization {
    /// Every half cycle.
    pub const CONTINUOUS: Self = Self { on: 1, off: 0 };
}

/// The settings of a voltage control.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ControllerSettings {
    /// Mean voltage from which the first ramp starts, V, 0 or more.
    pub start_voltage_v: f64,
    /// How fast the voltage rises.
    pub ramp: Ramp,
    /// How long the set is blocked after a spark, s, 0 or more; rounded to half cycles, at least one.
    pub quench_s: f64,
    /// Where the ramp starts again after a spark, as a share of the voltage at the spark, above 0 and below 1.
    pub restart_share: f64,
    /// How long the voltage takes from nothing to where the ramp starts again, s, 0 or more; 0 is as fast as the set can.
    pub recovery_s: f64,
    /// A spark during recovery, or within this many half cycles after it, is an arc.
    pub arc_window: u32,
    /// How long the set is blocked after an arc, s, 0 or more.
    pub arc_quench_s: f64,
    /// Where the ramp starts again after an arc, as [`Self::restart_share`].
    pub arc_restart_share: f64,
    /// Mean voltage at which the ramp stops, V, 0 or more; infinite for none.
    pub voltage_limit_v: f64,
    /// Mean current at which the ramp stops, A, above 0.
    pub current_limit_a: f64,
    /// Continuous or intermittent.
    pub energization: Energization,
}

impl ControllerSettings {
    /// Plausible settings for a gap and a current limit: teaching value, no source; nothing here is a setting
    /// recommendation.
    ///
    /// # Arguments
    /// * `gap` – the gap; the first ramp starts at six tenths of its spark voltage, and no voltage is too high.
    /// * `current_limit_a` – mean current at which the ramp stops, A, above 0.
    ///
    /// # Source
    /// Teaching value, no source.
    ///
    /// # Validity
    /// Teaching only.
    #[must_use]
    pub fn teaching(gap: &SparkGap, current_limit_a: f64) -> Self {
        Self {
            start_voltage_v: 0.6 * gap.middle_v(),
            ramp: Ramp::SparkRate {
                sparks_per_min: 20.0,
            },
            quench_s: 0.05,
            restart_share: 0.93,
            recovery_s: 0.05,
            arc_window: 1,
            arc_quench_s: 0.3,
            arc_restart_share: 0.75,
            voltage_limit_v: f64::INFINITY,
            current_limit_a,
            energization: Energization::CONTINUOUS,
        }
    }

    /// The settings themselves, if they are possible.
    ///
    /// # Source
    /// Ranges of the fields.
    ///
    /// # Validity
    /// Always.
    ///
    /// # Errors
    /// A number outside its range.
    pub fn checked(self) -> Result<Self, PhysicsError> {
        not_negative("start_voltage_v", self.start_voltage_v)?;
        not_negative("quench_s", self.quench_s)?;
        not_negative("arc_quench_s", self.arc_quench_s)?;
        not_negative("recovery_s", self.recovery_s)?;
        require(
            self.voltage_limit_v >= 0.0,
            "voltage_limit_v",
            self.voltage_limit_v,
            "0 or more",
        )?;
        positive("current_limit_a", self.current_limit_a)?;
        for (name, part) in [
            ("restart_share", self.restart_share),
            ("arc_restart_share", self.arc_restart_share),
        ] {
            require(part > 0.0 && part < 1.0, name, part, "above 0 and below 1")?;
        }
        require(
            self.energization.on > 0,
            "half cycles on",
            f64::from(self.energization.on),
            "1 or more",
        )?;
        self.first_ramp_v_s(1.0)?;
        Ok(self)
    }

    /// Rate of rise to begin with, V/s: the constant one, or the closed form's for a spark at this voltage.
    pub(super) fn first_ramp_v_s(&self, spark_voltage_v: f64) -> Result<f64, PhysicsError> {
        match self.ramp {
            Ramp::Constant { rate_v_s } => positive("rate_v_s", rate_v_s),
            Ramp::SparkRate { sparks_per_min } => sawtooth::ramp_for_v_s(
                (1.0 - self.restart_share) * spark_voltage_v,
                self.quench_s,
                sparks_per_min,
            ),
        }
    }
}
