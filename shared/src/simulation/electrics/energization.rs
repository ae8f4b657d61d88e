//! The set of one electrical field to look at: its curves with and without dust, its half cycle, its control and a trace.

use super::{
    DustCharge, Electrics, FieldState, HeldBy, LayerLoad, layered,
    ripple::{amperes_per_a_m, filled},
    state::{corona_of, wire_row_of},
    supply::FieldSupply,
};
use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        corona::{
            CoronaSolver, WireRow, quadratic_law,
            solver::{CoronaSolution, Fineness},
        },
        energization::{
            Controller, ControllerSettings, FieldLoad, SparkGap, Supply, Trace,
            TransformerRectifier, VoltageCurrent, Waveform, firing_angle_for, sawtooth::Sawtooth,
        },
    },
    simulation::spark_stream,
};

/// Solved points of a curve.
const POINTS: usize = 20;
/// A curve is solved up to this many times the spark voltage, or where that is more, the onset voltage.
const HIGHEST: f64 = 1.2;
/// A gap that would hold far more voltage than is used: up to this many times what is used, or where that is more, the onset.
const MOST_USED: f64 = 2.0;
/// How far above onset the slope of the clean gas's current is taken, over the onset voltage.
const ONSET_EXCESS: f64 = 5e-4;

/// One point of a voltage–current curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VoltageCurrentPoint {
    /// Voltage, V; steady, so mean and peak are the same.
    pub voltage_v: f64,
    /// Current of the whole field, A.
    pub current_a: f64,
    /// The same over the plate area, A/m².
    pub current_density_a_m2: f64,
}

/// The electrical set of one field, its load and its control. Teaching values; nothing here is a setting recommendation.
#[derive(Clone, Debug)]
pub struct FieldEnergization {
    /// Which field, 0 for the first.
    pub field: usize,
    /// State of the field.
    pub state: FieldState,
    /// The set. Its rating is invented.
    pub set: TransformerRectifier,
    /// Rated mean voltage, V: a little above the larger of spark voltage and wanted voltage.
    pub rated_mean_v: f64,
    /// Rated mean current, A: the sheet's rating times the plate area.
    pub rated_mean_a: f64,
    /// Plate area, m².
    pub plate_area_m2: f64,
    /// Capacitance of wires and plates, cable not counted, and the curve with the dust that is in the gas.
    pub load: FieldLoad,
    /// Solved points with that dust, from onset up; only the onset where no more could be solved.
    pub dust_load: Vec<VoltageCurrentPoint>,
    /// The same with the layer on the plates, from onset up: shifted by `jρh`, and where the layer breaks down and glows, back
    /// to less voltage at more current, up to the limit of the set.
    pub layer_load: Vec<VoltageCurrentPoint>,
    /// The layer.
    pub layer: LayerLoad,
    /// Solved points in clean gas of the same temperature, from onset up: what an air load test shows, if the gas were air.
    pub air_load: Vec<VoltageCurrentPoint>,
    /// The textbook's quadratic law in clean gas at the voltages of [`Self::air_load`].
    pub textbook: Vec<VoltageCurrentPoint>,
    /// Slope of the solved current just above onset in clean gas over the closed form's.
    pub onset_slope_share: f64,
    /// The repeating half cycle at the field's mean voltage; nothing of a field that is off.
    pub waveform: Option<Waveform>,
    /// The gap.
    pub gap: SparkGap,
    /// Settings of the control.
    pub settings: ControllerSettings,
    /// The closed form of a field that sparks, quench and recovery together as dead time; its spark voltage is the mean at
    /// which the ripple's peak sparks.
    pub sawtooth: Option<Sawtooth>,
    /// Its mean voltage, V, with half of the restart's voltage while the control recovers.
    pub sawtooth_mean_v: Option<f64>,
}

impl FieldEnergization {
    /// What the recorder writes from the start of the control on; the same seed gives the same trace.
    ///
    /// # Errors
    /// A time that is not 0 to an hour.
    pub fn trace(&self, seed: u64, duration_s: f64) -> Result<Trace, PhysicsError> {
        let mut control = Controller::new(
            Supply::SinglePhase(self.set),
            self.load.clone(),
            self.gap,
            self.settings,
        )?;
        control.run(duration_s, &mut spark_stream(seed, self.field as u64))
    }
}

