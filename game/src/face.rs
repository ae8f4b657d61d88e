//! The gas over the face of the fields, as a traverse would read it: made anew when the conditions change.

use ashlane_panels::charts::{FaceView, row_means};
use ashlane_shared::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        gas_path::uniformity::{Uniformity, uniformity},
    },
    simulation::{face_velocities, readings_m_s},
    units::UnitSystem,
};
use bevy::prelude::*;

use crate::{flight::Flight, session::Session};

/// Readings up and across the face, and the seed of its pattern.
pub(crate) const GRID: (usize, usize) = (10, 20);
const SEED: u64 = 1;

/// Adds the system that makes the face.
pub(crate) fn plugin(app: &mut App) {
    app.init_resource::<Face>().add_systems(Update, prepare);
}

/// The present face.
#[derive(Resource, Debug, Default)]
pub(crate) struct Face {
    of: Option<u64>,
    read: Option<Read>,
}

#[derive(Debug)]
struct Read {
    readings_m_s: Vec<f64>,
    /// Means of the rows of the height, the roof first.
    rows_m_s: Vec<f64>,
    uniformity: Uniformity,
    flow_m3_s: f64,
    face_m2: f64,
}

impl Face {
    /// The face under these conditions, for pictures.
    ///
    /// # Errors
    /// A formula refused the conditions.
    pub(crate) fn new(conditions: &Conditions) -> Result<Self, PhysicsError> {
        Ok(Self {
            of: None,
            read: Some(read(conditions)?),
        })
    }

    /// Mean velocity by rows of the height, the roof first, m/s; nothing before it has been worked out.
    pub(crate) fn rows_m_s(&self) -> &[f64] {
        self.read.as_ref().map_or(&[], |read| &read.rows_m_s)
    }

    /// As the panels draw it.
    pub(crate) fn view(&self, units: UnitSystem) -> Option<FaceView<'_>> {
        self.read.as_ref().map(|read| FaceView {
            readings_m_s: &read.readings_m_s,
            uniformity: read.uniformity,
            flow_m3_s: read.flow_m3_s,
            face_m2: read.face_m2,
            units,
        })
    }
}

fn read(conditions: &Conditions) -> Result<Read, PhysicsError> {
    let pattern = face_velocities(SEED, conditions.gas.velocity_spread, GRID.0, GRID.1)?;
    let readings_m_s = readings_m_s(&pattern, conditions.gas_velocity_m_s())?;
    let collector = &conditions.collector;
    Ok(Read {
        uniformity: uniformity(&readings_m_s)?,
        rows_m_s: row_means(&readings_m_s, GRID.1),
        readings_m_s,
        flow_m3_s: conditions.gas.flow_m3_s,
        face_m2: collector.passages as f64 * collector.plate_spacing_m * collector.plate_height_m,
    })
}

fn prepare(flight: Res<Flight>, mut session: ResMut<Session>, mut face: ResMut<Face>) {
    let generation = flight.generation();
    if face.of == Some(generation) {
        return;
    }
    face.of = Some(generation);
    face.read = match read(flight.conditions()) {
        Ok(read) => Some(read),
        Err(error) => {
            session.complain(format!("Gas over the face: {error}"));
            None
        }
    };
}
