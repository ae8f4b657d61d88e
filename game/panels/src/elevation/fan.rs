//! The fan at grade: the gas comes in along its axis, through a box beside the wheel, and leaves the scroll at its rim.

use std::f64::consts::FRAC_PI_4;

use super::{
    ElevationPlaces,
    casing::WALL,
    fittings::{Across, louvre},
    measures::{INLET_BOX, Measures, SCROLL},
    parts::AreaM,
};
use crate::{
    drawing::{Drawing, Item, Point},
    theme::Ink,
};

/// Where the scroll begins, at its tongue, in radii of the wheel; common practice, no source.
const TONGUE: f64 = 1.15;
/// Pieces of a curve.
const PIECES: usize = 28;
/// Half the width of the inlet box, the eye of the wheel and its hub, in radii of the wheel; common practice, no source.
const BOX: f64 = 1.0;
const EYE: f64 = 0.6;
const HUB: f64 = 0.16;
/// Where the inlet box is as narrow as it gets, in radii of the wheel.
const NARROW: f64 = 1.9;
/// Blades that are seen through the eye.
const BLADES: usize = 10;

/// Places round the axis in radii of the wheel: u to where the gas leaves, v to where it comes from.
struct Round<'a> {
    places: &'a ElevationPlaces,
}

impl Round<'_> {
    fn metres(&self, u: f64, v: f64) -> (f64, f64) {
        let measures = &self.places.measures;
        let (x_m, height_m) = (measures.fan_at_m(), measures.fan_height_m());
        let (u_m, v_m) = (measures.wheel_m() * u, measures.wheel_m() * v);
        if measures.pushes {
            (x_m - v_m, height_m + u_m)
        } else {
            (x_m + u_m, height_m + v_m)
        }
    }

    fn at(&self, u: f64, v: f64) -> Point {
        let (x_m, height_m) = self.metres(u, v);
        self.places.at(x_m, height_m)
    }

    /// A stretch of a curve round the axis, by eighths of a turn, its radius growing evenly.
    fn curve(&self, eighths: (f64, f64), radii: (f64, f64)) -> impl Iterator<Item = Point> {
        (0..=PIECES).map(move |piece| {
            let share = piece as f64 / PIECES as f64;
            let turned = FRAC_PI_4 * (eighths.0 + share * (eighths.1 - eighths.0));
            let radius = radii.0 + share * (radii.1 - radii.0);
            self.at(radius * turned.cos(), radius * turned.sin())
        })
    }
}

pub(super) fn fan(drawing: &mut Drawing, places: &ElevationPlaces) {
    let round = Round { places };
    scroll(drawing, &round);
    inlet_box(drawing, &round);
    drawing.line(
        round.curve((0.0, 8.0), (EYE, EYE)).collect::<Vec<_>>(),
        Ink::Metal,
        1.2,
    );
    for blade in 0..BLADES {
        let eighths = 8.0 * blade as f64 / BLADES as f64;
        let (inner, outer) = (
            round.curve((eighths, eighths), (HUB, HUB)).next(),
            round
                .curve((eighths + 0.5, eighths + 0.5), (EYE, EYE))
                .next(),
        );
        drawing.line(
            inner.into_iter().chain(outer).collect::<Vec<_>>(),
            Ink::Metal,
            0.8,
        );
    }
    let hub = HUB as f32 * places.measures.wheel_m() as f32 * places.scale;
    drawing.dot(round.at(0.0, 0.0), hub.max(1.4), Ink::Metal);
}

/// From the tongue round to where the scroll is widest, and on as a duct that widens.
fn scroll(drawing: &mut Drawing, round: &Round<'_>) {
    let measures = &round.places.measures;
    let mut outer: Vec<Point> = round.curve((-1.0, 6.0), (TONGUE, SCROLL)).collect();
    let tongue = TONGUE * FRAC_PI_4.cos();
    let mut inner = vec![round.at(tongue, -tongue)];
    let wheel_m = measures.wheel_m();
    if measures.pushes {
        let left_m = measures.riser_at_m() - 0.5 * measures.duct_m;
        let across = (measures.fan_at_m() - left_m) / wheel_m;
        outer.push(round.at(INLET_BOX, -SCROLL));
        inner.push(round.at(INLET_BOX, across));
    } else {
        let stack_m = measures.stack_at_m() - 0.5 * measures.stack_m;
        let end = (stack_m - measures.fan_at_m()) / wheel_m;
        outer.push(round.at(end, -SCROLL));
        inner.push(round.at(end, -tongue + 0.3 * (end - tongue)));
    }
    drawing.line(outer, Ink::Metal, WALL);
    drawing.line(inner, Ink::Metal, WALL);
}

/// In front of the scroll: narrower than the duct, round below the eye, with the damper that trims the flow.
fn inlet_box(drawing: &mut Drawing, round: &Round<'_>) {
    let measures = &round.places.measures;
    let wide = 0.5 * measures.duct_m / measures.wheel_m();
    let mut outline = vec![round.at(-wide, INLET_BOX), round.at(-BOX, NARROW)];
    outline.extend(round.curve((4.0, 8.0), (BOX, BOX)));
    outline.extend([round.at(BOX, NARROW), round.at(wide, INLET_BOX)]);
    drawing.items.push(Item::Area {
        points: outline.clone(),
        ink: Ink::Ground,
        opacity: 1.0,
    });
    drawing.line(outline, Ink::Metal, WALL);
    if measures.pushes {
        let heater_m = measures.heater_m()[2];
        let begin = (measures.fan_at_m() - heater_m) / measures.wheel_m();
        for side in [-wide, wide] {
            drawing.line(
                [round.at(side, begin), round.at(side, INLET_BOX)],
                Ink::Metal,
                WALL,
            );
        }
    }
    louvre(drawing, round.places, &damper(measures));
}

/// The damper in the neck of the inlet box.
pub(super) fn damper(measures: &Measures) -> Across {
    let off_m = 0.5 * (NARROW + BOX) * measures.wheel_m();
    let (x_m, height_m) = (measures.fan_at_m(), measures.fan_height_m());
    let half_m = BOX * measures.wheel_m();
    if measures.pushes {
        Across {
            middle_m: (x_m - off_m, height_m),
            half_m,
            upright: false,
        }
    } else {
        Across {
            middle_m: (x_m, height_m + off_m),
            half_m,
            upright: true,
        }
    }
}

/// Where the fan lies.
pub(super) fn fan_m(measures: &Measures) -> AreaM {
    let reach_m = SCROLL * measures.wheel_m();
    let (x_m, height_m) = (measures.fan_at_m(), measures.fan_height_m());
    [
        x_m - reach_m,
        height_m - reach_m,
        x_m + reach_m,
        height_m + reach_m,
    ]
}
