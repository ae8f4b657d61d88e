//! From one rung to the next by wheel or key: nearer than the nearest, farther than the farthest.

use ashlane_shared::conditions::Conditions;
use egui::{Key, Rect, Ui};

use super::Eye;
use crate::state::{PlanWindow, Rung, UiState};

/// Turn of the wheel that takes to the next rung, points.
const ENOUGH: f32 = 60.0;
/// Time at a rung after which it leads on, s.
const QUIET_S: f32 = 0.4;
/// Nearer and farther by one key.
const KEY: f32 = 1.0 / 0.7;
/// The plan shows at least so many wire spacings; nearer is the wire itself.
pub(super) const FEWEST_PITCHES: f32 = 1.1;

/// What wheel and keys ask for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Turn {
    /// Nearer (above 1) or farther.
    pub(crate) factor: f32,
    /// Round this place of the drawing, points from the corner of the screen; nothing is the middle.
    pub(crate) about: Option<egui::Pos2>,
}

impl Turn {
    /// What is asked for at the moment over this drawing.
    pub(crate) fn of(ui: &Ui, response: &egui::Response) -> Option<Self> {
        if let Some(pointer) = response.hover_pos() {
            let turned =
                ui.input(|input| input.smooth_scroll_delta().y + 120.0 * input.zoom_delta().ln());
            if turned != 0.0 {
                return Some(Self {
                    factor: (turned / 300.0).exp(),
                    about: Some(pointer),
                });
            }
        }
        let pressed = |key| response.has_focus() && ui.input(|input| input.key_pressed(key));
        let factor = if pressed(Key::Plus) || pressed(Key::Equals) {
            KEY
        } else if pressed(Key::Minus) {
            1.0 / KEY
        } else {
            return None;
        };
        Some(Self {
            factor,
            about: None,
        })
    }

    /// The place it turns about.
    pub(crate) fn about(&self, rect: Rect) -> egui::Pos2 {
        self.about.unwrap_or_else(|| rect.center())
    }

    /// Counts turns past the end of a rung; whether there are enough of them, or it was a key.
    pub(crate) fn goes_on(&self, state: &mut UiState) -> bool {
        if state.zoom.here_s < QUIET_S {
            return false;
        }
        let points = 300.0 * self.factor.ln();
        if points * state.zoom.turned < 0.0 {
            state.zoom.turned = 0.0;
        }
        state.zoom.turned += points;
        self.about.is_none() || state.zoom.turned.abs() >= ENOUGH
    }
}

/// Length between two wires, m.
fn pitch_m(conditions: &Conditions) -> f32 {
    (conditions.collector.field_length_m / f64::from(conditions.wires_per_field())) as f32
}

/// To the next nearer rung.
pub(crate) fn step_in(state: &mut UiState, conditions: &Conditions) {
    let field_m = conditions.collector.field_length_m as f32;
    match state.rung {
        Rung::Plan => {
            let middle_m = state.window.start_m + 0.5 * state.window.length_m;
            let last = conditions.collector.fields.saturating_sub(1);
            state.field = ((middle_m / field_m).max(0.0) as usize).min(last);
            state.rung = Rung::Wire;
        }
        Rung::Wire => state.rung = Rung::Grain,
        _ => {}
    }
}

/// To the next farther rung.
pub(crate) fn step_out(state: &mut UiState, conditions: &Conditions) {
    match state.rung {
        Rung::Grain => state.rung = Rung::Wire,
        Rung::Wire => {
            let pitch_m = pitch_m(conditions);
            let middle_m = wire_at_m(conditions, state.field, state.window);
            let length_m = FEWEST_PITCHES * pitch_m;
            state.window = PlanWindow {
                start_m: middle_m - 0.5 * length_m,
                length_m,
            }
            .within(conditions.length_m() as f32);
            state.rung = Rung::Plan;
        }
        Rung::Elevation => {}
        Rung::Plan | Rung::CrossSection | Rung::Board | Rung::Energization => {
            state.eye = Eye::WHOLE;
            state.rung = Rung::Elevation;
        }
    }
}

/// Where the wire stands that is looked at: of its field that next to the middle of the plan's window, m.
pub(crate) fn wire_at_m(conditions: &Conditions, field: usize, window: PlanWindow) -> f32 {
    let (pitch_m, field_m) = (
        pitch_m(conditions),
        conditions.collector.field_length_m as f32,
    );
    let from_m = field as f32 * field_m;
    let middle_m = window.start_m + 0.5 * window.length_m;
    let wires = conditions.wires_per_field();
    let number = if (from_m..from_m + field_m).contains(&middle_m) {
        ((middle_m - from_m) / pitch_m) as u32
    } else {
        wires / 2
    };
    from_m + (number.min(wires.saturating_sub(1)) as f32 + 0.5) * pitch_m
}

/// Shortest part of the passage that the plan shows, m.
pub(crate) fn shortest_m(conditions: &Conditions) -> f32 {
    FEWEST_PITCHES * pitch_m(conditions)
}
