//! A set that has lost every second half cycle of the line: what mean voltage and current it still gives a field.

use std::f64::consts::PI;

use super::half_cycle::{Order, State, run};
use super::repeating::STEPS;
use super::{FieldLoad, TransformerRectifier};
use crate::physics::PhysicsError;
use crate::physics::error::require;

/// Most pairs of half cycles until two are alike, and how alike.
const MOST_PAIRS: u32 = 4000;
const ALIKE: f64 = 1e-7;

/// Mean voltage (V) and mean current (A) of a field whose set gives every second half cycle only, at a firing angle.
///
/// # Arguments
/// * `set` – the transformer-rectifier set.
/// * `load` – the field.
/// * `firing_angle_rad` – α of the half cycles that are left, rad, 0 to π.
/// * `start_v` – voltage from which it is followed, V, 0 or more: that before the loss.
///
/// # Source
/// Kirchhoff's laws for the circuit, as [`Waveform`](super::Waveform), over two half cycles.
///
/// # Validity
/// As [`Waveform`](super::Waveform). The core does not saturate from the direct current in it, so a real set gives less.
///
/// # Errors
/// A number outside its range.
pub fn without_every_second(
    set: &TransformerRectifier,
    load: &FieldLoad,
    firing_angle_rad: f64,
    start_v: f64,
) -> Result<(f64, f64), PhysicsError> {
    let set = set.checked()?;
    require(
        (0.0..=PI).contains(&firing_angle_rad),
        "firing_angle_rad",
        firing_angle_rad,
        "0 to π",
    )?;
    require(start_v >= 0.0, "start_v", start_v, "0 or more")?;
    let order = |firing_angle_rad| Order {
        firing_angle_rad,
        strength_v: f64::INFINITY,
        shorted: false,
        steps: STEPS,
    };
    let mut state = State {
        voltage_v: start_v,
        current_a: 0.0,
    };
    let mut means = (0.0, 0.0);
    for _ in 0..MOST_PAIRS {
        let before_v = state.voltage_v;
        let (between, given) = run(&set, load, state, order(firing_angle_rad), |_, _| ());
        let (end, missing) = run(&set, load, between, order(PI), |_, _| ());
        state = end;
        means = (
            0.5 * (given.sums.mean_v() + missing.sums.mean_v()),
            0.5 * (given.sums.mean_a() + missing.sums.mean_a()),
        );
        if (state.voltage_v - before_v).abs() <= ALIKE * before_v {
            break;
        }
    }
    Ok(means)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::energization::{VoltageCurrent, Waveform, firing_angle_for};

    #[test]
    fn half_of_the_half_cycles_give_less_voltage_and_about_half_the_current() {
        let set = TransformerRectifier::teaching(60e3, 0.5).expect("a set");
        let curve = VoltageCurrent::from_formula(25e3, 70e3, |voltage_v| {
            0.4 * voltage_v * (voltage_v - 25e3) / (45e3 * 20e3)
        });
        let load = FieldLoad::new(80e-9, curve.expect("a curve")).expect("a field");
        let angle_rad = firing_angle_for(&set, &load, 45e3).expect("an angle");
        let whole = Waveform::steady(&set, &load, angle_rad).expect("a half cycle");
        let (mean_v, mean_a) = without_every_second(&set, &load, angle_rad, 45e3).expect("half");
        assert!(mean_v < 0.95 * whole.mean_voltage_v, "{mean_v}");
        let share = mean_a / whole.mean_current_a;
        assert!((0.4..0.75).contains(&share), "{share}");
        // What the set gives the field takes: charge does not stay anywhere.
        let again = without_every_second(&set, &load, angle_rad, 20e3).expect("half");
        assert!((again.0 / mean_v - 1.0).abs() < 1e-4, "{again:?} {mean_v}");
        let none = without_every_second(&set, &load, PI, 45e3).expect("none");
        assert!(none.1 < 1e-9 && none.0 < 25.1e3, "{none:?}");
    }
}
