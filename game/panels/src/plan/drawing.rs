//! The lines and words of the plan; dust and field lie behind them.

use ashlane_shared::{
    simulation::{FieldState, HeldBy, sparks_so_far},
    units::{Dimension, display, format, from_display},
};

use super::{PlanPlaces, PlanView, nice_below, places::PLATE, plates};
use crate::{
    drawing::{
        Anchor, Drawing, Item, Point,
        sparks::{mark, marked},
        text_width,
    },
    theme::{BODY, Ink, SMALL},
};

/// Radius of a wire on the drawing and of the halo that marks its high voltage, points.
const WIRE: f32 = 4.0;
const HALO: f32 = 8.0;

/// Draws the plan in a drawing of this size.
#[must_use]
pub fn plan_drawing(view: &PlanView<'_>, size: Point) -> Drawing {
    let places = PlanPlaces::new(view, size);
    let mut drawing = Drawing::new(size);
    let layer = plates::layers(&mut drawing, view, &places);
    metal(&mut drawing, &places);
    edges(&mut drawing, view, &places);
    wires(&mut drawing, view, &places);
    sparks(&mut drawing, view, &places);
    followed(&mut drawing, view, &places);
    title(&mut drawing, view, &places);
    scales(&mut drawing, view, &places, layer);
    if view.labels {
        labels(&mut drawing, view, &places);
        plates::news(&mut drawing, view, &places);
    }
    drawing
}

fn title(drawing: &mut Drawing, view: &PlanView<'_>, places: &PlanPlaces) {
    let left = places.min[0];
    drawing.bold(
        [left, 13.0],
        Anchor::Left,
        "Plan of one gas passage, seen from above",
        BODY,
        Ink::Text,
    );
    let velocity = format(
        view.conditions.gas_velocity_m_s(),
        Dimension::Velocity,
        view.units,
    );
    let text = format!("gas {velocity}");
    let (right, y) = (places.max[0], 13.0);
    let start = right - 46.0 - text_width(&text, BODY, false);
    if start > left + text_width("Plan of one gas passage, seen from above", BODY, true) + 12.0 {
        drawing.text([right - 40.0, y], Anchor::Right, text, BODY, Ink::Gas);
        drawing.line([[right - 34.0, y], [right - 4.0, y]], Ink::Gas, 2.0);
        let tip = right - if places.mirrored { 34.0 } else { 4.0 };
        drawing.line(
            [
                [tip - 8.0 * places.way(), y - 5.0],
                [tip, y],
                [tip - 8.0 * places.way(), y + 5.0],
            ],
            Ink::Gas,
            2.0,
        );
    }
}

/// A ring round the grain that is followed, and its way so far.
fn followed(drawing: &mut Drawing, view: &PlanView<'_>, places: &PlanPlaces) {
    let points = view.followed.map(|grain| grain.points.as_slice());
    let ends = places.start_m..=places.start_m + places.length_m;
    let way: Vec<Point> = points
        .unwrap_or_default()
        .iter()
        .filter(|point| ends.contains(&(point.along_m as f32)))
        .map(|point| places.point(point.along_m as f32, point.across_m as f32))
        .collect();
    let last = points.and_then(<[_]>::last);
    if way.len() > 1 {
        drawing.line(way, Ink::Text, 1.0);
    }
    if let Some(last) = last.filter(|last| ends.contains(&(last.along_m as f32))) {
        let centre = places.point(last.along_m as f32, last.across_m as f32);
        drawing.items.push(Item::Ring {
            centre,
            radius: 9.0,
            ink: Ink::Text,
            width: 2.0,
        });
        if view.labels {
            let (side, anchor) = if centre[0] < 0.5 * (places.min[0] + places.max[0]) {
                (13.0, Anchor::Left)
            } else {
                (-13.0, Anchor::Right)
            };
            let at = [centre[0] + side, centre[1]];
            drawing.label(at, anchor, "followed grain", SMALL, Ink::Text);
        }
    }
}

fn metal(drawing: &mut Drawing, places: &PlanPlaces) {
    let ([left, top], [right, bottom]) = (places.min, places.max);
    drawing.rect([left, top - PLATE], [right, top], Ink::Metal, 1.0);
    drawing.rect([left, bottom], [right, bottom + PLATE], Ink::Metal, 1.0);
}

