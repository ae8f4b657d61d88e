//! The card with a question: what to move, where to look, which lesson teaches it, and room for the rule that was found.

use ashlane_lessons::{
    engine::LESSON_VIEWS,
    prompts::{PROMPTS, Prompt},
};
use ashlane_shared::conditions::find_key;
use egui::{Button, RichText, TextEdit, Ui};

use crate::{
    command::UiCommand,
    controls::label,
    lesson::LessonCommand,
    reference::linked_ui,
    state::{Rung, UiState},
    theme::{Ink, SMALL},
};

/// Letters of a rule: enough for some sentences.
const LONGEST_RULE: usize = 600;

pub(super) fn prompt_ui(ui: &mut Ui, state: &mut UiState, out: &mut Vec<UiCommand>) {
    let index = state.exploring.prompt.min(PROMPTS.len() - 1);
    let Some(prompt) = PROMPTS.get(index) else {
        return;
    };
    turn_ui(ui, index, state);
    linked_ui(ui, prompt.question, state);
    ui.add_space(4.0);
    where_ui(ui, prompt, state);
    ui.add_space(4.0);
    let name = ui.label("The rule you found");
    let rule = state.exploring.rules.entry(index).or_default();
    let edit = TextEdit::multiline(rule)
        .desired_rows(3)
        .desired_width(f32::INFINITY)
        .char_limit(LONGEST_RULE)
        .hint_text("If …, then …, because …  Name the trials that show it.");
    ui.add(edit).labelled_by(name.id);
    if rule.is_empty() {
        state.exploring.rules.remove(&index);
    }
    if ui
        .button(format!("Lesson {}", prompt.lesson))
        .on_hover_text("The lesson that teaches this. What you explore stays as it is.")
        .clicked()
    {
        out.push(LessonCommand::Enter.into());
        out.push(LessonCommand::Open(prompt.lesson.to_owned()).into());
    }
}

/// Which question, and the way to the others.
fn turn_ui(ui: &mut Ui, index: usize, state: &mut UiState) {
    let ink = Ink::Faint.colour(state.theme);
    let count = PROMPTS.len();
    ui.horizontal_wrapped(|ui| {
        if ui
            .button("Before")
            .on_hover_text("The question before")
            .clicked()
        {
            state.exploring.prompt = (index + count - 1) % count;
        }
        if ui
            .button("Next")
            .on_hover_text("The next question")
            .clicked()
        {
            state.exploring.prompt = (index + 1) % count;
        }
        let told = format!("Question {} of {count}. Nothing is judged.", index + 1);
        ui.label(RichText::new(told).size(SMALL).color(ink));
    });
}

/// What to move and where to look.
fn where_ui(ui: &mut Ui, prompt: &Prompt, state: &mut UiState) {
    if let Some(key) = prompt.control.and_then(find_key) {
        ui.label(format!("Move: {}", label(key)));
    }
    let view = LESSON_VIEWS.iter().find(|(name, _)| *name == prompt.view);
    let Some((name, what)) = view else { return };
    if matches!(*name, "along" | "by_size" | "agreement") {
        // These stand beside every drawing.
        ui.label(format!("Look at: {what}"));
        return;
    }
    let rung = Rung::of_view(name);
    ui.horizontal_wrapped(|ui| {
        ui.label(format!("Look at: {what}"));
        let there = state.rung == rung;
        if ui.add_enabled(!there, Button::new("Go there")).clicked() {
            state.rung = rung;
            state.comparing = false;
        }
    });
}
