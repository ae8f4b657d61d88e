//! Rows of the table of formulas: the layer on the plates, and the electrical set.

use super::{formulas::Formula, formulas_of_the_layer, formulas_of_the_set};
use crate::units::Dimension;

pub(super) const OHMIC_LAYER_FIELD: Formula = Formula {
    name: "ohmic_layer_field",
    title: "Ohm's law in a given layer",
    equation: "E = ρj",
    source: "Ohm's law",
    validity: "an even layer below breakdown",
    gives: Dimension::Field,
    evaluate: formulas_of_the_layer::OHMIC_FIELD,
};

pub(super) const OHMIC_FIRST_LAYER_DROP: Formula = Formula {
    name: "ohmic_first_layer_drop",
    title: "Ohm's law across the layer of the first field",
    equation: "ΔV = ρjh",
    source: "Ohm's law",
    validity: "an even layer below breakdown",
    gives: Dimension::Voltage,
    evaluate: formulas_of_the_layer::OHMIC_DROP,
};

pub(super) const LAYER_BREAKDOWN_FIELD: Formula = Formula {
    name: "layer_breakdown_field",
    title: "breakdown of the layer",
    equation: "E_b = 10 kV/cm",
    source: "White 1974, Hall 1971",
    validity: "a teaching value; they give 10 to 20 kV/cm",
    gives: Dimension::Field,
    evaluate: formulas_of_the_layer::BREAKDOWN_FIELD,
};

pub(super) const UNBENT_VOLTAGE: Formula = Formula {
    name: "unbent_voltage",
    title: "voltage at which the layer breaks",
    equation: "V_b = V(E_b/ρ) + E_b h, V(j) by the quadratic law",
    source: "Cooperman, in White 1963; Ohm's law",
    validity: "little dust in the gas; up to 6 % too high",
    gives: Dimension::Voltage,
    evaluate: formulas_of_the_layer::UNBENT_VOLTAGE,
};

pub(super) const LAYER_RESISTIVITY: Formula = Formula {
    name: "layer_resistivity",
    title: "volume, surface and acid side by side",
    equation: "1/ρ = 1/ρ_v + 1/ρ_s (+ 1/ρ_a with SO₃)",
    source: "Bickelhaupt 1979; or as the sheet gives it",
    validity: "fly ash, 340 to 700 K, at 10 kV/cm",
    gives: Dimension::Resistivity,
    evaluate: formulas_of_the_layer::RESISTIVITY,
};

pub(super) const COLDEST_WORST_TEMPERATURE: Formula = Formula {
    name: "coldest_worst_temperature",
    title: "published range, its cold end",
    equation: "T ≥ 121 °C",
    source: "Environmental Engineers' Handbook, figure 5.17.6",
    validity: "fly ash without conditioning",
    gives: Dimension::Temperature,
    evaluate: formulas_of_the_layer::COLDEST_WORST,
};

pub(super) const HOTTEST_WORST_TEMPERATURE: Formula = Formula {
    name: "hottest_worst_temperature",
    title: "published range, its hot end",
    equation: "T ≤ 177 °C",
    source: "Environmental Engineers' Handbook, figure 5.17.6",
    validity: "fly ash without conditioning",
    gives: Dimension::Temperature,
    evaluate: formulas_of_the_layer::HOTTEST_WORST,
};

pub(super) const SAWTOOTH_SPARK_RATE: Formula = Formula {
    name: "sawtooth_spark_rate",
    title: "sparks of the sawtooth",
    equation: "f = 1/(ΔV/R + t_q)",
    source: "computed from the shape",
    validity: "one spark voltage; quench and recovery together are t_q",
    gives: Dimension::SparkRate,
    evaluate: formulas_of_the_set::SPARK_RATE,
};

pub(super) const SAWTOOTH_MEAN_VOLTAGE: Formula = Formula {
    name: "sawtooth_mean_voltage",
    title: "mean of the sawtooth",
    equation: "V = (V_s − ΔV/2)(ΔV/R)/(ΔV/R + t_q), half of the restart while it recovers",
    source: "computed from the shape",
    validity: "without the milliseconds in which the field is charged again",
    gives: Dimension::Voltage,
    evaluate: formulas_of_the_set::SAWTOOTH_MEAN,
};

pub(super) const CURRENT_LIMIT: Formula = Formula {
    name: "current_limit",
    title: "limit of the set",
    equation: "j = j_limit",
    source: "the sheet",
    validity: "a set that its limit holds",
    gives: Dimension::CurrentDensity,
    evaluate: formulas_of_the_set::CURRENT_LIMIT,
};

pub(super) const FIELD_POWER: Formula = Formula {
    name: "field_power",
    title: "power that the gas takes",
    equation: "P = ∫ V I(V) dt/T",
    source: "conservation of energy, with the curve of current against voltage",
    validity: "a repeating half cycle",
    gives: Dimension::Power,
    evaluate: formulas_of_the_set::FIELD_POWER,
};

pub(super) const POWER_OF_METERS: Formula = Formula {
    name: "power_of_meters",
    title: "mean voltage times mean current",
    equation: "P = V_m I_m",
    source: "definition",
    validity: "the true power only without ripple",
    gives: Dimension::Power,
    evaluate: formulas_of_the_set::POWER_OF_METERS,
};
