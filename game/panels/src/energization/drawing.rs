//! The whole figure: heading, voltage and current over time, the half cycles and the table of readings.

use ashlane_shared::units::Dimension;

use super::{EnergizationView, cycle, readings, trace};
use crate::{
    drawing::{Anchor, Drawing, Point, fitting, text_width},
    theme::{BODY, Ink, SMALL},
};

/// Room at the edges and between the parts.
const EDGE: f32 = 10.0;
const BETWEEN: f32 = 18.0;
/// Height of a line of the heading.
const LINE: f32 = 17.0;
/// From this width on there is a second column, and its widths.
const TWO_COLUMNS: f32 = 480.0;
const SECOND: (f32, f32) = (196.0, 400.0);
/// Least width of the half cycles and of the table side by side, and least height of the half cycles.
const SIDE_BY_SIDE: f32 = 200.0;
const LOWEST_CYCLE: f32 = 100.0;

/// Draws the view in a drawing of this size.
#[must_use]
pub fn drawing(view: &EnergizationView<'_>, size: Point) -> Drawing {
    let mut drawing = Drawing::new(size);
    let top = heading(&mut drawing, view);
    let [width, height] = size;
    let bottom = height - 4.0;
    let second = second_column(size, top);
    let Some(second) = second else {
        let corners = [[EDGE, top], [width - EDGE, bottom]];
        trace::charts(&mut drawing, view, corners);
        return drawing;
    };
    let left = width - EDGE - second;
    trace::charts(&mut drawing, view, [[EDGE, top], [left - BETWEEN, bottom]]);
    let tall = readings::rows_count(view) as f32 * readings::ROW;
    let room = bottom - top;
    if second >= 2.0 * SIDE_BY_SIDE && room < tall + LOWEST_CYCLE + BETWEEN {
        let middle = left + 0.5 * second;
        let table = [[middle + 0.5 * BETWEEN, top], [width - EDGE, bottom]];
        readings::table(&mut drawing, view, table);
        cycle::chart(
            &mut drawing,
            view,
            [[left, top], [middle - 0.5 * BETWEEN, bottom]],
        );
        return drawing;
    }
    let rows = tall.min(room - LOWEST_CYCLE - BETWEEN);
    let rows = (rows / readings::ROW).floor() * readings::ROW;
    let parted = top + rows;
    readings::table(
        &mut drawing,
        view,
        [[left, top], [width - EDGE, parted + 1.0]],
    );
    let cycles = [
        [left, parted + 8.0],
        [width - EDGE, bottom.min(parted + 8.0 + second + 60.0)],
    ];
    cycle::chart(&mut drawing, view, cycles);
    drawing
}

/// Width of the second column, if there is room for one.
fn second_column([width, height]: Point, top: f32) -> Option<f32> {
    if width < TWO_COLUMNS {
        return None;
    }
    // A low and wide drawing has table and half cycles side by side.
    let share = if height - top < 330.0 && width >= 700.0 {
        return Some((0.58 * width).max(2.0 * SIDE_BY_SIDE));
    } else {
        0.36
    };
    Some((share * width).clamp(SECOND.0, SECOND.1))
}

/// Name, state and what this is not; the height at which the rest begins.
fn heading(drawing: &mut Drawing, view: &EnergizationView<'_>) -> f32 {
    let room = drawing.size[0] - 2.0 * EDGE;
    let state = &view.energization.state;
    let name = format!("Electrical set of {}", view.name);
    drawing.bold([EDGE, 13.0], Anchor::Left, name.as_str(), BODY, Ink::Text);
    let held = view.held();
    let left = room - text_width(&name, BODY, true) - 14.0;
    if text_width(held, SMALL, false) <= left {
        let right = [drawing.size[0] - EDGE, 13.0];
        drawing.text(right, Anchor::Right, held, SMALL, Ink::Text);
    }
    let volts = |voltage_v| view.text(voltage_v, Dimension::Voltage);
    let mean = volts(state.voltage_v);
    let peak = volts(state.peak_voltage_v);
    let density = view.text(state.current_density_a_m2, Dimension::CurrentDensity);
    let texts = [
        format!("mean {mean} · peak {peak} · {density} mean on the plates"),
        format!("mean {mean} · peak {peak} · {density}"),
        format!("mean {mean} · peak {peak}"),
    ];
    let numbers = fitting(&texts, room);
    let y = 14.0 + LINE;
    drawing.text([EDGE, y], Anchor::Left, numbers, SMALL, Ink::HighVoltage);
    let notes = [
        "teaching set, invented rating: not a setting recommendation".to_owned(),
        "invented set: not a setting recommendation".to_owned(),
    ];
    let beside = room - text_width(numbers, SMALL, false) - 20.0;
    let note = fitting(&notes, room);
    if text_width(note, SMALL, false) <= beside {
        let right = [drawing.size[0] - EDGE, y];
        drawing.text(right, Anchor::Right, note, SMALL, Ink::Faint);
        return y + 16.0;
    }
    let place = [EDGE, y + LINE];
    drawing.text(place, Anchor::Left, note, SMALL, Ink::Faint);
    y + LINE + 16.0
}
