//! Speed towards the plate against time: as flown, and by the formula w = q E Cc/(3πµd).

use ashlane_shared::units::{Dimension, display};

use super::{
    GrainView,
    chart::{Chart, Stroke, time_axis_s},
    places::Part,
};
use crate::{drawing::Drawing, theme::Ink};

/// Plain Stokes.
const STOKES: Stroke = Stroke {
    ink: Ink::Deutsch,
    width: 1.6,
    dash: None,
};
/// With Schiller & Naumann's drag.
const REAL: Stroke = Stroke {
    ink: Ink::FiniteMixing,
    width: 1.6,
    dash: Some((6.0, 4.0)),
};
/// The highest speeds are left out of the scale up to this share of the points: next to a wire they stand far out.
const PEAKS: f64 = 0.02;

/// Draws the chart.
pub(super) fn speed(drawing: &mut Drawing, view: &GrainView<'_>, part: Part, margins: (f32, f32)) {
    let points = &view.grain.points;
    let shown = |speed_m_s: f64| display(speed_m_s, Dimension::MigrationVelocity, view.units).0;
    let (_, unit) = display(0.0, Dimension::MigrationVelocity, view.units);
    let charged = view.is_charged();
    let key = [
        (None, "flown"),
        (Some(STOKES), "w = q E Cc/(3πµd)"),
        (Some(REAL), "with Schiller–Naumann drag"),
    ];
    let key = &key[..if charged { key.len() } else { 1 }];
    let ([left, _], [right, _]) = part;
    // Beside a long key the title is short.
    let title = if right - left < 420.0 {
        format!("Speed, {unit}")
    } else {
        format!("Speed towards the plate, {unit}")
    };
    let (part, named) = Chart::title(drawing, part, &title, key);
    let flown: Vec<(f64, f64)> = points
        .iter()
        .map(|point| (point.time_s, shown(point.speed_m_s)))
        .collect();
    let mut speeds: Vec<f64> = flown.iter().map(|(_, speed)| *speed).collect();
    if charged {
        speeds.extend(view.curves.stokes_m_s.iter().map(|speed| shown(*speed)));
    }
    speeds.sort_by(f64::total_cmp);
    let high = ((speeds.len() as f64 * (1.0 - PEAKS)) as usize).min(speeds.len() - 1);
    let last = flown.last().map_or(0.0, |(_, speed)| *speed);
    let full = 1.12 * speeds[high].max(last).max(shown(1e-3));
    let last_s = points.last().map_or(0.0, |point| point.time_s);
    let chart = Chart::new(drawing, part, (time_axis_s(last_s), full), margins);
    if charged {
        // Nothing is drawn that has no name; the first of the key are the dots.
        let lines = [
            (&view.curves.stokes_m_s, STOKES),
            (&view.curves.schiller_naumann_m_s, REAL),
        ];
        for (values, stroke) in lines.into_iter().take(named.saturating_sub(1)) {
            let times = points.iter().map(|point| point.time_s);
            let line = times.zip(values.iter().map(|speed| shown(*speed)));
            chart.line(drawing, line, stroke);
        }
    }
    chart.dots(drawing, &flown, Ink::Dust);
}