/// The set of a field, 0 for the first, in the state that [`electrics`](super::electrics) found under the same
/// conditions.
///
/// # Errors
/// No such field, or a formula or the solver refused the conditions.
pub fn energization_of(
    conditions: &Conditions,
    electrics: &Electrics,
    field: usize,
) -> Result<FieldEnergization, PhysicsError> {
    let (Some(state), Some(dust)) = (electrics.states.get(field), electrics.dust.get(field)) else {
        return Err(PhysicsError::WrongLength {
            argument: "electrics",
            got: electrics.states.len(),
            expected: field + 1,
        });
    };
    let supply = FieldSupply::new(conditions, field)?;
    let layer = LayerLoad::new(conditions, field)?;
    let mut curves = Curves::new(conditions, field, supply, state.gap_v())?;
    let (air_load, textbook, onset_slope_share) = curves.clean()?;
    let (onset_v, dust_load) = curves.with(dust)?;
    let limit_a_m2 = supply.limit_a / supply.plate_area_m2;
    // The peak sparks, the curve is of steady voltages.
    let peak_share = (state.peak_voltage_v - state.layer_drop_v) / state.gap_v();
    let sparks_v = layer.streamer_v / peak_share.max(1.0);
    let layer_load = layered::curve(&dust_load, &layer, limit_a_m2, sparks_v);
    let branch = layered::branch(&dust_load, &layer, state, supply.plate_area_m2);
    let load = FieldLoad::new(supply.capacitance_f, curves.filled(onset_v, &branch)?)?;
    let waveform = if state.voltage_v > 0.0 {
        let angle_rad = firing_angle_for(&supply.set, &load, state.voltage_v)?;
        Some(Waveform::steady(&supply.set, &load, angle_rad)?)
    } else {
        None
    };
    let (sawtooth, sawtooth_mean_v) = sawtooth(&supply, state)?;
    Ok(FieldEnergization {
        field,
        set: supply.set,
        rated_mean_v: supply.rated_mean_v,
        rated_mean_a: supply.rated_mean_a,
        plate_area_m2: supply.plate_area_m2,
        load,
        dust_load,
        layer_load,
        layer,
        air_load,
        textbook,
        onset_slope_share,
        waveform,
        gap: supply.gap_at(state.spark_v)?,
        settings: supply.settings(state.voltage_v)?,
        sawtooth_mean_v,
        sawtooth,
        state: state.clone(),
    })
}

/// The sawtooth of a field that sparks and its mean voltage, with what the layer takes on top.
fn sawtooth(
    supply: &FieldSupply,
    state: &FieldState,
) -> Result<(Option<Sawtooth>, Option<f64>), PhysicsError> {
    if state.held_by != HeldBy::Sparking {
        return Ok((None, None));
    }
    let Some(shape) = supply.sawtooth(supply.strongest_of(state.gap_v())?)? else {
        return Ok((None, None));
    };
    let mean_v = supply.sparking_mean_v(shape.spark_voltage_v)? + state.layer_drop_v;
    let shape = Sawtooth {
        spark_voltage_v: shape.spark_voltage_v + state.layer_drop_v,
        ..shape
    };
    Ok((Some(shape), Some(mean_v)))
}

/// The solver of one field's curves.
pub(super) struct Curves {
    solver: CoronaSolver<WireRow>,
    supply: FieldSupply,
    reached_v: f64,
    per_a_m: f64,
}

impl Curves {
    pub(super) fn new(
        conditions: &Conditions,
        field: usize,
        supply: FieldSupply,
        reached_v: f64,
    ) -> Result<Self, PhysicsError> {
        let row = wire_row_of(conditions, field)?;
        Ok(Self {
            reached_v,
            per_a_m: amperes_per_a_m(&supply, &row),
            solver: CoronaSolver::new(row, corona_of(conditions, field), Fineness::default())?,
            supply,
        })
    }

