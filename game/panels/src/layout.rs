//! The whole window: bar above, controls left, drawing in the middle, charts right, agreement strip below.
//!
//! Where there is little room, controls, drawing and charts share the middle as tabs; nothing is cut off.

use ashlane_shared::checks::Verdict;
use egui::{
    CentralPanel, Frame, Id, LayerId, Margin, Panel, ScrollArea, Ui, UiBuilder, Vec2, vec2,
};

use crate::{
    charts_column::charts_ui,
    checks::{CheckLine, lines_drawing},
    clocks::pace_ui,
    command::UiCommand,
    compare::compare_ui,
    controls::{controls_ui, controls_with_playback_ui},
    dialogs::dialogs_ui,
    explore,
    faults::hide_key,
    figure::figure_ui,
    lesson::{catalog_ui, lessons_ui},
    playback::playback_ui,
    presenter,
    section::{
        Room, SectionView, chosen_part, foot_ui, has_parts, ladder_ui, part_words_ui, section_ui,
    },
    state::{Rung, Tab, UiState},
    strip::{STRIP_HEIGHT, strip_drawing},
    theme::{Ink, SMALL},
    top_bar::top_bar_ui,
    view::AppView,
};

/// Below this width the charts move into a tab, below the second one the controls too, points.
const WITH_CHARTS: f32 = 1120.0;
const WITH_CONTROLS: f32 = 760.0;
/// Below this height the strip goes without its playback column beside it.
const TALL: f32 = 520.0;
/// Below this height the strip becomes a tab that says its verdict; below the one before with a closer look.
const LOW: f32 = 400.0;
const CONTROLS: f32 = 262.0;
const CHARTS: f32 = 326.0;
/// The card of a lesson has longer lines than a chart.
const LESSON: f32 = 390.0;

/// The notice that always stands in the window.
pub const NOTICE: &str = "Teaching model. Not a procedure. Follow your site’s procedures and the people licensed or qualified for the work.";

/// Draws the whole window.
pub fn window_ui(
    context: &egui::Context,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) -> Room {
    let screen = context.viewport_rect();
    let builder = UiBuilder::new()
        .layer_id(LayerId::background())
        .max_rect(screen);
    let mut root = Ui::new(context.clone(), Id::new("window"), builder);
    let room = root_ui(&mut root, view, section, state, out);
    dialogs_ui(context, view, state, out);
    room
}

/// Draws the section with its agreement strip alone, for a picture.
pub fn layout_for_picture(
    context: &egui::Context,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
) -> Room {
    let builder = UiBuilder::new()
        .layer_id(LayerId::background())
        .max_rect(context.viewport_rect());
    let mut root = Ui::new(context.clone(), Id::new("picture"), builder);
    let frame = Frame::new()
        .fill(Ink::Panel.colour(state.theme))
        .inner_margin(Margin::symmetric(10, 6));
    notice_ui(&mut root, frame, state);
    Panel::bottom("strip")
        .frame(frame)
        .show(&mut root, |ui| strip_ui(ui, view, section, state));
    cautioned_section_ui(&mut root, view, section, state, &mut Vec::new())
}

/// Draws the whole window into a given room; dialogs apart.
pub fn root_ui(
    root: &mut Ui,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) -> Room {
    presenter::toggle_key(root, state, out);
    presenter::set_least_line(root, state);
    if state.presenting.is_some() {
        return presenter::presenter_ui(root, view, section, state, out);
    }
    keys(root, view, out);
    hide_key(root, state);
    let size = root.max_rect().size();
    let frame = Frame::new()
        .fill(Ink::Panel.colour(state.theme))
        .inner_margin(Margin::symmetric(10, 6));
    Panel::top("bar")
        .frame(frame)
        .show(root, |ui| top_bar_ui(ui, view, state, out));
    notice_ui(root, frame, state);
    if let Some(lessons) = view
        .lessons
        .as_ref()
        .filter(|lessons| lessons.open.is_none())
    {
        CentralPanel::default()
            .frame(frame)
            .show(root, |ui| catalog_ui(ui, lessons, state, out));
        return Room::default();
    }
    let beside = size.x >= WITH_CONTROLS && size.y >= TALL;
    if size.y >= low(view, state) {
        Panel::bottom("strip").frame(frame).show(root, |ui| {
            if beside {
                ui.horizontal_top(|ui| {
                    ui.allocate_ui(vec2(CONTROLS - 12.0, STRIP_HEIGHT), |ui| {
                        ui.vertical(|ui| playback_ui(ui, view, state, out));
                    });
                    ui.vertical(|ui| strip_ui(ui, view, section, state));
                });
            } else {
                strip_ui(ui, view, section, state);
            }
        });
    }
    if size.x < WITH_CHARTS || !beside {
        Panel::top("tabs").frame(frame).show(root, |ui| {
            tabs_ui(ui, view, section, state, size);
        });
    }
    if beside {
        Panel::left("controls")
            .exact_size(CONTROLS + 16.0)
            .resizable(false)
            .frame(frame)
            .show(root, |ui| controls_ui(ui, view, state, out));
    }
    if beside && size.x >= WITH_CHARTS {
        Panel::right("charts")
            .exact_size(right_width(view) + 16.0)
            .resizable(false)
            .frame(frame)
            .show(root, |ui| right_ui(ui, view, section, state, out));
    }
    middle_ui(root, view, section, state, out, beside)
}

