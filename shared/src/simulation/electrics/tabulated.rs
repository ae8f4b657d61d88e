//! One field on the plant clock: its curve of current against voltage, solved once with the dust that is in the gas, moved by
//! what layer, wires, frame, insulators and ash do meanwhile.
//!
//! The charge of the dust follows the current (`dust_follows.rs`), where it flies does not. What sparks is taken by the means
//! of the sawtooth.

use super::{
    Electrics, HeldBy, LayerLoad,
    dust_follows::DustFollows,
    energization::Curves,
    operating::LEAST_NET,
    state::{corona_of, defects, wire_row_of},
    supply::{FieldSupply, mean_displaced_m},
};
use crate::{
    conditions::Conditions,
    physics::{PhysicsError, corona::onset::onset_voltage_v, root::root_of_rising},
};

/// Voltage over the last solved one up to which the curve is taken on, with its last slope.
const BEYOND: f64 = 2.0;
/// A field sparks when its peak is above this share of the voltage that sparks, as when it is solved.
const SPARKS_FROM: f64 = super::set::SPARKS_FROM;

/// What has become of a field while the plant runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wear {
    /// Mean thickness of the layer on the plates, m.
    pub layer_m: f64,
    /// Dust on the wires beyond what the conditions say, m.
    pub wire_coating_m: f64,
    /// How far frame or wires stand out of the middle beyond what the conditions say, m.
    pub displaced_m: f64,
    /// Share of the gap that is left between the frame and the ash below it, at most 1; 0 where it lies in the ash.
    pub ash_share: f64,
}

impl Wear {
    /// As the conditions say.
    pub const NONE: Self = Self {
        layer_m: 0.0,
        wire_coating_m: 0.0,
        displaced_m: 0.0,
        ash_share: 1.0,
    };
}

/// Electrical state of a field on the plant clock.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TabulatedState {
    /// Mean voltage at the set, V.
    pub voltage_v: f64,
    /// The highest that the ripple reaches, or the ramp from spark to spark, V.
    pub peak_voltage_v: f64,
    /// Of the mean voltage across the gap, V.
    pub gap_v: f64,
    /// Mean current density of the corona, A/m².
    pub current_density_a_m2: f64,
    /// The same with what goes past the gas, A/m²: what the milliammeter shows.
    pub metered_a_m2: f64,
    /// Negative ions that arrive at the plates, A/m².
    pub forward_a_m2: f64,
    /// Sparks per minute.
    pub sparks_per_min: f64,
    /// What holds the voltage.
    pub held_by: HeldBy,
    /// Field in the layer, V/m.
    pub layer_field_v_m: f64,
    /// Voltage that is lost in it, V.
    pub layer_drop_v: f64,
    /// Whether it glows.
    pub back_corona: bool,
    /// Share of their charge that grains keep.
    pub charge_share: f64,
}

/// A field whose states can be looked up.
#[derive(Clone, Debug, PartialEq)]
pub struct TabulatedField {
    conditions: Conditions,
    field: usize,
    supply: FieldSupply,
    resistivity_ohm_m: f64,
    /// Gap voltage and steady current density, from onset up.
    points: Vec<(f64, f64)>,
    limit_a_m2: f64,
    /// Ripple: what peak over mean is above 1, per current density over voltage.
    ripple_v_m2_a: f64,
    /// Mean current over the steady current at mean voltage.
    current_share: f64,
    /// Voltage that the set gives where it has lost half cycles, V.
    supply_v: Option<f64>,
    /// How far its wires swing, m; they hang in the middle of it when it is solved.
    swing_m: f64,
}

/// A field under its present wear.
struct Worn<'a> {
    of: &'a TabulatedField,
    layer: LayerLoad,
    onset_rise_v: f64,
    spark_v: f64,
    leakage_a_m2_v: f64,
}

