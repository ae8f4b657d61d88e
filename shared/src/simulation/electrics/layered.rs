//! The curve of current against voltage with dust on the plates: moved up by what the layer takes, bent back where it glows.

use super::{FieldState, LayerLoad, VoltageCurrentPoint};

/// Points from breakdown to the limit of the set.
const GLOWING: u32 = 12;
/// Share of a glowing field's voltage up to which its curve is that of the unbroken layer.
const UNBROKEN: f64 = 0.98;

/// The curve at the set, from that of the gap: up to `limit_a_m2` where the layer glows; up to its breakdown where it sparks
/// there, which it does from a gap voltage of `sparks_v` on.
pub(super) fn curve(
    gap: &[VoltageCurrentPoint],
    layer: &LayerLoad,
    limit_a_m2: f64,
    sparks_v: f64,
) -> Vec<VoltageCurrentPoint> {
    let most_a_m2 = layer.unbroken_a_m2();
    let mut points: Vec<_> = gap
        .iter()
        .filter(|point| point.current_density_a_m2 < most_a_m2)
        .map(|point| moved(point, layer.drop_v(point.current_density_a_m2)))
        .collect();
    let Some((breaking, area_m2)) = at_density(gap, most_a_m2) else {
        return points;
    };
    let full_v = layer.drop_v(most_a_m2);
    points.push(moved(&breaking, full_v));
    if breaking.voltage_v >= sparks_v || limit_a_m2 <= most_a_m2 {
        return points;
    }
    for step in 1..=GLOWING {
        let part = f64::from(step) / f64::from(GLOWING);
        let density_a_m2 = most_a_m2 * (limit_a_m2 / most_a_m2).powf(part);
        let least_a_m2 = super::operating::LEAST_NET * most_a_m2;
        let net_a_m2 = layer.net_a_m2(density_a_m2).max(least_a_m2);
        if let Some((net, _)) = at_density(gap, net_a_m2) {
            points.push(VoltageCurrentPoint {
                voltage_v: net.voltage_v + full_v,
                current_a: density_a_m2 * area_m2,
                current_density_a_m2: density_a_m2,
            });
        }
    }
    points
}

/// The part of the curve on which the field stands: of a glowing one, the unbroken layer's until shortly before its voltage,
/// and then its current.
pub(super) fn branch(
    gap: &[VoltageCurrentPoint],
    layer: &LayerLoad,
    state: &FieldState,
    plate_area_m2: f64,
) -> Vec<VoltageCurrentPoint> {
    let whole = gap
        .iter()
        .map(|point| moved(point, layer.drop_v(point.current_density_a_m2)));
    if !state.back_corona {
        return whole.collect();
    }
    let mut points: Vec<_> = whole
        .filter(|point| point.voltage_v < UNBROKEN * state.voltage_v)
        .collect();
    points.push(VoltageCurrentPoint {
        voltage_v: state.voltage_v,
        current_a: state.current_density_a_m2 * plate_area_m2,
        current_density_a_m2: state.current_density_a_m2,
    });
    points
}

fn moved(point: &VoltageCurrentPoint, drop_v: f64) -> VoltageCurrentPoint {
    VoltageCurrentPoint {
        voltage_v: point.voltage_v + drop_v,
        ..*point
    }
}

/// The point of a curve at a density, straight between solved points, and the area; nothing beyond its last one.
fn at_density(
    gap: &[VoltageCurrentPoint],
    density_a_m2: f64,
) -> Option<(VoltageCurrentPoint, f64)> {
    let upper = gap.partition_point(|point| point.current_density_a_m2 < density_a_m2);
    let (low, high) = (gap.get(upper.checked_sub(1)?)?, gap.get(upper)?);
    let width = high.current_density_a_m2 - low.current_density_a_m2;
    let share = (density_a_m2 - low.current_density_a_m2) / width;
    let area_m2 = high.current_a / high.current_density_a_m2;
    let point = VoltageCurrentPoint {
        voltage_v: low.voltage_v + share * (high.voltage_v - low.voltage_v),
        current_a: density_a_m2 * area_m2,
        current_density_a_m2: density_a_m2,
    };
    Some((point, area_m2))
}
