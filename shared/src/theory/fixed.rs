//! The solver where every grain has the same drift: formulas where nothing is lost, else field by field.
//!
//! Two dusts are followed, the fresh and the returned, because only their sizes differ.

use super::{Airborne, across::Across, grains::Grains, lanes::lanes};
use crate::{
    conditions::Conditions,
    count::STATIONS_PER_FIELD,
    physics::{
        PhysicsError,
        efficiency::{
            finite_mixing::peclet_number,
            penetration,
            velocity_spread::{self, Lane},
        },
    },
    simulation::{Passage, Stirring},
};

/// Steps per station of the march.
const STEPS: usize = 16;

/// Airborne mass along the collector and by class at its end.
pub(super) fn airborne(
    conditions: &Conditions,
    passage: &Passage,
    grains: &Grains,
) -> Result<Airborne, PhysicsError> {
    if let Some(total) = without_losses(conditions, passage)? {
        let last = total.last().copied().unwrap_or(1.0);
        return Ok(Airborne {
            total,
            by_class: vec![last; grains.classes],
        });
    }
    let stations = passage.stages.len() * STATIONS_PER_FIELD;
    let mut total = vec![0.0; stations + 1];
    let (mut fresh, mut returned) = (0.0, 0.0);
    for lane in lanes(passage.velocity_spread)? {
        let mut march = March::new(conditions, passage, &lane)?;
        let along = march.run()?;
        for (sum, share) in total.iter_mut().zip(along) {
            *sum += lane.gas_share * share;
        }
        fresh += lane.gas_share * march.fresh.share();
        returned += lane.gas_share * march.returned.share();
    }
    Ok(Airborne {
        total,
        by_class: by_class(grains, fresh, returned),
    })
}

/// Dust that left in each class over dust that entered in it.
fn by_class(grains: &Grains, fresh: f64, returned: f64) -> Vec<f64> {
    let mut left = vec![0.0; grains.classes];
    for grain in &grains.list {
        left[grain.class] += fresh * grain.inlet + returned * grain.returned;
    }
    for (left, inlet) in left.iter_mut().zip(grains.inlet_by_class()) {
        *left = if inlet > 0.0 { *left / inlet } else { 0.0 };
    }
    left
}

/// The exact solution at every station, where it applies: one drift throughout, no losses, plug flow or a case that does
/// not depend on the profile.
fn without_losses(
    conditions: &Conditions,
    passage: &Passage,
) -> Result<Option<Vec<f64>>, PhysicsError> {
    let drift_m_s = passage.stage(0).fixed_drift_m_s;
    let uniform = passage
        .stages
        .iter()
        .all(|stage| stage.fixed_drift_m_s == drift_m_s);
    let diffusive = matches!(passage.stirring, Stirring::Diffusive { .. });
    if passage.sneakage > 0.0
        || passage.reentrained > 0.0
        || !uniform
        || (diffusive && passage.parabolic)
        || passage.gusts.is_some()
    {
        return Ok(None);
    }
    let peclet = match passage.stirring {
        Stirring::Full => 0.0,
        Stirring::None => f64::INFINITY,
        Stirring::Diffusive { .. } => peclet_number(
            drift_m_s,
            conditions.gap_m(),
            passage.total_diffusivity_m2_s(),
        ),
    };
    let stations = passage.stages.len() * STATIONS_PER_FIELD;
    let deutsch = drift_m_s * conditions.specific_collection_area_s_m();
    let lanes = velocity_spread::lanes(passage.velocity_spread)?;
    let mut total = vec![1.0];
    for station in 1..=stations {
        let here = deutsch * station as f64 / stations as f64;
        let mut escaped = 0.0;
        for lane in &lanes {
            escaped += lane.gas_share * penetration(peclet, here / lane.relative_velocity)?;
        }
        total.push(escaped);
    }
    Ok(Some(total))
}

/// One lane of gas on its way.
struct March<'a> {
    conditions: &'a Conditions,
    passage: &'a Passage,
    velocity_m_s: f64,
    fresh: Across,
    returned: Across,
}

impl<'a> March<'a> {
    fn new(
        conditions: &'a Conditions,
        passage: &'a Passage,
        lane: &Lane,
    ) -> Result<Self, PhysicsError> {
        Ok(Self {
            conditions,
            passage,
            velocity_m_s: lane.relative_velocity * passage.face_velocity_m_s,
            fresh: Across::new(conditions, passage, 1.0)?,
            returned: Across::new(conditions, passage, 0.0)?,
        })
    }

    /// Airborne share at every station.
    fn run(&mut self) -> Result<Vec<f64>, PhysicsError> {
        let mut along = vec![1.0];
        for field in 0..self.passage.stages.len() {
            let mut stations = vec![0.0; STATIONS_PER_FIELD];
            let caught = self.pass_field(field, true, &mut stations)?
                + self.pass_field(field, false, &mut stations)?;
            let back = self.passage.reentrained * caught;
            self.returned.add_evenly(back);
            if let Some(last) = stations.last_mut() {
                *last += back;
            }
            along.append(&mut stations);
        }
        Ok(along)
    }

    /// Takes one of the two dusts through a field; returns what was caught.
    fn pass_field(
        &mut self,
        field: usize,
        fresh: bool,
        stations: &mut [f64],
    ) -> Result<f64, PhysicsError> {
        let steps = if matches!(self.fresh, Across::Sheets(_)) {
            STEPS
        } else {
            1
        };
        let time_s = self.conditions.collector.field_length_m
            / self.velocity_m_s
            / (STATIONS_PER_FIELD * steps) as f64;
        let gap_m = self.conditions.gap_m();
        let deutsch = self.passage.stages[field].fixed_drift_m_s * time_s / gap_m;
        let dust = if fresh {
            &mut self.fresh
        } else {
            &mut self.returned
        };
        let entering = dust.share();
        let bypass = self.passage.sneakage * entering;
        dust.scale(1.0 - self.passage.sneakage);
        for station in stations.iter_mut() {
            for _ in 0..steps {
                dust.drift(deutsch, time_s)?;
            }
            *station += bypass + dust.share();
        }
        let caught = entering - bypass - dust.share();
        dust.add_evenly(bypass);
        Ok(caught)
    }
}
