//! Text whose terms lead to the glossary: each is underlined where it stands first, says what it means and opens it.

use ashlane_lessons::glossary::mentions;
use egui::{Label, RichText, Ui};

use super::{Page, Reference};
use crate::state::UiState;

/// Shows text; paragraphs are separated by an empty line.
pub(crate) fn linked_ui(ui: &mut Ui, text: &str, state: &mut UiState) {
    let mut told: Vec<&str> = Vec::new();
    for (index, paragraph) in text.split("\n\n").enumerate() {
        if index > 0 {
            ui.add_space(6.0);
        }
        let mentions = mentions(paragraph);
        let first: Vec<_> = mentions
            .into_iter()
            .filter(|(_, term)| !told.contains(&term.name))
            .collect();
        told.extend(first.iter().map(|(_, term)| term.name));
        if first.is_empty() {
            ui.label(paragraph);
            continue;
        }
        ui.scope(|ui| {
            // As close as the words and lines of one label.
            ui.spacing_mut().item_spacing.x = 0.0;
            ui.spacing_mut().interact_size.y = 0.0;
            ui.horizontal_wrapped(|ui| {
                let mut at = 0;
                for (place, term) in first {
                    words_ui(ui, &paragraph[at..place.start]);
                    let link = ui
                        .link(RichText::new(&paragraph[place.clone()]).underline())
                        .on_hover_text(format!("{}: {}.", term.name, term.meaning));
                    if link.clicked() {
                        state.reference = Some(Reference {
                            page: Page::Glossary,
                            wanted: term.short().to_owned(),
                            ..Reference::default()
                        });
                    }
                    at = place.end;
                }
                words_ui(ui, &paragraph[at..]);
            });
        });
    }
}

fn words_ui(ui: &mut Ui, words: &str) {
    if !words.is_empty() {
        ui.add(Label::new(words));
    }
}
