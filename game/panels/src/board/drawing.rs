//! The panel as a figure: its values, and beside or below them its trends, for the window, a file or print.

use super::{
    BoardView, alarms,
    table::{HEAD, SIDE, table, table_height, table_width},
    trends::{lowest, trends_drawing},
    values::{Row, field_rows, gas_rows},
};
use crate::{
    drawing::{Anchor, Drawing, Point},
    theme::{BODY, Ink},
};

/// Height of the heading, and between the two tables.
const HEADING: f32 = 26.0;
const GAP: f32 = 12.0;
/// Narrowest trends beside the values, and the share of the width that they take then.
const TRENDS: f32 = 250.0;
const SHARE: f32 = 0.4;

/// Rows of both tables with their heads.
struct Tables {
    fields: (Vec<String>, Vec<Row>),
    gas: (Vec<String>, Vec<Row>),
}

impl Tables {
    fn of(view: &BoardView<'_>) -> Self {
        let conditions = view.machine.conditions;
        let fields = (0..view.machine.fields.len()).map(|field| conditions.field_title(field));
        let ends = ["inlet duct", "outlet duct", "stack"].map(ToOwned::to_owned);
        Self {
            fields: (fields.collect(), field_rows(view)),
            gas: (ends.to_vec(), gas_rows(view)),
        }
    }

    fn height(&self) -> f32 {
        HEADING + table_height(&self.fields.1) + GAP + table_height(&self.gas.1) + 4.0
    }

    /// Width of the values where trends have room beside them.
    fn beside(&self, width: f32) -> Option<f32> {
        let values = (1.0 - SHARE) * width;
        let has_room = values >= table_width(self.fields.0.len()) && width - values >= TRENDS;
        has_room.then_some(values)
    }
}

/// Height of values and trends in this width.
pub(super) fn needed(view: &BoardView<'_>, width: f32) -> f32 {
    let tables = Tables::of(view);
    match tables.beside(width) {
        Some(_) => tables.height().max(lowest(view)),
        None => tables.height() + GAP + lowest(view),
    }
}

/// Values and trends in a drawing of this size; what has no room below is left out.
pub(super) fn values_and_trends(view: &BoardView<'_>, size: Point) -> Drawing {
    let mut drawing = Drawing::new(size);
    let tables = Tables::of(view);
    let beside = tables.beside(size[0]);
    let width = beside.unwrap_or(size[0]);
    drawing.bold([SIDE, 14.0], Anchor::Left, "Readings", BODY, Ink::Text);
    let (heads, rows) = &tables.fields;
    let below = table(&mut drawing, (HEADING, width), heads, rows);
    let (heads, rows) = &tables.gas;
    let below = table(&mut drawing, (below + GAP, width), heads, rows);
    let (at, room) = match beside {
        Some(width) => ([width, 2.0], [size[0] - width - SIDE, size[1] - 2.0]),
        None => (
            [SIDE, below + GAP],
            [size[0] - 2.0 * SIDE, size[1] - below - GAP],
        ),
    };
    if room[1] + 1.0 >= lowest(view) && room[0] >= HEAD {
        let trends = trends_drawing(view, room);
        drawing
            .items
            .extend(trends.items.into_iter().map(|item| item.moved(at)));
    }
    drawing
}

/// The whole panel in a drawing of this size, for a file or for print.
#[must_use]
pub fn drawing(view: &BoardView<'_>, size: Point) -> Drawing {
    let mut drawing = alarms::drawing(view, size[0]);
    let top = drawing.size[1];
    drawing.size = size;
    let below = values_and_trends(view, [size[0], size[1] - top]);
    drawing
        .items
        .extend(below.items.into_iter().map(|item| item.moved([0.0, top])));
    drawing
}
