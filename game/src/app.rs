//! Puts the application together: engine plugins, ours, the order of a frame, and the camera.

use std::sync::atomic::{AtomicBool, Ordering};

use bevy::{
    app::PluginGroupBuilder,
    camera::RenderTarget,
    log::{DEFAULT_FILTER, Level, LogPlugin},
    prelude::*,
    render::{RenderPlugin, pipelined_rendering::PipelinedRenderingPlugin},
    window::{ExitCondition, WindowResolution},
    winit::{WinitPlugin, WinitSettings},
};

use crate::{
    alarms, clocks, close_looks, commands, compare, counting, exports, face, faults, flight,
    interface, lesson, pace, plan_view, plant_days, schedule, trials,
};

/// Size of a new window, logical pixels.
const WINDOW: (u32, u32) = (1440, 900);

/// The engine with a window.
pub(crate) fn with_window() -> App {
    let window = Window {
        title: "Ashlane — a precipitator you can see into".to_owned(),
        resolution: WindowResolution::new(WINDOW.0, WINDOW.1),
        name: Some("ashlane".to_owned()),
        ..default()
    };
    let mut app = App::new();
    app.add_plugins(engine().set(WindowPlugin {
        primary_window: Some(window),
        ..default()
    }))
    .insert_resource(WinitSettings::game())
    .add_systems(Startup, |mut commands: Commands| {
        commands.spawn((Name::new("camera"), Camera2d, Msaa::Off));
    });
    app
}

/// Whether a frame is drawn while the next one is worked out, as in a window.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Overlap {
    /// One after the other: what was done is drawn when the frame ends.
    No,
    /// Drawing has its own thread and is one frame behind.
    Yes,
}

/// The engine without a window, drawing into an image.
pub(crate) fn offscreen(target: impl Fn(&mut App) -> RenderTarget, overlap: Overlap) -> App {
    static LOGGED: AtomicBool = AtomicBool::new(false);
    let mut engine = engine();
    if LOGGED.swap(true, Ordering::Relaxed) {
        // One process has one log; a second stage speaks into that of the first.
        engine = engine.disable::<LogPlugin>();
    }
    if overlap == Overlap::No {
        engine = engine.disable::<PipelinedRenderingPlugin>();
    }
    let mut app = App::new();
    app.add_plugins(
        engine
            .set(WindowPlugin {
                primary_window: None,
                exit_condition: ExitCondition::DontExit,
                ..default()
            })
            .set(RenderPlugin {
                synchronous_pipeline_compilation: true,
                ..default()
            })
            .disable::<WinitPlugin>(),
    );
    let target = target(&mut app);
    app.world_mut()
        .spawn((Name::new("camera"), Camera2d, Msaa::Off, target));
    app
}

/// Only warnings are told, and not that a software renderer is slow; `RUST_LOG` asks for more.
fn engine() -> PluginGroupBuilder {
    DefaultPlugins.set(LogPlugin {
        level: Level::WARN,
        filter: format!("{DEFAULT_FILTER},bevy_render::renderer=error,bevy_egui::render=error"),
        ..default()
    })
}

/// Ours, on top of the engine; [`Flight`](flight::Flight) and [`Session`](crate::session::Session) must be there.
pub(crate) fn plugin(app: &mut App) {
    app.add_plugins((
        schedule::plugin,
        clocks::plugin,
        close_looks::plugin,
        commands::plugin,
        compare::plugin,
        counting::plugin,
        exports::plugin,
        face::plugin,
        faults::plugin,
        flight::plugin,
        interface::plugin,
        lesson::plugin,
        pace::plugin,
        plan_view::plugin,
        plant_days::plugin,
    ))
    .add_plugins((alarms::plugin, trials::plugin));
}
