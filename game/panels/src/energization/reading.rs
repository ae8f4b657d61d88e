//! Whether the set agrees with theory: the trace with the closed form, powers and charges with each other.

use ashlane_shared::{physics::energization::TracePoint, simulation::HeldBy, units::Dimension};

use super::{EnergizationView, mean};
use crate::checks::CheckLine;

/// The control's start-up, which no check looks at, s.
const START_UP_S: f64 = 10.0;
/// A field that sparks: its gap scatters and lets it spark some per cent early, and its capacitance takes a half cycle or
/// two to charge again; the closed form knows neither.
const SPARKING_TOLERANCE: f64 = 0.05;
/// Its current besides: the surge into each spark and what charges the field again are in the trace alone.
const SPARKING_CURRENT_TOLERANCE: f64 = 0.05;
/// Else: firing angles are taken between 33 known ones (1 %), and the limit of the current is kept within 2 %.
const STEADY_TOLERANCE: f64 = 0.02;
/// What the waveform promises of its powers and charges.
const BALANCE_TOLERANCE: f64 = 0.01;
/// A field without corona has less current than this, A: no balance to speak of, and what was charged once stays.
pub(super) const NO_CURRENT_A: f64 = 1e-3;

/// The agreement lines of this view.
#[must_use]
pub fn checks(view: &EnergizationView<'_>) -> Vec<CheckLine> {
    let Some(cycle) = &view.energization.waveform else {
        return Vec::new();
    };
    if cycle.mean_current_a < NO_CURRENT_A {
        return Vec::new();
    }
    let mut lines: Vec<CheckLine> = control(view).into_iter().collect();
    lines.extend(sparking_current(view));
    let watts = |power_w| view.text(power_w, Dimension::Power);
    lines.push(CheckLine::of_ratio(
        "power: primary against secondary and loss",
        format!(
            "primary {}, secondary {} and {} lost on the way",
            watts(cycle.primary_power_w),
            watts(cycle.secondary_power_w),
            watts(cycle.loss_w)
        ),
        cycle.primary_power_w / (cycle.secondary_power_w + cycle.loss_w),
        BALANCE_TOLERANCE,
    ));
    let amperes = |current_a| view.text(current_a, Dimension::Current);
    lines.push(CheckLine::of_ratio(
        "charge: rectifier against field",
        format!(
            "rectifier {} mean, field {} mean",
            amperes(cycle.mean_current_a),
            amperes(cycle.mean_field_current_a)
        ),
        cycle.mean_current_a / cycle.mean_field_current_a,
        BALANCE_TOLERANCE,
    ));
    lines
}

/// The trace of the control against what should hold it; nothing of a trace too short.
fn control(view: &EnergizationView<'_>) -> Option<CheckLine> {
    let set = view.energization;
    let late = late(view)?;
    let volts = |voltage_v| view.text(voltage_v, Dimension::Voltage);
    let mean_v = mean(late, |point| point.mean_voltage_v);
    match set.state.held_by {
        HeldBy::Sparking => {
            let closed_v = set.sawtooth_mean_v.unwrap_or(set.state.voltage_v);
            Some(CheckLine::of_ratio(
                "mean kV: trace against sawtooth",
                format!("trace {}, sawtooth {} mean", volts(mean_v), volts(closed_v)),
                mean_v / closed_v,
                SPARKING_TOLERANCE,
            ))
        }
        HeldBy::CurrentLimit => {
            let mean_a = mean(late, |point| point.mean_current_a);
            let limit_a = set.settings.current_limit_a;
            let amperes = |current_a| view.text(current_a, Dimension::Current);
            Some(CheckLine::of_ratio(
                "mean mA: trace against its limit",
                format!("trace {}, limit {} mean", amperes(mean_a), amperes(limit_a)),
                mean_a / limit_a,
                STEADY_TOLERANCE,
            ))
        }
        HeldBy::Setting => Some(CheckLine::of_ratio(
            "mean kV: trace against the wanted",
            format!(
                "trace {}, wanted {} mean",
                volts(mean_v),
                volts(set.state.wanted_v)
            ),
            mean_v / set.state.wanted_v,
            STEADY_TOLERANCE,
        )),
    }
}

/// The mean current of a field that sparks: the trace against the curve along the sawtooth.
fn sparking_current(view: &EnergizationView<'_>) -> Option<CheckLine> {
    if view.energization.state.held_by != HeldBy::Sparking {
        return None;
    }
    let mean_a = mean(late(view)?, |point| point.mean_current_a);
    let along_a = view.mean_current_a();
    let amperes = |current_a| view.text(current_a, Dimension::Current);
    Some(CheckLine::of_ratio(
        "mean mA: trace against the curve along the sawtooth",
        format!("trace {}, curve {} mean", amperes(mean_a), amperes(along_a)),
        mean_a / along_a,
        SPARKING_CURRENT_TOLERANCE,
    ))
}

/// The half cycles after the start-up; of a field that sparks, from the first spark to the last, so whole times.
fn late<'a>(view: &EnergizationView<'a>) -> Option<&'a [TracePoint]> {
    let points = &view.trace.points;
    let start = points.partition_point(|point| point.time_s <= START_UP_S);
    let late = &points[start..];
    if late.is_empty() {
        return None;
    }
    if view.energization.state.held_by == HeldBy::Sparking {
        let sparks = |point: &TracePoint| point.upset.is_some();
        let first = late.iter().position(sparks);
        let last = late.iter().rposition(sparks);
        if let (Some(first), Some(last)) = (first, last)
            && last > first
        {
            return Some(&late[first + 1..=last]);
        }
    }
    Some(late)
}
