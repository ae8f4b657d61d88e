//! Below the big drawing: the other section with its mark, and the cautions beside it.

use egui::{Frame, Margin, Panel, RichText, Ui, UiBuilder, vec2};

use super::{
    SectionView,
    cautions::{cautions_of, cautions_ui},
    here::{here_drawing, here_words},
};
use crate::{
    figure::figure_ui,
    state::UiState,
    theme::{Ink, SMALL},
};

/// Least height of the middle of the window from which on there is a small section, points.
const WITH_HERE: f32 = 400.0;
/// Its height as a share of that, and the least and most of it.
const SHARE: f32 = 0.16;
const HEIGHT: (f32, f32) = (70.0, 104.0);
/// Its width over its height.
const WIDE: f32 = 1.9;
/// With words beside it, it is no wider than this share of the room.
const MOST: f32 = 0.34;

/// The foot of the drawing, if there is anything in it.
pub(crate) fn foot_ui(ui: &mut Ui, section: &SectionView<'_>, state: &mut UiState) {
    let height = ui.available_height();
    let cautions = cautions_of(state.rung);
    let tall = (SHARE * height).clamp(HEIGHT.0, HEIGHT.1);
    let room = ui.available_width() - 20.0;
    let wide = (WIDE * tall).min(if cautions.is_empty() {
        room
    } else {
        MOST * room
    });
    let here = (height >= WITH_HERE)
        .then(|| here_drawing(section, state, [wide, tall]))
        .flatten();
    if here.is_none() && cautions.is_empty() {
        return;
    }
    let frame = Frame::new()
        .fill(Ink::Panel.colour(state.theme))
        .inner_margin(Margin::symmetric(10, 4));
    Panel::bottom("foot").frame(frame).show(ui, |ui| {
        let Some(here) = here else {
            return cautions_ui(ui, cautions, state, height);
        };
        ui.horizontal_top(|ui| {
            figure_ui(ui, &here, "Where the drawing looks", state);
            ui.add_space(8.0);
            let beside = ui.available_rect_before_wrap();
            let mut words = ui.new_child(UiBuilder::new().max_rect(beside));
            words.vertical(|ui| match here_words(section, state) {
                Some(text) if cautions.is_empty() => {
                    let ink = Ink::Faint.colour(state.theme);
                    ui.label(RichText::new(text).size(SMALL).color(ink));
                }
                _ => cautions_ui(ui, cautions, state, height),
            });
            let used = words.min_rect().height();
            ui.allocate_space(vec2(0.0, used));
        });
    });
}