    fn point(&self, voltage_v: f64, current_a_m: f64) -> VoltageCurrentPoint {
        let current_a = current_a_m * self.per_a_m;
        VoltageCurrentPoint {
            voltage_v,
            current_a,
            current_density_a_m2: current_a / self.supply.plate_area_m2,
        }
    }

    /// Points from onset up with the gas as it is, until the solver refuses.
    fn points(&mut self) -> Vec<VoltageCurrentPoint> {
        let onset_v = self.solver.onset_v();
        let used_v = MOST_USED * self.reached_v.max(onset_v);
        let top_v = HIGHEST * self.supply.spark_v.max(onset_v).min(used_v);
        let mut near: Option<CoronaSolution> = None;
        let mut points = vec![self.point(onset_v, 0.0)];
        for step in 1..=POINTS {
            // Closer to each other near onset, where the current has least of a straight line.
            let part = (step as f64 / POINTS as f64).powf(1.5);
            let voltage_v = onset_v + (top_v - onset_v) * part;
            let Ok(there) = self.solver.at_voltage_from(voltage_v, near.as_ref()) else {
                break;
            };
            points.push(self.point(there.voltage_v, there.current_a_m));
            near = Some(there);
        }
        points
    }

    /// Onset and points with this dust in the gas.
    pub(super) fn with(
        &mut self,
        dust: &DustCharge,
    ) -> Result<(f64, Vec<VoltageCurrentPoint>), PhysicsError> {
        if dust.mean_c_m3() == 0.0 {
            self.solver.clean();
        } else {
            self.solver
                .fill_with_dust(|depth_m| dust.at_c_m3(depth_m))?;
        }
        Ok((self.solver.onset_v(), self.points()))
    }

    /// Points in clean gas, the textbook's at the same voltages, and the computed slope at onset over the exact one.
    fn clean(
        &mut self,
    ) -> Result<(Vec<VoltageCurrentPoint>, Vec<VoltageCurrentPoint>, f64), PhysicsError> {
        self.solver.clean();
        let onset_v = self.solver.onset_v();
        let points = self.points();
        let mobility = self.solver.corona().ion_mobility_m2_v_s;
        let row = self.solver.geometry().clone();
        let textbook = points
            .iter()
            .map(|point| {
                let voltage_v = point.voltage_v;
                let law_a_m = quadratic_law::current_a_m(&row, mobility, onset_v, voltage_v);
                self.point(voltage_v, law_a_m)
            })
            .collect();
        let excess_v = ONSET_EXCESS * onset_v;
        let slope_a_m_v = self.solver.at_voltage(onset_v + excess_v)?.current_a_m / excess_v;
        let exact_a_m_v = quadratic_law::onset_slope_a_m_v(&row, mobility, onset_v);
        Ok((points, textbook, slope_a_m_v / exact_a_m_v))
    }

    /// The curve through points; the textbook's law from this onset on where there is the onset alone.
    fn filled(
        &self,
        onset_v: f64,
        points: &[VoltageCurrentPoint],
    ) -> Result<VoltageCurrent, PhysicsError> {
        let mut solved: Vec<(f64, f64)> = points
            .iter()
            .filter(|point| point.current_a > 0.0)
            .map(|point| (point.voltage_v, point.current_a))
            .collect();
        if solved.is_empty() {
            let voltage_v = HIGHEST * onset_v;
            let mobility = self.solver.corona().ion_mobility_m2_v_s;
            let row = self.solver.geometry();
            let law_a_m = quadratic_law::current_a_m(row, mobility, onset_v, voltage_v);
            solved.push((voltage_v, law_a_m * self.per_a_m));
        }
        let top_v = solved.last().map_or(onset_v, |point| point.0);
        filled(onset_v, &solved, top_v)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        conditions::{SITES, demonstration},
        physics::constants::VACUUM_PERMITTIVITY_F_M,
        simulation::electrics,
    };

    fn of(conditions: &Conditions, field: usize) -> FieldEnergization {
        let found = electrics(conditions).expect("fields");
        energization_of(conditions, &found, field).expect("a set")
    }

