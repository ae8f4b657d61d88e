//! The spotlight: everything but a circle is dimmed; the pointer moves it, or the arrow keys.

use egui::{
    Color32, Event, Id, Key, Mesh, Pos2, Rect, Sense, Ui, Vec2, WidgetInfo, WidgetType, pos2, vec2,
};

use super::{Tool, tool_id};
use crate::{section::keep_arrows, state::UiState, theme::DIMMED};

/// Radius of the circle over the height of the window.
const RADIUS: f32 = 0.17;
/// How far an arrow key moves it, over the height of the window.
const STEP: f32 = 0.03;
/// Width of its soft edge, points, and corners of the circle.
const SOFT: f32 = 4.0;
const CORNERS: u32 = 96;

/// Where the spotlight starts: at the pointer, or in the middle.
pub(super) fn start(ui: &Ui) -> Tool {
    let whole = ui.max_rect();
    let at = ui
        .input(|input| input.pointer.hover_pos())
        .filter(|at| whole.contains(*at))
        .unwrap_or_else(|| whole.center());
    Tool::Spotlight(share(whole, at))
}

/// Dims all of `lit` but the circle.
pub(super) fn spotlight_ui(ui: &Ui, state: &mut UiState, whole: Rect, lit: Rect) {
    let Some(presenting) = &mut state.presenting else {
        return;
    };
    let Tool::Spotlight(at) = &mut presenting.tool else {
        return;
    };
    // Takes the keys and no pointer: what lies below can still be pointed at.
    let response = focus(
        ui,
        tool_id(),
        "Spotlight: pointer or arrow keys move it, S puts it out",
    );
    let mut place = pos2(
        whole.left() + at[0] * whole.width(),
        whole.top() + at[1] * whole.height(),
    );
    let (pointer, moved) = ui.input(|input| {
        let key = |forward: Key, back: Key| {
            let count = |key| input.num_presses(key) as f32;
            count(forward) - count(back)
        };
        let keys = vec2(
            key(Key::ArrowRight, Key::ArrowLeft),
            key(Key::ArrowDown, Key::ArrowUp),
        );
        let pointer = input.events.iter().rev().find_map(|event| match event {
            Event::PointerMoved(at) => Some(*at),
            _ => None,
        });
        (pointer, keys)
    });
    if let Some(pointer) = pointer {
        place = pointer;
    } else if response.has_focus() {
        place += STEP * whole.height() * moved;
    }
    place = lit.clamp(place);
    *at = share(whole, place);
    let radius = RADIUS * whole.height();
    // Wide enough for the farthest corner.
    let far = 1.1 * (whole.width() + whole.height());
    let painter = ui.painter().with_clip_rect(lit);
    painter.add(ring(place, [radius, radius + SOFT, far]));
}

/// Clear inside the first radius, dark from the second to the third.
fn ring(centre: Pos2, radii: [f32; 3]) -> Mesh {
    let mut mesh = Mesh::default();
    let colours = [Color32::TRANSPARENT, DIMMED, DIMMED];
    for corner in 0..=CORNERS {
        let direction = Vec2::angled(std::f32::consts::TAU * corner as f32 / CORNERS as f32);
        for (radius, colour) in radii.into_iter().zip(colours) {
            mesh.colored_vertex(centre + radius * direction, colour);
        }
        if corner > 0 {
            let (before, now) = (3 * (corner - 1), 3 * corner);
            for side in 0..2 {
                let (near, out) = (before + side, before + side + 1);
                mesh.add_triangle(near, out, now + side);
                mesh.add_triangle(out, now + side, now + side + 1);
            }
        }
    }
    mesh
}

/// Something without a place that has the focus and a name, and to which the arrow keys belong.
pub(super) fn focus(ui: &Ui, id: Id, name: &str) -> egui::Response {
    let corner = Rect::from_min_size(ui.max_rect().min, Vec2::splat(1.0));
    let response = ui.interact(corner, id, Sense::focusable_noninteractive());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, name));
    keep_arrows(ui, &response);
    response
}

/// A place as shares of the width and the height.
pub(super) fn share(whole: Rect, at: Pos2) -> [f32; 2] {
    [
        (at.x - whole.left()) / whole.width(),
        (at.y - whole.top()) / whole.height(),
    ]
}
