//! How high words get on paper, measured with the font itself: so that a figure and the lines to write on fill a leaf and no
//! more, on A4 and on Letter alike.

use crate::drawing::{Drawing, Item, text_width};

/// Width and height that both papers have within the margins of the style, mm; the height with a little to spare.
pub(super) const LEAF_MM: [f32; 2] = [180.0, 248.0];
/// A printer's point, mm.
const POINT_MM: f32 = 0.352_78;
/// Height of a line of body text, and the room below a paragraph, as the style has them, mm.
const LINE_MM: f32 = 10.5 * 1.38 * POINT_MM;
const BELOW_MM: f32 = 2.0;
const SMALL_LINE_MM: f32 = 9.0 * 1.38 * POINT_MM;
/// Height of a title within a leaf, of a line to write on, and of a row of a table, mm.
pub(super) const TITLE_MM: f32 = 7.4;
pub(super) const RULE_MM: f32 = 8.5;
pub(super) const ROW_MM: f32 = 6.8;
/// A caption with its margins, mm.
const CAPTION_LINE_MM: f32 = 8.5 * 1.3 * POINT_MM;
const CAPTION_MARGIN_MM: f32 = 5.5;
/// The lowest figure that can be read, mm.
const LOWEST_MM: f32 = 55.0;
/// Smallest letters that can be read at arm's length, points. Common practice, no source.
pub(super) const LEAST_PT: f32 = 7.0;
/// A point of a drawing on paper: a CSS pixel, mm and printer's points.
pub(super) const PIXEL_MM: f32 = 25.4 / 96.0;
const PIXEL_PT: f32 = 0.75;

/// Height of paragraphs, mm.
pub(super) fn paragraphs_mm(text: &str, bold: bool) -> f32 {
    let heights = text
        .split("\n\n")
        .map(|text| lines(text, 10.5, LEAF_MM[0], bold) * LINE_MM + BELOW_MM);
    heights.sum()
}

/// Height of a line of text that may break, in this width, mm.
pub(super) fn line_mm(text: &str, width_mm: f32) -> f32 {
    lines(text, 10.5, width_mm, false) * LINE_MM
}

/// Width of a figure in the height that is left with its caption, mm: never wider than the leaf or with letters larger than
/// its own, and never with letters too small to be read.
pub(super) fn figure_mm(drawing: &Drawing, caption: &str, left_mm: f32) -> f32 {
    let [wide, high] = drawing.size;
    let room_mm = (left_mm - caption_mm(caption)).max(LOWEST_MM);
    let most_mm = LEAF_MM[0].min(wide * PIXEL_MM);
    let fitting_mm = (room_mm * wide / high).min(most_mm).floor();
    let least = smallest_letters(drawing).map_or(0.0, |size| LEAST_PT / (size * PIXEL_PT));
    fitting_mm
        .max((wide * PIXEL_MM * least).ceil())
        .min(most_mm)
}

/// Size of the smallest letters of a drawing, its points; nothing where it has none.
fn smallest_letters(drawing: &Drawing) -> Option<f32> {
    let sizes = drawing.items.iter().filter_map(|item| match item {
        Item::Text { size, .. } => Some(*size),
        _ => None,
    });
    sizes.reduce(f32::min)
}

/// Height of small print that may break, mm.
pub(super) fn small_mm(text: &str) -> f32 {
    lines(text, 9.0, LEAF_MM[0], false) * SMALL_LINE_MM + BELOW_MM
}

/// Height of a caption, mm.
pub(super) fn caption_mm(caption: &str) -> f32 {
    lines(caption, 8.5, LEAF_MM[0], false) * CAPTION_LINE_MM + CAPTION_MARGIN_MM
}

/// Lines to write on that fit into this height.
pub(super) fn rules_in(left_mm: f32) -> usize {
    const MOST: f32 = 14.0;
    (left_mm / RULE_MM).floor().clamp(2.0, MOST) as usize
}

/// How many lines a text takes where it breaks between words.
fn lines(text: &str, size_pt: f32, width_mm: f32, bold: bool) -> f32 {
    let wide = |text: &str| text_width(text, size_pt * POINT_MM, bold);
    let (mut lines, mut at) = (1.0, 0.0);
    for word in text.split_whitespace() {
        let word_mm = wide(word);
        if at > 0.0 && at + wide(" ") + word_mm > width_mm {
            lines += 1.0;
            at = word_mm;
        } else {
            at += word_mm + if at > 0.0 { wide(" ") } else { 0.0 };
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{drawing::Anchor, theme::Ink};

    #[test]
    fn more_words_take_more_lines_and_leave_a_lower_figure() {
        let (short, long) = ("A few words.", "Many words that go on and on. ".repeat(20));
        assert!((lines(short, 10.5, 180.0, false) - 1.0).abs() < 1e-6);
        // 600 letters of about 2 mm on lines of 180 mm.
        assert!((6.0..8.0).contains(&lines(&long, 10.5, 180.0, false)));
        let mut drawing = Drawing::new([680.0, 380.0]);
        let wide = |drawing: &Drawing, left_mm| figure_mm(drawing, short, left_mm);
        assert!(wide(&drawing, 200.0) > 178.0 && wide(&drawing, 10.0) < 100.0);
        assert!(wide(&drawing, 80.0) < 140.0);
        // 12.5 pixels are 9.375 points: at 7 points the drawing is 0.747 times as wide as its 179.9 mm.
        drawing.text([9.0, 9.0], Anchor::Left, "a", 12.5, Ink::Text);
        assert_eq!(wide(&drawing, 10.0), 135.0);
        assert_eq!((rules_in(0.0), rules_in(42.0), rules_in(500.0)), (2, 4, 14));
    }
}
