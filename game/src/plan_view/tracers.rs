//! Marks that move with the gas and its gusts, so that the flow can be seen; they carry no dust and book nothing.

use bevy::prelude::*;

use crate::{flight::Flight, schedule::FrameStage};

/// Marks in the whole passage, per metre of its length.
const PER_M: f32 = 9.0;

/// Adds the tracers.
pub(super) fn plugin(app: &mut App) {
    app.init_resource::<Tracers>()
        .add_systems(Update, drift.before(FrameStage::Draw));
}

/// Places of the marks.
#[derive(Resource, Debug, Default)]
pub(crate) struct Tracers {
    places_m: Vec<Vec2>,
    /// Flight time that they stand at, s.
    time_s: f64,
    /// State of a small generator; the pattern only has to look even.
    state: u32,
}

impl Tracers {
    /// Distance along and across of every mark, m.
    pub(super) fn places(&self) -> impl Iterator<Item = (f32, f32)> {
        self.places_m.iter().map(|place| (place.x, place.y))
    }

    /// A number in 0 to 1 (Numerical Recipes' quick generator).
    fn unit(&mut self) -> f32 {
        self.state = self
            .state
            .wrapping_mul(1_664_525)
            .wrapping_add(1_013_904_223);
        (self.state >> 8) as f32 / 16_777_216.0
    }
}

fn drift(flight: Res<Flight>, mut tracers: ResMut<Tracers>) {
    let frame = flight.frame();
    let conditions = frame.conditions();
    let (length_m, gap_m) = (conditions.length_m() as f32, conditions.gap_m() as f32);
    let wanted = (PER_M * length_m) as usize;
    while tracers.places_m.len() < wanted {
        let place = Vec2::new(
            tracers.unit() * length_m,
            (2.0 * tracers.unit() - 1.0) * gap_m,
        );
        tracers.places_m.push(place);
    }
    tracers.places_m.truncate(wanted);
    let time_s = (frame.time_s() - tracers.time_s).clamp(0.0, 0.2) as f32;
    tracers.time_s = frame.time_s();
    let velocity_m_s = conditions.gas_velocity_m_s() as f32;
    for index in 0..wanted {
        let mut place = tracers.places_m[index];
        let (along, across) = frame.gust_m_s(place.x, place.y).unwrap_or_default();
        place += time_s * Vec2::new(velocity_m_s + along, across);
        if place.x > length_m {
            place = Vec2::new(place.x % length_m, (2.0 * tracers.unit() - 1.0) * gap_m);
        }
        place.y = place.y.clamp(-gap_m, gap_m);
        tracers.places_m[index] = place;
    }
}
