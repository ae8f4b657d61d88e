//! What feeds one electrical field: an invented set of a fitting rating, the field as its load, and its control.
//!
//! Teaching values, no source; nothing here is a setting recommendation.

use std::f64::consts::{FRAC_2_PI, PI};

use super::{
    layer::LayerLoad,
    state::{defects, wire_row_of},
};
use crate::{
    conditions::{Conditions, FieldDefects},
    physics::{
        PhysicsError,
        constants::VACUUM_PERMITTIVITY_F_M,
        energization::{
            ControllerSettings, Ramp, SparkGap, TransformerRectifier,
            sawtooth::{Sawtooth, ramp_for_v_s},
        },
    },
};

/// Rated mean voltage over the larger of spark voltage and wanted voltage. Teaching value, no source.
const RATED_OVER_HIGHEST: f64 = 1.05;
/// Scatter of the spark voltage from one half cycle to the next. Teaching value, no source; in service it is some per cent.
/// So little, so that "sparks at" is one voltage on every page.
pub(super) const SPARK_SCATTER: f64 = 0.002;
/// Longest share of the time between two sparks that quench and recovery each may take: where very many sparks are wanted
/// the control waits less. Teaching value, no source.
const LONGEST_WAIT: f64 = 0.1;
/// Where no sparks are wanted, the control stays this share below the voltage that sparks. Teaching value, no source: five
/// times the scatter.
const STAYS_BELOW: f64 = 5.0 * SPARK_SCATTER;

/// Where the first ramp starts, as a share of the mean voltage that is reached in the end. Teaching value, no source: an
/// empty field that is charged to all of it at once would swing over.
const START_SHARE: f64 = 0.97;

/// The rise of the mean voltage from spark to spark.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Rise {
    /// Where it starts, V.
    pub(super) from_v: f64,
    /// Share of the time that it takes.
    pub(super) share_of_time: f64,
}

/// The set of one field and what it feeds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct FieldSupply {
    /// The set.
    pub(super) set: TransformerRectifier,
    /// Its rated mean voltage, V.
    pub(super) rated_mean_v: f64,
    /// Its rated mean current, A.
    pub(super) rated_mean_a: f64,
    /// Largest mean current, A: the sheet's limit, or the rating if that is less.
    pub(super) limit_a: f64,
    /// Capacitance of the wires against the plates, all passages together, cable not counted, F.
    pub(super) capacitance_f: f64,
    /// Plate area of the field, m².
    pub(super) plate_area_m2: f64,
    /// Wanted mean voltage, V.
    pub(super) wanted_v: f64,
    /// Voltage of the gap at which it sparks, V: less where layer or frame stand in it, or over bad insulators.
    pub(super) spark_v: f64,
    /// Conductance past the gas, S.
    pub(super) leakage_s: f64,
    /// What the kilovolt meter shows over the voltage.
    pub(super) meter_share: f64,
    /// Share of every second half cycle that does not come.
    pub(super) missing_half_cycles: f64,
    /// Sparks that the control aims for, 1/min; 0 where it stays just below sparking.
    target_per_min: f64,
    /// How long it is blocked after a spark, s.
    quench_s: f64,
    /// How far below the spark its ramp starts again, share of the spark's voltage.
    setback: f64,
}

/// Mean distance of a swing over its furthest: a swing is a sine.
pub(crate) const MEAN_OF_SINE: f64 = FRAC_2_PI;

/// How far wires stand out of the middle in the mean, m.
pub(super) fn mean_displaced_m(defects: &FieldDefects) -> f64 {
    defects.displaced_m + defects.swing_m * MEAN_OF_SINE
}

impl FieldSupply {
    /// The supply of a field, 0 for the first.
    pub(super) fn new(conditions: &Conditions, field: usize) -> Result<Self, PhysicsError> {
        let collector = &conditions.collector;
        let row = wire_row_of(conditions, field)?;
        let gap_m = conditions.gap_m();
        let sound_spark_v = conditions.spark_field_v_m() * gap_m;
        let defects = defects(conditions, field);
        // The gap sparks where it is narrowest.
        let frame_share = 1.0 - mean_displaced_m(&defects) / gap_m;
        let layer_share = LayerLoad::new(conditions, field)?.gap_share(gap_m);
        let spark_v = sound_spark_v * frame_share * layer_share * defects.insulator_share;
        let wanted_v = conditions.wanted_voltage_v(field);
        let passages = collector.passages as f64;
        let plate_area_m2 = 2.0 * collector.field_length_m * collector.plate_height_m * passages;
        let wire_m = f64::from(conditions.wires_per_field()) * collector.plate_height_m * passages;
        let rated_mean_v = RATED_OVER_HIGHEST * sound_spark_v.max(wanted_v);
        let rated_mean_a = conditions.electrical.rated_current_a_m2 * plate_area_m2;
        let limit_a = conditions.electrical.current_limit_a_m2 * plate_area_m2;
        Ok(Self {
            set: TransformerRectifier::teaching(rated_mean_v, rated_mean_a)?,
            rated_mean_v,
            rated_mean_a,
            limit_a: limit_a.min(rated_mean_a),
            // C = 2π ε₀ l/ln(d_eff/r_w): the charge of a wire at a voltage without ions, Gauss.
            capacitance_f: 2.0 * PI * VACUUM_PERMITTIVITY_F_M * wire_m / row.log_ratio(),
            plate_area_m2,
            wanted_v,
            spark_v,
            leakage_s: defects.leakage_s,
            meter_share: defects.meter_share,
            missing_half_cycles: defects.missing_half_cycles,
            target_per_min: 60.0 * conditions.electrical.spark_target_per_s,
            quench_s: conditions.electrical.quench_s,
            setback: conditions.electrical.setback,
        })
    }

