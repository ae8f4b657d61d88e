//! Names in rows with leader lines to what they point at.

use super::{Anchor, Drawing, Point, text_width};
use crate::theme::{Ink, SMALL};

/// Room between two names in a row.
const BETWEEN: f32 = 14.0;
/// Room at both ends of a row.
const EDGE: f32 = 10.0;
/// How far a name may stand from what it points at, points.
const FAR: f32 = 90.0;

/// What is pointed at, and its name; behind a colon more words, which are left out where there is no room.
pub(crate) type Name = (Point, String);

/// Names in rows at these heights, the first row first: each as near to what it points at as there is room, in short where the
/// long form has none, else in a later row. What points out of the drawing and what finds no room is left out.
pub(crate) fn names_in_rows(drawing: &mut Drawing, rows: &[f32], mut names: Vec<Name>) {
    let [width, height] = drawing.size;
    let is_inside = |[x, y]: Point| (0.0..=width).contains(&x) && (0.0..=height).contains(&y);
    names.retain(|(target, _)| is_inside(*target));
    names.sort_by(|one, other| one.0[0].total_cmp(&other.0[0]));
    let mut free_from = vec![EDGE; rows.len()];
    let mut seats = Vec::new();
    for (target, text) in names {
        let short = text.split(':').next().unwrap_or_default().to_owned();
        let tries = [text, short];
        let seat = tries.iter().find_map(|text| {
            let free = free_from.iter().zip(rows).enumerate();
            free.filter_map(|(row, (free_from, y))| {
                seated(target, text, [*free_from, *y], width).map(|seat| (row, seat))
            })
            .next()
        });
        if let Some((row, seat)) = seat {
            free_from[row] = seat.at[0] + seat.half + BETWEEN;
            seats.push(seat);
        }
    }
    // Words lie over the lines of other rows.
    for seat in &seats {
        let side = if seat.target[1] > seat.at[1] {
            8.0
        } else {
            -8.0
        };
        let reach = seat.half - 4.0;
        let from = [
            seat.target[0].clamp(seat.at[0] - reach, seat.at[0] + reach),
            seat.at[1] + side,
        ];
        drawing.line([from, seat.target], Ink::Faint, 0.8);
        drawing.dot(seat.target, 2.2, Ink::Faint);
    }
    for seat in seats {
        drawing.label(seat.at, Anchor::Centre, seat.text, SMALL, Ink::Text);
    }
}

/// A text at a place, if it lies on the drawing there and over no other text.
pub(crate) fn label_where_free(
    drawing: &mut Drawing,
    at: Point,
    anchor: Anchor,
    text: &str,
    ink: Ink,
) -> bool {
    let (min, max) = super::text::text_rect(at, anchor, text, SMALL, false);
    let [width, height] = drawing.size;
    let is_inside =
        min[0] >= 2.0 && min[1] >= 2.0 && max[0] <= width - 2.0 && max[1] <= height - 2.0;
    let covers = drawing.texts().any(|(_, other_min, other_max)| {
        let wide = max[0].min(other_max[0]) - min[0].max(other_min[0]);
        let high = max[1].min(other_max[1]) - min[1].max(other_min[1]);
        wide > -2.0 && high > 2.0
    });
    let is_free = is_inside && !covers;
    if is_free {
        drawing.label(at, anchor, text, SMALL, ink);
    }
    is_free
}

/// A name at its place.
struct Seat {
    at: Point,
    half: f32,
    target: Point,
    text: String,
}

/// A name in a row, from where the row is free and at its height; nothing where it would stand too far from its target.
fn seated(target: Point, text: &str, [free_from, y]: Point, width: f32) -> Option<Seat> {
    let half = 0.5 * text_width(text, SMALL, false);
    let centre = target[0].max(free_from + half).min(width - EDGE - half);
    let is_near = (centre - target[0]).abs() < half + FAR;
    (is_near && centre - half >= free_from - 0.5).then(|| Seat {
        at: [centre, y],
        half,
        target,
        text: text.to_owned(),
    })
}
