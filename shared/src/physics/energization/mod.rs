//! The electrical set of a field: transformer, rectifier, the field as its load, sparks, and the control of the voltage.
//!
//! The reading order follows the current: the set ([`TransformerRectifier`]) charges the field ([`FieldLoad`]), which
//! gives a waveform ([`Waveform`]); the gap sparks ([`SparkGap`], [`sparkover`]); the control ([`Controller`]) raises the
//! voltage again after each spark, and the plainest case of that has a closed form ([`sawtooth`]).
//!
//! All defaults are teaching values, no source; nothing here is a setting recommendation.

mod controller;
mod curve;
mod half_cycle;
mod high_frequency;
mod missing;
mod repeating;
pub mod sawtooth;
mod set;
mod settings;
pub mod sparkover;
mod sums;
mod supply;
#[cfg(test)]
mod tests;
mod trace;
mod waveform;

pub use controller::Controller;
pub use curve::VoltageCurrent;
pub use high_frequency::HighFrequencySet;
pub use missing::without_every_second;
pub use set::{FieldLoad, TransformerRectifier};
pub use settings::{ControllerSettings, Energization, Ramp};
pub use sparkover::SparkGap;
pub use supply::Supply;
pub use trace::{Trace, TracePoint, Upset};
pub(crate) use waveform::waveform_where;
pub use waveform::{Waveform, WaveformSample, firing_angle_for};
