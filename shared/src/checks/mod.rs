//! Every view carries its proof: what was counted beside what theory says, with the tolerance and the verdict.

mod agreement;
mod caught;
mod closed_forms;
mod fitness;
mod formulas;
mod formulas_of_losses;
mod grain;
mod plant;
mod published_sizes;
mod sizes;
mod symbols;
mod trend;
mod two_ways;

pub use agreement::{Agreement, SIGMAS, Verdict, agreement};
pub use caught::solved_catch;
pub use fitness::left_out;
pub use formulas::{
    Evaluate, FORMULAS, Formula, deutsch_after_doubling_area, deutsch_anderson_penetration,
    find_formula, finite_mixing_penetration, laminar_penetration,
    matts_ohnfeldt_after_doubling_area,
};
pub use formulas_of_losses::{
    loss_floor, pilot_plant_penetration, section_loss_penetration, uneven_gas_penetration,
};
pub use grain::{
    CHARGING_LAWS, Comparison, GrainCurves, GrainForces, SpeedComparison, brushed_a_wire,
    charge_check, grain_forces, speed_check,
};
pub use plant::LongRun;
pub use published_sizes::{PublishedClass, boiler_penetrations};
pub use sizes::{FINE_M, expected_by_size, fine_and_coarse};
pub use symbols::{Symbol, symbols};
pub use trend::{
    alarm_volume_m3, dust_balance, hours_to_alarm, layer_drop, layer_field,
    mass_extinction_by_shadows_m2_kg, optical_depth, settled_penetration, time_of_alarm,
};
pub use two_ways::TwoWays;
