//! The chart of the face: legible, its bars hold every reading, its check and its verdicts notice what is off.

use std::sync::OnceLock;

use ashlane_panels::{
    charts::{FaceView, face_check, face_drawing, face_note, row_means},
    drawing::Item,
    theme::Ink,
};
use ashlane_shared::{
    checks::Verdict,
    conditions::demonstration,
    physics::gas_path::uniformity::uniformity,
    simulation::{face_velocities, readings_m_s},
    units::UnitSystem,
};

use crate::drawings::texts_are_legible;

/// Readings up and across.
pub(crate) const GRID: (usize, usize) = (10, 20);

fn readings() -> &'static [f64] {
    static READINGS: OnceLock<Vec<f64>> = OnceLock::new();
    READINGS.get_or_init(|| {
        let pattern = face_velocities(1, 0.1, GRID.0, GRID.1).expect("possible");
        readings_m_s(&pattern, demonstration().gas_velocity_m_s()).expect("possible")
    })
}

fn of(readings_m_s: &[f64], units: UnitSystem) -> FaceView<'_> {
    FaceView {
        readings_m_s,
        uniformity: uniformity(readings_m_s).expect("readings"),
        flow_m3_s: 118.8,
        face_m2: 33.0 * 0.3 * 10.0,
        units,
    }
}

/// Its rows.
pub(crate) fn rows_m_s() -> &'static [f64] {
    static ROWS: OnceLock<Vec<f64>> = OnceLock::new();
    ROWS.get_or_init(|| row_means(readings(), GRID.1))
}

/// The face of the demonstration.
pub(crate) fn view(units: UnitSystem) -> FaceView<'static> {
    of(readings(), units)
}

#[test]
fn the_face_is_legible_at_every_width() {
    for units in [UnitSystem::Si, UnitSystem::Us] {
        for width in [260.0, 310.0, 420.0, 560.0] {
            let size = [width, (0.66_f32 * width).clamp(190.0, 280.0)];
            let drawing = face_drawing(&view(units), size);
            texts_are_legible(&drawing, &format!("{units:?} {size:?}"));
        }
    }
}

#[test]
fn the_bars_hold_every_reading() {
    let drawing = face_drawing(&view(UnitSystem::Si), [420.0, 260.0]);
    let heights: f32 = drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Rect {
                min,
                max,
                ink: Ink::Gas,
                ..
            } => Some(max[1] - min[1]),
            _ => None,
        })
        .sum();
    // The highest bar is the top of the axis over 1.12; all bars together are 100 %.
    let shares: Vec<usize> = (0..20)
        .map(|bar| {
            let edges = (0.1 * f64::from(bar) * 1.2, 0.1 * f64::from(bar + 1) * 1.2);
            let inside = |reading: &&f64| (edges.0..edges.1).contains(*reading);
            readings().iter().filter(inside).count()
        })
        .collect();
    let most = shares.iter().copied().max().expect("bars") as f32 / 200.0;
    let plot_height = 260.0 - 22.0 - 64.0;
    let total = heights / plot_height * 1.12 * most;
    assert!((total - 1.0).abs() < 0.01, "{total}");
}

#[test]
fn continuity_agrees_and_an_uneven_face_is_told() {
    let mut view = view(UnitSystem::Si);
    assert_eq!(face_check(&view).verdict, Verdict::Agree);
    assert!(!face_note(&view).contains("NOT"), "{}", face_note(&view));
    view.flow_m3_s *= 1.01;
    assert_eq!(face_check(&view).verdict, Verdict::Disagree);
    let pattern = face_velocities(1, 0.3, 10, 20).expect("possible");
    let uneven = readings_m_s(&pattern, 1.2).expect("possible");
    assert!(face_note(&of(&uneven, UnitSystem::Si)).contains("NOT kept"));
}
