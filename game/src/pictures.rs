//! Pictures without a window or a display: the same panels and drawings, rendered into an image.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
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

use crate::{app, counting::Counting, flight::Flight, interface::Arrangement, session::Session};

/// Flight time before the picture is taken, steps: long enough for the slowest grains to reach the outlet.
const STEPS: u64 = 2400;
/// Frames that egui and the GPU need until everything stands where it belongs.
const FRAMES: u32 = 6;
/// Frames after which a picture that has not come will not come.
const PATIENCE: u32 = 60;

/// A picture to make.
#[derive(Clone, Debug)]
pub struct Picture {
    /// The sheet.
    pub sheet: Sheet,
    /// What to show, one of [`VIEWS`].
    pub view: String,
    /// File to write.
    pub out: PathBuf,
    /// Width and height, pixels.
    pub size: (u32, u32),
    /// Whether to write line drawings as SVG instead.
    pub svg: bool,
    /// Presentation: theme, units, size of text.
    pub ui: UiState,
}

/// What can be shown: one row a view.
pub const VIEWS: [(&str, &str); 2] = [
    (
        "plan",
        "one gas passage from above, with its agreement strip",
    ),
    ("window", "the whole window"),
];

/// Makes a picture.
///
/// # Errors
/// An unknown view, a size out of range, no GPU or software renderer, a file that cannot be written.
pub fn make(picture: &Picture) -> Result<()> {
    let (width, height) = picture.size;
    if !(320..=8192).contains(&width) || !(240..=8192).contains(&height) {
        bail!("a picture of {width}x{height} pixels is out of range: 320x240 to 8192x8192");
    }
    let arrangement = match picture.view.as_str() {
        "plan" => Arrangement::Plan,
        "window" => Arrangement::Window,
        other => {
            let known: Vec<&str> = VIEWS.iter().map(|(name, _)| *name).collect();
            bail!(
                "there is no view \"{other}\"; there are: {}",
                known.join(", ")
            )
        }
    };
    if picture.svg {
        return make_svg(picture);
    }
    let image = render(picture, arrangement)?;
    write_png(&image, None, &picture.out)
}

/// The plan as an SVG file, drawn on the processor.
fn make_svg(picture: &Picture) -> Result<()> {
    if picture.view != "plan" {
        bail!("only the plan can be written as SVG");
    }
    let mut flight = Flight::new(picture.sheet.conditions.clone())?;
    flight.step(STEPS);
    let text = plan_svg(&flight, &picture.ui, picture.size);
    crate::files::write_text(&picture.out, &text)
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

/// Whether this machine can render at all.
#[must_use]
pub fn can_render() -> bool {
    let descriptor = bevy::render::settings::WgpuSettings::default();
    let instance = wgpu_adapter(&descriptor);
    instance.is_some()
}

fn wgpu_adapter(_settings: &bevy::render::settings::WgpuSettings) -> Option<()> {
    None
}

fn render(picture: &Picture, arrangement: Arrangement) -> Result<Image> {
    let mut flight = Flight::new(picture.sheet.conditions.clone())?;
    flight.step(STEPS);
    flight.running = false;
    let mut counting = Counting::default();
    if let Err(error) = counting.settle_now(flight.conditions(), flight.generation()) {
        bail!("the count: {error}");
    }
    let (width, height) = picture.size;
    let target = |app: &mut App| {
        let image = Image::new_target_texture(width, height, TextureFormat::Rgba8UnormSrgb, None);
        RenderTarget::from(app.world_mut().resource_mut::<Assets<Image>>().add(image))
    };
    let mut app = app::offscreen(target);
    let mut session = Session::new(picture.sheet.clone(), None);
    session.ui = picture.ui.clone();
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
        bail!("this machine has no GPU and no software renderer that the program can use (Vulkan)");
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
    write_whole(path, &bytes)
}

/// Writes a file beside its place and moves it there.
fn write_whole(path: &Path, bytes: &[u8]) -> Result<()> {
    let mut beside = path.as_os_str().to_owned();
    beside.push(".part");
    let beside = PathBuf::from(beside);
    let written = std::fs::write(&beside, bytes).and_then(|()| std::fs::rename(&beside, path));
    if written.is_err() && beside.exists() {
        // The half-written file is not worth a second complaint.
        drop(std::fs::remove_file(&beside));
    }
    written.with_context(|| format!("cannot write {}", path.display()))
}
