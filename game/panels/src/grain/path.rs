//! The path of the grain between the plates, with the wires, marks of time and the place where it ends.

use ashlane_shared::{
    simulation::{GrainFate, GrainPoint},
    units::{Dimension, display, from_display},
};

use super::{
    GrainView,
    places::{PLATE, Part},
};
use crate::{
    charts::{plain_number, plain_number_or_zero},
    drawing::{Anchor, Drawing, Item, Point, text_width},
    plan::nice_below,
    theme::{Ink, SMALL},
};

/// Radius of the grain on the drawing, points.
const GRAIN: f32 = 5.0;
/// Room for the word at the end of the path.
const END_WORD: f32 = 70.0;
/// Lengths along the gas that are shown: these times powers of ten, in the units on screen.
const LENGTHS: [f64; 6] = [1.0, 1.5, 2.0, 3.0, 5.0, 7.5];

/// Points per metre along and across, and where the wire line starts.
struct Scale {
    left: f32,
    middle: f32,
    along_per_m: f32,
    across_per_m: f32,
    length_m: f64,
}

impl Scale {
    fn of(view: &GrainView<'_>, ([left, top], [right, bottom]): Part) -> Self {
        let across_per_m = (bottom - top) / (2.0 * view.conditions.gap_m()) as f32;
        // Never shorter than to scale.
        let least_m = f64::from((right - left) / across_per_m);
        let reached_m = view.grain.points.iter().map(|point| point.along_m);
        let reached_m = reached_m.fold(0.0, f64::max);
        // Room for the word at its end.
        let ahead = f64::from(1.0 + END_WORD / (right - left - END_WORD));
        let wanted_m = (ahead * reached_m).max(least_m);
        let whole_m = view.conditions.length_m();
        let length_m = if view.grain.points.is_empty() || wanted_m >= 0.75 * whole_m {
            whole_m.max(least_m)
        } else {
            round_length_m(view, wanted_m).min(whole_m.max(least_m))
        };
        Self {
            left,
            middle: 0.5 * (top + bottom),
            along_per_m: (right - left) / length_m as f32,
            across_per_m,
            length_m,
        }
    }

    fn x(&self, along_m: f64) -> f32 {
        self.left + along_m as f32 * self.along_per_m
    }

    fn point(&self, point: &GrainPoint) -> Point {
        let y = self.middle - point.across_m as f32 * self.across_per_m;
        [self.x(point.along_m), y]
    }
}

/// The next of the round lengths.
fn round_length_m(view: &GrainView<'_>, wanted_m: f64) -> f64 {
    let (wanted, _) = display(wanted_m, Dimension::Length, view.units);
    let decade = 10_f64.powf(wanted.log10().floor());
    let fits = |times: &f64| times * decade >= wanted * 0.999;
    let times = LENGTHS.into_iter().find(fits).unwrap_or(10.0);
    from_display(times * decade, Dimension::Length, view.units)
}

/// Draws the strip.
pub(super) fn path(drawing: &mut Drawing, view: &GrainView<'_>, strip: Part) {
    let scale = Scale::of(view, strip);
    plates(drawing, view, &scale, strip);
    wires(drawing, view, &scale);
    words(drawing, view, &scale, strip);
    let Some(now) = view.now() else {
        return;
    };
    pieces(drawing, view, &scale);
    times(drawing, view, &scale, strip);
    let at = scale.point(now);
    drawing.dot(at, GRAIN + 2.0, Ink::Ground);
    drawing.dot(at, GRAIN, Ink::Dust);
    end(drawing, view, at, strip);
}

fn plates(
    drawing: &mut Drawing,
    view: &GrainView<'_>,
    scale: &Scale,
    ([left, top], [right, bottom]): Part,
) {
    drawing.rect([left, top - PLATE], [right, top], Ink::Metal, 1.0);
    drawing.rect([left, bottom], [right, bottom + PLATE], Ink::Metal, 1.0);
    let field_m = view.conditions.collector.field_length_m;
    for index in 1..=view.conditions.collector.fields {
        let x = scale.x(index as f64 * field_m);
        if x < right - 1.0 {
            drawing.dashed([[x, top], [x, bottom]], Ink::Rule, 1.0);
        }
    }
}

fn wires(drawing: &mut Drawing, view: &GrainView<'_>, scale: &Scale) {
    let collector = &view.conditions.collector;
    let per_field = view.conditions.wires_per_field();
    let spacing_m = collector.field_length_m / f64::from(per_field);
    let apart = spacing_m as f32 * scale.along_per_m;
    let radius = (0.12 * apart).clamp(1.0, 3.0);
    let last_m = scale.length_m.min(view.conditions.length_m());
    let mut along_m = 0.5 * spacing_m;
    while along_m < last_m {
        drawing.dot([scale.x(along_m), scale.middle], radius, Ink::Electrode);
        along_m += spacing_m;
    }
}

