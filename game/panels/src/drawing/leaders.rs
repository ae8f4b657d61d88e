//! Names in rows with leader lines to what they point at.

use super::{Anchor, Drawing, Point, text_width};
use crate::theme::{Ink, SMALL};

/// Room between two names in a row.
const BETWEEN: f32 = 14.0;
/// Room at both ends of a row.
const EDGE: f32 = 10.0;
/// How far a name may stand from what it points at, points.
const FAR: f32 = 90.0;

/// Takes as much room as a box to write a name in, and half the height of that box.
const BLANK: &str = "nnnnnnnnnnnnnnnnnnn";
const BOX: f32 = 13.0;

/// What is pointed at, and its name; behind a colon more words, which are left out where there is no room.
pub(crate) type Name = (Point, String);

/// Names in rows at these heights, the first row first: each as near to what it points at as there is room, in short where the
/// long form has none, else in a later row. What points out of the drawing and what finds no room is left out.
pub(crate) fn names_in_rows(drawing: &mut Drawing, rows: &[f32], names: Vec<Name>) {
    let seats = seats(drawing, rows, names, |text| text.to_owned());
    // Words lie over the lines of other rows.
    for seat in &seats {
        leader(drawing, seat);
    }
    for seat in seats {
        drawing.label(seat.at, Anchor::Centre, seat.text, SMALL, Ink::Text);
    }
}

/// The same with a number and an empty box in place of each name; the names in the order of their numbers, which go on
/// from those that are there.
pub(crate) fn blanks_in_rows(
    drawing: &mut Drawing,
    rows: &[f32],
    names: Vec<Name>,
    known: &mut Vec<String>,
) {
    let mut seats = seats(drawing, rows, names, |_| BLANK.to_owned());
    seats.sort_by(|one, other| {
        let row = one.at[1].total_cmp(&other.at[1]);
        row.then(one.at[0].total_cmp(&other.at[0]))
    });
    for seat in &seats {
        leader(drawing, seat);
    }
    for seat in seats {
        known.push(seat.name);
        let [x, y] = seat.at;
        let (left, right) = (x - seat.half, x + seat.half);
        drawing.rect([left, y - BOX], [right, y + BOX], Ink::Ground, 1.0);
        let corners = [
            [left, y - BOX],
            [right, y - BOX],
            [right, y + BOX],
            [left, y + BOX],
            [left, y - BOX],
        ];
        drawing.line(corners, Ink::Text, 0.9);
        let number = known.len().to_string();
        drawing.bold([left + 4.0, y], Anchor::Left, number, SMALL, Ink::Text);
    }
}

/// The seats of names in rows; `shown` says which words take the room.
fn seats(
    drawing: &Drawing,
    rows: &[f32],
    mut names: Vec<Name>,
    shown: impl Fn(&str) -> String,
) -> Vec<Seat> {
    let [width, height] = drawing.size;
    let is_inside = |[x, y]: Point| (0.0..=width).contains(&x) && (0.0..=height).contains(&y);
    names.retain(|(target, _)| is_inside(*target));
    names.sort_by(|one, other| one.0[0].total_cmp(&other.0[0]));
    let mut free_from = vec![EDGE; rows.len()];
    let mut seats = Vec::new();
    for (target, text) in names {
        let short = text.split(':').next().unwrap_or_default().to_owned();
        let tries = [text, short];
        let seat = tries.iter().find_map(|name| {
            let text = shown(name);
            let free = free_from.iter().zip(rows).enumerate();
            free.filter_map(|(row, (free_from, y))| {
                seated(target, &text, [*free_from, *y], width).map(|seat| (row, seat))
            })
            .next()
            .map(|(row, seat)| {
                (
                    row,
                    Seat {
                        name: name.clone(),
                        ..seat
                    },
                )
            })
        });
        if let Some((row, seat)) = seat {
            free_from[row] = seat.at[0] + seat.half + BETWEEN;
            seats.push(seat);
        }
    }
    seats
}

/// The line from a name to what it points at.
fn leader(drawing: &mut Drawing, seat: &Seat) {
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
    name: String,
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
        name: String::new(),
    })
}
