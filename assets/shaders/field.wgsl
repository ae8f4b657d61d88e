// The map of the electric field behind the dust: a picture of a quarter cell round one wire, folded over the passage.

#import bevy_sprite::mesh2d_view_bindings::view
#ifdef SRGB_OUTPUT
#import bevy_render::color_operations::linear_to_srgb
#endif

struct Plan {
    rect: vec4<f32>,
    scale: vec4<f32>,
    field: vec4<f32>,
    // Opacity.
    map: vec4<f32>,
}

@group(2) @binding(0) var<uniform> plan: Plan;
@group(2) @binding(1) var map: texture_2d<f32>;
@group(2) @binding(2) var map_sampler: sampler;

struct Corner {
    @location(0) position: vec3<f32>,
}

struct Spot {
    @builtin(position) clip: vec4<f32>,
    // 0 to 1 along and across the rectangle.
    @location(0) share: vec2<f32>,
}

@vertex
fn vertex(corner: Corner) -> Spot {
    var spot: Spot;
    spot.share = 0.5 * (corner.position.xy + 1.0);
    spot.clip = view.clip_from_world * vec4(mix(plan.rect.xy, plan.rect.zw, spot.share), 0.0, 1.0);
    return spot;
}

@fragment
fn fragment(spot: Spot) -> @location(0) vec4<f32> {
    let along_m = plan.scale.x + spot.share.x * (plan.rect.z - plan.rect.x) / plan.scale.y;
    let from_wire = abs(fract(along_m * plan.field.x) - 0.5) * 2.0;
    let across = abs(2.0 * spot.share.y - 1.0);
    let fields = plan.field.y;
    let index = clamp(floor(along_m / plan.field.z), 0.0, fields - 1.0);
    // Rows of one field after those of the other; half a texel from the edges, so that they do not mix.
    let rows = f32(textureDimensions(map).y) / fields;
    let row = clamp(across * rows, 0.5, rows - 0.5) + index * rows;
    let uv = vec2(from_wire, row / (rows * fields));
    var colour = vec4(textureSampleLevel(map, map_sampler, uv, 0.0).rgb, plan.map.x);
#ifdef SRGB_OUTPUT
    colour = vec4(linear_to_srgb(colour.rgb), colour.a);
#endif
    return colour;
}
