//! One half cycle of the line: the thyristor fires, current charges the field, current dies out, the field decays.
//!
//! `C dV/dt = i − I(V)`, `L di/dt = s − R i − V` while current flows, `s = E sin θ`.
//! A current that is still flowing when the line turns runs on against it (`s = −E sin θ`) until it dies out. The gate
//! is held from the firing angle to the end of the half cycle, so current starts once `E sin θ > V`.
//! Steps with current: two-stage diagonally implicit Runge–Kutta, second order and L-stable (Alexander 1977, SIAM J.
//! Numer. Anal. 14:1006, from memory); each stage is solved exactly. Steps without current are exact.

use std::f64::consts::{FRAC_1_SQRT_2, PI};

use super::sums::{Point, Sums};
use super::{FieldLoad, TransformerRectifier};

/// Coefficient of the two-stage method.
const GAMMA: f64 = 1.0 - FRAC_1_SQRT_2;
/// Most pieces that one step is cut into by firing, dying out and sparking; ordinary steps have up to three.
const MOST_PIECES: usize = 8;

/// What is left from one half cycle to the next.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct State {
    /// Voltage of the field, V.
    pub(super) voltage_v: f64,
    /// Current that still flows in the set, A.
    pub(super) current_a: f64,
}

/// What is asked of one half cycle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Order {
    /// Firing angle α, rad; π and more blocks the thyristors.
    pub(super) firing_angle_rad: f64,
    /// Voltage at which the gap sparks in this half cycle, V; infinite for never.
    pub(super) strength_v: f64,
    /// The gap is still shorted by the last spark.
    pub(super) shorted: bool,
    /// Steps of the half cycle.
    pub(super) steps: u32,
}

/// A half cycle while it runs.
#[derive(Debug)]
pub(super) struct HalfCycle<'a> {
    set: &'a TransformerRectifier,
    load: &'a FieldLoad,
    order: Order,
    time_s: f64,
    point: Point,
    /// The current is left from the half cycle before.
    carried: bool,
    pub(super) sums: Sums,
    /// When the gap sparked, s from the start of the half cycle.
    pub(super) spark_at_s: Option<f64>,
}

/// Runs one half cycle; `see` is shown the start and the end of every step.
pub(super) fn run<'a>(
    set: &'a TransformerRectifier,
    load: &'a FieldLoad,
    start: State,
    order: Order,
    mut see: impl FnMut(f64, &Point),
) -> (State, HalfCycle<'a>) {
    let mut cycle = HalfCycle {
        set,
        load,
        order,
        time_s: 0.0,
        point: Point {
            voltage_v: start.voltage_v,
            current_a: start.current_a,
            source_v: 0.0,
            field_a: load.curve().current_a(start.voltage_v),
        },
        carried: start.current_a > 0.0,
        sums: Sums::default(),
        spark_at_s: None,
    };
    let step_s = set.half_cycle_s() / f64::from(order.steps);
    see(0.0, &cycle.point);
    for step in 0..order.steps {
        let end_s = f64::from(step + 1) * step_s;
        let fire_s = cycle.fire_s();
        if cycle.time_s < fire_s && fire_s < end_s {
            cycle.advance_to(fire_s);
        }
        cycle.advance_to(end_s);
        see(end_s, &cycle.point);
    }
    let end = State {
        voltage_v: cycle.point.voltage_v,
        current_a: cycle.point.current_a,
    };
    (end, cycle)
}

