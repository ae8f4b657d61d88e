//! The potential of the wire row against other forms of itself.

use super::*;
use proptest::prelude::*;

fn row(gap_m: f64, pitch_m: f64) -> WireRow {
    WireRow::new(gap_m, pitch_m, 1e-3).expect("a sensible row")
}

/// Cooperman's series as White prints it: an independent form of the same potential.
fn cooperman(row: &WireRow, x_m: f64, y_m: f64) -> f64 {
    let s = row.gap_m;
    let across = (0.5 * PI * y_m / s).cos();
    let term = |m: i32| {
        let along = (0.5 * PI * (x_m - f64::from(m) * row.pitch_m) / s).cosh();
        ((along + across) / (along - across)).ln()
    };
    0.5 * (-60..=60).map(term).sum::<f64>()
}

proptest! {
    #[test]
    fn image_rows_equal_cooperman(ratio in 0.2..2.0_f64, x in 0.02..0.98_f64, y in 0.0..0.99_f64) {
        let row = row(0.15, 0.15 / ratio);
        let (x_m, y_m) = (x * row.pitch_m, y * row.gap_m);
        prop_assert!((row.line_potential(x_m, y_m) - cooperman(&row, x_m, y_m)).abs() < 1e-9);
    }

    #[test]
    fn field_is_the_slope_of_the_potential(x in 0.05..0.95_f64, y in -0.95..0.95_f64) {
        let row = row(0.115, 0.15);
        let (x_m, y_m, step_m) = (x * row.pitch_m, y * row.gap_m, 1e-6);
        let slope = |dx: f64, dy: f64| {
            (row.potential(x_m - dx, y_m - dy) - row.potential(x_m + dx, y_m + dy)) / (2.0 * step_m)
        };
        // Central differences across the wire plane are exact too: E_y is odd and smooth there.
        let (along, across) = row.field_per_volt_1_m(x_m, y_m);
        prop_assert!((slope(step_m, 0.0) - along).abs() < 1e-5 * (1.0 + along.abs()));
        prop_assert!((slope(0.0, step_m) - across).abs() < 1e-5 * (1.0 + across.abs()));
    }

    #[test]
    fn symmetric_about_wires_and_planes(x in -1.0..1.0_f64, y in -1.0..1.0_f64) {
        let row = row(0.15, 0.25);
        let (x_m, y_m) = (x * row.pitch_m, y * row.gap_m);
        let here = row.potential(x_m, y_m);
        prop_assert!((here - row.potential(-x_m, -y_m)).abs() < 1e-12);
        prop_assert!((here - row.potential(x_m + 3.0 * row.pitch_m, y_m)).abs() < 1e-11);
    }
}

#[test]
fn the_wire_surface_is_an_equipotential() {
    let row = row(0.15, 0.25);
    for degrees in [0.0_f64, 30.0, 60.0, 90.0] {
        let (sine, cosine) = degrees.to_radians().sin_cos();
        let surface = row.potential(1.000_001e-3 * cosine, 1.000_001e-3 * sine);
        // Thin-wire error (r_w/s)² is 4e-5.
        assert!(
            (surface - 1.0).abs() < 4e-5,
            "{surface} at {degrees} degrees"
        );
    }
    assert!(
        (row.potential(0.0, 0.0) - 1.0).abs() < 1e-15,
        "inside the wire"
    );
}

#[test]
fn mean_field_is_the_mean_of_the_field() {
    let row = row(0.115, 0.15);
    let count = 64;
    for y_m in [0.02, 0.06, 0.115] {
        let sum: f64 = (0..count)
            .map(|i| {
                row.field_per_volt_1_m(row.pitch_m * f64::from(i) / f64::from(count), y_m)
                    .1
            })
            .sum();
        let mean = sum / f64::from(count);
        let expected = row.mean_field_per_volt_1_m();
        assert!((mean / expected - 1.0).abs() < 3e-4, "{mean} at {y_m}");
    }
}

#[test]
fn impossible_rows_are_refused() {
    for (gap_m, pitch_m, wire_radius_m) in [
        (0.0, 0.1, 1e-3),
        (0.1, -0.1, 1e-3),
        (0.1, 2.0, 1e-3),
        (0.1, 0.1, 0.03),
        (0.1, f64::NAN, 1e-3),
    ] {
        assert!(
            WireRow::new(gap_m, pitch_m, wire_radius_m).is_err(),
            "{gap_m} {pitch_m} {wire_radius_m}"
        );
    }
}
