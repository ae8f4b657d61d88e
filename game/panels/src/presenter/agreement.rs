//! The check of what is shown in one line: agree or disagree, with its numbers.

use ashlane_shared::checks::Verdict;

use crate::{
    charts::percent_text,
    checks::CheckLine,
    drawing::{Anchor, Drawing, text_width},
    section::SectionView,
    state::Rung,
    strip::{counted_texts, difference},
    theme::{BODY, Ink, SMALL},
    view::AppView,
};

/// Height of the line, points.
const HEIGHT: f32 = 20.0;

/// What the line says: a verdict, if there is one, and its numbers from long to short.
#[derive(Debug, PartialEq)]
struct Said {
    right: Option<bool>,
    texts: Vec<String>,
}

/// Draws the line in this width.
pub(super) fn agreement_line(
    view: &AppView<'_>,
    section: &SectionView<'_>,
    rung: Rung,
    width: f32,
) -> Drawing {
    let said = said(view, &section.checks(rung), section.unchecked(rung));
    let mut drawing = Drawing::new([width, HEIGHT]);
    let y = 0.5 * HEIGHT;
    let mut left = 6.0;
    if let Some(right) = said.right {
        let (ink, word) = if right {
            (Ink::FiniteMixing, "agree")
        } else {
            (Ink::Trouble, "disagree")
        };
        drawing.verdict([left + 6.0, y], 11.0, right, ink);
        drawing.bold([left + 18.0, y], Anchor::Left, word, BODY, ink);
        left += 28.0 + text_width(word, BODY, true);
    }
    let fits = |text: &&String| left + text_width(text, SMALL, false) <= width;
    let text = said.texts.iter().find(fits).or_else(|| said.texts.last());
    if let Some(text) = text {
        drawing.text([left, y], Anchor::Left, text, SMALL, Ink::Text);
    }
    drawing
}

/// A check that disagrees first, else the one that is nearest to its limit; on the plan the penetration.
fn said(view: &AppView<'_>, checks: &[CheckLine], unchecked: Option<&str>) -> Said {
    let penetration = penetration(view);
    let wrong = |line: &&CheckLine| line.verdict == Verdict::Disagree;
    if let Some(line) = checks.iter().find(wrong) {
        return Said {
            right: Some(false),
            texts: texts(line, ""),
        };
    }
    let share = |line: &CheckLine| line.difference.abs() / line.tolerance.max(f64::MIN_POSITIVE);
    let nearest = checks.iter().max_by(|a, b| share(a).total_cmp(&share(b)));
    match nearest {
        Some(line) if penetration.right != Some(false) => {
            let all = checks.len() + usize::from(penetration.right.is_some());
            let start = match (all, checks.len()) {
                (1, _) => String::new(),
                (_, 1) => format!("all {all} checks · of this view · "),
                _ => format!("all {all} checks · nearest to its limit here · "),
            };
            Said {
                right: Some(true),
                texts: texts(line, &start),
            }
        }
        _ => match unchecked {
            Some(why) if penetration.right != Some(false) => Said {
                right: penetration.right,
                texts: (penetration.texts.iter())
                    .map(|text| format!("{why} {text}"))
                    .chain(penetration.texts.iter().cloned())
                    .collect(),
            },
            _ => penetration,
        },
    }
}

fn texts(line: &CheckLine, start: &str) -> Vec<String> {
    let apart = line.apart();
    vec![
        format!("{start}{}: {} · {apart}", line.name, line.text),
        format!("{start}{} · {apart}", line.name),
        format!("{} · {apart}", line.name),
        apart,
    ]
}

/// Count against solver.
fn penetration(view: &AppView<'_>) -> Said {
    let Some(agreement) = view.count.agreement() else {
        return Said {
            right: None,
            texts: vec!["Penetration: counting the first parcels …".to_owned()],
        };
    };
    let (counted, _) = counted_texts(&agreement);
    if let Some(share) = view.count.settling {
        let percent = 100.0 * share;
        return Said {
            right: None,
            texts: vec![
                format!("Penetration: counted {counted} so far, settling, {percent:.0} %"),
                format!("settling, {percent:.0} %"),
            ],
        };
    }
    let (mixing, deutsch, apart) = (
        percent_text(agreement.finite_mixing),
        percent_text(agreement.deutsch_anderson),
        difference(&agreement),
    );
    Said {
        right: Some(agreement.verdict == Verdict::Agree),
        texts: vec![
            format!(
                "Penetration: counted {counted} · finite mixing {mixing} · Deutsch–Anderson {deutsch} · {apart}"
            ),
            format!("counted {counted} · finite mixing {mixing} · {apart}"),
            format!("counted {counted} · finite mixing {mixing}"),
            apart,
        ],
    }
}
