//! Rows of values as a grey table with small bars.

use super::{Bar, Cell, Row};
use crate::{
    drawing::{Anchor, Drawing, text_width},
    theme::{Ink, SMALL},
};

/// Room at the sides, heights of rows with and without bars, room for the names of the rows.
pub(super) const SIDE: f32 = 12.0;
const ROW: f32 = 23.0;
const BARRED: f32 = 34.0;
const NAMES: f32 = 124.0;
/// Widest column.
const COLUMN: f32 = 170.0;
/// Length of a bar over that of its column, its height, its distance from the middle of its row.
const BAR: f32 = 0.8;
const THICK: f32 = 5.0;
const BELOW: f32 = 9.0;
/// From the middle of the row up to its text.
const ABOVE: f32 = 6.0;
/// Height of the heads.
pub(super) const HEAD: f32 = 20.0;

/// Height of a row.
fn height(row: &Row) -> f32 {
    if row.tick.is_some() { BARRED } else { ROW }
}

/// Height of a table with these rows.
pub(super) fn table_height(rows: &[Row]) -> f32 {
    HEAD + rows.iter().map(height).sum::<f32>()
}

/// Narrowest room in which a table with so many columns shows its numbers.
pub(super) fn table_width(columns: usize) -> f32 {
    2.0 * SIDE + NAMES + 76.0 * columns as f32
}

/// A table in the left `width` of a drawing from a height on, as far as it goes down; returns where it ends.
pub(super) fn table(
    drawing: &mut Drawing,
    (top, width): (f32, f32),
    heads: &[String],
    rows: &[Row],
) -> f32 {
    let room = width - 2.0 * SIDE - NAMES;
    let column = (room / heads.len().max(1) as f32).min(COLUMN);
    let right = SIDE + NAMES + column * heads.len() as f32;
    let middle = |index: usize| SIDE + NAMES + column * (index as f32 + 0.5);
    if top + HEAD + BARRED > drawing.size[1] {
        return top;
    }
    for (index, head) in heads.iter().enumerate() {
        let short = head.rsplit(' ').next().unwrap_or_default();
        let fits = |text: &&str| text_width(text, SMALL, true) < column - 4.0;
        if let Some(text) = [head.as_str(), short].iter().find(|text| fits(text)) {
            let at = [middle(index), top + 0.5 * HEAD];
            drawing.bold(at, Anchor::Centre, *text, SMALL, Ink::Text);
        }
    }
    let mut y = top + HEAD;
    for row in rows {
        let height = height(row);
        if y + height > drawing.size[1] {
            return y;
        }
        drawing.rect([SIDE, y + 1.0], [right, y + height - 1.0], Ink::Panel, 1.0);
        let centre = y + 0.5 * height;
        names(drawing, row, centre);
        for (index, cell) in row.cells.iter().enumerate() {
            value(drawing, cell, [middle(index), centre], column);
        }
        y += height;
    }
    y
}

/// The name of a row, and below it what the tick of its bars is.
fn names(drawing: &mut Drawing, row: &Row, y: f32) {
    let x = SIDE + 8.0;
    let Some(tick) = row.tick else {
        drawing.text([x, y], Anchor::Left, row.name, SMALL, Ink::Text);
        return;
    };
    drawing.text(
        [x, y - ABOVE - 1.0],
        Anchor::Left,
        row.name,
        SMALL,
        Ink::Text,
    );
    let low = y + BELOW - 1.0;
    drawing.line([[x + 2.0, low - 5.0], [x + 2.0, low + 5.0]], Ink::Text, 2.0);
    drawing.text([x + 9.0, low], Anchor::Left, tick, SMALL, Ink::Faint);
}

fn value(drawing: &mut Drawing, cell: &Cell, [x, y]: [f32; 2], column: f32) {
    let up = if cell.bar.is_some() { ABOVE } else { 0.0 };
    // Of a cell that has no room the first word.
    let word = cell.text.split([' ', ',']).next().unwrap_or_default();
    let fits = |text: &&str| text_width(text, SMALL, false) < column - 4.0;
    if let Some(text) = [cell.text.as_str(), word].iter().find(|text| fits(text)) {
        drawing.text([x, y - up], Anchor::Centre, *text, SMALL, Ink::Text);
    }
    if let Some(bar) = cell.bar {
        let half = 0.5 * BAR * column;
        draw_bar(
            drawing,
            bar,
            ([x - half, y + BELOW - 0.5 * THICK], 2.0 * half),
        );
    }
}

/// A bar of this length from its top left corner on.
fn draw_bar(drawing: &mut Drawing, bar: Bar, ([x, y], length): ([f32; 2], f32)) {
    let end = |share: f64| x + length * share as f32;
    drawing.rect([x, y], [x + length, y + THICK], Ink::Rule, 0.5);
    drawing.rect([x, y], [end(bar.share), y + THICK], Ink::Metal, 1.0);
    let mark = end(bar.mark);
    drawing.line([[mark, y - 2.5], [mark, y + THICK + 2.5]], Ink::Text, 2.0);
}
