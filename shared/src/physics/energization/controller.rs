//! The automatic voltage control: ramp up, cut at a spark, wait, start again lower; stop at the current limit.
//!
//! It acts once a half cycle. A spark empties the field and shorts it until the quench is over, as in the closed form
//! of [`super::sawtooth`]; what the set still pushes into the spark is counted as current.

use rand_core::Rng;

use super::half_cycle::State;
use super::supply::{Demand, Feed};
use super::{ControllerSettings, FieldLoad, Ramp, SparkGap, Supply, Trace, TracePoint, Upset};
use crate::physics::PhysicsError;
use crate::physics::chance::unit;
use crate::physics::error::require;

/// How much a spark slows the ramp, as a change of its logarithm; the wanted time between sparks quickens it as much.
/// Teaching value, no source.
const RAMP_GAIN: f64 = 0.1;
/// How far the ramp may leave the closed form's rate, as factors. Teaching values, no source.
const RAMP_RANGE: (f64, f64) = (0.05, 10.0);
/// Share of a new reading in the smoothed mean current. Teaching value, no source.
const CURRENT_SMOOTHING: f64 = 0.1;
/// How much the voltage gives way for each relative excess of current. Teaching value, no source.
const LIMIT_GAIN: f64 = 0.01;
/// From this share of the limit on the current counts as limited. Teaching value, no source.
const LIMIT_BAND: f64 = 0.98;

/// A voltage control on its set and field; the same settings and dice give the same trace bit for bit.
///
/// # Source
/// Common practice, no source; made for teaching.
///
/// # Validity
/// One field alone; no magnetizing current of the transformer, no heat of thyristors.
#[derive(Clone, Debug)]
pub struct Controller {
    feed: Feed,
    gap: SparkGap,
    settings: ControllerSettings,
    /// Half cycles so far.
    half_cycles: u64,
    /// What is left in set and field.
    state: State,
    /// Mean voltage that the ramp stands at, V.
    wanted_v: f64,
    ramp_v_s: f64,
    first_ramp_v_s: f64,
    /// Half cycles of quench that are left.
    quench_left: u64,
    /// Half cycles since the last restart.
    since_restart: u64,
    /// Current summed over the running group of on and off half cycles, A.
    group_sum_a: f64,
    /// Mean current, smoothed, A.
    mean_a: f64,
}

impl Controller {
    /// A control at rest, the field empty.
    ///
    /// # Arguments
    /// * `supply` – the set.
    /// * `load` – the field.
    /// * `gap` – where it sparks; compared with the voltage of each moment, so with the peak.
    /// * `settings` – the settings.
    ///
    /// # Source
    /// As [`Controller`].
    ///
    /// # Validity
    /// As [`Controller`].
    ///
    /// # Errors
    /// A number outside its range, or a set that does not settle on this field.
    pub fn new(
        supply: Supply,
        load: FieldLoad,
        gap: SparkGap,
        settings: ControllerSettings,
    ) -> Result<Self, PhysicsError> {
        let settings = settings.checked()?;
        let feed = Feed::new(supply, load)?;
        let ramp_v_s = settings.first_ramp_v_s(gap.middle_v())?;
        Ok(Self {
            wanted_v: settings
                .start_voltage_v
                .min(settings.voltage_limit_v)
                .min(feed.highest_v()),
            feed,
            gap,
            settings,
            half_cycles: 0,
            state: State::default(),
            ramp_v_s,
            first_ramp_v_s: ramp_v_s,
            quench_left: 0,
            since_restart: 0,
            group_sum_a: 0.0,
            mean_a: 0.0,
        })
    }

    /// Runs for a time and records it; a second call goes on where the first one stopped.
    ///
    /// # Arguments
    /// * `time_s` – how long, s, 0 to an hour; rounded to half cycles.
    /// * `dice` – random numbers, a stream of its own; see [`crate::simulation::spark_stream`].
    ///
    /// # Source
    /// As [`Controller`].
    ///
    /// # Validity
    /// As [`Controller`].
    ///
    /// # Errors
    /// A time outside its range.
    pub fn run(&mut self, time_s: f64, dice: &mut impl Rng) -> Result<Trace, PhysicsError> {
        let half_cycle_s = self.feed.half_cycle_s();
        let hour = (0.0..=3600.0).contains(&time_s);
        let count = half_cycles(
            require(hour, "time_s", time_s, "0 to an hour")?,
            half_cycle_s,
        );
        Ok(Trace {
            points: (0..count).map(|_| self.half_cycle(dice)).collect(),
            half_cycle_s,
        })
    }

    /// Mean voltage that the ramp stands at, V.
    #[must_use]
    pub fn wanted_voltage_v(&self) -> f64 {
        self.wanted_v
    }

    /// Rate of rise at the moment, V/s.
    #[must_use]
    pub fn ramp_v_s(&self) -> f64 {
        self.ramp_v_s
    }

