//! What goes into a formula: each of its signs with its value under some conditions, for examples worked on paper.
//!
//! A sign is one row, and a formula names those that it shows; a new formula is one more row of [`SHOWN`].

use super::{
    Formula,
    closed_forms::{charge_e, peek_onset_v},
    worked_more::SHOWN_MORE,
};
use crate::{
    conditions::Conditions,
    physics::{PhysicsError, corona::onset, drag, efficiency::losses, gas},
    simulation::{EvenField, corona, electrics, fixed_drifts_m_s, wire_row},
    units::Dimension,
};

/// A sign of a formula with its value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WorkedSign {
    /// As it stands in the equation.
    pub sign: &'static str,
    /// What it is.
    pub name: &'static str,
    /// Its value, SI.
    pub value_si: f64,
    /// What it measures.
    pub dimension: Dimension,
}

/// The signs of a formula with their values under these conditions, in the order in which one would look them up.
///
/// A sign that has no one value here is left out: w where every size has its own, d where none is meant.
///
/// # Errors
/// A formula refused the conditions.
pub fn worked_signs(
    formula: &Formula,
    conditions: &Conditions,
    size_m: Option<f64>,
) -> Result<Vec<WorkedSign>, PhysicsError> {
    let asked = At {
        conditions,
        size_m: size_m.or(conditions.teaching.single_diameter_m),
    };
    let shown = shown_of(formula);
    let mut symbols = Vec::new();
    for row in shown.unwrap_or_default() {
        if let Some(value_si) = (row.value)(&asked)? {
            symbols.push(WorkedSign {
                sign: row.sign,
                name: row.name,
                value_si,
                dimension: row.dimension,
            });
        }
    }
    Ok(symbols)
}

/// The rows of a formula; nothing where a formula is left out.
fn shown_of(formula: &Formula) -> Option<&'static [Row]> {
    let mut every = SHOWN.iter().chain(SHOWN_MORE);
    let found = every.find(|(name, _)| *name == formula.name);
    found.map(|(_, rows)| *rows)
}

/// Where a sign is evaluated.
pub(super) struct At<'a> {
    pub(super) conditions: &'a Conditions,
    pub(super) size_m: Option<f64>,
}

/// What a sign is worth; nothing where it has no one value.
pub(super) type Found = Result<Option<f64>, PhysicsError>;

