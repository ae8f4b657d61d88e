//! Dust where a GPU has no storage buffers, as in a browser's WebGL2: one mesh, built anew each frame.

use bevy::{
    asset::RenderAssetUsages,
    camera::visibility::NoFrustumCulling,
    mesh::{Indices, PrimitiveTopology},
    prelude::*,
};

use super::{
    PlanFrame,
    gpu_assets::smooth_picture,
    looks::{Shape, spots},
    tracers::Tracers,
};
use crate::{
    flight::Flight,
    schedule::{FrameStage, StorageBuffers},
};

/// Side of one shape in the picture of shapes, texels.
const SIDE: u32 = 32;
/// Shapes side by side.
const SHAPES: u32 = 4;

/// Adds the mesh where it is needed.
pub(super) fn plugin(app: &mut App) {
    app.add_systems(Startup, spawn.run_if(no_storage_buffers))
        .add_systems(
            PostUpdate,
            build.in_set(FrameStage::Dust).run_if(no_storage_buffers),
        );
}

fn no_storage_buffers(have: Res<StorageBuffers>) -> bool {
    !have.0
}

/// The mesh in use.
#[derive(Resource, Debug)]
struct GrainMesh(Handle<Mesh>);

fn spawn(
    mut commands: Commands,
    mut meshes: ResMut<Assets<Mesh>>,
    mut materials: ResMut<Assets<ColorMaterial>>,
    mut images: ResMut<Assets<Image>>,
) {
    let mesh = meshes.add(empty());
    let texture = Some(images.add(shapes()));
    commands.spawn((
        Name::new("grains as a mesh"),
        Mesh2d(mesh.clone()),
        MeshMaterial2d(materials.add(ColorMaterial {
            texture,
            ..default()
        })),
        NoFrustumCulling,
        Transform::from_xyz(0.0, 0.0, 1.0),
    ));
    commands.insert_resource(GrainMesh(mesh));
}

fn empty() -> Mesh {
    Mesh::new(
        PrimitiveTopology::TriangleList,
        RenderAssetUsages::default(),
    )
    .with_inserted_attribute(Mesh::ATTRIBUTE_POSITION, vec![[0.0_f32; 3]; 3])
    .with_inserted_attribute(Mesh::ATTRIBUTE_UV_0, vec![[0.0_f32; 2]; 3])
    .with_inserted_attribute(Mesh::ATTRIBUTE_COLOR, vec![[0.0_f32; 4]; 3])
    .with_inserted_indices(Indices::U32(vec![0, 1, 2]))
}

/// White shapes on nothing: disc, ring, flat, dash.
fn shapes() -> Image {
    let mut data = Vec::with_capacity((SIDE * SIDE * SHAPES * 4) as usize);
    for y in 0..SIDE {
        for x in 0..SIDE * SHAPES {
            let at = |texel: u32| 2.0 * (texel as f32 + 0.5) / SIDE as f32 - 1.0;
            let (dx, dy) = (at(x % SIDE), at(y));
            let distance = dx.hypot(dy);
            let soft = |inside: f32| (8.0 * inside).clamp(0.0, 1.0);
            let cover = match x / SIDE {
                0 => soft(0.94 - distance),
                1 => soft(0.94 - distance) * soft(distance - 0.55),
                2 => soft((0.94 - dx.abs()).min(0.45 - dy.abs())),
                _ => soft((0.94 - dx.abs()).min(0.12 - dy.abs())),
            };
            data.extend_from_slice(&[255, 255, 255, (255.0 * cover) as u8]);
        }
    }
    smooth_picture([SIDE * SHAPES, SIDE], data)
}

fn build(
    flight: Res<Flight>,
    plan: Res<PlanFrame>,
    tracers: Res<Tracers>,
    grains: Res<GrainMesh>,
    mut meshes: ResMut<Assets<Mesh>>,
) {
    let Some(mut mesh) = meshes.get_mut(&grains.0) else {
        return;
    };
    if plan.rect.is_none() {
        *mesh = empty();
        return;
    }
    let (rect, uniform) = (plan.world_rect(), plan.uniform());
    let (mut positions, mut uvs, mut colours, mut indices) =
        (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    for spot in spots(&flight.frame(), &plan, &tracers) {
        let centre = Vec2::new(
            rect.x + (spot.along_m - uniform.scale.x) * uniform.scale.y,
            0.5 * (rect.y + rect.w) + spot.across_m * uniform.scale.w,
        );
        let radius = spot.radius * plan.pixels_per_point + 0.5;
        let first = positions.len() as u32;
        push_quad(
            spot.shape,
            &quad(centre, radius, rect),
            &mut positions,
            &mut uvs,
        );
        let [red, green, blue] = spot.rgb;
        let colour = Color::srgb_u8(red, green, blue).with_alpha(spot.shape.opacity());
        colours.extend([LinearRgba::from(colour).to_f32_array(); 4]);
        indices.extend([0, 1, 2, 0, 2, 3].map(|corner| first + corner));
    }
    if positions.is_empty() {
        *mesh = empty();
        return;
    }
    mesh.insert_attribute(Mesh::ATTRIBUTE_POSITION, positions);
    mesh.insert_attribute(Mesh::ATTRIBUTE_UV_0, uvs);
    mesh.insert_attribute(Mesh::ATTRIBUTE_COLOR, colours);
    mesh.insert_indices(Indices::U32(indices));
}

/// Corners of a spot cut to the passage: place, and where in the square from -1 to 1 that is.
fn quad(centre: Vec2, radius: f32, rect: Vec4) -> [(Vec2, Vec2); 4] {
    [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0_f32]].map(|corner| {
        let place = (centre + radius * Vec2::from(corner)).clamp(rect.xy(), rect.zw());
        (place, (place - centre) / radius)
    })
}

fn push_quad(
    shape: Shape,
    quad: &[(Vec2, Vec2); 4],
    positions: &mut Vec<[f32; 3]>,
    uvs: &mut Vec<[f32; 2]>,
) {
    let shape = match shape {
        Shape::Disc => 0.0,
        Shape::Ring => 1.0,
        Shape::Flat => 2.0,
        Shape::Dash => 3.0,
    };
    for (place, inside) in quad {
        positions.push([place.x, place.y, 0.0]);
        uvs.push([
            (shape + 0.5 * (inside.x + 1.0)) / SHAPES as f32,
            0.5 * (1.0 - inside.y),
        ]);
    }
}
