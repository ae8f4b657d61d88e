//! The cautions of a view, in full where there is room, else by name with the words behind.

use ashlane_lessons::engine::{Caution, find_caution};
use egui::{RichText, Ui};

use crate::{
    state::{Rung, UiState},
    theme::{Ink, SMALL},
};

/// Height of the middle of the window from which on all the words are shown, points.
const ROOMY: f32 = 560.0;

/// Where high voltage is shown close up: stored charge, combustible gas, ozone.
const CODES: [&str; 3] = ["C1", "C4", "C11"];

/// Where the inside of the casing is shown: stored charge, confined space.
const INSIDE: [&str; 2] = ["C1", "C6"];

/// The cautions of what is shown, word for word as the table has them.
pub(crate) fn cautions_of(rung: Rung) -> Vec<&'static Caution> {
    match rung {
        Rung::Plan | Rung::Board => Vec::new(),
        Rung::Elevation | Rung::CrossSection => {
            INSIDE.into_iter().filter_map(find_caution).collect()
        }
        Rung::Wire | Rung::Grain | Rung::Energization => {
            CODES.into_iter().filter_map(find_caution).collect()
        }
    }
}

/// The cautions, below the drawing that they belong to.
pub(crate) fn cautions_ui(ui: &mut Ui, cautions: Vec<&Caution>, state: &mut UiState, height: f32) {
    ui.spacing_mut().item_spacing.y = 2.0;
    // Rows as high as their words.
    if height >= ROOMY {
        ui.spacing_mut().interact_size.y = SMALL;
    }
    if height >= ROOMY {
        for caution in cautions {
            caution_words_ui(ui, caution, state);
        }
        return;
    }
    ui.horizontal_wrapped(|ui| {
        for caution in &cautions {
            let open = state.caution == Some(caution.code);
            let name = RichText::new(format!("⚠ {}", caution.hazard)).size(SMALL);
            if ui
                .selectable_label(open, name)
                .on_hover_text(caution.text)
                .clicked()
            {
                state.caution = (!open).then_some(caution.code);
            }
        }
    });
    if let Some(caution) = cautions
        .into_iter()
        .find(|caution| state.caution == Some(caution.code))
    {
        caution_words_ui(ui, caution, state);
    }
}

/// One caution in full.
pub(crate) fn caution_words_ui(ui: &mut Ui, caution: &Caution, state: &UiState) {
    let ink = Ink::Text.colour(state.theme);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        ui.label(
            RichText::new(format!("⚠ {}:", caution.hazard))
                .size(SMALL)
                .strong(),
        );
        ui.label(RichText::new(caution.text).size(SMALL).color(ink));
    });
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_closer_look_has_its_three_cautions_and_the_plan_none() {
        assert!(cautions_of(Rung::Plan).is_empty());
        for rung in [Rung::Wire, Rung::Grain, Rung::Energization] {
            let codes: Vec<&str> = cautions_of(rung).iter().map(|row| row.code).collect();
            assert_eq!(codes, CODES, "{rung:?}");
        }
    }
}
