//! Pictures without a window or a display: the same panels and drawings, rendered into an image or written as lines.

use std::path::Path;

use anyhow::{Context, Result, bail};
use ashlane_lessons::command_line::PictureWish;
use ashlane_panels::{
    SectionView,
    cross_section::CrossSectionView,
    drawing::{Drawing, svg},
    elevation::{ElevationView, still_drawing as still_elevation},
    plan::{FieldScale, PlanView, still_drawing as still_plan},
    section::{bare_drawing, still_drawing, still_with},
    state::{Rung, UiState},
    theme::Theme,
};
use ashlane_shared::{
    conditions::sheet::Sheet,
    machine::FieldPlates,
    simulation::{Clock, Command, FieldState, Follow, Frame},
};
use bevy::{prelude::*, render::render_resource::TextureFormat};

use crate::{
    board,
    close_looks::{GrainStand, SetStand, SideStand, WireStand},
    face::{Face, GRID},
    files,
    flight::Flight,
    interface::Arrangement,
    stage::Stage,
};

/// Flight time before the picture is taken, steps: long enough for the slowest grains to reach the outlet.
const STEPS: u64 = 2400;

/// The panel is shown after a shift on the plant clock, so that trends, hoppers and rappers have something to tell: how fast
/// the clock runs, and for how many steps.
const SHIFT_CLOCK: Clock = Clock::Plant { times: 3600.0 };
const SHIFT_STEPS: u64 = 8 * 240;

/// Makes a picture.
///
/// # Errors
/// No GPU and no software renderer, conditions that cannot be computed, a file that cannot be written.
pub(crate) fn make(wish: &PictureWish) -> Result<()> {
    let ui = UiState {
        rung: Rung::of_view(wish.view),
        field: wish.field,
        ..UiState::default()
    };
    if wish.svg {
        return write_svg(&wish.opened.sheet, &ui, wish.size, &wish.out);
    }
    let arrangement = match wish.view {
        "window" => Arrangement::Window,
        _ => Arrangement::Section,
    };
    let mut stage = Stage::new(&wish.opened.sheet, ui.clone(), wish.size, arrangement)?;
    if ui.rung == Rung::Grain {
        stage.follow(ui.grain_m)?;
    }
    stage.fly(STEPS);
    if ui.rung == Rung::Board {
        stage.turn_to(SHIFT_CLOCK)?;
        stage.fly(SHIFT_STEPS);
    }
    stage.finish_record();
    stage.count()?;
    write_png(&stage.picture()?, None, &wish.out)
}

/// A view as an SVG file, drawn on the processor; on a light ground, for print.
///
/// # Errors
/// Conditions that cannot be computed, a file that cannot be written.
pub(crate) fn write_svg(sheet: &Sheet, ui: &UiState, size: (u32, u32), out: &Path) -> Result<()> {
    let ui = &UiState {
        theme: Theme::Light,
        ..ui.clone()
    };
    let flight = flown(Flight::new(sheet.conditions.clone())?, ui)?;
    files::write(out, section_svg(&flight, ui, size)?)
}

/// A flight that has come to what this state shows.
pub(crate) fn flown(mut flight: Flight, ui: &UiState) -> Result<Flight> {
    follow(&mut flight, ui)?;
    flight.step(STEPS);
    if ui.rung == Rung::Board {
        flight.apply(Command::Clock(SHIFT_CLOCK))?;
        flight.step(SHIFT_STEPS);
    }
    flight.finish_record();
    Ok(flight)
}

/// Where a grain is to be shown, one is followed.
fn follow(flight: &mut Flight, ui: &UiState) -> Result<()> {
    if ui.rung == Rung::Grain {
        let wish = Follow {
            diameter_m: ui.grain_m,
        };
        flight.apply(Command::Follow(Some(wish)))?;
    }
    Ok(())
}

