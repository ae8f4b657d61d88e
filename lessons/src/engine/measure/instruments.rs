//! The instruments behind the quantities: from the size classes of a count, from a grain that the step flies, or from
//! the solved field.

use super::plant_instruments::ReadRun;
use ashlane_shared::{
    checks::expected_by_size,
    conditions::Conditions,
    count::{CountResult, Counted, SizeCount},
    physics::{
        PhysicsError,
        corona::{
            onset,
            solver::{CoronaSolver, Fineness},
        },
        drag, gas,
    },
    simulation::{
        EvenField, EvenPoint, TIME_STEP_S, corona, electrics, fly_in_even_field, wire_row,
    },
};

/// How a quantity is measured.
#[derive(Clone, Copy, Debug)]
pub(in crate::engine) enum Instrument {
    /// The penetration of the whole count, which has its own road through the plan.
    WholeCount,
    /// Size classes of the count, and the diameter that the check names; nothing where no class holds it.
    Sizes(fn(&[SizeCount], Option<f64>) -> Option<Counted>),
    /// Size classes of the count in the gas of these conditions.
    Stack(fn(&Conditions, &[SizeCount]) -> Result<Counted, PhysicsError>),
    /// A grain of this diameter that the step flies; no chance is in it.
    Flown(fn(&Conditions, f64) -> Result<f64, PhysicsError>),
    /// The solved field; no chance is in it.
    Solved(fn(&Conditions) -> Result<f64, PhysicsError>),
    /// A run of the plant clock, and the field that the check names.
    Plant(ReadRun),
    /// Tracers that are timed, a fixed number of them, with their uncertainty.
    Tracked(fn(&Conditions) -> Result<Counted, PhysicsError>),
}

impl Instrument {
    /// Whether it reads a count, so that the number of parcels decides about its uncertainty.
    pub(in crate::engine) fn counts(self) -> bool {
        matches!(self, Self::WholeCount | Self::Sizes(_) | Self::Stack(_))
    }

    /// Whether it reads a run of the plant clock, whose rates are counted.
    pub(in crate::engine) fn runs(self) -> bool {
        matches!(self, Self::Plant(_))
    }

    /// Reads it off finished conditions; of a count its classes are taken.
    pub(super) fn read(
        self,
        conditions: &Conditions,
        size_m: Option<f64>,
        count: &CountResult,
    ) -> Result<Counted, PhysicsError> {
        self.read_classes(conditions, size_m, &count.by_size)
    }

    /// What it would read after a count of so many parcels, but for chance.
    pub(in crate::engine) fn expected(
        self,
        conditions: &Conditions,
        size_m: Option<f64>,
        parcels: usize,
    ) -> Result<Counted, PhysicsError> {
        let classes = match self {
            Self::Sizes(_) | Self::Stack(_) => expected_by_size(conditions, parcels)?,
            _ => Vec::new(),
        };
        self.read_classes(conditions, size_m, &classes)
    }

    fn read_classes(
        self,
        conditions: &Conditions,
        size_m: Option<f64>,
        classes: &[SizeCount],
    ) -> Result<Counted, PhysicsError> {
        let exactly = |share| Counted {
            share,
            standard_error: 0.0,
        };
        match self {
            // Each has its own road.
            Self::WholeCount | Self::Plant(_) => Ok(exactly(f64::NAN)),
            Self::Sizes(read) => {
                let size_m = size_m.or(conditions.teaching.single_diameter_m);
                read(classes, size_m).ok_or_else(|| no_such_size(classes))
            }
            Self::Stack(read) => read(conditions, classes),
            Self::Flown(read) => {
                let size_m = size_m.or(conditions.teaching.single_diameter_m);
                let size_m = size_m.ok_or_else(|| impossible("a flown grain needs a diameter"))?;
                Ok(exactly(read(conditions, size_m)?))
            }
            Self::Solved(read) => Ok(exactly(read(conditions)?)),
            Self::Tracked(read) => read(conditions),
        }
    }
}

