//! A plot with two straight axes: ticks that never collide, curves cut at the frame, labels that stand beside it.

use ashlane_shared::units::number_text;

use crate::{
    drawing::{Anchor, Drawing, Point, text_width},
    plan::nice_above,
    theme::{Ink, SMALL},
};

/// Least distance of two lines of small text.
const LINE: f32 = 16.0;
/// Room of a number along the axis to the right, with air beside it.
const NUMBER: f32 = 38.0;

/// The frame of a plot and the values at its edges.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Linear {
    /// Top left.
    pub(crate) min: Point,
    /// Bottom right.
    pub(crate) max: Point,
    /// Values at the left and the right.
    pub(crate) x: (f64, f64),
    /// Values at the bottom and the top.
    pub(crate) y: (f64, f64),
}

/// A text beside the frame that belongs to a height in it.
#[derive(Clone, Debug)]
pub(crate) struct SideLabel {
    /// Value on the axis upwards.
    pub(crate) value: f64,
    /// The words.
    pub(crate) text: String,
    /// Colour of the line to them.
    pub(crate) ink: Ink,
}

impl Linear {
    /// Place of a value along the axis to the right.
    pub(crate) fn at_x(&self, value: f64) -> f32 {
        let part = (value - self.x.0) / (self.x.1 - self.x.0);
        self.min[0] + part as f32 * (self.max[0] - self.min[0])
    }

    /// Height of a value, kept within the frame.
    pub(crate) fn at_y(&self, value: f64) -> f32 {
        let part = (value - self.y.0) / (self.y.1 - self.y.0);
        self.max[1] - part.clamp(0.0, 1.0) as f32 * (self.max[1] - self.min[1])
    }

    /// Grid lines with their numbers on the left, and the two axes.
    pub(crate) fn upward(&self, drawing: &mut Drawing) {
        let ([left, top], [right, bottom]) = (self.min, self.max);
        let most = f64::from(((bottom - top) / (1.3 * LINE)).floor().clamp(1.0, 6.0));
        for value in marks(self.y, most) {
            let y = self.at_y(value);
            drawing.line([[left, y], [right, y]], Ink::Rule, 1.0);
            let text = number_text(value, 3);
            drawing.text([left - 5.0, y], Anchor::Right, text, SMALL, Ink::Faint);
        }
        drawing.line(
            [[left, top], [left, bottom], [right, bottom]],
            Ink::Faint,
            1.0,
        );
    }

    /// Ticks with their numbers below, and what they are at the right end where that leaves the numbers free.
    pub(crate) fn rightward(&self, drawing: &mut Drawing, name: &str) {
        let ([left, _], [right, bottom]) = (self.min, self.max);
        let named = text_width(name, SMALL, false);
        let free = right - named - 12.0;
        let most = f64::from(((free - left) / NUMBER).floor().clamp(1.0, 8.0));
        for value in marks(self.x, most) {
            let x = self.at_x(value);
            drawing.line([[x, bottom], [x, bottom + 4.0]], Ink::Faint, 1.0);
            let text = number_text(value, 3);
            if x + 0.5 * text_width(&text, SMALL, false) <= free {
                drawing.text([x, bottom + 12.0], Anchor::Centre, text, SMALL, Ink::Faint);
            }
        }
        drawing.text(
            [right, bottom + 12.0],
            Anchor::Right,
            name,
            SMALL,
            Ink::Faint,
        );
    }

    /// A curve, cut where it leaves the frame upwards or to the right.
    pub(crate) fn curve(&self, points: impl Iterator<Item = (f64, f64)>) -> Vec<Point> {
        let mut line: Vec<Point> = Vec::new();
        let mut before: Option<(f64, f64)> = None;
        for (x, y) in points {
            let mut part = 1.0_f64;
            if let Some((from_x, from_y)) = before {
                if y > self.y.1 {
                    part = part.min((self.y.1 - from_y) / (y - from_y));
                }
                if x > self.x.1 {
                    part = part.min((self.x.1 - from_x) / (x - from_x));
                }
                let (x, y) = (from_x + part * (x - from_x), from_y + part * (y - from_y));
                line.push([self.at_x(x), self.at_y(y)]);
            } else if x <= self.x.1 && y <= self.y.1 {
                line.push([self.at_x(x), self.at_y(y)]);
            } else {
                break;
            }
            if part < 1.0 {
                break;
            }
            before = Some((x, y));
        }
        line
    }

    /// Words to the right of the frame, each joined to its height, moved apart where they would run together.
    pub(crate) fn beside(&self, drawing: &mut Drawing, mut labels: Vec<SideLabel>) {
        labels.sort_by(|a, b| b.value.total_cmp(&a.value));
        let [right, bottom] = self.max;
        let mut heights: Vec<f32> = Vec::with_capacity(labels.len());
        for label in &labels {
            let least = heights.last().map_or(self.min[1], |last| last + LINE);
            heights.push(self.at_y(label.value).max(least));
        }
        let mut most = bottom - 2.0;
        for height in heights.iter_mut().rev() {
            *height = height.min(most);
            most = *height - LINE;
        }
        for (label, height) in labels.into_iter().zip(heights) {
            let from = [right, self.at_y(label.value)];
            drawing.line(
                [from, [right + 8.0, height], [right + 12.0, height]],
                label.ink,
                1.0,
            );
            drawing.text(
                [right + 15.0, height],
                Anchor::Left,
                label.text,
                SMALL,
                Ink::Text,
            );
        }
    }
}

/// Room that words beside a frame need.
pub(crate) fn room_beside(labels: &[SideLabel]) -> f32 {
    let widest = labels
        .iter()
        .map(|label| text_width(&label.text, SMALL, false))
        .fold(0.0, f32::max);
    widest + 17.0
}

/// Round values between two, about `most` of them.
fn marks((from, to): (f64, f64), most: f64) -> impl Iterator<Item = f64> {
    let step = nice_above((to - from) / most);
    let first = (from / step - 1e-6).ceil();
    (0..)
        .map(move |count| (first + f64::from(count)) * step)
        .take_while(move |value| *value <= to + 1e-6 * step)
}
