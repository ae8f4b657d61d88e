//! The picture taken away, so that the class looks at the trainer; the notice stays.

use egui::{Align2, FontId, Ui, vec2};

use crate::{
    layout::NOTICE,
    theme::{BLACK_OUT, Ink, SMALL, Theme, WHITE_OUT},
};

/// Ground of a picture that is taken away.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Blank {
    /// Black.
    Black,
    /// White.
    White,
}

/// Nothing but the ground and the notice.
pub(super) fn blank_ui(ui: &Ui, blank: Blank) {
    let (ground, ink) = match blank {
        Blank::Black => (BLACK_OUT, Ink::Faint.colour(Theme::Dark)),
        Blank::White => (WHITE_OUT, Ink::Faint.colour(Theme::Light)),
    };
    let rect = ui.max_rect();
    let response = ui.interact(rect, ui.id().with("blank"), egui::Sense::hover());
    let words = format!("{NOTICE} Esc brings the picture back.");
    response
        .widget_info(|| egui::WidgetInfo::labeled(egui::WidgetType::Label, true, words.as_str()));
    ui.painter().rect_filled(rect, 0.0, ground);
    let font = FontId::proportional(SMALL);
    let galley = ui
        .painter()
        .layout(words.clone(), font, ink, rect.width() - 20.0);
    let place =
        Align2::LEFT_BOTTOM.anchor_size(rect.left_bottom() + vec2(10.0, -6.0), galley.size());
    ui.painter().galley(place.min, galley, ink);
}
