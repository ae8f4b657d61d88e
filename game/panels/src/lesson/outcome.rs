//! What was measured, with N, ± and the formula beside it, and the verdict.

use ashlane_lessons::engine::{CheckResult, Measured, Quantity, Reading, Relation};
use ashlane_shared::checks::{Verdict, find_formula};
use egui::{Grid, RichText, Ui};

use super::faint;
use crate::{charts::plain_number, state::UiState, theme::Ink};

pub(super) fn reading_ui(ui: &mut Ui, reading: &Reading, state: &UiState) {
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
            reading.before.parcels, reading.after.parcels
        ),
        state,
    ));
    for check in &reading.checks {
        check_ui(ui, check, state);
    }
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
    let number = |value: f64| match check.quantity {
        Quantity::Penetration | Quantity::Efficiency => {
            let digits = decimals(100.0 * check.plus_minus());
            format!("{:.digits$} %", 100.0 * value)
        }
        Quantity::PenetrationRatio | Quantity::OutletDustRatio => plain_number(value),
    };
    let quantity = match check.quantity {
        Quantity::Penetration => "Penetration",
        Quantity::Efficiency => "Efficiency",
        Quantity::PenetrationRatio => "Penetration after over before",
        Quantity::OutletDustRatio => "Dust leaving, kg/h after over before",
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
            number(check.difference),
            number(check.tolerance)
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
