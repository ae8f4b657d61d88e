//! The elevation in the window: drawn lines, and the room for the engine's dust behind them.

use egui::{Id, Key, Rect, Sense, Ui, vec2};

use super::{
    Room, Seen,
    figure::{keep_arrows, next_ui, ring_ui, take_focus},
    parts::parts_ui,
    scrolled::scrolled_ui,
};
use crate::{
    drawing::paint,
    elevation::{ElevationPlaces, ElevationView, Measures, PARTS, drawing},
    state::{PlanWindow, Rung, UiState},
    zoom::{Stand, Turn},
};

/// Lowest drawing that can be read, points.
const LOWEST: f32 = 320.0;
/// So many fields are seen when the drawing tips over to the plan.
const SEEN: f32 = 2.2;

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
    let response = ui.interact(rect, Id::new("elevation"), Sense::click_and_drag());
    let words: Vec<&str> = figure.texts().map(|(text, ..)| text).collect();
    response.widget_info(|| {
        let text = format!("The whole machine from the side: {}", words.join("; "));
        egui::WidgetInfo::labeled(egui::WidgetType::Image, true, text)
    });
    // What is larger than the drawing must not lie over its neighbours.
    paint(&figure, &ui.painter_at(rect), rect.min, state.theme);
    let measures = Measures::new(view.conditions, view.hoppers, view.gas);
    let places = ElevationPlaces::new(measures, size, view.eye);
    let [min, max] = places.space();
    keep_arrows(ui, &response);
    take_focus(&response, state);
    navigate(ui, &response, view, state, &places);
    let areas = PARTS
        .iter()
        .filter_map(|part| Some((part.name, part.area(view, &places)?)));
    parts_ui(ui, view, areas, state, rect);
    ring_ui(ui, &response, state);
    Room {
        passage: Some(Rect::from_min_max(
            rect.min + vec2(min[0], min[1]),
            rect.min + vec2(max[0], max[1]),
        )),
        seen: Seen {
            window: PlanWindow {
                start_m: 0.0,
                length_m: view.conditions.length_m() as f32,
            },
            turned: 0.0,
            dust: 1.0,
        },
        drawing: Some(rect),
    }
}

/// Drag moves the machine, the wheel zooms round the pointer and over the plates on to the plan; arrow keys and + − do the same.
fn navigate(
    ui: &Ui,
    response: &egui::Response,
    view: &ElevationView<'_>,
    state: &mut UiState,
    places: &ElevationPlaces,
) {
    let before = places.eye;
    let mut eye = before;
    let by = response.drag_delta() / places.scale;
    if response.dragged() {
        eye.centre_m = [
            eye.centre_m[0] - places.way() * by.x,
            eye.centre_m[1] + by.y,
        ];
    }
    if response.has_focus() {
        let pressed = |more, less| {
            ui.input(|input| {
                f32::from(i8::from(input.key_pressed(more)))
                    - f32::from(i8::from(input.key_pressed(less)))
            })
        };
        let step_m = 0.1 * response.rect.width() / places.scale;
        eye.centre_m[0] += places.way() * step_m * pressed(Key::ArrowRight, Key::ArrowLeft);
        eye.centre_m[1] += step_m * pressed(Key::ArrowUp, Key::ArrowDown);
    }
    if let Some(turn) = Turn::of(ui, response) {
        let at = turn.about(response.rect) - response.rect.min;
        let about_m = places.metres([at.x, at.y]);
        if turn.factor > 1.0 && over_few_fields(places, about_m) {
            if turn.goes_on(state) {
                let window = along(view, places);
                return next_ui(ui, response, state, |state| {
                    state.window = window;
                    state.rung = Rung::Plan;
                });
            }
        } else {
            eye = eye.zoomed(turn.factor, about_m);
        }
    }
    if eye != before {
        state.eye = eye;
        state.zoom.jump(Stand::of(state));
    }
}

/// Whether so little is shown, round a place between the plates, that the next nearer is seen from above.
fn over_few_fields(places: &ElevationPlaces, [x_m, height_m]: [f32; 2]) -> bool {
    let measures = &places.measures;
    let [from, to] = places.seen_m();
    let between = (0.0..=measures.plate_m as f32).contains(&height_m)
        && (0.0..=measures.end_m() as f32).contains(&x_m);
    between && to - from <= SEEN * (measures.field_m + measures.walkway_m) as f32
}

/// The part of the passage that is seen.
fn along(view: &ElevationView<'_>, places: &ElevationPlaces) -> PlanWindow {
    let total_m = view.conditions.length_m() as f32;
    let per_m = total_m / places.measures.end_m() as f32;
    let [from, to] = places.seen_m();
    PlanWindow {
        start_m: from * per_m,
        length_m: (to - from) * per_m,
    }
    .within(total_m)
}
