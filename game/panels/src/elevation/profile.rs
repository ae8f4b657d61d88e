//! How fast the gas meets each height of the first field: arrows behind the distribution plates, as long as the gas is fast.

use ashlane_shared::units::{Dimension, display, number_text};

use super::{ElevationPlaces, ElevationView, Measures, ducts::plates_at_m, parts::AreaM};
use crate::{
    drawing::{Drawing, Name, Point},
    theme::Ink,
};

/// Gas of the mean velocity gets an arrow of this share of the room between plate and field.
const MEAN: f64 = 0.6;
/// From the plate to the arrows, and from the longest to the field, m.
const OFF_M: f64 = 0.1;

/// Lowest and highest mean of a row, m/s.
pub(super) fn range_m_s(view: &ElevationView<'_>) -> Option<(f64, f64)> {
    let rows = view.face_rows_m_s;
    let fold = |pick: fn(f64, f64) -> f64| rows.iter().copied().reduce(pick);
    fold(f64::min).zip(fold(f64::max))
}

/// Where the arrows stand.
pub(super) fn area_m(view: &ElevationView<'_>, measures: &Measures) -> Option<AreaM> {
    range_m_s(view)?;
    Some([from_m(view, measures), 0.0, -OFF_M, measures.plate_m])
}

/// Where the arrows begin: behind the last plate, or at the wall where there is none.
fn from_m(view: &ElevationView<'_>, measures: &Measures) -> f64 {
    let plate_m = plates_at_m(view, measures).first().copied();
    plate_m.unwrap_or_else(|| measures.walls_m().0) + OFF_M
}

/// Tips of the arrows, the roof first.
fn tips(view: &ElevationView<'_>, places: &ElevationPlaces) -> Vec<Point> {
    let rows = view.face_rows_m_s;
    let mean_m_s = rows.iter().sum::<f64>() / rows.len().max(1) as f64;
    let begin_m = from_m(view, &places.measures);
    let m_per_m_s = MEAN * (-OFF_M - begin_m) / mean_m_s;
    let step_m = places.measures.plate_m / rows.len().max(1) as f64;
    let tips = rows.iter().enumerate().map(|(row, m_s)| {
        let height_m = places.measures.plate_m - (row as f64 + 0.5) * step_m;
        places.at(begin_m + m_per_m_s * m_s, height_m)
    });
    tips.collect()
}

pub(super) fn profile(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    let tips = tips(view, places);
    let begin = places.x(from_m(view, &places.measures));
    for [x, y] in &tips {
        drawing.line([[begin, *y], [*x, *y]], Ink::Gas, 1.2);
        let back = x - 4.0 * places.way();
        drawing.line([[back, y - 2.5], [*x, *y], [back, y + 2.5]], Ink::Gas, 1.2);
    }
    if tips.len() > 1 {
        drawing.line(tips, Ink::Gas, 0.8);
    }
}

/// Its name, with the slowest and the fastest row.
pub(super) fn name(view: &ElevationView<'_>, places: &ElevationPlaces) -> Option<Name> {
    let (low, high) = range_m_s(view)?;
    let target = *tips(view, places).get(1)?;
    let shown = |m_s: f64| display(m_s, Dimension::Velocity, view.units);
    let ((low, unit), (high, _)) = (shown(low), shown(high));
    let (low, high) = (number_text(low, 3), number_text(high, 3));
    Some((target, format!("gas {low} to {high} {unit}")))
}