    /// The demonstration with this voltage and without dust.
    fn clean(voltage_v: f64) -> Conditions {
        let mut conditions = demonstration();
        conditions.dust.load_kg_m3 = 0.0;
        conditions.electrical.voltage_v = vec![voltage_v];
        conditions
    }

    /// Mean voltage, mean current and sparks per minute from the end of the start-up on.
    fn late(trace: &Trace) -> Trace {
        Trace {
            points: trace.points[2000..].to_vec(),
            half_cycle_s: trace.half_cycle_s,
        }
    }

    #[test]
    fn the_half_cycle_is_that_of_the_state_that_was_found() {
        // The state's current comes from a short curve on the way, this one from a long curve solved anew.
        for site in [0, 3] {
            let (name, text) = SITES[site];
            let sheet =
                crate::conditions::sheet::read_str(name, text).map_err(|errors| errors.to_string());
            let conditions = sheet.expect("a sheet").conditions;
            let found = electrics(&conditions).expect("fields");
            for field in 0..conditions.collector.fields {
                let set = energization_of(&conditions, &found, field).expect("a set");
                let cycle = set.waveform.expect("a half cycle");
                let solved_v = found.fields[field].solution().voltage_v;
                let (mean_v, mean_a) = (cycle.mean_voltage_v, cycle.mean_current_a);
                assert!(
                    (mean_v / solved_v - 1.0).abs() < 2e-3,
                    "{name} {field}: {mean_v} not {solved_v} V"
                );
                let state_a = set.state.current_density_a_m2 * set.plate_area_m2;
                assert!(
                    (mean_a / state_a - 1.0).abs() < 5e-3,
                    "{name} {field}: {mean_a} not {state_a} A"
                );
                let steady_a_m2 = found.fields[field].plate_current_a_m2();
                assert!(
                    set.state.current_density_a_m2 > 1.02 * steady_a_m2,
                    "{name} {field}: the ripple adds current"
                );
                if set.state.held_by == HeldBy::Setting {
                    let peak_v = set.state.peak_voltage_v;
                    assert!(
                        (cycle.peak_voltage_v / peak_v - 1.0).abs() < 5e-3,
                        "{peak_v}"
                    );
                    assert!(peak_v < set.state.spark_v && set.state.sparks_per_min == 0.0);
                }
            }
        }
    }

    #[test]
    fn the_capacitance_is_the_charge_that_the_solved_field_shows_on_the_plates() {
        // Another road: without ions, Gauss's law at the plates of the solved field.
        let conditions = clean(15e3);
        let found = electrics(&conditions).expect("fields");
        let set = energization_of(&conditions, &found, 0).expect("a set");
        let charge_c =
            VACUUM_PERMITTIVITY_F_M * found.fields[0].mean_plate_field_v_m() * set.plate_area_m2;
        let ratio = set.load.capacitance_f() / (charge_c / 15e3);
        // Thin wires in the formula, the grid in the field.
        assert!((ratio - 1.0).abs() < 0.01, "{ratio}");
    }

    #[test]
    fn a_field_wanted_above_sparking_stands_at_the_mean_of_the_sawtooth() {
        let mut conditions = clean(60e3);
        conditions.electrical.current_limit_a_m2 = 2e-3;
        conditions.electrical.rated_current_a_m2 = 2e-3;
        conditions.electrical.ion_mobility_m2_v_s = 1e-4;
        let set = of(&conditions, 0);
        assert_eq!(set.state.held_by, HeldBy::Sparking);
        // The sheet wants 20 /min.
        assert!((set.state.sparks_per_min - 20.0).abs() < 1e-9);
        let shape = set.sawtooth.expect("a sawtooth");
        assert!((shape.sparks_per_min().expect("a rate") - 20.0).abs() < 1e-9);
        // At the closed form's spark voltage the peak of the half cycle is the spark voltage.
        let angle = firing_angle_for(&set.set, &set.load, shape.spark_voltage_v).expect("an angle");
        let cycle = Waveform::steady(&set.set, &set.load, angle).expect("a half cycle");
        let ratio = cycle.peak_voltage_v / set.state.spark_v;
        assert!((ratio - 1.0).abs() < 5e-3, "{ratio}");
        let mean_v = set.sawtooth_mean_v.expect("a mean");
        assert!((mean_v / set.state.voltage_v - 1.0).abs() < 1e-6);
        let trace = late(&set.trace(3, 320.0).expect("a trace"));
        // Scatter lets it spark 2 % early, the closed form leaves out the charging of the field: 3 %.
        let ratio = trace.mean_voltage_v() / mean_v;
        assert!((ratio - 1.0).abs() < 0.03, "{ratio}");
        // Three standard deviations of a hundred independent sparks.
        let rate = trace.sparks_per_min();
        assert!((rate / 20.0 - 1.0).abs() < 0.3, "{rate}");
    }