impl TabulatedField {
    /// Solves the curve of a field of these electrics, which must be those of the conditions.
    ///
    /// # Errors
    /// A formula or the solver refused the conditions.
    pub fn new(
        conditions: &Conditions,
        electrics: &Electrics,
        field: usize,
        resistivity_ohm_m: f64,
    ) -> Result<Self, PhysicsError> {
        let supply = FieldSupply::new(conditions, field)?;
        let state = &electrics.states[field];
        let mut curves = Curves::new(conditions, field, supply, state.gap_v())?;
        let (onset_v, solved) = curves.with(&electrics.dust[field])?;
        let mut points: Vec<(f64, f64)> = solved
            .iter()
            .map(|point| (point.voltage_v, point.current_density_a_m2))
            .collect();
        if points.len() < 2 {
            // So much dust that nothing could be solved above the onset: no current below twice of it.
            points = vec![(onset_v, 0.0), (2.0 * onset_v, f64::MIN_POSITIVE)];
        }
        let points = DustFollows::new(conditions, electrics, field)?.followed(&points);
        let steady_a_m2 = electrics.fields[field].plate_current_a_m2();
        let unsparked = state.held_by != HeldBy::Sparking;
        let peak_share = (state.peak_voltage_v - state.layer_drop_v) / state.gap_v();
        let (mut ripple_v_m2_a, mut current_share) = (0.0, 1.0);
        if state.current_density_a_m2 > 0.0 && steady_a_m2 > 0.0 {
            ripple_v_m2_a = (peak_share - 1.0) * state.gap_v() / state.current_density_a_m2;
            current_share = state.current_density_a_m2 / steady_a_m2;
        }
        let mut table = Self {
            limit_a_m2: supply.limit_a / supply.plate_area_m2,
            conditions: conditions.clone(),
            field,
            supply,
            resistivity_ohm_m,
            points,
            ripple_v_m2_a,
            current_share,
            supply_v: (state.held_by == HeldBy::Supply).then_some(state.gap_v()),
            swing_m: 0.0,
        };
        if !unsparked && current_share > 0.0 {
            // The mean from spark to spark stands against the mean of the ramp.
            let strongest_v = table.supply.strongest_of(state.gap_v())?;
            table.current_share = 1.0;
            let ramp_a_m2 = table.sound().ramp_a_m2(strongest_v)?;
            table.current_share = state.current_density_a_m2 / ramp_a_m2.max(f64::MIN_POSITIVE);
            let top_a_m2 = table.current_share * table.steady_a_m2(strongest_v);
            let over = state.spark_v - state.layer_drop_v - strongest_v;
            table.ripple_v_m2_a = (over / top_a_m2.max(f64::MIN_POSITIVE)).max(0.0);
        }
        Ok(table)
    }

    /// The state under this wear.
    ///
    /// # Errors
    /// A formula refused the wear.
    pub fn state(&self, wear: &Wear) -> Result<TabulatedState, PhysicsError> {
        if self.supply.wanted_v <= 0.0 {
            return Ok(self.off());
        }
        let worn = self.worn(wear)?;
        if wear.ash_share <= 0.0 {
            return Ok(TabulatedState {
                metered_a_m2: self.limit_a_m2,
                held_by: HeldBy::CurrentLimit,
                ..self.off()
            });
        }
        worn.state()
    }

    /// The same with wires that swing so far to either side, m.
    #[must_use]
    pub fn swinging(self, swing_m: f64) -> Self {
        Self { swing_m, ..self }
    }

    pub(super) fn swing_m(&self) -> f64 {
        self.swing_m
    }

    fn off(&self) -> TabulatedState {
        TabulatedState {
            voltage_v: 0.0,
            peak_voltage_v: 0.0,
            gap_v: 0.0,
            current_density_a_m2: 0.0,
            metered_a_m2: 0.0,
            forward_a_m2: 0.0,
            sparks_per_min: 0.0,
            held_by: HeldBy::Setting,
            layer_field_v_m: 0.0,
            layer_drop_v: 0.0,
            back_corona: false,
            charge_share: 1.0,
        }
    }

