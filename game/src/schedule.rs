//! When things happen in a frame, in one place.
//!
//! Commands of the last frame are applied, then fixed steps fly the dust, then views read the new moment, then the
//! panels draw and collect new commands, then the engine draws dust where they left room for it. One frame of latency,
//! always the same.

use bevy::{asset::AssetEventSystems, prelude::*, render::renderer::RenderDevice};
use bevy_egui::EguiPostUpdateSet;

/// Stages of a frame that systems of different files share.
#[derive(SystemSet, Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum FrameStage {
    /// What the panels need besides the flight is made ready.
    Draw,
    /// The engine's part of the drawing is put where the panels left room for it, in the same frame.
    Dust,
}

/// Whether the GPU has storage buffers; a browser's WebGL2 has none.
#[derive(Resource, Clone, Copy, Debug)]
pub(crate) struct StorageBuffers(pub(crate) bool);

/// Adds what must be known before anything is spawned.
pub(crate) fn plugin(app: &mut App) {
    app.insert_resource(StorageBuffers(false))
        .configure_sets(
            PostUpdate,
            FrameStage::Dust
                .after(EguiPostUpdateSet::EndPass)
                .before(AssetEventSystems),
        )
        .add_systems(PreStartup, ask_for_storage_buffers);
}

/// The device is there only once all plugins are finished.
fn ask_for_storage_buffers(device: Option<Res<RenderDevice>>, mut have: ResMut<StorageBuffers>) {
    have.0 = device.is_some_and(|device| device.limits().max_storage_buffers_per_shader_stage > 0);
}
