//! The whole window: bar above, controls left, drawing in the middle, charts right, agreement strip below.
//!
//! Where there is little room, controls, drawing and charts share the middle as tabs; nothing is cut off.

use ashlane_shared::checks::Verdict;
use egui::{Frame, Id, LayerId, Margin, Panel, Rect, ScrollArea, Sense, Ui, UiBuilder, Vec2, vec2};

use crate::{
    charts::{along_drawing, by_size_drawing},
    command::UiCommand,
    controls::{controls_ui, controls_with_playback_ui},
    dialogs::dialogs_ui,
    drawing::paint,
    fields_table::fields_table_ui,
    figure::figure_ui,
    lesson::lessons_ui,
    plan::{Legend, PlanPlaces, PlanView, plan_drawing},
    playback::playback_ui,
    state::{Tab, UiState},
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
/// Below this height the strip becomes a tab that says its verdict.
const LOW: f32 = 400.0;
/// Lowest drawing of the plan that can be read, points.
const LOWEST_PLAN: f32 = 280.0;
const CONTROLS: f32 = 262.0;
const CHARTS: f32 = 326.0;
/// The card of a lesson has longer lines than a chart.
const LESSON: f32 = 390.0;

/// The notice that always stands in the window.
pub const NOTICE: &str = "Teaching model. Not a procedure. Follow your site’s procedures and the people licensed or qualified for the work.";

/// Where the window left room for the drawing that the engine makes, in points; nothing when it is hidden.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Room {
    /// The space between the plates.
    pub passage: Option<Rect>,
    /// The whole drawing, for a picture of it.
    pub drawing: Option<Rect>,
}

/// Draws the whole window.
pub fn window_ui(
    context: &egui::Context,
    view: &AppView<'_>,
    plan: &PlanView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) -> Room {
    let screen = context.viewport_rect();
    let builder = UiBuilder::new()
        .layer_id(LayerId::background())
        .max_rect(screen);
    let mut root = Ui::new(context.clone(), Id::new("window"), builder);
    let room = root_ui(&mut root, view, plan, state, out);
    dialogs_ui(context, view, state, out);
    room
}

/// Draws the plan with its agreement strip alone, for a picture.
pub fn layout_for_picture(
    context: &egui::Context,
    view: &AppView<'_>,
    plan: &PlanView<'_>,
    state: &mut UiState,
) -> Room {
    let builder = UiBuilder::new()
        .layer_id(LayerId::background())
        .max_rect(context.viewport_rect());
    let mut root = Ui::new(context.clone(), Id::new("picture"), builder);
    let frame = Frame::new()
        .fill(Ink::Panel.colour(state.theme))
        .inner_margin(Margin::symmetric(10, 6));
    Panel::bottom("notice")
        .frame(frame.inner_margin(Margin::symmetric(10, 3)))
        .show(&mut root, |ui| {
            ui.label(
                egui::RichText::new(NOTICE)
                    .size(SMALL)
                    .color(Ink::Faint.colour(state.theme)),
            );
        });
    Panel::bottom("strip")
        .frame(frame)
        .show(&mut root, |ui| strip_ui(ui, view, state));
    let rect = root.available_rect_before_wrap();
    section_ui(&root, plan, state, rect)
}

