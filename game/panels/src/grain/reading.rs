//! Whether the grain that was flown agrees with the formulas.

use ashlane_shared::{checks::brushed_a_wire, units::Dimension};

use super::{GrainView, grouped};
use crate::checks::CheckLine;

/// The charge flown and the law along the path agree within this share: the step solves it to second order.
const CHARGE_TOLERANCE: f64 = 0.02;
/// The speed flown and the formula agree within this share: the step reads the field from a table.
const SPEED_TOLERANCE: f64 = 0.01;

/// The agreement lines of this view.
#[must_use]
pub fn checks(view: &GrainView<'_>) -> Vec<CheckLine> {
    let mut lines = Vec::new();
    if let Some(charge) = view.charge {
        lines.push(CheckLine::of_ratio(
            "charge: flown against the law along its path",
            format!(
                "flown {} e, closed form in the solved field {} e",
                grouped(charge.flown),
                grouped(charge.formula)
            ),
            charge.ratio,
            CHARGE_TOLERANCE,
        ));
    }
    if let Some(speed) = view.speed {
        let text = |speed_m_s| view.text(speed_m_s, Dimension::MigrationVelocity);
        lines.push(CheckLine::of_ratio(
            "speed: flown against w = q E Cc/(3πµd)",
            format!(
                "flown {}, formula with Schiller–Naumann drag {}, plain {}",
                text(speed.speed.flown),
                text(speed.speed.formula),
                text(speed.stokes_m_s)
            ),
            speed.speed.ratio,
            SPEED_TOLERANCE,
        ));
    }
    lines
}

/// Why charge or speed is not compared, where that is so; nothing while a grain is awaited.
#[must_use]
pub fn not_compared(view: &GrainView<'_>) -> Option<&'static str> {
    if view.grain.points.is_empty() || (view.charge.is_some() && view.speed.is_some()) {
        None
    } else if !view.is_charged() {
        Some("Nothing is compared: one migration velocity is given, and no charge is computed.")
    } else if brushed_a_wire(view.conditions, view.grain) {
        Some("Charge is not compared: the grain came too near to a wire.")
    } else if view.charge.is_none() && view.grain.fate.is_some() {
        Some(
            "Nothing is compared: this flight was too short in the charged zone, or there is no charge.",
        )
    } else if view.charge.is_none() {
        Some("Charge and speed are compared after the first 0.2 s of flight in the charged zone.")
    } else {
        Some("Speed is compared once the grain is away from the wires.")
    }
}
