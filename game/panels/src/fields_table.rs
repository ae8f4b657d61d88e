//! What every field reaches and catches, in one small table.

use ashlane_shared::{
    simulation::FieldState,
    units::{Dimension, display, format, number_text},
};
use egui::{Grid, RichText, Ui};

use crate::{
    charts::percent_text,
    state::UiState,
    theme::{Ink, SMALL},
    view::AppView,
};

/// The table.
pub(crate) fn fields_table_ui(ui: &mut Ui, view: &AppView<'_>, state: &UiState) {
    let faint = Ink::Faint.colour(state.theme);
    ui.label(RichText::new("Fields").strong());
    Grid::new("fields")
        .num_columns(4)
        .spacing([12.0, 3.0])
        .striped(true)
        .show(ui, |ui| {
            for head in ["Field", "mean / peak", "current", "dust caught"] {
                ui.label(RichText::new(head).size(SMALL).color(faint));
            }
            ui.end_row();
            for (index, field) in view.fields.iter().enumerate() {
                ui.label(view.conditions.field_number(index).to_string());
                ui.label(voltages(field, state));
                ui.label(format(
                    field.metered_a_m2(),
                    Dimension::CurrentDensity,
                    state.units,
                ));
                let caught = view
                    .count
                    .result
                    .and_then(|result| result.by_field.get(index));
                ui.label(
                    caught.map_or_else(|| "…".to_owned(), |field| percent_text(field.collected)),
                );
                ui.end_row();
            }
        });
    sparks_ui(ui, view, state);
    if let Some(result) = view.count.result {
        let penetration = result.penetration.share;
        let emission = penetration * view.conditions.dust.load_kg_m3;
        let text = format!(
            "leaves {} of the dust, {}",
            percent_text(penetration),
            format(emission, Dimension::Emission, state.units)
        );
        ui.label(RichText::new(text).size(SMALL).color(faint));
    }
}

/// Mean and peak voltage, with one unit; as fine as a meter that also shows the highest.
fn voltages(field: &FieldState, state: &UiState) -> String {
    let text = |voltage_v: f64| {
        let (shown, unit) = display(voltage_v, Dimension::Voltage, state.units);
        (number_text((100.0 * shown).round() / 100.0, 3), unit)
    };
    let ((mean, _), (peak, unit)) = (text(field.metered_v()), text(field.metered_peak_v()));
    format!("{mean} / {peak} {unit}")
}

/// Which fields spark, and how often.
fn sparks_ui(ui: &mut Ui, view: &AppView<'_>, state: &UiState) {
    let sparking: Vec<String> = view
        .fields
        .iter()
        .enumerate()
        .filter(|(_, field)| field.sparks_per_min > 0.0)
        .map(|(index, field)| {
            (
                view.conditions.short_field_name(index),
                field.sparks_per_min,
            )
        })
        .map(|(name, rate)| format!("{name} {rate:.0}/min"))
        .collect();
    if !sparking.is_empty() {
        let text = format!("sparks: {}", sparking.join(" · "));
        let ink = Ink::Text.colour(state.theme);
        ui.label(RichText::new(text).size(SMALL).color(ink));
    }
}
