//! What the drawings hand the GPU: shaders that are part of the program, and pictures made from bytes.

use bevy::{
    asset::RenderAssetUsages,
    image::ImageSampler,
    prelude::*,
    render::render_resource::{Extent3d, TextureDimension, TextureFormat},
};

/// Adds a shader under its constant handle.
pub(super) fn add_shader(
    app: &mut App,
    handle: &Handle<Shader>,
    name: &'static str,
    text: &'static str,
) {
    let shader = Shader::from_wgsl(text, name);
    // A handle of a constant number is always accepted.
    if let Err(error) = app
        .world_mut()
        .resource_mut::<Assets<Shader>>()
        .insert(handle.id(), shader)
    {
        error!("the shader {name}: {error}");
    }
}

/// A picture of RGBA bytes, read smoothly between its texels.
pub(super) fn smooth_picture([width, height]: [u32; 2], data: Vec<u8>) -> Image {
    let mut image = Image::new(
        Extent3d {
            width,
            height,
            depth_or_array_layers: 1,
        },
        TextureDimension::D2,
        data,
        TextureFormat::Rgba8UnormSrgb,
        RenderAssetUsages::RENDER_WORLD,
    );
    image.sampler = ImageSampler::linear();
    image
}