/// Draws the whole window into a given room; dialogs apart.
pub fn root_ui(
    root: &mut Ui,
    view: &AppView<'_>,
    plan: &PlanView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
) -> Room {
    keys(root, view, out);
    let size = root.max_rect().size();
    let frame = Frame::new()
        .fill(Ink::Panel.colour(state.theme))
        .inner_margin(Margin::symmetric(10, 6));
    Panel::top("bar")
        .frame(frame)
        .show(root, |ui| top_bar_ui(ui, view, state, out));
    Panel::bottom("notice")
        .frame(frame.inner_margin(Margin::symmetric(10, 3)))
        .show(root, |ui| {
            ui.label(
                egui::RichText::new(NOTICE)
                    .size(SMALL)
                    .color(Ink::Faint.colour(state.theme)),
            );
        });
    let beside = size.x >= WITH_CONTROLS && size.y >= TALL;
    if size.y >= LOW {
        Panel::bottom("strip").frame(frame).show(root, |ui| {
            if beside {
                ui.horizontal_top(|ui| {
                    ui.allocate_ui(vec2(CONTROLS - 12.0, STRIP_HEIGHT), |ui| {
                        ui.vertical(|ui| playback_ui(ui, view, state, out));
                    });
                    strip_ui(ui, view, state);
                });
            } else {
                strip_ui(ui, view, state);
            }
        });
    }
    if size.x < WITH_CHARTS || !beside {
        Panel::top("tabs").frame(frame).show(root, |ui| {
            tabs_ui(ui, view, state, size);
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
            .show(root, |ui| right_ui(ui, view, state, out));
    }
    middle_ui(root, view, plan, state, out, beside)
}

fn middle_ui(
    root: &mut Ui,
    view: &AppView<'_>,
    plan: &PlanView<'_>,
    state: &mut UiState,
    out: &mut Vec<UiCommand>,
    beside: bool,
) -> Room {
    let wide = root.max_rect().width() >= WITH_CHARTS && beside;
    let tab = match state.tab {
        _ if wide => Tab::Section,
        Tab::Conditions if beside => Tab::Section,
        Tab::Lesson if view.lessons.is_none() => Tab::Section,
        Tab::Agreement if root.max_rect().height() >= LOW => Tab::Section,
        tab => tab,
    };
    let rect = root.available_rect_before_wrap();
    let mut room = Room::default();
    let mut middle = root.new_child(UiBuilder::new().max_rect(rect));
    // What has too little room scrolls or is cut here; it must never lie over the strip.
    middle.shrink_clip_rect(rect);
    match tab {
        Tab::Section => room = scrolled_section_ui(&mut middle, plan, state, rect),
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
            frame.show(&mut middle, |ui| charts_ui(ui, view, state));
        }
        Tab::Lesson => {
            let frame = Frame::new()
                .fill(Ink::Panel.colour(state.theme))
                .inner_margin(10);
            frame.show(&mut middle, |ui| right_ui(ui, view, state, out));
        }
        Tab::Agreement => {
            let frame = Frame::new().fill(Ink::Panel.colour(state.theme));
            frame.show(&mut middle, |ui| {
                ScrollArea::vertical()
                    .auto_shrink([false, false])
                    .show(ui, |ui| strip_ui(ui, view, state))
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

/// The charts, or the lesson in their place.
fn right_ui(ui: &mut Ui, view: &AppView<'_>, state: &mut UiState, out: &mut Vec<UiCommand>) {
    match &view.lessons {
        None => charts_ui(ui, view, state),
        Some(lessons) => lessons_ui(ui, view, lessons, state, out),
    }
}

fn tabs_ui(ui: &mut Ui, view: &AppView<'_>, state: &mut UiState, size: Vec2) {
    let with_conditions = size.x < WITH_CONTROLS || size.y < TALL;
    let low = size.y < LOW;
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
            tab(ui, Tab::Agreement, verdict(view));
        }
    });
}

/// The verdict in a word or two.
fn verdict(view: &AppView<'_>) -> &'static str {
    match (view.count.settling, view.count.agreement()) {
        (None, Some(agreement)) if agreement.verdict == Verdict::Agree => "Check: agree",
        (None, Some(_)) => "Check: DISAGREE",
        _ => "Check: counting",
    }
}

/// The plan, in a scroll area where it would be too low to be read.
fn scrolled_section_ui(ui: &mut Ui, plan: &PlanView<'_>, state: &mut UiState, rect: Rect) -> Room {
    let legend = Legend::from(plan).height(rect.width());
    let needed = LOWEST_PLAN + legend;
    if rect.height() >= needed {
        let room = section_ui(ui, plan, state, rect);
        zoom_buttons(ui, plan, state, rect);
        return room;
    }
    let mut room = Room::default();
    ScrollArea::vertical()
        .auto_shrink([false, false])
        .show(ui, |ui| {
            let (area, _) =
                ui.allocate_exact_size(vec2(ui.available_width(), needed), Sense::hover());
            room = section_ui(ui, plan, state, area);
            zoom_buttons(ui, plan, state, area);
        });
    room
}

/// The plan with its legend; the engine draws dust and field into the returned room, behind these lines.
fn section_ui(ui: &Ui, plan: &PlanView<'_>, state: &mut UiState, rect: Rect) -> Room {
    let legend_size = Legend::from(plan).height(rect.width());
    let height = (rect.height() - legend_size).max(120.0);
    let area = Rect::from_min_size(rect.min, vec2(rect.width(), height));
    let size = [area.width(), area.height()];
    let places = PlanPlaces::new(plan, size);
    let response = ui.interact(area, Id::new("plan"), Sense::click_and_drag());
    response.widget_info(|| {
        egui::WidgetInfo::labeled(
            egui::WidgetType::Image,
            true,
            "Plan of one gas passage: drag to move, wheel to zoom",
        )
    });
    navigate(ui, &response, plan, state, &places);
    let passage = Rect::from_min_max(
        area.min + vec2(places.min[0], places.min[1]),
        area.min + vec2(places.max[0], places.max[1]),
    );
    paint(
        &plan_drawing(plan, size),
        ui.painter(),
        area.min,
        state.theme,
    );
    let legend = Legend::from(plan).drawing(rect.width());
    let below = Rect::from_min_size(area.left_bottom(), vec2(rect.width(), legend_size));
    ui.painter()
        .rect_filled(below, 0.0, Ink::Panel.colour(state.theme));
    paint(&legend, ui.painter(), area.left_bottom(), state.theme);
    Room {
        passage: Some(passage),
        drawing: Some(area.union(below)),
    }
}

/// Drag moves along the passage, the wheel zooms round the pointer, arrow keys and + − do the same.
fn navigate(
    ui: &Ui,
    response: &egui::Response,
    plan: &PlanView<'_>,
    state: &mut UiState,
    places: &PlanPlaces,
) {
    let total_m = plan.conditions.length_m() as f32;
    let mut window = state.window;
    if response.dragged() {
        window.start_m -= response.drag_delta().x / places.along_per_m();
    }
    if let Some(pointer) = response.hover_pos() {
        let turned =
            ui.input(|input| input.smooth_scroll_delta().y + 120.0 * input.zoom_delta().ln());
        if turned != 0.0 {
            let about_m = places.along_m(pointer.x - response.rect.min.x);
            window = window.zoomed((-turned / 300.0).exp(), about_m, total_m);
        }
    }
    if response.has_focus() {
        ui.input(|input| {
            let moved = f32::from(i8::from(input.key_pressed(egui::Key::ArrowRight)))
                - f32::from(i8::from(input.key_pressed(egui::Key::ArrowLeft)));
            window.start_m += 0.2 * moved * window.length_m;
            let middle_m = window.start_m + 0.5 * window.length_m;
            if input.key_pressed(egui::Key::Plus) || input.key_pressed(egui::Key::Equals) {
                window = window.zoomed(0.7, middle_m, total_m);
            }
            if input.key_pressed(egui::Key::Minus) {
                window = window.zoomed(1.0 / 0.7, middle_m, total_m);
            }
        });
    }
    state.window = window.within(total_m);
}

/// One field, all fields, nearer, farther.
fn zoom_buttons(ui: &mut Ui, plan: &PlanView<'_>, state: &mut UiState, area: Rect) {
    let total_m = plan.conditions.length_m() as f32;
    let field_m = plan.conditions.collector.field_length_m as f32;
    let bar = Rect::from_min_size(
        area.min + vec2(14.0, 24.0),
        vec2((area.width() - 28.0).max(60.0), 26.0),
    );
    let mut ui = ui.new_child(
        UiBuilder::new()
            .max_rect(bar)
            .layout(egui::Layout::left_to_right(egui::Align::Center)),
    );
    ui.spacing_mut().item_spacing.x = 4.0;
    ui.spacing_mut().button_padding = vec2(7.0, 2.0);
    ui.label(
        egui::RichText::new("Show")
            .size(SMALL)
            .color(Ink::Faint.colour(state.theme)),
    );
    for field in 0..plan.fields.len() {
        let start_m = field as f32 * field_m;
        let shown = (state.window.start_m - start_m).abs() < 1e-3
            && (state.window.length_m - field_m).abs() < 1e-3;
        let text = egui::RichText::new(format!("{}", field + 1)).size(SMALL);
        if ui
            .selectable_label(shown, text)
            .on_hover_text(format!("Field {}", field + 1))
            .clicked()
        {
            state.window = crate::state::PlanWindow {
                start_m,
                length_m: field_m,
            }
            .within(total_m);
        }
    }
    let whole = state.window.length_m > 0.999 * total_m;
    if ui
        .selectable_label(whole, egui::RichText::new("all").size(SMALL))
        .clicked()
    {
        state.window = crate::state::PlanWindow {
            start_m: 0.0,
            length_m: total_m,
        };
    }
    let middle_m = state.window.start_m + 0.5 * state.window.length_m;
    for (text, factor, hover) in [("+", 0.6, "Nearer"), ("−", 1.0 / 0.6, "Farther")] {
        if ui.button(text).on_hover_text(hover).clicked() {
            state.window = state.window.zoomed(factor, middle_m, total_m);
        }
    }
}

fn charts_ui(ui: &mut Ui, view: &AppView<'_>, state: &UiState) {
    ScrollArea::vertical()
        .auto_shrink([false, false])
        .show(ui, |ui| {
            let width = ui.available_width().min(560.0);
            let size = [width, (0.66 * width).clamp(190.0, 280.0)];
            let drawings = [
                along_drawing(&view.count, state.units, size),
                by_size_drawing(&view.count, state.units, size),
            ];
            for (drawing, name) in drawings
                .into_iter()
                .zip(["Chart along the collector", "Chart by grain size"])
            {
                match drawing {
                    Some(drawing) => figure_ui(ui, &drawing, name, state),
                    None => {
                        ui.label("Counting …");
                    }
                }
                ui.add_space(6.0);
            }
            fields_table_ui(ui, view, state);
        });
}

fn strip_ui(ui: &mut Ui, view: &AppView<'_>, state: &UiState) {
    let size = [ui.available_width(), STRIP_HEIGHT];
    let drawing = strip_drawing(&view.count, view.conditions, size);
    figure_ui(ui, &drawing, "Agreement of count and theory", state);
}
