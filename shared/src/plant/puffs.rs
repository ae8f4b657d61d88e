//! How dark the puffs of the rappers look in the stack.

use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError, rapping,
        stack::{grain_extinction, mass_extinction_m2_kg, opacity},
    },
};

/// Light of the opacity monitor, m: green, where the eye is keenest; common practice, no source.
pub const WAVELENGTH_M: f64 = 550e-9;
/// Refractive index of fly ash; common practice, no source.
pub const REFRACTIVE_INDEX: f64 = 1.5;
/// Width of the stack where the monitor looks across, m. Teaching value, no source.
pub const STACK_M: f64 = 5.0;

/// The monitor in the stack, and the puffs that it saw.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Puffs {
    /// Extinction of each size class, m²/kg.
    extinction_m2_kg: Vec<f64>,
    flow_m3_s: f64,
    /// How long one puff lasts, s.
    pub(super) duration_s: f64,
    /// Puffs that may still pass: when they began, s, and what they take off the light, 1/m.
    passing: Vec<(f64, f64)>,
    /// The darkest moment since the last reading: when, s, and how dark, 1/m.
    darkest: Option<(f64, f64)>,
}

impl Puffs {
    pub(super) fn new(conditions: &Conditions, diameters_m: &[f64]) -> Result<Self, PhysicsError> {
        let density_kg_m3 = conditions.dust.density_kg_m3;
        let extinction = |diameter_m: &f64| {
            let extinction = grain_extinction(*diameter_m, WAVELENGTH_M, REFRACTIVE_INDEX)?;
            mass_extinction_m2_kg(*diameter_m, density_kg_m3, extinction)
        };
        Ok(Self {
            extinction_m2_kg: diameters_m
                .iter()
                .map(extinction)
                .collect::<Result<_, _>>()?,
            flow_m3_s: conditions.gas.flow_m3_s,
            duration_s: rapping::puff_duration_s(
                conditions.collector.plate_height_m,
                conditions.collector.field_length_m,
                conditions.gas_velocity_m_s(),
            )?,
            passing: Vec::new(),
            darkest: None,
        })
    }

    /// From now on in this gas; what passes goes on passing.
    pub(super) fn adopt(
        &mut self,
        conditions: &Conditions,
        diameters_m: &[f64],
    ) -> Result<(), PhysicsError> {
        let before = std::mem::replace(self, Self::new(conditions, diameters_m)?);
        self.passing = before.passing;
        self.darkest = before.darkest;
        Ok(())
    }

    /// A blow sent dust out: so much by size class, kg, on top of what leaves all the time, kg/s. Puffs that pass at
    /// the same time add up; the ways from the fields to the stack are taken as equally long.
    pub(super) fn add(&mut self, time_s: f64, puff_kg: &[f64], steady_kg_s: &[f64]) {
        let duration_s = self.duration_s;
        self.passing
            .retain(|(began_s, _)| time_s - began_s < duration_s);
        let puff = self.light_m(puff_kg) / (duration_s * self.flow_m3_s);
        self.passing.push((time_s, puff));
        let steady = self.light_m(steady_kg_s) / self.flow_m3_s;
        let now = steady + self.passing.iter().map(|(_, puff)| puff).sum::<f64>();
        if self.darkest.is_none_or(|(_, dark)| now > dark) {
            self.darkest = Some((time_s, now));
        }
    }

    /// Opacity of a load by size class, kg/m³.
    pub(super) fn opacity(&self, load_kg_m3: &[f64]) -> Result<f64, PhysicsError> {
        opacity(1.0, self.light_m(load_kg_m3), STACK_M)
    }

    /// Opacity of the darkest moment since the last reading and when it was, s; nothing without a blow.
    pub(super) fn darkest(&self) -> Result<Option<(f64, f64)>, PhysicsError> {
        self.darkest
            .map(|(at_s, dark)| Ok((at_s, opacity(1.0, dark, STACK_M)?)))
            .transpose()
    }

    /// Forgets what was read.
    pub(super) fn was_read(&mut self) {
        self.darkest = None;
    }

    /// Light that masses by size class take away together: of kg/m³ it is 1/m.
    fn light_m(&self, masses: &[f64]) -> f64 {
        let each = self.extinction_m2_kg.iter().zip(masses);
        each.map(|(extinction, mass)| extinction * mass).sum()
    }
}