/// Above the strip: the names of the fields, a bar of length, and how much the width is stretched.
fn words(
    drawing: &mut Drawing,
    view: &GrainView<'_>,
    scale: &Scale,
    ([left, top], [right, _]): Part,
) {
    let y = top - PLATE - 11.0;
    let stretched = f64::from(scale.across_per_m / scale.along_per_m);
    let text = if stretched < 1.05 {
        "to scale".to_owned()
    } else {
        format!("width ×{}", plain_number((10.0 * stretched).round() / 10.0))
    };
    drawing.text([right, y], Anchor::Right, &*text, SMALL, Ink::Faint);
    let end = right - text_width(&text, SMALL, false) - 16.0;
    let (longest, _) = display(
        f64::from(110.0 / scale.along_per_m),
        Dimension::Length,
        view.units,
    );
    let bar_m = from_display(nice_below(longest), Dimension::Length, view.units);
    let name = view.text(bar_m, Dimension::Length);
    drawing.text([end, y], Anchor::Right, &*name, SMALL, Ink::Text);
    let to = end - text_width(&name, SMALL, false) - 7.0;
    let from = to - bar_m as f32 * scale.along_per_m;
    drawing.line([[from, y], [to, y]], Ink::Text, 1.5);
    for x in [from, to] {
        drawing.line([[x, y - 4.0], [x, y + 4.0]], Ink::Text, 1.5);
    }
    let field_m = view.conditions.collector.field_length_m;
    for index in 0..view.conditions.collector.fields {
        let start = scale.x(index as f64 * field_m).max(left);
        let room = (scale.x((index + 1) as f64 * field_m).min(from - 14.0)) - start;
        let long = view.conditions.field_name(index);
        if room > text_width(&long, SMALL, false) + 10.0 {
            drawing.text([start + 2.0, y], Anchor::Left, long, SMALL, Ink::Faint);
        }
    }
}

/// The path, dashed where the grain is led around the charged zone.
fn pieces(drawing: &mut Drawing, view: &GrainView<'_>, scale: &Scale) {
    let points = &view.grain.points;
    let mut start = 0;
    while start + 1 < points.len() {
        let exposed = points[start].exposed;
        let length = points[start..]
            .iter()
            .take_while(|point| point.exposed == exposed)
            .count();
        // Up to the first point of the next piece.
        let end = (start + length).min(points.len() - 1);
        let mut line: Vec<Point> = Vec::new();
        for (index, point) in points[start..=end].iter().enumerate() {
            let at = scale.point(point);
            let far = |from: &Point| (at[0] - from[0]).hypot(at[1] - from[1]) >= 1.0;
            if line.last().is_none_or(far) || start + index == end {
                line.push(at);
            }
        }
        let (ink, width, dash) = if exposed {
            (Ink::Dust, 2.0, None)
        } else {
            (Ink::Uncharged, 1.5, Some((4.0, 4.0)))
        };
        drawing.items.push(Item::Line {
            points: line,
            ink,
            width,
            dash,
        });
        start = end;
    }
}

/// Dots on the path every so often, and their times below the strip.
fn times(
    drawing: &mut Drawing,
    view: &GrainView<'_>,
    scale: &Scale,
    ([left, _], [right, bottom]): Part,
) {
    let points = &view.grain.points;
    let last_s = points[points.len() - 1].time_s;
    let reached = scale.x(points[points.len() - 1].along_m) - left;
    let most = f64::from((reached / 80.0).max(1.0));
    let step_s = nice_below(2.49 * (last_s / most).max(0.04));
    let mut free_from = f32::MIN;
    let mut mark_s = 0.0;
    for point in points {
        if point.time_s < mark_s {
            continue;
        }
        let at = scale.point(point);
        drawing.dot(at, 3.2, Ink::Ground);
        drawing.dot(at, 2.4, Ink::Text);
        let text = format!("{} s", plain_number_or_zero(round_s(mark_s)));
        mark_s += step_s;
        let wide = text_width(&text, SMALL, false);
        let x = at[0].clamp(left + 0.5 * wide, right - 0.5 * wide);
        let y = bottom + PLATE;
        if x - 0.5 * wide >= free_from {
            drawing.line([[at[0], y], [at[0], y + 4.0]], Ink::Faint, 1.0);
            drawing.text([x, y + 13.0], Anchor::Centre, text, SMALL, Ink::Faint);
            free_from = x + 0.5 * wide + 8.0;
        }
    }
}

/// A sum of steps without the dust of its last digits.
fn round_s(time_s: f64) -> f64 {
    (1e6 * time_s).round() / 1e6
}

/// Where it ended: a ring and a word.
fn end(drawing: &mut Drawing, view: &GrainView<'_>, at: Point, ([_, top], [right, bottom]): Part) {
    let word = match view.grain.fate {
        Some(GrainFate::Caught { .. }) => "caught",
        Some(GrainFate::Left) => "out",
        Some(GrainFate::RecordFull) | None => return,
    };
    drawing.items.push(Item::Ring {
        centre: at,
        radius: GRAIN + 4.0,
        ink: Ink::Text,
        width: 1.5,
    });
    // Ahead of the grain, or nowhere: behind it the word would hide the path.
    let x = at[0] + GRAIN + 9.0;
    if x + text_width(word, SMALL, false) < right {
        let y = at[1].clamp(top + 12.0, bottom - 12.0);
        drawing.label([x, y], Anchor::Left, word, SMALL, Ink::Text);
    }
}
