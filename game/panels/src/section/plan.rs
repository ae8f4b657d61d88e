//! The plan in the window: drawn lines and legend, the room for the engine's dust between them, moving and zooming.

use egui::{Id, Rect, Sense, Ui, vec2};

use super::{
    Room, Seen,
    figure::{keep_arrows, next_ui, ring_ui, take_focus},
    parts::parts_ui,
    scrolled::scrolled_ui,
};
use crate::{
    drawing::paint,
    elevation::ElevationView,
    plan::{Legend, PlanPlaces, PlanView, part_areas, plan_drawing},
    state::UiState,
    theme::Ink,
    zoom::{Stand, Turn, shortest_m, step_in, step_out},
};

/// Lowest drawing of the plan that can be read, points.
const LOWEST_PLAN: f32 = 280.0;

/// The plan, in a scroll area where it would be too low to be read.
pub(super) fn scrolled_plan_ui(
    ui: &mut Ui,
    (plan, machine): (&PlanView<'_>, &ElevationView<'_>),
    state: &mut UiState,
    rect: Rect,
) -> Room {
    let legend = Legend::from(plan).height(rect.width());
    let needed = LOWEST_PLAN + legend;
    scrolled_ui(ui, rect, needed, |ui, area| {
        plan_ui(ui, (plan, machine), state, area)
    })
}

/// The plan with its legend; the engine draws dust and field into the returned room, behind these lines.
fn plan_ui(
    ui: &Ui,
    (plan, machine): (&PlanView<'_>, &ElevationView<'_>),
    state: &mut UiState,
    rect: Rect,
) -> Room {
    let legend_size = Legend::from(plan).height(rect.width());
    let height = (rect.height() - legend_size).max(120.0);
    let area = Rect::from_min_size(rect.min, vec2(rect.width(), height));
    let size = [area.width(), area.height()];
    let places = PlanPlaces::new(plan, size);
    let response = ui.interact(area, Id::new("plan"), Sense::click_and_drag());
    response.widget_info(|| {
        egui::WidgetInfo::labeled(
            egui::WidgetType::Image,
            true,
            "Plan of one gas passage: drag to move, wheel to zoom",
        )
    });
    keep_arrows(ui, &response);
    take_focus(&response, state);
    navigate(ui, &response, plan, state, &places);
    let passage = Rect::from_min_max(
        area.min + vec2(places.min[0], places.min[1]),
        area.min + vec2(places.max[0], places.max[1]),
    );
    paint(
        &plan_drawing(plan, size),
        ui.painter(),
        area.min,
        state.theme,
    );
    let legend = Legend::from(plan).drawing(rect.width());
    let below = Rect::from_min_size(area.left_bottom(), vec2(rect.width(), legend_size));
    ui.painter()
        .rect_filled(below, 0.0, Ink::Panel.colour(state.theme));
    paint(&legend, ui.painter(), area.left_bottom(), state.theme);
    parts_ui(ui, machine, part_areas(plan, &places), state, area);
    ring_ui(ui, &response, state);
    Room {
        passage: Some(passage),
        seen: Seen {
            window: plan.window,
            ..Seen::default()
        },
        drawing: Some(area.union(below)),
    }
}

/// Drag moves along the passage, the wheel zooms round the pointer and on to the next rung, arrow keys and + − do the same.
fn navigate(
    ui: &Ui,
    response: &egui::Response,
    plan: &PlanView<'_>,
    state: &mut UiState,
    places: &PlanPlaces,
) {
    let total_m = plan.conditions.length_m() as f32;
    let before = plan.window;
    let mut window = before;
    if response.dragged() {
        window.start_m -= places.way() * response.drag_delta().x / places.along_per_m();
    }
    if response.has_focus() {
        let moved = ui.input(|input| {
            f32::from(i8::from(input.key_pressed(egui::Key::ArrowRight)))
                - f32::from(i8::from(input.key_pressed(egui::Key::ArrowLeft)))
        });
        window.start_m += 0.2 * places.way() * moved * window.length_m;
    }
    if let Some(turn) = Turn::of(ui, response) {
        let shortest_m = shortest_m(plan.conditions);
        let (nearest, farthest) = (
            window.length_m <= 1.001 * shortest_m,
            window.length_m >= 0.999 * total_m,
        );
        if turn.factor > 1.0 && nearest {
            if turn.goes_on(state) {
                return next_ui(ui, response, state, |state| step_in(state, plan.conditions));
            }
        } else if turn.factor < 1.0 && farthest {
            if turn.goes_on(state) {
                return next_ui(ui, response, state, |state| {
                    step_out(state, plan.conditions);
                });
            }
        } else {
            let about_m = places.along_m(turn.about(response.rect).x - response.rect.min.x);
            let least = shortest_m / window.length_m;
            window = window.zoomed((1.0 / turn.factor).max(least), about_m, total_m);
        }
    }
    let window = window.within(total_m);
    if window != before {
        state.window = window;
        state.zoom.jump(Stand::of(state));
    }
}
