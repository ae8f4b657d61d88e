//! The card of one step: read, predict and lock, observe, explain.

use ashlane_lessons::engine::{Card, Command, Explanation, Phase, Target, value_text};
use ashlane_shared::conditions::Key;
use egui::{Align, Button, ProgressBar, Response, RichText, Ui};

use super::{
    LessonCommand, faint, heading,
    outcome::reading_ui,
    question::question_ui,
    so_far::so_far_ui,
    tally::tally_ui,
    tell,
    work::{WorkView, result_ui, work_ui},
};
use crate::{
    charts::{along_drawing, by_size_drawing},
    command::UiCommand,
    figure::figure_ui,
    reference::linked_ui,
    state::UiState,
    theme::{BODY, Ink},
    view::{AppView, OpenLesson},
};

pub(super) fn card_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    open: &OpenLesson<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    let top = ui.label(faint(
        format!("{} · {}", open.lesson.id, open.lesson.title),
        state,
    ));
    let part = open.card.map(|card| (card.step, card.phase));
    // A desk is long, and comes only when its machine has been run.
    let desk = matches!(open.work, Some(WorkView::Case(_)))
        && part.is_some_and(|(_, phase)| phase == Phase::Observe);
    let new = super::is_new(ui, &format!("{} {part:?} {desk}", open.lesson.id));
    let scrolling = super::scrolling(state);
    let show = |heading: &Response, phases: &[Phase]| {
        if new && part.is_none_or(|(_, phase)| phases.contains(&phase)) {
            heading.scroll_to_me_animation(Some(Align::TOP), scrolling);
        }
    };
    show(&top, &[Phase::Predict]);
    let Some(card) = open.card else {
        end_ui(ui, open, state, out);
        so_far_ui(ui, view, open, state, out);
        return;
    };
    head_ui(ui, open, card, state);
    heading(ui, "Predict", state);
    let locked = card.phase != Phase::Predict;
    question_ui(ui, card, locked, state, out);
    if !locked {
        lock_ui(ui, card, out);
    }
    tally_ui(ui, card, state);
    if let Some(task) = card.task {
        show(&heading(ui, "Observe", state), &[Phase::Observe]);
        ui.label(task.show(state.units));
        targets_ui(ui, &card.targets, state);
        if card.phase == Phase::Observe {
            work_ui(ui, card, open.work, state, out);
        }
        measuring_ui(ui, open, card, state);
        look_ui(ui, view, card, state);
    }
    if let Some(reading) = &card.reading {
        let measured = heading(ui, "Measured", state);
        show(&measured, &[Phase::Explain]);
        reading_ui(ui, reading, state);
        if let Some(result) = &reading.work {
            result_ui(ui, card, result, state);
        }
    }
    if let Some(explanation) = &card.explanation {
        let explain = heading(ui, "Explain", state);
        if card.reading.is_none() {
            show(&explain, &[Phase::Explain]);
        }
        explanation_ui(ui, explanation, state);
    }
    ways_ui(ui, card, out);
    so_far_ui(ui, view, open, state, out);
}

/// What stands above the question: title, way, cautions, prose, model.
fn head_ui(ui: &mut Ui, open: &OpenLesson<'_>, card: &Card<'_>, state: &mut UiState) {
    ui.label(RichText::new(card.title).size(BODY + 3.0).strong());
    phases_ui(ui, card, state);
    cautions_ui(ui, open, card, state);
    ui.add_space(4.0);
    linked_ui(ui, &card.prose.show(state.units), state);
    if let Some(column) = card.column {
        ui.label(faint(format!("Model: {}", column.show(state.units)), state));
    }
}

/// Where in predict, observe, explain the learner is; the present one is underlined and said.
fn phases_ui(ui: &mut Ui, card: &Card<'_>, state: &UiState) {
    ui.horizontal_wrapped(|ui| {
        ui.label(faint(
            format!("Step {} of {} ", card.step + 1, card.steps),
            state,
        ));
        let phases = [
            (Phase::Predict, "Predict"),
            (Phase::Observe, "Observe"),
            (Phase::Explain, "Explain"),
        ];
        for (phase, name) in phases {
            if phase == Phase::Observe && card.column.is_none() {
                continue;
            }
            if phase == card.phase {
                ui.label(
                    RichText::new(name)
                        .strong()
                        .underline()
                        .color(Ink::Control.colour(state.theme)),
                )
                .on_hover_text("You are here");
            } else {
                ui.label(faint(name, state));
            }
            if phase != Phase::Explain {
                ui.label(faint("›", state));
            }
        }
    });
}

/// The cautions of the lesson: whole at its first step, by name from then on.
fn cautions_ui(ui: &mut Ui, open: &OpenLesson<'_>, card: &Card<'_>, state: &UiState) {
    let ink = Ink::Trouble.colour(state.theme);
    if card.step == 0 {
        for caution in &open.lesson.cautions {
            let text = format!("⚠ Caution, {}. {}", caution.hazard, caution.text);
            ui.label(RichText::new(text).color(ink));
        }
        return;
    }
    ui.horizontal_wrapped(|ui| {
        for caution in &open.lesson.cautions {
            let text = format!("⚠ {}", caution.hazard);
            ui.label(RichText::new(text).color(ink))
                .on_hover_text(caution.text);
        }
    });
}