/// The notice, below everything.
fn notice_ui(root: &mut Ui, frame: Frame, state: &UiState) {
    Panel::bottom("notice")
        .frame(frame.inner_margin(Margin::symmetric(10, 3)))
        .show(root, |ui| {
            ui.label(
                egui::RichText::new(NOTICE)
                    .size(SMALL)
                    .color(Ink::Faint.colour(state.theme)),
            );
        });
}

fn middle_ui(
    root: &mut Ui,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
    beside: bool,
) -> Room {
    let wide = root.max_rect().width() >= WITH_CHARTS && beside;
    let tab = match state.tab {
        _ if wide => Tab::Section,
        Tab::Conditions if beside => Tab::Section,
        Tab::Lesson if view.lessons.is_none() => Tab::Section,
        Tab::Agreement if root.max_rect().height() >= low(view, state) => Tab::Section,
        tab => tab,
    };
    let rect = root.available_rect_before_wrap();
    let mut room = Room::default();
    let mut middle = root.new_child(UiBuilder::new().max_rect(rect));
    // What has too little room scrolls or is cut here; it must never lie over the strip.
    middle.shrink_clip_rect(rect);
    match tab {
        Tab::Section => {
            let frame = Frame::new()
                .fill(Ink::Panel.colour(state.theme))
                .inner_margin(Margin::symmetric(10, 3));
            Panel::top("ladder")
                .frame(frame)
                .show(&mut middle, |ui| ladder_ui(ui, view, section, state, out));
            room = cautioned_section_ui(&mut middle, view, section, state, out);
        }
        Tab::Conditions => {
            let frame = Frame::new()
                .fill(Ink::Panel.colour(state.theme))
                .inner_margin(10);
            frame.show(&mut middle, |ui| {
                controls_with_playback_ui(ui, view, state, out);
            });
        }
        Tab::Charts => {
            let frame = Frame::new()
                .fill(Ink::Panel.colour(state.theme))
                .inner_margin(10);
            frame.show(&mut middle, |ui| beside_ui(ui, view, section, state, out));
        }
        Tab::Lesson => {
            let frame = Frame::new()
                .fill(Ink::Panel.colour(state.theme))
                .inner_margin(10);
            frame.show(&mut middle, |ui| right_ui(ui, view, section, state, out));
        }
        Tab::Agreement => {
            let frame = Frame::new().fill(Ink::Panel.colour(state.theme));
            frame.show(&mut middle, |ui| {
                ScrollArea::vertical()
                    .auto_shrink([false, false])
                    .show(ui, |ui| strip_ui(ui, view, section, state))
            });
        }
    }
    room
}

/// Space and the full stop key run, pause and step; Ctrl+Z and Ctrl+Y undo and redo. Only where no text is being typed.
fn keys(ui: &Ui, view: &AppView<'_>, out: &mut Vec<UiCommand>) {
    if ui.ctx().egui_wants_keyboard_input() {
        return;
    }
    let focused = ui.ctx().memory(|memory| memory.focused().is_some());
    ui.input(|input| {
        let command = input.modifiers.command;
        if command
            && input.key_pressed(egui::Key::Z)
            && !input.modifiers.shift
            && view.file.can_undo
        {
            out.push(UiCommand::Undo);
        }
        let redo = input.key_pressed(egui::Key::Y)
            || (input.modifiers.shift && input.key_pressed(egui::Key::Z));
        if command && redo && view.file.can_redo {
            out.push(UiCommand::Redo);
        }
        if command && input.key_pressed(egui::Key::S) && view.file.has_path && view.file.unsaved {
            out.push(UiCommand::Save);
        }
        // With a focused control the keys are the control's own.
        if !focused && !command && input.key_pressed(egui::Key::Space) {
            out.push(UiCommand::Run(!view.flight.running));
        }
        if !focused && !command && input.key_pressed(egui::Key::Period) && !view.flight.running {
            out.push(UiCommand::SingleStep);
        }
    });
}

