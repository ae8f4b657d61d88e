//! Names in rows with leader lines to what they point at.

use super::{Anchor, Drawing, Point, text_width};
use crate::theme::{Ink, SMALL};

/// Room between two names in a row.
const BETWEEN: f32 = 14.0;
/// How far a name may stand from what it points at, points.
const FAR: f32 = 90.0;

/// What is pointed at, and its name; behind a colon more words, which are left out where there is no room.
pub(crate) type Name = (Point, String);

/// Rows of names, each with the height of its middle: as near to what they point at as there is room.
pub(crate) fn rows_of_names(drawing: &mut Drawing, rows: Vec<(f32, Vec<Name>)>) {
    let width = drawing.size[0];
    let seats: Vec<Seat> = rows
        .into_iter()
        .flat_map(|(y, names)| seated(names, y, width))
        .collect();
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

/// A name at its place.
struct Seat {
    at: Point,
    half: f32,
    target: Point,
    text: String,
}

/// Names side by side in a row, each as near to what it points at as there is room, in short where the long form has none;
/// those that find none are left out.
fn seated(names: Vec<Name>, y: f32, width: f32) -> Vec<Seat> {
    let mut free_from = 10.0_f32;
    let mut seats = Vec::new();
    for (target, text) in names {
        let short = text.split(':').next().unwrap_or_default().to_owned();
        for text in [text, short] {
            let half = 0.5 * text_width(&text, SMALL, false);
            let centre = target[0].max(free_from + half).min(width - 10.0 - half);
            let near = (centre - target[0]).abs() < half + FAR;
            if centre - half >= free_from - 0.5 && near {
                free_from = centre + half + BETWEEN;
                seats.push(Seat {
                    at: [centre, y],
                    half,
                    target,
                    text,
                });
                break;
            }
        }
    }
    seats
}
