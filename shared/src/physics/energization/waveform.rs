//! Voltage and current of a field over one half cycle, once every half cycle is like the last: means, ripple, powers.

use std::f64::consts::PI;

use super::half_cycle::{HalfCycle, Order, State, run};
use super::sums::{Point, Sums};
use super::{FieldLoad, TransformerRectifier};
use crate::physics::PhysicsError;
use crate::physics::error::{positive, require};

/// Steps of a half cycle.
const STEPS: u32 = 400;
/// Most half cycles that the search for the repeating state may take, and the last settling after it.
const MOST_TRIALS: u32 = 100;
const MOST_SETTLING: u32 = 200;
/// The state repeats when it moves less than this from one half cycle to the next, relative.
const REPEATS_WITHIN: f64 = 1e-6;

/// One moment of the waveform.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WaveformSample {
    /// Time from the line's zero crossing, s.
    pub time_s: f64,
    /// Voltage of the field, V.
    pub voltage_v: f64,
    /// Rectified current of the set, A.
    pub current_a: f64,
}

/// The repeating half cycle of a set on a field; say "mean" or "peak" with every voltage.
#[derive(Clone, Debug, PartialEq)]
pub struct Waveform {
    /// Firing angle α, rad.
    pub firing_angle_rad: f64,
    /// 401 evenly spaced moments of one half cycle, both ends included.
    pub samples: Vec<WaveformSample>,
    /// Mean voltage, V.
    pub mean_voltage_v: f64,
    /// Highest voltage, V.
    pub peak_voltage_v: f64,
    /// Lowest voltage, V.
    pub least_voltage_v: f64,
    /// Mean current of the rectifier, A: what the milliammeter shows.
    pub mean_current_a: f64,
    /// Mean current that the field takes, A; the same, summed on the field's side.
    pub mean_field_current_a: f64,
    /// Share of the half cycle with current, as an angle, rad.
    pub conduction_angle_rad: f64,
    /// Mean of v·i behind the rectifier, W: the true secondary power.
    pub secondary_power_w: f64,
    /// Mean power lost in the series resistance, W.
    pub loss_w: f64,
    /// RMS voltage that the thyristors let through to the primary, V: the line's while one conducts, else 0.
    pub primary_rms_voltage_v: f64,
    /// RMS current of the primary, A.
    pub primary_rms_current_a: f64,
    /// Real power from the line, W.
    pub primary_power_w: f64,
}

impl Waveform {
    /// The waveform that a firing angle gives on a field.
    ///
    /// `C dV/dt = i − I(V)`, `L di/dt = |v_line|·n − R i − V` while current flows; V and i at the end of the half cycle
    /// are those at its start. Below corona onset, where any voltage would stay, the lowest that does is taken.
    ///
    /// # Arguments
    /// * `set` – the transformer-rectifier set.
    /// * `load` – the field.
    /// * `firing_angle_rad` – α, rad, 0 (all of each half cycle) to π (none).
    ///
    /// # Source
    /// Kirchhoff's laws for the circuit; textbook.
    ///
    /// # Validity
    /// Ideal thyristors and diodes, gate held to the end of the half cycle, sinusoidal line, no magnetizing current, no
    /// saturation. Second order in the step of 1/400 half cycle.
    ///
    /// # Errors
    /// A number outside its range, or a circuit that does not settle to a repeating half cycle.
    pub fn steady(
        set: &TransformerRectifier,
        load: &FieldLoad,
        firing_angle_rad: f64,
    ) -> Result<Self, PhysicsError> {
        let set = set.checked()?;
        require(
            (0.0..=PI).contains(&firing_angle_rad),
            "firing_angle_rad",
            firing_angle_rad,
            "0 to π",
        )?;
        let circuit = Circuit {
            set: &set,
            load,
            firing_angle_rad,
        };
        let start = circuit.settled(circuit.near_repeating())?;
        Ok(circuit.waveform(start))
    }

