//! The whole figure: heading, the path of the grain, and below it forces, charge and speed.

use ashlane_shared::simulation::{FOLLOW_TOLERANCE, GrainFate, GrainPoint};

use super::{
    GrainView, charge, forces, grouped, path,
    places::{LINE, Places},
    speed,
};
use crate::{
    charts::plain_number,
    drawing::{Anchor, Drawing, Item, Point, lines_of},
    theme::{BODY, Ink, SMALL},
};

/// Room for the numbers of charts that stand over one another.
const NUMBERS: f32 = 50.0;

/// Draws the view in a drawing of this size.
#[must_use]
pub fn drawing(view: &GrainView<'_>, size: Point) -> Drawing {
    let heading = lines_of(heading(view), " · ", size[0] - 24.0);
    let places = Places::below(size, heading.len());
    let mut drawing = Drawing::new(size);
    title(&mut drawing, heading);
    let before = drawing.items.len();
    path::path(&mut drawing, view, places.strip);
    if view.is_mirrored() {
        let middle = 0.5 * (places.strip.0[0] + places.strip.1[0]);
        let strip: Vec<Item> = drawing.items.drain(before..).collect();
        let strip = strip.into_iter().map(|item| item.mirrored(middle));
        drawing.items.extend(strip);
    }
    let Some(now) = view.now() else {
        waiting(&mut drawing, view, &places);
        return drawing;
    };
    if !view.is_charged() {
        uncharged(&mut drawing, view, &places);
        return drawing;
    }
    if let (Some(part), Some(found)) = (places.forces, &view.forces) {
        forces::forces(&mut drawing, view, (now, found), part);
    }
    let stacked = places.is_stacked();
    let numbers = if stacked { NUMBERS } else { 0.0 };
    charge::charge(&mut drawing, view, places.charge, numbers);
    if let Some(part) = places.speed {
        // One over the other, both charts have one axis of time.
        let names = if stacked { charge::names_room() } else { 12.0 };
        speed::speed(&mut drawing, view, part, (numbers, names));
    }
    drawing
}

/// Top left and bottom right of the lens with the grain in it; nothing where there is none.
pub(crate) fn lens(view: &GrainView<'_>, size: Point) -> Option<[Point; 2]> {
    let heading = lines_of(heading(view), " · ", size[0] - 24.0);
    let part = Places::below(size, heading.len()).forces?;
    (view.is_charged() && view.forces.is_some()).then(|| forces::lens(part))
}

fn title(drawing: &mut Drawing, heading: Vec<String>) {
    let words = "One grain, followed from the inlet on";
    drawing.bold([12.0, 13.0], Anchor::Left, words, BODY, Ink::Text);
    for (line, text) in heading.into_iter().enumerate() {
        let y = 31.0 + line as f32 * LINE;
        drawing.text([12.0, y], Anchor::Left, text, SMALL, Ink::Dust);
    }
}

/// Size, charge and fate, or what is waited for.
fn heading(view: &GrainView<'_>) -> Vec<String> {
    let size = view.diameter();
    let Some(now) = view.now() else {
        return vec![format!("Waiting for a grain of {size} to enter …")];
    };
    let mut parts = vec![format!("{size} grain")];
    if view.is_charged() {
        parts.push(format!("{} e", grouped(now.charge_e)));
    }
    parts.push(fate(view, now));
    parts
}

fn fate(view: &GrainView<'_>, now: &GrainPoint) -> String {
    let time = plain_number(now.time_s);
    let name = |field: usize| view.conditions.short_field_name(field);
    match view.grain.fate {
        Some(GrainFate::Caught { field }) => {
            format!("caught in {} after {time} s", name(field))
        }
        Some(GrainFate::Left) => format!("left with the gas after {time} s"),
        Some(GrainFate::RecordFull) => format!("still in the gas after {time} s"),
        None if now.exposed => format!("in {} after {:.1} s", name(now.field), now.time_s),
        None => format!("around the charged zone of {}", name(now.field)),
    }
}

/// What is waited for, below the empty passage.
fn waiting(drawing: &mut Drawing, view: &GrainView<'_>, places: &Places) {
    let single = view.conditions.teaching.single_diameter_m.is_some();
    let percent = plain_number(100.0 * FOLLOW_TOLERANCE);
    let words = if single {
        "The next grain is followed: all are of one size.".to_owned()
    } else {
        format!("The next grain within {percent} % of this size is followed.")
    };
    let y = places.charge.0[1] + LINE;
    let x = 0.5 * drawing.size[0];
    drawing.text([x, y], Anchor::Centre, words, SMALL, Ink::Faint);
}

/// One migration velocity is given: no charge, no forces.
fn uncharged(drawing: &mut Drawing, view: &GrainView<'_>, places: &Places) {
    let ([left, top], _) = places.forces.unwrap_or(places.charge);
    let words = "One migration velocity is given: no charge is computed.";
    drawing.text([left, top + 8.0], Anchor::Left, words, SMALL, Ink::Text);
    let end = places.speed.unwrap_or(places.charge).1;
    speed::speed(drawing, view, ([left, top + 26.0], end), (0.0, 12.0));
}
