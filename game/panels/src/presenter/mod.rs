//! Presenter mode: the drawing, one reading, one sentence and the check, in sizes that a class can read on a wall.
//!
//! The window is laid out in fewer points while presenting and the zoom factor is raised, so that all text and all lines
//! of every drawing grow together; [`paint`](crate::drawing::paint) widens what is still too thin.

mod agreement;
mod blank;
mod keys;
mod pen;
mod reading;
mod sentence;
mod spotlight;
mod stops;

use egui::{Frame, Id, Margin, Panel, Rect, RichText, Ui, vec2};

use crate::{
    command::UiCommand,
    drawing::least_line,
    figure::figure_ui,
    layout::NOTICE,
    section::{Room, SectionView, cautions_of, cautions_ui, follow_if_none, section_ui},
    state::{PlanWindow, Rung, UiState},
    theme::{Ink, SMALL, Theme},
    view::AppView,
    zoom::Eye,
};

pub use blank::Blank;
pub(crate) use keys::toggle_key;
pub use reading::Reading;

/// The picture that the sizes are stated for, pixels.
const PICTURE_PX: [f32; 2] = [1920.0, 1080.0];
/// The smallest text on it: with a picture two metres wide it can be read from five.
const LABEL_PX: f32 = 24.0;
/// The thinnest line on it.
const LINE_PX: f32 = 2.5;
/// Pixels of that picture in a point.
const PX_PER_POINT: f32 = LABEL_PX / SMALL;
/// Below this width the sentence stands below the reading, points.
const WIDE: f32 = 800.0;

/// What only a presentation knows.
#[derive(Clone, Debug, PartialEq)]
pub struct Presenting {
    /// The one reading.
    pub reading: Reading,
    /// What the pointer does.
    pub tool: Tool,
    /// Whether the picture is taken away.
    pub blank: Option<Blank>,
    /// Whether the line with the keys is shown.
    pub keys: bool,
    /// The theme to go back to.
    theme: Theme,
    /// Where the presentation began.
    start: Stand,
}

/// What the pointer does.
#[derive(Clone, Debug, PartialEq)]
pub enum Tool {
    /// It points, chooses and moves, as always.
    Pointer,
    /// It lights a circle; the middle as shares of the width and the height of the window.
    Spotlight([f32; 2]),
    /// It draws on the frozen picture.
    Pen {
        /// Lines, their corners as shares of the width and the height of the window.
        strokes: Vec<Vec<[f32; 2]>>,
        /// Whether the flight ran before.
        ran: bool,
    },
}

/// What the drawing shows.
#[derive(Clone, Debug, PartialEq)]
struct Stand {
    rung: Rung,
    window: PlanWindow,
    eye: Eye,
    field: usize,
    part: Option<&'static str>,
}

impl Stand {
    fn of(state: &UiState) -> Self {
        Self {
            rung: state.rung,
            window: state.window,
            eye: state.eye,
            field: state.field,
            part: state.part,
        }
    }

    fn show(&self, state: &mut UiState) {
        (state.rung, state.window, state.eye) = (self.rung, self.window, self.eye);
        (state.field, state.part) = (self.field, self.part);
    }
}

/// Begins to present: light ground, as projectors want it.
pub fn present(state: &mut UiState) {
    state.presenting = Some(Presenting {
        reading: Reading::Penetration,
        tool: Tool::Pointer,
        blank: None,
        keys: true,
        theme: state.theme,
        start: Stand::of(state),
    });
    state.theme = Theme::Light;
}

/// Back to the whole window in its former theme; what the pen had stopped runs on.
pub(crate) fn leave(state: &mut UiState, out: &mut Vec<UiCommand>) {
    pen::put_away(state, out);
    if let Some(presenting) = state.presenting.take() {
        state.theme = presenting.theme;
    }
}

/// Zoom factor of the window: the size of text asked for, while presenting at least what a projector needs.
///
/// # Arguments
/// * `pixels`: width and height of the window, pixels.
/// * `native`: pixels in a point of this screen at a factor of 1.
#[must_use]
pub fn zoom_factor(state: &UiState, pixels: [f32; 2], native: f32) -> f32 {
    let asked = state.text_percent as f32 / 100.0;
    if state.presenting.is_none() {
        return asked;
    }
    let [width, height] = [0, 1].map(|side| pixels[side] / PICTURE_PX[side]);
    asked.max(PX_PER_POINT * width.min(height) / native)
}

