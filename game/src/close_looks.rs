//! What the closer looks need besides the flight: worked out when the field changes, kept until it does again.

use ashlane_lessons::engine::CAUTIONS;
use ashlane_panels::{
    grain::GrainView,
    state::{Rung, UiState},
    wire::WireView,
};
use ashlane_shared::{
    checks::{GrainCurves, charge_check, grain_forces, speed_check},
    conditions::Conditions,
    physics::{
        PhysicsError,
        corona::{CoronaSolver, WireField, onset, solver::Fineness},
        gas,
    },
    simulation::{FieldState, Frame, corona, wire_row},
};
use bevy::prelude::*;

use crate::{flight::Flight, schedule::FrameStage, session::Session};

/// Current at which a solved field is as good as at onset, A/m: a millionth of the usual.
const ONSET_CURRENT_A_M: f64 = 1e-10;
/// The gas glows where the field is above this times its relative density, V/m. Source: Peek 1929 (30 kV/cm).
const GLOW_FIELD_V_M: f64 = 3.0e6;

/// Adds the system that works them out.
pub(crate) fn plugin(app: &mut App) {
    app.init_resource::<CloseLooks>()
        .add_systems(Update, prepare.in_set(FrameStage::Draw));
}

/// The present closer looks.
#[derive(Resource, Debug, Default)]
pub(crate) struct CloseLooks {
    /// What they were worked out for.
    of: Option<(Conditions, FieldState)>,
    /// The wire.
    wire: Option<WireStand>,
    /// The grain.
    grain: GrainStand,
    /// Counts how often they changed.
    pub(crate) revision: u64,
}

impl CloseLooks {
    /// The followed grain.
    pub(crate) fn grain<'a>(&'a self, frame: &Frame<'a>, ui: &UiState) -> Option<GrainView<'a>> {
        self.grain.view(frame, ui)
    }

    /// The close look at the wire.
    pub(crate) fn wire(&self, ui: &UiState) -> Option<WireView<'_>> {
        self.wire.as_ref().map(|stand| stand.view(ui))
    }
}

/// The followed grain with the curves of the formulas along its way.
#[derive(Debug, Default)]
pub(crate) struct GrainStand {
    curves: GrainCurves,
}

impl GrainStand {
    /// The followed grain of a moment.
    pub(crate) fn of(frame: &Frame<'_>) -> Self {
        let mut stand = Self::default();
        stand.go_on(frame);
        stand
    }

    fn go_on(&mut self, frame: &Frame<'_>) {
        if let Some(grain) = frame.followed() {
            self.curves.update(frame.conditions(), grain);
        }
    }

    /// As the panels draw it.
    pub(crate) fn view<'a>(&'a self, frame: &Frame<'a>, ui: &UiState) -> Option<GrainView<'a>> {
        let (conditions, grain) = (frame.conditions(), frame.followed()?);
        Some(GrainView {
            grain,
            conditions,
            curves: &self.curves,
            forces: grain
                .points
                .last()
                .map(|point| grain_forces(conditions, grain.diameter_m, point)),
            charge: charge_check(conditions, grain, &self.curves),
            speed: speed_check(conditions, grain, &self.curves),
            cautions: CAUTIONS,
            units: ui.units,
            theme: ui.theme,
        })
    }
}

/// One wire with all that its view tells.
#[derive(Debug)]
pub(crate) struct WireStand {
    field: WireField,
    onset_v: f64,
    peek_onset_v: f64,
    peek_field_v_m: f64,
    glow_field_v_m: f64,
    spark_v: f64,
}

impl WireStand {
    /// The wires of one electrical field of a flight.
    ///
    /// # Errors
    /// As the solver.
    pub(crate) fn new(frame: &Frame<'_>, field: usize) -> Result<Self, PhysicsError> {
        let conditions = frame.conditions();
        let last = frame.fields().len().saturating_sub(1);
        let (state, field) = (
            &frame.fields()[field.min(last)],
            &frame.wire_fields()[field.min(last)],
        );
        let row = wire_row(conditions)?;
        let corona = corona(conditions);
        let mut solver = CoronaSolver::new(row.clone(), corona, Fineness::default())?;
        let delta = gas::relative_density(conditions.gas.temperature_k, conditions.gas.pressure_pa);
        Ok(Self {
            field: field.clone(),
            onset_v: solver.at_current(ONSET_CURRENT_A_M)?.voltage_v,
            peek_onset_v: onset::integrated_onset_voltage_v(&row, corona.onset_field_v_m),
            peek_field_v_m: corona.onset_field_v_m,
            glow_field_v_m: GLOW_FIELD_V_M * delta,
            spark_v: state.spark_v,
        })
    }

    /// As the panels draw it.
    pub(crate) fn view(&self, ui: &UiState) -> WireView<'_> {
        WireView {
            field: &self.field,
            onset_v: self.onset_v,
            peek_onset_v: self.peek_onset_v,
            peek_field_v_m: self.peek_field_v_m,
            glow_field_v_m: self.glow_field_v_m,
            spark_v: self.spark_v,
            plate_to_wire_current: self.field.plate_to_wire_current(),
            cautions: CAUTIONS,
            layer: ui.wire_layer,
            units: ui.units,
            theme: ui.theme,
        }
    }
}

fn prepare(flight: Res<Flight>, mut session: ResMut<Session>, mut looks: ResMut<CloseLooks>) {
    let frame = flight.frame();
    match session.ui.rung {
        Rung::Plan => return,
        Rung::Grain => return looks.grain.go_on(&frame),
        Rung::Wire => {}
    }
    let last = frame.fields().len().saturating_sub(1);
    let field = session.ui.field.min(last);
    let state = &frame.fields()[field];
    let known = looks
        .of
        .as_ref()
        .is_some_and(|(conditions, known)| known == state && conditions == frame.conditions());
    if known {
        return;
    }
    looks.of = Some((frame.conditions().clone(), state.clone()));
    looks.revision += 1;
    match WireStand::new(&frame, field) {
        Ok(stand) => looks.wire = Some(stand),
        Err(error) => session.complain(format!("Close look at the wire: {error}")),
    }
}