pub(super) fn impossible(reason: &str) -> PhysicsError {
    PhysicsError::Impossible {
        reason: reason.to_owned(),
    }
}

fn no_such_size(classes: &[SizeCount]) -> PhysicsError {
    let ends = classes.first().zip(classes.last());
    let (low, high) = ends.map_or((0.0, 0.0), |(low, high)| (low.diameter_m, high.diameter_m));
    impossible(&format!(
        "the dust of this segment has too few grains of this size; name a size from {:.2} to {:.2} µm",
        1e6 * low,
        1e6 * high
    ))
}

/// Penetration of the class whose middle is nearest to the diameter, as a ratio.
pub(super) fn of_size(classes: &[SizeCount], size_m: Option<f64>) -> Option<Counted> {
    let size_m = size_m?;
    let away = |class: &SizeCount| (class.diameter_m / size_m).ln().abs();
    let nearest = classes
        .iter()
        .min_by(|a, b| away(a).total_cmp(&away(b)))
        .filter(|class| class.inlet_share > 0.0)?;
    // Half of the distance to the next class, or a tenth where all grains are alike.
    let half = classes
        .windows(2)
        .map(|pair| 0.5 * (pair[1].diameter_m / pair[0].diameter_m).ln())
        .next()
        .unwrap_or(0.1);
    (away(nearest) <= 1.001 * half).then_some(nearest.counted)
}

/// Diameter at which most gets through: the top of a parabola through ln P over ln d, weighted by the counts, of the
/// classes that let at least half as much through as the worst one.
pub(super) fn worst_size(classes: &[SizeCount], _: Option<f64>) -> Option<Counted> {
    let sound = |class: &&SizeCount| {
        class.counted.share > 0.0 && class.counted.standard_error < 0.2 * class.counted.share
    };
    let most = classes
        .iter()
        .filter(sound)
        .map(|class| class.counted.share)
        .fold(0.0, f64::max);
    let top: Vec<&SizeCount> = classes
        .iter()
        .filter(sound)
        .filter(|class| class.counted.share >= 0.5 * most)
        .collect();
    let middle = top.iter().map(|class| class.diameter_m.ln()).sum::<f64>() / top.len() as f64;
    // Weighted least squares of y = a + b x + c x²; the top is at −b/2c.
    let (mut sums, mut known) = ([[0.0; 3]; 3], [0.0; 3]);
    for class in &top {
        let x = class.diameter_m.ln() - middle;
        let y = class.counted.share.ln();
        let weight = (class.counted.share / class.counted.standard_error).powi(2);
        let powers = [1.0, x, x * x];
        for row in 0..3 {
            for column in 0..3 {
                sums[row][column] += weight * powers[row] * powers[column];
            }
            known[row] += weight * powers[row] * y;
        }
    }
    let inverse = inverse(&sums)?;
    let times = |row: usize| (0..3).map(|at| inverse[row][at] * known[at]).sum::<f64>();
    let (slope, bend) = (times(1), times(2));
    if top.len() < 4 || bend >= 0.0 {
        // No top: the worst is the class itself, and nobody knows better than a class.
        let worst = classes
            .iter()
            .filter(sound)
            .max_by(|a, b| a.counted.share.total_cmp(&b.counted.share))?;
        return Some(Counted {
            share: worst.diameter_m,
            standard_error: 0.1 * worst.diameter_m,
        });
    }
    let place = -0.5 * slope / bend;
    // ∂(−b/2c)/∂b = −1/2c, ∂/∂c = b/2c².
    let (by_slope, by_bend) = (-0.5 / bend, 0.5 * slope / (bend * bend));
    let variance = by_slope * by_slope * inverse[1][1]
        + 2.0 * by_slope * by_bend * inverse[1][2]
        + by_bend * by_bend * inverse[2][2];
    let share = (middle + place).exp();
    Some(Counted {
        share,
        standard_error: share * variance.max(0.0).sqrt(),
    })
}

