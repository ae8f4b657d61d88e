//! One thing that is computed in two ways: its line under a view, with the difference, the tolerance and the verdict.

use ashlane_shared::checks::Verdict;
use egui::{RichText, Ui};

use crate::{
    charts::percent_text,
    drawing::{Anchor, Drawing, text_width},
    state::UiState,
    theme::{Ink, SMALL},
};

/// Height of a line.
const LINE: f32 = 20.0;

/// One thing that is computed in two ways.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckLine {
    /// What.
    pub name: &'static str,
    /// One way and the other, in words.
    pub text: String,
    /// Difference as a share.
    pub difference: f64,
    /// Largest difference that still agrees.
    pub tolerance: f64,
    /// Whether they agree.
    pub verdict: Verdict,
}

impl CheckLine {
    /// The line of two values by their ratio; what is no number disagrees.
    #[must_use]
    pub fn of_ratio(name: &'static str, text: String, ratio: f64, tolerance: f64) -> Self {
        Self {
            name,
            text,
            difference: ratio - 1.0,
            tolerance,
            verdict: if (ratio - 1.0).abs() <= tolerance {
                Verdict::Agree
            } else {
                Verdict::Disagree
            },
        }
    }

    /// How far the two are apart, and how far they may be.
    pub(crate) fn apart(&self) -> String {
        format!(
            "{} apart, {} allowed",
            difference_text(self.difference.abs()),
            percent_text(self.tolerance)
        )
    }
}

/// The lines of a view, for its place above the penetration.
#[must_use]
pub fn lines_drawing(lines: &[CheckLine], width: f32) -> Drawing {
    let mut drawing = Drawing::new([width, LINE * lines.len() as f32]);
    for (index, line) in lines.iter().enumerate() {
        let y = LINE * (index as f32 + 0.5);
        let right = line.verdict == Verdict::Agree;
        let (ink, word) = if right {
            (Ink::FiniteMixing, "agree")
        } else {
            (Ink::Trouble, "disagree")
        };
        drawing.verdict([20.0, y], 10.0, right, ink);
        drawing.bold([32.0, y], Anchor::Left, word, SMALL, ink);
        let left = 32.0 + text_width("disagree", SMALL, true) + 10.0;
        let apart = line.apart();
        let texts = [
            format!("{}: {} · {apart}", line.name, line.text),
            format!("{} · {apart}", line.text),
            line.text.clone(),
            format!("{}: {apart}", line.name),
            apart.clone(),
        ];
        let fits = |text: &&String| left + text_width(text, SMALL, false) <= width - 8.0;
        let text = texts.iter().find(fits).unwrap_or(&apart);
        drawing.text([left, y], Anchor::Left, text.as_str(), SMALL, Ink::Text);
    }
    drawing
}

/// A difference as people care for it.
fn difference_text(difference: f64) -> String {
    if difference < 1e-5 {
        "less than 0.001 %".to_owned()
    } else {
        percent_text(difference)
    }
}

/// A line as text that breaks, for a narrow place.
pub(crate) fn check_ui(ui: &mut Ui, line: &CheckLine, state: &UiState) {
    let (ink, word) = if line.verdict == Verdict::Agree {
        (Ink::FiniteMixing, "✔ agree")
    } else {
        (Ink::Trouble, "✖ disagree")
    };
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 5.0;
        ui.spacing_mut().interact_size.y = SMALL;
        ui.label(
            RichText::new(word)
                .size(SMALL)
                .color(ink.colour(state.theme)),
        );
        ui.label(RichText::new(format!("{}: {}", line.name, line.text)).size(SMALL));
    });
}
