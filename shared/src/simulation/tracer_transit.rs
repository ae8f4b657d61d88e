//! Weightless tracers that are let into the gas and timed: how long the gas takes through the fields.

use super::{
    chunk::{Books, Chunk, Entry},
    parcels::Parcel,
    passage::{Motion, Passage},
    step::TIME_STEP_S,
};
use crate::{conditions::Conditions, physics::PhysicsError};

/// Tracers that are timed.
const TRACERS: u64 = 4096;
/// Longest time that is waited for the slowest of them, in mean transit times.
const LONGEST: f64 = 50.0;

/// Who writes the times down.
#[derive(Default)]
struct Stopwatch {
    now_s: f64,
    left: f64,
    sum_s: f64,
    sum_of_squares: f64,
}

impl Books for Stopwatch {
    fn entered(&mut self, _parcel: &Parcel) {}
    fn captured(&mut self, _parcel: &Parcel) {}
    fn returned(&mut self, _parcel: &Parcel) {}
    fn left(&mut self, parcel: &Parcel) {
        // What it flew beyond the edge in its last step was not part of the way.
        let beyond_m = parcel.along_m - parcel.edge_m;
        let time_s = self.now_s - f64::from((beyond_m / parcel.velocity_m_s).max(0.0));
        self.left += 1.0;
        self.sum_s += time_s;
        self.sum_of_squares += time_s * time_s;
    }
}

/// Mean time that tracers take from the face of the first field to the end of the last one, s, with its standard error.
///
/// They enter as the gas does, more of them where it is faster, and fly with the step of the simulation through gusts and
/// mixing; nothing pulls them to a plate.
///
/// # Arguments
/// * `seed` – of where they enter and how they are stirred.
///
/// # Source
/// The simulation's own step; counted.
///
/// # Validity
/// Tracers that are still on their way after 50 mean transit times are left out.
///
/// # Errors
/// A formula refused the conditions; or not one tracer came through.
pub fn tracer_transit_s(conditions: &Conditions, seed: u64) -> Result<(f64, f64), PhysicsError> {
    let passage = passage(conditions)?;
    let mut chunk = Chunk::new(seed, 0);
    let mut watch = Stopwatch::default();
    for _ in 0..TRACERS {
        let entry = Entry {
            owed_s: 0.0,
            mass_kg: 1.0,
            own_gusts: true,
        };
        chunk.inject(&passage, entry, &mut watch);
    }
    let most = (LONGEST * conditions.treatment_time_s() / TIME_STEP_S) as u64;
    let mut steps = 0_u64;
    while chunk.parcels.len() > 0 && steps < most {
        steps += 1;
        watch.now_s = steps as f64 * TIME_STEP_S;
        chunk.step(&passage, watch.now_s - TIME_STEP_S, &mut watch);
    }
    if watch.left < 2.0 {
        return Err(PhysicsError::Impossible {
            reason: "no tracer came through the fields".to_owned(),
        });
    }
    let mean_s = watch.sum_s / watch.left;
    let variance = (watch.sum_of_squares / watch.left - mean_s * mean_s).max(0.0);
    Ok((mean_s, (variance / (watch.left - 1.0)).sqrt()))
}

/// The passage without anything that catches or turns aside.
fn passage(conditions: &Conditions) -> Result<Passage, PhysicsError> {
    let mut uncharged = conditions.clone();
    // With one migration velocity no charge of dust is computed; it is then taken away.
    uncharged.teaching.migration_velocity_m_s = Some(1e-6);
    let mut passage = Passage::new(&uncharged)?;
    passage.motion = Motion::Fixed;
    for stage in &mut passage.stages {
        stage.fixed_drift_m_s = 0.0;
    }
    passage.sneakage = 0.0;
    passage.reentrained = 0.0;
    Ok(passage)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::conditions::demonstration;

    #[test]
    fn all_tracers_come_through_in_the_time_that_the_flow_fills_the_fields() {
        // Continuity: whatever the unevenness of the gas, the mean by flow is volume over flow.
        for spread in [0.0, 0.1, 0.25] {
            let mut conditions = demonstration();
            conditions.gas.velocity_spread = spread;
            let found = tracer_transit_s(&conditions, 3).expect("tracers");
            // training.md R1: 12 m at 1.20 m/s.
            let away_s = (found.0 - 10.0).abs();
            assert!(away_s < 0.02 + 4.0 * found.1, "{found:?}");
            assert_eq!(tracer_transit_s(&conditions, 3), Ok(found));
        }
    }
}
