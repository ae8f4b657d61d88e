//! The column of charts: every figure with its agreement line below it, in four parts that open and close.

use egui::{CollapsingHeader, RichText, ScrollArea, Ui};

use crate::{
    charts::{
        LayerCurve, along_drawing, by_size_checks, by_size_drawing, by_size_note, caught_checks,
        caught_drawing, face_check, face_drawing, face_note, hoppers_checks, hoppers_drawing,
        layer_curve_check, layer_curve_drawing, layers_checks, layers_drawing, stack_checks,
        stack_drawing, textbook_note, voltage_current_check, voltage_current_drawing,
    },
    checks::{CheckLine, check_ui},
    command::UiCommand,
    drawing::Drawing,
    faults::faults_ui,
    fields_table::fields_table_ui,
    figure::figure_ui,
    section::SectionView,
    state::UiState,
    theme::SMALL,
    view::AppView,
};
use ashlane_shared::units::{Dimension, format};

/// Resistivities to choose from, Ω·m: from what conducts well to what breaks down at any current (1e10 to 1e12 Ω·cm).
const RESISTIVITIES_OHM_M: [f64; 3] = [1e8, 1e9, 1e10];

/// The column.
pub(crate) fn charts_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    ScrollArea::vertical()
        .auto_shrink([false, false])
        .show(ui, |ui| {
            faults_ui(ui, view, state, out);
            let width = (ui.available_width() - 2.0).min(560.0);
            let size = [width, (0.66 * width).clamp(190.0, 280.0)];
            part(ui, "Collection", |ui| collection_ui(ui, view, state, size));
            part(ui, "Voltage and current", |ui| {
                voltage_current_ui(ui, section, state, size);
                layer_curve_ui(ui, view, section, state, size);
            });
            if view.plant.is_some() {
                part(ui, "Plant clock", |ui| plant_ui(ui, view, state, width));
            }
            if view.face.is_some() {
                part(ui, "Gas", |ui| face_ui(ui, view, state, size));
            }
        });
}

fn part(ui: &mut Ui, name: &str, contents: impl FnOnce(&mut Ui)) {
    CollapsingHeader::new(RichText::new(name).strong())
        .default_open(true)
        .show_unindented(ui, contents);
}

/// A figure with its agreement lines and a note.
fn checked(
    ui: &mut Ui,
    (drawing, name): (&Drawing, &str),
    lines: &[CheckLine],
    note: Option<String>,
    state: &UiState,
) {
    figure_ui(ui, drawing, name, state);
    for line in lines {
        check_ui(ui, line, state);
    }
    if let Some(note) = note {
        ui.label(RichText::new(note).size(SMALL));
    }
    ui.add_space(8.0);
}

fn collection_ui(ui: &mut Ui, view: &AppView<'_>, state: &UiState, size: [f32; 2]) {
    match along_drawing(&view.count, state.units, size) {
        Some(drawing) => checked(
            ui,
            (&drawing, "Chart along the collector"),
            &[],
            None,
            state,
        ),
        None => {
            ui.label("Counting …");
        }
    }
    let tall = [size[0], size[1] + 60.0];
    if let Some(drawing) = by_size_drawing(&view.count, state.units, tall) {
        let lines = by_size_checks(&view.count);
        let note = Some(by_size_note());
        checked(ui, (&drawing, "Chart by grain size"), &lines, note, state);
    }
    if let Some(drawing) = caught_drawing(&view.count, view.conditions, state.units, size[0]) {
        let plant = view.plant.as_ref();
        let lines = caught_checks(&view.count, view.conditions, plant, state.units);
        checked(ui, (&drawing, "Where the dust ends"), &lines, None, state);
    }
    fields_table_ui(ui, view, state);
}

/// Voltage against current of the field that is looked at, with its checks.
fn voltage_current_ui(ui: &mut Ui, section: &SectionView<'_>, state: &UiState, size: [f32; 2]) {
    let Some(view) = &section.energization else {
        return;
    };
    let set = view.energization;
    // Its key stands below it.
    let drawing = voltage_current_drawing(set, view.name, state.units, [size[0], size[1] + 90.0]);
    let note = textbook_note(set, state.units);
    let lines = [voltage_current_check(set)];
    checked(
        ui,
        (&drawing, "Voltage against current"),
        &lines,
        note,
        state,
    );
}

/// The same with a layer of a resistivity to choose.
fn layer_curve_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    size: [f32; 2],
) {
    let Some(energization) = &section.energization else {
        return;
    };
    let set = energization.energization;
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new("Resistivity:").size(SMALL));
        let named = |ohm_m: f64| format(ohm_m, Dimension::Resistivity, state.units);
        let own = format!("the dust’s own, {}", named(set.layer.resistivity_ohm_m));
        let others = RESISTIVITIES_OHM_M.map(|ohm_m| (Some(ohm_m), named(ohm_m)));
        for (choice, text) in [(None, own)].into_iter().chain(others) {
            let chosen = state.layer_ohm_m == choice;
            if ui
                .selectable_label(chosen, RichText::new(text).size(SMALL))
                .clicked()
            {
                state.layer_ohm_m = choice;
            }
        }
    });
    let last = view.plant.as_ref().and_then(|plant| plant.readings.last());
    let field = last.and_then(|reading| reading.fields.get(set.field));
    let thickness_m = field
        .map(|field| field.layer_m)
        .filter(|layer_m| *layer_m > 0.0);
    let curve = LayerCurve::new(set, state.layer_ohm_m, thickness_m);
    let drawing = layer_curve_drawing(
        &curve,
        energization.name,
        state.units,
        [size[0], size[1] + 70.0],
    );
    let lines: Vec<CheckLine> = layer_curve_check(&curve, state.units).into_iter().collect();
    let name = "Current against voltage with a layer";
    checked(ui, (&drawing, name), &lines, None, state);
}

/// The plant clock: layers and meters, the stack, the hoppers.
fn plant_ui(ui: &mut Ui, view: &AppView<'_>, state: &UiState, width: f32) {
    let Some(plant) = &view.plant else {
        return;
    };
    let lines = layers_checks(plant);
    let drawing = layers_drawing(plant, width);
    checked(
        ui,
        (&drawing, "Layers and meters over time"),
        &lines,
        None,
        state,
    );
    let (drawing, lines) = (stack_drawing(plant, width), stack_checks(plant));
    checked(
        ui,
        (&drawing, "Emission and opacity over time"),
        &lines,
        None,
        state,
    );
    let lines = hoppers_checks(plant, view.count.result);
    let drawing = hoppers_drawing(plant, width);
    checked(ui, (&drawing, "Hoppers over time"), &lines, None, state);
}

/// The face with its check and the bounds of practice.
fn face_ui(ui: &mut Ui, view: &AppView<'_>, state: &UiState, size: [f32; 2]) {
    let Some(face) = &view.face else {
        return;
    };
    let (drawing, lines) = (face_drawing(face, size), [face_check(face)]);
    let name = "Gas velocity over the face";
    checked(ui, (&drawing, name), &lines, Some(face_note(face)), state);
}