    /// Runs one half cycle. One number of the dice is drawn each time, sparks or not.
    ///
    /// # Arguments
    /// * `dice` – as for [`Self::run`].
    ///
    /// # Source
    /// As [`Controller`].
    ///
    /// # Validity
    /// As [`Controller`].
    pub fn half_cycle(&mut self, dice: &mut impl Rng) -> TracePoint {
        let strength_v = self.gap.strength_v(unit(dice));
        let quenching = self.quench_left > 0;
        let before_v = self.wanted_v;
        if quenching {
            self.quench_left -= 1;
        } else if self.recovering() == 0 && self.mean_a < self.settings.current_limit_a {
            let rise_v = self.ramp_v_s * self.feed.half_cycle_s();
            self.wanted_v = (self.wanted_v + rise_v).min(self.highest_v());
        }
        let demand = Demand {
            wanted_v: (!quenching && self.on()).then(|| self.asked_v(before_v)),
            strength_v,
            shorted: quenching,
        };
        let (end, sums, sparked) = self.feed.half_cycle(self.state, demand);
        self.state = end;
        self.half_cycles += 1;
        let mut point = TracePoint {
            time_s: self.half_cycles as f64 * self.feed.half_cycle_s(),
            mean_voltage_v: sums.mean_v(),
            peak_voltage_v: sums.peak_v,
            mean_current_a: sums.mean_a(),
            power_w: sums.mean_power_w(),
            upset: None,
            at_current_limit: !quenching
                && self.mean_a >= LIMIT_BAND * self.settings.current_limit_a,
            at_full_output: !quenching && self.wanted_v >= self.feed.highest_v(),
        };
        let at_limit = point.at_current_limit || self.wanted_v >= self.settings.voltage_limit_v;
        self.adapt_ramp(sparked, at_limit);
        if sparked {
            point.upset = Some(self.cut());
        } else if !quenching {
            self.since_restart += 1;
            self.measure(point.mean_current_a);
        }
        point
    }

    /// Highest mean voltage that set and setting allow, V.
    fn highest_v(&self) -> f64 {
        self.feed.highest_v().min(self.settings.voltage_limit_v)
    }

    /// Whether this half cycle of the group is let through.
    fn on(&self) -> bool {
        self.since_restart % self.group() < u64::from(self.settings.energization.on)
    }

    /// Half cycles of a group, on and off together.
    fn group(&self) -> u64 {
        u64::from(self.settings.energization.on) + u64::from(self.settings.energization.off)
    }

    /// Half cycles of recovery.
    fn recovery(&self) -> u64 {
        half_cycles(self.settings.recovery_s, self.feed.half_cycle_s())
    }

    /// Half cycles of recovery that are left.
    fn recovering(&self) -> u64 {
        self.recovery().saturating_sub(self.since_restart)
    }

    /// Mean voltage asked of the set at the start and the end of this half cycle, V.
    fn asked_v(&self, before_v: f64) -> (f64, f64) {
        if self.recovering() == 0 {
            return (before_v, self.wanted_v);
        }
        let per_half_cycle_v = self.wanted_v / self.recovery() as f64;
        let done = self.since_restart as f64;
        (done * per_half_cycle_v, (done + 1.0) * per_half_cycle_v)
    }

    /// After a spark: block the set, and set the ramp back.
    fn cut(&mut self) -> Upset {
        let back = self
            .recovery()
            .saturating_add(u64::from(self.settings.arc_window));
        let arc = self.since_restart < back;
        let (share, quench_s) = if arc {
            (self.settings.arc_restart_share, self.settings.arc_quench_s)
        } else {
            (self.settings.restart_share, self.settings.quench_s)
        };
        self.wanted_v *= share;
        self.quench_left = half_cycles(quench_s, self.feed.half_cycle_s()).max(1);
        self.since_restart = 0;
        self.group_sum_a = 0.0;
        self.mean_a = 0.0;
        if arc { Upset::Arc } else { Upset::Spark }
    }

    /// Takes the mean current of each whole group of half cycles, and gives way above the limit.
    fn measure(&mut self, current_a: f64) {
        let group = self.group();
        self.group_sum_a += current_a;
        if self.since_restart.is_multiple_of(group) {
            let reading_a = self.group_sum_a / group as f64;
            self.group_sum_a = 0.0;
            self.mean_a += CURRENT_SMOOTHING * (reading_a - self.mean_a);
            let excess = self.mean_a / self.settings.current_limit_a - 1.0;
            self.wanted_v *= 1.0 - (LIMIT_GAIN * excess).clamp(0.0, 0.02);
        }
    }

    /// Steers the ramp so that sparks come at the wanted rate: in the long run each spark's slowing is made good by
    /// just the wanted time between sparks.
    fn adapt_ramp(&mut self, sparked: bool, at_limit: bool) {
        let Ramp::SparkRate { sparks_per_min } = self.settings.ramp else {
            return;
        };
        let expected = sparks_per_min / 60.0 * self.feed.half_cycle_s();
        let quicken = if at_limit { 0.0 } else { expected };
        let slow = if sparked { 1.0 } else { 0.0 };
        let (least, most) = RAMP_RANGE;
        self.ramp_v_s = (self.ramp_v_s * (RAMP_GAIN * (quicken - slow)).exp())
            .clamp(least * self.first_ramp_v_s, most * self.first_ramp_v_s);
    }
}

/// A time in half cycles, rounded.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "0 or more, and a float saturates"
)]
fn half_cycles(time_s: f64, half_cycle_s: f64) -> u64 {
    (time_s / half_cycle_s).round() as u64
}
