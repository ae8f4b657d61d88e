//! What was measured, with N, ± and the formula beside it, and the verdict.

use ashlane_lessons::engine::{CheckResult, Measured, Reading, Relation};
use ashlane_shared::{
    checks::{Verdict, find_formula},
    units::{Dimension, format},
};
use egui::{Grid, RichText, Ui};

use super::faint;
use crate::{state::UiState, strip::thousands, theme::Ink};

pub(super) fn reading_ui(ui: &mut Ui, reading: &Reading, state: &UiState) {
    if reading.is_about_dust() {
        dust_ui(ui, reading, state);
    }
    for check in &reading.checks {
        check_ui(ui, check, state);
    }
}

fn dust_ui(ui: &mut Ui, reading: &Reading, state: &UiState) {
    Grid::new("reading")
        .num_columns(3)
        .spacing([12.0, 2.0])
        .show(ui, |ui| {
            for head in ["", "penetration", "efficiency"] {
                ui.label(faint(head, state));
            }
            ui.end_row();
            for (name, measured) in [("before", &reading.before), ("after", &reading.after)] {
                measured_ui(ui, name, measured);
            }
        });
    ui.label(faint(
        format!(
            "N = {} and {} parcels, ± three standard errors",
            thousands(reading.before.parcels),
            thousands(reading.after.parcels)
        ),
        state,
    ));
}

fn measured_ui(ui: &mut Ui, name: &str, measured: &Measured) {
    let counted = measured.penetration;
    let error = 300.0 * counted.standard_error;
    let digits = decimals(error);
    ui.label(name);
    ui.label(
        RichText::new(format!(
            "{:.digits$} ± {error:.digits$} %",
            100.0 * counted.share
        ))
        .strong(),
    );
    ui.label(format!("{:.digits$} %", 100.0 * (1.0 - counted.share)));
    ui.end_row();
}

fn check_ui(ui: &mut Ui, check: &CheckResult, state: &UiState) {
    let title = |name: &str| find_formula(name).map_or("", |formula| formula.title);
    let number = |value: f64| {
        let error = check.plus_minus();
        check.quantity.text(value, error, state.units)
    };
    let difference = |value: f64| {
        let error = check.plus_minus();
        check.quantity.difference_text(value, error, state.units)
    };
    let title_of = check.quantity.row().title;
    let quantity = match check.size_m {
        Some(size_m) => {
            let size = format(size_m, Dimension::GrainSize, state.units);
            format!("{title_of}, {size}:")
        }
        None => (check.field).map_or_else(
            || title_of.to_owned(),
            |field| format!("{title_of}, field {field}"),
        ),
    };
    let formula = format!(
        "{} {}",
        title(&check.formula.formula),
        number(check.formula.value)
    );
    let relation = match (check.relation, &check.upper) {
        (Relation::Between, Some(upper)) => format!(
            "between {formula} and {} {}",
            title(&upper.formula),
            number(upper.value)
        ),
        (Relation::Above, _) => format!("above {formula}"),
        (Relation::Below, _) => format!("below {formula}"),
        _ => format!("equals {formula}"),
    };
    let (verdict, ink) = match check.verdict {
        Verdict::Agree => ("agrees", Ink::FiniteMixing),
        Verdict::Disagree => ("DISAGREES", Ink::Trouble),
    };
    ui.horizontal_wrapped(|ui| {
        ui.label(
            RichText::new(verdict)
                .strong()
                .color(ink.colour(state.theme)),
        );
        ui.label(format!(
            "{quantity} {} {relation}",
            number(check.measured)
        ))
        .on_hover_text(format!(
            "difference {}, tolerance {} (the larger of the stated one and three standard errors)",
            difference(check.difference),
            difference(check.tolerance)
        ));
    });
}

/// Decimals at which an error of this size, in per cent, shows two digits.
fn decimals(error_percent: f64) -> usize {
    if error_percent > 0.0 {
        (1.0 - error_percent.log10().floor()).clamp(0.0, 6.0) as usize
    } else {
        3
    }
}
