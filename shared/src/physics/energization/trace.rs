//! What the recorder of a set writes: voltage and current half cycle by half cycle, sparks marked, and their means.

/// A breakdown of the gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Upset {
    /// A spark out of the ramp.
    Spark,
    /// A spark so soon after a restart that the gap had not recovered.
    Arc,
}

/// One half cycle of the trace.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TracePoint {
    /// End of the half cycle, s from the controller's start.
    pub time_s: f64,
    /// Mean voltage of the half cycle, V.
    pub mean_voltage_v: f64,
    /// Peak voltage of the half cycle, V.
    pub peak_voltage_v: f64,
    /// Mean current of the set, A; the surge into a spark included.
    pub mean_current_a: f64,
    /// Mean of v·i, W.
    pub power_w: f64,
    /// Whether the gap broke down.
    pub upset: Option<Upset>,
    /// The mean current stands at its limit.
    pub at_current_limit: bool,
    /// The set gives all it can.
    pub at_full_output: bool,
}

/// Voltage and current over a time.
///
/// # Source
/// Sums over the half cycles; common practice, no source.
///
/// # Validity
/// As [`super::Controller`].
#[derive(Clone, Debug, PartialEq)]
pub struct Trace {
    /// The half cycles in order.
    pub points: Vec<TracePoint>,
    /// Length of a half cycle, s.
    pub half_cycle_s: f64,
}

impl Trace {
    /// Mean voltage, V; the quench counts with what is left of the voltage.
    #[must_use]
    pub fn mean_voltage_v(&self) -> f64 {
        self.mean(|point| point.mean_voltage_v)
    }

    /// Highest voltage, V.
    #[must_use]
    pub fn peak_voltage_v(&self) -> f64 {
        let peaks = self.points.iter().map(|point| point.peak_voltage_v);
        peaks.fold(0.0, f64::max)
    }

    /// Mean current, A.
    #[must_use]
    pub fn mean_current_a(&self) -> f64 {
        self.mean(|point| point.mean_current_a)
    }

    /// Mean of v·i, W: the true secondary power.
    #[must_use]
    pub fn mean_power_w(&self) -> f64 {
        self.mean(|point| point.power_w)
    }

    /// Breakdowns per minute, arcs included.
    #[must_use]
    pub fn sparks_per_min(&self) -> f64 {
        60.0 / self.half_cycle_s * self.share(|point| point.upset.is_some())
    }

    /// Arcs per minute.
    #[must_use]
    pub fn arcs_per_min(&self) -> f64 {
        60.0 / self.half_cycle_s * self.share(|point| point.upset == Some(Upset::Arc))
    }

    /// Share of the time at the current limit.
    #[must_use]
    pub fn share_at_current_limit(&self) -> f64 {
        self.share(|point| point.at_current_limit)
    }

    /// Share of the time at which the set gave all it can.
    #[must_use]
    pub fn share_at_full_output(&self) -> f64 {
        self.share(|point| point.at_full_output)
    }

    fn share(&self, counts: impl Fn(&TracePoint) -> bool) -> f64 {
        self.mean(|point| if counts(point) { 1.0 } else { 0.0 })
    }

    /// Mean over all half cycles; 0 of none.
    fn mean(&self, value: impl Fn(&TracePoint) -> f64) -> f64 {
        let sum: f64 = self.points.iter().map(value).sum();
        sum / self.points.len().max(1) as f64
    }
}
