//! `ashlane corona`: onset, voltage–current curve, plate profile and field of one electrical field.

mod json;
mod map;
mod report;

use std::sync::Arc;

use ashlane_shared::{
    physics::{
        PhysicsError,
        corona::{
            CoronaSolver, WireField, WireRow, quadratic_law,
            solver::{CoronaSolution, Fineness},
        },
    },
    simulation::{corona as corona_of, electrics, wire_row},
};

use super::{FINE, Failure, Io, Opened, field_index, open, place::place, words::CoronaWords};

/// Voltage above onset, over the onset voltage, at which the slope of the current is taken.
const ONSET_EXCESS: f64 = 5e-4;

/// One point of the curve.
#[derive(Clone, Copy, Debug)]
struct CurvePoint {
    current_a_m: f64,
    current_density_a_m2: f64,
    voltage_v: f64,
    quadratic_law_voltage_v: f64,
}

/// What was computed.
#[derive(Debug)]
struct Computed {
    name: String,
    title: String,
    field: usize,
    dusty: bool,
    onset_field_v_m: f64,
    onset_v: f64,
    /// What the sheet wants of this field.
    wanted_v: f64,
    spark_v: f64,
    row: WireRow,
    curve: Vec<CurvePoint>,
    /// The state at the sheet's voltage.
    working: WireField,
    /// Current that arrives on the plates over that which leaves the wires.
    collected_share: f64,
    /// Slope of the computed current just above onset over the exact one; only clean gas has an exact one.
    onset_slope_share: Option<f64>,
}

pub(super) fn corona(words: &CoronaWords, io: &mut Io<'_>) -> Result<u8, Failure> {
    let opened = open::open(&words.sheet)?;
    field_index(words.field, &opened)?;
    if let Some(path) = &words.map {
        place(path)?;
    }
    let computed = compute(&opened, words).map_err(|error| Failure::Physics {
        name: opened.name.clone(),
        error,
    })?;
    if let Some(path) = &words.map {
        map::write(path, &computed.working)?;
    }
    let text = if words.json {
        json::json(&computed)?
    } else {
        report::report(&computed)
    };
    io.print(&text)?;
    Ok(FINE)
}

fn compute(opened: &Opened, words: &CoronaWords) -> Result<Computed, PhysicsError> {
    let conditions = &opened.sheet.conditions;
    let row = wire_row(conditions)?;
    let corona = corona_of(conditions);
    let mobility = corona.ion_mobility_m2_v_s;
    let mut solver = CoronaSolver::new(row.clone(), corona, Fineness::default())?;
    if words.dust {
        let electrics = electrics(conditions)?;
        let charge = electrics.dust[words.field - 1].clone();
        solver.fill_with_dust(|depth_m| charge.at_c_m3(depth_m))?;
    }
    let spark_v = conditions.spark_field_v_m() * conditions.gap_m();
    let curve = curve(&mut solver, words, spark_v)?;
    let wanted_v = conditions.wanted_voltage_v(words.field - 1);
    let working = solver.at_voltage(wanted_v.min(spark_v))?;
    let onset_slope_share = if words.dust {
        None
    } else {
        Some(onset_slope_share(&mut solver)?)
    };
    let collected_share = if working.current_a_m > 0.0 {
        solver.collected_current_a_m(&working) / working.current_a_m
    } else {
        1.0
    };
    Ok(Computed {
        name: opened.name.clone(),
        title: conditions.title.clone(),
        field: words.field,
        dusty: words.dust,
        onset_field_v_m: corona.onset_field_v_m,
        onset_v: solver.onset_v(),
        wanted_v,
        spark_v,
        curve,
        working: WireField::new(row.clone(), mobility, Arc::new(working)),
        row,
        collected_share,
        onset_slope_share,
    })
}

/// Slope of the current a little above onset over the exact slope at onset.
fn onset_slope_share(solver: &mut CoronaSolver<WireRow>) -> Result<f64, PhysicsError> {
    let onset_v = solver.onset_v();
    let excess_v = ONSET_EXCESS * onset_v;
    let current_a_m = solver.at_voltage(onset_v + excess_v)?.current_a_m;
    let mobility = solver.corona().ion_mobility_m2_v_s;
    let exact = quadratic_law::onset_slope_a_m_v(solver.geometry(), mobility, onset_v);
    Ok(current_a_m / excess_v / exact)
}

/// The points in the order asked for: currents, or voltages evenly from onset to sparking.
fn curve(
    solver: &mut CoronaSolver<WireRow>,
    words: &CoronaWords,
    spark_v: f64,
) -> Result<Vec<CurvePoint>, PhysicsError> {
    let mut near: Option<CoronaSolution> = None;
    let mut points = Vec::new();
    let onset_v = solver.onset_v();
    let steps = if words.currents.is_empty() {
        words.points
    } else {
        words.currents.len()
    };
    for step in 0..steps {
        let solution = match words.currents.get(step) {
            Some(current_a_m) => solver.at_current_from(*current_a_m, near.as_ref())?,
            None => {
                let share = step as f64 / (steps - 1) as f64;
                // Where dust quenches the corona, sparking comes before it starts.
                let top_v = spark_v.max(1.2 * onset_v);
                solver.at_voltage_from(onset_v + share * (top_v - onset_v), near.as_ref())?
            }
        };
        let row = solver.geometry();
        points.push(CurvePoint {
            current_a_m: solution.current_a_m,
            current_density_a_m2: quadratic_law::plate_current_a_m2(row, solution.current_a_m),
            voltage_v: solution.voltage_v,
            quadratic_law_voltage_v: quadratic_law::voltage_v(
                row,
                solver.corona().ion_mobility_m2_v_s,
                onset_v,
                solution.current_a_m,
            ),
        });
        near = Some(solution);
    }
    Ok(points)
}
