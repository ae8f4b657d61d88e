//! Run, pause, step, the clocks, and what the drawing shows.

use egui::{Button, Ui};

use crate::{
    clocks::{clock_lines_ui, clocks_ui},
    command::UiCommand,
    state::UiState,
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
    clocks_ui(ui, view, out);
    ui.horizontal_wrapped(|ui| {
        ui.checkbox(&mut state.labels, "Labels");
        ui.checkbox(&mut state.field_map, "Field map");
        ui.checkbox(&mut state.tracers, "Gas tracers");
    });
    clock_lines_ui(ui, flight, state);
}
