//! Every view carries its proof: what was counted beside what theory says, with the tolerance and the verdict.

mod agreement;
mod fitness;
mod formulas;
mod grain;
mod plant;

pub use agreement::{Agreement, SIGMAS, Verdict, agreement};
pub use fitness::left_out;
pub use formulas::{
    FORMULAS, Formula, deutsch_after_doubling_area, deutsch_anderson_penetration, find_formula,
    finite_mixing_penetration, laminar_penetration, matts_ohnfeldt_after_doubling_area,
};
pub use grain::{
    CHARGING_LAWS, Comparison, GrainCurves, GrainForces, SpeedComparison, brushed_a_wire,
    charge_check, grain_forces, speed_check,
};
pub use plant::LongRun;
