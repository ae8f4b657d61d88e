//! A drawing in a scroll area where it would be too low to be read.

use egui::{Rect, ScrollArea, Sense, Ui, vec2};

use super::Room;

/// Draws into the rectangle, or into a scroll area in it that is as high as the drawing needs.
pub(super) fn scrolled_ui(
    ui: &mut Ui,
    rect: Rect,
    needed: f32,
    mut draw: impl FnMut(&mut Ui, Rect) -> Room,
) -> Room {
    if rect.height() >= needed {
        return draw(ui, rect);
    }
    let mut room = Room::default();
    ScrollArea::vertical()
        .auto_shrink([false, false])
        .show(ui, |ui| {
            let size = vec2(ui.available_width(), needed);
            let (area, _) = ui.allocate_exact_size(size, Sense::hover());
            room = draw(ui, area);
        });
    room
}
