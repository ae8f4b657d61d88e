//! Check values of the formulas of the layer, the electrical set and the gas path.
//!
//! Each was worked out by hand from the equation and the constants named beside it, or is a published range.

use super::proofs::{Proof, TEACHING, row};
use crate::conditions::{Composition, Conditions, Resistivity, demonstration};

/// Formulas of which no value stands outside the program, because what goes in is the half cycle that the model found for the
/// set: they are held against another road wherever they are used.
pub const WITHOUT_OUTSIDE_VALUE: [&str; 2] = ["field_power", "power_of_meters"];

/// One field of clean gas, wanted far above what its current limit of 20 nA/cm² allows.
fn at_20_na_cm2() -> Conditions {
    let mut conditions = demonstration();
    conditions.set_fields(1);
    conditions.dust.load_kg_m3 = 0.0;
    conditions.electrical.voltage_v = vec![50e3];
    conditions.electrical.current_limit_a_m2 = 2e-4;
    conditions
}

/// With a layer of 5 mm of this resistivity.
pub(super) fn layer_of(resistivity_ohm_m: f64) -> Conditions {
    let mut conditions = at_20_na_cm2();
    conditions.rapping.layer_m = vec![5e-3];
    conditions.dust.resistivity = Resistivity::Given(resistivity_ohm_m);
    conditions
}

fn layer_of_1e11() -> Conditions {
    layer_of(1e9)
}

fn layer_of_4e11() -> Conditions {
    layer_of(4e9)
}

fn layer_of_1e12() -> Conditions {
    layer_of(1e10)
}

/// The ash of value Z1 of the physics specification at 423 K.
fn ash_z1() -> Conditions {
    let mut conditions = demonstration();
    conditions.gas.temperature_k = 423.0;
    conditions.gas.moisture = 0.09;
    conditions.dust.resistivity = Resistivity::FromComposition(Composition {
        lithium_sodium_percent: 0.42,
        iron_percent: 1.0,
        magnesium_calcium_percent: 1.5,
        potassium_percent: 0.5,
    });
    conditions
}

/// The sawtooth of the physics specification: sparks at 50 kV, starts again at 45 kV, 5 kV/s, 0.05 s of recovery.
fn sawtooth_of_50_kv() -> Conditions {
    let mut conditions = demonstration();
    conditions.set_fields(1);
    conditions.dust.load_kg_m3 = 0.0;
    let electrical = &mut conditions.electrical;
    electrical.voltage_v = vec![60e3];
    electrical.current_limit_a_m2 = 2e-3;
    electrical.rated_current_a_m2 = 2e-3;
    electrical.spark_field_v_m = 50e3 / 0.15;
    electrical.setback = 0.1;
    electrical.quench_s = 0.0;
    electrical.spark_target_per_s = 1.0 / 1.05;
    // Thick polished wires: no corona below 69 kV, so no ripple, and the mean is the peak that sparks.
    conditions.collector.wire_diameter_m = 12e-3;
    conditions.collector.wire_roughness = 1.0;
    conditions
}

/// A limit above what the set is built for.
fn beyond_the_rating() -> Conditions {
    let mut conditions = demonstration();
    conditions.electrical.current_limit_a_m2 = 8e-4;
    conditions
}

/// So much air leaks into the casing, over the dry gas that came in.
fn leaking(share: f64) -> Conditions {
    let mut conditions = demonstration();
    conditions.gas.in_leakage.casing = share;
    conditions
}

fn leaking_15_per_cent() -> Conditions {
    leaking(2.0 / 12.9)
}

fn leaking_a_tenth() -> Conditions {
    leaking(0.1)
}

const PHYSICS: &str = "from the equation with the constants of the project's physics specification";
const TRAINING: &str = "training specification, reference collector R1";
const LAYER_BY_HAND: &str =
    "Ohm's law by hand; the curve of the gap is straight between its points";