fn lock_ui(ui: &mut Ui, card: &Card<'_>, out: &mut Vec<UiCommand>) {
    let ready = card
        .given
        .as_ref()
        .is_some_and(|given| !card.question.confidence || given.confidence.is_some());
    let button = ui.add_enabled(ready, Button::new("Lock my prediction"));
    let button = button
        .on_hover_text("It stays as it is; then you see what happens.")
        .on_disabled_hover_text(if card.given.is_none() {
            "Answer the question first."
        } else {
            "Say how sure you are first."
        });
    if button.clicked() {
        tell(out, Command::Lock);
    }
}

/// What is to be changed, and whether it is.
fn targets_ui(ui: &mut Ui, targets: &[Target], state: &UiState) {
    for target in targets {
        let value = |value| value_text(target.key, value, state.units);
        let (mark, ink) = if target.reached {
            ("done", Ink::FiniteMixing)
        } else {
            ("to do", Ink::Control)
        };
        let text = format!(
            "{}: from {} to {} ({mark})",
            control_name(target.key),
            value(&target.from),
            value(&target.to),
        );
        ui.label(RichText::new(text).strong().color(ink.colour(state.theme)));
    }
}

fn control_name(key: &Key) -> &str {
    crate::controls::label(key)
}

/// How far the count is that is under way.
fn measuring_ui(ui: &mut Ui, open: &OpenLesson<'_>, card: &Card<'_>, state: &UiState) {
    if card.phase != Phase::Observe {
        return;
    }
    match open.measuring {
        Some(_) if card.work.is_some() => {
            ui.label("The machines of the case are being run …");
            ui.spinner();
        }
        Some(share) => {
            ui.label("Measuring: counting parcels before and after the change …");
            ui.add(ProgressBar::new(share).show_percentage());
        }
        None if card.work.is_some() => {}
        None => {
            ui.label(faint(
                "All other controls are locked. The measurement starts as soon as the change is made.",
                state,
            ));
        }
    }
}

/// The chart that the step looks at.
fn look_ui(ui: &mut Ui, view: &AppView<'_>, card: &Card<'_>, state: &UiState) {
    let width = ui.available_width().min(560.0);
    let size = [width, (0.66 * width).clamp(190.0, 280.0)];
    let drawing = match card.look.map(|look| look.view) {
        Some("along") => along_drawing(&view.count, state.units, size),
        Some("by_size") => by_size_drawing(&view.count, state.units, size),
        _ => return,
    };
    if let Some(drawing) = drawing {
        ui.add_space(4.0);
        figure_ui(ui, &drawing, "Chart to look at", state);
    }
}

fn explanation_ui(ui: &mut Ui, explanation: &Explanation<'_>, state: &mut UiState) {
    match explanation.right {
        Some(true) => {
            ui.label(
                RichText::new("Your prediction was right.")
                    .strong()
                    .color(Ink::FiniteMixing.colour(state.theme)),
            );
        }
        Some(false) => {
            ui.label(
                RichText::new("Not what you predicted.")
                    .strong()
                    .color(Ink::Trouble.colour(state.theme)),
            );
        }
        None => {
            ui.label(RichText::new("Compare your words with these.").strong());
        }
    }
    if let Some((idea, text)) = explanation.wrong {
        ui.label(faint(
            format!("A common idea: “{}”.", idea.statement),
            state,
        ));
        linked_ui(ui, &text.show(state.units), state);
        ui.add_space(4.0);
    }
    linked_ui(ui, &explanation.text.show(state.units), state);
}

fn ways_ui(ui: &mut Ui, card: &Card<'_>, out: &mut Vec<UiCommand>) {
    ui.add_space(8.0);
    ui.horizontal_wrapped(|ui| {
        if ui
            .add_enabled(card.can_go_back, Button::new("Back"))
            .clicked()
        {
            tell(out, Command::Back);
        }
        let next = if card.step + 1 == card.steps {
            "Finish"
        } else {
            "Next step"
        };
        let button = ui.add_enabled(card.can_go_on, Button::new(next));
        if button
            .on_disabled_hover_text("Finish this step first.")
            .clicked()
        {
            tell(out, Command::Next);
        }
        leave_ui(ui, out);
    });
}

fn leave_ui(ui: &mut Ui, out: &mut Vec<UiCommand>) {
    if ui
        .button("List of lessons")
        .on_hover_text("This lesson stays where it is.")
        .clicked()
    {
        out.push(LessonCommand::Close.into());
    }
}

fn end_ui(ui: &mut Ui, open: &OpenLesson<'_>, state: &UiState, out: &mut Vec<UiCommand>) {
    ui.label(RichText::new("The end").size(BODY + 3.0).strong());
    ui.label(format!(
        "You went through all {} steps. What you can do now:",
        open.lesson.steps()
    ));
    ui.label(open.lesson.goal.show(state.units));
    ui.add_space(6.0);
    ui.horizontal_wrapped(|ui| {
        if ui.button("Back").clicked() {
            tell(out, Command::Back);
        }
        if ui
            .button("Begin anew")
            .on_hover_text("All answers of this lesson are cleared.")
            .clicked()
        {
            tell(out, Command::Restart);
        }
        leave_ui(ui, out);
    });
}
