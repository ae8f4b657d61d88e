//! The theory beside the count: the same conditions answered by formulas and a deterministic solver, without dice.
//!
//! Three lines, from bare to full: *Deutsch–Anderson* (perfect mixing, no losses, no spread of velocity), *laminar* (no
//! mixing at all), and *finite mixing* (diffusivity across, sneakage, rapping loss, spread of velocity and sizes).

mod across;
mod deutsch;
mod fixed;
mod grains;
mod lanes;
mod medium;
mod moments;
mod places;
mod pull;
mod transport;
mod zones;

use serde::{Deserialize, Serialize};

use crate::{
    conditions::Conditions,
    count::STATIONS_PER_FIELD,
    physics::{PhysicsError, efficiency::finite_mixing::peclet_number},
    simulation::{Motion, Passage, Stirring},
};
use deutsch::DeutschCurve;
use grains::Grains;

/// What theory expects of a collector.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Theory {
    /// Penetration by Deutsch and Anderson, summed over sizes.
    pub deutsch_anderson: f64,
    /// −ln of it.
    pub deutsch_number: f64,
    /// Penetration without any mixing, summed over sizes.
    pub laminar: f64,
    /// Penetration with everything the count has.
    pub finite_mixing: f64,
    /// The same if the field were as strong everywhere as at the plate; nothing where the field is not computed, or mixing
    /// is perfect.
    pub in_even_field: Option<f64>,
    /// Péclet number at the median diameter: 0 for perfect mixing, nothing where nothing mixes.
    pub peclet_number: Option<f64>,
    /// Diffusivity across, m²/s: mean over the gap, in gas as fast as the gusts, which spread less dust where gas is
    /// slower or faster; nothing for perfect mixing.
    pub diffusivity_m2_s: Option<f64>,
    /// Penetration of each size class of the count, with everything the count has.
    pub by_size: Vec<f64>,
    /// The three lines along the collector, at the stations of the count.
    pub along: Vec<TheoryPoint>,
    /// Relative difference between count and solver that the solver's own simplifications may cause.
    pub model_tolerance: f64,
}

/// Airborne share of the inlet mass at one place, by each line.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct TheoryPoint {
    /// Distance from the start of the first field, m.
    pub along_m: f64,
    /// With everything the count has.
    pub finite_mixing: f64,
    /// Deutsch and Anderson.
    pub deutsch_anderson: f64,
    /// Without mixing.
    pub laminar: f64,
}

/// The solver is exact to this where every grain has the same drift.
const TOLERANCE_FIXED: f64 = 0.01;
/// Gusts stand in it as a diffusivity, which leaves out how long each of them lasts.
const TOLERANCE_GUSTS: f64 = 0.03;
/// With the computed field the solver averages the drift over the wire spacing.
const TOLERANCE_COMPUTED: f64 = 0.10;

/// Answers the conditions by theory.
///
/// # Errors
/// A formula refused the conditions; the message names which argument.
pub fn solve(conditions: &Conditions) -> Result<Theory, PhysicsError> {
    let passage = Passage::new(conditions)?;
    let grains = Grains::new(&passage)?;
    let curves = deutsch::curves(conditions, &passage, &grains);
    let airborne = match passage.motion {
        Motion::Fixed => fixed::airborne(conditions, &passage, &grains)?,
        Motion::Charged(_) => transport::airborne(conditions, &passage, &grains)?,
    };
    let even = match passage.motion {
        Motion::Fixed => None,
        Motion::Charged(_) => transport::airborne_in_even_field(conditions, &passage, &grains)?,
    };
    let at_end = |airborne: &Airborne| airborne.total.last().copied().unwrap_or(1.0);
    let finite_mixing = at_end(&airborne);
    let stations = passage.stages.len() * STATIONS_PER_FIELD;
    let along = (0..=stations)
        .map(|station| TheoryPoint {
            along_m: conditions.length_m() * station as f64 / stations as f64,
            finite_mixing: airborne.total[station],
            deutsch_anderson: mean(&curves, |curve| (-curve.number[station]).exp()),
            laminar: mean(&curves, |curve| (1.0 - curve.number[station]).max(0.0)),
        })
        .collect();
    let Limits {
        deutsch_anderson,
        laminar,
    } = limits_of(&curves);
    let median = deutsch::median_curve(conditions, &passage);
    Ok(Theory {
        deutsch_anderson,
        deutsch_number: -deutsch_anderson.ln(),
        laminar,
        finite_mixing,
        in_even_field: even.as_ref().map(at_end),
        peclet_number: peclet(conditions, &passage, &median),
        diffusivity_m2_s: match passage.stirring {
            Stirring::Full => None,
            Stirring::None | Stirring::Diffusive { .. } => Some(passage.total_diffusivity_m2_s()),
        },
        by_size: airborne.by_class,
        along,
        model_tolerance: match passage.motion {
            Motion::Fixed if passage.gusts.is_some() => TOLERANCE_GUSTS,
            Motion::Fixed => TOLERANCE_FIXED,
            Motion::Charged(_) => TOLERANCE_COMPUTED,
        },
    })
}

/// Penetration by the two formulas, of perfect mixing and of none.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Deutsch and Anderson, summed over sizes.
    pub deutsch_anderson: f64,
    /// Without any mixing, summed over sizes.
    pub laminar: f64,
}

