//! Voltage and current of a field over one half cycle, once every half cycle is like the last: means, ripple, powers.

use std::f64::consts::PI;

use super::repeating::{Circuit, STEPS};
use super::sums::Sums;
use super::{FieldLoad, TransformerRectifier};
use crate::physics::PhysicsError;
use crate::physics::error::{positive, require};

/// Most firing angles that are tried for a wanted voltage.
const MOST_TRIALS: u32 = 100;
/// Steps of the secant, longest of them and the first one's length per relative miss, rad, and what is near enough.
const MOST_SECANTS: u32 = 12;
const SECANT_STEP_RAD: f64 = 0.25;
const SECANT_FIRST_RAD: f64 = 1.2;
const SECANT_AGREES: f64 = 1e-5;

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
    /// saturation. Second order in the step of 1/400 half cycle; powers and charges balance to 1 % from 1 nF and 1 mA on.
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
        let start = circuit.repeating()?;
        let mut samples = Vec::with_capacity(STEPS as usize + 1);
        let (_, cycle) = circuit.pass(start, |time_s, point| {
            samples.push(WaveformSample {
                time_s,
                voltage_v: point.voltage_v,
                current_a: point.current_a,
            });
        });
        Ok(Self::of_sums(&circuit, samples, &cycle.sums))
    }

    fn of_sums(circuit: &Circuit<'_>, samples: Vec<WaveformSample>, sums: &Sums) -> Self {
        let turns = circuit.set.turns_ratio;
        Self {
            firing_angle_rad: circuit.firing_angle_rad,
            samples,
            mean_voltage_v: sums.mean_v(),
            peak_voltage_v: sums.peak_v,
            least_voltage_v: sums.least_v,
            mean_current_a: sums.mean_a(),
            mean_field_current_a: sums.mean_field_a(),
            conduction_angle_rad: PI * sums.conducting_s / sums.time_s,
            secondary_power_w: sums.mean_power_w(),
            loss_w: circuit.set.resistance_ohm * sums.rms_a() * sums.rms_a(),
            primary_rms_voltage_v: sums.rms_source_v() / turns,
            primary_rms_current_a: sums.rms_a() * turns,
            primary_power_w: sums.source_power_w(),
        }
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

/// The half cycle whose reading, the mean or the peak, is a wanted voltage, found from an angle that is nearly right.
///
/// `V(α) = V_wanted`, by the secant from that angle or a right one; where that gets lost, by bisection
///
/// # Arguments
/// * `set` – the transformer-rectifier set.
/// * `load` – the field.
/// * `wanted_v` – wanted reading, V, above 0.
/// * `reading` – the reading of a half cycle, V: no less with a smaller angle.
/// * `near_rad` – an angle nearby, rad, 0 to π, or nothing.
///
/// # Source
/// As [`Waveform::steady`].
///
/// # Validity
/// As [`Waveform::steady`]; found to 1e-5 of the wanted voltage.
///
/// # Errors
/// As [`firing_angle_for`].
pub(crate) fn waveform_where(
    set: &TransformerRectifier,
    load: &FieldLoad,
    wanted_v: f64,
    reading: fn(&Waveform) -> f64,
    near_rad: Option<f64>,
) -> Result<Waveform, PhysicsError> {
    positive("wanted_v", wanted_v)?;
    let mut here = Waveform::steady(set, load, near_rad.unwrap_or(0.5 * PI))?;
    let mut before: Option<(f64, f64)> = None;
    for _ in 0..MOST_SECANTS {
        let over_v = reading(&here) - wanted_v;
        if over_v.abs() <= SECANT_AGREES * wanted_v {
            return Ok(here);
        }
        let angle_rad = here.firing_angle_rad;
        let step_rad = match before {
            Some((before_rad, before_v)) => {
                -over_v * (angle_rad - before_rad) / (over_v - before_v)
            }
            // A first step along the slope of a sine.
            None => over_v / wanted_v * SECANT_FIRST_RAD,
        };
        let next_rad = angle_rad + step_rad.clamp(-SECANT_STEP_RAD, SECANT_STEP_RAD);
        if !(0.0..PI).contains(&next_rad) || step_rad.is_nan() {
            break;
        }
        before = Some((angle_rad, over_v));
        here = Waveform::steady(set, load, next_rad)?;
    }
    bisected(set, load, wanted_v, reading)
}

/// As [`waveform_where`], slowly and surely.
fn bisected(
    set: &TransformerRectifier,
    load: &FieldLoad,
    wanted_v: f64,
    reading: fn(&Waveform) -> f64,
) -> Result<Waveform, PhysicsError> {
    let (mut much_rad, mut little_rad) = (0.0, PI);
    let mut found = Waveform::steady(set, load, much_rad)?;
    if reading(&found) < wanted_v {
        return Err(PhysicsError::Impossible {
            reason: format!(
                "{wanted_v:.0} V is wanted, with no firing delay this set reaches {:.0} V on this field",
                reading(&found)
            ),
        });
    }
    for _ in 0..MOST_TRIALS {
        let over_v = reading(&found) - wanted_v;
        if over_v.abs() <= SECANT_AGREES * wanted_v || little_rad - much_rad < 1e-9 {
            break;
        }
        let middle_rad = 0.5 * (much_rad + little_rad);
        found = Waveform::steady(set, load, middle_rad)?;
        if reading(&found) > wanted_v {
            much_rad = middle_rad;
        } else {
            little_rad = middle_rad;
        }
    }
    Ok(found)
}
