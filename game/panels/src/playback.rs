//! Run, pause, step, speed and the clock of the drawn flight.

use egui::{Button, RichText, Slider, Ui};

use crate::{
    command::UiCommand,
    state::UiState,
    theme::{Ink, SMALL},
    view::AppView,
};

/// The playback controls.
pub(crate) fn playback_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    let flight = &view.flight;
    ui.horizontal_wrapped(|ui| {
        let (label, hover) = if flight.running {
            ("⏸ Pause", "Space")
        } else {
            ("▶ Run", "Space")
        };
        if ui.button(label).on_hover_text(hover).clicked() {
            out.push(UiCommand::Run(!flight.running));
        }
        let step = ui.add_enabled(!flight.running, Button::new("Step"));
        if step
            .on_hover_text("One step of 1/240 s (full stop key)")
            .clicked()
        {
            out.push(UiCommand::SingleStep);
        }
        if ui
            .button("Restart")
            .on_hover_text("Empty gas and plates, start the books anew")
            .clicked()
        {
            out.push(UiCommand::Restart);
        }
    });
    ui.horizontal(|ui| {
        let label = ui.label("Speed");
        ui.spacing_mut().slider_width = 90.0;
        let mut speed = flight.speed;
        let slider = Slider::new(&mut speed, 0.1..=4.0)
            .logarithmic(true)
            .suffix("×")
            .max_decimals(2);
        if ui.add(slider).labelled_by(label.id).changed() {
            out.push(UiCommand::Speed(speed));
        }
    });
    ui.horizontal_wrapped(|ui| {
        ui.checkbox(&mut state.labels, "Labels");
        ui.checkbox(&mut state.field_map, "Field map");
        ui.checkbox(&mut state.tracers, "Gas tracers");
    });
    let balance = if flight.imbalance < 1e-15 {
        "exact".to_owned()
    } else {
        format!("to {:.0e}", flight.imbalance)
    };
    let text = format!(
        "flight {:.1} s · {} grains in the gas · mass balance {balance}",
        flight.time_s, flight.airborne
    );
    ui.label(
        RichText::new(text)
            .size(SMALL)
            .color(Ink::Faint.colour(state.theme)),
    );
}