/// Names and states of the fields, and the lines between them.
fn edges(drawing: &mut Drawing, view: &PlanView<'_>, places: &PlanPlaces) {
    let field_m = view.conditions.collector.field_length_m as f32;
    for (index, field) in view.fields.iter().enumerate() {
        let (start_m, end_m) = (index as f32 * field_m, (index + 1) as f32 * field_m);
        let (left, right) = places.edges(start_m, end_m);
        if right - left < 8.0 {
            continue;
        }
        if start_m > places.start_m {
            let x = places.point(start_m, 0.0)[0];
            drawing.dashed(
                [
                    [x, places.min[1] - PLATE - 24.0],
                    [x, places.max[1] + PLATE],
                ],
                Ink::Faint,
                1.0,
            );
        }
        heading(
            drawing,
            view,
            (index, field),
            (left, right),
            places.min[1] - PLATE,
        );
    }
}

fn heading(
    drawing: &mut Drawing,
    view: &PlanView<'_>,
    (index, field): (usize, &FieldState),
    (left, right): (f32, f32),
    plate_top: f32,
) {
    let name = view.conditions.field_title(index);
    let kv = format(field.metered_v(), Dimension::Voltage, view.units);
    let density = format(field.metered_a_m2(), Dimension::CurrentDensity, view.units);
    let sparks = sparks_so_far(field.sparks_per_min, view.step);
    let held = match field.held_by {
        HeldBy::Setting => String::new(),
        HeldBy::CurrentLimit => ", at the current limit".to_owned(),
        HeldBy::Supply => ", all the set gives".to_owned(),
        HeldBy::Sparking => format!(
            ", at sparking: {:.0}/min, {sparks} so far",
            field.sparks_per_min
        ),
    };
    let long = format!("{kv} mean, {density}{held}");
    let room = right - left - 10.0;
    let y = plate_top - 12.0;
    let name_width = text_width(&name, BODY, true);
    if room > name_width {
        drawing.bold([left + 5.0, y], Anchor::Left, &*name, BODY, Ink::Text);
    }
    let rest = room - name_width - 10.0;
    let detail = [long, format!("{kv} mean"), kv]
        .into_iter()
        .find(|text| text_width(text, SMALL, false) < rest);
    if let Some(detail) = detail {
        drawing.text(
            [left + 15.0 + name_width, y],
            Anchor::Left,
            detail,
            SMALL,
            Ink::HighVoltage,
        );
    }
}

/// Marks of the sparks that have just been, from the nearest wire to its plate.
fn sparks(drawing: &mut Drawing, view: &PlanView<'_>, places: &PlanPlaces) {
    if view.calm {
        return;
    }
    let field_m = view.conditions.collector.field_length_m as f32;
    let wires = view.conditions.wires_per_field() as f32;
    for (index, field) in view.fields.iter().enumerate() {
        for spark in marked(index, field.sparks_per_min, view.step) {
            let wire = (spark.along as f32 * wires).floor().min(wires - 1.0);
            let along_m = (index as f32 + (wire + 0.5) / wires) * field_m;
            if places.shows(along_m) {
                let (side, towards) = if spark.upper {
                    (1.0, -1.0)
                } else {
                    (-1.0, 1.0)
                };
                let at = places.point(along_m, side * 0.4 * places.gap_m);
                mark(drawing, &spark, at, towards);
            }
        }
    }
}

/// Distances of the wires from the start of the collector, m.
fn wire_places(view: &PlanView<'_>) -> impl Iterator<Item = f32> {
    let per_field = view.conditions.wires_per_field();
    let pitch_m = view.conditions.collector.field_length_m as f32 / per_field as f32;
    let wires = per_field * view.conditions.collector.fields as u32;
    (0..wires).map(move |wire| (wire as f32 + 0.5) * pitch_m)
}

fn wires(drawing: &mut Drawing, view: &PlanView<'_>, places: &PlanPlaces) {
    for along_m in wire_places(view).filter(|along_m| places.shows(*along_m)) {
        let centre = places.point(along_m, 0.0);
        drawing.items.push(Item::Ring {
            centre,
            radius: HALO,
            ink: Ink::HighVoltage,
            width: 1.5,
        });
        drawing.dot(centre, WIRE, Ink::Electrode);
    }
}

