//! The ladder of scales above the drawing: from the whole length to one grain, and what belongs to the step it stands at.

use ashlane_shared::{
    conditions::{Conditions, capitalised},
    simulation::{Clock, Follow},
    units::{Dimension, display, number_text},
};
use egui::{Response, RichText, Ui};

use super::{SectionView, parts::parts_list_ui};
use crate::{
    command::UiCommand,
    state::{PlanWindow, Rung, UiState},
    theme::{Ink, SMALL},
    view::AppView,
    wire::WireLayer,
    zoom::Eye,
};

/// Length of the passage at which the plan is about as long as it is wide, wire spacings.
pub(crate) const PASSAGE_WIRES: f64 = 4.0;

/// Sizes of grain that can be followed, m.
const GRAINS_M: [f64; 4] = [1e-6, 5e-6, 10e-6, 30e-6];

/// The ladder, and word of a field that is awaited or failed.
pub(crate) fn ladder_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        steps_ui(ui, view.conditions, section, state);
        grain_step_ui(ui, state);
        ui.separator();
        let hover = "Electrical set of the field: voltage and current over time, sparks, readings";
        let board = state.rung == Rung::Board;
        let panel = section.board.words();
        if step(ui, board, &panel, "What the operator’s panel shows").clicked() {
            state.rung = Rung::Board;
        }
        let at_set = state.rung == Rung::Energization;
        if step(ui, at_set, "Energization", hover).clicked() {
            let field_m = view.conditions.collector.field_length_m as f32;
            state.field = present_field(state, field_m, section.fields().len());
            state.rung = Rung::Energization;
        }
        match state.rung {
            Rung::Plan => {
                ui.separator();
                nearer_ui(ui, view.conditions, state);
            }
            Rung::Grain => {
                ui.separator();
                grain_sizes_ui(ui, view.conditions, state, out);
            }
            Rung::Energization | Rung::Board => {}
            Rung::Elevation | Rung::CrossSection => {
                ui.separator();
                parts_list_ui(ui, &section.elevation, state);
            }
            Rung::Wire => {
                ui.separator();
                wire_layers_ui(ui, state);
            }
        }
        let close = matches!(state.rung, Rung::Wire | Rung::Grain | Rung::Energization);
        if close && matches!(view.flight.clock.runs, Clock::Plant { .. }) {
            ui.separator();
            let text = "with the layer of the sheet, not that of the plant clock";
            ui.label(RichText::new(text).size(SMALL));
        }
        if view.flight.waits_for_field {
            ui.separator();
            ui.spinner();
            ui.label(RichText::new("computing the field").size(SMALL));
        }
        if view.flight.field_before {
            ui.separator();
            let text = "field of the conditions before: Run takes over the new one";
            ui.label(RichText::new(text).size(SMALL));
        }
    });
    follow_if_none(section, state, out);
    if let Some(trouble) = view.field_trouble {
        let text =
            format!("No field for these conditions: {trouble}. The field before still holds.");
        ui.label(RichText::new(text).color(Ink::Trouble.colour(state.theme)));
    }
}

/// What the colours round a wire show.
fn wire_layers_ui(ui: &mut Ui, state: &mut UiState) {
    for (layer, text, hover) in [
        (
            WireLayer::Field,
            "field",
            "Colours show the strength of the field",
        ),
        (WireLayer::Ions, "ions", "Colours show ions per volume"),
    ] {
        if step(ui, state.wire_layer == layer, text, hover).clicked() {
            state.wire_layer = layer;
        }
    }
}

fn step(ui: &mut Ui, shown: bool, text: &str, hover: &str) -> Response {
    ui.selectable_label(shown, RichText::new(text).size(SMALL))
        .on_hover_text(hover)
}

fn between(ui: &mut Ui, state: &UiState) {
    ui.label(RichText::new("›").color(Ink::Faint.colour(state.theme)));
}

/// The whole machine, from the side and across the gas.
fn machine_steps_ui(ui: &mut Ui, state: &mut UiState) {
    let side = state.rung == Rung::Elevation;
    if step(ui, side, "Collector", "The whole machine from the side").clicked() {
        state.rung = Rung::Elevation;
        state.eye = Eye::WHOLE;
    }
    let across = state.rung == Rung::CrossSection;
    let hover = "Across the gas: passages side by side, the gas over the face";
    if step(ui, across, "Across", hover).clicked() {
        state.rung = Rung::CrossSection;
    }
}

