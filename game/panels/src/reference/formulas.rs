//! How do we know: every formula that a view is held against, with symbols, source, range, and the value it must give.

use ashlane_shared::{
    checks::{FORMULAS, Formula, Proof, proofs_of, symbols_in},
    units::{Dimension, UnitSystem, format},
};
use egui::{CollapsingHeader, RichText, Ui};

use super::Reference;
use crate::{
    state::UiState,
    theme::{Ink, SMALL},
};

pub(super) fn about_ui(ui: &mut Ui, state: &UiState) {
    let ink = Ink::Faint.colour(state.theme);
    let about =
        "Every view is held against one of these. Each gives a value that is known from elsewhere.";
    ui.label(RichText::new(about).size(SMALL).color(ink));
}

pub(super) fn formulas_ui(ui: &mut Ui, reference: &mut Reference, state: &UiState) {
    for formula in FORMULAS {
        CollapsingHeader::new(formula.title)
            .id_salt(formula.name)
            .show(ui, |ui| formula_ui(ui, formula, reference, state));
    }
}

fn formula_ui(ui: &mut Ui, formula: &Formula, reference: &mut Reference, state: &UiState) {
    ui.label(RichText::new(formula.equation).strong());
    let faint = |text: String| {
        RichText::new(text)
            .size(SMALL)
            .color(Ink::Faint.colour(state.theme))
    };
    for symbol in symbols_in(formula.equation) {
        ui.label(faint(std::format!("{}: {}", symbol.sign, symbol.meaning)));
    }
    ui.label(std::format!("Source: {}.", formula.source));
    ui.label(std::format!("Holds for: {}.", formula.validity));
    for proof in proofs_of(formula.name) {
        ui.label(std::format!(
            "Check value: {}: {} ({}).",
            proof.inputs,
            value(proof.expected, formula, state.units),
            proof.source
        ));
    }
    if ui
        .button("Work it out now")
        .on_hover_text(formula.title)
        .clicked()
    {
        reference.computed.retain(|(name, _)| *name != formula.name);
        let computed = proofs_of(formula.name).filter_map(|proof| proof.compute().ok());
        reference
            .computed
            .extend(computed.map(|value| (formula.name, value)));
    }
    let known = reference
        .computed
        .iter()
        .filter(|(name, _)| *name == formula.name);
    for ((_, computed), proof) in known.zip(proofs_of(formula.name)) {
        computed_ui(ui, formula, *computed, proof, state);
    }
    ui.add_space(6.0);
}

fn computed_ui(ui: &mut Ui, formula: &Formula, computed: f64, proof: &Proof, state: &UiState) {
    let (verdict, ink) = if proof.holds(computed) {
        ("✔ agrees", Ink::FiniteMixing)
    } else {
        ("✖ disagrees", Ink::Trouble)
    };
    let allowed = if proof.expected == 0.0 {
        proof.within.to_string()
    } else {
        std::format!("{} %", 100.0 * proof.within)
    };
    let text = std::format!(
        "{verdict}: this program gives {} ({allowed} allowed).",
        value(computed, formula, state.units)
    );
    ui.label(RichText::new(text).strong().color(ink.colour(state.theme)));
}

/// A value of the formula, in the reader's units.
fn value(value_si: f64, formula: &Formula, units: UnitSystem) -> String {
    match formula.gives {
        // A share or a number as it is: three digits are too few to compare.
        Dimension::Fraction => std::format!("{:.5} %", 100.0 * value_si),
        Dimension::Number => std::format!("{value_si:.1}"),
        dimension => format(value_si, dimension, units),
    }
}
