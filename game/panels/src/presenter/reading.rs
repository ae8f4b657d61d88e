//! The one reading of a presentation, large: computed, never typed, chosen by the trainer.

use ashlane_shared::units::{Dimension, format};
use egui::{RichText, Ui};

use crate::{
    board::{amperes, held},
    charts::percent_of_caught,
    section::present_field,
    state::UiState,
    strip::counted_texts,
    theme::{Ink, SMALL},
    view::AppView,
};

/// Size of the value, points, and in a narrow window: 32 pixels of the picture and more.
const LARGE: f32 = 23.0;
const LESS_LARGE: f32 = 18.0;
/// Below this width the value is less large.
const WIDE: f32 = 420.0;

/// What is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reading {
    /// Penetration and efficiency of the count.
    Penetration,
    /// Meters of the field that is looked at.
    Field,
    /// Dust in the gas that leaves.
    Outlet,
}

/// A value in large letters, and what it is in small ones.
pub(super) struct Words {
    pub(super) value: String,
    pub(super) what: String,
}

impl Reading {
    /// Every reading, with its name.
    const ALL: [(Self, &'static str); 3] = [
        (Self::Penetration, "Penetration and efficiency"),
        (Self::Field, "Meters of the field looked at"),
        (Self::Outlet, "Dust in the gas that leaves"),
    ];

    /// The one after it, and after the last the first.
    pub(super) fn next(self) -> Self {
        let at = Self::ALL.iter().position(|(reading, _)| *reading == self);
        Self::ALL[at.map_or(0, |at| (at + 1) % Self::ALL.len())].0
    }

    /// What it says at this moment.
    pub(super) fn words(self, view: &AppView<'_>, state: &UiState) -> Words {
        match self {
            Self::Penetration => penetration(view),
            Self::Field => field(view, state),
            Self::Outlet => outlet(view, state),
        }
    }
}

fn penetration(view: &AppView<'_>) -> Words {
    let Some(agreement) = view.count.agreement() else {
        return counting();
    };
    let (value, sample) = counted_texts(&agreement);
    let caught = percent_of_caught(agreement.counted.share);
    Words {
        value: format!("{value} · {caught} caught"),
        what: format!(
            "Penetration ({sample}) · efficiency{}",
            settling(view, ", still counting")
        ),
    }
}

fn field(view: &AppView<'_>, state: &UiState) -> Words {
    let conditions = view.conditions;
    let field_m = conditions.collector.field_length_m as f32;
    let index = present_field(state, field_m, view.fields.len());
    let Some(field) = view.fields.get(index) else {
        return counting();
    };
    let text = |value, dimension| format(value, dimension, state.units);
    Words {
        value: format!(
            "{} · {}",
            text(field.metered_v(), Dimension::Voltage),
            text(amperes(field, conditions), Dimension::Current)
        ),
        what: format!(
            "{} · mean voltage and current · {:.0} sparks a minute · held by {}",
            conditions.field_title(index),
            field.sparks_per_min,
            held(field)
        ),
    }
}

fn outlet(view: &AppView<'_>, state: &UiState) -> Words {
    let Some(result) = view.count.result else {
        return counting();
    };
    let counted = result.penetration;
    let text = |share: f64| {
        let kg_m3 = share * view.conditions.dust.load_kg_m3;
        format(kg_m3, Dimension::Emission, state.units)
    };
    Words {
        value: text(counted.share),
        what: format!(
            "Dust in the gas that leaves · ± {} (3σ) · {} caught{}",
            text(3.0 * counted.standard_error),
            percent_of_caught(counted.share),
            settling(view, ", still counting")
        ),
    }
}

fn counting() -> Words {
    Words {
        value: "counting …".to_owned(),
        what: "The first parcels are under way".to_owned(),
    }
}

fn settling<'t>(view: &AppView<'_>, text: &'t str) -> &'t str {
    view.count.settling.map_or("", |_| text)
}

/// The reading: a menu to choose another by.
pub(super) fn reading_ui(ui: &mut Ui, view: &AppView<'_>, state: &mut UiState) {
    let Some(now) = state.presenting.as_ref().map(|now| now.reading) else {
        return;
    };
    let words = now.words(view, state);
    let size = if ui.available_width() < WIDE {
        LESS_LARGE
    } else {
        LARGE
    };
    let mut chosen = now;
    let value = RichText::new(words.value).size(size).strong();
    let menu = ui.menu_button(value, |ui| {
        for (reading, name) in Reading::ALL {
            if ui.selectable_label(reading == now, name).clicked() {
                chosen = reading;
                ui.close();
            }
        }
    });
    menu.response.on_hover_text("Choose the reading (R)");
    let ink = Ink::Text.colour(state.theme);
    ui.label(RichText::new(words.what).size(SMALL).color(ink));
    if let Some(presenting) = &mut state.presenting {
        presenting.reading = chosen;
    }
}