    /// Ripple: peak less lowest voltage, over the mean.
    ///
    /// `(V_peak − V_least)/V̄`; 0 with no voltage
    ///
    /// # Source
    /// Definition; common practice, no source.
    ///
    /// # Validity
    /// Always.
    #[must_use]
    pub fn ripple(&self) -> f64 {
        if self.mean_voltage_v > 0.0 {
            (self.peak_voltage_v - self.least_voltage_v) / self.mean_voltage_v
        } else {
            0.0
        }
    }

    /// Mean voltage times mean current, W: what two panel meters suggest; below the true secondary power.
    ///
    /// `V̄·Ī`
    ///
    /// # Source
    /// Definition; common practice, no source.
    ///
    /// # Validity
    /// Equal to [`Self::secondary_power_w`] only without ripple.
    #[must_use]
    pub fn product_of_means_w(&self) -> f64 {
        self.mean_voltage_v * self.mean_current_a
    }
}

/// The firing angle at which the field stands at a wanted mean voltage, rad.
///
/// `V̄(α) = V̄_wanted`, by bisection and false position; V̄ falls as α grows
///
/// # Arguments
/// * `set` – the transformer-rectifier set.
/// * `load` – the field.
/// * `mean_voltage_v` – wanted mean voltage, V, above 0.
///
/// # Source
/// As [`Waveform::steady`].
///
/// # Validity
/// As [`Waveform::steady`]; found to 1e-6 of the wanted voltage.
///
/// # Errors
/// A number outside its range, or more than the set reaches with no firing delay; the message says what it reaches.
pub fn firing_angle_for(
    set: &TransformerRectifier,
    load: &FieldLoad,
    mean_voltage_v: f64,
) -> Result<f64, PhysicsError> {
    positive("mean_voltage_v", mean_voltage_v)?;
    let over_v = |angle_rad: f64| {
        let waveform = Waveform::steady(set, load, angle_rad)?;
        Ok(waveform.mean_voltage_v - mean_voltage_v)
    };
    let mut high = (0.0, over_v(0.0)?);
    if high.1 < 0.0 {
        return Err(PhysicsError::Impossible {
            reason: format!(
                "{mean_voltage_v:.0} V mean is wanted, with no firing delay this set reaches {:.0} V mean on this field",
                mean_voltage_v + high.1
            ),
        });
    }
    let mut low = (PI, -mean_voltage_v);
    for trial in 0..MOST_TRIALS {
        let angle_rad = if trial % 3 == 2 {
            0.5 * (high.0 + low.0)
        } else {
            high.0 + (low.0 - high.0) * high.1 / (high.1 - low.1)
        };
        let over = over_v(angle_rad)?;
        if over.abs() <= 1e-6 * mean_voltage_v || low.0 - high.0 < 1e-9 {
            return Ok(angle_rad);
        }
        if over > 0.0 {
            high = (angle_rad, over);
        } else {
            low = (angle_rad, over);
        }
    }
    Ok(high.0)
}

/// Set, field and firing angle while the repeating state is searched.
struct Circuit<'a> {
    set: &'a TransformerRectifier,
    load: &'a FieldLoad,
    firing_angle_rad: f64,
}

impl<'a> Circuit<'a> {
    fn pass(&self, start: State, see: impl FnMut(f64, &Point)) -> (State, HalfCycle<'a>) {
        let order = Order {
            firing_angle_rad: self.firing_angle_rad,
            strength_v: f64::INFINITY,
            shorted: false,
            steps: STEPS,
        };
        run(self.set, self.load, start, order, see)
    }

    /// Voltage won in a half cycle that starts at this voltage, with the current that goes with it.
    fn gain_v(&self, voltage_v: f64) -> (f64, State) {
        let mut start = State {
            voltage_v,
            current_a: 0.0,
        };
        let mut end = self.pass(start, |_, _| ()).0;
        for _ in 0..4 {
            if (end.current_a - start.current_a).abs() <= 1e-9 * end.current_a {
                break;
            }
            start.current_a = end.current_a;
            end = self.pass(start, |_, _| ()).0;
        }
        (end.voltage_v - voltage_v, start)
    }

