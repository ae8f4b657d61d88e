//! The elevation in the window: drawn lines, and the room for the engine's dust behind them.

use egui::{Id, Rect, ScrollArea, Sense, Ui, vec2};

use super::Room;
use crate::{
    drawing::paint,
    elevation::{ElevationPlaces, ElevationView, Measures, drawing},
    state::UiState,
};

/// Lowest drawing that can be read, points.
const LOWEST: f32 = 400.0;

/// The elevation, in a scroll area where it would be too low to be read.
pub(super) fn scrolled_elevation_ui(
    ui: &mut Ui,
    view: &ElevationView<'_>,
    state: &UiState,
    rect: Rect,
) -> Room {
    if rect.height() >= LOWEST {
        return elevation_ui(ui, view, state, rect);
    }
    let mut room = Room::default();
    ScrollArea::vertical()
        .auto_shrink([false, false])
        .show(ui, |ui| {
            let size = vec2(ui.available_width(), LOWEST);
            let (area, _) = ui.allocate_exact_size(size, Sense::hover());
            room = elevation_ui(ui, view, state, area);
        });
    room
}

/// The elevation; the engine draws dust into the returned room.
fn elevation_ui(ui: &Ui, view: &ElevationView<'_>, state: &UiState, rect: Rect) -> Room {
    let size = [rect.width(), rect.height()];
    let figure = drawing(view, size);
    let response = ui.interact(rect, Id::new("elevation"), Sense::click());
    let words: Vec<&str> = figure.texts().map(|(text, ..)| text).collect();
    response.widget_info(|| {
        let text = format!("The whole machine from the side: {}", words.join("; "));
        egui::WidgetInfo::labeled(egui::WidgetType::Image, true, text)
    });
    paint(&figure, ui.painter(), rect.min, state.theme);
    let measures = Measures::new(view.conditions, view.hoppers, view.gas);
    let [min, max] = ElevationPlaces::new(measures, size).space();
    Room {
        passage: Some(Rect::from_min_max(
            rect.min + vec2(min[0], min[1]),
            rect.min + vec2(max[0], max[1]),
        )),
        drawing: Some(rect),
    }
}
