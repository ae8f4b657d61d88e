//! How do we know: every formula that a view is held against, with symbols, source, range, and the value it must give.

use ashlane_shared::{
    checks::{FORMULAS, Formula, Proof, WITHOUT_OUTSIDE_VALUE, proofs_of, symbols_in},
    units::{Dimension, UnitSystem, format, number_text},
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
    if WITHOUT_OUTSIDE_VALUE.contains(&formula.name) {
        ui.label("What goes in is what the model found for the set, so no value stands elsewhere; its parts are tested.");
        ui.add_space(6.0);
        return;
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
    let text = std::format!(
        "{verdict}: this program gives {} ({} allowed).",
        value(computed, formula, state.units),
        allowed(proof, formula, state.units)
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

/// Less than this is no more than what computing rounds.
const ROUNDING: f64 = 1.1e-6;

/// How far off a value may be: a share of it, of a temperature its degrees, of nothing the value itself.
fn allowed(proof: &Proof, formula: &Formula, units: UnitSystem) -> String {
    let number = |value: f64| number_text(value, 2);
    let off = proof.within * proof.expected.abs();
    match (formula.gives, units) {
        _ if proof.within < ROUNDING => "only rounding".to_owned(),
        _ if proof.expected == 0.0 => std::format!("± {}", number(proof.within)),
        (Dimension::Temperature, UnitSystem::Si) => std::format!("± {} K", number(off)),
        (Dimension::Temperature, UnitSystem::Us) => std::format!("± {} °F", number(1.8 * off)),
        _ => std::format!("± {} %", number(100.0 * proof.within)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use ashlane_shared::checks::find_formula;

    /// First check value of a formula and what is allowed, as the page tells them.
    fn told(name: &str, units: UnitSystem) -> [String; 2] {
        let formula = find_formula(name).expect("a known name");
        let proof = proofs_of(name).next().expect("a check value");
        [
            value(proof.expected, formula, units),
            allowed(proof, formula, units),
        ]
    }

    #[test]
    fn check_values_are_told_in_the_units_that_people_use() {
        let (si, us) = (UnitSystem::Si, UnitSystem::Us);
        for (name, units, expected) in [
            ("row_ash", si, ["2698 kg/h", "± 0.1 %"]),
            ("hours_to_alarm", us, ["3.186 h", "± 0.1 %"]),
            ("wet_bulb", si, ["52.5 °C", "± 0.5 K"]),
            ("wet_bulb", us, ["126.5 °F", "± 0.9 °F"]),
            ("blowdown_solids", si, ["125.9 kg/m³", "± 0.1 %"]),
            ("ohmic_layer_drop", si, ["0.1063 kV", "± 0.2 %"]),
            ("growing_layer", si, ["1.68 mm", "± 0.1 %"]),
            ("bouguer_opacity", si, ["10.13900 %", "± 0.1 %"]),
            ("puff_contrast", si, ["1230.3", "± 0.2 %"]),
            ("dust_that_came", si, ["3421 kg/h", "only rounding"]),
        ] {
            assert_eq!(told(name, units), expected, "{name}");
        }
    }
}
