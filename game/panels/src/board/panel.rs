//! The panel in the window: the list of alarms with its buttons, the values, the trends, all in one scroll area.

use ashlane_shared::alarms::{AlarmCommand, AlarmState, Point, Priority, find_alarm};
use egui::{
    Button, FontId, Frame, Label, Margin, Rect, Response, RichText, ScrollArea, Sense, Ui,
    UiBuilder, WidgetInfo, WidgetType, vec2,
};

use super::{
    BoardView,
    alarms::{count_words, hours, name, reading_words, state_words},
    drawing::{needed, values_and_trends},
    mark::mark_drawing,
};
use crate::{
    command::UiCommand,
    drawing::paint,
    figure::figure_ui,
    fonts::bold_family,
    section::Room,
    state::UiState,
    theme::{BODY, Ink, SMALL},
};

/// Times on the shelf to choose from, minutes of the plant. Teaching values, no source.
const SHELVES: [(f64, &str); 3] = [(30.0, "30 min"), (120.0, "2 h"), (480.0, "8 h")];
/// Share of the height that the list takes at most before it scrolls by itself, and least height of that, points.
const LIST: f32 = 0.34;
const LOWEST_LIST: f32 = 96.0;

/// The panel in a rectangle.
pub(crate) fn board_ui(
    ui: &mut Ui,
    view: &BoardView<'_>,
    state: &mut UiState,
    rect: Rect,
    out: &mut Vec<UiCommand>,
) -> Room {
    ui.painter()
        .rect_filled(rect, 0.0, Ink::Ground.colour(state.theme));
    let mut inside = ui.new_child(UiBuilder::new().max_rect(rect));
    ScrollArea::vertical()
        .id_salt("panel")
        .auto_shrink([false, false])
        .show(&mut inside, |ui| {
            let margin = Margin::symmetric(10, 6);
            Frame::new()
                .inner_margin(margin)
                .show(ui, |ui| alarms_ui(ui, view, state, rect.height(), out));
            let width = ui.available_width();
            let height = needed(view, width).max(ui.available_height());
            let drawing = values_and_trends(view, [width, height]);
            figure_ui(ui, &drawing, "Readings board", state);
        });
    Room {
        drawing: Some(rect),
        ..Room::default()
    }
}

fn alarms_ui(
    ui: &mut Ui,
    view: &BoardView<'_>,
    state: &mut UiState,
    height: f32,
    out: &mut Vec<UiCommand>,
) {
    head_ui(ui, view, state, out);
    let list = view.alarms.announced();
    if list.is_empty() {
        ui.label(small("No alarm.", Ink::Faint, state));
    } else {
        ScrollArea::vertical()
            .id_salt("alarms")
            .max_height((LIST * height).max(LOWEST_LIST))
            .auto_shrink([false, true])
            .show(ui, |ui| {
                for point in &list {
                    row_ui(ui, view, point, state, out);
                }
            });
    }
    hidden_ui(ui, view, state, out);
}

/// How many there are, and the buttons for all of them.
fn head_ui(ui: &mut Ui, view: &BoardView<'_>, state: &mut UiState, out: &mut Vec<UiCommand>) {
    let alarms = view.alarms;
    ui.horizontal_wrapped(|ui| {
        ui.label(bold("Alarms", BODY));
        for priority in Priority::ALL {
            mark_ui(ui, priority, false, state);
            ui.label(small(count_words(alarms, priority), Ink::Text, state));
        }
        ui.separator();
        let waits = alarms.announced().iter().any(|point| point.state.is_unacknowledged());
        let all = ui.add_enabled(waits, Button::new(RichText::new("Acknowledge all").size(SMALL)));
        if all.clicked() {
            out.push(UiCommand::Alarm(AlarmCommand::AcknowledgeAll));
        }
        let silence = Button::new(RichText::new("Silence").size(SMALL));
        let silence = ui.add_enabled(alarms.horn(), silence);
        let hover = "Silences the horn of the model, which is told here and makes no sound; acknowledges nothing";
        if silence.on_hover_text(hover).clicked() {
            out.push(UiCommand::Alarm(AlarmCommand::Silence));
        }
        let horn = if alarms.horn() { "horn: on" } else { "horn: quiet" };
        ui.label(small(horn, Ink::Text, state));
        ui.separator();
        ui.label(small("shelve for", Ink::Faint, state));
        for (minutes, text) in SHELVES {
            let chosen = state.shelf_minutes == minutes;
            let choice = ui.selectable_label(chosen, RichText::new(text).size(SMALL));
            let name = format!("Shelve for {text} of the plant clock");
            choice.widget_info(|| WidgetInfo::selected(WidgetType::SelectableLabel, true, chosen, &name));
            if choice.clicked() {
                state.shelf_minutes = minutes;
            }
        }
    });
}

