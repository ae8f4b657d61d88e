//! The agreement strip: penetration three ways on one axis, the difference, the tolerance and the verdict.

use ashlane_shared::{
    checks::{Agreement, Verdict, left_out},
    conditions::Conditions,
    theory::Theory,
};

use crate::{
    charts::{percent_of_caught, percent_text, plain_number},
    drawing::{Anchor, Drawing, Point, text_width},
    theme::{BODY, Ink, SMALL},
    view::CountView,
};

/// Height of the strip, points.
pub const STRIP_HEIGHT: f32 = 118.0;
/// Height of one of the three lines.
const LINE: f32 = 22.0;
/// Shortest axis that is still one.
const SHORTEST_AXIS: f32 = 60.0;
/// Width of the verdict, and of a strip that has room for it.
const VERDICT: f32 = 270.0;
const WITH_VERDICT: f32 = 830.0;

/// Draws the strip in this size.
#[must_use]
pub fn strip_drawing(count: &CountView<'_>, conditions: &Conditions, size: Point) -> Drawing {
    let mut drawing = Drawing::new(size);
    let Some(agreement) = count.agreement() else {
        drawing.text(
            [14.0, 0.5 * size[1]],
            Anchor::Left,
            "Counting the first parcels …",
            BODY,
            Ink::Faint,
        );
        return drawing;
    };
    let narrow = size[0] < WITH_VERDICT;
    let axis_right = if narrow {
        size[0] - 14.0
    } else {
        size[0] - VERDICT - 24.0
    };
    axis(&mut drawing, &agreement, axis_right);
    let at = [14.0, size[1] - 12.0];
    let room = axis_right - 14.0;
    if !narrow {
        verdict(
            &mut drawing,
            &agreement,
            count.settling,
            [size[0] - VERDICT - 8.0, 6.0],
        );
    }
    match count.settling {
        Some(share) => {
            let text = format!("settling: {:.0} % of a new count", 100.0 * share);
            drawing.text(at, Anchor::Left, text, SMALL, Ink::Faint);
        }
        None if narrow => verdict_line(&mut drawing, &agreement, at, room),
        None => {
            let text = omission(conditions, count.theory, room);
            drawing.text(at, Anchor::Left, text, SMALL, Ink::Faint);
        }
    }
    drawing
}

/// The verdict in one line, where there is no room for a box.
fn verdict_line(drawing: &mut Drawing, agreement: &Agreement, [x, y]: Point, room: f32) {
    let right = agreement.verdict == Verdict::Agree;
    let (ink, word) = if right {
        (Ink::FiniteMixing, "agree")
    } else {
        (Ink::Trouble, "disagree")
    };
    drawing.verdict([x + 6.0, y], 11.0, right, ink);
    drawing.bold([x + 18.0, y], Anchor::Left, word, BODY, ink);
    let start = x + 26.0 + text_width(word, BODY, true);
    let texts = [
        format!(
            "{}, efficiency {}",
            difference(agreement),
            percent_of_caught(agreement.counted.share)
        ),
        difference(agreement),
    ];
    if let Some(text) = texts
        .into_iter()
        .find(|text| text_width(text, SMALL, false) < x + room - start)
    {
        drawing.text([start, y], Anchor::Left, text, SMALL, Ink::Text);
    }
}

