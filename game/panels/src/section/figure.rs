//! A closer look in the window: its drawing, kept until something changes, and what the pointer or the arrow keys read.

use std::sync::Arc;

use ashlane_shared::units::UnitSystem;
use egui::{Align2, EventFilter, FontId, Id, Rect, Sense, Stroke, StrokeKind, Ui, vec2};

use super::{Room, SectionView, parts::parts_ui};
use crate::{
    cross_section,
    drawing::{Drawing, paint},
    energization, grain,
    state::{Rung, UiState},
    theme::{Ink, SMALL, Theme},
    wire::{self, WireLayer, WirePlaces, WireView},
    zoom::{Turn, step_in, step_out},
};

/// How far an arrow key moves the place that is read, m.
const KEY_STEP_M: f64 = 5e-3;

/// Lowest drawing that can be read, points.
const LOWEST: f32 = 280.0;

/// What a kept drawing was made for.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Key {
    rung: Rung,
    revision: u64,
    size: [f32; 2],
    theme: Theme,
    us: bool,
    layer: WireLayer,
}

/// A closer look, in a scroll area where it would be too low to be read.
pub(super) fn scrolled_ui(
    ui: &mut Ui,
    section: &SectionView<'_>,
    state: &mut UiState,
    rect: Rect,
) -> Room {
    super::scrolled::scrolled_ui(ui, rect, LOWEST, |ui, rect| match state.rung {
        Rung::Grain => grain_ui(ui, section, state, rect),
        Rung::Energization => energization_ui(ui, section, state, rect),
        Rung::CrossSection => {
            let view = &section.cross_section;
            let size = [rect.width(), rect.height()];
            let drawing = cross_section::drawing(view, size);
            let name = "Section across the gas";
            let room = shown(ui, section, (&drawing, name), rect, state);
            let areas = cross_section::part_areas(view, size);
            parts_ui(ui, &view.machine, areas, state, rect);
            room
        }
        _ => wire_ui(ui, section, state, rect),
    })
}

/// The close look at one wire.
pub(super) fn wire_ui(
    ui: &mut Ui,
    section: &SectionView<'_>,
    state: &mut UiState,
    rect: Rect,
) -> Room {
    let Some(view) = &section.wire else {
        ui.centered_and_justified(|ui| ui.spinner());
        return Room::default();
    };
    let size = [rect.width(), rect.height()];
    let key = Key {
        rung: Rung::Wire,
        revision: section.revision,
        size,
        theme: view.theme,
        us: view.units == UnitSystem::Us,
        layer: view.layer,
    };
    let drawing = kept(ui, key, || wire::drawing(view, size));
    let response = ui.interact(rect, Id::new("wire"), Sense::click());
    let words: Vec<&str> = drawing.texts().map(|(text, ..)| text).collect();
    response.widget_info(|| {
        let text = format!(
            "Close look at one wire, arrow keys move the place that is read: {}",
            words.join("; ")
        );
        egui::WidgetInfo::labeled(egui::WidgetType::Image, true, text)
    });
    ui.painter()
        .rect_filled(rect, 0.0, Ink::Ground.colour(state.theme));
    paint(&drawing, ui.painter(), rect.min, state.theme);
    let places = WirePlaces::new(view, size);
    read(ui, &response, view, &places, state);
    take_focus(&response, state);
    ring_ui(ui, &response, state);
    turn_ui(ui, &response, section, state);
    Room {
        drawing: Some(rect),
        ..Room::default()
    }
}

/// The grain that is followed.
pub(super) fn grain_ui(
    ui: &mut Ui,
    section: &SectionView<'_>,
    state: &mut UiState,
    rect: Rect,
) -> Room {
    let Some(view) = &section.grain else {
        ui.centered_and_justified(|ui| ui.spinner());
        return Room::default();
    };
    let drawing = grain::drawing(view, [rect.width(), rect.height()]);
    shown(ui, section, (&drawing, "One grain, followed"), rect, state)
}

/// The electrical set of one field.
fn energization_ui(
    ui: &mut Ui,
    section: &SectionView<'_>,
    state: &mut UiState,
    rect: Rect,
) -> Room {
    let Some(view) = &section.energization else {
        ui.centered_and_justified(|ui| ui.spinner());
        return Room::default();
    };
    let size = [rect.width(), rect.height()];
    let key = Key {
        rung: Rung::Energization,
        revision: section.revision,
        size,
        theme: state.theme,
        us: view.units == UnitSystem::Us,
        layer: state.wire_layer,
    };
    let drawing = kept(ui, key, || energization::drawing(view, size));
    shown(
        ui,
        section,
        (&drawing, "Electrical set of one field"),
        rect,
        state,
    )
}

/// Paints a drawing that only has to be read.
fn shown(
    ui: &Ui,
    section: &SectionView<'_>,
    (drawing, name): (&Drawing, &str),
    rect: Rect,
    state: &mut UiState,
) -> Room {
    let response = ui.interact(rect, Id::new(name), Sense::click());
    let words: Vec<&str> = drawing.texts().map(|(text, ..)| text).collect();
    response.widget_info(|| {
        let text = format!("{name}: {}", words.join("; "));
        egui::WidgetInfo::labeled(egui::WidgetType::Image, true, text)
    });
    ui.painter()
        .rect_filled(rect, 0.0, Ink::Ground.colour(state.theme));
    paint(drawing, ui.painter(), rect.min, state.theme);
    take_focus(&response, state);
    ring_ui(ui, &response, state);
    turn_ui(ui, &response, section, state);
    Room {
        drawing: Some(rect),
        ..Room::default()
    }
}

