//! Check values of the formulas of rapping, hoppers, ash, water, the set and the stack.

use super::proofs::{BY_HAND, Proof, TEACHING, Time, ideal, ninety_nine_per_cent, row};
use crate::conditions::{Conditions, Kind, Mixing, Resistivity, demonstration};

/// The demonstration collector with w A/Q = 6.214 and no losses.
fn no_losses() -> Conditions {
    ideal(6.214)
}

fn loose_ash() -> Conditions {
    let mut conditions = no_losses();
    conditions.hoppers.ash_density_kg_m3 = 480.0;
    conditions
}

fn ash_of_8_per_cent() -> Conditions {
    let mut conditions = no_losses();
    conditions.ash.loss_on_ignition = 0.08;
    conditions
}

fn ash_of_3_per_cent() -> Conditions {
    let mut conditions = no_losses();
    conditions.ash.loss_on_ignition = 0.03;
    conditions
}

/// 9 % burns off, and twice the dust comes.
fn ash_of_9_per_cent() -> Conditions {
    let mut conditions = no_losses();
    conditions.ash.loss_on_ignition = 0.09;
    conditions.dust.load_kg_m3 *= 2.0;
    conditions
}

/// One field of 20 s/m that catches 70 %.
fn one_field() -> Conditions {
    let mut conditions = demonstration();
    conditions.gas.velocity_spread = 0.0;
    conditions.teaching.mixing = Some(Mixing::Full);
    conditions.set_fields(1);
    conditions.collector.sneakage = 0.0;
    conditions.gas.flow_m3_s = 99.0;
    conditions.teaching.migration_velocity_m_s = Some(1.203_973 / 20.0);
    conditions
}

/// The demonstration collector with w = 9.32 cm/s: 5 % past each field, 12.4 % comes back.
fn with_losses() -> Conditions {
    let mut conditions = demonstration();
    conditions.gas.velocity_spread = 0.0;
    conditions.teaching.mixing = Some(Mixing::Full);
    conditions.teaching.migration_velocity_m_s = Some(0.0932);
    conditions
}

/// 5 mm on every plate, struck each quarter of an hour.
fn struck_often() -> Conditions {
    let mut conditions = with_losses();
    conditions.rapping.layer_m = vec![0.005; 4];
    conditions.rapping.interval_s = vec![900.0; 4];
    conditions
}

/// Layers thinner than 3 mm mostly leave as powder; each field is struck every hour.
fn thin_layers() -> Conditions {
    let mut conditions = with_losses();
    conditions.teaching.thin_layer_m = Some(0.003);
    conditions.rapping.interval_s = vec![3600.0; 4];
    conditions
}

/// Washed plates, 0.67 L/m³ of which nine tenths go round, 5 % past each field.
fn washed() -> Conditions {
    let mut conditions = no_losses();
    conditions.collector.kind = Kind::Wet;
    conditions.collector.sneakage = 0.05;
    conditions.water.per_gas = 0.67e-3;
    conditions.water.recycled = 0.9;
    conditions
}

fn humid() -> Conditions {
    let mut conditions = demonstration();
    conditions.gas.moisture = 0.15;
    conditions
}

/// A layer of 10¹⁰ Ω·cm, w = 9 cm/s.
fn resisting() -> Conditions {
    let mut conditions = with_losses();
    conditions.teaching.migration_velocity_m_s = Some(0.09);
    conditions.dust.resistivity = Resistivity::Given(1e8);
    conditions
}

fn one_size() -> Conditions {
    let mut conditions = ninety_nine_per_cent();
    conditions.teaching.single_diameter_m = Some(5e-6);
    conditions
}

/// A time under one set of conditions, from clean plates and empty hoppers.
const fn hours(proof: Proof, hours: f64, field: usize) -> Proof {
    Proof {
        time: Some(Time {
            before: proof.conditions,
            settle_h: 0.0,
            hours,
            field,
        }),
        ..proof
    }
}

/// A time after another under other conditions.
const fn after(proof: Proof, before: fn() -> Conditions, settle_h: f64, hours: f64) -> Proof {
    Proof {
        time: Some(Time {
            before,
            settle_h,
            hours,
            field: 0,
        }),
        ..proof
    }
}

const LESSONS: &str = "specification of the lessons, worked out there from the equation";
const ANOTHER_WAY: &str = "worked out from the equation with another program than this one";
const HUMID_AIR: &str = "CoolProp, adiabatic saturation of humid air at 1 atm, ±0.5 K";