/// Plan › Field › Gas passage › Wire.
fn steps_ui(ui: &mut Ui, conditions: &Conditions, section: &SectionView<'_>, state: &mut UiState) {
    let (total_m, field_m) = (
        conditions.length_m() as f32,
        conditions.collector.field_length_m as f32,
    );
    let plan = state.rung == Rung::Plan;
    let whole = plan && state.window.length_m > 0.999 * total_m;
    machine_steps_ui(ui, state);
    between(ui, state);
    if step(
        ui,
        whole,
        "Plan",
        "All fields from above, one after the other",
    )
    .clicked()
    {
        show(state, total_m, 0.0, total_m);
    }
    between(ui, state);
    let field = capitalised(conditions.part_name("field"));
    ui.label(RichText::new(field).size(SMALL));
    let present = present_field(state, field_m, section.fields().len());
    for field in 0..section.fields().len() {
        let start_m = field as f32 * field_m;
        let shown = match state.rung {
            Rung::Plan => {
                (state.window.start_m - start_m).abs() < 1e-3
                    && (state.window.length_m - field_m).abs() < 1e-3
            }
            Rung::Wire | Rung::Energization => field == present,
            _ => false,
        };
        let number = conditions.field_number(field).to_string();
        if step(ui, shown, &number, &conditions.field_title(field)).clicked() {
            state.field = field;
            if !matches!(state.rung, Rung::Wire | Rung::Energization) {
                show(state, total_m, start_m, field_m);
            }
        }
    }
    between(ui, state);
    let passage_m = (PASSAGE_WIRES * conditions.collector.wire_spacing_m) as f32;
    let close = plan && state.window.length_m <= 1.01 * passage_m;
    if step(ui, close, "Gas passage", "A few wires between their plates").clicked() {
        let middle_m = if plan {
            state.window.start_m + 0.5 * state.window.length_m
        } else {
            (present as f32 + 0.5) * field_m
        };
        show(state, total_m, middle_m - 0.5 * passage_m, passage_m);
    }
    between(ui, state);
    let hover = "One wire: field, ions, and where the current goes";
    if step(ui, state.rung == Rung::Wire, "Wire", hover).clicked() {
        state.field = present;
        state.rung = Rung::Wire;
    }
}

/// The field that a closer look is at, or that the plan shows most of.
pub(crate) fn present_field(state: &UiState, field_m: f32, fields: usize) -> usize {
    let field = match state.rung {
        Rung::Plan => ((state.window.start_m + 0.5 * state.window.length_m) / field_m) as usize,
        _ => state.field,
    };
    field.min(fields.saturating_sub(1))
}

/// The last step: one grain, followed from the inlet on.
fn grain_step_ui(ui: &mut Ui, state: &mut UiState) {
    between(ui, state);
    let hover = "One grain: its path, its charge, and what pulls at it";
    if step(ui, state.rung == Rung::Grain, "Grain", hover).clicked() {
        state.rung = Rung::Grain;
    }
}

/// The size to follow, and another grain of it.
fn grain_sizes_ui(
    ui: &mut Ui,
    conditions: &Conditions,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    if conditions.teaching.single_diameter_m.is_none() {
        let there = GRAINS_M
            .into_iter()
            .filter(|diameter_m| conditions.has_grains_of(*diameter_m));
        for diameter_m in there {
            let text = number_text(display(diameter_m, Dimension::GrainSize, state.units).0, 2);
            let shown = (state.grain_m / diameter_m - 1.0).abs() < 1e-6;
            if step(ui, shown, &text, "Follow the next grain of about this size").clicked() {
                state.grain_m = diameter_m;
                out.push(follow(diameter_m));
            }
        }
    }
    let (_, unit) = display(state.grain_m, Dimension::GrainSize, state.units);
    ui.label(RichText::new(unit).size(SMALL));
    let again = ui.button(RichText::new("Next").size(SMALL));
    if again
        .on_hover_text("Follow the next grain that enters")
        .clicked()
    {
        out.push(follow(state.grain_m));
    }
}

/// A grain is followed where one is to be shown.
pub(crate) fn follow_if_none(section: &SectionView<'_>, state: &UiState, out: &mut Vec<UiCommand>) {
    if state.rung == Rung::Grain && section.grain.is_none() {
        out.push(follow(state.grain_m));
    }
}

fn follow(diameter_m: f64) -> UiCommand {
    UiCommand::Follow(Follow { diameter_m })
}

/// Shows a part of the plan.
pub(crate) fn show(state: &mut UiState, total_m: f32, start_m: f32, length_m: f32) {
    state.rung = Rung::Plan;
    state.window = PlanWindow { start_m, length_m }.within(total_m);
}

/// Nearer and farther on the plan.
fn nearer_ui(ui: &mut Ui, conditions: &Conditions, state: &mut UiState) {
    let middle_m = state.window.start_m + 0.5 * state.window.length_m;
    for (text, factor, hover) in [("+", 0.6, "Nearer"), ("−", 1.0 / 0.6, "Farther")] {
        if ui.button(text).on_hover_text(hover).clicked() {
            state.window = state
                .window
                .zoomed(factor, middle_m, conditions.length_m() as f32);
        }
    }
}
