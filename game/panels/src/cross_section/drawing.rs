//! The whole figure: map of the gas, casing, plates and wires, roof, hoppers, and what to call them.

use ashlane_shared::units::Dimension;

use super::{CrossSectionView, around, hoppers, parts, rappers};
use crate::{
    cividis,
    drawing::{Anchor, Drawing, Item, Point, fitting, text_width},
    theme::{BODY, Ink, SMALL},
};

/// Room above for the heading and names, below for names and scale, at the sides, points.
const ABOVE: f32 = 58.0;
const BELOW: f32 = 60.0;
const SIDE: f32 = 14.0;
/// Room for the scale of the map at the right, points.
const MAP_SCALE: f32 = 96.0;
/// From the outermost plates to the wall, m; common practice, no source.
pub(super) const WALL_M: f64 = 0.3;
/// What stands on the roof, and the ground below, m.
const ON_ROOF_M: f64 = 2.2;

/// From metres to points: x from the middle of the machine, heights over the bottom edge of the plates.
#[derive(Clone, Copy, Debug)]
pub(super) struct Places {
    pub(super) scale: f32,
    origin: Point,
}

impl Places {
    pub(super) fn new(view: &CrossSectionView<'_>, [width, height]: Point) -> Self {
        let measures = view.measures();
        let wide = (view.width_m() + 2.0 * WALL_M + 1.0) as f32;
        let (top, bottom) = (
            (measures.roof_m + ON_ROOF_M) as f32,
            measures.ground_m() as f32 - 0.3,
        );
        let room = [
            (width - 2.0 * SIDE - MAP_SCALE).max(60.0),
            (height - ABOVE - BELOW).max(60.0),
        ];
        let scale = (room[0] / wide).min(room[1] / (top - bottom));
        let spare = 0.5 * (room[1] - scale * (top - bottom));
        Self {
            scale,
            origin: [SIDE + 0.5 * room[0], ABOVE + spare + scale * top],
        }
    }

    pub(super) fn y(&self, height_m: f64) -> f32 {
        self.origin[1] - self.scale * height_m as f32
    }

    pub(super) fn at(&self, x_m: f64, height_m: f64) -> Point {
        [
            self.origin[0] + self.scale * x_m as f32,
            self.origin[1] - self.scale * height_m as f32,
        ]
    }
}

/// The figure in a drawing of this size.
#[must_use]
pub fn drawing(view: &CrossSectionView<'_>, size: Point) -> Drawing {
    let places = Places::new(view, size);
    let mut drawing = Drawing::new(size);
    map(&mut drawing, view, &places);
    parts::casing(&mut drawing, view, &places);
    around::baffles(&mut drawing, view, &places);
    parts::passages(&mut drawing, view, &places);
    rappers::rappers(&mut drawing, view, &places);
    parts::roof(&mut drawing, view, &places);
    hoppers::hoppers(&mut drawing, view, &places);
    around::ways(&mut drawing, view, &places);
    heading(&mut drawing, view);
    if view.machine.labels {
        parts::labels(&mut drawing, view, &places);
    }
    hoppers::level(&mut drawing, view, &places);
    scale_bar(&mut drawing, view, &places);
    drawing
}

fn heading(drawing: &mut Drawing, view: &CrossSectionView<'_>) {
    let collector = &view.machine.conditions.collector;
    let spacing = view.text(collector.plate_spacing_m, Dimension::PartSize);
    let texts = [
        format!(
            "Section across the gas, looking along the flow · {} passages of {spacing}",
            collector.passages
        ),
        format!("Across the gas · {} passages", collector.passages),
        "Across the gas".to_owned(),
    ];
    let room = drawing.size[0] - 24.0;
    let fits = |text: &&String| text_width(text, BODY, true) < room;
    let text = texts.iter().find(fits).map_or("", String::as_str);
    drawing.bold([12.0, 14.0], Anchor::Left, text, BODY, Ink::Text);
}

/// Colours of the gas over the face, with their scale.
fn map(drawing: &mut Drawing, view: &CrossSectionView<'_>, places: &Places) {
    let Some(face) = &view.face else {
        return;
    };
    let (rows, columns) = view.grid;
    let (width_m, plate_m) = (
        view.width_m(),
        view.machine.conditions.collector.plate_height_m,
    );
    let range =
        |pick: fn(f64, f64) -> f64, start: f64| face.readings_m_s.iter().copied().fold(start, pick);
    let (low, high) = (range(f64::min, f64::INFINITY), range(f64::max, 0.0));
    let share = |m_s: f64| ((m_s - low) / (high - low).max(1e-9)) as f32;
    for (index, m_s) in face.readings_m_s.iter().enumerate().take(rows * columns) {
        let (row, column) = (index / columns, index % columns);
        let x_m = |column: usize| width_m * (column as f64 / columns as f64 - 0.5);
        let height_m = |row: usize| plate_m * (1.0 - row as f64 / rows as f64);
        drawing.items.push(Item::Cell {
            min: places.at(x_m(column), height_m(row)),
            max: places.at(x_m(column + 1), height_m(row + 1)),
            rgb: cividis::themed_rgb(share(*m_s), view.theme),
        });
    }
    let beside = places.at(0.5 * width_m + WALL_M, 0.0)[0] + 22.0;
    let x = beside.min(drawing.size[0] - MAP_SCALE + 6.0);
    let (top, bottom) = (places.at(0.0, plate_m)[1], places.at(0.0, 0.0)[1]);
    let steps = 24;
    for step in 0..steps {
        let y = |step: i32| bottom + (top - bottom) * step as f32 / steps as f32;
        drawing.items.push(Item::Cell {
            min: [x, y(step + 1)],
            max: [x + 14.0, y(step)],
            rgb: cividis::themed_rgb((step as f32 + 0.5) / steps as f32, view.theme),
        });
    }
    for (m_s, y) in [(low, bottom), (high, top)] {
        let text = view.text(m_s, Dimension::Velocity);
        drawing.text([x + 20.0, y], Anchor::Left, text, SMALL, Ink::Text);
    }
    let middle = 0.5 * (top + bottom);
    drawing.text([x + 20.0, middle], Anchor::Left, "gas", SMALL, Ink::Faint);
}

fn scale_bar(drawing: &mut Drawing, view: &CrossSectionView<'_>, places: &Places) {
    let length_m = crate::plan::nice_below(110.0 / f64::from(places.scale));
    let y = drawing.size[1] - 12.0;
    let width = places.scale * length_m as f32;
    drawing.line([[12.0, y], [12.0 + width, y]], Ink::Text, 2.0);
    for x in [12.0, 12.0 + width] {
        drawing.line([[x, y - 4.0], [x, y + 4.0]], Ink::Text, 2.0);
    }
    let text = view.text(length_m, Dimension::Length);
    drawing.text([20.0 + width, y], Anchor::Left, text, SMALL, Ink::Text);
    let texts = [
        "to scale; wires, plates and hammers not to scale; ring with a cross: gas away from you; map: gas behind the distribution plates"
            .to_owned(),
        "to scale; wires and plates not to scale".to_owned(),
        "wires not to scale".to_owned(),
    ];
    let right = [drawing.size[0] - 12.0, y];
    let text = fitting(&texts, drawing.size[0] - width - 120.0);
    drawing.text(right, Anchor::Right, text, SMALL, Ink::Faint);
}