    #[test]
    fn a_field_at_its_limit_has_just_that_mean_current() {
        let mut conditions = clean(50e3);
        conditions.electrical.current_limit_a_m2 = 2e-4;
        conditions.electrical.rated_current_a_m2 = 2e-4;
        let set = of(&conditions, 0);
        assert_eq!(set.state.held_by, HeldBy::CurrentLimit);
        let ratio = set.state.current_density_a_m2 / 2e-4;
        // Voltage and ripple agree within 2e-4.
        assert!((ratio - 1.0).abs() < 1e-3, "{ratio}");
        let trace = late(&set.trace(3, 60.0).expect("a trace"));
        // The control keeps the limit by a slow loop; 2 % is the band that counts as limited.
        let ratio = trace.mean_current_a() / set.rated_mean_a;
        assert!((ratio - 1.0).abs() < 0.02, "{ratio}");
        let ratio = trace.mean_voltage_v() / set.state.voltage_v;
        assert!((ratio - 1.0).abs() < 0.02, "{ratio}");
    }

    #[test]
    fn a_field_that_is_off_or_below_onset_has_no_current_and_only_numbers() {
        for voltage_v in [0.0, 15e3] {
            let set = of(&clean(voltage_v), 0);
            assert!((set.state.voltage_v - voltage_v).abs() < 1e-6 && set.sawtooth.is_none());
            assert!((set.state.peak_voltage_v - voltage_v).abs() < 1e-6);
            assert_eq!(set.waveform.is_none(), voltage_v == 0.0);
            let trace = late(&set.trace(1, 30.0).expect("a trace"));
            assert!(trace.mean_current_a() < 1e-9 && trace.sparks_per_min() == 0.0);
            let mean_v = trace.mean_voltage_v();
            // What was charged once stays, and the control's step of a hundredth of a half cycle misses the last kilovolt.
            assert!((mean_v - voltage_v).abs() <= 0.1 * voltage_v, "{mean_v}");
        }
    }

    #[test]
    fn a_trace_follows_from_its_seed() {
        let mut conditions = demonstration();
        conditions.electrical.voltage_v = vec![55e3];
        let set = of(&conditions, 0);
        let trace = |seed| set.trace(seed, 20.0).expect("a trace");
        assert!(trace(1).sparks_per_min() > 0.0);
        assert!(trace(1) == trace(1) && trace(1) != trace(2));
    }

    #[test]
    fn the_clean_curve_starts_with_the_exact_slope_and_runs_beside_the_textbook() {
        let set = of(&demonstration(), 3);
        assert!(
            (set.onset_slope_share - 1.0).abs() < 0.01,
            "{}",
            set.onset_slope_share
        );
        assert_eq!(set.air_load.len(), set.textbook.len());
        for (solved, law) in set.air_load.iter().zip(&set.textbook).skip(1) {
            // physics.md 2.5: the law's voltage is too high at a current, so its current too low at a voltage.
            assert!(solved.current_a > law.current_a, "{solved:?} {law:?}");
        }
    }

    #[test]
    fn there_is_no_set_beyond_the_last_field() {
        let conditions = demonstration();
        let found = electrics(&conditions).expect("fields");
        assert!(energization_of(&conditions, &found, 4).is_err());
    }
}
