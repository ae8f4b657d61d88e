//! A closer look as a figure of its own: drawing, checks, cautions and the notice, for a file or for print.

use super::{SectionView, cautions_of, travel::figure};
use crate::{
    checks::lines_drawing,
    drawing::{Anchor, Drawing, lines_of},
    layout::NOTICE,
    state::{Rung, UiState},
    theme::{Ink, SMALL},
    zoom::Stand,
};

/// Height of a line of small text.
const LINE: f32 = 16.0;
/// Room at the sides.
const SIDE: f32 = 10.0;

/// Draws what the state says in this size; the plan and the elevation have their own figures, with their dust.
#[must_use]
pub fn still_drawing(section: &SectionView<'_>, state: &UiState, size: [f32; 2]) -> Drawing {
    still_with(section, state, size, |above| {
        figure(section, &Stand::of(state), above)
    })
}

/// Draws what the state says in this size, and nothing below it.
#[must_use]
pub fn bare_drawing(section: &SectionView<'_>, state: &UiState, size: [f32; 2]) -> Drawing {
    figure(section, &Stand::of(state), size)
}

/// As [`still_drawing`], with a drawing of one's own above checks, cautions and notice.
#[must_use]
pub fn still_with(
    section: &SectionView<'_>,
    state: &UiState,
    size: [f32; 2],
    draw: impl FnOnce([f32; 2]) -> Drawing,
) -> Drawing {
    let checks = lines_drawing(&section.checks(state.rung), size[0]);
    let words = words(state.rung, size[0] - 2.0 * SIDE);
    let below = checks.size[1] + LINE * words.len() as f32 + 12.0;
    let above = [size[0], (size[1] - below).max(0.5 * size[1])];
    let mut drawing = draw(above);
    drawing.size = size;
    let moved = |by: f32| move |item: crate::drawing::Item| item.moved([0.0, by]);
    let top = size[1] - below + 4.0;
    let lines_height = checks.size[1];
    drawing
        .items
        .extend(checks.items.into_iter().map(moved(top)));
    for (index, line) in words.into_iter().enumerate() {
        let y = top + lines_height + LINE * (index as f32 + 0.5);
        drawing.text([SIDE, y], Anchor::Left, line, SMALL, Ink::Text);
    }
    drawing
}

/// Cautions and notice, broken into lines.
fn words(rung: Rung, room: f32) -> Vec<String> {
    let cautions = cautions_of(rung)
        .into_iter()
        .map(|caution| format!("⚠ {}: {}", caution.hazard, caution.text));
    cautions
        .chain([NOTICE.to_owned()])
        .flat_map(|text| lines_of(text.split(' ').map(str::to_owned), " ", room))
        .collect()
}
