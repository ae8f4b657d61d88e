//! The ripple of a field's voltage: how the peak and the mean current of a half cycle stand to the field at mean voltage.

use super::supply::FieldSupply;
use crate::physics::{
    PhysicsError,
    corona::{CoronaSolver, WireRow, solver::CoronaSolution},
    energization::{FieldLoad, VoltageCurrent, Waveform, waveform_where},
};

/// Currents at which the curve near a state is solved besides the state's own, as shares of it.
const NEARBY: [f64; 2] = [0.35, 2.0];
/// Entries of a curve that is filled up between solved points.
const ENTRIES: u32 = 48;
/// The curve near a state reaches up to this many times its voltage, more than any peak of a ripple.
const CURVE_TOP: f64 = 1.7;
/// Ripple below which it is taken as that of a capacitor that loses the mean current for half a cycle, without a waveform.
const LEAST_RIPPLE: f64 = 0.005;

/// Ratios that turn the field at mean voltage into what set and gap see.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Ripple {
    /// Peak voltage over mean voltage; of a field that sparks, at the mean voltage where the peak just sparks.
    pub(super) peak_share: f64,
    /// Mean current of the half cycle, or of all half cycles from spark to spark, over the current of the field at mean
    /// voltage.
    pub(super) current_share: f64,
    /// Voltage and current for which this was worked out, V and A/m.
    at: (f64, f64),
    /// Firing angles at the mean voltage, and at the spark voltage as the peak, rad.
    angles_rad: (Option<f64>, Option<f64>),
}

/// Where a field that sparks does so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum SparksAt {
    /// Where the peak of the ripple reaches the spark voltage, about at this mean voltage, V.
    Peak(f64),
    /// At this mean voltage, V, whatever its peak.
    Mean(f64),
}

impl Ripple {
    /// Steady voltage.
    pub(super) const NONE: Self = Self {
        peak_share: 1.0,
        current_share: 1.0,
        at: (0.0, 0.0),
        angles_rad: (None, None),
    };

    /// Whether this ripple is that of a state which differs by less than this share.
    pub(super) fn is_of(&self, state: &CoronaSolution, within: f64) -> bool {
        let near = |known: f64, now: f64| (known - now).abs() <= within * now;
        near(self.at.0, state.voltage_v) && near(self.at.1, state.current_a_m)
    }

    /// The ripple about a state that `solver` found with the dust that is still in its gas. Of a field that sparks the peak
    /// is looked for where it sparks.
    ///
    /// A field whose mean voltage lies below onset has no current at it, though the peaks of a very large set on a small
    /// capacitance may reach above: such current is left out.
    pub(super) fn of(
        supply: &FieldSupply,
        solver: &mut CoronaSolver<WireRow>,
        (state, sparks_at): (&CoronaSolution, Option<SparksAt>),
        before: &Self,
    ) -> Result<Self, PhysicsError> {
        let highest = match sparks_at {
            Some(SparksAt::Peak(sparks_at_v) | SparksAt::Mean(sparks_at_v)) => {
                &solver.at_voltage_from(sparks_at_v, Some(state))?
            }
            None => state,
        };
        // A peak far above the mean may spark where the mean has no current: the curve is then that about the state.
        let highest = if highest.current_a_m > 0.0 {
            highest
        } else {
            state
        };
        let per_a_m = amperes_per_a_m(supply, solver.geometry());
        let mut ripple = Self {
            at: (state.voltage_v, state.current_a_m),
            ..Self::NONE
        };
        let losing = |state: &CoronaSolution| {
            let current_a = state.current_a_m * per_a_m;
            current_a * supply.set.half_cycle_s() / supply.capacitance_f
        };
        let drop_v = losing(highest);
        if drop_v <= LEAST_RIPPLE * highest.voltage_v {
            if drop_v > 0.0 {
                ripple.peak_share = 1.0 + 0.5 * drop_v / highest.voltage_v;
            }
            return Ok(ripple);
        }
        let load = FieldLoad::new(supply.capacitance_f, curve_near(solver, highest, per_a_m)?)?;
        let find =
            |wanted_v, reading, near| waveform_where(&supply.set, &load, wanted_v, reading, near);
        let (near_mean, near_peak) = before.angles_rad;
        let mean = find(state.voltage_v, |cycle| cycle.mean_voltage_v, near_mean)?;
        if state.current_a_m > 0.0 {
            ripple.current_share = mean.mean_current_a / (state.current_a_m * per_a_m);
        }
        let mean_rad = mean.firing_angle_rad;
        let mut highest = mean;
        let near_rad = Some(near_peak.unwrap_or(mean_rad));
        match sparks_at {
            Some(SparksAt::Peak(_)) => {
                highest = find(supply.spark_v, |cycle| cycle.peak_voltage_v, near_rad)?;
            }
            Some(SparksAt::Mean(mean_v)) => {
                highest = find(mean_v, |cycle| cycle.mean_voltage_v, near_rad)?;
            }
            None => {}
        }
        ripple.peak_share = highest.peak_voltage_v / highest.mean_voltage_v;
        ripple.angles_rad = (Some(mean_rad), Some(highest.firing_angle_rad));
        if sparks_at.is_some()
            && state.current_a_m > 0.0
            && let Some(mean_a) = mean_of_rise_a(supply, &load, &highest)?
        {
            ripple.current_share = mean_a / (state.current_a_m * per_a_m);
        }
        Ok(ripple)
    }
}

