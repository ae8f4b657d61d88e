// Grains of the plan: one quad a grain, its place and look read from a storage buffer.
//
// The third coordinate of a vertex is the number of its grain; the first two are its corner, -1 to 1.

#import bevy_sprite::mesh2d_view_bindings::view
#ifdef SRGB_OUTPUT
#import bevy_render::color_operations::linear_to_srgb
#endif

struct Grain {
    // Metres along the gas and across.
    place: vec2<f32>,
    // Points.
    radius: f32,
    // Red, green, blue and shape, a byte each.
    look: u32,
}

struct Plan {
    // Corners of the space between the plates, in the world: left, bottom, right, top.
    rect: vec4<f32>,
    // Metres at the left edge, world units per metre along (below 0: the gas runs to the left), half the gap in metres, world units per metre across.
    scale: vec4<f32>,
    // Wires per metre, fields, length of a field in metres, world units per point.
    field: vec4<f32>,
}

@group(2) @binding(0) var<storage, read> grains: array<Grain>;
@group(2) @binding(1) var<uniform> plan: Plan;

struct Corner {
    @location(0) position: vec3<f32>,
}

struct Spot {
    @builtin(position) clip: vec4<f32>,
    @location(0) offset: vec2<f32>,
    @location(1) world: vec2<f32>,
    @location(2) @interpolate(flat) shape: u32,
    @location(3) @interpolate(flat) radius: f32,
    // The same in the whole quad, so that it is worked out once a corner and not once a pixel.
    @location(4) @interpolate(flat) colour: vec3<f32>,
}

fn linear(srgb: vec3<f32>) -> vec3<f32> {
    return select(pow((srgb + 0.055) / 1.055, vec3(2.4)), srgb / 12.92, srgb <= vec3(0.04045));
}

@vertex
fn vertex(corner: Corner) -> Spot {
    let grain = grains[u32(corner.position.z)];
    let middle = 0.5 * (plan.rect.yw.x + plan.rect.yw.y);
    let centre = vec2(
        plan.rect.x + (grain.place.x - plan.scale.x) * plan.scale.y,
        middle + grain.place.y * plan.scale.w,
    );
    let radius = grain.radius * plan.field.w;
    // A capacity that is not used has radius 0: its corners fall together and nothing is drawn.
    let reach = select(0.0, radius + 0.5, radius > 0.0);
    var spot: Spot;
    spot.offset = corner.position.xy * reach;
    spot.world = centre + spot.offset;
    spot.clip = view.clip_from_world * vec4(spot.world, 0.0, 1.0);
    spot.shape = grain.look >> 24u;
    spot.radius = radius;
    let bytes = vec3(grain.look & 255u, (grain.look >> 8u) & 255u, (grain.look >> 16u) & 255u);
    spot.colour = linear(vec3<f32>(bytes) / 255.0);
#ifdef SRGB_OUTPUT
    spot.colour = linear_to_srgb(spot.colour);
#endif
    return spot;
}

@fragment
fn fragment(spot: Spot) -> @location(0) vec4<f32> {
    let inside = all(spot.world >= plan.rect.xy) && all(spot.world <= plan.rect.zw);
    let distance = length(spot.offset);
    var cover = clamp(spot.radius + 0.5 - distance, 0.0, 1.0);
    if spot.shape == 1u {
        // A ring: on its way around the field.
        cover *= 0.55 * clamp(distance - spot.radius + 1.4 * plan.field.w, 0.0, 1.0);
    } else if spot.shape == 2u {
        // Flat: on a plate.
        let flat = abs(spot.offset) - vec2(spot.radius, 0.42 * spot.radius + 0.4);
        cover = clamp(0.5 - max(flat.x, flat.y), 0.0, 1.0);
    } else if spot.shape == 3u {
        // A dash: gas.
        let dash = abs(spot.offset) - vec2(spot.radius, 0.75 * plan.field.w);
        cover = 0.8 * clamp(0.5 - max(dash.x, dash.y), 0.0, 1.0);
    }
    if !inside || cover <= 0.0 {
        discard;
    }
    return vec4(spot.colour, cover);
}
