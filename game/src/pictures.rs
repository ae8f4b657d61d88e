//! Pictures without a window or a display: the same panels and drawings, rendered into an image.

use std::path::Path;

use anyhow::{Context, Result, bail};
use ashlane_lessons::command_line::PictureWish;
use ashlane_panels::{
    drawing::svg,
    plan::{FieldScale, PlanView, still_drawing},
    state::UiState,
};
use ashlane_shared::conditions::sheet::Sheet;
use bevy::{
    camera::RenderTarget,
    prelude::*,
    render::{
        render_resource::TextureFormat,
        renderer::RenderDevice,
        view::screenshot::{Screenshot, ScreenshotCaptured},
    },
};

use crate::{
    app, counting::Counting, files, flight::Flight, interface::Arrangement, machine,
    session::Session,
};

/// Flight time before the picture is taken, steps: long enough for the slowest grains to reach the outlet.
const STEPS: u64 = 2400;
/// Frames that egui and the GPU need until everything stands where it belongs.
const FRAMES: u32 = 6;
/// What to say where nothing can be rendered.
const NO_RENDERER: &str = "this machine has no GPU and no software renderer that the program can use (Vulkan); a line drawing with --svg needs none";
/// Frames after which a picture that has not come will not come.
const PATIENCE: u32 = 60;

/// Makes a picture.
///
/// # Errors
/// No GPU and no software renderer, conditions that cannot be computed, a file that cannot be written.
pub(crate) fn make(wish: &PictureWish) -> Result<()> {
    if wish.svg {
        return write_svg(
            &wish.opened.sheet,
            &UiState::default(),
            wish.size,
            &wish.out,
        );
    }
    let arrangement = match wish.view {
        "window" => Arrangement::Window,
        _ => Arrangement::Plan,
    };
    let image = render(
        &wish.opened.sheet,
        UiState::default(),
        wish.size,
        arrangement,
    )?;
    write_png(&image, None, &wish.out)
}

/// The plan as an SVG file, drawn on the processor.
///
/// # Errors
/// Conditions that cannot be computed, a file that cannot be written.
pub(crate) fn write_svg(sheet: &Sheet, ui: &UiState, size: (u32, u32), out: &Path) -> Result<()> {
    let mut flight = Flight::new(sheet.conditions.clone())?;
    flight.step(STEPS);
    files::write(out, plan_svg(&flight, ui, size))
}

/// The plan of a flight as SVG.
pub(crate) fn plan_svg(flight: &Flight, ui: &UiState, size: (u32, u32)) -> String {
    let frame = flight.frame();
    let conditions = flight.conditions();
    let view = PlanView {
        conditions,
        fields: frame.fields(),
        deposits: frame.deposits,
        window: ui.window.within(conditions.length_m() as f32),
        field_scale: FieldScale::of(frame.fields(), conditions.gap_m()),
        units: ui.units,
        labels: true,
        field_map: ui.field_map,
        theme: ui.theme,
    };
    let drawing = still_drawing(&view, &frame, [size.0 as f32, size.1 as f32]);
    svg(
        &drawing,
        &format!("Plan of one gas passage: {}", conditions.title),
        ui.theme,
    )
}

/// Renders a moment of a flight, with its count finished.
///
/// # Errors
/// No GPU and no software renderer, conditions that cannot be computed.
pub fn render(
    sheet: &Sheet,
    ui: UiState,
    (width, height): (u32, u32),
    arrangement: Arrangement,
) -> Result<Image> {
    if machine::adapter().is_none() {
        bail!(NO_RENDERER);
    }
    let mut flight = Flight::new(sheet.conditions.clone())?;
    flight.step(STEPS);
    flight.running = false;
    let mut counting = Counting::default();
    if let Err(error) = counting.settle_now(flight.conditions(), flight.generation()) {
        bail!("the count: {error}");
    }
    let target = |app: &mut App| {
        let image = Image::new_target_texture(width, height, TextureFormat::Rgba8UnormSrgb, None);
        RenderTarget::from(app.world_mut().resource_mut::<Assets<Image>>().add(image))
    };
    let mut app = app::offscreen(target);
    let mut session = Session::new(sheet.clone(), None);
    session.ui = ui;
    app.insert_resource(flight)
        .insert_resource(counting)
        .insert_resource(session)
        .insert_resource(arrangement)
        .insert_resource(Taken(None))
        .add_plugins(app::plugin);
    app.finish();
    app.cleanup();
    take(&mut app)
}

/// The picture that came back from the GPU.
#[derive(Resource)]
struct Taken(Option<Image>);

fn take(app: &mut App) -> Result<Image> {
    for frame in 0..FRAMES + PATIENCE {
        if frame == FRAMES {
            let world = app.world_mut();
            let mut cameras = world.query::<&RenderTarget>();
            let Some(target) = cameras
                .iter(world)
                .next()
                .and_then(|target| target.as_image().cloned())
            else {
                bail!("the camera draws into no image");
            };
            world.spawn(Screenshot::image(target)).observe(
                |captured: On<ScreenshotCaptured>, mut taken: ResMut<Taken>| {
                    taken.0 = Some(captured.image.clone());
                },
            );
        }
        app.update();
        wait_for_gpu(app)?;
        if let Some(image) = app.world_mut().resource_mut::<Taken>().0.take() {
            return Ok(image);
        }
    }
    bail!("the renderer gave no picture in {PATIENCE} frames")
}

fn wait_for_gpu(app: &App) -> Result<()> {
    let Some(device) = app.world().get_resource::<RenderDevice>() else {
        bail!(NO_RENDERER);
    };
    let poll = bevy::render::render_resource::PollType::Wait {
        submission_index: None,
        timeout: None,
    };
    device
        .wgpu_device()
        .poll(poll)
        .map(|_| ())
        .context("the GPU does not answer")
}

/// Writes an image, or a part of it, as a PNG file: whole or not at all.
pub(crate) fn write_png(image: &Image, part: Option<URect>, path: &Path) -> Result<()> {
    let whole = URect::new(0, 0, image.width(), image.height());
    let part = part.map_or(whole, |part| part.intersect(whole));
    let Some(data) = &image.data else {
        bail!("the picture is empty")
    };
    let mut rows = Vec::with_capacity((part.width() * part.height() * 4) as usize);
    for y in part.min.y..part.max.y {
        let start = ((y * image.width() + part.min.x) * 4) as usize;
        let end = start + (part.width() * 4) as usize;
        rows.extend_from_slice(data.get(start..end).context("the picture is cut short")?);
    }
    let swapped = matches!(
        image.texture_descriptor.format,
        TextureFormat::Bgra8Unorm | TextureFormat::Bgra8UnormSrgb
    );
    for pixel in rows.as_chunks_mut::<4>().0 {
        if swapped {
            pixel.swap(0, 2);
        }
        // What lies behind the window does not belong to the picture.
        pixel[3] = 255;
    }
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, part.width(), part.height());
    encoder.set_color(png::ColorType::Rgba);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.write_header()?.write_image_data(&rows)?;
    files::write(path, bytes)
}
