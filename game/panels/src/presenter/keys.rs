//! The keys of a presentation, in one table: a clicker's, a letter each, and the line that names them.
//!
//! They act while presenting only, and not while text is typed or a dialog is open.

use egui::{Event, Key, Popup, RichText, Ui};

use super::{Blank, Stand, Tool, leave, pen, present, spotlight, stops::Stop, tool_id};
use crate::{
    command::UiCommand, lesson::LessonCommand, section::SectionView, state::UiState, theme::SMALL,
    view::AppView,
};
use ashlane_lessons::engine::Command;

/// What a key does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Action {
    Next,
    Back,
    Start,
    Run,
    Reading,
    Spotlight,
    Pen,
    Clear,
    Blank(Blank),
    Keys,
    Escape,
}

/// One row of the table.
struct Row {
    keys: &'static [Key],
    /// What its button says.
    text: &'static str,
    hover: &'static str,
    action: Action,
}

const fn row(keys: &'static [Key], text: &'static str, hover: &'static str, action: Action) -> Row {
    Row {
        keys,
        text,
        hover,
        action,
    }
}

const ROWS: [Row; 12] = [
    row(&[Key::PageUp], "PgUp back", "The stop before", Action::Back),
    row(&[Key::PageDown], "PgDn next", "The next stop", Action::Next),
    row(
        &[Key::Home],
        "Home start again",
        "As it began: the values of the sheet, no faults, clean plates, the first picture",
        Action::Start,
    ),
    row(
        &[Key::Space],
        "Space run, pause",
        "Let the dust fly, or stop it",
        Action::Run,
    ),
    row(&[Key::R], "R reading", "Another reading", Action::Reading),
    row(
        &[Key::S, Key::L],
        "S spotlight",
        "Dim all but a circle; arrow keys move it",
        Action::Spotlight,
    ),
    row(
        &[Key::P],
        "P pen",
        "Freeze the picture and draw on it",
        Action::Pen,
    ),
    row(
        &[Key::C],
        "C clear",
        "Take away what was drawn",
        Action::Clear,
    ),
    row(
        &[Key::B, Key::Period],
        "B black",
        "Take the picture away; again brings it back",
        Action::Blank(Blank::Black),
    ),
    row(
        &[Key::W, Key::Comma],
        "W white",
        "The same in white",
        Action::Blank(Blank::White),
    ),
    row(
        &[Key::H],
        "H hide keys",
        "Hide this line, or show it",
        Action::Keys,
    ),
    row(
        &[Key::Escape],
        "Esc leave",
        "Put the tool away, then leave",
        Action::Escape,
    ),
];

/// F5 begins and ends the presentation.
pub(crate) fn toggle_key(ui: &Ui, state: &mut UiState, out: &mut Vec<UiCommand>) {
    let typing = ui.ctx().text_edit_focused() || state.dialog.is_some();
    if typing || !pressed(ui, &[Key::F5]) {
        return;
    }
    if state.presenting.is_some() {
        leave(state, out);
    } else {
        present(state);
    }
}

/// Does what was asked for by key.
pub(super) fn keys(
    ui: &Ui,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    let elsewhere = ui.ctx().text_edit_focused()
        || state.dialog.is_some()
        || view.message.is_some()
        || Popup::is_any_open(ui.ctx());
    if elsewhere {
        return;
    }
    // Space presses the button that has the focus.
    let focused = ui.ctx().memory(|memory| memory.focused());
    let on_widget = focused.is_some_and(|id| id != tool_id());
    for row in &ROWS {
        let spoken_for = on_widget && row.action == Action::Run;
        if !spoken_for && state.presenting.is_some() && pressed(ui, row.keys) {
            act(ui, row.action, view, section, state, out);
        }
    }
}

/// Whether one of these was pressed alone, and not held down.
fn pressed(ui: &Ui, keys: &[Key]) -> bool {
    ui.input(|input| {
        input.events.iter().any(|event| {
            matches!(event, Event::Key { key, pressed: true, repeat: false, modifiers, .. }
                if keys.contains(key) && !modifiers.command && !modifiers.alt && !modifiers.ctrl)
        })
    })
}