/// One alarm with its buttons; its words open below it.
fn row_ui(
    ui: &mut Ui,
    view: &BoardView<'_>,
    point: &Point,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    let waits = point.state.is_unacknowledged();
    let (tag, name) = (point.tag, name(view, point.tag));
    let open = state.alarm == Some(tag);
    ui.horizontal_wrapped(|ui| {
        mark_ui(ui, point.priority, waits, state);
        if button(ui, waits, "Acknowledge", &name).clicked() {
            out.push(UiCommand::Alarm(AlarmCommand::Acknowledge(tag)));
        }
        if button(ui, true, "Shelve", &name).clicked() {
            let minutes = state.shelf_minutes;
            out.push(UiCommand::Alarm(AlarmCommand::Shelve { tag, minutes }));
        }
        let text = if waits {
            bold(&name, SMALL)
        } else {
            RichText::new(&name).size(SMALL)
        };
        let choice = ui.selectable_label(open, text);
        let label = format!("{name}: {}", state_words(point));
        choice
            .widget_info(|| WidgetInfo::selected(WidgetType::SelectableLabel, true, open, &label));
        if choice.on_hover_text("What it asks of you").clicked() {
            state.alarm = (!open).then_some(tag);
        }
        let words = state_words(point);
        ui.label(if waits {
            bold(&words, SMALL)
        } else {
            small(words, Ink::Text, state)
        });
        let reading = reading_words(view.alarms, point, view.machine.units);
        ui.add(Label::new(small(reading, Ink::Faint, state)).wrap());
    });
    if open {
        words_ui(ui, view, point, state, out);
    }
}

/// What follows, what is asked, where the set-point comes from.
fn words_ui(
    ui: &mut Ui,
    view: &BoardView<'_>,
    point: &Point,
    state: &UiState,
    out: &mut Vec<UiCommand>,
) {
    let Some(alarm) = find_alarm(point.tag.key) else {
        return;
    };
    ui.indent(alarm.key, |ui| {
        for (head, text) in [
            ("Response:", alarm.response),
            ("If nobody does anything:", alarm.consequence),
            ("Set-point:", alarm.source),
        ] {
            let words = format!("{head} {text}");
            ui.add(Label::new(small(words, Ink::Text, state)).wrap());
        }
        let name = name(view, point.tag);
        let hover = "For maintenance: it calls nobody until it is put back";
        if button(ui, true, "Out of service", &name)
            .on_hover_text(hover)
            .clicked()
        {
            out.push(UiCommand::Alarm(AlarmCommand::TakeOut(point.tag)));
        }
    });
}

/// What is kept from the list, and how it comes back.
fn hidden_ui(ui: &mut Ui, view: &BoardView<'_>, state: &UiState, out: &mut Vec<UiCommand>) {
    let hidden = view.alarms.hidden();
    let mut designed = Vec::new();
    for point in &hidden {
        let (tag, name) = (point.tag, name(view, point.tag));
        let (verb, command, words) = match point.state {
            AlarmState::Shelved { until_s } => {
                let words = format!("shelved until {} of the plant clock", hours(until_s));
                ("Unshelve", AlarmCommand::Unshelve(tag), words)
            }
            AlarmState::OutOfService => (
                "Back in service",
                AlarmCommand::PutBack(tag),
                "out of service".to_owned(),
            ),
            _ => {
                designed.push(name);
                continue;
            }
        };
        ui.horizontal_wrapped(|ui| {
            ui.label(small(format!("{name}: {words}"), Ink::Text, state));
            if button(ui, true, verb, &name).clicked() {
                out.push(UiCommand::Alarm(command));
            }
        });
    }
    if !designed.is_empty() {
        let words = format!("Suppressed by design: {}.", designed.join("; "));
        ui.add(Label::new(small(words, Ink::Faint, state)).wrap());
    }
}

/// A small button whose name for a screen reader says which alarm it is of.
fn button(ui: &mut Ui, enabled: bool, verb: &str, of: &str) -> Response {
    let response = ui.add_enabled(enabled, Button::new(RichText::new(verb).size(SMALL)));
    let name = format!("{verb}: {of}");
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, enabled, &name));
    response
}

fn mark_ui(ui: &mut Ui, priority: Priority, waits: bool, state: &UiState) {
    let mark = mark_drawing(priority, waits);
    let (rect, _) = ui.allocate_exact_size(vec2(mark.size[0], mark.size[1]), Sense::hover());
    paint(&mark, ui.painter(), rect.min, state.theme);
}

fn bold(text: &str, size: f32) -> RichText {
    RichText::new(text).font(FontId::new(size, bold_family()))
}

fn small(text: impl Into<String>, ink: Ink, state: &UiState) -> RichText {
    RichText::new(text)
        .size(SMALL)
        .color(ink.colour(state.theme))
}
