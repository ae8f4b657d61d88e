//! Every view carries its proof: what was counted beside what theory says, with the tolerance and the verdict.

mod agreement;
mod caught;
mod closed_forms;
mod fitness;
mod formulas;
mod formulas_of_area;
mod formulas_of_ash;
mod formulas_of_losses;
mod formulas_of_panel;
mod formulas_of_rapping;
mod formulas_of_the_gas_path;
mod formulas_of_the_layer;
mod formulas_of_the_set;
mod formulas_of_water;
#[cfg(test)]
mod formulas_tests;
mod grain;
mod on_plant;
mod plant;
mod proofs;
mod proofs_of_the_plant;
mod proofs_of_the_set;
mod published_sizes;
mod rows_of_the_gas_path;
mod rows_of_the_set;
mod sizes;
mod symbols;
mod trend;
mod two_ways;
mod worked;
mod worked_more;

pub use agreement::{Agreement, SIGMAS, Verdict, agreement};
pub use caught::solved_catch;
pub use fitness::left_out;
pub use formulas::{Evaluate, FORMULAS, Formula, find_formula};
pub use formulas_of_area::{
    deutsch_after_doubling_area, deutsch_anderson_penetration, finite_mixing_penetration,
    laminar_penetration, matts_ohnfeldt_after_doubling_area,
};
pub use formulas_of_ash::{
    ash_money_per_day, mixed_loss_on_ignition, row_ash_kg_s, time_to_alarm_s, time_to_brim_s,
};
pub use formulas_of_losses::{
    loss_floor, pilot_plant_penetration, section_loss_penetration, uneven_gas_penetration,
};
pub use formulas_of_panel::bouguer_opacity;
pub use formulas_of_rapping::{growing_layer_m, puff_contrast, rapped_penetration};
pub use formulas_of_water::{
    blowdown_solids_kg_m3, fresh_water_kg_s, ohmic_layer_drop_v, water_that_came_kg_s, wet_bulb_k,
};
pub use grain::{
    CHARGING_LAWS, Comparison, GrainCurves, GrainForces, SpeedComparison, brushed_a_wire,
    charge_check, grain_forces, speed_check,
};
pub use on_plant::OnPlant;
pub use plant::LongRun;
pub use proofs::{Proof, proofs, proofs_of};
pub use proofs_of_the_set::WITHOUT_OUTSIDE_VALUE;
pub use published_sizes::{PublishedClass, boiler_penetrations};
pub use sizes::{FINE_M, expected_by_size, fine_and_coarse};
pub use symbols::{SYMBOLS, Symbol, symbols_in};
pub use trend::{
    alarm_volume_m3, dust_balance, hours_to_alarm, layer_drop, layer_field,
    mass_extinction_by_shadows_m2_kg, optical_depth, settled_penetration, time_of_alarm,
};
pub use two_ways::TwoWays;
pub use worked::{WorkedSign, worked_signs};
