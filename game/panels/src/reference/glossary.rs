//! The glossary: one term a row, with what others call it, found as one types.

use ashlane_lessons::glossary::{GLOSSARY, Term};
use egui::{RichText, TextEdit, Ui};

use super::Reference;
use crate::{
    state::UiState,
    theme::{Ink, SMALL},
};

pub(super) fn search_ui(ui: &mut Ui, reference: &mut Reference) {
    ui.horizontal(|ui| {
        let label = ui.label("Find");
        let edit = TextEdit::singleline(&mut reference.wanted)
            .desired_width(220.0)
            .hint_text("a term, or another name of it");
        ui.add(edit).labelled_by(label.id);
        if !reference.wanted.is_empty() && ui.button("All terms").clicked() {
            reference.wanted.clear();
        }
    });
}

pub(super) fn terms_ui(ui: &mut Ui, reference: &Reference, state: &UiState) {
    let mut found = 0;
    for term in by_fit(&reference.wanted) {
        term_ui(ui, term, state);
        found += 1;
    }
    if found == 0 {
        ui.label("No term is called so. Clear the field to see them all.");
    }
}

/// The terms that hold the text; those whose name it is come first.
fn by_fit(wanted: &str) -> Vec<&'static Term> {
    let wanted = wanted.trim();
    let mut terms: Vec<&Term> = GLOSSARY.iter().filter(|term| term.holds(wanted)).collect();
    terms.sort_by_key(|term| !term.name.to_lowercase().starts_with(&wanted.to_lowercase()));
    terms
}

fn term_ui(ui: &mut Ui, term: &Term, state: &UiState) {
    ui.label(RichText::new(term.name).strong());
    ui.label(format!("{}.", term.meaning));
    if !term.also.is_empty() {
        let also = format!("Also called: {}.", term.also);
        let ink = Ink::Faint.colour(state.theme);
        ui.label(RichText::new(also).size(SMALL).color(ink));
    }
    ui.add_space(8.0);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_term_itself_stands_before_those_that_only_mention_it() {
        let found: Vec<&str> = by_fit(" corona").iter().map(|term| term.name).collect();
        assert_eq!(&found[..2], ["Corona", "Corona quenching"]);
        assert!(found.contains(&"Onset voltage"), "{found:?}");
        assert_eq!(by_fit("").len(), GLOSSARY.len());
        assert!(by_fit("no such word").is_empty());
        // A name from elsewhere leads to ours.
        assert_eq!(by_fit("false air")[0].name, "In-leakage");
    }
}
