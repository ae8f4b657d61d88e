//! The list of what was tried: what was changed from one trial to the next, and what came of it.

use ashlane_lessons::engine::value_text;
use ashlane_shared::{
    checks::Verdict,
    conditions::{Conditions, Key, find_key},
    units::{Dimension, UnitSystem, format, number_text},
};
use egui::{Button, RichText, Ui};

use super::Trial;
use crate::{
    change::{Apart, differing},
    charts::{percent_of_caught, plain_number_or_zero},
    command::UiCommand,
    controls::label,
    state::{Dialog, Purpose, UiState},
    strip::counted_texts,
    theme::{Ink, SMALL},
    view::AppView,
};

/// Standard errors above which two trials differ.
const SIGMAS: f64 = 3.0;
/// Changes that are told one by one.
const TOLD: usize = 3;

/// Every trial, the newest first.
pub(crate) fn list_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    let tried = view.tried;
    let ink = Ink::Faint.colour(state.theme);
    ui.horizontal_wrapped(|ui| {
        ui.label(
            RichText::new("WHAT WAS TRIED")
                .size(SMALL)
                .color(ink)
                .strong(),
        );
        if view.lessons.is_some() || tried.trials().is_empty() {
            return;
        }
        if ui
            .button("Write down…")
            .on_hover_text("Questions, rules and trials in one file")
            .clicked()
        {
            state.dialog = Some(Dialog {
                purpose: Purpose::Trials,
                path: "ashlane-trials.md".to_owned(),
            });
        }
        if ui
            .button("Clear")
            .on_hover_text("Forget the trials; the rules stay")
            .clicked()
        {
            out.push(UiCommand::ForgetTrials);
        }
    });
    if tried.trials().is_empty() {
        ui.label("Nothing yet: a state is noted as soon as its count has settled.");
    }
    for (index, trial) in tried.trials().iter().enumerate().rev() {
        let before = index
            .checked_sub(1)
            .map(|before| (tried.number(before), &tried.trials()[before]));
        ui.push_id(tried.number(index), |ui| {
            trial_ui(ui, (tried.number(index), trial), before, state);
            if view.lessons.is_none() && trial.controls != *view.controls {
                let again = format!("Set no. {} again", tried.number(index));
                if ui.add(Button::new(again).small()).clicked() {
                    out.push(UiCommand::TryAgain(index));
                }
            }
        });
        ui.add_space(6.0);
    }
}

/// A trial with its number.
type Numbered<'t> = (usize, &'t Trial);

fn trial_ui(
    ui: &mut Ui,
    (number, trial): Numbered<'_>,
    before: Option<Numbered<'_>>,
    state: &UiState,
) {
    let ink = Ink::Faint.colour(state.theme);
    let changes = changes(before.map(|(_, before)| before), trial, state.units);
    ui.label(RichText::new(format!("{number}. {changes}")).strong());
    let agreement = &trial.agreement;
    ui.label(format!(
        "{} gets through, {} caught",
        counted_texts(agreement).0,
        percent_of_caught(agreement.counted.share)
    ));
    if let Some(compared) = before.map(|before| compared(before, trial)) {
        ui.label(compared);
    }
    let more = format!(
        "De {} · {} · {} leaves · count and solver {}",
        number_text(trial.deutsch_number, 3),
        format(trial.power_w, Dimension::Power, state.units),
        format(trial.outlet_kg_m3(), Dimension::Emission, state.units),
        match agreement.verdict {
            Verdict::Agree => "agree",
            Verdict::Disagree => "DISAGREE",
        }
    );
    ui.label(RichText::new(more).size(SMALL).color(ink));
}

/// What was changed since the trial before.
pub(super) fn changes(before: Option<&Trial>, trial: &Trial, units: UnitSystem) -> String {
    let Some(before) = before else {
        return "The first state".to_owned();
    };
    let (then, now) = (&before.controls, &trial.controls);
    match Apart::of(then, now) {
        Apart::Same => "The same controls, other faults".to_owned(),
        Apart::One(path) => {
            find_key(path).map_or_else(String::new, |key| change(key, then, now, units))
        }
        Apart::More => {
            let keys: Vec<&Key> = differing(then, now).collect();
            let told = keys.iter().take(TOLD);
            let mut texts: Vec<String> = told.map(|key| change(key, then, now, units)).collect();
            if keys.len() > TOLD {
                texts.push(format!("{} more", keys.len() - TOLD));
            }
            texts.join("; ")
        }
    }
}

fn change(key: &Key, then: &Conditions, now: &Conditions, units: UnitSystem) -> String {
    let text = |conditions| {
        let value = key.get(conditions);
        value.map_or_else(|| "–".to_owned(), |value| value_text(key, &value, units))
    };
    format!("{}: {} to {}", label(key), text(then), text(now))
}

/// The penetration over that of the trial before, where the difference is more than chance and has one cause.
pub(super) fn compared((number, before): Numbered<'_>, trial: &Trial) -> String {
    let (then, now) = (before.agreement.counted, trial.agreement.counted);
    let sigma = then.standard_error.hypot(now.standard_error);
    if (now.share - then.share).abs() <= SIGMAS * sigma {
        return format!("No difference from no. {number} that is more than chance");
    }
    let ratio = plain_number_or_zero(now.share / then.share.max(f64::MIN_POSITIVE));
    let times = format!("{ratio} times what got through at no. {number}");
    match Apart::of(&before.controls, &trial.controls) {
        Apart::More => {
            format!("{times}; more than one thing was changed, so no rule comes from this pair")
        }
        _ => times,
    }
}
