//! A plain chart over the time since the grain entered: frame, ticks, lines that end at the frame, and names beside them.

use super::places::{LINE, Part};
use crate::{
    charts::plain_number_or_zero,
    drawing::{Anchor, Drawing, Item, Point, text_width},
    plan::nice_below,
    theme::{Ink, SMALL},
};

/// Height of a name beside the chart.
const NAME: f32 = 15.0;
/// Room above for the title and below for the times.
const TITLE: f32 = 22.0;
const TIMES: f32 = 20.0;
/// A chart has one more row of its key for each so much of its height.
const KEY_ROW_PER: f32 = 130.0;

/// How a line is drawn.
#[derive(Clone, Copy)]
pub(super) struct Stroke {
    pub(super) ink: Ink,
    pub(super) width: f32,
    pub(super) dash: Option<(f32, f32)>,
}

/// An entry of the key: a line or, without one, a dot.
pub(super) type Entry<'a> = (Option<Stroke>, &'a str);

/// A chart.
pub(super) struct Chart {
    min: Point,
    max: Point,
    last_s: f64,
    full: f64,
}

impl Chart {
    /// A chart in a part of the drawing up to these values, with at least so much room to the left for its numbers and
    /// so much to the right for names.
    pub(super) fn new(
        drawing: &mut Drawing,
        ([left, top], [right, bottom]): Part,
        (last_s, full): (f64, f64),
        (numbers, names): (f32, f32),
    ) -> Self {
        let (top, bottom) = (top + TITLE, bottom - TIMES);
        let rows = f64::from(((bottom - top) / 30.0).floor().clamp(2.0, 6.0));
        let step = nice_above(full / rows);
        let texts: Vec<(f64, String)> = (0..)
            .map(|count| f64::from(count) * step)
            .take_while(|mark| *mark <= full * 1.0001)
            .map(|mark| (mark, tick(mark)))
            .collect();
        let widths = texts.iter().map(|(_, text)| text_width(text, SMALL, false));
        let left = left + widths.fold(numbers, f32::max) + 6.0;
        let chart = Self {
            min: [left, top],
            max: [right - names, bottom],
            last_s,
            full,
        };
        for (mark, text) in texts {
            let y = chart.y(mark);
            drawing.line([[left, y], [chart.max[0], y]], Ink::Rule, 1.0);
            drawing.text([left - 6.0, y], Anchor::Right, text, SMALL, Ink::Faint);
        }
        chart.times(drawing);
        chart
    }

    /// Times below the frame; the unit stands at the last.
    fn times(&self, drawing: &mut Drawing) {
        let ([left, top], [right, bottom]) = (self.min, self.max);
        drawing.line(
            [[left, top], [left, bottom], [right, bottom]],
            Ink::Faint,
            1.0,
        );
        let marks = f64::from(((right - left) / 46.0).floor().clamp(1.0, 8.0));
        let step_s = nice_above(self.last_s / marks);
        let count = (self.last_s / step_s * 1.0001).floor() as u32;
        for index in 0..=count {
            let mark_s = f64::from(index) * step_s;
            let x = self.x(mark_s);
            drawing.line([[x, bottom], [x, bottom + 4.0]], Ink::Faint, 1.0);
            let number = plain_number_or_zero(mark_s);
            let (y, ink) = (bottom + 13.0, Ink::Faint);
            if index == count {
                let start = x - 0.5 * text_width(&number, SMALL, false);
                let text = format!("{number} s");
                drawing.text([start, y], Anchor::Left, text, SMALL, ink);
            } else {
                drawing.text([x, y], Anchor::Centre, number, SMALL, ink);
            }
        }
    }

    fn x(&self, time_s: f64) -> f32 {
        self.min[0] + (time_s / self.last_s) as f32 * (self.max[0] - self.min[0])
    }

    fn y(&self, value: f64) -> f32 {
        self.max[1] - (value / self.full) as f32 * (self.max[1] - self.min[1])
    }

    /// A line; nothing of it is drawn above the frame.
    pub(super) fn line(
        &self,
        drawing: &mut Drawing,
        points: impl Iterator<Item = (f64, f64)>,
        stroke: Stroke,
    ) {
        let mut piece: Vec<Point> = Vec::new();
        let mut before: Option<(Point, bool)> = None;
        for (time_s, value) in points {
            let at = [self.x(time_s), self.y(value)];
            let inside = value <= self.full;
            if let Some((from, was_inside)) = before {
                if was_inside != inside {
                    // Where it crosses the top of the frame.
                    let part = (self.min[1] - from[1]) / (at[1] - from[1]);
                    piece.push([from[0] + part * (at[0] - from[0]), self.min[1]]);
                } else if inside && at[0] - from[0] < 0.8 {
                    continue;
                }
            }
            if inside {
                piece.push(at);
            } else {
                stroke.push(drawing, &mut piece);
            }
            before = Some((at, inside));
        }
        stroke.push(drawing, &mut piece);
    }

