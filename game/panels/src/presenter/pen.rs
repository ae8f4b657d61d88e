//! The pen: stops the flight and draws on the picture; what was drawn goes when the pen is put away.

use egui::{Pos2, Rect, Sense, Shape, Stroke, Ui, WidgetInfo, WidgetType, pos2};

use super::{Tool, spotlight::share, tool_id};
use crate::{
    command::UiCommand,
    section::keep_arrows,
    state::UiState,
    theme::{Ink, Theme},
    view::AppView,
};

/// Width of a stroke and of the ground round it, points.
const WIDTH: f32 = 3.5;
const HALO: f32 = 6.5;
/// Shortest way between two corners of a stroke, points.
const SHORTEST: f32 = 1.0;

/// Takes the pen up: the flight stands.
pub(super) fn take_up(view: &AppView<'_>, state: &mut UiState, out: &mut Vec<UiCommand>) {
    let ran = view.flight.running;
    if ran {
        out.push(UiCommand::Run(false));
    }
    if let Some(presenting) = &mut state.presenting {
        presenting.tool = Tool::Pen {
            strokes: Vec::new(),
            ran,
        };
    }
}

/// Puts it away, and every other tool: strokes go, and what ran before runs on.
pub(super) fn put_away(state: &mut UiState, out: &mut Vec<UiCommand>) {
    let Some(presenting) = &mut state.presenting else {
        return;
    };
    let tool = std::mem::replace(&mut presenting.tool, Tool::Pointer);
    if matches!(tool, Tool::Pen { ran: true, .. }) {
        out.push(UiCommand::Run(true));
    }
}

/// Takes the strokes away; the pen stays.
pub(super) fn clear(state: &mut UiState) {
    if let Some(presenting) = &mut state.presenting
        && let Tool::Pen { strokes, .. } = &mut presenting.tool
    {
        strokes.clear();
    }
}

/// Draws where the pointer is dragged over `area`, and paints what was drawn.
pub(super) fn pen_ui(ui: &Ui, state: &mut UiState, whole: Rect, area: Rect) {
    let theme = state.theme;
    let Some(presenting) = &mut state.presenting else {
        return;
    };
    let Tool::Pen { strokes, .. } = &mut presenting.tool else {
        return;
    };
    let response = ui.interact(area, tool_id(), Sense::click_and_drag());
    response.widget_info(|| {
        let name = "Pen on the frozen picture: drag to draw, C clears, P puts the pen away";
        WidgetInfo::labeled(WidgetType::Image, true, name)
    });
    keep_arrows(ui, &response);
    let response = response.on_hover_cursor(egui::CursorIcon::Crosshair);
    if response.drag_started() {
        let from = ui.input(|input| input.pointer.press_origin());
        strokes.push(from.map(|from| share(whole, from)).into_iter().collect());
    }
    if let (true, Some(at)) = (response.dragged(), response.interact_pointer_pos())
        && let Some(stroke) = strokes.last_mut()
    {
        let at = area.clamp(at);
        let far = |last: &[f32; 2]| place(whole, *last).distance(at) >= SHORTEST;
        if stroke.last().is_none_or(far) {
            stroke.push(share(whole, at));
        }
    }
    let painter = ui.painter().with_clip_rect(area);
    for stroke in strokes.iter() {
        let points: Vec<Pos2> = stroke.iter().map(|at| place(whole, *at)).collect();
        painter.extend(lines(points, theme));
    }
}

/// A stroke with the ground round it, so that it is seen on any picture.
fn lines(points: Vec<Pos2>, theme: Theme) -> [Shape; 2] {
    let halo = Stroke::new(HALO, Ink::Ground.colour(theme));
    let line = Stroke::new(WIDTH, Ink::Pen.colour(theme));
    [Shape::line(points.clone(), halo), Shape::line(points, line)]
}

fn place(whole: Rect, [x, y]: [f32; 2]) -> Pos2 {
    pos2(
        whole.left() + x * whole.width(),
        whole.top() + y * whole.height(),
    )
}