/// Tells the drawings how thin a line may be.
pub(crate) fn set_least_line(ui: &Ui, state: &UiState) {
    let presenting = state.presenting.is_some();
    least_line(
        ui.ctx(),
        if presenting {
            LINE_PX / PX_PER_POINT
        } else {
            0.0
        },
    );
}

/// The whole window while presenting.
pub(crate) fn presenter_ui(
    root: &mut Ui,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) -> Room {
    keys::keys(root, view, section, state, out);
    let Some(presenting) = &state.presenting else {
        return Room::default();
    };
    if let Some(blank) = presenting.blank {
        blank::blank_ui(root, blank);
        return Room::default();
    }
    follow_if_none(section, state, out);
    let whole = root.max_rect();
    // Rules of widgets are lines too.
    root.visuals_mut().widgets.noninteractive.bg_stroke.width = LINE_PX / PX_PER_POINT;
    let frame = Frame::new()
        .fill(Ink::Panel.colour(state.theme))
        .inner_margin(Margin::symmetric(10, 2));
    Panel::top("presented")
        .frame(frame)
        .show_separator_line(false)
        .show(root, |ui| head_ui(ui, view, section, state));
    let notice = below_ui(root, frame, view, section, state, out);
    let lit = Rect::from_min_max(whole.min, notice.right_top());
    let rect = root.available_rect_before_wrap();
    let room = section_ui(root, section, state, rect, out);
    spotlight::spotlight_ui(root, state, whole, lit);
    pen::pen_ui(root, state, whole, rect);
    room
}

/// The reading, and the sentence beside it or below.
fn head_ui(ui: &mut Ui, view: &AppView<'_>, section: &SectionView<'_>, state: &mut UiState) {
    close_rows(ui);
    let sentence = sentence::sentence(view, section, state);
    let words = |ui: &mut Ui| {
        ui.label(RichText::new(sentence).size(sentence::SIZE));
    };
    if ui.available_width() < WIDE {
        reading::reading_ui(ui, view, state);
        words(ui);
        return;
    }
    ui.horizontal(|ui| {
        ui.vertical(|ui| {
            ui.set_width(0.46 * ui.available_width());
            reading::reading_ui(ui, view, state);
        });
        ui.vertical(|ui| {
            ui.add_space(4.0);
            words(ui);
        });
    });
}

/// From below: the notice, the keys, the cautions, the check. Returns where the notice stands.
fn below_ui(
    root: &mut Ui,
    frame: Frame,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) -> Rect {
    let shown = |id: &'static str| Panel::bottom(id).frame(frame).show_separator_line(false);
    let notice = shown("notice while presenting").show(root, |ui| notice_ui(ui, state));
    if state.presenting.as_ref().is_some_and(|now| now.keys) {
        shown("keys").show(root, |ui| {
            keys::keys_ui(ui, view, section, state, out);
        });
    }
    let cautions = sentence::cautions(cautions_of(state.rung), state);
    if !cautions.is_empty() {
        shown("cautions").show(root, |ui| {
            close_rows(ui);
            cautions_ui(ui, cautions, state, 0.0);
        });
    }
    shown("check").show(root, |ui| {
        let line = agreement::agreement_line(view, section, state.rung, ui.available_width());
        figure_ui(ui, &line, "Agreement", state);
    });
    notice.response.rect
}

/// The notice, and the way to the keys where they are hidden.
fn notice_ui(ui: &mut Ui, state: &mut UiState) {
    close_rows(ui);
    ui.horizontal_wrapped(|ui| {
        let ink = Ink::Faint.colour(state.theme);
        ui.label(RichText::new(NOTICE).size(SMALL).color(ink));
        if let Some(presenting) = &mut state.presenting
            && !presenting.keys
            && ui.button(RichText::new("H keys").size(SMALL)).clicked()
        {
            presenting.keys = true;
        }
    });
}

/// Rows no higher than their words: what is large on the wall has room round it there.
fn close_rows(ui: &mut Ui) {
    let spacing = ui.spacing_mut();
    spacing.item_spacing = vec2(4.0, 2.0);
    spacing.button_padding = vec2(5.0, 1.0);
    spacing.interact_size.y = SMALL;
}

/// The thing over the drawing that holds the focus while the pointer has a tool.
fn tool_id() -> Id {
    Id::new("tool of the presenter")
}