/// Every check value of the plant.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
pub(super) const PROOFS_OF_THE_PLANT: &[Proof] = &[
    row(("dust_that_came", None), "8 g/m³ in 118.8 m³/s", demonstration, (0.9504, 1e-9), BY_HAND),
    hours(row(("row_ash", None), "first row, wA/Q = 6.214 in four fields, no losses: 2,698 kg/h", no_losses, (2698.0 / 3600.0, 1e-3), LESSONS), 24.0, 0),
    hours(row(("row_ash", None), "last row of the same: 25.5 kg/h", no_losses, (25.5 / 3600.0, 2e-3), LESSONS), 24.0, 3),
    hours(row(("row_ash", None), "second row, w = 9.32 cm/s, 5 % past each field, 12.4 % comes back: 771.9 kg/h", with_losses, (771.9 / 3600.0, 1e-3), BY_HAND), 24.0, 1),
    hours(row(("hours_to_alarm", None), "first row of the same without losses, 55.09 % of 30 m³ lie below the alarm, 520 kg/m³", no_losses, (11_468.5, 1e-3), BY_HAND), 24.0, 0),
    hours(row(("hours_to_brim", None), "first row of the same, 30 m³ of 480 kg/m³: 5.34 h", loose_ash, (5.34 * 3600.0, 2e-3), LESSONS), 24.0, 0),
    row(("ash_money", None), "82.11 t of dust a day, 99.8 % of it caught, 4 % burns off: sold at 15 a tonne", no_losses, (1229.3, 1e-3), BY_HAND),
    row(("ash_money", None), "the same with 8 % that burn off: disposed of at 25 a tonne", ash_of_8_per_cent, (-2048.8, 1e-3), BY_HAND),
    after(row(("mixed_ash", None), "two days of 3 %, then one day of 9 % with twice the dust", ash_of_9_per_cent, (0.06, 1e-9), BY_HAND), ash_of_3_per_cent, 48.0, 24.0),
    hours(row(("growing_layer", None), "one hour of 8 g/m³, 70 % caught on 20 s/m, 600 kg/m³", one_field, (1.68e-3, 1e-3), BY_HAND), 1.0, 0),
    hours(row(("puff_contrast", None), "last field, w = 9.32 cm/s, 5 mm and a quarter of an hour of dust: a group sheds 146.8 kg, 12.4 % of it in 3.93 s", struck_often, (1230.3, 2e-3), ANOTHER_WAY), 5.0, 3),
    row(("rapped_penetration", None), "w = 9.32 cm/s, 5 % past each field, 12.4 % comes back: 98.60 % efficiency", with_losses, (0.0140, 5e-3), LESSONS),
    row(("rapped_penetration", None), "the same where layers below 3 mm leave as powder and every field is struck each hour", thin_layers, (0.126_90, 2e-3), ANOTHER_WAY),
    row(("water_that_came", None), "0.67 L of 988 g/L in each of 118.8 m³/s, and 8 % of 3,421 mol/s", washed, (83.572, 1e-3), BY_HAND),
    row(("wet_bulb", None), "150 °C, 8 % moisture", demonstration, (52.5 + 273.15, 0.5 / 325.65), HUMID_AIR),
    row(("wet_bulb", None), "150 °C, 15 % moisture", humid, (60.3 + 273.15, 0.5 / 333.45), HUMID_AIR),
    row(("fresh_water", None), "78.64 kg/s sprayed, 4.345 kg/s evaporate, nine tenths of what drains go round", washed, (11.775, 1e-3), ANOTHER_WAY),
    row(("blowdown_solids", None), "0.9504 kg/s of dust, 99.60 % of it caught, in 7.43 kg/s of 988 g/L", washed, (125.89, 1e-3), ANOTHER_WAY),
    hours(row(("ohmic_layer_drop", None), "first field, 2.126 mm after an hour, 10¹⁰ Ω·cm, current limit of 50 nA/cm²", resisting, (106.28, 2e-3), BY_HAND), 1.0, 0),
    row(("bouguer_opacity", None), "5 µm of 2300 kg/m³, Q = 2.049 by van de Hulst 1957, 8 g/m³ at 1 % over 5 m", one_size, (0.101_39, 1e-3), TEACHING),
];