fn scales(drawing: &mut Drawing, view: &PlanView<'_>, places: &PlanPlaces, layer: Option<f64>) {
    let (left, y) = (places.min[0], places.max[1] + PLATE + 44.0);
    let (longest, _) = display(
        f64::from(0.22 * places.length_m),
        Dimension::Length,
        view.units,
    );
    let bar_m = from_display(nice_below(longest), Dimension::Length, view.units);
    let bar = bar_m as f32 * places.along_per_m();
    drawing.line([[left, y - 4.0], [left, y + 4.0]], Ink::Text, 1.5);
    drawing.line([[left, y], [left + bar, y]], Ink::Text, 1.5);
    drawing.line(
        [[left + bar, y - 4.0], [left + bar, y + 4.0]],
        Ink::Text,
        1.5,
    );
    let length = format(bar_m, Dimension::Length, view.units);
    drawing.text(
        [left + bar + 8.0, y],
        Anchor::Left,
        &*length,
        SMALL,
        Ink::Text,
    );
    let after = left + bar + 8.0 + text_width(&length, SMALL, false) + 20.0;
    let note = exaggerations(view, places, layer);
    let room = places.max[0] - after;
    let fitting = note
        .into_iter()
        .find(|text| text_width(text, SMALL, false) < room)
        .unwrap_or_default();
    drawing.text(
        [places.max[0], y],
        Anchor::Right,
        fitting,
        SMALL,
        Ink::Faint,
    );
}

/// What is not to scale, from the long form to the short.
fn exaggerations(view: &PlanView<'_>, places: &PlanPlaces, layer: Option<f64>) -> Vec<String> {
    let wire_m = view.conditions.collector.wire_diameter_m as f32;
    let wire = 2.0 * WIRE / (wire_m * places.along_per_m());
    let width = places.exaggeration();
    let spacing = format(
        view.conditions.collector.plate_spacing_m,
        Dimension::PartSize,
        view.units,
    );
    let layer_text = layer.map_or_else(String::new, |times| match times {
        1.0 => " · layer to scale of the width".to_owned(),
        _ => format!(" · layer ×{times:.0}"),
    });
    let grains = " · grains not to scale";
    let base = format!("width ({spacing}) drawn ×{width:.1} · wires ×{wire:.0}");
    vec![
        format!("{base}{layer_text}{grains}"),
        format!("{base}{layer_text}"),
        base,
        format!("width ×{width:.1}"),
    ]
}

/// Names with leader lines, in the row below the passage.
fn labels(drawing: &mut Drawing, view: &PlanView<'_>, places: &PlanPlaces) {
    let row = places.max[1] + PLATE + 18.0;
    let width = places.max[0] - places.min[0];
    let middle = places.min[0] + 0.5 * width;
    let wire = wire_places(view)
        .filter(|along_m| places.shows(*along_m))
        .map(|along_m| places.point(along_m, 0.0))
        .min_by(|a, b| (a[0] - middle).abs().total_cmp(&(b[0] - middle).abs()));
    let voltage = view.fields.first().map_or_else(String::new, |field| {
        format!(
            ", −{}",
            format(field.metered_v(), Dimension::Voltage, view.units)
        )
    });
    let plate_x = places.min[0] + 0.13 * width;
    let layer_x = places.min[0] + 0.86 * width;
    let mut wanted = vec![
        (
            plate_x,
            [plate_x, places.max[1] + 0.5 * PLATE],
            "collecting plate, grounded".to_owned(),
        ),
        (
            layer_x,
            [layer_x, places.max[1] - 2.0],
            "caught dust".to_owned(),
        ),
    ];
    if let Some(wire) = wire {
        let short = "discharge electrode".to_owned();
        let long = format!("{short}{voltage}");
        let text = if text_width(&long, SMALL, false) < 0.3 * width {
            long
        } else {
            short
        };
        wanted.insert(1, (wire[0], [wire[0], wire[1] + HALO], text));
    }
    let mut free_from = places.min[0];
    for (x, target, text) in wanted {
        let half = 0.5 * text_width(&text, SMALL, false);
        let centre = x.max(free_from + half).min(places.max[0] - half);
        if centre - half < free_from - 0.5 {
            continue;
        }
        drawing.line(
            [[x.clamp(centre - half, centre + half), row - 8.0], target],
            Ink::Faint,
            1.0,
        );
        drawing.dot(target, 2.5, Ink::Faint);
        drawing.label([centre, row], Anchor::Centre, text, SMALL, Ink::Text);
        free_from = centre + half + 16.0;
    }
}