/// The line that names the keys; every name is a button.
pub(super) fn keys_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    let with_pen = matches!(
        state.presenting.as_ref().map(|now| &now.tool),
        Some(Tool::Pen { .. })
    );
    let mut wanted = None;
    super::close_rows(ui);
    ui.horizontal_wrapped(|ui| {
        for row in &ROWS {
            if row.action == Action::Clear && !with_pen {
                continue;
            }
            let text = RichText::new(row.text).size(SMALL);
            if ui.button(text).on_hover_text(row.hover).clicked() {
                wanted = Some(row.action);
            }
        }
    });
    if let Some(action) = wanted {
        act(ui, action, view, section, state, out);
    }
}

fn act(
    ui: &Ui,
    action: Action,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    let Some(now) = &mut state.presenting else {
        return;
    };
    // Behind a blank there is nothing to act on.
    if now.blank.is_some() && !matches!(action, Action::Blank(_) | Action::Escape) {
        return;
    }
    let has_pen = matches!(now.tool, Tool::Pen { .. });
    match action {
        Action::Blank(blank) => now.blank = (now.blank != Some(blank)).then_some(blank),
        Action::Keys => now.keys = !now.keys,
        Action::Reading => now.reading = now.reading.next(),
        Action::Escape if now.blank.is_some() => now.blank = None,
        Action::Escape if now.tool != Tool::Pointer => pen::put_away(state, out),
        Action::Escape => leave(state, out),
        Action::Clear => pen::clear(state),
        // The picture under the pen stands.
        Action::Run if has_pen => {}
        Action::Run => out.push(UiCommand::Run(!view.flight.running)),
        Action::Pen if has_pen => pen::put_away(state, out),
        Action::Pen => {
            pen::take_up(view, state, out);
            take_focus(ui);
        }
        Action::Spotlight if matches!(now.tool, Tool::Spotlight(_)) => pen::put_away(state, out),
        Action::Spotlight => {
            pen::put_away(state, out);
            let light = spotlight::start(ui);
            if let Some(now) = &mut state.presenting {
                now.tool = light;
            }
            take_focus(ui);
        }
        Action::Next | Action::Back => walk(action == Action::Next, view, section, state, out),
        Action::Start => start_again(view, state, out),
    }
}

/// The arrow keys belong to the tool from now on.
fn take_focus(ui: &Ui) {
    ui.memory_mut(|memory| memory.request_focus(tool_id()));
}

/// To the next stop or the one before; in a lesson to the next step or the one before, as far as it is open.
fn walk(
    forward: bool,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    // What was drawn belongs to the picture that it was drawn on.
    if has_pen(state) {
        pen::put_away(state, out);
    }
    let open = view
        .lessons
        .as_ref()
        .and_then(|lessons| lessons.open.as_ref());
    if let Some(open) = open {
        let may = |card: &&ashlane_lessons::engine::Card<'_>| {
            if forward {
                card.can_go_on
            } else {
                card.can_go_back
            }
        };
        if open.card.filter(may).is_some() {
            let command = if forward {
                Command::Next
            } else {
                Command::Back
            };
            out.push(LessonCommand::Do(command).into());
        }
        return;
    }
    let conditions = section.plan.conditions;
    Stop::of(state, conditions)
        .neighbour(forward, conditions)
        .show(state, conditions);
}

fn has_pen(state: &UiState) -> bool {
    let tool = state.presenting.as_ref().map(|now| &now.tool);
    matches!(tool, Some(Tool::Pen { .. }))
}

/// Back to where it began: sheet, no faults, clean plates, the first picture. A lesson keeps its own values.
fn start_again(view: &AppView<'_>, state: &mut UiState, out: &mut Vec<UiCommand>) {
    pen::put_away(state, out);
    let start = state.presenting.as_ref().map(|now| now.start.clone());
    if let Some(start) = start {
        Stand::show(&start, state);
    }
    if view.lessons.is_none() {
        if view
            .faults
            .as_ref()
            .is_some_and(|faults| !faults.set.is_empty())
        {
            out.push(UiCommand::Faults(Vec::new()));
        }
        if view.file.unsaved {
            out.push(UiCommand::ResetToSheet);
        }
    }
    out.push(UiCommand::Restart);
}