    /// Dots some way apart, the last one larger.
    pub(super) fn dots(&self, drawing: &mut Drawing, points: &[(f64, f64)], ink: Ink) {
        let mut before: Option<Point> = None;
        for (index, (time_s, value)) in points.iter().enumerate() {
            let at = [self.x(*time_s), self.y(*value)];
            let last = index + 1 == points.len();
            let near = |from: Point| (at[0] - from[0]).hypot(at[1] - from[1]) < 8.0;
            if *value > self.full || (!last && before.is_some_and(near)) {
                continue;
            }
            if last {
                drawing.dot(at, 6.0, Ink::Ground);
            }
            drawing.dot(at, if last { 4.5 } else { 2.2 }, ink);
            before = Some(at);
        }
    }

    /// Names to the right of the frame, each beside the end of its line, apart from each other.
    pub(super) fn names(&self, drawing: &mut Drawing, end_s: f64, names: &mut [(f64, Name<'_>)]) {
        names.sort_by(|a, b| b.0.total_cmp(&a.0));
        let wanted: Vec<f32> = names
            .iter()
            .map(|(value, _)| self.y(value.min(self.full)))
            .collect();
        let mut at = wanted.clone();
        for index in 1..at.len() {
            at[index] = at[index].max(at[index - 1] + NAME);
        }
        // Those pushed below the frame push the others up again.
        let mut lowest = self.max[1] - 4.0;
        for y in at.iter_mut().rev() {
            *y = y.min(lowest);
            lowest = *y - NAME;
        }
        let from = self.x(end_s);
        for (((_, name), y), end) in names.iter().zip(at).zip(wanted) {
            let x = self.max[0] + 10.0;
            let corner = [(from + 6.0).min(self.max[0]), end];
            drawing.line(
                [corner, [self.max[0] + 1.0, y], [x - 2.0, y]],
                Ink::Rule,
                1.0,
            );
            if name.bold {
                drawing.bold([x, y], Anchor::Left, name.text, SMALL, name.ink);
            } else {
                drawing.text([x, y], Anchor::Left, name.text, SMALL, name.ink);
            }
        }
    }

    /// The title, and the key beside it, in a second row where one is too short; the part that is left below, and how many entries
    /// of the key there was room for.
    pub(super) fn title(
        drawing: &mut Drawing,
        ([left, top], [right, bottom]): Part,
        words: &str,
        key: &[Entry<'_>],
    ) -> (Part, usize) {
        let mut y = top + 8.0;
        let last_row = top + 8.0 + LINE * ((bottom - top) / KEY_ROW_PER).floor().clamp(0.0, 2.0);
        let mut shown = 0;
        drawing.bold([left, y], Anchor::Left, words, SMALL, Ink::Text);
        let mut x = left + text_width(words, SMALL, true) + 16.0;
        for (stroke, text) in key {
            let mark = if stroke.is_some() { 22.0 } else { 8.0 };
            let wide = mark + 6.0 + text_width(text, SMALL, false);
            if x + wide > right {
                if y + LINE > last_row + 1.0 || left + wide > right {
                    break;
                }
                (x, y) = (left, y + LINE);
            }
            match stroke {
                Some(stroke) => stroke.push(drawing, &mut vec![[x, y], [x + mark, y]]),
                None => drawing.dot([x + 4.0, y], 3.0, Ink::Dust),
            }
            drawing.text([x + mark + 6.0, y], Anchor::Left, *text, SMALL, Ink::Text);
            x += wide + 14.0;
            shown += 1;
        }
        (([left, y - 8.0], [right, bottom]), shown)
    }
}

/// A name beside a line.
#[derive(Clone, Copy)]
pub(super) struct Name<'a> {
    pub(super) text: &'a str,
    pub(super) ink: Ink,
    pub(super) bold: bool,
}

impl Stroke {
    fn push(self, drawing: &mut Drawing, piece: &mut Vec<Point>) {
        let points = std::mem::take(piece);
        if points.len() > 1 {
            drawing.items.push(Item::Line {
                points,
                ink: self.ink,
                width: self.width,
                dash: self.dash,
            });
        }
    }
}

/// A time axis that holds this time, and grows in steps.
pub(super) fn time_axis_s(last_s: f64) -> f64 {
    let wanted = 1.04 * last_s.max(0.1);
    let step = nice_below(0.3 * wanted);
    step * (wanted / step).ceil()
}

/// The smallest of 1, 2, 5 times a power of ten that is not below `value`.
pub(super) fn nice_above(value: f64) -> f64 {
    let below = nice_below(value);
    if below >= 0.999 * value {
        below
    } else {
        // 2 after 1, 5 after 2, 10 after 5.
        nice_below(2.51 * below)
    }
}

/// A number at a tick, thousands of it apart.
fn tick(value: f64) -> String {
    if value >= 1e4 {
        super::grouped(value)
    } else {
        plain_number_or_zero(value)
    }
}
