//! Dust in one draw: a fixed mesh of quads whose places and looks the GPU reads from a storage buffer.

use bevy::{
    asset::{RenderAssetUsages, uuid_handle},
    camera::visibility::NoFrustumCulling,
    mesh::{Indices, PrimitiveTopology},
    prelude::*,
    render::{render_resource::AsBindGroup, storage::ShaderBuffer},
    shader::ShaderRef,
    sprite_render::{AlphaMode2d, Material2d, Material2dPlugin},
};

use super::{
    PlanFrame, PlanUniform,
    gpu_assets::add_shader,
    looks::{CAPACITY, spots},
    tracers::Tracers,
};
use crate::{
    flight::Flight,
    schedule::{FrameStage, StorageBuffers},
};

const SHADER: Handle<Shader> = uuid_handle!("5b7d9a2e-2c2f-4a8e-9c61-0d9a6c1f7e21");
/// Bytes of one spot in the buffer.
const SPOT: usize = 16;
/// Quads of the smallest mesh.
const FEWEST: usize = 4096;

/// Adds the material and the systems that feed it.
pub(super) fn plugin(app: &mut App) {
    app.add_plugins(Material2dPlugin::<GrainMaterial>::default());
    let text = include_str!("../../../assets/shaders/grains.wgsl");
    add_shader(app, &SHADER, "grains.wgsl", text);
    app.add_systems(Startup, spawn.run_if(storage_buffers))
        .add_systems(
            PostUpdate,
            feed.in_set(FrameStage::Dust).run_if(storage_buffers),
        );
}

fn storage_buffers(have: Res<StorageBuffers>) -> bool {
    have.0
}

/// The buffer and where the passage is.
#[derive(Asset, TypePath, AsBindGroup, Clone, Debug)]
pub(super) struct GrainMaterial {
    #[storage(0, read_only)]
    spots: Handle<ShaderBuffer>,
    #[uniform(1)]
    plan: PlanUniform,
}

impl Material2d for GrainMaterial {
    fn vertex_shader() -> ShaderRef {
        SHADER.into()
    }

    fn fragment_shader() -> ShaderRef {
        SHADER.into()
    }

    fn alpha_mode(&self) -> AlphaMode2d {
        AlphaMode2d::Blend
    }
}

/// The material and buffer in use, and the meshes to choose from.
#[derive(Resource, Debug)]
struct GrainBuffer {
    spots: Handle<ShaderBuffer>,
    material: Handle<GrainMaterial>,
    /// Quads and their mesh, each twice as many as the one before: a software renderer works on every quad there is.
    meshes: Vec<(usize, Handle<Mesh>)>,
}

fn spawn(
    mut commands: Commands,
    mut meshes: ResMut<Assets<Mesh>>,
    mut materials: ResMut<Assets<GrainMaterial>>,
    mut buffers: ResMut<Assets<ShaderBuffer>>,
) {
    let spots = buffers.add(ShaderBuffer::new(
        &vec![0; CAPACITY * SPOT],
        RenderAssetUsages::default(),
    ));
    let material = materials.add(GrainMaterial {
        spots: spots.clone(),
        plan: PlanUniform::default(),
    });
    let sizes = std::iter::successors(Some(FEWEST), |quads| Some(2 * quads));
    let meshes: Vec<_> = sizes
        .take_while(|quads| *quads <= CAPACITY)
        .map(|count| (count, meshes.add(quads(count))))
        .collect();
    let fewest = meshes.first().map(|(_, mesh)| mesh.clone());
    commands.spawn((
        Name::new("grains"),
        Mesh2d(fewest.unwrap_or_default()),
        MeshMaterial2d(material.clone()),
        NoFrustumCulling,
        Transform::from_xyz(0.0, 0.0, 1.0),
    ));
    commands.insert_resource(GrainBuffer {
        spots,
        material,
        meshes,
    });
}

/// Quads for so many spots; the third coordinate is the number of the spot.
fn quads(count: usize) -> Mesh {
    let corners = [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0_f32]];
    let positions: Vec<[f32; 3]> = (0..count)
        .flat_map(|spot| corners.map(|[x, y]| [x, y, spot as f32]))
        .collect();
    let indices = (0..count as u32)
        .flat_map(|spot| [0, 1, 2, 0, 2, 3].map(|corner| 4 * spot + corner))
        .collect();
    Mesh::new(
        PrimitiveTopology::TriangleList,
        RenderAssetUsages::RENDER_WORLD,
    )
    .with_inserted_attribute(Mesh::ATTRIBUTE_POSITION, positions)
    .with_inserted_indices(Indices::U32(indices))
}

fn feed(
    flight: Res<Flight>,
    plan: Res<PlanFrame>,
    tracers: Res<Tracers>,
    grains: Res<GrainBuffer>,
    mut drawn: Single<&mut Mesh2d, With<MeshMaterial2d<GrainMaterial>>>,
    mut buffers: ResMut<Assets<ShaderBuffer>>,
    mut materials: ResMut<Assets<GrainMaterial>>,
    mut bytes: Local<Vec<u8>>,
) {
    bytes.clear();
    if plan.rect.is_some() {
        for spot in spots(&flight.frame(), &plan, &tracers) {
            bytes.extend_from_slice(&spot.bytes());
        }
    }
    let spots = bytes.len() / SPOT;
    let fitting = grains.meshes.iter().find(|(quads, _)| *quads >= spots);
    if let Some((_, mesh)) = fitting.filter(|(_, mesh)| drawn.0 != *mesh) {
        drawn.0 = mesh.clone();
    }
    // Always the same size, so that the GPU's buffer stays the same one.
    bytes.resize(CAPACITY * SPOT, 0);
    if let Some(mut buffer) = buffers.get_mut(&grains.spots) {
        match &mut buffer.data {
            Some(data) if data.len() == bytes.len() => data.copy_from_slice(&bytes),
            data => *data = Some(bytes.clone()),
        }
    }
    let uniform = plan.uniform();
    if materials
        .get(&grains.material)
        .is_some_and(|material| material.plan != uniform)
        && let Some(mut material) = materials.get_mut(&grains.material)
    {
        material.plan = uniform;
    }
}
