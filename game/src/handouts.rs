//! Handouts: plays a lesson, draws its figures, and writes handout, key and data; all in memory first, so that nothing is
//! half written.

use std::{
    io::{IsTerminal, Write, stderr, stdout},
    path::PathBuf,
};

use anyhow::{Context, Result};
use ashlane_lessons::{
    command_line::{
        CHECK_FAILED, ELEVATION_FILES, FINE, HandoutWish, Opened, lesson_files, play_and_keep,
    },
    engine::{LESSON_VIEWS, Lesson, Segment},
};
use ashlane_panels::{
    charts::{along_drawing, by_size_axes, by_size_drawing},
    drawing::Drawing,
    elevation::blank_drawing,
    handout::{
        Along, Blank, Figure, Figures, Handout, Worked, blank_page, data, figure_size,
        handout_page, key_page, names_page,
    },
    state::{Rung, UiState},
    strip::strip_drawing,
    theme::Theme,
    view::CountView,
};
use ashlane_shared::{
    conditions::Conditions,
    count::CountResult,
    theory::{self, Theory},
    units::UnitSystem,
};

use crate::{
    files,
    flight::Flight,
    pictures::{bare, flown, with_section},
    program::tell,
};

/// Grains in the gas on a printed figure: enough to be seen, few enough to be ink.
const GRAINS: usize = 500;
/// Size of the machine with blanks, on a leaf that lies on its side.
const BLANK: [f32; 2] = [1000.0, 600.0];

/// Makes handouts.
///
/// # Errors
/// Conditions that cannot be computed, a file that cannot be written.
pub(crate) fn make(wish: &HandoutWish) -> Result<u8> {
    let mut written: Vec<(PathBuf, String)> = Vec::new();
    let mut agree = true;
    for lesson in &wish.lessons {
        let made = lesson_pages(lesson).with_context(|| format!("lesson {}", lesson.id))?;
        agree &= made.agrees;
        tell(&format!("{} {}: {}", lesson.id, lesson.title, made.told));
        let names = lesson_files(lesson).map(|name| wish.out.join(name));
        written.extend(names.into_iter().zip(made.texts));
    }
    if let Some(opened) = &wish.elevation {
        let texts = elevation_pages(opened)?;
        tell(&format!("elevation of {}: {}", opened.name, texts.1));
        let names = ELEVATION_FILES.map(|name| wish.out.join(name));
        written.extend(names.into_iter().zip(texts.0));
    }
    std::fs::create_dir_all(&wish.out).with_context(|| wish.out.display().to_string())?;
    let mut list = String::new();
    for (path, text) in &written {
        files::write(path, text)?;
        list.push_str(&format!("{}\n", path.display()));
    }
    // Whoever closed the pipe has what is wanted.
    drop(stdout().write_all(list.as_bytes()));
    Ok(if agree { FINE } else { CHECK_FAILED })
}

/// The pages of a lesson: handout, key, data.
struct Made {
    texts: [String; 3],
    agrees: bool,
    told: String,
}