/// Answers the conditions by the two formulas alone: quick, without the solver.
///
/// # Errors
/// A formula refused the conditions; the message names which argument.
pub fn limits(conditions: &Conditions) -> Result<Limits, PhysicsError> {
    let passage = Passage::new(conditions)?;
    let grains = Grains::new(&passage)?;
    Ok(limits_of(&deutsch::curves(conditions, &passage, &grains)))
}

fn limits_of(curves: &[DeutschCurve]) -> Limits {
    Limits {
        deutsch_anderson: mean(curves, |curve| (-curve.total()).exp()),
        laminar: mean(curves, |curve| (1.0 - curve.total()).max(0.0)),
    }
}

/// One size class of the count and its penetration by Deutsch and Anderson.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SizeLimit {
    /// Smallest diameter, m.
    pub from_m: f64,
    /// Largest diameter, m.
    pub to_m: f64,
    /// Share of the inlet mass.
    pub inlet_share: f64,
    /// Deutsch and Anderson, summed over the class.
    pub deutsch_anderson: f64,
}

/// Deutsch and Anderson for each size class of the count, fine to coarse.
///
/// # Errors
/// A formula refused the conditions; the message names which argument.
pub fn size_limits(conditions: &Conditions) -> Result<Vec<SizeLimit>, PhysicsError> {
    let passage = Passage::new(conditions)?;
    let grains = Grains::new(&passage)?;
    let curves = deutsch::curves(conditions, &passage, &grains);
    let edges = passage.sizes.edges_m().windows(2);
    Ok(edges
        .enumerate()
        .map(|(class, edge)| {
            let inside = || {
                let pairs = grains.list.iter().zip(&curves);
                pairs.filter(move |(grain, _)| grain.class == class)
            };
            let inlet_share: f64 = inside().map(|(grain, _)| grain.inlet).sum();
            let through: f64 = inside()
                .map(|(grain, curve)| grain.inlet * (-curve.total()).exp())
                .sum();
            SizeLimit {
                from_m: edge[0],
                to_m: edge[1],
                inlet_share,
                deutsch_anderson: if inlet_share > 0.0 {
                    through / inlet_share
                } else {
                    0.0
                },
            }
        })
        .collect())
}

/// Deutsch number `w A/Q` of grains of these diameters, m.
///
/// # Errors
/// A formula refused the conditions; the message names which argument.
pub fn deutsch_numbers(
    conditions: &Conditions,
    diameters_m: &[f64],
) -> Result<Vec<f64>, PhysicsError> {
    let passage = Passage::new(conditions)?;
    let curves = deutsch::curves_of(conditions, &passage, diameters_m);
    Ok(curves.iter().map(DeutschCurve::total).collect())
}

/// Mean share of the inlet mass that is in the gas between inlet and outlet: how long grains fly.
///
/// By Deutsch and Anderson with sneakage and rapping loss, every field starting anew; good for choosing how many to draw.
///
/// # Errors
/// A formula refused the conditions; the message names which argument.
pub fn mean_airborne_share(conditions: &Conditions) -> Result<f64, PhysicsError> {
    mean_airborne_share_in(conditions, &Passage::new(conditions)?)
}

/// As [`mean_airborne_share`], in a passage that is there.
pub(crate) fn mean_airborne_share_in(
    conditions: &Conditions,
    passage: &Passage,
) -> Result<f64, PhysicsError> {
    let grains = Grains::new(passage)?;
    let curves = deutsch::curves(conditions, passage, &grains);
    let fields = passage.stages.len();
    let share = |station: usize| mean(&curves, |curve| (-curve.number[station]).exp());
    let (mut entering, mut sum) = (1.0, 0.0);
    for field in 0..fields {
        let start = field * STATIONS_PER_FIELD;
        // Against what enters the field: uncharged and charged grains are not told apart here.
        let inside = |station: usize| share(start + station) / share(start);
        let between =
            (0..STATIONS_PER_FIELD).map(|station| 0.5 * (inside(station) + inside(station + 1)));
        let flying = between.sum::<f64>() / STATIONS_PER_FIELD as f64;
        let passed = inside(STATIONS_PER_FIELD);
        let (bypass, back) = (passage.sneakage, passage.reentrained);
        sum += entering * (bypass + (1.0 - bypass) * flying);
        entering *= bypass + (1.0 - bypass) * (passed + back * (1.0 - passed));
    }
    Ok(sum / fields as f64)
}

/// Airborne mass by the solver: of all grains at every station, and by class at the end over that at the inlet.
struct Airborne {
    total: Vec<f64>,
    by_class: Vec<f64>,
}

fn mean(curves: &[DeutschCurve], share: impl Fn(&DeutschCurve) -> f64) -> f64 {
    curves
        .iter()
        .map(|curve| curve.mass_share * share(curve))
        .sum()
}

fn peclet(conditions: &Conditions, passage: &Passage, median: &DeutschCurve) -> Option<f64> {
    match passage.stirring {
        Stirring::Full => Some(0.0),
        Stirring::None => None,
        Stirring::Diffusive { .. } => {
            let mean_drift_m_s = median.total() / conditions.specific_collection_area_s_m();
            Some(peclet_number(
                mean_drift_m_s,
                conditions.gap_m(),
                passage.total_diffusivity_m2_s(),
            ))
        }
    }
}
