//! What the pointer reads between the plates, whether the picture agrees with theory.

use ashlane_shared::units::{Dimension, GasState};

use super::{
    WireView,
    map::{ions_1_m3, per_cm3},
    side::number,
};
use crate::checks::CheckLine;

/// Computed and formula's onset agree within this share: the closed form takes wires as thin.
const ONSET_TOLERANCE: f64 = 0.01;
/// Currents of plate and wire agree within this share: half of what the solver refuses. With as good as no current through
/// much dust the grid is up to 0.6 % off, else 0.2 %.
const CURRENT_TOLERANCE: f64 = 0.01;

/// The agreement lines of this view.
#[must_use]
pub fn checks(view: &WireView<'_>) -> Vec<CheckLine> {
    let kv = |voltage_v| view.text(voltage_v, Dimension::Voltage);
    let peek = view.text(view.peek_field_v_m, Dimension::Field);
    let mut lines = vec![CheckLine::of_ratio(
        "onset: computed V0 against Peek",
        format!(
            "onset {} computed, {} by Peek ({peek} at the wire)",
            kv(view.onset_v),
            kv(view.peek_onset_v)
        ),
        view.onset_v / view.peek_onset_v,
        ONSET_TOLERANCE,
    )];
    if view.has_corona() {
        let share = 100.0 * view.plate_to_wire_current;
        lines.push(CheckLine::of_ratio(
            "current: plate against wire",
            format!("{share:.2} % of the wire's current arrives on the plates"),
            view.plate_to_wire_current,
            CURRENT_TOLERANCE,
        ));
    }
    lines
}

/// Voltage, field and ions at a place: distance from the wire along the gas and from the wire plane, m.
///
/// Nothing beyond the plates and beyond midway to the next wires.
#[must_use]
pub fn readout(view: &WireView<'_>, (x_m, y_m): (f64, f64)) -> Option<String> {
    let row = view.field.row();
    if x_m.abs() > 0.5 * row.pitch_m() || y_m.abs() > row.gap_m() * (1.0 + 1e-6) {
        return None;
    }
    let kv = |voltage_v| view.text(voltage_v, Dimension::Voltage);
    if x_m.hypot(y_m) < row.wire_radius_m() {
        return Some(format!("wire, {}", kv(view.field.solution().voltage_v)));
    }
    let state = view.field.at(x_m, y_m);
    let strength = view.text(state.along_v_m.hypot(state.across_v_m), Dimension::Field);
    let unit = per_cm3()?;
    let ions = unit.from_si(ions_1_m3(state.ions_c_m3), &GasState::NORMAL);
    let ions = if ions > 0.0 {
        number(ions)
    } else {
        "0".to_owned()
    };
    // A thousandth of a volt is rounding, not voltage.
    let potential_v = if state.potential_v.abs() < 1e-3 {
        0.0
    } else {
        state.potential_v
    };
    Some(format!(
        "{} · {strength} · {ions} ions per cm³",
        kv(potential_v)
    ))
}