/// Mean current from spark to spark, A: Simpson's rule over the even rise of the mean voltage; nothing where no sparks are
/// wanted.
fn mean_of_rise_a(
    supply: &FieldSupply,
    load: &FieldLoad,
    highest: &Waveform,
) -> Result<Option<f64>, PhysicsError> {
    let Some(ramp) = supply.ramp(highest.mean_voltage_v)? else {
        return Ok(None);
    };
    let at_a = |voltage_v| {
        let near_rad = Some(highest.firing_angle_rad);
        let mean_v = |cycle: &Waveform| cycle.mean_voltage_v;
        let there = waveform_where(&supply.set, load, voltage_v, mean_v, near_rad)?;
        Ok::<_, PhysicsError>(there.mean_current_a)
    };
    let middle_v = 0.5 * (ramp.from_v + highest.mean_voltage_v);
    let sum_a = at_a(ramp.from_v)? + 4.0 * at_a(middle_v)? + highest.mean_current_a;
    Ok(Some(ramp.share_of_time * sum_a / 6.0))
}

/// The curve about a state with current whose dust is in the solver.
pub(super) fn curve_near(
    solver: &mut CoronaSolver<WireRow>,
    state: &CoronaSolution,
    per_a_m: f64,
) -> Result<VoltageCurrent, PhysicsError> {
    let mut solved = vec![(state.voltage_v, state.current_a_m * per_a_m)];
    for share in NEARBY {
        // So much current that the field would turn back is left out.
        if let Ok(there) = solver.at_current_from(share * state.current_a_m, Some(state)) {
            solved.push((there.voltage_v, there.current_a_m * per_a_m));
        }
    }
    solved.sort_by(|a, b| a.0.total_cmp(&b.0));
    filled(state.onset_v, &solved, CURVE_TOP * state.voltage_v)
}

/// Current of the whole field per current of one metre of wire, m: its wires as they stand, two plates to each.
pub(super) fn amperes_per_a_m(supply: &FieldSupply, row: &WireRow) -> f64 {
    supply.plate_area_m2 / (2.0 * row.pitch_m())
}

/// A curve through solved points (voltage V, current A), voltages above onset and rising, up to a voltage.
///
/// `I/(V−V₀)` is straight between and beyond them, which is exact for the textbook's quadratic law.
pub(super) fn filled(
    onset_v: f64,
    solved: &[(f64, f64)],
    top_v: f64,
) -> Result<VoltageCurrent, PhysicsError> {
    let slopes: Vec<(f64, f64)> = solved
        .iter()
        .map(|(voltage_v, current_a)| (*voltage_v, current_a / (voltage_v - onset_v)))
        .collect();
    let slope_s = |voltage_v: f64| {
        let upper = slopes.partition_point(|known| known.0 < voltage_v);
        let upper = upper.clamp(1, slopes.len().saturating_sub(1).max(1));
        match (slopes.get(upper - 1), slopes.get(upper)) {
            (Some((low_v, low_s)), Some((high_v, high_s))) => {
                low_s + (high_s - low_s) * (voltage_v - low_v) / (high_v - low_v)
            }
            // One point alone: as the quadratic law.
            (Some((known_v, known_s)), None) => known_s * voltage_v / known_v,
            _ => 0.0,
        }
    };
    let step_v = (top_v - onset_v).max(0.01 * onset_v) / f64::from(ENTRIES);
    let mut points = vec![(onset_v, 0.0)];
    let mut highest_a = 0.0_f64;
    for entry in 1..=ENTRIES {
        let excess_v = f64::from(entry) * step_v;
        highest_a = highest_a.max(excess_v * slope_s(onset_v + excess_v));
        points.push((onset_v + excess_v, highest_a));
    }
    VoltageCurrent::new(points)
}
