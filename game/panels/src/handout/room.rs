//! How high words get on paper, measured with the font itself: so that a figure and the lines to write on fill a leaf and no
//! more, on A4 and on Letter alike.

use crate::drawing::text_width;

/// Width and height that both papers have within the margins of the style, mm; the height with a little to spare.
pub(super) const LEAF_MM: [f32; 2] = [180.0, 250.0];
/// A printer's point, mm.
const POINT_MM: f32 = 0.352_78;
/// Height of a line of body text, and the room below a paragraph, as the style has them, mm.
const LINE_MM: f32 = 10.5 * 1.38 * POINT_MM;
const BELOW_MM: f32 = 2.0;
/// Height of a title within a leaf, of a line to write on, and of a row of a table, mm.
pub(super) const TITLE_MM: f32 = 7.4;
pub(super) const RULE_MM: f32 = 8.5;
pub(super) const ROW_MM: f32 = 6.5;
/// A caption with its margins, mm.
const CAPTION_LINE_MM: f32 = 8.5 * 1.3 * POINT_MM;
const CAPTION_MARGIN_MM: f32 = 5.5;
/// The lowest figure that can be read, mm.
const LOWEST_MM: f32 = 55.0;

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

/// Width of a figure of this shape in the height that is left with its caption, mm; never wider than the leaf.
pub(super) fn figure_mm([wide, high]: [f32; 2], caption: &str, left_mm: f32, most_mm: f32) -> f32 {
    let room_mm = (left_mm - caption_mm(caption)).max(LOWEST_MM);
    (room_mm * wide / high).min(most_mm).floor()
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

    #[test]
    fn more_words_take_more_lines_and_leave_a_lower_figure() {
        let (short, long) = ("A few words.", "Many words that go on and on. ".repeat(20));
        assert!((lines(short, 10.5, 180.0, false) - 1.0).abs() < 1e-6);
        // 600 letters of about 2 mm on lines of 180 mm.
        assert!((6.0..8.0).contains(&lines(&long, 10.5, 180.0, false)));
        let wide = |left_mm| figure_mm([680.0, 380.0], short, left_mm, LEAF_MM[0]);
        assert!(wide(200.0) > 179.0 && wide(80.0) < 140.0 && wide(10.0) > 90.0);
        assert_eq!((rules_in(0.0), rules_in(42.0), rules_in(500.0)), (2, 4, 14));
    }
}
