//! The dust on the plates of the plan: how thick it lies, and the sheets that fall after a blow.
//!
//! Seen from above, a sheet falls away from the eye: it is drawn where it came off, and fades as fast as it leaves the
//! plate at its bottom edge. Free fall is an idealisation; a sheet that scrapes along the plate takes longer.

use ashlane_shared::{
    machine::{FallenSheet, Turn},
    simulation::{LAYER_BINS_PER_FIELD, TIME_STEP_S},
    units::{Dimension, display, number_text},
};

use super::{PlanPlaces, PlanView, nice_below};
use crate::{
    drawing::{Anchor, Drawing, Point, text_width},
    theme::{Ink, SMALL},
};

/// Thickness of the thickest layer on the drawing, points; more where it is thicker than that to scale.
const THICKEST: f64 = 12.0;
/// How far a sheet stands off the layer behind it when it comes off and when it is gone, points.
const OFF: (f32, f32) = (3.0, 7.0);
/// Flight after which the drawn dust tells how a layer differs along its field, s.
const SHAPE_S: f64 = 8.0;
/// Distance of the words from the plates and from the wires, points.
const WORDS: f32 = 44.0;
const BESIDE_WIRES: f32 = 24.0;
/// Room between the words at both plates from which on there are two or three rows of them, points.
const TWO_ROWS: f32 = 22.0;
const THREE_ROWS: f32 = 86.0;

/// Draws the dust on the plates and what falls from them; returns how many times too thick it is drawn.
pub(super) fn layers(
    drawing: &mut Drawing,
    view: &PlanView<'_>,
    places: &PlanPlaces,
) -> Option<f64> {
    let slabs: Vec<Slab> = (0..view.plates.len())
        .flat_map(|field| [0, 1].map(|plate| Slab::new(view, field, plate)))
        .collect();
    let thickest_m = slabs.iter().map(Slab::thickest_m).fold(0.0, f64::max);
    if thickest_m <= 0.0 {
        return None;
    }
    let times = nice_below(THICKEST / (thickest_m * f64::from(places.across_per_m()))).max(1.0);
    let points_per_m = times as f32 * places.across_per_m();
    for slab in &slabs {
        slab.draw(drawing, places, points_per_m);
    }
    Some(times)
}

/// Words about what falls, in the fields where it does.
pub(super) fn news(drawing: &mut Drawing, view: &PlanView<'_>, places: &PlanPlaces) {
    let field_m = view.conditions.collector.field_length_m as f32;
    for (field, plates) in view.plates.iter().enumerate() {
        let (start_m, end_m) = (field as f32 * field_m, (field + 1) as f32 * field_m);
        let (left, right) = places.edges(start_m, end_m);
        let mut say = |y: f32, texts: Vec<String>| {
            let fits = |text: &String| text_width(text, SMALL, false) < right - left - 12.0;
            if let Some(text) = texts.into_iter().find(fits) {
                let at = [0.5 * (left + right), y];
                drawing.label(at, Anchor::Centre, text, SMALL, Ink::Text);
            }
        };
        let [upper, lower] = [places.min[1] + WORDS, places.max[1] - WORDS];
        let [first, second] = plates
            .fallen
            .map(|fallen| fallen.filter(|sheet| sheet.is_news(view.step)));
        let turn = plates.turn.filter(|turn| turn.is_news(view.step));
        let turn = turn.map(|turn| turn_words(view, &turn));
        let words = |sheet: Option<FallenSheet>| sheet.map(|sheet| sheet_words(view, &sheet));
        // Beside the wires and not over them, where there is room.
        let rows = match lower - upper {
            room if room >= THREE_ROWS => vec![
                (upper, words(first)),
                (lower, words(second)),
                (0.5 * (upper + lower) + BESIDE_WIRES, turn),
            ],
            room if room >= TWO_ROWS => {
                vec![(upper, words(second.or(first))), (lower, turn)]
            }
            _ => vec![(0.5 * (upper + lower), turn)],
        };
        for (y, texts) in rows {
            texts.into_iter().for_each(|texts| say(y, texts));
        }
    }
}

fn mass(view: &PlanView<'_>, kg: f64) -> String {
    let (shown, unit) = display(kg, Dimension::Mass, view.units);
    format!("{} {unit}", number_text(shown, 3))
}

fn sheet_words(view: &PlanView<'_>, sheet: &FallenSheet) -> Vec<String> {
    let kg = mass(view, sheet.kg);
    let word = if sheet.gone(view.step) < 1.0 {
        "falls"
    } else {
        "fell"
    };
    vec![format!("sheet of {kg} {word}"), format!("{kg} {word}"), kg]
}