/// The drawing from the frame before, if nothing changed since.
fn kept(ui: &Ui, key: Key, draw: impl FnOnce() -> Drawing) -> Arc<Drawing> {
    let id = Id::new("kept drawing");
    let before: Option<(Key, Arc<Drawing>)> = ui.data(|data| data.get_temp(id));
    if let Some((known, drawing)) = before
        && known == key
    {
        return drawing;
    }
    let drawing = Arc::new(draw());
    ui.data_mut(|data| data.insert_temp(id, (key, drawing.clone())));
    drawing
}

/// What is at the pointer, or at the place that the arrow keys moved to.
fn read(
    ui: &Ui,
    response: &egui::Response,
    view: &WireView<'_>,
    places: &WirePlaces,
    state: &mut UiState,
) {
    let corner = response.rect.min;
    keep_arrows(ui, response);
    if let Some(pointer) = response.hover_pos() {
        state.probe_m = places.metres([pointer.x - corner.x, pointer.y - corner.y]);
    } else if response.has_focus() {
        state.probe_m = Some(moved(ui, view, state.probe_m.unwrap_or((0.0, 0.0))));
    } else {
        state.probe_m = None;
    }
    let Some((place, text)) = state
        .probe_m
        .and_then(|place| Some((place, wire::readout(view, place)?)))
    else {
        return;
    };
    let [x, y] = places.point(place.0, place.1);
    let at = corner + vec2(x, y);
    let painter = ui.painter();
    let (ink, ground) = (
        Ink::Text.colour(state.theme),
        Ink::Ground.colour(state.theme),
    );
    painter.circle_stroke(at, 4.0, Stroke::new(3.0, ground));
    painter.circle_stroke(at, 4.0, Stroke::new(1.5, ink));
    let galley = painter.layout_no_wrap(text, FontId::proportional(SMALL), ink);
    let wanted = Align2::LEFT_BOTTOM.anchor_size(at + vec2(10.0, -8.0), galley.size());
    // Inside the drawing, whatever the place.
    let inside = response.rect.shrink(6.0);
    let min = wanted.min.min(inside.max - galley.size()).max(inside.min);
    let plate = Rect::from_min_size(min, galley.size()).expand2(vec2(5.0, 3.0));
    painter.rect(
        plate,
        3.0,
        ground,
        Stroke::new(1.0, ink),
        StrokeKind::Inside,
    );
    painter.galley(min, galley, ink);
}

/// To another rung; the keyboard stays at the drawing, if it was there.
pub(super) fn next_ui(
    ui: &Ui,
    response: &egui::Response,
    state: &mut UiState,
    step: impl FnOnce(&mut UiState),
) {
    step(state);
    state.zoom.focused = response.has_focus();
    ui.ctx().request_repaint();
}

/// A ring round a drawing that has the keyboard.
pub(crate) fn ring_ui(ui: &Ui, response: &egui::Response, state: &UiState) {
    if response.has_focus() {
        let stroke = Stroke::new(2.0, Ink::Control.colour(state.theme));
        let inside = response.rect.shrink(1.0);
        ui.painter()
            .rect_stroke(inside, 2.0, stroke, StrokeKind::Inside);
    }
}

/// Gives the keyboard back to the drawing after a travel that began there.
pub(crate) fn take_focus(response: &egui::Response, state: &mut UiState) {
    if std::mem::take(&mut state.zoom.focused) {
        response.request_focus();
    }
}

/// Wheel and keys over a drawing that has no sizes of its own: to the next rung.
fn turn_ui(ui: &Ui, response: &egui::Response, section: &SectionView<'_>, state: &mut UiState) {
    let Some(turn) = Turn::of(ui, response) else {
        return;
    };
    let conditions = section.plan.conditions;
    if turn.goes_on(state) {
        let step = if turn.factor > 1.0 { step_in } else { step_out };
        next_ui(ui, response, state, |state| step(state, conditions));
    }
}

/// Arrow keys belong to a focused drawing and do not move on to its neighbours.
pub(crate) fn keep_arrows(ui: &Ui, response: &egui::Response) {
    if response.has_focus() {
        let filter = EventFilter {
            horizontal_arrows: true,
            vertical_arrows: true,
            ..EventFilter::default()
        };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
    }
}

/// A place moved by the arrow keys, within the cell.
fn moved(ui: &Ui, view: &WireView<'_>, (x_m, y_m): (f64, f64)) -> (f64, f64) {
    let pressed = |more, less| {
        ui.input(|input| {
            f64::from(i8::from(input.key_pressed(more)))
                - f64::from(i8::from(input.key_pressed(less)))
        })
    };
    let row = view.field.row();
    let (half_m, gap_m) = (0.5 * row.pitch_m(), row.gap_m());
    let along = KEY_STEP_M * pressed(egui::Key::ArrowRight, egui::Key::ArrowLeft);
    let across = KEY_STEP_M * pressed(egui::Key::ArrowUp, egui::Key::ArrowDown);
    (
        (x_m + along).clamp(-half_m, half_m),
        (y_m + across).clamp(-gap_m, gap_m),
    )
}
