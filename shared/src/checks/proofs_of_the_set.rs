//! Check values of the formulas of the layer, the set and the way of the gas; and those formulas that have none.

use super::proofs::{Proof, TEACHING, row};
use crate::conditions::{Conditions, Resistivity, demonstration};

/// Formulas whose inputs are what the model itself found for the set, so that no value stands outside the program: their
/// parts have check values in the tests, and they are held against another road wherever they are used.
pub const WITHOUT_OUTSIDE_VALUE: [&str; 4] = [
    "sawtooth_mean_voltage",
    "field_power",
    "power_of_meters",
    "set_power_balance",
];

/// One field, no dust in the gas, a layer of 5 mm, and a set that stands at its current limit.
fn at_limit(resistivity_ohm_m: f64, density_a_m2: f64) -> Conditions {
    let mut conditions = demonstration();
    conditions.set_fields(1);
    conditions.dust.load_kg_m3 = 0.0;
    conditions.electrical.voltage_v = vec![50e3];
    conditions.electrical.current_limit_a_m2 = density_a_m2;
    conditions.rapping.layer_m = vec![5e-3];
    conditions.dust.resistivity = Resistivity::Given(resistivity_ohm_m);
    conditions
}

fn resistive() -> Conditions {
    at_limit(1e9, 2e-4)
}

fn more_resistive() -> Conditions {
    at_limit(4e9, 2e-4)
}

fn breaking() -> Conditions {
    at_limit(1e10, 5e-4)
}

/// A spark a second.
fn sparking() -> Conditions {
    let mut conditions = demonstration();
    conditions.set_fields(1);
    conditions.dust.load_kg_m3 = 0.0;
    conditions.electrical.voltage_v = vec![60e3];
    conditions.electrical.current_limit_a_m2 = 2e-3;
    conditions.electrical.rated_current_a_m2 = 2e-3;
    conditions.electrical.spark_target_per_s = 1.0;
    conditions
}

fn leaky() -> Conditions {
    let mut conditions = demonstration();
    conditions.gas.in_leakage.casing = 0.155;
    conditions
}

fn a_tenth_of_air() -> Conditions {
    let mut conditions = demonstration();
    conditions.gas.in_leakage.casing = 0.1;
    conditions
}

const OHM: &str = "Ohm's law, worked out by hand";
const OXYGEN: &str = "balance of oxygen, worked out by hand: 6 to 8 % is 15.5 %";
const MANUAL: &str = "TM-5-815-1, chapter 8";
const HANDBOOK: &str = "Environmental Engineers' Handbook, figure 5.17.6";
const SHEET: &str = "asked by the sheet";

/// Every check value of these formulas.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
pub(super) const PROOFS_OF_THE_SET: &[Proof] = &[
    row(("ohmic_layer_field", None), "10¹¹ Ω·cm, 20 nA/cm²", resistive, (2e5, 0.005), OHM),
    row(("ohmic_first_layer_drop", None), "4·10¹¹ Ω·cm, 20 nA/cm², 5 mm", more_resistive, (4e3, 0.005), OHM),
    row(("layer_breakdown_field", None), "layer of 5 mm", breaking, (1e6, 1e-9), "teaching value, no source; White 1974 gives 10 to 20 kV/cm"),
    row(("unbent_voltage", None), "10¹² Ω·cm, 5 mm, wires of 2.7 mm, 150 °C, 2.2·10⁻⁴ m²/(V·s)", breaking, (37_369.0, 0.003), TEACHING),
    row(("layer_resistivity", None), "given as 10¹¹ Ω·cm", resistive, (1e9, 1e-9), SHEET),
    row(("coldest_worst_temperature", None), "121 °C", demonstration, (394.15, 1e-9), HANDBOOK),
    row(("hottest_worst_temperature", None), "177 °C", demonstration, (450.15, 1e-9), HANDBOOK),
    row(("sawtooth_spark_rate", None), "a spark a second is asked for, and the field sparks", sparking, (1.0, 1e-6), SHEET),
    row(("current_limit", None), "50 nA/cm²", demonstration, (5e-4, 1e-9), SHEET),
    row(("face_velocity", None), "118.8 m³/s through 33 passages of 0.3 m and 10 m", demonstration, (1.2, 1e-9), TEACHING),
    row(("plug_flow_time", None), "four fields of 3 m at 1.2 m/s", demonstration, (10.0, 1e-9), TEACHING),
    row(("leak_by_oxygen", None), "6 % before and 8 % behind", leaky, (0.155, 1e-3), OXYGEN),
    row(("mixed_oxygen", None), "6 % before, 15.5 % of air", leaky, (0.08, 2e-3), OXYGEN),
    row(("added_volumes", None), "118.8 m³/s at 150 °C, 8 % water; a tenth of air at 15 °C", a_tenth_of_air, (126.318, 1e-4), TEACHING),
    row(("added_losses", None), "demonstration collector: 50 to 250 Pa", demonstration, (150.0, 0.67), MANUAL),
    row(("least_published_loss", None), "50 Pa", demonstration, (50.0, 1e-9), MANUAL),
    row(("most_published_loss", None), "250 Pa", demonstration, (250.0, 1e-9), MANUAL),
    row(("pressure_from_the_stack", None), "15 m/s in the duct, 1.2 m/s between the plates, ζ 0.3 and 0.46, 0.849 kg/m³, −50 Pa at the stack", demonstration, (117.8, 0.01), TEACHING),
];
