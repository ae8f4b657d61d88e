//! The transformer-rectifier set on the roof and the field that it feeds, by their name-plate numbers.
//!
//! Peak behind the transformer `E = √2·V_line·n`; series impedance `Z = √(R² + (2πfL)²)`, both seen from the secondary.

use std::f64::consts::{PI, SQRT_2};

use super::VoltageCurrent;
use crate::physics::PhysicsError;
use crate::physics::error::{not_negative, positive, require};

/// Line of the teaching set, V and Hz. Teaching value, no source.
const TEACHING_LINE: (f64, f64) = (400.0, 50.0);
/// Peak behind the teaching set's transformer with no load, over the rated mean voltage. Teaching value, no source:
/// on a field with `C·V̄/Ī` = 5 ms the set just reaches its rating with no firing delay, the peak 1.15–1.3 of the mean.
const TEACHING_PEAK_OVER_MEAN: f64 = 1.6;
/// Reactance and resistance of the teaching set, as shares of rated mean voltage over rated mean current.
/// Teaching values, no source.
const TEACHING_IMPEDANCE: (f64, f64) = (0.37, 0.04);

/// A single-phase transformer-rectifier set: a thyristor pair in the primary, a full-wave bridge on the secondary.
///
/// Inductance and resistance are those of current-limiting reactor and transformer together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TransformerRectifier {
    /// Line voltage, V RMS, above 0.
    pub line_voltage_v: f64,
    /// Line frequency f, Hz, 1 to 1000; 50 or 60 in service.
    pub line_frequency_hz: f64,
    /// Turns of the secondary over turns of the primary n, above 0.
    pub turns_ratio: f64,
    /// Series inductance L seen from the secondary, H, above 0.
    pub inductance_h: f64,
    /// Series resistance R seen from the secondary, Ω, 0 or more.
    pub resistance_ohm: f64,
}

impl TransformerRectifier {
    /// A plausible set for a rating: teaching value, no source; nothing here is a setting recommendation.
    ///
    /// `n = 1.6·V̄/(√2·400 V)`, `2πfL = 0.37·V̄/Ī`, `R = 0.04·V̄/Ī`, 400 V and 50 Hz
    ///
    /// # Arguments
    /// * `rated_mean_v` – rated mean secondary voltage V̄, V, above 0.
    /// * `rated_mean_a` – rated mean secondary current Ī, A, above 0.
    ///
    /// # Source
    /// Teaching value, no source.
    ///
    /// # Validity
    /// Teaching only.
    ///
    /// # Errors
    /// A rating that is not above 0.
    pub fn teaching(rated_mean_v: f64, rated_mean_a: f64) -> Result<Self, PhysicsError> {
        let base_ohm =
            positive("rated_mean_v", rated_mean_v)? / positive("rated_mean_a", rated_mean_a)?;
        let (line_voltage_v, line_frequency_hz) = TEACHING_LINE;
        Self {
            line_voltage_v,
            line_frequency_hz,
            turns_ratio: TEACHING_PEAK_OVER_MEAN * rated_mean_v / (SQRT_2 * line_voltage_v),
            inductance_h: TEACHING_IMPEDANCE.0 * base_ohm / (2.0 * PI * line_frequency_hz),
            resistance_ohm: TEACHING_IMPEDANCE.1 * base_ohm,
        }
        .checked()
    }

    /// The set itself, if its numbers are possible.
    ///
    /// # Source
    /// Ranges of the fields.
    ///
    /// # Validity
    /// Always.
    ///
    /// # Errors
    /// A number outside its range.
    pub fn checked(self) -> Result<Self, PhysicsError> {
        positive("line_voltage_v", self.line_voltage_v)?;
        require(
            (1.0..=1000.0).contains(&self.line_frequency_hz),
            "line_frequency_hz",
            self.line_frequency_hz,
            "1 to 1000",
        )?;
        positive("turns_ratio", self.turns_ratio)?;
        positive("inductance_h", self.inductance_h)?;
        not_negative("resistance_ohm", self.resistance_ohm)?;
        positive("peak behind the transformer, V", self.open_peak_v())?;
        Ok(self)
    }

    /// Peak behind the transformer with no load, V.
    ///
    /// `E = √2·V_line·n`
    ///
    /// # Source
    /// Textbook; a sine's peak is √2 of its RMS value.
    ///
    /// # Validity
    /// Sinusoidal line.
    #[must_use]
    pub fn open_peak_v(&self) -> f64 {
        SQRT_2 * self.line_voltage_v * self.turns_ratio
    }

    /// Length of a half cycle of the line, s.
    ///
    /// `T = 1/(2f)`
    ///
    /// # Source
    /// Definition.
    ///
    /// # Validity
    /// Always.
    #[must_use]
    pub fn half_cycle_s(&self) -> f64 {
        0.5 / self.line_frequency_hz
    }
}

/// The field as the set sees it: a capacitor that its own corona discharges.
#[derive(Clone, Debug, PartialEq)]
pub struct FieldLoad {
    capacitance_f: f64,
    curve: VoltageCurrent,
}

impl FieldLoad {
    /// A field with this capacitance and this voltage–current curve.
    ///
    /// # Arguments
    /// * `capacitance_f` – C of discharge electrodes against plates, cable included, F, above 0.
    /// * `curve` – the field's voltage–current curve.
    ///
    /// # Source
    /// Common practice, no source.
    ///
    /// # Validity
    /// Ions that cross the gap fast beside a half cycle; then the curve of steady voltage holds at each moment.
    ///
    /// # Errors
    /// A capacitance that is not above 0.
    pub fn new(capacitance_f: f64, curve: VoltageCurrent) -> Result<Self, PhysicsError> {
        positive("capacitance_f", capacitance_f)?;
        Ok(Self {
            capacitance_f,
            curve,
        })
    }

    /// Capacitance, F.
    #[must_use]
    pub fn capacitance_f(&self) -> f64 {
        self.capacitance_f
    }

    /// Voltage–current curve.
    #[must_use]
    pub fn curve(&self) -> &VoltageCurrent {
        &self.curve
    }
}
