//! The question of a step: answered while open, shown as it was answered once locked.

use ashlane_lessons::engine::{
    Answer, Card, Choice, Command, Confidence, Given, Kind, NumberEntry,
};
use ashlane_shared::units::{Dimension, GasState, display, format, from_display, parse};
use egui::{RadioButton, RichText, TextEdit, Ui};

use super::{
    arrange::{match_ui, order_ui},
    faint, tell,
};
use crate::{command::UiCommand, state::UiState, theme::Ink};

const CONFIDENCES: [(Confidence, &str); 3] = [
    (Confidence::Guess, "a guess"),
    (Confidence::FairlySure, "fairly sure"),
    (Confidence::Sure, "sure"),
];

pub(super) fn question_ui(
    ui: &mut Ui,
    card: &Card<'_>,
    locked: bool,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    let question = card.question;
    ui.label(RichText::new(question.ask.show(state.units)).strong());
    let enabled = !locked && !card.paused;
    let answer = ui
        .add_enabled_ui(enabled, |ui| answer_ui(ui, card, locked, state))
        .inner;
    let mut given = card.given.clone();
    if let Some(answer) = answer {
        let confidence = given.as_ref().and_then(|given| given.confidence);
        given = Some(Given { answer, confidence });
    }
    if question.confidence {
        ui.add_enabled_ui(enabled && given.is_some(), |ui| {
            confidence_ui(ui, &mut given);
        });
    }
    if locked {
        ui.label(faint("Locked.", state));
    } else if let Some(given) = given
        && card.given.as_ref() != Some(&given)
    {
        tell(out, Command::Answer(given));
    }
}

/// What was answered anew in this frame.
fn answer_ui(ui: &mut Ui, card: &Card<'_>, locked: bool, state: &mut UiState) -> Option<Answer> {
    let given = card.given.as_ref().map(|given| &given.answer);
    match &card.question.kind {
        Kind::Choice => choice_ui(ui, &card.question.options, given, state),
        Kind::Number(entry) => number_ui(ui, card, entry, locked, state),
        Kind::Order(ranked) => order_ui(ui, ranked, given, state),
        Kind::Match(items) => match_ui(ui, items, given, state),
        Kind::ShortText { longest, .. } => text_ui(ui, card, *longest, state),
    }
}

fn choice_ui(
    ui: &mut Ui,
    options: &[Choice],
    given: Option<&Answer>,
    state: &UiState,
) -> Option<Answer> {
    let mut chosen = None;
    for option in options {
        let on = matches!(given, Some(Answer::Choice(id)) if *id == option.id);
        let button = RadioButton::new(on, option.text.show(state.units));
        if ui.add(button).clicked() {
            chosen = Some(Answer::Choice(option.id.clone()));
        }
    }
    chosen
}

fn number_ui(
    ui: &mut Ui,
    card: &Card<'_>,
    entry: &NumberEntry,
    locked: bool,
    state: &mut UiState,
) -> Option<Answer> {
    let units = state.units;
    let (_, unit) = display(entry.model, entry.dimension, units);
    let place = format!("{} {}", card.lesson_title, card.step);
    if state.entry.place != place {
        let text = match card.given.as_ref().map(|given| &given.answer) {
            Some(Answer::Number(value)) => format(*value, entry.dimension, units),
            _ => String::new(),
        };
        state.entry = crate::state::Entry { place, text };
    }
    if locked {
        if let Some(Answer::Number(value)) = card.given.as_ref().map(|given| &given.answer) {
            ui.label(format(*value, entry.dimension, units));
        }
        return None;
    }
    let mut answer = None;
    ui.horizontal(|ui| {
        let label = ui.label("Your answer");
        let edit = TextEdit::singleline(&mut state.entry.text)
            .desired_width(90.0)
            .char_limit(24);
        let edit = ui.add(edit).labelled_by(label.id);
        ui.label(unit);
        if edit.changed() {
            answer = read(&state.entry.text, entry, state)
                .ok()
                .map(Answer::Number);
        }
    });
    let range = std::format!(
        "from {} to {}",
        format(entry.allowed.min, entry.dimension, units),
        format(entry.allowed.max, entry.dimension, units)
    );
    match read(&state.entry.text, entry, state) {
        Err(trouble) if !state.entry.text.trim().is_empty() => {
            let text = std::format!("{trouble}: write a number {range}");
            ui.label(RichText::new(text).color(Ink::Trouble.colour(state.theme)));
        }
        _ => {
            ui.label(faint(range, state));
        }
    }
    answer
}

/// A number with its unit, or without it in the unit on screen.
fn read(text: &str, entry: &NumberEntry, state: &UiState) -> Result<f64, &'static str> {
    let text = text.trim();
    let plain = text.replace(',', ".").parse::<f64>();
    let value = match plain {
        Ok(number) => from_display(number, entry.dimension, state.units),
        Err(_) => match parse(text, entry.dimension, &GasState::NORMAL) {
            Ok(quantity) => quantity.value_si,
            Err(_) => return Err("this is no number"),
        },
    };
    // Half a unit in the last place of a double must not refuse an end of the range.
    let slack = 1e-12 * entry.allowed.max.abs().max(entry.allowed.min.abs());
    let held = value.clamp(entry.allowed.min, entry.allowed.max);
    if (value - held).abs() <= slack {
        Ok(held)
    } else if entry.dimension == Dimension::Fraction && (0.0..=1.0).contains(&value) {
        Err("this is not what can come out")
    } else {
        Err("this is out of range")
    }
}

fn text_ui(ui: &mut Ui, card: &Card<'_>, longest: usize, state: &mut UiState) -> Option<Answer> {
    let place = std::format!("{} {}", card.lesson_title, card.step);
    if state.entry.place != place {
        let text = match card.given.as_ref().map(|given| &given.answer) {
            Some(Answer::Text(text)) => text.clone(),
            _ => String::new(),
        };
        state.entry = crate::state::Entry { place, text };
    }
    let label = ui.label("Your answer");
    let edit = TextEdit::multiline(&mut state.entry.text)
        .desired_rows(3)
        .desired_width(f32::INFINITY)
        .char_limit(longest);
    let edit = ui.add(edit).labelled_by(label.id);
    let text = state.entry.text.trim();
    (edit.changed() && !text.is_empty()).then(|| Answer::Text(text.to_owned()))
}

fn confidence_ui(ui: &mut Ui, given: &mut Option<Given>) {
    ui.horizontal_wrapped(|ui| {
        ui.label("How sure?");
        for (confidence, name) in CONFIDENCES {
            let on = given
                .as_ref()
                .is_some_and(|given| given.confidence == Some(confidence));
            if ui.selectable_label(on, name).clicked()
                && let Some(given) = given
            {
                given.confidence = Some(confidence);
            }
        }
    });
}
