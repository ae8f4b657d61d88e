//! The whole figure: heading, cell with its lines, key beside it, profile below it.

use ashlane_shared::units::{Dimension, display, from_display};

use super::{
    WirePlaces, WireView, glow, lines,
    map::{self, Scale},
    places::PLATE,
    profile, side,
};
use crate::{
    drawing::{Anchor, Drawing, Point, lines_of},
    plan::nice_below,
    theme::{BODY, Ink, SMALL},
};

/// Draws the view in a drawing of this size.
#[must_use]
pub fn drawing(view: &WireView<'_>, size: Point) -> Drawing {
    let heading = heading(view, size[0] - 20.0);
    let places = WirePlaces::below(view, size, heading.len());
    let scale = Scale::of(view);
    let edge_m = glow::glow_edge_m(view);
    let enlarged = side::Enlarged::place(view, &places, glow::thickness_m(view, edge_m.as_deref()));
    let mut drawing = Drawing::new(size);
    if let Some(scale) = &scale {
        map::cell(&mut drawing, view, &places, scale);
    }
    let paths_m = lines::ion_paths_m(view, places.max[0] - places.min[0]);
    let levels = lines::voltage_lines(&mut drawing, view, &places, enlarged.ring());
    lines::ion_paths(&mut drawing, &places, &paths_m, enlarged.ring());
    wire(&mut drawing, view, &places, edge_m.as_deref());
    plates(&mut drawing, view, &places);
    enlarged.draw(
        &mut drawing,
        view,
        &places,
        &side::Content {
            scale: scale.as_ref(),
            paths_m: &paths_m,
            edge_m: edge_m.as_deref(),
        },
    );
    lines::numbers(&mut drawing, &places, &levels, enlarged.ring());
    let names = enlarged.names(&places);
    side::colours(&mut drawing, view, names, scale.as_ref());
    side::names(&mut drawing, view, names);
    profile::profile(&mut drawing, view, &places);
    title(&mut drawing, heading);
    drawing
}

impl WirePlaces {
    /// The places in a drawing of this size.
    #[must_use]
    pub fn new(view: &WireView<'_>, size: Point) -> Self {
        Self::below(view, size, heading(view, size[0] - 20.0).len())
    }
}

/// The numbers of the heading, in as many lines as they need.
fn heading(view: &WireView<'_>, room: f32) -> Vec<String> {
    let kv = |voltage_v| view.text(voltage_v, Dimension::Voltage);
    let solution = view.field.solution();
    let mut parts = vec![
        format!("mean {}", kv(solution.voltage_v)),
        format!(
            "{} at that voltage",
            view.text(view.field.plate_current_a_m2(), Dimension::CurrentDensity)
        ),
        format!("onset {}", kv(view.onset_v)),
    ];
    if kv(solution.onset_v) != kv(view.onset_v) {
        parts.push(format!("with this dust {}", kv(solution.onset_v)));
    }
    parts.push(format!("sparks at a peak of {}", kv(view.spark_v)));
    lines_of(parts, " · ", room)
}

fn title(drawing: &mut Drawing, heading: Vec<String>) {
    let words = "Around one wire, seen from above";
    drawing.bold([10.0, 13.0], Anchor::Left, words, BODY, Ink::Text);
    for (line, text) in heading.into_iter().enumerate() {
        let y = 31.0 + line as f32 * super::places::LINE;
        drawing.text([10.0, y], Anchor::Left, text, SMALL, Ink::HighVoltage);
    }
}

/// The wire and its glow to scale.
fn wire(
    drawing: &mut Drawing,
    view: &WireView<'_>,
    places: &WirePlaces,
    edge_m: Option<&[[f64; 2]]>,
) {
    if let Some(edge_m) = edge_m {
        let points = edge_m.iter().map(|[x, y]| places.point(*x, *y)).collect();
        drawing.items.push(side::glow_area(points, 1.0));
    }
    let radius = view.field.row().wire_radius_m() as f32 * places.per_m;
    drawing.dot(places.centre(), radius, Ink::Electrode);
}

/// Plates with their names, and the scale bar.
fn plates(drawing: &mut Drawing, view: &WireView<'_>, places: &WirePlaces) {
    let ([left, top], [right, bottom]) = (places.min, places.max);
    drawing.rect([left, top - PLATE], [right, top], Ink::Metal, 1.0);
    drawing.rect([left, bottom], [right, bottom + PLATE], Ink::Metal, 1.0);
    let name = if left > 80.0 { "plate, 0 kV" } else { "plate" };
    for y in [top - 0.5 * PLATE, bottom + 0.5 * PLATE] {
        drawing.text([left - 6.0, y], Anchor::Right, name, SMALL, Ink::Text);
    }
    let y = bottom + PLATE + 11.0;
    let row = view.field.row();
    let (longest, _) = display(0.45 * row.pitch_m(), Dimension::PartSize, view.units);
    let bar_m = from_display(nice_below(longest), Dimension::PartSize, view.units);
    let end = left + bar_m as f32 * places.per_m;
    drawing.line([[left, y], [end, y]], Ink::Text, 1.5);
    for x in [left, end] {
        drawing.line([[x, y - 4.0], [x, y + 4.0]], Ink::Text, 1.5);
    }
    let length = view.text(bar_m, Dimension::PartSize);
    drawing.text([end + 7.0, y], Anchor::Left, length, SMALL, Ink::Text);
}
