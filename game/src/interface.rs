//! The bridge between the panels and the engine: builds the view, draws the panels, collects what they ask for.
//!
//! The only file that knows both egui and the engine.

use ashlane_panels::{
    Room, SectionView,
    elevation::{ElevationView, Measures},
    fonts, layout_for_picture,
    presenter::zoom_factor,
    state::UiState,
    theme,
    view::{AppView, CountView},
    window_ui,
};
use bevy::prelude::*;
use bevy_egui::{EguiContexts, EguiPlugin, EguiPrimaryContextPass, egui};

use crate::{
    board, clocks,
    close_looks::CloseLooks,
    commands::Wishes,
    compare::Compare,
    counting::Counting,
    face::Face,
    files,
    flight::Flight,
    lesson::Lessons,
    pictures::across,
    pictures::plan_view,
    plan_view::{PlanFrame, SideSpan},
    plant_days::PlantDays,
    session::Session,
    trials::Trials,
};

/// Adds egui and the panels.
pub(crate) fn plugin(app: &mut App) {
    app.add_plugins(EguiPlugin::default())
        .init_resource::<DrawingRect>()
        .init_resource::<Arrangement>()
        .add_systems(EguiPrimaryContextPass, panels);
}

/// What fills the screen.
#[derive(Resource, Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Arrangement {
    /// The whole window.
    #[default]
    Window,
    /// The section with its agreement strip alone, for a picture.
    Section,
}

/// Where the drawing lies on the screen, for pictures of it.
#[derive(Resource, Clone, Copy, Debug, Default)]
pub(crate) struct DrawingRect {
    points: Option<egui::Rect>,
    pixels_per_point: f32,
}

impl DrawingRect {
    /// In physical pixels.
    pub(crate) fn physical(&self) -> Option<URect> {
        let rect = self.points? * self.pixels_per_point;
        let corner =
            |point: egui::Pos2| UVec2::new(point.x.max(0.0) as u32, point.y.max(0.0) as u32);
        Some(URect::from_corners(corner(rect.min), corner(rect.max)))
    }
}

/// What the panels last set on the context, so that fonts and theme are not set at every frame.
#[derive(Debug, Default)]
struct Dressed {
    fonts: bool,
    theme: Option<theme::Theme>,
    zoom: Option<f32>,
}

fn panels(
    mut contexts: EguiContexts<'_, '_>,
    flight: Res<Flight>,
    counting: Res<Counting>,
    lessons: Res<Lessons>,
    looks: Res<CloseLooks>,
    plant: Res<PlantDays>,
    face: Res<Face>,
    compare: Res<Compare>,
    trials: Res<Trials>,
    arrangement: Res<Arrangement>,
    mut session: ResMut<Session>,
    mut wishes: ResMut<Wishes>,
    mut plan_frame: ResMut<PlanFrame>,
    mut drawing_rect: ResMut<DrawingRect>,
    mut clear: ResMut<ClearColor>,
    mut dressed: Local<Dressed>,
) -> Result {
    let context = contexts.ctx_mut()?.clone();
    if !dressed.fonts {
        // Fonts are there from the next pass on.
        fonts::install(&context);
        dressed.fonts = true;
        return Ok(());
    }
    dress(&context, &session, &mut dressed, &mut clear);
    let mut ui = session.ui.clone();
    let conditions = flight.conditions();
    ui.window = ui.window.within(conditions.length_m() as f32);
    let card = lessons.card();
    let (trouble, in_lessons) = (flight.field_trouble(), lessons.are_on());
    // In a lesson the reference marks are those of the lesson: where the step began.
    let view = AppView {
        conditions,
        controls: flight.controls(),
        sheet: lessons.start().unwrap_or(&session.sheet.conditions),
        fields: looks.side.meters(),
        field_trouble: trouble.as_deref(),
        flight: flight.view(),
        count: CountView {
            result: counting.result.as_ref(),
            theory: counting.theory.as_ref(),
            settling: counting.settling,
        },
        face: face.view(ui.units),
        plant: clocks::view(&flight, &plant, ui.units),
        faults: (!in_lessons).then(|| flight.faults()),
        file: session.file(flight.controls(), in_lessons),
        lessons: lessons.view(card.as_ref()),
        compare: compare.view(&flight, &ui),
        tried: trials.of(&lessons),
        message: session.message.as_ref(),
        sheets: &session.offered,
    };
    let section = section(&flight, &looks, &face, &counting, &ui);
    let had_dialog = ui.dialog.is_some();
    let mut out = Vec::new();
    let room = match *arrangement {
        Arrangement::Window => window_ui(&context, &view, &section, &mut ui, &mut out),
        Arrangement::Section => layout_for_picture(&context, &view, &section, &mut ui),
    };
    tell_engine(
        &context,
        &room,
        &section,
        &ui,
        &mut plan_frame,
        &mut drawing_rect,
    );
    if ui.dialog.is_some() && !had_dialog {
        session.offered = files::offered();
    }
    session.ui = ui;
    wishes.0.append(&mut out);
    Ok(())
}

