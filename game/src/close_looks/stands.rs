//! The numbers behind each closer look: one wire, one grain, one electrical set.

use ashlane_panels::{
    elevation::ElevationView, energization::EnergizationView, grain::GrainView, state::UiState,
    wire::WireView,
};
use ashlane_shared::{
    checks::{GrainCurves, charge_check, grain_forces, speed_check},
    conditions::Conditions,
    machine::FieldPlates,
    physics::{
        PhysicsError,
        corona::{CoronaSolver, WireField, onset, solver::Fineness},
        energization::Trace,
        gas,
    },
    plant::HopperState,
    simulation::{
        FieldEnergization, FieldState, Frame, GasAlong, corona, electrics, energization_of,
        gas_along, wire_row,
    },
};

use crate::flight::Flight;

/// Current at which a solved field is as good as at onset, A/m: a millionth of the usual.
const ONSET_CURRENT_A_M: f64 = 1e-10;

/// Seed of the sparks on show, and how long the recorder writes, s: a minute is enough for the check of its mean.
const TRACE_SEED: u64 = 1;
const TRACE_S: f64 = 80.0;

/// What the elevation needs besides the flight: the gas along its way, worked out once, hoppers and meters of this moment.
#[derive(Debug, Default)]
pub(crate) struct SideStand {
    of: Option<Conditions>,
    gas: Option<GasAlong>,
    hoppers: Vec<HopperState>,
    meters: Vec<FieldState>,
}

impl SideStand {
    /// The machine of a flight.
    ///
    /// # Errors
    /// A formula refused the state.
    pub(crate) fn new(flight: &Flight) -> Result<Self, PhysicsError> {
        let mut stand = Self::default();
        stand.go_on(flight)?;
        Ok(stand)
    }

    /// Goes on to the present moment.
    ///
    /// # Errors
    /// A formula refused the state.
    pub(super) fn go_on(&mut self, flight: &Flight) -> Result<(), PhysicsError> {
        let conditions = flight.conditions();
        if self.of.as_ref() != Some(conditions) {
            self.gas = Some(gas_along(conditions)?);
            self.of = Some(conditions.clone());
        }
        self.hoppers = flight.machine().hoppers()?;
        self.meters = flight.machine().meters().into_owned();
        Ok(())
    }

    /// What the meters of the sets show, by field.
    pub(crate) fn meters(&self) -> &[FieldState] {
        &self.meters
    }

    /// As the panels draw it.
    pub(crate) fn view<'a>(
        &'a self,
        frame: &Frame<'a>,
        plates: &'a [FieldPlates],
        ui: &UiState,
    ) -> ElevationView<'a> {
        ElevationView {
            conditions: frame.conditions(),
            fields: &self.meters,
            plates,
            hoppers: &self.hoppers,
            gas: self.gas.as_ref(),
            stack: None,
            face_rows_m_s: &[],
            step: frame.step(),
            units: ui.units,
            labels: ui.labels,
            calm: ui.reduced_motion,
            eye: ui.eye,
        }
    }
}

/// The electrical set of one field with what its recorder wrote.
#[derive(Debug)]
pub(crate) struct SetStand {
    name: String,
    energization: FieldEnergization,
    trace: Trace,
}

impl SetStand {
    /// The set of one field, from 0.
    ///
    /// # Errors
    /// As the solver.
    pub(crate) fn new(conditions: &Conditions, field: usize) -> Result<Self, PhysicsError> {
        let field = field.min(conditions.collector.fields.saturating_sub(1));
        let energization = energization_of(conditions, electrics(conditions)?.as_ref(), field)?;
        Ok(Self {
            name: conditions.field_name(field),
            trace: energization.trace(TRACE_SEED, TRACE_S)?,
            energization,
        })
    }

    /// As the panels draw it.
    pub(crate) fn view(&self, ui: &UiState) -> EnergizationView<'_> {
        EnergizationView {
            energization: &self.energization,
            trace: &self.trace,
            name: &self.name,
            units: ui.units,
        }
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

    /// Goes on to the end of the record.
    pub(super) fn go_on(&mut self, frame: &Frame<'_>) {
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
            glow_field_v_m: onset::glow_field_v_m(delta),
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
            layer: ui.wire_layer,
            units: ui.units,
            theme: ui.theme,
        }
    }
}