/// The three lines with their values on a common logarithmic axis.
fn axis(drawing: &mut Drawing, agreement: &Agreement, right: f32) {
    let counted = agreement.counted;
    let name_width = text_width("Deutsch–Anderson", BODY, false);
    let left = 14.0 + name_width + 16.0;
    let (value, sample) = counted_texts(agreement);
    let both = format!("{value} ({sample})");
    // Where the row is too short, the size of the sample stands in the heading.
    let long = left + SHORTEST_AXIS + text_width(&both, BODY, true) + 18.0 <= right;
    let (counted_text, heading) = if long {
        (both, "Penetration".to_owned())
    } else {
        (value, format!("Penetration ({sample})"))
    };
    let rows = [
        ("counted", counted.share, Ink::Dust, counted_text),
        (
            "finite mixing",
            agreement.finite_mixing,
            Ink::FiniteMixing,
            percent_text(agreement.finite_mixing),
        ),
        (
            "Deutsch–Anderson",
            agreement.deutsch_anderson,
            Ink::Deutsch,
            percent_text(agreement.deutsch_anderson),
        ),
    ];
    let heading_end = 14.0 + text_width(&heading, BODY, true);
    drawing.bold([14.0, 12.0], Anchor::Left, heading, BODY, Ink::Text);
    let (low, high) = decades(agreement);
    let text_room = text_width(&rows[0].3, BODY, true) + 34.0;
    let end = (right - text_room).max(left + SHORTEST_AXIS);
    let x = |share: f64| {
        let place = (share.max(1e-30).log10() - low) / (high - low);
        left + (end - left) * place.clamp(0.0, 1.0) as f32
    };
    let bottom = 24.0 + 3.0 * LINE;
    ticks(drawing, (low, high), (bottom, heading_end), &x);
    for (index, (name, share, ink, text)) in rows.into_iter().enumerate() {
        let y = 24.0 + LINE * (index as f32 + 0.5);
        drawing.text([14.0, y], Anchor::Left, name, BODY, Ink::Text);
        let error = if index == 0 {
            3.0 * counted.standard_error
        } else {
            0.0
        };
        let ends = [x((share - error).max(0.0)), x(share), x(share + error)];
        marked(drawing, ends, y, ink, text);
    }
}

/// A value with its error bar, and its number clear of both.
fn marked(drawing: &mut Drawing, [least, at, most]: [f32; 3], y: f32, ink: Ink, text: String) {
    let clear = most.max(at + 4.0);
    let text_end = clear + 11.0 + text_width(&text, BODY, true);
    drawing.rect(
        [clear + 5.0, y - 0.5 * LINE],
        [text_end, y + 0.5 * LINE],
        Ink::Panel,
        1.0,
    );
    if most > least {
        drawing.line([[least, y], [most, y]], ink, 3.0);
    }
    drawing.dot([at, y], 5.0, ink);
    drawing.bold([clear + 8.0, y], Anchor::Left, text, BODY, Ink::Text);
}

/// Lines and texts of the decades, down to the bottom and to the right of the heading.
fn ticks(
    drawing: &mut Drawing,
    (low, high): (f64, f64),
    (bottom, heading_end): (f32, f32),
    x: &impl Fn(f64) -> f32,
) {
    let mut exponent = low as i32;
    let mut free_from = heading_end;
    while f64::from(exponent) <= high {
        let at = x(10_f64.powi(exponent));
        drawing.line([[at, 22.0], [at, bottom]], Ink::Rule, 1.0);
        let text = percent_text(10_f64.powi(exponent));
        let half = 0.5 * text_width(&text, SMALL, false);
        if at - half > free_from {
            free_from = at + half + 8.0;
            drawing.text([at, 12.0], Anchor::Centre, text, SMALL, Ink::Faint);
        }
        exponent += 1;
    }
}

/// The count with three standard errors and the number of parcels.
pub(crate) fn counted_texts(agreement: &Agreement) -> (String, String) {
    let counted = agreement.counted;
    let error = 3.0 * counted.standard_error;
    let sample = format!("3σ, N = {}", thousands(agreement.parcels));
    if counted.share <= 0.0 {
        return (format!("below {}", percent_text(error)), sample);
    }
    let (value, error) = with_error(100.0 * counted.share, 100.0 * error);
    (format!("{value} ± {error} %"), sample)
}

/// A value and its error to the same decimals, the error with two digits.
pub(crate) fn with_error(value: f64, error: f64) -> (String, String) {
    let decimals = (1 - error.max(1e-9).log10().floor() as i32).clamp(0, 9) as usize;
    (format!("{value:.decimals$}"), format!("{error:.decimals$}"))
}

/// Whole numbers in groups of three with thin spaces.
pub(crate) fn thousands(number: u64) -> String {
    let digits = number.to_string();
    let mut text = String::new();
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            text.push('\u{2009}');
        }
        text.push(digit);
    }
    text
}

