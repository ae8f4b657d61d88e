//! The whole figure, back to front: what stands behind, the casing, what is inside, roof, hoppers, ducts, words.

use ashlane_shared::{conditions::GasDirection, units::Dimension};

use super::{
    ElevationPlaces, ElevationView, Measures, access, casing, ducts, fan, fittings, hoppers,
    inside, instruments, labels, legend, pressure, profile, roof, upstream,
};
use crate::{
    drawing::{Anchor, Drawing, Item, Point, fitting, text_width},
    plan::nice_below,
    theme::{BODY, Ink, SMALL},
};

/// The drawn lines and words in a drawing of this size; the dust flies between them.
#[must_use]
pub fn drawing(view: &ElevationView<'_>, size: Point) -> Drawing {
    let places = places(view, size);
    let mut drawing = machine(view, &places, size);
    if view.labels {
        labels::labels(&mut drawing, view, &places);
    }
    // Readings lie over the leader lines of names.
    roof::voltages(&mut drawing, view, &places);
    hoppers::levels(&mut drawing, view, &places);
    instruments::instruments(&mut drawing, view, &places);
    pressure::strip(&mut drawing, view, &places);
    legend::legend(&mut drawing, view, &places);
    scale_bar(&mut drawing, view, &places);
    drawing
}

/// The machine without readings, its labels left blank to be filled in; the names by the numbers of the labels.
#[must_use]
pub fn blank_drawing(view: &ElevationView<'_>, size: Point) -> (Drawing, Vec<String>) {
    let places = places(view, size);
    let mut drawing = machine(view, &places, size);
    let names = labels::blanks(&mut drawing, view, &places);
    (drawing, names)
}

/// All that stands there, and the heading.
fn machine(view: &ElevationView<'_>, places: &ElevationPlaces, size: Point) -> Drawing {
    let mut drawing = Drawing::new(size);
    casing::ground(&mut drawing, places);
    upstream::upstream(&mut drawing, places);
    access::behind(&mut drawing, places);
    ducts::ducts(&mut drawing, view, places);
    fittings::fittings(&mut drawing, places);
    fan::fan(&mut drawing, places);
    casing::casing(&mut drawing, places);
    inside::fields(&mut drawing, view, places);
    profile::profile(&mut drawing, view, places);
    hoppers::hoppers(&mut drawing, view, places);
    roof::roof(&mut drawing, places);
    access::access(&mut drawing, places);
    casing::person(&mut drawing, places);
    heading(&mut drawing, view);
    drawing
}

pub(super) fn places(view: &ElevationView<'_>, size: Point) -> ElevationPlaces {
    let measures = Measures::new(view.conditions, view.hoppers, view.gas);
    ElevationPlaces::new(measures, size, view.eye)
}

fn heading(drawing: &mut Drawing, view: &ElevationView<'_>) {
    let collector = &view.conditions.collector;
    let height = view.text(collector.plate_height_m, Dimension::Length);
    let face = view.text(view.conditions.gas_velocity_m_s(), Dimension::Velocity);
    let way = match view.conditions.appearance.gas_direction {
        GasDirection::LeftToRight => "from left to right",
        GasDirection::RightToLeft => "from right to left",
    };
    let texts = [
        format!("Elevation, gas {way} · plates {height} high · {face} through the fields"),
        format!("Elevation, gas {way} · {face}"),
        format!("Elevation · gas {face}"),
        "Elevation".to_owned(),
    ];
    let room = drawing.size[0] - 24.0;
    let fits = |text: &&String| text_width(text, BODY, true) < room;
    let text = texts.iter().find(fits).map_or("", String::as_str);
    // The machine may reach below the words.
    drawing.items.push(Item::Text {
        at: [12.0, 14.0],
        anchor: Anchor::Left,
        text: text.to_owned(),
        size: BODY,
        ink: Ink::Text,
        bold: true,
        plate: true,
    });
}

fn scale_bar(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    let length_m = nice_below(120.0 / f64::from(places.scale));
    let y = drawing.size[1] - 12.0;
    let width = places.scale * length_m as f32;
    drawing.line([[12.0, y], [12.0 + width, y]], Ink::Text, 2.0);
    for x in [12.0, 12.0 + width] {
        drawing.line([[x, y - 4.0], [x, y + 4.0]], Ink::Text, 2.0);
    }
    let after = 20.0 + width;
    let text = view.text(length_m, Dimension::Length);
    drawing.label([after, y], Anchor::Left, text, SMALL, Ink::Text);
    let texts = [
        "to scale; stack cut; wires, layers, grains and insulators not to scale; way of the grains stretched over the walkways"
            .to_owned(),
        "to scale; stack cut; wires, layers, grains not to scale".to_owned(),
        "stack cut; grains not to scale".to_owned(),
    ];
    let room = drawing.size[0] - after - 110.0;
    let text = fitting(&texts, room);
    let right = [drawing.size[0] - 12.0, y];
    drawing.label(right, Anchor::Right, text, SMALL, Ink::Faint);
}