fn lesson_pages(lesson: &Lesson) -> Result<Made> {
    let counted = play_and_keep(lesson, stderr().is_terminal())?;
    let mut theories = Vec::with_capacity(lesson.segments.len());
    let mut figures = Vec::with_capacity(lesson.segments.len());
    for (segment, counts) in lesson.segments.iter().zip(&counted.counts) {
        let both = match is_about_dust(segment) {
            true => Some([
                theory::solve(&segment.start)?,
                theory::solve(&segment.target)?,
            ]),
            false => None,
        };
        figures.push(figures_of(lesson, segment, counts, both.as_ref())?);
        theories.push(both);
    }
    let moments: Vec<Option<[Along<'_>; 2]>> = theories
        .iter()
        .zip(&counted.counts)
        .map(|(both, counts)| {
            let along = |index: usize, theory| Along {
                count: &counts[index],
                theory,
            };
            both.as_ref()
                .map(|[before, after]| [along(0, before), along(1, after)])
        })
        .collect();
    let drawn = figures.len();
    let handout = Handout {
        lesson,
        played: &counted.played,
        figures,
        worked: Worked::of(lesson),
    };
    let readings = counted
        .played
        .steps
        .iter()
        .filter_map(|step| step.reading.as_ref());
    let checks: usize = readings.map(|reading| reading.checks.len()).sum();
    let agrees = counted.played.agrees();
    let verdict = if agrees { "all agree" } else { "NOT ALL AGREE" };
    Ok(Made {
        texts: [
            handout_page(&handout),
            key_page(&handout),
            data(&handout, &moments),
        ],
        agrees,
        told: format!("{checks} checks, {verdict}; {drawn} figures"),
    })
}

fn is_about_dust(segment: &Segment) -> bool {
    let counts = |check: &ashlane_lessons::engine::Check| check.parcels > 0;
    segment.checks.iter().any(counts)
}

/// The figures of a segment at its start and at its target.
fn figures_of(
    lesson: &Lesson,
    segment: &Segment,
    counts: &[CountResult; 2],
    theories: Option<&[Theory; 2]>,
) -> Result<Figures> {
    let column = lesson.columns.get(segment.column);
    let of = column.map_or_else(String::new, |column| column.title.show_both());
    let figure = |index: usize, conditions: &Conditions| -> Result<Option<Figure>> {
        let count = CountView {
            result: Some(&counts[index]),
            theory: theories.map(|both| &both[index]),
            settling: None,
        };
        let is_for_learner = index == 0;
        let size = figure_size(segment.look.view);
        let drawing = match segment.look.view {
            // The curve is what is asked for.
            "by_size" if is_for_learner => by_size_axes(&count, size),
            "by_size" => by_size_drawing(&count, UnitSystem::Si, size),
            "along" => along_drawing(&count, UnitSystem::Si, size),
            "agreement" => Some(strip_drawing(&count, conditions, size)),
            _ => Some(drawn(segment, conditions)?),
        };
        let caption = match (segment.look.view, is_for_learner) {
            ("by_size", true) => "Draw the curve that you expect into these axes.".to_owned(),
            (view, true) => format!("{}, before the change. {of}.", named(view)),
            (view, false) => format!("{}, after the change. {of}.", named(view)),
        };
        Ok(drawing.map(|drawing| Figure { drawing, caption }))
    };
    Ok(Figures {
        before: figure(0, &segment.start)?,
        after: figure(1, &segment.target)?,
    })
}

/// What a view is, with a capital letter.
fn named(view: &str) -> String {
    let row = LESSON_VIEWS.iter().find(|(name, _)| *name == view);
    let mut letters = row.map_or("", |(_, what)| what).chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// A view of the machine under these conditions.
fn drawn(segment: &Segment, conditions: &Conditions) -> Result<Drawing> {
    let mut ui = UiState {
        theme: Theme::Light,
        rung: Rung::of_view(segment.look.view),
        field_map: false,
        ..UiState::default()
    };
    if let Some(layers) = &segment.look.layers {
        ui.labels = layers.contains(&"labels");
        ui.field_map = layers.contains(&"field_map");
    }
    let asked_m = segment.checks.iter().find_map(|check| check.size_m);
    if let Some(grain_m) = conditions.teaching.single_diameter_m.or(asked_m) {
        ui.grain_m = grain_m;
    }
    let flight = Flight::new(conditions.clone())?.with_drawn(GRAINS)?;
    let flight = flown(flight, &ui)?;
    bare(&flight, &ui, figure_size(segment.look.view))
}

/// The machine with blanks and its names; how many there are.
fn elevation_pages(opened: &Opened) -> Result<([String; 2], String)> {
    let conditions = &opened.sheet.conditions;
    let ui = UiState {
        theme: Theme::Light,
        rung: Rung::Elevation,
        ..UiState::default()
    };
    let flight = Flight::new(conditions.clone())?;
    let (drawing, names) = with_section(&flight, &ui, |section, _| {
        blank_drawing(&section.elevation, BLANK)
    })?;
    let told = format!("{} labels left blank", names.len());
    let blank = Blank {
        drawing,
        names,
        title: conditions.title.clone(),
    };
    Ok(([blank_page(&blank), names_page(&blank)], told))
}