/// Inverse of a symmetric matrix of three rows.
fn inverse(of: &[[f64; 3]; 3]) -> Option<[[f64; 3]; 3]> {
    let minor = |row: usize, column: usize| {
        let (r, c) = (
            [(row + 1) % 3, (row + 2) % 3],
            [(column + 1) % 3, (column + 2) % 3],
        );
        of[r[0]][c[0]] * of[r[1]][c[1]] - of[r[0]][c[1]] * of[r[1]][c[0]]
    };
    let determinant: f64 = (0..3).map(|column| of[0][column] * minor(0, column)).sum();
    (determinant.abs() > 0.0).then(|| {
        std::array::from_fn(|row| std::array::from_fn(|column| minor(column, row) / determinant))
    })
}

/// The flight of a grain in the mean field and the mean current of the first field, for as long as the gas takes.
fn flight(conditions: &Conditions, size_m: f64) -> Result<Vec<EvenPoint>, PhysicsError> {
    let field = EvenField::of_first_field(conditions)?;
    let time_s = conditions.length_m() / conditions.gas_velocity_m_s();
    fly_in_even_field(conditions, &field, (size_m, time_s))
}

fn last(flight: &[EvenPoint]) -> Result<&EvenPoint, PhysicsError> {
    flight
        .last()
        .ok_or_else(|| impossible("the grain has no time to fly"))
}

/// Charge at the end of the flight, electrons.
pub(super) fn charge_e(conditions: &Conditions, size_m: f64) -> Result<f64, PhysicsError> {
    Ok(last(&flight(conditions, size_m)?)?.charge_e)
}

/// Speed towards the plate at the end of the flight, m/s.
pub(super) fn drift_m_s(conditions: &Conditions, size_m: f64) -> Result<f64, PhysicsError> {
    Ok(last(&flight(conditions, size_m)?)?.speed_m_s)
}

/// Speed towards the plate over the speed at which the grain falls in still gas.
pub(super) fn drift_over_fall(conditions: &Conditions, size_m: f64) -> Result<f64, PhysicsError> {
    Ok(drift_m_s(conditions, size_m)? / fall_m_s(conditions, size_m))
}

/// Speed at which a grain falls in still gas, with Schiller and Naumann's drag, m/s.
fn fall_m_s(conditions: &Conditions, size_m: f64) -> f64 {
    let gas = &conditions.gas;
    let slip = gas::slip_factor(
        size_m,
        gas::mean_free_path_m(gas.temperature_k, gas.pressure_pa),
    );
    let viscosity_pa_s = gas::viscosity_pa_s(gas.temperature_k);
    let mobility = drag::stokes_mobility_m_n_s(size_m, slip, viscosity_pa_s);
    let density_kg_m3 = gas::density_kg_m3(
        gas.pressure_pa,
        gas.temperature_k,
        gas::molar_mass_kg_mol(gas.moisture),
    );
    drag::terminal_drift_m_s(
        mobility * drag::weight_n(size_m, conditions.dust.density_kg_m3),
        size_m,
        density_kg_m3,
        viscosity_pa_s,
    )
}

/// Time after which a grain has half of the charge that it goes towards, s.
///
/// The charge it goes towards is read off the flight itself: 1/q falls in a straight line over 1/t.
pub(super) fn half_charge_time_s(
    conditions: &Conditions,
    size_m: f64,
) -> Result<f64, PhysicsError> {
    let flight = flight(conditions, size_m)?;
    let (end, middle) = (last(&flight)?, &flight[flight.len() / 2]);
    let (x, y) = (
        [1.0 / middle.time_s, 1.0 / end.time_s],
        [1.0 / middle.charge_e, 1.0 / end.charge_e],
    );
    let at_the_end_of_time = y[1] - x[1] * (y[0] - y[1]) / (x[0] - x[1]);
    let half_e = 0.5 / at_the_end_of_time;
    let after = flight
        .iter()
        .position(|point| point.charge_e >= half_e)
        .ok_or_else(|| impossible("the flight is too short for half of the charge"))?;
    let (earlier_s, earlier_e) = after.checked_sub(1).map_or((0.0, 0.0), |index| {
        (flight[index].time_s, flight[index].charge_e)
    });
    let part = (half_e - earlier_e) / (flight[after].charge_e - earlier_e);
    Ok(earlier_s + part * TIME_STEP_S)
}

