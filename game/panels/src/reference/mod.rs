//! What can be looked up beside any work: the words of the trade, and how we know that the formulas hold.

mod formulas;
mod glossary;
mod linked;

use egui::{Id, Rect, ScrollArea, Window, containers::panel::PanelState, vec2};

use crate::state::UiState;

pub(crate) use linked::linked_ui;

/// What is looked up.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reference {
    /// Which page is open.
    pub page: Page,
    /// What is looked for.
    pub wanted: String,
    /// Values of formulas that were worked out on the page: name and value.
    pub computed: Vec<(&'static str, f64)>,
}

/// A page of the reference.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Page {
    /// The words of the trade.
    #[default]
    Glossary,
    /// The formulas, their sources and their check values.
    Formulas,
}

/// Size of the window at first, points.
const SIZE: [f32; 2] = [560.0, 460.0];
/// Room for the bar above it, and for the notice below it, where neither has been shown yet, points.
const ABOVE: f32 = 76.0;
const BELOW: f32 = 28.0;

/// The window, while it is open.
pub(crate) fn reference_ui(context: &egui::Context, state: &mut UiState) {
    let Some(mut reference) = state.reference.take() else {
        return;
    };
    let mut open = true;
    // The bar above and the notice below stay in sight.
    let screen = context.viewport_rect();
    let height = |name, otherwise| {
        let panel = PanelState::load(context, Id::new(name));
        panel.map_or(otherwise, |panel| panel.outer_rect.height())
    };
    let (above, below) = (height("bar", ABOVE), height("notice", BELOW));
    let room = Rect::from_min_max(screen.min + vec2(8.0, above), screen.max - vec2(8.0, below));
    let size = [SIZE[0].min(room.width()), SIZE[1].min(room.height())];
    Window::new("Reference")
        .open(&mut open)
        .collapsible(false)
        .fade_in(false)
        .default_pos(room.min + vec2(0.2 * (room.width() - size[0]), 0.0))
        .default_size(size)
        .max_size(room.size())
        .constrain_to(room)
        .show(context, |ui| {
            ui.horizontal_wrapped(|ui| {
                for (page, name) in [
                    (Page::Glossary, "Glossary"),
                    (Page::Formulas, "How do we know"),
                ] {
                    if ui.selectable_label(reference.page == page, name).clicked() {
                        reference.page = page;
                    }
                }
            });
            ui.separator();
            match reference.page {
                Page::Glossary => glossary::search_ui(ui, &mut reference),
                Page::Formulas => formulas::about_ui(ui, state),
            }
            ScrollArea::vertical()
                .id_salt("reference")
                .auto_shrink([false, false])
                .show(ui, |ui| match reference.page {
                    Page::Glossary => glossary::terms_ui(ui, &reference, state),
                    Page::Formulas => formulas::formulas_ui(ui, &mut reference, state),
                });
        });
    let escaped = context.input(|input| input.key_pressed(egui::Key::Escape));
    if open && !escaped {
        state.reference = Some(reference);
    }
}
