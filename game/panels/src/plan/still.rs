//! The whole plan as one still figure: field map, dust, lines and words, for SVG files and for machines without a GPU.

use ashlane_shared::simulation::{Frame, Grain};

use super::{
    PlanPlaces, PlanView,
    drawing::plan_drawing,
    legend::{Legend, grain_radius},
};
use crate::{
    cividis,
    drawing::{Drawing, Item, Point},
    theme::Ink,
};

/// Cells of the field map along and across.
const MAP: [usize; 2] = [168, 48];

/// Draws one moment of the plan, with its legend below.
#[must_use]
pub fn still_drawing(view: &PlanView<'_>, frame: &Frame<'_>, size: Point) -> Drawing {
    still_of(view, frame, frame.grains(), size)
}

/// The same with some of the grains only.
pub(crate) fn still_of(
    view: &PlanView<'_>,
    frame: &Frame<'_>,
    dust: impl Iterator<Item = Grain>,
    size: Point,
) -> Drawing {
    let legend = Legend::from(view).drawing(size[0]);
    let plan_size = [size[0], size[1] - legend.size[1]];
    let places = PlanPlaces::new(view, plan_size);
    let mut drawing = Drawing::new(size);
    if view.field_map {
        field_map(&mut drawing, view, frame, &places);
    }
    grains(&mut drawing, dust, &places);
    drawing.items.extend(plan_drawing(view, plan_size).items);
    for item in legend.items {
        drawing.items.push(item.moved([0.0, plan_size[1]]));
    }
    drawing
}

fn field_map(drawing: &mut Drawing, view: &PlanView<'_>, frame: &Frame<'_>, places: &PlanPlaces) {
    let field_m = view.conditions.collector.field_length_m as f32;
    let last = view.fields.len().saturating_sub(1);
    let cell = [
        (places.max[0] - places.min[0]) / MAP[0] as f32,
        (places.max[1] - places.min[1]) / MAP[1] as f32,
    ];
    for i in 0..MAP[0] {
        let x = places.min[0] + cell[0] * i as f32;
        let along_m = places.along_m(x + 0.5 * cell[0]);
        let field = ((along_m / field_m).max(0.0) as usize).min(last);
        for j in 0..MAP[1] {
            let y = places.min[1] + cell[1] * j as f32;
            let across_m = places.gap_m * (1.0 - 2.0 * (j as f32 + 0.5) / MAP[1] as f32);
            let (along_v_m, across_v_m) = frame.field_v_m(field, along_m, across_m);
            let share = view.field_scale.share(along_v_m.hypot(across_v_m));
            let rgb = cividis::themed_rgb(share, view.theme);
            drawing.items.push(Item::Cell {
                min: [x, y],
                max: [x + cell[0] + 0.3, y + cell[1] + 0.3],
                rgb,
            });
        }
    }
}

fn grains(drawing: &mut Drawing, dust: impl Iterator<Item = Grain>, places: &PlanPlaces) {
    for grain in dust.filter(|grain| places.shows(grain.along_m)) {
        let centre = places.point(grain.along_m, grain.across_m);
        let radius = grain_radius(grain.diameter_m);
        if grain.bypassing {
            drawing.items.push(Item::Ring {
                centre,
                radius: radius.max(2.0),
                ink: Ink::Uncharged,
                width: 1.0,
            });
        } else {
            let ink = if grain.charge_share > 0.5 {
                Ink::Dust
            } else {
                Ink::Uncharged
            };
            drawing.dot(centre, radius, ink);
        }
    }
}