/// What the section shows of a flight, as SVG.
fn section_svg(flight: &Flight, ui: &UiState, size: (u32, u32)) -> Result<String> {
    let points = [size.0 as f32, size.1 as f32];
    let drawing = with_section(flight, ui, |section, frame| match ui.rung {
        Rung::Elevation => still_with(section, ui, points, |above| {
            still_elevation(&section.elevation, frame, above)
        }),
        Rung::Plan => still_with(section, ui, points, |above| {
            still_plan(&section.plan, frame, above)
        }),
        _ => still_drawing(section, ui, points),
    })?;
    let conditions = flight.conditions();
    let what = match ui.rung {
        Rung::Plan => "Plan of one gas passage".to_owned(),
        Rung::Elevation => "The machine from the side".to_owned(),
        Rung::CrossSection => "Section across the gas".to_owned(),
        Rung::Board => "Operator’s panel".to_owned(),
        Rung::Wire | Rung::Grain | Rung::Energization => conditions.field_title(ui.field),
    };
    let title = format!("{what}: {}", conditions.title);
    Ok(svg(&drawing, &title, ui.theme))
}

/// The drawing alone, without the lines of its checks.
pub(crate) fn bare(flight: &Flight, ui: &UiState, size: [f32; 2]) -> Result<Drawing> {
    with_section(flight, ui, |section, frame| match ui.rung {
        Rung::Elevation => still_elevation(&section.elevation, frame, size),
        Rung::Plan => still_plan(&section.plan, frame, size),
        _ => bare_drawing(section, ui, size),
    })
}

/// Puts together all that the section can show of a flight.
pub(crate) fn with_section<R>(
    flight: &Flight,
    ui: &UiState,
    draw: impl FnOnce(&SectionView<'_>, &Frame<'_>) -> R,
) -> Result<R> {
    let frame = flight.frame();
    let (wire, grain) = (WireStand::new(&frame, ui.field)?, GrainStand::of(&frame));
    let set = match ui.rung {
        Rung::Energization => Some(SetStand::new(flight.conditions(), ui.field)?),
        _ => None,
    };
    let side = SideStand::new(flight)?;
    let elevation = side.view(&frame, flight.machine().plates(), ui);
    let face = Face::new(flight.conditions())?;
    let elevation = ElevationView {
        face_rows_m_s: face.rows_m_s(),
        ..elevation
    };
    let section = SectionView {
        elevation,
        board: board::view(flight, &side, None, ui),
        cross_section: across(elevation, &face, ui),
        plan: plan_view(flight, flight.frame().fields(), ui),
        wire: Some(wire.view(ui)),
        grain: grain.view(&frame, ui),
        energization: set.as_ref().map(|set| set.view(ui)),
        revision: 0,
    };
    Ok(draw(&section, &frame))
}

/// The section across the gas.
pub(crate) fn across<'a>(
    machine: ElevationView<'a>,
    face: &'a Face,
    ui: &UiState,
) -> CrossSectionView<'a> {
    CrossSectionView {
        machine,
        face: face.view(ui.units),
        grid: GRID,
        theme: ui.theme,
    }
}

/// The plan of a flight.
pub(crate) fn plan_view<'a>(
    flight: &'a Flight,
    meters: &'a [FieldState],
    ui: &UiState,
) -> PlanView<'a> {
    PlanView {
        fields: meters,
        ..plan_of(&flight.frame(), flight.machine().plates(), ui)
    }
}

/// The plan of a moment.
pub(crate) fn plan_of<'a>(
    frame: &Frame<'a>,
    plates: &'a [FieldPlates],
    ui: &UiState,
) -> PlanView<'a> {
    let conditions = frame.conditions();
    PlanView {
        conditions,
        fields: frame.fields(),
        deposits: frame.deposits,
        plates,
        step: frame.step(),
        followed: frame.followed(),
        window: ui.window.within(conditions.length_m() as f32),
        field_scale: FieldScale::of(frame.fields(), conditions.gap_m()),
        units: ui.units,
        calm: ui.reduced_motion,
        labels: ui.labels,
        field_map: ui.field_map,
        theme: ui.theme,
    }
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
