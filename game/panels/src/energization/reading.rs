//! Whether the set agrees with theory: the trace with the closed form, powers and charges with each other.

use ashlane_shared::{
    physics::energization::TracePoint,
    simulation::{FieldEnergization, HeldBy},
    units::Dimension,
};

use super::{EnergizationView, mean};
use crate::checks::CheckLine;

/// The control's start-up, which no check looks at, s.
const START_UP_S: f64 = 10.0;
/// A field that sparks: its gap scatters and lets it spark some per cent early, and its capacitance takes a half cycle or
/// two to charge again; the closed form knows neither.
const SPARKING_TOLERANCE: f64 = 0.05;
/// The trace has the surge into each spark and what charges the field again, and its control stops within 1 % of the aim.
const CURRENT_TOLERANCE: f64 = 0.05;
/// Else: firing angles are taken between 33 known ones (1 %), and the limit of the current is kept within 2 %.
const STEADY_TOLERANCE: f64 = 0.02;
/// What the waveform promises of its powers and charges.
const BALANCE_TOLERANCE: f64 = 0.01;
/// A field without corona has less current than this share of the rating: no balance to speak of, and what was charged
/// once stays.
const NO_CURRENT: f64 = 1e-5;

/// Whether there is as good as no current.
pub(super) fn is_dark(set: &FieldEnergization, current_a: f64) -> bool {
    current_a < NO_CURRENT * set.rated_mean_a
}

/// The agreement lines of this view.
#[must_use]
pub fn checks(view: &EnergizationView<'_>) -> Vec<CheckLine> {
    let Some(cycle) = &view.energization.waveform else {
        return Vec::new();
    };
    if is_dark(view.energization, cycle.mean_current_a) {
        return Vec::new();
    }
    let mut lines: Vec<CheckLine> = control(view).into_iter().collect();
    lines.extend(mean_current(view));
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
            let Some(closed_v) = set.sawtooth_mean_v else {
                return Some(CheckLine::of_ratio(
                    "control holds its aim: mean kV of the trace just below sparking",
                    format!(
                        "trace {}, aim {} mean",
                        volts(mean_v),
                        volts(set.state.voltage_v)
                    ),
                    mean_v / set.state.voltage_v,
                    STEADY_TOLERANCE,
                ));
            };
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
                "control holds its aim: mean mA of the trace at the limit",
                format!("trace {}, limit {} mean", amperes(mean_a), amperes(limit_a)),
                mean_a / limit_a,
                STEADY_TOLERANCE,
            ))
        }
        HeldBy::Supply => None,
        HeldBy::Setting => Some(CheckLine::of_ratio(
            "control holds its aim: mean kV of the trace at the wanted",
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

/// The mean current: the recorder's against that of the solved field with its ripple, or along the sawtooth. Nothing where
/// the control holds the current itself.
fn mean_current(view: &EnergizationView<'_>) -> Option<CheckLine> {
    if view.energization.state.held_by == HeldBy::CurrentLimit {
        return None;
    }
    let mean_a = mean(late(view)?, |point| point.mean_current_a);
    let solved_a = view.mean_current_a();
    let amperes = |current_a| view.text(current_a, Dimension::Current);
    Some(CheckLine::of_ratio(
        "mean mA: trace against the solved field",
        format!(
            "trace {}, field {} mean",
            amperes(mean_a),
            amperes(solved_a)
        ),
        mean_a / solved_a,
        CURRENT_TOLERANCE,
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
