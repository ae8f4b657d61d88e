//! Current along the plate, below the cell and on the same axis: where the ions arrive.

use ashlane_shared::units::{Dimension, display, from_display, number_text};

use super::{WirePlaces, WireView, places::LINE};
use crate::{
    drawing::{Anchor, Drawing, Point, fitting},
    plan::{nice_above, nice_below},
    theme::{Ink, SMALL},
};

/// Draws the profile with its mean.
pub(super) fn profile(drawing: &mut Drawing, view: &WireView<'_>, places: &WirePlaces) {
    let ([left, top], [right, bottom]) = places.profile;
    let points = view.field.plate_profile();
    let mean_a_m2 = view.field.plate_current_a_m2();
    let highest_a_m2 = points
        .iter()
        .map(|point| point.current_density_a_m2)
        .fold(mean_a_m2, f64::max);
    let (highest, unit) = display(highest_a_m2, Dimension::CurrentDensity, view.units);
    // Without any current the axis still has a number.
    let full = 1.1 * highest.max(1.0);
    let y = |current_a_m2: f64| {
        let (value, _) = display(current_a_m2, Dimension::CurrentDensity, view.units);
        bottom - (value / full) as f32 * (bottom - top)
    };
    let step = nice_above(full / f64::from(((bottom - top) / LINE).floor().clamp(1.0, 5.0)));
    let marks = (0..).map(|count| f64::from(count) * step);
    for mark in marks.take_while(|mark| *mark <= full) {
        let at = y(from_display(mark, Dimension::CurrentDensity, view.units));
        drawing.line([[left, at], [right, at]], Ink::Rule, 1.0);
        drawing.text(
            [left - 6.0, at],
            Anchor::Right,
            number_text(mark, 3),
            SMALL,
            Ink::Faint,
        );
    }
    drawing.line(
        [[left, top], [left, bottom], [right, bottom]],
        Ink::Faint,
        1.0,
    );
    distances(drawing, view, places);
    let half = points
        .iter()
        .map(|point| (point.x_m, y(point.current_density_a_m2)));
    let along = |x_m: f64| places.point(x_m, 0.0)[0];
    let mut line: Vec<Point> = half.clone().map(|(x_m, y)| [along(-x_m), y]).collect();
    line.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut other: Vec<Point> = half.map(|(x_m, y)| [along(x_m), y]).collect();
    other.sort_by(|a, b| a[0].total_cmp(&b[0]));
    line.extend(other.into_iter().skip(1));
    drawing.line(line, Ink::FiniteMixing, 2.0);
    let mean_y = y(mean_a_m2);
    drawing.dashed([[left, mean_y], [right, mean_y]], Ink::Text, 1.4);
    words(drawing, view, places, unit);
}

/// Distances from the wire, to either side, under the profile.
fn distances(drawing: &mut Drawing, view: &WireView<'_>, places: &WirePlaces) {
    let (_, [right, bottom]) = places.profile;
    let half_m = 0.5 * view.field.row().pitch_m();
    let (half, unit) = display(half_m, Dimension::PartSize, view.units);
    let room = places.max[0] - places.centre()[0];
    let marks = if room > 110.0 { 2.0 } else { 1.0 };
    let step = nice_below(half / marks);
    for count in -4..=4 {
        let mark = f64::from(count) * step;
        if mark.abs() > half {
            continue;
        }
        let x = places.point(from_display(mark, Dimension::PartSize, view.units), 0.0)[0];
        drawing.line([[x, bottom], [x, bottom + 4.0]], Ink::Faint, 1.0);
        let text = number_text(mark.abs(), 3);
        drawing.text([x, bottom + 12.0], Anchor::Centre, text, SMALL, Ink::Faint);
    }
    let names = [
        format!("{unit} along the plate, from below the wire"),
        format!("{unit} along the plate"),
        unit.to_owned(),
    ];
    let name = fitting(&names, drawing.size[0] - right - 28.0);
    drawing.text(
        [right + 24.0, bottom + 12.0],
        Anchor::Left,
        name,
        SMALL,
        Ink::Faint,
    );
}

/// What the two lines are, beside the profile.
fn words(drawing: &mut Drawing, view: &WireView<'_>, places: &WirePlaces, unit: &str) {
    let ([_, top], [right, bottom]) = places.profile;
    // Beside a low profile the enlargement may reach down to its top.
    let first = (top + 8.0).max(if bottom - top < 70.0 {
        bottom - 12.0 - LINE
    } else {
        top
    });
    let x = right + 16.0;
    let room = drawing.size[0] - x - 36.0;
    let mean = view.text(view.field.plate_current_a_m2(), Dimension::CurrentDensity);
    drawing.line([[x, first], [x + 22.0, first]], Ink::FiniteMixing, 2.0);
    let long = [
        format!("current on the plate, {unit}"),
        format!("on the plate, {unit}"),
    ];
    let name = fitting(&long, room);
    drawing.text([x + 28.0, first], Anchor::Left, name, SMALL, Ink::Text);
    let y = first + LINE;
    drawing.dashed([[x, y], [x + 22.0, y]], Ink::Text, 1.4);
    drawing.text(
        [x + 28.0, y],
        Anchor::Left,
        format!("mean {mean}"),
        SMALL,
        Ink::Text,
    );
}