    /// A state close to the repeating one: the lowest voltage at which a half cycle wins nothing any more.
    ///
    /// A higher start wins less, so the voltage can be bracketed (false position, Illinois variant); this is as quick for
    /// a large capacitance, which would take thousands of half cycles to charge, as for a small one.
    fn near_repeating(&self) -> State {
        let open_v = self.set.open_peak_v();
        let nothing_v = 1e-13 * open_v;
        let (first_gain_v, mut found) = self.gain_v(0.0);
        let (mut low, mut high) = ((0.0, first_gain_v), (2.0 * open_v, 0.0));
        if first_gain_v <= nothing_v {
            return found;
        }
        let mut last_was_low = false;
        for trial in 0..MOST_TRIALS {
            let bisect = trial % 8 == 7 || high.1 >= -nothing_v;
            let voltage_v = if bisect {
                0.5 * (low.0 + high.0)
            } else {
                low.0 + (high.0 - low.0) * low.1 / (low.1 - high.1)
            };
            let (gain_v, state) = self.gain_v(voltage_v);
            found = state;
            let missing_v = gain_v.abs() * (high.0 - low.0) / (low.1 - high.1);
            if missing_v <= 1e-9 * open_v && !bisect || high.0 - low.0 <= 1e-10 * open_v {
                break;
            }
            let is_low = gain_v > nothing_v;
            let again = trial > 0 && is_low == last_was_low;
            if is_low {
                low = (voltage_v, gain_v);
                high.1 *= if again { 0.5 } else { 1.0 };
            } else {
                high = (voltage_v, gain_v);
                low.1 *= if again { 0.5 } else { 1.0 };
            }
            last_was_low = is_low;
        }
        found
    }

    /// Runs half cycles until the state repeats.
    fn settled(&self, start: State) -> Result<State, PhysicsError> {
        let mut state = start;
        for _ in 0..MOST_SETTLING {
            let (next, cycle) = self.pass(state, |_, _| ());
            let allowed_v = REPEATS_WITHIN * cycle.sums.peak_v;
            let allowed_a = REPEATS_WITHIN * cycle.sums.peak_a;
            if (next.voltage_v - state.voltage_v).abs() <= allowed_v
                && (next.current_a - state.current_a).abs() <= allowed_a
            {
                return Ok(state);
            }
            state = next;
        }
        Err(PhysicsError::Impossible {
            reason: format!(
                "at a firing angle of {:.3} rad the set and this field do not settle to a repeating half cycle",
                self.firing_angle_rad
            ),
        })
    }

    fn waveform(&self, start: State) -> Waveform {
        let mut samples = Vec::with_capacity(STEPS as usize + 1);
        let (_, cycle) = self.pass(start, |time_s, point| {
            samples.push(WaveformSample {
                time_s,
                voltage_v: point.voltage_v,
                current_a: point.current_a,
            });
        });
        let sums: Sums = cycle.sums;
        let turns = self.set.turns_ratio;
        Waveform {
            firing_angle_rad: self.firing_angle_rad,
            samples,
            mean_voltage_v: sums.mean_v(),
            peak_voltage_v: sums.peak_v,
            least_voltage_v: sums.least_v,
            mean_current_a: sums.mean_a(),
            mean_field_current_a: sums.mean_field_a(),
            conduction_angle_rad: PI * sums.conducting_s / sums.time_s,
            secondary_power_w: sums.mean_power_w(),
            loss_w: self.set.resistance_ohm * sums.rms_a() * sums.rms_a(),
            primary_rms_voltage_v: sums.rms_source_v() / turns,
            primary_rms_current_a: sums.rms_a() * turns,
            primary_power_w: sums.source_power_w(),
        }
    }
}