    fn sound(&self) -> Worn<'_> {
        Worn {
            of: self,
            layer: LayerLoad::of(&self.conditions, self.resistivity_ohm_m, 0.0),
            onset_rise_v: 0.0,
            spark_v: self.supply.spark_v,
            leakage_a_m2_v: self.supply.leakage_s / self.supply.plate_area_m2,
        }
    }

    fn worn(&self, wear: &Wear) -> Result<Worn<'_>, PhysicsError> {
        let layer = LayerLoad::of(&self.conditions, self.resistivity_ohm_m, wear.layer_m);
        let gap_m = self.conditions.gap_m();
        let known = defects(&self.conditions, self.field);
        let clear_m = gap_m - mean_displaced_m(&known);
        let frame_share = (clear_m - wear.displaced_m).max(0.0) / clear_m;
        let narrowest = if wear.ash_share < 1.0 {
            frame_share.min(wear.ash_share)
        } else {
            frame_share
        };
        let share = narrowest * layer.gap_share(gap_m);
        Ok(Worn {
            layer,
            onset_rise_v: self.onset_rise_v(wear.wire_coating_m)?,
            spark_v: self.supply.spark_v * share,
            ..self.sound()
        })
    }

    /// How much later the corona starts with so much more dust on the wires, V.
    fn onset_rise_v(&self, coating_m: f64) -> Result<f64, PhysicsError> {
        if coating_m == 0.0 {
            return Ok(0.0);
        }
        let mut coated = self.conditions.clone();
        coated.defects[self.field].wire_coating_m += coating_m;
        let onset_v = |conditions: &Conditions| {
            let row = wire_row_of(conditions, self.field)?;
            let field_v_m = corona_of(conditions, self.field).onset_field_v_m;
            Ok::<_, PhysicsError>(onset_voltage_v(&row, field_v_m))
        };
        Ok(onset_v(&coated)? - onset_v(&self.conditions)?)
    }

    /// Steady current density at a gap voltage, A/m²: straight between solved points.
    fn steady_a_m2(&self, gap_v: f64) -> f64 {
        let upper = self.points.partition_point(|point| point.0 < gap_v);
        let upper = upper.clamp(1, self.points.len() - 1);
        let ((low_v, low_a_m2), (high_v, high_a_m2)) = (self.points[upper - 1], self.points[upper]);
        let slope = (high_a_m2 - low_a_m2) / (high_v - low_v);
        (low_a_m2 + slope * (gap_v - low_v)).max(0.0)
    }
}

