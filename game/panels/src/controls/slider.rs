//! One control: its name, a typed value with its unit, a slider, and marks on the slider's rail.

use ashlane_shared::{
    conditions::Range,
    units::{Dimension, display, from_display, number_text},
};
use egui::{Align, DragValue, Layout, Pos2, Response, Slider, SliderClamping, Stroke, Ui, vec2};

use crate::{
    drawing::text_width,
    state::UiState,
    theme::{BODY, Ink},
};

/// Digits of a value, as everywhere else in the window.
const DIGITS: usize = 4;
/// Room that a value with its unit takes beside its name, points.
const VALUE: f32 = 68.0;

/// A mark on the rail.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Mark {
    /// Where, SI.
    pub(super) value: f64,
    /// What it is, for the hover text.
    pub(super) text: &'static str,
    pub(super) ink: Ink,
}

/// What a control shows.
#[derive(Clone, Debug)]
pub(super) struct Control<'a> {
    pub(super) label: &'a str,
    pub(super) symbol: &'a str,
    pub(super) meaning: &'a str,
    /// SI.
    pub(super) value: f64,
    /// What the slider offers, SI.
    pub(super) slider: Range,
    /// What may be typed, SI.
    pub(super) allowed: Range,
    pub(super) dimension: Dimension,
    pub(super) logarithmic: bool,
    /// Whether only whole numbers make sense.
    pub(super) whole: bool,
    pub(super) marks: Vec<Mark>,
}

/// What the user did to a control.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Answer {
    /// New value, SI.
    pub(super) value: Option<f64>,
    /// Whether a drag or an entry ended.
    pub(super) done: bool,
}

/// Draws a control and tells what was done to it.
pub(super) fn control_ui(ui: &mut Ui, control: &Control<'_>, state: &UiState) -> Answer {
    let shown = |value: f64| display(value, control.dimension, state.units).0;
    let unit = display(control.value, control.dimension, state.units).1;
    let mut edited = shown(control.value);
    let before = edited;
    let ends = [
        control.slider.min.min(control.value),
        control.slider.max.max(control.value),
    ];
    let (low, high) = (shown(ends[0]), shown(ends[1]));
    let mut responses = Vec::new();
    // A long name stands in lines of its own above its value.
    let is_long = text_width(control.label, BODY, false) + VALUE > ui.available_width();
    let above = is_long.then(|| ui.label(control.label).on_hover_text(hover(control)));
    ui.horizontal(|ui| {
        let name = above.unwrap_or_else(|| ui.label(control.label).on_hover_text(hover(control)));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let typed = DragValue::new(&mut edited)
                .range(shown(control.allowed.min)..=shown(control.allowed.max))
                .speed((high - low).abs() / if control.whole { 100.0 } else { 400.0 })
                .suffix(if unit.is_empty() {
                    String::new()
                } else {
                    format!(" {unit}")
                })
                .update_while_editing(false)
                .custom_formatter(|value, _| number_text(value, DIGITS));
            responses.push(ui.add(typed).labelled_by(name.id));
        });
    });
    ui.spacing_mut().slider_width = ui.available_width().max(60.0);
    let mut slider = Slider::new(&mut edited, low..=high)
        .show_value(false)
        .logarithmic(control.logarithmic)
        .clamping(SliderClamping::Never);
    if control.whole {
        slider = slider.integer();
    }
    let slider = ui.add(slider);
    let enabled = ui.is_enabled();
    slider.widget_info(|| {
        egui::WidgetInfo::slider(enabled, edited, format!("{} slider, {unit}", control.label))
    });
    marks_ui(ui, control, state, &slider, (low, high));
    let slider = slider.on_hover_text(hover(control));
    responses.push(slider);
    let done = responses
        .iter()
        .any(|response| response.drag_stopped() || response.lost_focus());
    // Comparing bits: an untouched value came through both widgets as it was.
    let value = (edited.to_bits() != before.to_bits()).then(|| {
        let value = from_display(edited, control.dimension, state.units);
        value.clamp(control.allowed.min, control.allowed.max)
    });
    Answer { value, done }
}

fn hover(control: &Control<'_>) -> String {
    if control.symbol.is_empty() {
        control.meaning.to_owned()
    } else {
        format!(
            "{}\nSymbol in the formulas: {}",
            control.meaning, control.symbol
        )
    }
}

/// Small ticks under the rail at the reference values.
fn marks_ui(
    ui: &Ui,
    control: &Control<'_>,
    state: &UiState,
    slider: &Response,
    (low, high): (f64, f64),
) {
    let rect = slider.rect;
    let handle = rect.height() / 2.5;
    for mark in &control.marks {
        let value = display(mark.value, control.dimension, state.units).0;
        let share = if control.logarithmic && low > 0.0 {
            (value / low).ln() / (high / low).ln()
        } else {
            (value - low) / (high - low)
        };
        if !(0.0..=1.0).contains(&share) {
            continue;
        }
        let x = egui::lerp(rect.left() + handle..=rect.right() - handle, share as f32);
        let stroke = Stroke::new(2.0, mark.ink.colour(state.theme));
        let bottom = rect.bottom() - 1.0;
        ui.painter()
            .line_segment([Pos2::new(x, bottom - 6.0), Pos2::new(x, bottom)], stroke);
        let area = egui::Rect::from_center_size(Pos2::new(x, bottom - 3.0), vec2(6.0, 8.0));
        ui.interact(area, slider.id.with(mark.text), egui::Sense::hover())
            .on_hover_text(mark.text);
    }
}
