//! Discharge electrodes of each kind between the upper and the lower high-voltage frame, as seen from the side.

use ashlane_shared::conditions::Electrode;

use super::{ElevationPlaces, ElevationView, measures::LOWER_FRAME_M};
use crate::{
    drawing::{Drawing, Point},
    theme::Ink,
};

/// From the upper edge of the plates to the upper frame, m; common practice, no source.
pub(crate) const UPPER_FRAME_M: f64 = 0.2;
/// Distance and length of points, m, and least of both on the drawing, points; common practice, no source.
const POINTS_M: (f64, f64) = (0.1, 0.025);
const LEAST: (f64, f64) = (5.0, 2.0);
/// Weight at the foot of a wire: how far below the lower frame it ends, and its width, m; common practice, no source.
const WEIGHT_M: (f64, f64) = (0.34, 0.07);

/// Every electrode of a field in its frames.
pub(super) fn electrodes(
    drawing: &mut Drawing,
    view: &ElevationView<'_>,
    places: &ElevationPlaces,
    field: usize,
) {
    let measures = &places.measures;
    let count = view.conditions.wires_per_field();
    let pitch_m = measures.field_m / f64::from(count);
    let (upper_m, lower_m) = (measures.plate_m + UPPER_FRAME_M, -LOWER_FRAME_M);
    let electrode_m = |wire: u32| measures.field_at_m(field) + (f64::from(wire) + 0.5) * pitch_m;
    let kind = view.conditions.appearance.electrode;
    let at = |x_m: f64, height_m: f64| places.at(x_m, height_m);
    for wire in 0..count {
        let place = (electrode_m(wire), upper_m, lower_m);
        electrode(drawing, kind, place, places.scale, &at);
    }
    let ends_m = (electrode_m(0), electrode_m(count.saturating_sub(1)));
    // A wire that is held needs bars of a frame between; what hangs by its weight or stands by itself does not.
    let bars: &[f64] = match kind {
        Electrode::Wire => &[0.0, 0.25, 0.5, 0.75, 1.0],
        _ => &[0.0, 1.0],
    };
    for share in bars {
        let height_m = lower_m + share * (upper_m - lower_m);
        let width = if matches!(*share, 0.0 | 1.0) {
            1.8
        } else {
            0.8
        };
        let bar = [places.at(ends_m.0, height_m), places.at(ends_m.1, height_m)];
        drawing.line(bar, Ink::HighVoltage, width);
    }
}

/// One electrode, upright at x between two heights, m; seen from the side or along the gas.
pub(crate) fn electrode(
    drawing: &mut Drawing,
    kind: Electrode,
    (x_m, upper_m, lower_m): (f64, f64, f64),
    scale: f32,
    at: &dyn Fn(f64, f64) -> Point,
) {
    let bare = vec![at(x_m, upper_m), at(x_m, lower_m)];
    match kind {
        Electrode::Wire => drawing.line(bare, Ink::Electrode, 0.7),
        Electrode::WeightedWire => {
            drawing.line(bare, Ink::Electrode, 0.7);
            let hung = vec![at(x_m, lower_m), at(x_m, lower_m - 0.08)];
            drawing.line(hung, Ink::Electrode, 0.7);
            let foot_m = lower_m - WEIGHT_M.0;
            let weight = vec![at(x_m, lower_m - 0.08), at(x_m, foot_m)];
            let width = (WEIGHT_M.1 as f32 * scale).max(2.4);
            drawing.line(weight, Ink::HighVoltage, width);
        }
        Electrode::RigidMast => {
            drawing.line(bare, Ink::Electrode, (0.04 * scale).clamp(1.4, 6.0));
            let ends_m = (x_m, upper_m - 0.2, lower_m + 0.2);
            drawing.line(points(ends_m, scale, true, at), Ink::Electrode, 0.7);
        }
        Electrode::SpikedStrip => {
            let ends_m = (x_m, upper_m - 0.2, lower_m + 0.2);
            drawing.line(bare, Ink::Electrode, 0.7);
            drawing.line(points(ends_m, scale, false, at), Ink::Electrode, 0.8);
        }
    }
}

/// The points of an electrode in one line up its spine: in pairs, or on one side and the other in turn.
fn points(
    (x_m, upper_m, lower_m): (f64, f64, f64),
    scale: f32,
    in_pairs: bool,
    at: &dyn Fn(f64, f64) -> Point,
) -> Vec<Point> {
    let least = |points: f64| points / f64::from(scale);
    let pitch_m = POINTS_M.0.max(least(LEAST.0));
    let reach_m = POINTS_M.1.max(least(LEAST.1));
    let count = ((upper_m - lower_m) / pitch_m).floor().max(1.0) as usize;
    let mut line = Vec::with_capacity(4 * count);
    for point in 0..count {
        let height_m = lower_m + pitch_m * (point as f64 + 0.5);
        let side = if point % 2 == 0 { 1.0 } else { -1.0 };
        line.push(at(x_m, height_m));
        line.push(at(x_m + side * reach_m, height_m));
        if in_pairs {
            line.push(at(x_m - side * reach_m, height_m));
        }
        line.push(at(x_m, height_m));
    }
    line
}
