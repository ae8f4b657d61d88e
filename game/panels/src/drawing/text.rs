//! How much room a text takes, measured without a window: from the advance widths of the font that is embedded.

use std::sync::OnceLock;

use super::{Anchor, Point};
use crate::{
    fonts::{BOLD, REGULAR},
    theme::SMALL,
};

/// Height of a line over the size of its text.
const LINE: f32 = 1.2;
/// Advance of a character that the font lacks, over the size.
const UNKNOWN: f32 = 0.6;

/// Width of a text, points.
#[must_use]
pub fn text_width(text: &str, size: f32, bold: bool) -> f32 {
    static WIDTHS: OnceLock<[Advances<'static>; 2]> = OnceLock::new();
    let widths = WIDTHS.get_or_init(|| [Advances::new(REGULAR), Advances::new(BOLD)]);
    let advances = &widths[usize::from(bold)];
    size * text
        .chars()
        .map(|character| advances.of(character))
        .sum::<f32>()
}

/// The first small text that fits, or the last.
pub(crate) fn fitting(texts: &[String], room: f32) -> &str {
    texts
        .iter()
        .find(|text| text_width(text, SMALL, false) <= room)
        .or_else(|| texts.last())
        .map_or("", String::as_str)
}

/// Top left and bottom right of a text.
pub(super) fn text_rect(
    at: Point,
    anchor: Anchor,
    text: &str,
    size: f32,
    bold: bool,
) -> (Point, Point) {
    let (width, height) = (text_width(text, size, bold), LINE * size);
    let (left, top) = match anchor {
        Anchor::Left => (at[0], at[1] - 0.5 * height),
        Anchor::Centre => (at[0] - 0.5 * width, at[1] - 0.5 * height),
        Anchor::Right => (at[0] - width, at[1] - 0.5 * height),
        Anchor::Top => (at[0] - 0.5 * width, at[1]),
        Anchor::Bottom => (at[0] - 0.5 * width, at[1] - height),
    };
    ([left, top], [left + width, top + height])
}

/// Characters below this are looked up in the font once: letters, digits, arrows and signs.
const KEPT: usize = 0x2800;

/// Advance widths of one font file over its size.
struct Advances<'a> {
    face: Option<ttf_parser::Face<'a>>,
    /// By character, as far as it has been asked for: thousands are asked for in every frame.
    kept: Vec<OnceLock<f32>>,
}

impl<'a> Advances<'a> {
    fn new(data: &'a [u8]) -> Self {
        Self {
            face: ttf_parser::Face::parse(data, 0).ok(),
            kept: std::iter::repeat_with(OnceLock::new).take(KEPT).collect(),
        }
    }

    fn of(&self, character: char) -> f32 {
        match self.kept.get(character as usize) {
            Some(kept) => *kept.get_or_init(|| self.in_font(character)),
            None => self.in_font(character),
        }
    }

    fn in_font(&self, character: char) -> f32 {
        let Some(face) = &self.face else {
            return UNKNOWN;
        };
        face.glyph_index(character)
            .and_then(|glyph| face.glyph_hor_advance(glyph))
            .map_or(UNKNOWN, |advance| {
                f32::from(advance) / f32::from(face.units_per_em())
            })
    }
}

/// Parts joined by a separator in as many lines of small text as the room asks for.
pub(crate) fn lines_of(
    parts: impl IntoIterator<Item = String>,
    separator: &str,
    room: f32,
) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for part in parts {
        if let Some(line) = lines.last_mut() {
            let longer = format!("{line}{separator}{part}");
            if text_width(&longer, SMALL, false) <= room {
                *line = longer;
                continue;
            }
        }
        lines.push(part);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn widths_come_from_the_font() {
        // Noto Sans: digits are 572 and the space 260 of 1000 units wide (read from the font's own table).
        assert!((text_width("1234", 10.0, false) - 4.0 * 5.72).abs() < 0.01);
        assert!((text_width(" ", 100.0, false) - 26.0).abs() < 0.1);
        assert!(text_width("mm", 14.0, true) > text_width("ii", 14.0, true));
    }

    #[test]
    fn anchors_put_the_text_where_they_say() {
        let (min, max) = text_rect([100.0, 50.0], Anchor::Right, "10", 10.0, false);
        assert!((max[0] - 100.0).abs() < 1e-3 && min[1] < 50.0 && max[1] > 50.0);
        let (min, _) = text_rect([100.0, 50.0], Anchor::Top, "10", 10.0, false);
        assert!((min[1] - 50.0).abs() < 1e-3);
    }
}
