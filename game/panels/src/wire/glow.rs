//! The glowing skin of the wire: how far from it the field is strong enough to ionise the gas.

use std::f64::consts::FRAC_PI_2;

use super::WireView;

/// Directions in a quarter in which the edge of the glow is looked for.
const DIRECTIONS: usize = 12;
/// Halvings of the distance: a thousandth of a millionth of the gap.
const HALVINGS: usize = 30;

/// The edge of the glow around the wire, m, or nothing where no ions flow or the field is nowhere strong enough.
pub(super) fn glow_edge_m(view: &WireView<'_>) -> Option<Vec<[f64; 2]>> {
    if !view.has_corona() {
        return None;
    }
    let quarter: Vec<[f64; 2]> = (0..=DIRECTIONS)
        .map(|step| {
            let angle = FRAC_PI_2 * step as f64 / DIRECTIONS as f64;
            let reach_m = reach_m(view, angle)?;
            Some([reach_m * angle.cos(), reach_m * angle.sin()])
        })
        .collect::<Option<_>>()?;
    let mirrored = |x: f64, y: f64| {
        quarter
            .iter()
            .map(move |point| [x * point[0], y * point[1]])
    };
    let upper = mirrored(1.0, 1.0).chain(mirrored(-1.0, 1.0).rev().skip(1));
    let lower = mirrored(-1.0, -1.0).skip(1);
    let last = mirrored(1.0, -1.0).rev().skip(1).take(DIRECTIONS - 1);
    Some(upper.chain(lower).chain(last).collect())
}

/// Mean thickness of the glow, m; 0 without one.
pub(super) fn thickness_m(view: &WireView<'_>, edge_m: Option<&[[f64; 2]]>) -> f64 {
    let radius_m = view.field.row().wire_radius_m();
    edge_m.map_or(0.0, |edge| {
        let sum_m: f64 = edge.iter().map(|[x, y]| x.hypot(*y)).sum();
        sum_m / edge.len().max(1) as f64 - radius_m
    })
}

/// Distance from the middle of the wire at which the field falls to that of the glow, m.
fn reach_m(view: &WireView<'_>, angle_rad: f64) -> Option<f64> {
    let row = view.field.row();
    let strength =
        |from_m: f64| view.strength_v_m(from_m * angle_rad.cos(), from_m * angle_rad.sin());
    let mut near_m = row.wire_radius_m() * (1.0 + 1e-9);
    let mut far_m = 0.5 * row.gap_m().min(0.5 * row.pitch_m());
    if strength(near_m) <= view.glow_field_v_m || strength(far_m) >= view.glow_field_v_m {
        return None;
    }
    for _ in 0..HALVINGS {
        let middle_m = 0.5 * (near_m + far_m);
        if strength(middle_m) > view.glow_field_v_m {
            near_m = middle_m;
        } else {
            far_m = middle_m;
        }
    }
    Some(near_m)
}
