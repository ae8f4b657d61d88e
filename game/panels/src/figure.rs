//! A drawing as a part of the interface, with all its words for a screen reader.

use egui::{Sense, Ui, vec2};

use crate::{
    drawing::{Drawing, paint},
    state::UiState,
};

/// Shows a drawing.
pub(crate) fn figure_ui(ui: &mut Ui, drawing: &Drawing, name: &str, state: &UiState) {
    let (rect, response) =
        ui.allocate_exact_size(vec2(drawing.size[0], drawing.size[1]), Sense::hover());
    let words: Vec<&str> = drawing.texts().map(|(text, ..)| text).collect();
    response.widget_info(|| {
        egui::WidgetInfo::labeled(
            egui::WidgetType::Image,
            true,
            format!("{name}: {}", words.join("; ")),
        )
    });
    paint(drawing, ui.painter(), rect.min, state.theme);
}
