//! When things happen in a frame, in one place.
//!
//! Commands of the last frame are applied, then fixed steps fly the dust, then views read the new moment, then the
//! panels draw and collect new commands. One frame of latency, always the same.

use bevy::{prelude::*, render::renderer::RenderDevice};

/// Stages of a frame that systems of different files share.
#[derive(SystemSet, Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(crate) enum FrameStage {
    /// The engine's part of the drawing reads the moment.
    Draw,
}

/// Whether the GPU has storage buffers; a browser's WebGL2 has none.
#[derive(Resource, Clone, Copy, Debug)]
pub(crate) struct StorageBuffers(pub(crate) bool);

/// Adds what must be known before anything is spawned.
pub(crate) fn plugin(app: &mut App) {
    app.insert_resource(StorageBuffers(false))
        .add_systems(PreStartup, ask_for_storage_buffers);
}

/// The device is there only once all plugins are finished.
fn ask_for_storage_buffers(device: Option<Res<RenderDevice>>, mut have: ResMut<StorageBuffers>) {
    have.0 = device.is_some_and(|device| device.limits().max_storage_buffers_per_shader_stage > 0);
}
