//! The elevation in the window: drawn lines, and the room for the engine's dust behind them.

use ashlane_lessons::engine::find_caution;
use ashlane_shared::conditions::Conditions;
use egui::{Id, Rect, RichText, Sense, Stroke, StrokeKind, Ui, vec2};

use super::{Room, caution_words_ui, scrolled::scrolled_ui};
use crate::{
    drawing::paint,
    elevation::{ElevationPlaces, ElevationView, Measures, PARTS, Part, drawing},
    state::UiState,
    theme::{Ink, SMALL},
};

/// Lowest drawing that can be read, points.
const LOWEST: f32 = 400.0;

/// The elevation, in a scroll area where it would be too low to be read.
pub(super) fn scrolled_elevation_ui(
    ui: &mut Ui,
    view: &ElevationView<'_>,
    state: &mut UiState,
    rect: Rect,
) -> Room {
    scrolled_ui(ui, rect, LOWEST, |ui, area| {
        elevation_ui(ui, view, state, area)
    })
}

/// The elevation; the engine draws dust into the returned room.
fn elevation_ui(ui: &Ui, view: &ElevationView<'_>, state: &mut UiState, rect: Rect) -> Room {
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
    let places = ElevationPlaces::new(measures, size);
    let [min, max] = places.space();
    parts_ui(ui, view, &places, state, rect);
    Room {
        passage: Some(Rect::from_min_max(
            rect.min + vec2(min[0], min[1]),
            rect.min + vec2(max[0], max[1]),
        )),
        drawing: Some(rect),
    }
}

/// Every part can be pointed at, reached by Tab and chosen.
fn parts_ui(
    ui: &Ui,
    view: &ElevationView<'_>,
    places: &ElevationPlaces,
    state: &mut UiState,
    rect: Rect,
) {
    for part in &PARTS {
        let Some([min, max]) = part.area(view, places) else {
            continue;
        };
        let area = Rect::from_min_max(
            rect.min + vec2(min[0], min[1]),
            rect.min + vec2(max[0], max[1]),
        )
        .intersect(rect);
        let name = part.shown(view.conditions);
        let response = ui.interact(area, Id::new(("part", part.name)), Sense::click());
        let chosen = state.part == Some(part.name);
        response.widget_info(|| {
            egui::WidgetInfo::selected(egui::WidgetType::SelectableLabel, true, chosen, &name)
        });
        if response.clicked() {
            state.part = (!chosen).then_some(part.name);
        }
        if chosen || response.hovered() || response.has_focus() {
            let ink = Ink::Control.colour(state.theme);
            let stroke = Stroke::new(2.0, ink);
            ui.painter()
                .rect_stroke(area.expand(2.0), 3.0, stroke, StrokeKind::Outside);
        }
        response.on_hover_text(name);
    }
}

/// The list of parts, for the ladder.
pub(super) fn parts_list_ui(ui: &mut Ui, conditions: &Conditions, state: &mut UiState) {
    let shown =
        chosen_part(state).map_or_else(|| "Parts".to_owned(), |part| part.shown(conditions));
    egui::ComboBox::from_id_salt("parts")
        .selected_text(RichText::new(shown).size(SMALL))
        .show_ui(ui, |ui| {
            for part in &PARTS {
                let chosen = state.part == Some(part.name);
                if ui
                    .selectable_label(chosen, part.shown(conditions))
                    .clicked()
                {
                    state.part = (!chosen).then_some(part.name);
                }
            }
        });
}

/// The part that is looked at, if one is.
pub(crate) fn chosen_part(state: &UiState) -> Option<&'static Part> {
    PARTS.iter().find(|part| state.part == Some(part.name))
}

/// Name, purpose, present value and other names of a part.
pub(crate) fn part_words_ui(
    ui: &mut Ui,
    view: &ElevationView<'_>,
    part: &Part,
    state: &mut UiState,
) {
    ui.horizontal_wrapped(|ui| {
        let name = part.shown(view.conditions);
        ui.label(RichText::new(&name).strong());
        ui.label(part.purpose);
        if let Some(value) = part.value(view) {
            ui.label(RichText::new(format!("Now: {value}.")).strong());
        }
        // Our name too, where the site has its own.
        let ours = if name == part.name { "" } else { part.name };
        let others: Vec<&str> = [ours, part.also]
            .into_iter()
            .filter(|name| !name.is_empty())
            .collect();
        if !others.is_empty() {
            let ink = Ink::Faint.colour(state.theme);
            let also = format!("Also called: {}.", others.join(", "));
            ui.label(RichText::new(also).color(ink));
        }
        if ui.button("Close").clicked() {
            state.part = None;
        }
    });
    for caution in part.cautions.iter().filter_map(|code| find_caution(code)) {
        caution_words_ui(ui, caution, state);
    }
}