impl Worn<'_> {
    /// Mean current density at a gap voltage, A/m².
    fn density_a_m2(&self, gap_v: f64) -> f64 {
        self.of.current_share * self.of.steady_a_m2(gap_v - self.onset_rise_v)
    }

    fn terminal_v(&self, gap_v: f64) -> f64 {
        gap_v + self.layer.drop_v(self.density_a_m2(gap_v))
    }

    fn metered_a_m2(&self, gap_v: f64) -> f64 {
        self.density_a_m2(gap_v) + self.leakage_a_m2_v * self.terminal_v(gap_v)
    }

    fn peak_v(&self, gap_v: f64) -> f64 {
        gap_v + self.of.ripple_v_m2_a * self.density_a_m2(gap_v)
    }

    /// Gap voltage at which something that rises with it reaches a value, up to the end of the curve.
    fn where_reached(&self, rising: impl Fn(f64) -> f64, value: f64) -> f64 {
        let top_v = self.of.points.last().map_or(0.0, |point| BEYOND * point.0) + self.onset_rise_v;
        root_of_rising(|gap_v| rising(gap_v) - value, 0.0, top_v)
    }

    /// Mean current density from spark to spark, A/m²: Simpson's rule over the rise.
    fn ramp_a_m2(&self, strongest_v: f64) -> Result<f64, PhysicsError> {
        let Some(rise) = self.of.supply.ramp(strongest_v)? else {
            return Ok(self.density_a_m2(strongest_v));
        };
        let middle_v = 0.5 * (rise.from_v + strongest_v);
        let sum_a_m2 = self.density_a_m2(rise.from_v)
            + 4.0 * self.density_a_m2(middle_v)
            + self.density_a_m2(strongest_v);
        Ok(rise.share_of_time * sum_a_m2 / 6.0)
    }

    fn state(&self) -> Result<TabulatedState, PhysicsError> {
        let supply = &self.of.supply;
        let setting_v = match self.of.supply_v {
            Some(supply_v) => supply_v,
            None => self.where_reached(|gap_v| self.terminal_v(gap_v), supply.wanted_v),
        };
        let limited_v = self.where_reached(|gap_v| self.metered_a_m2(gap_v), self.of.limit_a_m2);
        let sparking_v = self.where_reached(|gap_v| self.peak_v(gap_v), self.spark_v);
        let sparks_from_v =
            self.where_reached(|gap_v| self.peak_v(gap_v), SPARKS_FROM * self.spark_v);
        let breaking_v =
            self.where_reached(|gap_v| self.density_a_m2(gap_v), self.layer.unbroken_a_m2());
        let least_v = setting_v.min(limited_v).min(sparks_from_v);
        if breaking_v < least_v {
            return if self.peak_v(breaking_v) >= self.layer.streamer_v {
                self.sparking(breaking_v)
            } else {
                Ok(self.glowing(breaking_v))
            };
        }
        if sparks_from_v <= setting_v.min(limited_v) {
            return self.sparking(sparking_v.min(setting_v));
        }
        let held_by = match self.of.supply_v {
            _ if limited_v < setting_v => HeldBy::CurrentLimit,
            Some(_) => HeldBy::Supply,
            None => HeldBy::Setting,
        };
        let gap_v = setting_v.min(limited_v);
        Ok(self.unbroken(gap_v, self.density_a_m2(gap_v), held_by))
    }

    fn sparking(&self, strongest_v: f64) -> Result<TabulatedState, PhysicsError> {
        let gap_v = self.of.supply.sparking_mean_v(strongest_v)?;
        let sparks_per_min = self.of.supply.sparks_per_min();
        let density_a_m2 = if sparks_per_min > 0.0 {
            self.ramp_a_m2(strongest_v)?
        } else {
            self.density_a_m2(gap_v)
        };
        let sparking = self.unbroken(gap_v, density_a_m2, HeldBy::Sparking);
        Ok(TabulatedState {
            sparks_per_min,
            peak_voltage_v: self.peak_v(strongest_v) + sparking.layer_drop_v,
            ..sparking
        })
    }

    fn unbroken(&self, gap_v: f64, density_a_m2: f64, held_by: HeldBy) -> TabulatedState {
        let layer_drop_v = self.layer.drop_v(density_a_m2);
        let voltage_v = gap_v + layer_drop_v;
        TabulatedState {
            voltage_v,
            peak_voltage_v: voltage_v + self.of.ripple_v_m2_a * density_a_m2,
            gap_v,
            current_density_a_m2: density_a_m2,
            metered_a_m2: density_a_m2 + self.leakage_a_m2_v * voltage_v,
            forward_a_m2: density_a_m2,
            sparks_per_min: 0.0,
            held_by,
            layer_field_v_m: self.layer.field_v_m(density_a_m2),
            layer_drop_v,
            back_corona: false,
            charge_share: 1.0,
        }
    }

    fn glowing(&self, breaking_v: f64) -> TabulatedState {
        let leaking_a_m2 = self.leakage_a_m2_v * self.terminal_v(breaking_v);
        let density_a_m2 = self.of.limit_a_m2 - leaking_a_m2;
        let least_a_m2 = LEAST_NET * self.layer.unbroken_a_m2();
        let net_a_m2 = self.layer.net_a_m2(density_a_m2).max(least_a_m2);
        let gap_v = self.where_reached(|gap_v| self.density_a_m2(gap_v), net_a_m2);
        TabulatedState {
            forward_a_m2: self.layer.forward_a_m2(density_a_m2),
            back_corona: true,
            charge_share: self.layer.charge_share(density_a_m2),
            ..self.unbroken(gap_v, density_a_m2, HeldBy::CurrentLimit)
        }
    }
}
