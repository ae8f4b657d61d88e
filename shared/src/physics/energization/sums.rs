//! Bookkeeping over one half cycle: means, extremes and powers, summed while the waveform is computed.

/// The electrical state at one moment.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Point {
    /// Voltage of the field V, V.
    pub(super) voltage_v: f64,
    /// Rectified current i of the set, A.
    pub(super) current_a: f64,
    /// Voltage behind the transformer, in the direction of the current, V.
    pub(super) source_v: f64,
    /// Current that the field takes I(V), A.
    pub(super) field_a: f64,
}

/// Integrals over a half cycle by the trapezoid rule, second order like the steps.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sums {
    pub(super) time_s: f64,
    pub(super) conducting_s: f64,
    pub(super) peak_v: f64,
    pub(super) least_v: f64,
    pub(super) peak_a: f64,
    voltage_vs: f64,
    current_as: f64,
    field_as: f64,
    energy_j: f64,
    source_j: f64,
    current_square_a2s: f64,
    source_square_v2s: f64,
}

impl Default for Sums {
    fn default() -> Self {
        Self {
            time_s: 0.0,
            conducting_s: 0.0,
            peak_v: 0.0,
            least_v: f64::INFINITY,
            peak_a: 0.0,
            voltage_vs: 0.0,
            current_as: 0.0,
            field_as: 0.0,
            energy_j: 0.0,
            source_j: 0.0,
            current_square_a2s: 0.0,
            source_square_v2s: 0.0,
        }
    }
}

impl Sums {
    /// Adds a piece of the half cycle between two moments.
    #[inline]
    pub(super) fn add(&mut self, time_s: f64, from: &Point, to: &Point, conducting: bool) {
        let half_s = 0.5 * time_s;
        self.time_s += time_s;
        self.peak_v = self.peak_v.max(from.voltage_v).max(to.voltage_v);
        self.least_v = self.least_v.min(from.voltage_v).min(to.voltage_v);
        self.voltage_vs += half_s * (from.voltage_v + to.voltage_v);
        self.field_as += half_s * (from.field_a + to.field_a);
        if conducting {
            self.conducting_s += time_s;
            self.peak_a = self.peak_a.max(to.current_a);
            self.current_as += half_s * (from.current_a + to.current_a);
            self.energy_j +=
                half_s * (from.voltage_v * from.current_a + to.voltage_v * to.current_a);
            self.source_j += half_s * (from.source_v * from.current_a + to.source_v * to.current_a);
            self.current_square_a2s +=
                half_s * (from.current_a * from.current_a + to.current_a * to.current_a);
            self.source_square_v2s +=
                half_s * (from.source_v * from.source_v + to.source_v * to.source_v);
        }
    }

    /// Mean voltage, V.
    pub(super) fn mean_v(&self) -> f64 {
        self.voltage_vs / self.time_s
    }

    /// Mean rectified current, A.
    pub(super) fn mean_a(&self) -> f64 {
        self.current_as / self.time_s
    }

    /// Mean current that the field takes, A.
    pub(super) fn mean_field_a(&self) -> f64 {
        self.field_as / self.time_s
    }

    /// Mean of v·i behind the rectifier, W.
    pub(super) fn mean_power_w(&self) -> f64 {
        self.energy_j / self.time_s
    }

    /// Mean of v·i at the line, W.
    pub(super) fn source_power_w(&self) -> f64 {
        self.source_j / self.time_s
    }

    /// RMS of the rectified current, A.
    pub(super) fn rms_a(&self) -> f64 {
        (self.current_square_a2s / self.time_s).sqrt()
    }

    /// RMS of the voltage that the thyristors let through, seen from the secondary, V.
    pub(super) fn rms_source_v(&self) -> f64 {
        (self.source_square_v2s / self.time_s).sqrt()
    }
}
