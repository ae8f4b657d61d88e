//! The map of the electric field: a picture of a quarter cell for every electrical field, made when the field changes.

use ashlane_panels::{cividis, plan::FieldScale, theme::Theme};
use bevy::{
    asset::uuid_handle,
    camera::visibility::NoFrustumCulling,
    prelude::*,
    render::render_resource::AsBindGroup,
    shader::ShaderRef,
    sprite_render::{AlphaMode2d, Material2d, Material2dPlugin},
};

use super::{
    PlanFrame, PlanUniform,
    gpu_assets::{add_shader, smooth_picture},
};
use crate::{flight::Flight, schedule::FrameStage};

const SHADER: Handle<Shader> = uuid_handle!("0f7c6f1b-53f4-4a53-a0c3-7f1f0d2f6b9d");
/// Texels along and across the quarter cell of one field.
const TEXELS: [u32; 2] = [160, 160];

/// Adds the material and the systems that feed it.
pub(super) fn plugin(app: &mut App) {
    app.add_plugins(Material2dPlugin::<FieldMaterial>::default());
    let text = include_str!("../../../assets/shaders/field.wgsl");
    add_shader(app, &SHADER, "field.wgsl", text);
    app.add_systems(Startup, spawn)
        .add_systems(PostUpdate, feed.in_set(FrameStage::Dust));
}

/// The picture and where the passage is.
#[derive(Asset, TypePath, AsBindGroup, Clone, Debug)]
struct FieldMaterial {
    #[uniform(0)]
    plan: PlanUniform,
    #[texture(1)]
    #[sampler(2)]
    map: Handle<Image>,
}

impl Material2d for FieldMaterial {
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

/// The map in use and what it was made of.
#[derive(Resource, Debug)]
struct FieldMap {
    material: Handle<FieldMaterial>,
    entity: Entity,
    made_of: Option<MadeOf>,
}

/// What decides the picture.
#[derive(Clone, Copy, Debug, PartialEq)]
struct MadeOf {
    scale: FieldScale,
    generation: u64,
    fields: usize,
    size_m: [f32; 2],
    theme: Theme,
}

fn spawn(
    mut commands: Commands,
    mut meshes: ResMut<Assets<Mesh>>,
    mut materials: ResMut<Assets<FieldMaterial>>,
    mut images: ResMut<Assets<Image>>,
) {
    let map = images.add(picture(1, vec![0; (TEXELS[0] * TEXELS[1] * 4) as usize]));
    let material = materials.add(FieldMaterial {
        plan: PlanUniform::default(),
        map,
    });
    let entity = commands
        .spawn((
            Name::new("field map"),
            Mesh2d(meshes.add(Rectangle::new(2.0, 2.0))),
            MeshMaterial2d(material.clone()),
            NoFrustumCulling,
            Transform::from_xyz(0.0, 0.0, 0.0),
        ))
        .id();
    commands.insert_resource(FieldMap {
        material,
        entity,
        made_of: None,
    });
}

fn picture(fields: u32, data: Vec<u8>) -> Image {
    smooth_picture([TEXELS[0], TEXELS[1] * fields], data)
}

fn feed(
    flight: Res<Flight>,
    plan: Res<PlanFrame>,
    mut map: ResMut<FieldMap>,
    mut materials: ResMut<Assets<FieldMaterial>>,
    mut images: ResMut<Assets<Image>>,
    mut seen: Query<&mut Visibility>,
) {
    if let Ok(mut visibility) = seen.get_mut(map.entity) {
        let wanted = if plan.map_opacity() > 0.0 && plan.rect.is_some() {
            Visibility::Visible
        } else {
            Visibility::Hidden
        };
        visibility.set_if_neq(wanted);
    }
    if plan.rect.is_none() {
        return;
    }
    let key = MadeOf {
        scale: plan.scale,
        generation: flight.generation(),
        fields: plan.fields,
        size_m: [plan.pitch_m, plan.gap_m],
        theme: plan.theme,
    };
    let fresh = map.made_of != Some(key);
    let uniform = plan.uniform();
    let moved = materials
        .get(&map.material)
        .is_some_and(|material| material.plan != uniform);
    if !fresh && !moved {
        return;
    }
    let Some(mut material) = materials.get_mut(&map.material) else {
        return;
    };
    material.plan = uniform;
    if fresh {
        material.map = images.add(picture(plan.fields as u32, texels(&flight, &plan)));
        map.made_of = Some(key);
    }
}

/// Colours of the quarter cells: from a wire to midway, from the wire line to the plate, field after field.
fn texels(flight: &Flight, plan: &PlanFrame) -> Vec<u8> {
    let frame = flight.frame();
    let mut data = Vec::with_capacity((TEXELS[0] * TEXELS[1] * 4) as usize * plan.fields);
    for field in 0..plan.fields {
        for row in 0..TEXELS[1] {
            let across_m = plan.gap_m * (row as f32 + 0.5) / TEXELS[1] as f32;
            for column in 0..TEXELS[0] {
                let from_wire_m = 0.5 * plan.pitch_m * (column as f32 + 0.5) / TEXELS[0] as f32;
                let (along, across) =
                    frame.field_v_m(field, 0.5 * plan.pitch_m + from_wire_m, across_m);
                let [red, green, blue] =
                    cividis::themed_rgb(plan.scale.share(along.hypot(across)), plan.theme);
                data.extend_from_slice(&[red, green, blue, 255]);
            }
        }
    }
    data
}
