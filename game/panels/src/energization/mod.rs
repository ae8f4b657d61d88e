//! The electrical set of one field: voltage and current over time with sparks, one half cycle close up, and the readings.

mod cycle;
mod drawing;
mod reading;
mod readings;
mod trace;

pub use drawing::drawing;
pub use reading::checks;

use ashlane_shared::{
    physics::energization::{Trace, TracePoint, Upset},
    simulation::{FieldEnergization, HeldBy},
    units::{Dimension, GasState, UnitSystem, format_in},
};

/// Longest time that is shown, s: the last of the trace.
pub const SHOWN_S: f64 = 20.0;

/// Everything the view shows.
#[derive(Clone, Copy, Debug)]
pub struct EnergizationView<'a> {
    /// The set, its field and its control.
    pub energization: &'a FieldEnergization,
    /// What the recorder wrote, start-up included: a minute is enough for the check of the mean.
    pub trace: &'a Trace,
    /// What the site calls the field, for the heading.
    pub name: &'a str,
    /// Units of the labels.
    pub units: UnitSystem,
}

impl<'a> EnergizationView<'a> {
    /// The half cycles that are shown: the last of the trace.
    #[must_use]
    pub fn shown(&self) -> &'a [TracePoint] {
        let points = &self.trace.points;
        let count = (SHOWN_S / self.trace.half_cycle_s).round() as usize;
        &points[points.len().saturating_sub(count)..]
    }

    /// Sparks that are shown, arcs included.
    fn sparks(&self) -> impl Iterator<Item = (&'a TracePoint, Upset)> {
        let shown = self.shown().iter();
        shown.filter_map(|point| Some((point, point.upset?)))
    }

    /// Mean current of the set, A; of a field that sparks from spark to spark.
    fn mean_current_a(&self) -> f64 {
        let set = self.energization;
        set.state.current_density_a_m2 * set.plate_area_m2
    }

    /// A value with its unit and three digits.
    fn text(&self, value_si: f64, dimension: Dimension) -> String {
        let unit = dimension.display_unit(self.units);
        format_in(value_si, unit, &GasState::NORMAL, 3)
    }

    /// What holds the voltage, in words.
    fn held(&self) -> &'static str {
        let state = &self.energization.state;
        if state.voltage_v <= 0.0 {
            return "off";
        }
        match state.held_by {
            HeldBy::Setting => "at the wanted voltage",
            HeldBy::CurrentLimit => "held by the current limit",
            HeldBy::Supply => "all that the set gives",
            HeldBy::Sparking if state.sparks_per_min > 0.0 => "held by sparking",
            HeldBy::Sparking => "held just below sparking",
        }
    }
}

/// Mean of some half cycles; 0 of none.
fn mean(points: &[TracePoint], value: impl Fn(&TracePoint) -> f64) -> f64 {
    points.iter().map(value).sum::<f64>() / points.len().max(1) as f64
}
