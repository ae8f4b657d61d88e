//! The board as a figure: two grey tables, fields above and gas below.

use super::{Row, field_rows, gas_rows};
use crate::{
    drawing::{Anchor, Drawing, Point, text_width},
    elevation::ElevationView,
    theme::{BODY, Ink, SMALL},
};

/// Room at the sides, height of a row, room for the names of the rows.
const SIDE: f32 = 14.0;
const ROW: f32 = 26.0;
const NAMES: f32 = 128.0;
/// Widest column of a field.
const COLUMN: f32 = 190.0;

/// The board in a drawing of this size.
#[must_use]
pub fn drawing(view: &ElevationView<'_>, size: Point) -> Drawing {
    let mut drawing = Drawing::new(size);
    drawing.bold(
        [SIDE, 15.0],
        Anchor::Left,
        "Readings board",
        BODY,
        Ink::Text,
    );
    let fields: Vec<String> = (0..view.fields.len())
        .map(|field| view.conditions.field_title(field))
        .collect();
    let below = table(&mut drawing, 34.0, &fields, &field_rows(view));
    let ends = ["inlet duct".to_owned(), "outlet duct".to_owned()];
    table(&mut drawing, below + 16.0, &ends, &gas_rows(view));
    drawing
}

/// A table from a height on; returns where it ends.
fn table(drawing: &mut Drawing, top: f32, heads: &[String], rows: &[Row]) -> f32 {
    let room = drawing.size[0] - 2.0 * SIDE - NAMES;
    let column = (room / heads.len().max(1) as f32).min(COLUMN);
    let right = SIDE + NAMES + column * heads.len() as f32;
    let middle = |index: usize| SIDE + NAMES + column * (index as f32 + 0.5);
    if top + 1.5 * ROW > drawing.size[1] {
        return top;
    }
    for (index, head) in heads.iter().enumerate() {
        let short = head.rsplit(' ').next().unwrap_or_default();
        let text = if text_width(head, SMALL, true) < column - 6.0 {
            head.as_str()
        } else {
            short
        };
        if text_width(text, SMALL, true) < column {
            drawing.bold([middle(index), top], Anchor::Centre, text, SMALL, Ink::Text);
        }
    }
    for (line, row) in rows.iter().enumerate() {
        let y = top + ROW * (line as f32 + 1.0);
        if y + 0.5 * ROW > drawing.size[1] {
            return y;
        }
        let (min, max) = ([SIDE, y - 0.5 * ROW + 1.0], [right, y + 0.5 * ROW - 1.0]);
        drawing.rect(min, max, Ink::Panel, 1.0);
        let inside = [SIDE + 8.0, y];
        drawing.text(inside, Anchor::Left, row.name, SMALL, Ink::Faint);
        for (index, cell) in row.cells.iter().enumerate() {
            // Of a cell that has no room the first word.
            let word = cell.split([' ', ',']).next().unwrap_or_default();
            let fits = |text: &&str| text_width(text, SMALL, false) < column - 4.0;
            if let Some(text) = [cell.as_str(), word].iter().find(|text| fits(text)) {
                drawing.text([middle(index), y], Anchor::Centre, *text, SMALL, Ink::Text);
            }
        }
    }
    top + ROW * (rows.len() as f32 + 1.0)
}