/// What the big drawing can show.
fn section<'a>(
    flight: &'a Flight,
    looks: &'a CloseLooks,
    face: &'a Face,
    counting: &Counting,
    ui: &UiState,
) -> SectionView<'a> {
    let side = looks
        .side
        .view(&flight.frame(), flight.machine().plates(), ui);
    let side = ElevationView {
        stack: board::stack(flight, Some(counting)),
        face_rows_m_s: face.rows_m_s(),
        ..side
    };
    SectionView {
        elevation: side,
        board: board::view(flight, &looks.side, Some(counting), ui),
        cross_section: across(side, face, ui),
        plan: plan_view(flight, looks.side.meters(), ui),
        wire: looks.wire(ui),
        grain: looks.grain(&flight.frame(), ui),
        energization: looks.energization(ui),
        revision: looks.revision,
    }
}

/// Fonts, colours and size of text, where they changed.
fn dress(
    context: &egui::Context,
    session: &Session,
    dressed: &mut Dressed,
    clear: &mut ClearColor,
) {
    let theme = session.ui.theme;
    if dressed.theme != Some(theme) {
        theme::apply(context, theme);
        let [red, green, blue] = theme::Ink::Ground.rgb(theme);
        clear.0 = Color::srgb_u8(red, green, blue);
        dressed.theme = Some(theme);
    }
    let pixels = context.viewport_rect().size() * context.pixels_per_point();
    let native = context.native_pixels_per_point().unwrap_or(1.0);
    let zoom = zoom_factor(&session.ui, pixels.into(), native);
    if dressed.zoom != Some(zoom) {
        context.set_zoom_factor(zoom);
        dressed.zoom = Some(zoom);
    }
}

/// Where the engine may draw, and what.
fn tell_engine(
    context: &egui::Context,
    room: &Room,
    section: &SectionView<'_>,
    ui: &UiState,
    plan_frame: &mut ResMut<PlanFrame>,
    drawing_rect: &mut DrawingRect,
) {
    let zoom = context.zoom_factor();
    let logical = |rect: egui::Rect| {
        Rect::new(
            rect.min.x * zoom,
            rect.min.y * zoom,
            rect.max.x * zoom,
            rect.max.y * zoom,
        )
    };
    let screen = context.viewport_rect().size() * zoom;
    let plan = &section.plan;
    let conditions = plan.conditions;
    let field_m = conditions.collector.field_length_m as f32;
    let measures = Measures::new(conditions, section.elevation.hoppers, section.elevation.gas);
    let seen = room.seen;
    let from_above = seen.turned > 0.999 && seen.dust > 0.999;
    let wanted = PlanFrame {
        rect: room.passage.map(logical),
        screen: Vec2::new(screen.x, screen.y),
        pixels_per_point: zoom,
        window: seen.window,
        gap_m: conditions.gap_m() as f32,
        pitch_m: field_m / conditions.wires_per_field() as f32,
        fields: conditions.collector.fields,
        field_m,
        scale: plan.field_scale,
        theme: ui.theme,
        field_map: ui.field_map,
        tracers: ui.tracers && from_above,
        side: SideSpan {
            plate_m: measures.plate_m as f32,
            brim_m: measures.brim_m as f32,
            roof_m: measures.roof_m as f32,
        },
        turned: seen.turned,
        dust: seen.dust,
        mirrored: measures.mirrored,
    };
    plan_frame.set_if_neq(wanted);
    *drawing_rect = DrawingRect {
        points: room.drawing,
        pixels_per_point: context.pixels_per_point(),
    };
}
