//! Axes of a chart: a logarithmic one for penetration, and frames, ticks and grid lines for both.

use crate::{
    drawing::{Anchor, Drawing, Point, text_width},
    theme::{BODY, Ink, SMALL},
};

/// A share as a percentage with three significant digits, as people read it: 0.338 %, 12.4 %, 0.0071 %.
pub(crate) fn percent_text(share: f64) -> String {
    if share <= 0.0 {
        return "0 %".to_owned();
    }
    format!("{} %", plain_number(100.0 * share))
}

/// Efficiency with as many digits as the penetration has.
pub(crate) fn percent_of_caught(penetration: f64) -> String {
    let decimals =
        (2 - (100.0 * penetration.max(1e-7)).log10().floor() as i32).clamp(1, 6) as usize;
    format!("{:.decimals$} %", 100.0 * (1.0 - penetration))
}

/// Three significant digits without an exponent where that is short, else with one.
pub(crate) fn plain_number(value: f64) -> String {
    let size = value.abs().log10().floor() as i32;
    if size < -5 {
        return format!("{value:.1e}");
    }
    let decimals = (2 - size).clamp(0, 7) as usize;
    let text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// Efficiency beside a penetration of this power of ten: 0 %, 90 %, 99 %, 99.9 %.
fn efficiency_text(exponent: i32) -> String {
    let decimals = (-exponent - 2).max(0) as usize;
    format!("{:.decimals$} %", 100.0 - 100.0 * 10_f64.powi(exponent))
}

/// Rows that stand below a frame with the efficiency, and their height.
const KEY_ROWS: f32 = 2.0;
const KEY_ROW: f32 = 18.0;

/// Frame of a chart with a logarithmic axis of penetration upwards.
pub(super) struct Frame {
    pub(super) min: Point,
    pub(super) max: Point,
    /// Lowest decade, as its exponent.
    pub(super) low: i32,
    /// Along the other axis.
    pub(super) from: f64,
    pub(super) to: f64,
}

impl Frame {
    /// A frame in a drawing of this size, with the title above and room for the axis texts.
    pub(super) fn new(
        drawing: &mut Drawing,
        title: &str,
        low: i32,
        (from, to): (f64, f64),
    ) -> Self {
        let [width, height] = drawing.size;
        let frame = Self {
            min: [54.0, 30.0],
            max: [width - 12.0, height - 40.0],
            low,
            from,
            to,
        };
        drawing.bold([2.0, 12.0], Anchor::Left, title, BODY, Ink::Text);
        frame.draw(drawing);
        frame
    }

    /// The same with the efficiency on the right, beside the penetration on the left.
    pub(super) fn with_efficiency(
        drawing: &mut Drawing,
        title: &str,
        low: i32,
        (from, to): (f64, f64),
    ) -> Self {
        let [width, height] = drawing.size;
        let right = text_width(&efficiency_text(low), SMALL, false);
        let below = KEY_ROWS * KEY_ROW;
        let frame = Self {
            min: [54.0, 50.0],
            max: [width - right - 12.0, height - 40.0 - below],
            low,
            from,
            to,
        };
        drawing.bold([2.0, 12.0], Anchor::Left, title, BODY, Ink::Text);
        drawing.text([2.0, 32.0], Anchor::Left, "penetration", SMALL, Ink::Faint);
        let at = [width - 4.0, 32.0];
        drawing.text(at, Anchor::Right, "efficiency", SMALL, Ink::Faint);
        frame.draw(drawing);
        let every = frame.every();
        for exponent in (low..=0).filter(|exponent| exponent % every == 0) {
            let at = [frame.max[0] + 6.0, frame.y(10_f64.powi(exponent))];
            let text = efficiency_text(exponent);
            drawing.text(at, Anchor::Left, text, SMALL, Ink::Faint);
        }
        frame
    }

    /// How many decades from one number to the next.
    fn every(&self) -> i32 {
        if -self.low > 6 { 2 } else { 1 }
    }

    fn draw(&self, drawing: &mut Drawing) {
        let ([left, top], [right, bottom]) = (self.min, self.max);
        let every = self.every();
        for exponent in self.low..=0 {
            let y = self.y(10_f64.powi(exponent));
            drawing.line([[left, y], [right, y]], Ink::Rule, 1.0);
            if exponent % every == 0 {
                let text = percent_text(10_f64.powi(exponent));
                drawing.text([left - 6.0, y], Anchor::Right, text, SMALL, Ink::Faint);
            }
        }
        drawing.line(
            [[left, top], [left, bottom], [right, bottom]],
            Ink::Faint,
            1.0,
        );
    }

    /// Height of a penetration; below the lowest decade it stands on the axis.
    pub(super) fn y(&self, share: f64) -> f32 {
        let low = f64::from(self.low);
        let part = (share.max(1e-30).log10().max(low) - low) / -low;
        self.max[1] - part as f32 * (self.max[1] - self.min[1])
    }

    /// Place along the other axis.
    pub(super) fn x(&self, value: f64) -> f32 {
        let part = (value - self.from) / (self.to - self.from);
        self.min[0] + part as f32 * (self.max[0] - self.min[0])
    }

    /// Ticks and texts along the other axis, as many as fit, and its name in the corner.
    pub(super) fn ticks(&self, drawing: &mut Drawing, ticks: &[(f64, String)], name: &str) {
        let y = self.max[1];
        let mut free_from = f32::MIN;
        for (value, text) in ticks {
            let x = self.x(*value);
            let half = 0.5 * text_width(text, SMALL, false);
            drawing.line([[x, y], [x, y + 4.0]], Ink::Faint, 1.0);
            if x - half >= free_from && x + half <= self.max[0] + 10.0 {
                drawing.text(
                    [x, y + 13.0],
                    Anchor::Centre,
                    text.as_str(),
                    SMALL,
                    Ink::Faint,
                );
                free_from = x + half + 8.0;
            }
        }
        drawing.text(
            [self.max[0], y + 29.0],
            Anchor::Right,
            name,
            SMALL,
            Ink::Faint,
        );
    }

    /// A line through points, cut off where it crosses the lowest decade.
    pub(super) fn curve(&self, points: impl Iterator<Item = (f64, f64)>) -> Vec<Point> {
        let floor = 10_f64.powi(self.low);
        let mut line: Vec<Point> = Vec::new();
        let mut before: Option<(f64, f64)> = None;
        for (value, share) in points {
            if share > floor {
                line.push([self.x(value), self.y(share)]);
                before = Some((value, share));
                continue;
            }
            if let Some((from, above)) = before {
                // Straight on the logarithmic axis; a share of nothing falls as to a millionth of the floor.
                let fall = above.ln() - share.max(1e-6 * floor).ln();
                let crossing = from + (value - from) * (above / floor).ln() / fall;
                line.push([self.x(crossing), self.y(floor)]);
            }
            break;
        }
        line
    }

    /// A counted point with its error bar of three standard errors.
    pub(super) fn counted(&self, drawing: &mut Drawing, value: f64, share: f64, three_sigma: f64) {
        let floor = 10_f64.powi(self.low);
        let x = self.x(value);
        let (high, low) = (
            self.y(share + three_sigma),
            self.y((share - three_sigma).max(0.0)),
        );
        if share + three_sigma <= floor {
            return;
        }
        if share > floor {
            drawing.line([[x, high], [x, low]], Ink::Dust, 1.5);
            drawing.dot([x, self.y(share)], 3.0, Ink::Dust);
        } else {
            // Nothing counted: only an upper bound is known, drawn as a bar with an arrow down.
            drawing.line([[x - 3.5, high], [x + 3.5, high]], Ink::Dust, 1.5);
            drawing.line(
                [[x, high], [x, (high + 9.0).min(self.max[1])]],
                Ink::Dust,
                1.0,
            );
        }
    }
}

/// Entries of a key in rows below the frame, one after the other.
pub(super) fn key_below(drawing: &mut Drawing, entries: &[(Ink, Mark, &str)]) {
    let [width, height] = drawing.size;
    let [mut x, mut y] = [10.0, height - (KEY_ROWS - 0.5) * KEY_ROW];
    for (ink, mark, text) in entries {
        let wide = 28.0 + text_width(text, SMALL, false);
        if x > 10.0 && x + wide > width - 4.0 {
            [x, y] = [10.0, y + KEY_ROW];
        }
        mark.draw(drawing, [x, y], *ink);
        drawing.text([x + 28.0, y], Anchor::Left, *text, SMALL, Ink::Text);
        x += wide + 14.0;
    }
}

/// Lines of a key, right-aligned from the top of a frame.
pub(super) fn key(drawing: &mut Drawing, frame: &Frame, entries: &[(Ink, Mark, &str)]) {
    let mut y = frame.min[1] + 11.0;
    for (ink, mark, text) in entries {
        let right = frame.max[0] - 6.0;
        let start = right - text_width(text, SMALL, false);
        drawing.label([right, y], Anchor::Right, *text, SMALL, Ink::Text);
        let x = start - 10.0;
        mark.draw(drawing, [x - 22.0, y], *ink);
        y += 17.0;
    }
}

/// How a key shows an entry.
#[derive(Clone, Copy)]
pub(super) enum Mark {
    Line,
    Dashes,
    Point,
}

impl Mark {
    /// From its left end on.
    fn draw(self, drawing: &mut Drawing, [x, y]: Point, ink: Ink) {
        match self {
            Self::Line => drawing.line([[x, y], [x + 22.0, y]], ink, 2.0),
            Self::Dashes => drawing.dashed([[x, y], [x + 22.0, y]], ink, 2.0),
            Self::Point => drawing.dot([x + 11.0, y], 3.0, ink),
        }
    }
}

/// The decade below the smallest of some shares, within limits that keep a chart readable.
pub(super) fn decade_below(shares: impl Iterator<Item = f64>) -> i32 {
    let smallest = shares.filter(|share| *share > 0.0).fold(1.0, f64::min);
    (smallest.log10().floor() as i32).clamp(-8, -1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn percentages_read_as_people_write_them() {
        for (share, text) in [
            (0.00338, "0.338 %"),
            (0.1244, "12.4 %"),
            (1.0, "100 %"),
            (7.1e-5, "0.0071 %"),
            (0.0, "0 %"),
        ] {
            assert_eq!(percent_text(share), text);
        }
    }

    #[test]
    fn efficiency_has_as_many_nines_as_penetration_has_noughts() {
        for (exponent, text) in [(0, "0 %"), (-1, "90 %"), (-2, "99 %"), (-4, "99.99 %")] {
            assert_eq!(efficiency_text(exponent), text);
        }
    }

    #[test]
    fn the_axis_holds_the_smallest_share() {
        assert_eq!(decade_below([1.0, 0.02, 0.0034].into_iter()), -3);
        assert_eq!(decade_below([0.0].into_iter()), -1);
    }
}