impl HalfCycle<'_> {
    fn fire_s(&self) -> f64 {
        self.order.firing_angle_rad / PI * self.set.half_cycle_s()
    }

    fn shorted(&self) -> bool {
        self.order.shorted || self.spark_at_s.is_some()
    }

    /// Voltage behind the transformer in the direction of the current, V.
    fn source_v(&self, time_s: f64) -> f64 {
        let sine = (PI * time_s / self.set.half_cycle_s()).sin();
        let sign = if self.carried { -1.0 } else { 1.0 };
        sign * self.set.open_peak_v() * sine
    }

    fn advance_to(&mut self, end_s: f64) {
        for _ in 0..MOST_PIECES {
            if self.time_s >= end_s {
                return;
            }
            if self.point.current_a > 0.0 {
                self.conduct_to(end_s);
            } else {
                self.wait_to(end_s);
            }
        }
        if self.time_s < end_s {
            self.decay_to(end_s);
        }
    }

    /// No current flows: the field decays until the thyristor is fired and the line stands above the field.
    fn wait_to(&mut self, end_s: f64) {
        self.carried = false;
        // A rounding below the firing moment must not cost a step.
        let gated = self.time_s >= self.fire_s() * (1.0 - 1e-12) && !self.shorted();
        if !gated {
            return self.decay_to(end_s);
        }
        let over_v = self.source_v(self.time_s) - self.point.voltage_v;
        if over_v > 0.0 {
            return self.conduct_to(end_s);
        }
        let left_s = end_s - self.time_s;
        let decayed_v = self.decayed_v(left_s);
        let over_end_v = self.source_v(end_s) - decayed_v;
        if over_end_v <= 0.0 {
            return self.decay_to(end_s);
        }
        let start_s = self.time_s + left_s * over_v / (over_v - over_end_v);
        if start_s > self.time_s {
            self.decay_to(start_s);
        }
        if start_s < end_s {
            self.conduct_to(end_s);
        }
    }

    fn decayed_v(&self, time_s: f64) -> f64 {
        let curve = self.load.curve();
        curve.decayed_v(self.point.voltage_v, self.load.capacitance_f(), time_s)
    }

    fn decay_to(&mut self, end_s: f64) {
        let decayed_v = self.decayed_v(end_s - self.time_s);
        let voltage_v = if self.shorted() { 0.0 } else { decayed_v };
        self.move_to(end_s, voltage_v, 0.0, false);
    }

    /// Current flows, to the end of the step or until it dies out.
    fn conduct_to(&mut self, end_s: f64) {
        let step_s = end_s - self.time_s;
        let (voltage_v, current_a) = self.implicit_step(step_s);
        if current_a >= 0.0 {
            return self.move_to(end_s, voltage_v, current_a, true);
        }
        let start_a = self.point.current_a;
        if start_a <= 0.0 {
            return self.decay_to(end_s);
        }
        // The moment at which the current dies out, by regula falsi; three rounds leave less than the step's own error.
        let (mut flows, mut gone) = ((0.0, start_a), (1.0, current_a));
        let mut there = (1.0, voltage_v);
        for _ in 0..3 {
            let part = flows.0 + (gone.0 - flows.0) * flows.1 / (flows.1 - gone.1);
            let (part_v, part_a) = self.implicit_step(part * step_s);
            there = (part, part_v);
            if part_a > 0.0 {
                flows = (part, part_a);
            } else {
                gone = (part, part_a);
            }
            if part_a == 0.0 {
                break;
            }
        }
        let out_s = (self.time_s + there.0 * step_s).min(end_s);
        self.move_to(out_s, there.1, 0.0, true);
        self.carried = false;
    }

    /// Voltage and current one step on, with current flowing.
    fn implicit_step(&self, step_s: f64) -> (f64, f64) {
        let Point {
            voltage_v: v0,
            current_a: i0,
            ..
        } = self.point;
        let stage_s = GAMMA * step_s;
        let (v1, i1) = self.implicit_euler(v0, i0, stage_s, self.time_s + stage_s);
        let gain = (1.0 - GAMMA) / GAMMA;
        let (base_v, base_a) = (v0 + gain * (v1 - v0), i0 + gain * (i1 - i0));
        let (v2, i2) = self.implicit_euler(base_v, base_a, stage_s, self.time_s + step_s);
        if v2 >= 0.0 {
            return (v2, i2);
        }
        // So stiff a field that the second stage overshoots: one stable step of first order instead.
        self.implicit_euler(v0, i0, step_s, self.time_s + step_s)
    }

    /// Solves `V = V₀ + (h/C)(i − I(V))`, `i = i₀ + (h/L)(s − R i − V)`.
    fn implicit_euler(&self, v0: f64, i0: f64, step_s: f64, end_s: f64) -> (f64, f64) {
        let per_inductance = step_s / self.set.inductance_h;
        let damping = 1.0 + per_inductance * self.set.resistance_ohm;
        let drive_a = (i0 + per_inductance * self.source_v(end_s)) / damping;
        if self.shorted() {
            return (0.0, drive_a);
        }
        let per_capacitance = step_s / self.load.capacitance_f();
        let divisor = 1.0 + per_capacitance * per_inductance / damping;
        let voltage_v = self.load.curve().balance_v(
            per_capacitance / divisor,
            (v0 + per_capacitance * drive_a) / divisor,
        );
        (voltage_v, drive_a - per_inductance / damping * voltage_v)
    }

    /// The bridge lets no voltage of the wrong sign stand.
    fn move_to(&mut self, end_s: f64, found_v: f64, current_a: f64, conducting: bool) {
        let voltage_v = found_v.max(0.0);
        let end = Point {
            voltage_v,
            current_a,
            source_v: self.source_v(end_s),
            field_a: self.load.curve().current_a(voltage_v),
        };
        let start = Point {
            source_v: self.source_v(self.time_s),
            ..self.point
        };
        self.sums.add(end_s - self.time_s, &start, &end, conducting);
        self.time_s = end_s;
        self.point = end;
        if voltage_v >= self.order.strength_v && !self.shorted() {
            self.spark_at_s = Some(end_s);
            self.point.voltage_v = 0.0;
            self.point.field_a = 0.0;
        }
    }
}