fn turn_words(view: &PlanView<'_>, turn: &Turn) -> Vec<String> {
    let (fallen, back) = (mass(view, turn.fallen_kg), mass(view, turn.back_kg));
    let (blow, blows) = turn.blow;
    vec![
        format!("all plates, blow {blow} of {blows}: {fallen} fell, {back} back into the gas"),
        format!("blow {blow} of {blows}: {fallen} fell, {back} back"),
        format!("{fallen} fell, {back} back"),
        format!("{back} back"),
    ]
}

/// The dust on one plate of a field, and the sheet that falls from it.
struct Slab {
    start_m: f64,
    bin_m: f64,
    upper: bool,
    /// How the layer differs along the field from its mean: as the drawn dust has settled.
    shape: Vec<f64>,
    layer_m: f64,
    /// Mean thickness of the sheet that is news, m, and how far it is gone: 1 when no more of it stands beside the plate.
    sheet: Option<(f64, f64)>,
}

impl Slab {
    fn new(view: &PlanView<'_>, field: usize, plate: usize) -> Self {
        let collector = &view.conditions.collector;
        let plates = &view.plates[field];
        let settled = view.deposits.bins_kg(plate == 0);
        let settled = settled.chunks(LAYER_BINS_PER_FIELD).nth(field);
        let mean_kg = settled.map_or(0.0, |bins| bins.iter().sum::<f64>() / bins.len() as f64);
        // The first grains say little about where the others go.
        let known = (view.step as f64 * TIME_STEP_S / SHAPE_S).min(1.0);
        let shape = match settled {
            Some(bins) if mean_kg > 0.0 => (bins.iter())
                .map(|kg| 1.0 + known * (kg / mean_kg - 1.0))
                .collect(),
            _ => vec![1.0; LAYER_BINS_PER_FIELD],
        };
        let gone = |sheet: FallenSheet| (sheet.thickness_m, sheet.gone(view.step));
        let fallen = plates.fallen[plate].filter(|sheet| sheet.is_news(view.step));
        Self {
            start_m: field as f64 * collector.field_length_m,
            bin_m: collector.field_length_m / shape.len() as f64,
            upper: plate == 0,
            shape,
            layer_m: plates.layer_m[plate],
            sheet: fallen.map(gone),
        }
    }

    /// Its thickest place, m, with what has fallen off it, so that the scale does not jump under a falling sheet.
    fn thickest_m(&self) -> f64 {
        let whole_m = self.layer_m + self.sheet.map_or(0.0, |(thickness_m, _)| thickness_m);
        self.shape.iter().fold(0.0, |most, part| part.max(most)) * whole_m
    }

    fn draw(&self, drawing: &mut Drawing, places: &PlanPlaces, points_per_m: f32) {
        let (plate, inwards) = if self.upper {
            (places.min[1], 1.0)
        } else {
            (places.max[1], -1.0)
        };
        let mut edge: Vec<Point> = Vec::new();
        for (bin, part) in self.shape.iter().enumerate() {
            let start_m = (self.start_m + bin as f64 * self.bin_m) as f32;
            if !places.shows(start_m + 0.5 * self.bin_m as f32) {
                continue;
            }
            let (left, right) = places.edges(start_m, start_m + self.bin_m as f32);
            let mut band = |from: f32, to: f32, opacity: f32| {
                let [one, other] = [from, to].map(|off| plate + inwards * off);
                let (top, bottom) = (one.min(other), one.max(other));
                drawing.rect([left, top], [right, bottom], Ink::Dust, opacity);
            };
            let layer = (part * self.layer_m) as f32 * points_per_m;
            if layer >= 0.2 {
                band(0.0, layer, 0.9);
            }
            let Some((thickness_m, gone)) = self.sheet.filter(|(_, gone)| *gone < 1.0) else {
                continue;
            };
            let gone = gone as f32;
            let from = layer + OFF.0 + (OFF.1 - OFF.0) * gone;
            let to = from + (part * thickness_m) as f32 * points_per_m;
            band(from, to, 0.9 * (1.0 - gone));
            let ends = if places.mirrored {
                [right, left]
            } else {
                [left, right]
            };
            edge.extend(ends.map(|x| [x, plate + inwards * to]));
        }
        // Colour is not the only cue: what falls has a broken edge.
        if edge.len() > 1 {
            drawing.dashed(edge, Ink::Text, 1.0);
        }
    }
}
