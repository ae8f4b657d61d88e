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
    diagnosis::Evidence,
    engine::{LESSON_VIEWS, Lesson, Segment, Work},
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
    side_by_side,
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
    for (lesson, made) in wish.lessons.iter().zip(all_pages(&wish.lessons)?) {
        agree &= made.agrees;
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

/// The pages of every lesson, made beside each other and told as they are finished; what is on them does not depend on it.
fn all_pages(lessons: &[Lesson]) -> Result<Vec<Made>> {
    let bars = lessons.len() == 1 && stderr().is_terminal();
    // The later lessons take longest, so they begin first.
    let backwards: Vec<&Lesson> = lessons.iter().rev().collect();
    let made = side_by_side(&backwards, |&lesson| {
        let made = lesson_pages(lesson, bars).with_context(|| format!("lesson {}", lesson.id))?;
        tell(&format!("{} {}: {}", lesson.id, lesson.title, made.told));
        Ok(made)
    });
    made.into_iter().rev().collect()
}

fn lesson_pages(lesson: &Lesson, bars: bool) -> Result<Made> {
    let counted = play_and_keep(lesson, bars)?;
    let mut theories = Vec::with_capacity(lesson.segments.len());
    let mut figures = Vec::with_capacity(lesson.segments.len());
    let mut pictures = Pictures::default();
    for (segment, counts) in lesson.segments.iter().zip(&counted.counts) {
        let both = match is_about_dust(segment) {
            true => Some([
                theory::solve(&segment.start)?,
                theory::solve(&segment.target)?,
            ]),
            false => None,
        };
        let of = Of {
            lesson,
            segment,
            counts,
            theories: both.as_ref(),
        };
        figures.push(figures_of(&of, &mut pictures)?);
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
        evidence: evidence(lesson)?,
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

/// What the machines of the cases show.
fn evidence(lesson: &Lesson) -> Result<Vec<Option<Evidence>>> {
    let shown = side_by_side(&lesson.segments, |segment| match &segment.work {
        Some(Work::Diagnosis(case)) => Ok(Some(Evidence::of(case, &segment.start)?)),
        _ => Ok(None),
    });
    shown.into_iter().collect()
}

/// What a segment's figures are of.
#[derive(Clone, Copy)]
struct Of<'a> {
    lesson: &'a Lesson,
    segment: &'a Segment,
    counts: &'a [CountResult; 2],
    theories: Option<&'a [Theory; 2]>,
}

/// The figures of a segment at its start and at its target.
fn figures_of(of: &Of<'_>, pictures: &mut Pictures) -> Result<Figures> {
    let segment = of.segment;
    if let Some(work) = &segment.work {
        return figures_of_work(of, work, pictures);
    }
    Ok(Figures {
        before: figure(of, 0, &segment.start, pictures)?,
        after: figure(of, 1, &segment.target, pictures)?,
    })
}

/// Work is done on a machine as it usually is, shown once: a case by its panel, the board by the whole machine. What the
/// machine of a case shows stands in words.
fn figures_of_work(of: &Of<'_>, work: &Work, pictures: &mut Pictures) -> Result<Figures> {
    let (view, caption) = match work {
        Work::Diagnosis(_) => (
            "panel",
            "The panel of the sound machine; nobody has answered its alarms yet.",
        ),
        Work::Sequence(_) => ("elevation", "The whole machine from the side, in service."),
    };
    let known = pictures.0.len();
    let drawing = pictures.drawn(of.segment, view, &of.segment.start)?;
    let is_new = pictures.0.len() > known;
    let figure = Figure {
        drawing,
        caption: format!("{caption} {}.", title(of)),
    };
    Ok(Figures {
        before: is_new.then_some(figure),
        after: None,
    })
}

/// What the version of the collector is called.
fn title(of: &Of<'_>) -> String {
    let column = of.lesson.columns.get(of.segment.column);
    column.map_or_else(String::new, |column| column.title.show_both())
}

fn figure(
    of: &Of<'_>,
    index: usize,
    conditions: &Conditions,
    pictures: &mut Pictures,
) -> Result<Option<Figure>> {
    let count = CountView {
        result: Some(&of.counts[index]),
        theory: of.theories.map(|both| &both[index]),
        settling: None,
    };
    let (view, is_for_learner) = (of.segment.look.view, index == 0);
    let size = figure_size(view);
    let drawing = match view {
        // The curve is what is asked for.
        "by_size" if is_for_learner => by_size_axes(&count, size),
        "by_size" => by_size_drawing(&count, UnitSystem::Si, size),
        "along" => along_drawing(&count, UnitSystem::Si, size),
        "agreement" => Some(strip_drawing(&count, conditions, size)),
        _ => Some(pictures.drawn(of.segment, view, conditions)?),
    };
    let caption = match (view, is_for_learner) {
        ("by_size", true) => "Draw the curve that you expect into these axes.".to_owned(),
        (view, true) => format!("{}, before the change. {}.", named(view), title(of)),
        (view, false) => format!("{}, after the change. {}.", named(view), title(of)),
    };
    Ok(drawing.map(|drawing| Figure { drawing, caption }))
}

/// The views of the machine that a lesson has drawn already: it often looks at the same one again.
#[derive(Default)]
struct Pictures(Vec<Picture>);

/// View, layers, conditions and grain of a drawing, and the drawing.
type Picture = (
    &'static str,
    Option<Vec<&'static str>>,
    Conditions,
    Option<f64>,
    Drawing,
);

impl Pictures {
    /// A view of the machine under these conditions.
    fn drawn(
        &mut self,
        segment: &Segment,
        view: &'static str,
        conditions: &Conditions,
    ) -> Result<Drawing> {
        let asked_m = segment.checks.iter().find_map(|check| check.size_m);
        let grain_m = conditions.teaching.single_diameter_m.or(asked_m);
        let layers = &segment.look.layers;
        let known = self.0.iter().find(|known| {
            (known.0, &known.1, &known.2, known.3) == (view, layers, conditions, grain_m)
        });
        if let Some(known) = known {
            return Ok(known.4.clone());
        }
        let drawing = drawn(view, layers.as_deref(), conditions, grain_m)?;
        let of = (
            view,
            layers.clone(),
            conditions.clone(),
            grain_m,
            drawing.clone(),
        );
        self.0.push(of);
        Ok(drawing)
    }
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
fn drawn(
    view: &str,
    layers: Option<&[&str]>,
    conditions: &Conditions,
    grain_m: Option<f64>,
) -> Result<Drawing> {
    let mut ui = UiState {
        theme: Theme::Light,
        rung: Rung::of_view(view),
        field_map: false,
        ..UiState::default()
    };
    if let Some(layers) = layers {
        ui.labels = layers.contains(&"labels");
        ui.field_map = layers.contains(&"field_map");
    }
    if let Some(grain_m) = grain_m {
        ui.grain_m = grain_m;
    }
    let flight = Flight::new(conditions.clone())?.with_drawn(GRAINS)?;
    let flight = flown(flight, &ui)?;
    bare(&flight, &ui, figure_size(view))
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