/// Voltage at which the first current would flow: the solved curve at two small currents, led back to none.
pub(super) fn onset_v(conditions: &Conditions) -> Result<f64, PhysicsError> {
    /// A per metre of wire: some thousandths of what flows in service.
    const SMALL_A_M: [f64; 2] = [2e-7, 4e-7];
    let mut solver = CoronaSolver::new(
        wire_row(conditions)?,
        corona(conditions),
        Fineness::default(),
    )?;
    let near = solver.at_current(SMALL_A_M[0])?.voltage_v;
    let far = solver.at_current(SMALL_A_M[1])?.voltage_v;
    Ok(near - (far - near) * SMALL_A_M[0] / (SMALL_A_M[1] - SMALL_A_M[0]))
}

/// Mean current density on the plates of the first field at its mean voltage, A/m².
pub(super) fn plate_current_a_m2(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let solved = electrics(conditions)?;
    let wires = solved.fields.first();
    wires
        .map(ashlane_shared::physics::corona::WireField::plate_current_a_m2)
        .ok_or_else(|| impossible("there is no field"))
}

/// How far from the wire towards the plate the solved field of the first field is strong enough to ionise, m.
pub(super) fn glow_depth_m(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let solved = electrics(conditions)?;
    let wires = solved
        .fields
        .first()
        .ok_or_else(|| impossible("there is no field"))?;
    let delta = gas::relative_density(conditions.gas.temperature_k, conditions.gas.pressure_pa);
    let glow_v_m = onset::glow_field_v_m(delta);
    let radius_m = 0.5 * conditions.collector.wire_diameter_m;
    let strong = |distance_m: f64| {
        let there = wires.at(0.0, radius_m + distance_m);
        there.along_v_m.hypot(there.across_v_m) >= glow_v_m
    };
    let (mut inside, mut outside) = (0.0, conditions.gap_m() - radius_m);
    for _ in 0..60 {
        let middle = 0.5 * (inside + outside);
        if strong(middle) {
            inside = middle;
        } else {
            outside = middle;
        }
    }
    Ok(inside)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Classes with a top of ln P at `top_m`, and the error of so many parcels in each.
    fn classes(top_m: f64, parcels: f64) -> Vec<SizeCount> {
        (0..20)
            .map(|index| {
                let diameter_m = 0.05e-6 * 1.3_f64.powi(index);
                let share = 0.2 * (-(diameter_m / top_m).ln().powi(2)).exp();
                SizeCount {
                    diameter_m,
                    inlet_share: 0.05,
                    counted: Counted {
                        share,
                        standard_error: (share / parcels).sqrt(),
                    },
                }
            })
            .collect()
    }

    #[test]
    fn the_worst_size_is_found_between_the_classes_with_its_error() {
        for top_m in [0.3e-6, 0.5e-6, 0.56e-6] {
            let found = worst_size(&classes(top_m, 1e4), None).expect("a top");
            assert!((found.share / top_m - 1.0).abs() < 1e-6, "{found:?}");
            let few = worst_size(&classes(top_m, 1e3), None).expect("a top");
            let ratio = few.standard_error / found.standard_error;
            assert!((ratio - 10f64.sqrt()).abs() < 1e-6, "1/√N: {ratio}");
        }
        assert!(worst_size(&[], None).is_none());
    }

    #[test]
    fn a_size_that_the_dust_has_not_is_not_read() {
        let classes = classes(0.5e-6, 1e4);
        let found = of_size(&classes, Some(classes[9].diameter_m)).expect("a class");
        assert_eq!(found, classes[9].counted);
        for size_m in [None, Some(0.01e-6), Some(100e-6)] {
            assert_eq!(of_size(&classes, size_m), None);
        }
    }
}
