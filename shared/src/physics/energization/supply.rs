//! The two sorts of set that a control can drive, behind one question: what does the field do in the next half cycle?

use std::f64::consts::PI;

use super::half_cycle::{Order, State, run};
use super::high_frequency::SmoothOrder;
use super::sums::Sums;
use super::{FieldLoad, HighFrequencySet, TransformerRectifier, Waveform};
use crate::physics::PhysicsError;

/// Steps of a half cycle under control; the exact waveform takes four times as many.
const STEPS: u32 = 100;
/// Firing angles at which the steady mean voltage is known beforehand.
const ANGLES: u32 = 32;

/// What feeds the field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Supply {
    /// Single-phase transformer-rectifier with thyristors.
    SinglePhase(TransformerRectifier),
    /// High-frequency set without ripple.
    HighFrequency(HighFrequencySet),
}

/// A supply on its field, ready to run.
#[derive(Clone, Debug)]
pub(super) struct Feed {
    supply: Supply,
    load: FieldLoad,
    highest_v: f64,
    /// (steady mean voltage V, firing angle rad), voltages rising.
    angles: Vec<(f64, f64)>,
}

/// What the control asks of one half cycle.
#[derive(Clone, Copy, Debug)]
pub(super) struct Demand {
    /// Wanted mean voltage at start and end, V; `None` while blocked.
    pub(super) wanted_v: Option<(f64, f64)>,
    /// Voltage at which the gap sparks now, V.
    pub(super) strength_v: f64,
    /// The gap is still shorted by the last spark.
    pub(super) shorted: bool,
}

impl Feed {
    pub(super) fn new(supply: Supply, load: FieldLoad) -> Result<Self, PhysicsError> {
        let (highest_v, angles) = match supply {
            Supply::SinglePhase(set) => {
                let angles = steady_angles(&set, &load)?;
                (angles.last().map_or(0.0, |last| last.0), angles)
            }
            Supply::HighFrequency(set) => (set.checked()?.highest_v(load.curve()), Vec::new()),
        };
        Ok(Self {
            supply,
            load,
            highest_v,
            angles,
        })
    }

    /// Highest steady mean voltage, V.
    pub(super) fn highest_v(&self) -> f64 {
        self.highest_v
    }

    pub(super) fn half_cycle_s(&self) -> f64 {
        match self.supply {
            Supply::SinglePhase(set) => set.half_cycle_s(),
            Supply::HighFrequency(set) => 1.0 / set.control_hz,
        }
    }

    /// Runs one half cycle; true if the gap sparked.
    pub(super) fn half_cycle(&self, start: State, demand: Demand) -> (State, Sums, bool) {
        match &self.supply {
            Supply::SinglePhase(set) => {
                let order = Order {
                    firing_angle_rad: demand.wanted_v.map_or(PI, |(_, last_v)| self.angle(last_v)),
                    strength_v: demand.strength_v,
                    shorted: demand.shorted,
                    steps: STEPS,
                };
                let (end, cycle) = run(set, &self.load, start, order, |_, _| ());
                (end, cycle.sums, cycle.spark_at_s.is_some())
            }
            Supply::HighFrequency(set) => {
                let order = SmoothOrder {
                    wanted_v: demand.wanted_v,
                    strength_v: demand.strength_v,
                    shorted: demand.shorted,
                };
                set.run(&self.load, start, order)
            }
        }
    }

    /// Firing angle whose steady mean is this voltage, straight between the known ones.
    fn angle(&self, mean_v: f64) -> f64 {
        let upper = self.angles.partition_point(|known| known.0 <= mean_v);
        if upper == 0 || upper == self.angles.len() {
            return if upper == 0 {
                PI
            } else {
                self.angles[upper - 1].1
            };
        }
        let ((low_v, low_rad), (high_v, high_rad)) = (self.angles[upper - 1], self.angles[upper]);
        low_rad + (high_rad - low_rad) * (mean_v - low_v) / (high_v - low_v)
    }
}

/// Steady mean voltage at evenly spaced firing angles, from none of the half cycle to all of it.
fn steady_angles(
    set: &TransformerRectifier,
    load: &FieldLoad,
) -> Result<Vec<(f64, f64)>, PhysicsError> {
    let mut known: Vec<(f64, f64)> = Vec::with_capacity(ANGLES as usize + 1);
    for step in 0..=ANGLES {
        let angle_rad = PI * (1.0 - f64::from(step) / f64::from(ANGLES));
        let mean_v = Waveform::steady(set, load, angle_rad)?.mean_voltage_v;
        if known.last().is_none_or(|last| mean_v > last.0) {
            known.push((mean_v, angle_rad));
        }
    }
    Ok(known)
}