const WHITE: &str = "low end of 10 to 20 kV/cm, from memory of White 1974 and Hall 1971";
const HANDBOOK: &str = "Environmental Engineers' Handbook, figure 5.17.6";
const PUBLISHED_LOSS: &str = "TM-5-815-1, published range";
const OXYGEN: &str = "worked out by hand: 6 to 8 % of oxygen is 2/12.9 of air";

/// The check values.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
pub(super) const PROOFS_OF_THE_SET: &[Proof] = &[
    row(("ohmic_layer_field", None), "1e11 Ω·cm, 20 nA/cm²", layer_of_1e11, (2e5, 0.01), LAYER_BY_HAND),
    row(("ohmic_first_layer_drop", None), "5 mm of 4e11 Ω·cm, 20 nA/cm²", layer_of_4e11, (4e3, 0.01), LAYER_BY_HAND),
    row(("layer_breakdown_field", None), "a layer of 5 mm", layer_of_1e11, (1e6, 1e-9), WHITE),
    row(("unbent_voltage", None), "5 mm of 1e12 Ω·cm: 32.365 kV at 10 nA/cm² and 5 kV in the layer", layer_of_1e12, (37.365e3, 1e-3), TEACHING),
    row(("layer_resistivity", None), "at.% Li+Na 0.42, Fe 1, Mg+Ca 1.5; 9 % water, 423 K, no SO₃", ash_z1, (5.678e9, 1e-3), PHYSICS),
    row(("coldest_worst_temperature", None), "121 °C", demonstration, (394.15, 1e-9), HANDBOOK),
    row(("hottest_worst_temperature", None), "177 °C", demonstration, (450.15, 1e-9), HANDBOOK),
    row(("sawtooth_spark_rate", None), "50 kV, 5 kV back, 5 kV/s, 0.05 s: 57.1 a minute", sawtooth_of_50_kv, (0.952_38, 1e-4), PHYSICS),
    row(("sawtooth_mean_voltage", None), "50 kV, 5 kV back, 5 kV/s, 0.05 s: 45.238 kV, and 1.071 kV while it recovers", sawtooth_of_50_kv, (46.31e3, 1e-3), PHYSICS),
    row(("current_limit", None), "a limit of 50 nA/cm² on the sheet, built for 60 nA/cm²", demonstration, (5e-4, 1e-9), "the sheet"),
    row(("current_limit", None), "a limit of 80 nA/cm² on the sheet, built for 60 nA/cm²", beyond_the_rating, (6e-4, 1e-9), "the sheet"),
    row(("face_velocity", None), "118.8 m³/s, 33 passages of 300 mm, 10 m high", demonstration, (1.2, 1e-9), TRAINING),
    row(("plug_flow_time", None), "four fields of 3 m at 1.2 m/s", demonstration, (10.0, 1e-9), TRAINING),
    row(("leak_by_oxygen", None), "oxygen 6 % before and 8 % behind", leaking_15_per_cent, (0.155_039, 1e-5), OXYGEN),
    row(("mixed_oxygen", None), "oxygen 6 %, 15.504 % of air", leaking_15_per_cent, (0.08, 1e-6), OXYGEN),
    row(("added_volumes", None), "118.8 m³/s at 150 °C, 8 % water; a tenth of air of 15 °C and 1 % water", leaking_a_tenth, (126.3178, 1e-5), TEACHING),
    row(("added_losses", None), "80.88 widening, 3.49 plate, 0.31 friction, 43.96 Pa narrowing", demonstration, (128.63, 1e-3), TEACHING),
    row(("least_published_loss", None), "0.2 inches of water", demonstration, (50.0, 0.01), PUBLISHED_LOSS),
    row(("most_published_loss", None), "1 inch of water", demonstration, (250.0, 0.01), PUBLISHED_LOSS),
    row(("pressure_from_the_stack", None), "−50 Pa at the foot of the stack, ducts of 15 m/s", demonstration, (117.80, 1e-3), TEACHING),
];