fn right_width(view: &AppView<'_>) -> f32 {
    if view.lessons.is_some() {
        LESSON
    } else {
        CHARTS
    }
}

/// Height below which the strip is a tab: a closer look has more below it than the plan, and a lesson is for reading.
fn low(view: &AppView<'_>, state: &UiState) -> f32 {
    match state.rung {
        Rung::Plan if view.lessons.is_none() => LOW,
        _ => TALL,
    }
}

/// The charts, or while exploring the questions in their place.
fn beside_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    if view.lessons.is_none() {
        explore::switch_ui(ui, state);
    }
    if view.lessons.is_none() && state.exploring.open {
        explore::questions_ui(ui, view, state, out);
    } else {
        charts_ui(ui, view, section, state, out);
    }
}

/// The charts, or the lesson in their place.
fn right_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) {
    match &view.lessons {
        None => beside_ui(ui, view, section, state, out),
        Some(lessons) => lessons_ui(ui, view, lessons, state, out),
    }
}

fn tabs_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    size: Vec2,
) {
    let with_conditions = size.x < WITH_CONTROLS || size.y < TALL;
    let (low, rung) = (size.y < low(view, state), state.rung);
    ui.horizontal_wrapped(|ui| {
        let mut tab = |ui: &mut Ui, value: Tab, text: &str| {
            let elsewhere = (state.tab == Tab::Conditions && !with_conditions)
                || (state.tab == Tab::Agreement && !low);
            let shown = state.tab == value || (value == Tab::Section && elsewhere);
            if ui.selectable_label(shown, text).clicked() {
                state.tab = value;
            }
        };
        tab(ui, Tab::Section, "Section");
        if with_conditions {
            tab(ui, Tab::Conditions, "Conditions");
        }
        tab(ui, Tab::Charts, "Charts");
        if view.lessons.is_some() {
            tab(ui, Tab::Lesson, "Lesson");
        }
        if low {
            let words = verdict(view, &section.checks(rung));
            tab(ui, Tab::Agreement, words);
        }
        if with_conditions {
            pace_ui(ui, &view.flight, state);
        }
    });
}

/// The verdict in a word or two.
fn verdict(view: &AppView<'_>, checks: &[CheckLine]) -> &'static str {
    if checks.iter().any(|line| line.verdict == Verdict::Disagree) {
        return "Check: DISAGREE";
    }
    match (view.count.settling, view.count.agreement()) {
        (None, Some(agreement)) if agreement.verdict == Verdict::Agree => "Check: agree",
        (None, Some(_)) => "Check: DISAGREE",
        _ => "Check: counting",
    }
}

/// The section with what belongs to it below it.
fn cautioned_section_ui(
    ui: &mut Ui,
    view: &AppView<'_>,
    section: &SectionView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) -> Room {
    foot_ui(ui, section, state);
    if let (true, Some(part)) = (has_parts(state.rung), chosen_part(state)) {
        let frame = Frame::new()
            .fill(Ink::Panel.colour(state.theme))
            .inner_margin(Margin::symmetric(10, 4));
        Panel::bottom("part").frame(frame).show(ui, |ui| {
            part_words_ui(ui, &section.elevation, part, state);
        });
    }
    let rect = ui.available_rect_before_wrap();
    if let Some(compare) = view.compare.as_ref().filter(|_| state.comparing) {
        compare_ui(ui, view, compare, section, state, rect);
        return Room::default();
    }
    section_ui(ui, section, state, rect, out)
}

/// The checks of what is shown, then the penetration.
fn strip_ui(ui: &mut Ui, view: &AppView<'_>, section: &SectionView<'_>, state: &UiState) {
    let width = ui.available_width();
    let checks = section.checks(state.rung);
    if !checks.is_empty() {
        let drawing = lines_drawing(&checks, width);
        figure_ui(ui, &drawing, "Checks of this view", state);
    }
    if let Some(why) = section.unchecked(state.rung) {
        let ink = Ink::Faint.colour(state.theme);
        ui.label(egui::RichText::new(why).size(SMALL).color(ink));
    }
    let drawing = strip_drawing(&view.count, view.conditions, [width, STRIP_HEIGHT]);
    figure_ui(ui, &drawing, "Agreement of count and theory", state);
}
