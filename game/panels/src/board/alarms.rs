//! The alarms as words and marks: what each says, its figure for a file, and how many of each priority there are.

use ashlane_shared::{
    alarms::{Alarm, AlarmState, Annunciator, Point, Priority, Side, Tag, find_alarm},
    units::{Dimension, UnitSystem, format, number_text},
};

use super::{
    BoardView,
    mark::{BRACKET, MARK, mark_drawing},
    table::SIDE,
};
use crate::{
    drawing::{Anchor, Drawing, text_width},
    theme::{BODY, Ink, SMALL},
};

const HOUR_S: f64 = 3600.0;
/// Height of the heading and of a row in a figure.
const HEADING: f32 = 32.0;
const ROW: f32 = 28.0;
/// Most rows in a figure; of more it says how many.
const MOST_ROWS: usize = 6;

/// A time of the plant, as the trends have it.
pub(super) fn hours(time_s: f64) -> String {
    format!("{} h", number_text(time_s / HOUR_S, 3))
}

/// What is wrong and where, as the site calls it.
pub(super) fn name(view: &BoardView<'_>, tag: Tag) -> String {
    let what = find_alarm(tag.key).map_or(tag.key, |alarm| alarm.name);
    match tag.field {
        Some(field) => format!("{what}, {}", view.machine.conditions.field_name(field)),
        None => what.to_owned(),
    }
}

/// Priority and state in words.
pub(super) fn state_words(point: &Point) -> String {
    let state = match point.state {
        AlarmState::Shelved { until_s } => format!("shelved until {}", hours(until_s)),
        state => state.words().to_owned(),
    };
    format!("{}, {state}", point.priority.word())
}

/// When it called, and what its instruments show beside their set-points.
pub(super) fn reading_words(alarms: &Annunciator, point: &Point, units: UnitSystem) -> String {
    let called = point
        .called_s
        .map(|called_s| format!("called at {}", hours(called_s)));
    let alarm = find_alarm(point.tag.key);
    let signs = alarm.map_or_else(Vec::new, |alarm| sign_words(alarm, alarms, point, units));
    let words: Vec<String> = called.into_iter().chain(signs).collect();
    words.join(" · ")
}

/// Every instrument with what it shows and its set-point.
fn sign_words(
    alarm: &Alarm,
    alarms: &Annunciator,
    point: &Point,
    units: UnitSystem,
) -> Vec<String> {
    let (shown, field) = (alarms.shown(), point.tag.field.unwrap_or(0));
    let words = alarm.signs.iter().map(|sign| {
        let text = |value: Option<f64>| match (value, sign.dimension) {
            (None, _) => "not read".to_owned(),
            (Some(share), Dimension::Fraction) => {
                format!("{} %", number_text((1e3 * share).round() / 10.0, 3))
            }
            (Some(value), dimension) => format(value, dimension, units),
        };
        let side = match sign.side {
            Side::Above => "from",
            Side::Below => "below",
        };
        let (reading, set_point) = ((sign.reading)(shown, field), (sign.set_point)(shown, field));
        format!(
            "{} {} (alarm {side} {})",
            sign.instrument,
            text(reading),
            text(set_point)
        )
    });
    words.collect()
}

/// How many there are of a priority, in words.
pub(super) fn count_words(alarms: &Annunciator, priority: Priority) -> String {
    format!("{} {}", alarms.count(priority), priority.word())
}

/// The list as a figure as high as it needs to be.
pub(super) fn drawing(view: &BoardView<'_>, width: f32) -> Drawing {
    let list = view.alarms.announced();
    let rows = list.len().min(MOST_ROWS);
    let more = usize::from(list.len() > MOST_ROWS);
    let height = HEADING + ROW * (rows + more).max(1) as f32;
    let mut drawing = Drawing::new([width, height]);
    drawing.bold(
        [SIDE, 0.5 * HEADING],
        Anchor::Left,
        "Alarms",
        BODY,
        Ink::Text,
    );
    counts(&mut drawing, view.alarms);
    if list.is_empty() {
        let at = [SIDE, HEADING + 0.5 * ROW];
        drawing.text(at, Anchor::Left, "no alarm", SMALL, Ink::Faint);
    }
    for (index, point) in list.iter().take(MOST_ROWS).enumerate() {
        row(&mut drawing, view, point, HEADING + ROW * index as f32);
    }
    if more > 0 {
        let at = [SIDE, HEADING + ROW * (rows as f32 + 0.5)];
        let text = format!("and {} more", list.len() - MOST_ROWS);
        drawing.text(at, Anchor::Left, text, SMALL, Ink::Text);
    }
    drawing
}

/// Mark and number of every priority, beside the heading.
fn counts(drawing: &mut Drawing, alarms: &Annunciator) {
    let mut x = SIDE + 64.0;
    for priority in Priority::ALL {
        let text = count_words(alarms, priority);
        let end = x + MARK + 5.0 + text_width(&text, SMALL, false);
        if end > drawing.size[0] {
            return;
        }
        let at = [x - BRACKET, 0.5 * (HEADING - MARK)];
        let mark = mark_drawing(priority, false);
        drawing
            .items
            .extend(mark.items.into_iter().map(|item| item.moved(at)));
        let at = [x + MARK + 5.0, 0.5 * HEADING];
        drawing.text(at, Anchor::Left, text, SMALL, Ink::Text);
        x = end + 16.0;
    }
}

fn row(drawing: &mut Drawing, view: &BoardView<'_>, point: &Point, top: f32) {
    let middle = top + 0.5 * ROW;
    let waits = point.state.is_unacknowledged();
    let mark = mark_drawing(point.priority, waits);
    let at = [SIDE, middle - 0.5 * MARK];
    drawing
        .items
        .extend(mark.items.into_iter().map(|item| item.moved(at)));
    let x = SIDE + BRACKET + MARK + 7.0;
    let (name, state) = (name(view, point.tag), state_words(point));
    let reading = reading_words(view.alarms, point, view.machine.units);
    let room = drawing.size[0] - SIDE - x;
    let whole = [
        format!("{name}: {state} · {reading}"),
        format!("{name}: {state}"),
        name,
    ];
    let fits = |text: &&String| text_width(text, SMALL, waits) <= room;
    let Some(text) = whole.iter().find(fits) else {
        return;
    };
    if waits {
        drawing.bold([x, middle], Anchor::Left, text, SMALL, Ink::Text);
    } else {
        drawing.text([x, middle], Anchor::Left, text, SMALL, Ink::Text);
    }
}
