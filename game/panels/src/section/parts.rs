//! Parts of the machine on any drawing: pointed at, reached by Tab, chosen from the list, and told about.

use ashlane_lessons::engine::find_caution;
use egui::{Id, Rect, RichText, Sense, Stroke, StrokeKind, Ui, vec2};

use super::caution_words_ui;
use crate::{
    drawing::{Point, text_width},
    elevation::{ElevationPlaces, ElevationView, Measures, PARTS, Part},
    state::{Rung, UiState},
    theme::{Ink, SMALL},
    zoom::Eye,
};

/// Size of a drawing, where it is not known yet.
const USUAL: [f32; 2] = [800.0, 560.0];
/// How near the eye goes to a part that is to be seen among its neighbours, times.
const IN_ITS_PLACE: f32 = 2.5;

/// Rungs on whose drawings parts can be pointed at.
pub(crate) fn has_parts(rung: Rung) -> bool {
    matches!(rung, Rung::Elevation | Rung::CrossSection | Rung::Plan)
}

/// Every part of a drawing in its rectangle: its name, and where it lies.
pub(super) fn parts_ui(
    ui: &Ui,
    view: &ElevationView<'_>,
    areas: impl IntoIterator<Item = (&'static str, [Point; 2])>,
    state: &mut UiState,
    rect: Rect,
) {
    for (part_name, [min, max]) in areas {
        let Some(part) = PARTS.iter().find(|part| part.name == part_name) else {
            continue;
        };
        let on_screen = |point: Point| rect.min + vec2(point[0], point[1]);
        let area = Rect::from_two_pos(on_screen(min), on_screen(max)).intersect(rect);
        if !area.is_positive() {
            continue;
        }
        let name = part.shown(view.conditions);
        let response = ui.interact(area, Id::new(("part", part.name)), Sense::click());
        let chosen = state.part == Some(part.name);
        response.widget_info(|| {
            egui::WidgetInfo::selected(egui::WidgetType::SelectableLabel, true, chosen, &name)
        });
        if response.clicked() {
            choose(state, view, part, rect.size().into());
        }
        let marked = state.marked == Some(part.name);
        if chosen || marked || response.hovered() || response.has_focus() {
            let ink = Ink::Control.colour(state.theme);
            let stroke = Stroke::new(2.0, ink);
            ui.painter()
                .rect_stroke(area.expand(2.0), 3.0, stroke, StrokeKind::Outside);
        }
        response.on_hover_text(name);
    }
}

/// Looks at a part, and the eye of the elevation goes there; once more, and it goes back to the whole machine.
fn choose(state: &mut UiState, view: &ElevationView<'_>, part: &Part, size: Point) {
    if state.part == Some(part.name) {
        return leave(state);
    }
    state.part = Some(part.name);
    if state.rung == Rung::Elevation {
        state.eye = eye_on(state, view, part, size);
    }
}

/// Looks at the part that something wanted to be seen, if something did.
pub(super) fn seek(state: &mut UiState, view: &ElevationView<'_>, size: Point) {
    let Some(name) = state.seek.take() else {
        return;
    };
    let Some(part) = PARTS.iter().find(|part| part.name == name) else {
        return;
    };
    state.marked = Some(part.name);
    if state.rung == Rung::Elevation {
        let eye = eye_on(state, view, part, size);
        state.eye = Eye {
            times: eye.times.min(IN_ITS_PLACE),
            ..eye
        };
    }
}

fn eye_on(state: &UiState, view: &ElevationView<'_>, part: &Part, size: Point) -> Eye {
    let measures = Measures::new(view.conditions, view.hoppers, view.gas);
    let places = ElevationPlaces::new(measures, size, state.eye);
    let area_m = part.area_m(view, &measures);
    area_m.map_or(Eye::WHOLE, |area_m| places.eye_on(area_m))
}

fn leave(state: &mut UiState) {
    state.part = None;
    if state.rung == Rung::Elevation {
        state.eye = Eye::WHOLE;
    }
}

/// Room that the arrow of a list takes, points.
const ARROW: f32 = 18.0;

/// The list of parts, for the ladder.
pub(super) fn parts_list_ui(ui: &mut Ui, view: &ElevationView<'_>, state: &mut UiState) {
    let shown =
        chosen_part(state).map_or_else(|| "Parts".to_owned(), |part| part.shown(view.conditions));
    // How large the drawing is only decides how near the eye goes.
    let size = state.zoom.rect.map_or(USUAL, |rect| rect.size().into());
    // A list does not look for room by itself, as a button does: no wider than its word.
    let width = text_width(&shown, SMALL, false) + ARROW;
    egui::ComboBox::from_id_salt("parts")
        .width(width)
        .selected_text(RichText::new(shown).size(SMALL))
        .show_ui(ui, |ui| {
            for part in &PARTS {
                let chosen = state.part == Some(part.name);
                let name = part.shown(view.conditions);
                if ui.selectable_label(chosen, name).clicked() {
                    choose(state, view, part, size);
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
            leave(state);
        }
    });
    for caution in part.cautions.iter().filter_map(|code| find_caution(code)) {
        caution_words_ui(ui, caution, state);
    }
}