    /// The gap of the field where it sparks at this voltage, V.
    pub(super) fn gap_at(&self, spark_v: f64) -> Result<SparkGap, PhysicsError> {
        SparkGap::new(spark_v, SPARK_SCATTER)
    }

    /// How its control is set, for a mean voltage that it reaches in the end.
    pub(super) fn settings(&self, reached_v: f64) -> Result<ControllerSettings, PhysicsError> {
        let plain = ControllerSettings::teaching(&self.gap_at(self.spark_v)?, self.limit_a);
        let wait_s = self.longest_wait_s();
        Ok(ControllerSettings {
            start_voltage_v: START_SHARE * reached_v,
            ramp: if self.target_per_min > 0.0 {
                Ramp::SparkRate {
                    sparks_per_min: self.target_per_min,
                }
            } else {
                plain.ramp
            },
            quench_s: self.quench_s.min(wait_s),
            restart_share: 1.0 - self.setback,
            recovery_s: plain.recovery_s.min(wait_s),
            voltage_limit_v: if self.target_per_min > 0.0 {
                self.wanted_v
            } else {
                reached_v.min(self.wanted_v)
            },
            ..plain
        })
    }

    fn longest_wait_s(&self) -> f64 {
        if self.target_per_min > 0.0 {
            LONGEST_WAIT * 60.0 / self.target_per_min
        } else {
            f64::INFINITY
        }
    }

    /// Sparks per minute of a field that is held by sparking.
    pub(super) fn sparks_per_min(&self) -> f64 {
        self.target_per_min
    }

    /// Mean voltage of a field that sparks, where `strongest_v` is the mean at which the ripple's peak just sparks.
    ///
    /// The closed form of the sawtooth takes nil volts for as long as the control waits: its quench and the recovery
    /// after it. During the recovery the control in fact raises the voltage evenly from nothing to where the ramp starts
    /// again, so half of that is added for that time. The charging of the field's own capacitance is left out.
    pub(super) fn sparking_mean_v(&self, strongest_v: f64) -> Result<f64, PhysicsError> {
        let Some(shape) = self.sawtooth(strongest_v)? else {
            return Ok((1.0 - STAYS_BELOW) * strongest_v);
        };
        let settings = self.settings(strongest_v)?;
        let restart_v = shape.spark_voltage_v - shape.setback_v;
        let recovering = settings.recovery_s * self.target_per_min / 60.0;
        Ok(shape.mean_voltage_v()? + 0.5 * restart_v * recovering)
    }

    /// [`Self::sparking_mean_v`] turned round; the two are proportional.
    pub(super) fn strongest_of(&self, sparking_mean_v: f64) -> Result<f64, PhysicsError> {
        Ok(sparking_mean_v * self.spark_v / self.sparking_mean_v(self.spark_v)?)
    }

    /// How the mean voltage of a field that sparks rises up to `strongest_v`; nothing where no sparks are wanted.
    ///
    /// While the control waits and recovers no current is counted: neither the surge into the spark nor what charges the
    /// capacitance again, some per cent of the mean.
    pub(super) fn ramp(&self, strongest_v: f64) -> Result<Option<Rise>, PhysicsError> {
        let shape = self.sawtooth(strongest_v)?;
        Ok(shape.map(|shape| Rise {
            from_v: shape.spark_voltage_v - shape.setback_v,
            share_of_time: 1.0 - shape.quench_s * self.target_per_min / 60.0,
        }))
    }

    /// The sawtooth of a field that sparks; nothing where no sparks are wanted.
    pub(super) fn sawtooth(&self, strongest_v: f64) -> Result<Option<Sawtooth>, PhysicsError> {
        if self.target_per_min <= 0.0 || strongest_v <= 0.0 {
            return Ok(None);
        }
        let settings = self.settings(strongest_v)?;
        let setback_v = (1.0 - settings.restart_share) * strongest_v;
        let quench_s = settings.quench_s + settings.recovery_s;
        Ok(Some(Sawtooth {
            spark_voltage_v: strongest_v,
            setback_v,
            ramp_v_s: ramp_for_v_s(setback_v, quench_s, self.target_per_min)?,
            quench_s,
        }))
    }
}