/// A sign and how its value is found.
pub(super) struct Row {
    sign: &'static str,
    name: &'static str,
    dimension: Dimension,
    value: fn(&At<'_>) -> Found,
}

pub(super) const fn row(
    sign: &'static str,
    name: &'static str,
    dimension: Dimension,
    value: fn(&At<'_>) -> Found,
) -> Row {
    Row {
        sign,
        name,
        dimension,
        value,
    }
}

pub(super) const W: Row = row(
    "w",
    "migration velocity",
    Dimension::MigrationVelocity,
    |at| mean_drift_m_s(at.conditions),
);
pub(super) const A: Row = row("A", "collecting area", Dimension::Area, |at| {
    Ok(Some(at.conditions.collecting_area_m2()))
});
pub(super) const Q: Row = row("Q", "gas flow", Dimension::Flow, |at| {
    Ok(Some(at.conditions.gas.flow_m3_s))
});
const EXPONENT: Row = row("w A/Q", "exponent", Dimension::Number, |at| {
    let area_s_m = at.conditions.specific_collection_area_s_m();
    Ok(mean_drift_m_s(at.conditions)?.map(|drift_m_s| drift_m_s * area_s_m))
});
const FIELDS: Row = row("n", "fields in series", Dimension::Number, |at| {
    Ok(Some(f64::from(
        u32::try_from(at.conditions.collector.fields).unwrap_or(u32::MAX),
    )))
});
pub(super) const SNEAKAGE: Row = row("S", "sneakage of each field", Dimension::Fraction, |at| {
    Ok(Some(at.conditions.collector.sneakage))
});
const RETURNED: Row = row(
    "RR",
    "share of the caught dust that goes back into the gas",
    Dimension::Fraction,
    |at| Ok(Some(at.conditions.returned_share())),
);
const LOSS: Row = row("LF", "loss factor of a field", Dimension::Fraction, |at| {
    let conditions = at.conditions;
    losses::loss_factor(conditions.collector.sneakage, conditions.returned_share()).map(Some)
});
const DIFFUSIVITY: Row = row("D", "diffusivity", Dimension::Diffusivity, |at| {
    Ok(match at.conditions.teaching.mixing {
        Some(crate::conditions::Mixing::Diffusivity(value)) => Some(value),
        _ => None,
    })
});
const SPREAD: Row = row(
    "g(v)",
    "spread of the gas velocity, RMS",
    Dimension::Fraction,
    |at| Ok(Some(at.conditions.gas.velocity_spread)),
);
const MEAN_VOLTAGE: Row = row(
    "V",
    "mean voltage of the fields",
    Dimension::Voltage,
    |at| {
        let solved = electrics(at.conditions)?;
        let sum: f64 = solved.states.iter().map(|state| state.voltage_v).sum();
        Ok(Some(sum / solved.states.len().max(1) as f64))
    },
);
const VOLTAGE: Row = row(
    "V",
    "voltage of the first field",
    Dimension::Voltage,
    |at| {
        let solved = electrics(at.conditions)?;
        Ok(solved.states.first().map(|state| state.gap_v()))
    },
);
pub(super) const DIAMETER: Row = row("d", "diameter of the grain", Dimension::GrainSize, |at| {
    Ok(at.size_m)
});
pub(super) const STRENGTH: Row = row(
    "E",
    "mean electric field strength of the first field",
    Dimension::Field,
    |at| Ok(Some(EvenField::of_first_field(at.conditions)?.field_v_m)),
);
const CURRENT: Row = row(
    "j",
    "current density on its plates",
    Dimension::CurrentDensity,
    |at| {
        let even = EvenField::of_first_field(at.conditions)?;
        Ok(Some(even.current_density_a_m2))
    },
);
const FLIGHT: Row = row("t", "time in the fields", Dimension::Time, |at| {
    Ok(Some(
        at.conditions.length_m() / at.conditions.gas_velocity_m_s(),
    ))
});
const PERMITTIVITY: Row = row("ε_r", "permittivity of the dust", Dimension::Number, |at| {
    Ok(Some(at.conditions.dust.permittivity))
});
pub(super) const CHARGE: Row = row("q", "charge in electrons", Dimension::Number, |at| {
    let law = at.conditions.teaching.charging;
    let charge = at.size_m.map(|size_m| charge_e(at.conditions, size_m, law));
    charge.transpose()
});
pub(super) const SLIP: Row = row("Cc", "slip factor of Cunningham", Dimension::Number, |at| {
    let gas = &at.conditions.gas;
    let path_m = gas::mean_free_path_m(gas.temperature_k, gas.pressure_pa);
    Ok(at.size_m.map(|size_m| gas::slip_factor(size_m, path_m)))
});
pub(super) const VISCOSITY: Row = row(
    "μ",
    "viscosity of the gas, in 10⁻⁶ Pa·s",
    Dimension::Number,
    |at| {
        Ok(Some(
            1e6 * gas::viscosity_pa_s(at.conditions.gas.temperature_k),
        ))
    },
);
const WEIGHT: Row = row("mg", "weight of the grain", Dimension::Force, |at| {
    let density_kg_m3 = at.conditions.dust.density_kg_m3;
    Ok(at
        .size_m
        .map(|size_m| drag::weight_n(size_m, density_kg_m3)))
});
const RADIUS: Row = row("r", "radius of the wire", Dimension::PartSize, |at| {
    Ok(Some(0.5 * at.conditions.collector.wire_diameter_m))
});
const ROUGHNESS: Row = row("m", "roughness of the wire", Dimension::Number, |at| {
    Ok(Some(at.conditions.collector.wire_roughness))
});
const GAS_DENSITY: Row = row(
    "δ",
    "density of the gas over that of air at 25 °C",
    Dimension::Number,
    |at| Ok(Some(relative_density(at.conditions))),
);
const ONSET_FIELD: Row = row(
    "E₀",
    "field at the wire at onset",
    Dimension::Field,
    |at| Ok(Some(corona(at.conditions).onset_field_v_m)),
);
const GLOW_FIELD: Row = row(
    "E_g",
    "field that can just ionise the gas",
    Dimension::Field,
    |at| Ok(Some(onset::glow_field_v_m(relative_density(at.conditions)))),
);
const EFFECTIVE_RADIUS: Row = row(
    "d_eff",
    "radius of the tube that stands for the plates",
    Dimension::PartSize,
    |at| Ok(Some(wire_row(at.conditions)?.effective_radius_m())),
);
const MOBILITY: Row = row("b", "mobility of the ions", Dimension::Mobility, |at| {
    Ok(Some(at.conditions.ion_mobility_m2_v_s()))
});
const ONSET: Row = row("V₀", "onset voltage", Dimension::Voltage, |at| {
    peek_onset_v(at.conditions).map(Some)
});
const GAP: Row = row(
    "s",
    "distance from wire to plate",
    Dimension::PartSize,
    |at| Ok(Some(at.conditions.gap_m())),
);
const PITCH: Row = row("c", "distance between wires", Dimension::PartSize, |at| {
    Ok(Some(at.conditions.collector.wire_spacing_m))
});
const FIRST: Row = row(
    "P₁",
    "penetration before, Deutsch–Anderson",
    Dimension::Fraction,
    |at| super::deutsch_anderson_penetration(at.conditions).map(Some),
);

/// Which signs a formula shows.
const SHOWN: &[(&str, &[Row])] = &[
    ("deutsch_anderson_penetration", &[W, A, Q, EXPONENT]),
    ("laminar_penetration", &[W, A, Q, EXPONENT]),
    (
        "finite_mixing_penetration",
        &[W, A, Q, DIFFUSIVITY, SNEAKAGE, RETURNED],
    ),
    (
        "section_loss_penetration",
        &[W, A, Q, FIELDS, EXPONENT, SNEAKAGE, RETURNED, LOSS],
    ),
    ("loss_floor", &[SNEAKAGE, RETURNED, LOSS, FIELDS]),
    ("uneven_gas_penetration", &[W, A, Q, EXPONENT, SPREAD]),
    ("pilot_plant_penetration", &[MEAN_VOLTAGE]),
    ("deutsch_after_doubling_area", &[FIRST]),
    ("matts_ohnfeldt_after_doubling_area", &[FIRST]),
    ("deutsch_size_penetration", &[DIAMETER, A, Q]),
    ("deutsch_worst_size", &[A, Q]),
    ("cochet_worst_size", &[A, Q]),
    ("lawless_charge", &[DIAMETER, STRENGTH, CURRENT, FLIGHT]),
    (
        "pauthenier_charge",
        &[DIAMETER, STRENGTH, CURRENT, FLIGHT, PERMITTIVITY],
    ),
    ("half_charge_time", &[STRENGTH, CURRENT]),
    (
        "stokes_migration_velocity",
        &[DIAMETER, CHARGE, STRENGTH, SLIP, VISCOSITY],
    ),
    ("force_over_weight", &[DIAMETER, CHARGE, STRENGTH, WEIGHT]),
    (
        "white_peek_onset",
        &[
            RADIUS,
            ROUGHNESS,
            GAS_DENSITY,
            ONSET_FIELD,
            EFFECTIVE_RADIUS,
        ],
    ),
    ("added_up_onset", &[RADIUS, ONSET_FIELD]),
    (
        "quadratic_current",
        &[
            MOBILITY,
            VOLTAGE,
            ONSET,
            GAP,
            PITCH,
            RADIUS,
            EFFECTIVE_RADIUS,
        ],
    ),
    ("glow_depth", &[RADIUS, ONSET_FIELD, GLOW_FIELD]),
];

/// The one migration velocity, as a mean over the fields, which all have the same area.
fn mean_drift_m_s(conditions: &Conditions) -> Found {
    if conditions.teaching.migration_velocity_m_s.is_none() {
        return Ok(None);
    }
    let drifts_m_s = fixed_drifts_m_s(conditions)?;
    Ok(Some(
        drifts_m_s.iter().sum::<f64>() / drifts_m_s.len().max(1) as f64,
    ))
}

fn relative_density(conditions: &Conditions) -> f64 {
    gas::relative_density(conditions.gas.temperature_k, conditions.gas.pressure_pa)
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::*;
    use crate::{
        checks::{FORMULAS, find_formula},
        conditions::{Mixing, demonstration},
        physics::constants::{ELEMENTARY_CHARGE_C, VACUUM_PERMITTIVITY_F_M},
    };

    /// The signs of a formula by name, and the value that the formula itself gives.
    fn worked(
        name: &str,
        conditions: &Conditions,
        size_m: Option<f64>,
    ) -> (impl Fn(&str) -> f64 + use<>, f64) {
        let formula = find_formula(name).expect("a known formula");
        let list = worked_signs(formula, conditions, size_m).expect("possible conditions");
        let value = formula
            .value(conditions, size_m)
            .expect("possible conditions");
        let get = move |sign: &str| {
            let found = list.iter().find(|symbol| symbol.sign == sign);
            found
                .unwrap_or_else(|| panic!("{sign} is not shown"))
                .value_si
        };
        (get, value)
    }

    fn same(by_hand: f64, value: f64) {
        assert!(
            (by_hand / value - 1.0).abs() < 1e-9,
            "{by_hand}, not {value}"
        );
    }

    /// Published numbers: their equation is the number, and nothing goes into it.
    const TOLD_IN_FULL: [&str; 5] = [
        "layer_breakdown_field",
        "coldest_worst_temperature",
        "hottest_worst_temperature",
        "least_published_loss",
        "most_published_loss",
    ];

    #[test]
    fn every_formula_shows_signs_that_stand_in_its_equation() {
        for formula in FORMULAS {
            let shown = shown_of(formula);
            if formula.needs_plant() {
                // What goes in is that of two times, and conditions alone are of one.
                assert!(shown.is_none(), "{} needs two times", formula.name);
                continue;
            }
            let rows = shown.unwrap_or_else(|| panic!("{} shows nothing", formula.name));
            let told_in_full = TOLD_IN_FULL.contains(&formula.name);
            assert_eq!(rows.is_empty(), told_in_full, "{}", formula.name);
            for row in rows {
                // A solver's losses stand in words, and mg and qE are products.
                let told = match row.sign {
                    "S" | "RR" if formula.name == "finite_mixing_penetration" => "sneakage",
                    "S" | "RR" | "LF" if formula.equation.contains("LF") => "LF",
                    "w" | "A" | "Q" if formula.name == "finite_mixing_penetration" => "wC",
                    "w A/Q" => "A",
                    "A" | "Q" | "w" if formula.name.ends_with("worst_size") => "w/dd",
                    "A" | "Q" | "w" if formula.equation.contains("De") => "De",
                    // The diameter is in ν, and in the mass of the grain.
                    "d" if formula.name == "lawless_charge" => "ν",
                    "d" if formula.name == "force_over_weight" => "mg",
                    sign => sign,
                };
                let told = if told == "A" && formula.equation.contains("De") {
                    "De"
                } else {
                    told
                };
                assert!(
                    formula.equation.contains(told),
                    "{}: {}",
                    formula.name,
                    row.sign
                );
            }
        }
    }

    #[test]
    fn the_signs_put_into_the_equation_give_what_the_formula_gives() {
        let mut ideal = demonstration();
        ideal.teaching.migration_velocity_m_s = Some(0.0932);
        ideal.teaching.mixing = Some(Mixing::Full);
        let (sign, value) = worked("deutsch_anderson_penetration", &ideal, None);
        same((-sign("w") * sign("A") / sign("Q")).exp(), value);
        same((-sign("w A/Q")).exp(), value);
        let (sign, value) = worked("section_loss_penetration", &ideal, None);
        let (loss, fields) = (sign("LF"), sign("n"));
        same(loss, sign("S") + sign("RR") * (1.0 - sign("S")));
        same(
            (loss + (1.0 - loss) * (-sign("w A/Q") / fields).exp()).powf(fields),
            value,
        );
    }

    #[test]
    fn signs_of_corona_and_grain_give_what_their_formulas_give() {
        let conditions = demonstration();
        let (sign, value) = worked("white_peek_onset", &conditions, None);
        let field = 3e6 * sign("m") * (sign("δ") + 0.03 * (sign("δ") / sign("r")).sqrt());
        same(field, sign("E₀"));
        same(field * sign("r") * (sign("d_eff") / sign("r")).ln(), value);
        let (sign, value) = worked("glow_depth", &conditions, None);
        same(sign("r") * (sign("E₀") / sign("E_g") - 1.0), value);
        let (sign, value) = worked("half_charge_time", &conditions, None);
        same(4.0 * VACUUM_PERMITTIVITY_F_M * sign("E") / sign("j"), value);
        let (sign, value) = worked("quadratic_current", &conditions, None);
        let (volts, gap_m) = (sign("V") * (sign("V") - sign("V₀")), sign("s"));
        let ratio = (sign("d_eff") / sign("r")).ln();
        let by_hand = 2.0 * PI * VACUUM_PERMITTIVITY_F_M * sign("b") * volts;
        same(by_hand / (sign("c") * gap_m * gap_m * ratio), value);
        let size_m = Some(5e-6);
        let (sign, value) = worked("stokes_migration_velocity", &conditions, size_m);
        let force_n = sign("q") * ELEMENTARY_CHARGE_C * sign("E");
        same(
            force_n * sign("Cc") / (3.0 * PI * 1e-6 * sign("μ") * sign("d")),
            value,
        );
        let (sign, value) = worked("force_over_weight", &conditions, size_m);
        same(
            sign("q") * ELEMENTARY_CHARGE_C * sign("E") / sign("mg"),
            value,
        );
    }

    #[test]
    fn a_sign_without_one_value_is_left_out() {
        let formula = find_formula("deutsch_anderson_penetration").expect("known");
        let many = worked_signs(formula, &demonstration(), None).expect("possible conditions");
        let signs: Vec<&str> = many.iter().map(|symbol| symbol.sign).collect();
        assert_eq!(signs, ["A", "Q"], "every size has a w of its own");
    }
}