/// Whole decades that hold all three values.
fn decades(agreement: &Agreement) -> (f64, f64) {
    let values = [
        agreement.counted.share,
        agreement.finite_mixing,
        agreement.deutsch_anderson,
    ];
    let seen = values.into_iter().filter(|value| *value > 0.0);
    let (low, high) = seen.fold((1.0_f64, 1e-9_f64), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    let low = low.max(1e-9).log10().floor();
    let high = high.log10().ceil().min(0.0);
    (low, if high - low < 1.0 { low + 1.0 } else { high })
}

pub(crate) fn difference(agreement: &Agreement) -> String {
    let difference = (agreement.counted.share - agreement.finite_mixing).abs();
    format!(
        "{} apart, {} allowed",
        percent_text(difference),
        percent_text(agreement.tolerance)
    )
}

fn verdict(drawing: &mut Drawing, agreement: &Agreement, settling: Option<f32>, [x, y]: Point) {
    let (ink, word) = match (settling, agreement.verdict) {
        (Some(_), _) => (Ink::Faint, "settling …"),
        (None, Verdict::Agree) => (Ink::FiniteMixing, "agree"),
        (None, Verdict::Disagree) => (Ink::Trouble, "disagree"),
    };
    let bottom = y + STRIP_HEIGHT - 12.0;
    let corners = [
        [x, y],
        [x + VERDICT, y],
        [x + VERDICT, bottom],
        [x, bottom],
        [x, y],
    ];
    drawing.line(corners, ink, 1.5);
    let mut left = x + 12.0;
    if settling.is_none() {
        drawing.verdict(
            [left + 7.0, y + 17.0],
            13.0,
            agreement.verdict == Verdict::Agree,
            ink,
        );
        left += 22.0;
    }
    drawing.bold([left, y + 17.0], Anchor::Left, word, 16.0, ink);
    let rest = [
        format!("count and solver {:.1} σ apart", agreement.score.abs()),
        difference(agreement),
        format!("efficiency {}", percent_of_caught(agreement.counted.share)),
        factor(agreement),
    ];
    for (index, text) in rest.into_iter().enumerate() {
        let at = [x + 12.0, y + 39.0 + 18.0 * index as f32];
        drawing.text(at, Anchor::Left, text, SMALL, Ink::Text);
    }
}

fn factor(agreement: &Agreement) -> String {
    if agreement.deutsch_anderson <= 0.0 || agreement.finite_mixing <= 0.0 {
        return "the formula gives nothing left".to_owned();
    }
    let ratio = agreement.finite_mixing / agreement.deutsch_anderson;
    format!("the formula leaves out ×{}", plain_number(ratio))
}

/// One line on what the formula leaves out, cut to the room there is.
fn omission(conditions: &Conditions, theory: Option<&Theory>, room: f32) -> String {
    let Some(theory) = theory else {
        return String::new();
    };
    let effects = left_out(conditions, theory);
    if effects.is_empty() {
        return "Deutsch–Anderson leaves nothing out here.".to_owned();
    }
    let fits = |text: &String| text_width(text, SMALL, false) <= room;
    let long = format!("Deutsch–Anderson leaves out: {}.", effects.join(" · "));
    if fits(&long) {
        return long;
    }
    // As many as there is room for, and a sign that there are more.
    let some = |count: usize| {
        let more = if count < effects.len() { " …" } else { "." };
        format!("Left out: {}{more}", effects[..count].join(", "))
    };
    (1..=effects.len())
        .rev()
        .map(some)
        .find(fits)
        .unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_grouped_and_efficiency_keeps_its_digits() {
        assert_eq!(thousands(1_000_000), "1\u{2009}000\u{2009}000");
        assert_eq!(thousands(999), "999");
        assert_eq!(percent_of_caught(0.00338), "99.662 %");
        assert_eq!(percent_of_caught(0.25), "75.0 %");
        assert_eq!(
            with_error(0.371_2, 0.057_71),
            ("0.371".to_owned(), "0.058".to_owned())
        );
        assert_eq!(
            with_error(36.79, 1.3),
            ("36.8".to_owned(), "1.3".to_owned())
        );
    }
}
