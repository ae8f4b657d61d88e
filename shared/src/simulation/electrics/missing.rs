//! A field whose set has lost half of its rectifier: the control leaves the firing angle where it stood.

use super::{ripple::amperes_per_a_m, set::Set};
use crate::physics::{
    PhysicsError,
    corona::solver::CoronaSolution,
    energization::{FieldLoad, waveform_where, without_every_second},
};

/// What such a set gives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Missing {
    /// Mean voltage of the gap, V.
    pub(super) gap_v: f64,
    /// Mean current of the set over that of the field at this voltage.
    pub(super) current_share: f64,
}

impl Set {
    /// What is left with the dust that is in the solver: the firing angle is that of the voltage at which the sound set
    /// would stand, and of `share` of all second half cycles nothing comes.
    pub(super) fn missing(
        &mut self,
        share: f64,
        near: &CoronaSolution,
    ) -> Result<Option<Missing>, PhysicsError> {
        let wanted_v = (self.supply.wanted_v - self.drop_at_spark_v).min(self.strongest_v());
        let limit_a_m = self.limit_a_m / self.ripple.current_share;
        let sound = self
            .solver
            .at_voltage_from(wanted_v, Some(near))
            .ok()
            .filter(|sound| sound.current_a_m <= limit_a_m);
        let sound = match sound {
            Some(sound) => sound,
            None => self.solver.at_current_from(limit_a_m, Some(near))?,
        };
        if sound.current_a_m <= 0.0 {
            return Ok(None);
        }
        let per_a_m = amperes_per_a_m(&self.supply, self.solver.geometry());
        let curve = super::ripple::curve_near(&mut self.solver, &sound, per_a_m)?;
        let load = FieldLoad::new(self.supply.capacitance_f, curve)?;
        let set = &self.supply.set;
        let whole = waveform_where(
            set,
            &load,
            sound.voltage_v,
            |cycle| cycle.mean_voltage_v,
            None,
        )?;
        let (half_v, half_a) =
            without_every_second(set, &load, whole.firing_angle_rad, sound.voltage_v)?;
        let gap_v = sound.voltage_v + share * (half_v - sound.voltage_v);
        let mean_a = whole.mean_current_a + share * (half_a - whole.mean_current_a);
        let there = self.solver.at_voltage_from(gap_v, Some(&sound))?;
        Ok((there.current_a_m > 0.0).then(|| Missing {
            gap_v,
            current_share: mean_a / (there.current_a_m * per_a_m),
        }))
    }
}
