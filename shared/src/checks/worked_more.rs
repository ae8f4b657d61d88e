//! What goes into the formulas of ash, water, panel, layer, electrical set and gas path.

use super::{
    formulas_of_the_gas_path::{by_hand, face_velocity_m_s, whole_leak},
    formulas_of_the_layer::{density_a_m2, layer_breakdown_field_v_m, thickness_m},
    formulas_of_the_set::{current_limit_a_m2, set},
    formulas_of_water::{WATER_KG_M3, blown_down_kg_s, dry_gas, evaporated_kg_s, sprayed_kg_s},
    on_plant,
    worked::{A, At, CHARGE, DIAMETER, Found, Q, Row, SLIP, SNEAKAGE, STRENGTH, VISCOSITY, W, row},
};
use crate::{
    physics::{
        energization::sawtooth::Sawtooth,
        gas_path::{
            leakage::OutsideAir, perforated_plate::loss_coefficient, pressure::contraction_loss,
        },
        stack::{grain_extinction, mass_extinction_m2_kg},
    },
    plant::{REFRACTIVE_INDEX, STACK_M, WAVELENGTH_M},
    simulation::{gas_along, layer_resistivity_ohm_m},
    units::Dimension,
};

const GAS_KG_M3: Row = row("ρ_g", "density of the gas", Dimension::Density, gas_kg_m3);
const GAS_RHO: Row = row("ρ", "density of the gas", Dimension::Density, gas_kg_m3);
const LOAD: Row = row("C", "dust in the gas", Dimension::DustLoad, load_kg_m3);
const PRICE: Row = row(
    "price",
    "what 1000 kg of sold ash bring",
    Dimension::Number,
    |at| Ok(Some(at.conditions.ash.sale_price_per_tonne)),
);
const COST: Row = row(
    "cost",
    "what 1000 kg of other ash cost",
    Dimension::Number,
    |at| Ok(Some(at.conditions.ash.disposal_price_per_tonne)),
);
const CHARGED: Row = row(
    "p_c",
    "penetration between the plates of a field",
    Dimension::Fraction,
    |at| Ok(Some(on_plant::Row::new(at.conditions)?.charged)),
);
const SPRAY: Row = row("spray", "water sprayed", Dimension::MassFlow, |at| {
    Ok(Some(sprayed_kg_s(at.conditions)))
});
const VAPOUR: Row = row("W", "water vapour of the gas", Dimension::Fraction, |at| {
    Ok(Some(at.conditions.gas.moisture))
});
const PRESSURE: Row = row("p", "pressure of the gas", Dimension::Pressure, |at| {
    Ok(Some(at.conditions.gas.pressure_pa))
});
const GAS_T1: Row = row(
    "T₁",
    "temperature of the gas before the water",
    Dimension::Temperature,
    gas_k,
);
const VAPOUR_BEFORE: Row = row(
    "y₁",
    "moles of vapour before the water, for each mole of dry gas",
    Dimension::Number,
    |at| Ok(Some(dry_gas(at.conditions).1)),
);
const EVAPORATED: Row = row(
    "evaporated",
    "water that evaporates",
    Dimension::MassFlow,
    |at| Ok(Some(evaporated_kg_s(at.conditions))),
);
const RECYCLED: Row = row(
    "recycled",
    "share of the water that is sprayed again",
    Dimension::Fraction,
    |at| Ok(Some(at.conditions.water.recycled)),
);
const PENETRATION: Row = row(
    "P",
    "penetration, sections with losses",
    Dimension::Fraction,
    |at| super::section_loss_penetration(at.conditions).map(Some),
);
const BLOWDOWN: Row = row("Q_b", "water blown down", Dimension::Flow, |at| {
    Ok(Some(blown_down_kg_s(at.conditions) / WATER_KG_M3))
});
const HALF_CYCLE: Row = row("T", "length of a half cycle", Dimension::Time, |at| {
    let waveform = set(at.conditions)?.waveform;
    let samples = waveform.map(|cycle| cycle.samples).unwrap_or_default();
    let ends = samples.first().zip(samples.last());
    Ok(ends.map(|(first, last)| last.time_s - first.time_s))
});
const FIELD_V: Row = row("V", "voltage in the gas, mean", Dimension::Voltage, |at| {
    Ok(set(at.conditions)?
        .waveform
        .map(|cycle| cycle.mean_voltage_v))
});
const FIELD_A: Row = row(
    "I(V)",
    "current through the gas, mean",
    Dimension::Current,
    |at| {
        Ok(set(at.conditions)?
            .waveform
            .map(|cycle| cycle.mean_field_current_a))
    },
);
const EXTINCTION: Row = row(
    "k_e",
    "extinction of the dust, in m²/kg",
    Dimension::Number,
    |at| {
        let density_kg_m3 = at.conditions.dust.density_kg_m3;
        let extinction = at.size_m.map(|size_m| {
            let extinction = grain_extinction(size_m, WAVELENGTH_M, REFRACTIVE_INDEX)?;
            mass_extinction_m2_kg(size_m, density_kg_m3, extinction)
        });
        extinction.transpose()
    },
);
const ACROSS: Row = row("L_s", "way of the light", Dimension::Length, |_| {
    Ok(Some(STACK_M))
});
const RESISTIVITY: Row = row(
    "ρ",
    "resistivity of the layer",
    Dimension::Resistivity,
    |at| layer_resistivity_ohm_m(at.conditions).map(Some),
);
const THROUGH_LAYER: Row = row(
    "j",
    "current density through the layer",
    Dimension::CurrentDensity,
    |at| density_a_m2(at.conditions).map(Some),
);
const THICKNESS: Row = row("h", "thickness of the layer", Dimension::PartSize, |at| {
    Ok(Some(thickness_m(at.conditions)))
});
const BREAKS_AT: Row = row(
    "E_b",
    "field at which the layer breaks down",
    Dimension::Field,
    |at| layer_breakdown_field_v_m(at.conditions).map(Some),
);
const ACID: Row = row(
    "SO₃",
    "sulphur trioxide of the gas, in ppm",
    Dimension::Number,
    |at| Ok(Some(at.conditions.gas.sulphur_trioxide_ppm)),
);
const SETBACK: Row = row(
    "ΔV",
    "how far the voltage is set back",
    Dimension::Voltage,
    |at| of_sawtooth(at, |shape| shape.setback_v),
);
const RAMP: Row = row(
    "R",
    "rise of the voltage, in V/s",
    Dimension::Number,
    |at| of_sawtooth(at, |shape| shape.ramp_v_s),
);
const WAIT: Row = row("t_q", "quench and recovery", Dimension::Time, |at| {
    of_sawtooth(at, |shape| shape.quench_s)
});
const SPARKS_AT: Row = row("V_s", "voltage of a spark", Dimension::Voltage, |at| {
    of_sawtooth(at, |shape| shape.spark_voltage_v)
});
const LIMIT: Row = row(
    "j_limit",
    "current density that limit and rating allow",
    Dimension::CurrentDensity,
    |at| current_limit_a_m2(at.conditions).map(Some),
);
const METER_V: Row = row("V_m", "mean voltage", Dimension::Voltage, |at| {
    Ok(Some(set(at.conditions)?.state.metered_v()))
});
const METER_A: Row = row("I_m", "mean current", Dimension::Current, |at| {
    let set = set(at.conditions)?;
    Ok(Some(set.state.metered_a_m2() * set.plate_area_m2))
});
const HEIGHT: Row = row("H", "height of the plates", Dimension::Length, |at| {
    Ok(Some(at.conditions.collector.plate_height_m))
});
const WIDTH: Row = row(
    "W",
    "width of all passages together",
    Dimension::Length,
    |at| {
        let collector = &at.conditions.collector;
        Ok(Some(collector.passages as f64 * collector.plate_spacing_m))
    },
);
const LENGTH: Row = row("L", "length of the fields", Dimension::Length, |at| {
    Ok(Some(at.conditions.length_m()))
});
const FACE_VELOCITY: Row = row(
    "v",
    "velocity between the plates",
    Dimension::Velocity,
    |at| face_velocity_m_s(at.conditions).map(Some),
);
const OXYGEN_IN: Row = row("O₂,in", "oxygen before", Dimension::Fraction, |at| {
    let along = gas_along(at.conditions)?;
    Ok(along.stations.first().map(|station| station.oxygen_dry))
});
const OXYGEN_OUT: Row = row("O₂,out", "oxygen behind", Dimension::Fraction, |at| {
    let along = gas_along(at.conditions)?;
    Ok(along.stations.last().map(|station| station.oxygen_dry))
});
const LEAK: Row = row(
    "x",
    "air that leaks in over the gas that came in, dry",
    Dimension::Fraction,
    |at| Ok(Some(whole_leak(at.conditions))),
);
const DRY_GAS: Row = row("n", "dry gas, in mol/s", Dimension::Number, |at| {
    Ok(Some(dry_gas(at.conditions).0))
});
const AIR_T: Row = row(
    "T_air",
    "temperature of the air",
    Dimension::Temperature,
    |_| Ok(Some(OutsideAir::TEACHING.temperature_k)),
);
const INLET_VELOCITY: Row = row(
    "v₁",
    "velocity in the inlet duct",
    Dimension::Velocity,
    |at| Ok(Some(by_hand(at.conditions)?.duct_m_s)),
);
const OUTLET_VELOCITY: Row = row(
    "v₂",
    "velocity in the outlet duct",
    Dimension::Velocity,
    |at| Ok(Some(by_hand(at.conditions)?.duct_m_s)),
);
const PLATES: Row = row("n", "perforated plates", Dimension::Number, |at| {
    Ok(Some(at.conditions.collector.distribution_plates as f64))
});
const PLATE_LOSS: Row = row(
    "ζ",
    "loss coefficient of a perforated plate",
    Dimension::Number,
    |at| loss_coefficient(at.conditions.collector.distribution_open_area).map(Some),
);
const NOZZLE_LOSS: Row = row(
    "ζ₂",
    "loss coefficient of the outlet nozzle",
    Dimension::Number,
    |at| {
        let path = by_hand(at.conditions)?.path;
        contraction_loss(path.face_m2, path.outlet_duct_m2).map(Some)
    },
);
const DUCT_LOSS: Row = row(
    "ζ_duct",
    "loss coefficient of the outlet duct",
    Dimension::Number,
    |at| Ok(Some(by_hand(at.conditions)?.path.outlet_duct_loss)),
);
const END: Row = row(
    "p_end",
    "pressure at the foot of the stack over that outside",
    Dimension::PressureDrop,
    |at| Ok(Some(by_hand(at.conditions)?.path.end_gauge_pa)),
);

/// Which signs the later formulas show; a published number shows none.
// One formula a line, so that it reads as the table it is.
#[rustfmt::skip]
pub(super) const SHOWN_MORE: &[(&str, &[Row])] = &[
    ("drag_migration_velocity", &[DIAMETER, CHARGE, STRENGTH, SLIP, VISCOSITY, GAS_KG_M3]),
    ("dust_that_came", &[LOAD, Q]),
    ("ash_money", &[PRICE, COST]),
    ("rapped_penetration", &[SNEAKAGE, CHARGED]),
    ("water_that_came", &[SPRAY, VAPOUR, PRESSURE, Q, GAS_T1]),
    ("wet_bulb", &[GAS_T1, VAPOUR_BEFORE]),
    ("fresh_water", &[EVAPORATED, RECYCLED, SPRAY]),
    ("blowdown_solids", &[LOAD, Q, PENETRATION, BLOWDOWN]),
    ("bouguer_opacity", &[EXTINCTION, LOAD, W, A, Q, ACROSS]),
    ("ohmic_layer_field", &[RESISTIVITY, THROUGH_LAYER]),
    ("ohmic_first_layer_drop", &[RESISTIVITY, THROUGH_LAYER, THICKNESS]),
    ("layer_breakdown_field", &[]),
    ("unbent_voltage", &[BREAKS_AT, RESISTIVITY, THICKNESS]),
    ("layer_resistivity", &[ACID]),
    ("coldest_worst_temperature", &[]),
    ("hottest_worst_temperature", &[]),
    ("sawtooth_spark_rate", &[SETBACK, RAMP, WAIT]),
    ("sawtooth_mean_voltage", &[SPARKS_AT, SETBACK, RAMP, WAIT]),
    ("current_limit", &[LIMIT]),
    ("field_power", &[FIELD_V, FIELD_A, HALF_CYCLE]),
    ("power_of_meters", &[METER_V, METER_A]),
    ("face_velocity", &[Q, HEIGHT, WIDTH]),
    ("plug_flow_time", &[LENGTH, FACE_VELOCITY]),
    ("leak_by_oxygen", &[OXYGEN_IN, OXYGEN_OUT]),
    ("mixed_oxygen", &[OXYGEN_IN, LEAK]),
    ("added_volumes", &[Q, LEAK, DRY_GAS, AIR_T, PRESSURE]),
    ("added_losses", &[GAS_RHO, INLET_VELOCITY, FACE_VELOCITY, PLATES, PLATE_LOSS, NOZZLE_LOSS, OUTLET_VELOCITY]),
    ("least_published_loss", &[]),
    ("most_published_loss", &[]),
    ("pressure_from_the_stack", &[END, GAS_RHO, OUTLET_VELOCITY, DUCT_LOSS, NOZZLE_LOSS, FACE_VELOCITY]),
];

fn gas_kg_m3(at: &At<'_>) -> Found {
    Ok(Some(by_hand(at.conditions)?.density_kg_m3))
}

fn gas_k(at: &At<'_>) -> Found {
    Ok(Some(at.conditions.gas.temperature_k))
}

fn load_kg_m3(at: &At<'_>) -> Found {
    Ok(Some(at.conditions.dust.load_kg_m3))
}

/// A number of the sawtooth of the first field; nothing where sparking does not hold it.
fn of_sawtooth(at: &At<'_>, number: fn(&Sawtooth) -> f64) -> Found {
    Ok(set(at.conditions)?.sawtooth.as_ref().map(number))
}

#[cfg(test)]
mod tests {
    use crate::{
        checks::{find_formula, worked_signs},
        conditions::{Conditions, Kind, Mixing, demonstration},
        physics::constants::{ELEMENTARY_CHARGE_C, GAS_CONSTANT_J_MOL_K},
    };

    type Signs<'a> = &'a dyn Fn(&str) -> f64;

    /// Puts the signs of a formula into its equation and holds the outcome against the formula.
    fn agree(
        name: &str,
        (conditions, size_m): (&Conditions, Option<f64>),
        by_hand: fn(Signs<'_>) -> f64,
        within: f64,
    ) {
        let formula = find_formula(name).expect("a known formula");
        let signs = worked_signs(formula, conditions, size_m).expect("possible conditions");
        let sign = |wanted: &str| {
            let found = signs.iter().find(|sign| sign.sign == wanted);
            found
                .unwrap_or_else(|| panic!("{name}: {wanted} is not shown"))
                .value_si
        };
        let value = formula.value(conditions, size_m).expect("possible");
        let worked = by_hand(&sign);
        assert!(
            (worked / value - 1.0).abs() < within,
            "{name}: {worked}, not {value}"
        );
    }

    #[test]
    fn signs_of_the_gas_path_give_what_their_formulas_give() {
        let mut leaky = demonstration();
        leaky.gas.in_leakage.casing = 0.1;
        let at = (&leaky, None);
        agree("face_velocity", at, |s| s("Q") / (s("H") * s("W")), 1e-9);
        agree("plug_flow_time", at, |s| s("L") / s("v"), 1e-9);
        let leak = |s: Signs<'_>| (s("O₂,out") - s("O₂,in")) / (0.209 - s("O₂,out"));
        agree("leak_by_oxygen", at, leak, 1e-3);
        let mixed = |s: Signs<'_>| (s("O₂,in") + 0.209 * s("x")) / (1.0 + s("x"));
        agree("mixed_oxygen", at, mixed, 1e-3);
        let added =
            |s: Signs<'_>| s("Q") + s("x") * s("n") * GAS_CONSTANT_J_MOL_K * s("T_air") / s("p");
        // The air's own per cent of vapour is left out.
        agree("added_volumes", at, added, 1e-3);
        let losses = |s: Signs<'_>| {
            let plates = s("n") * s("ζ") * s("v").powi(2) + s("ζ₂") * s("v₂").powi(2);
            0.5 * s("ρ") * ((s("v₁") - s("v")).powi(2) + plates)
        };
        // Friction of 0.3 Pa is left out.
        agree("added_losses", at, losses, 5e-3);
        let pressure = |s: Signs<'_>| {
            let behind = s("v₂").powi(2) * (1.0 + s("ζ_duct") + s("ζ₂"));
            s("p_end") + 0.5 * s("ρ") * (behind - s("v").powi(2))
        };
        agree("pressure_from_the_stack", at, pressure, 5e-3);
    }

    #[test]
    fn signs_of_layer_and_set_give_what_their_formulas_give() {
        let mut dusty = demonstration();
        dusty.rapping.layer_m = vec![1e-3; 4];
        let at = (&dusty, None);
        agree("ohmic_layer_field", at, |s| s("ρ") * s("j"), 1e-9);
        agree(
            "ohmic_first_layer_drop",
            at,
            |s| s("ρ") * s("j") * s("h"),
            1e-9,
        );
        agree("power_of_meters", at, |s| s("V_m") * s("I_m"), 1e-9);
        agree("current_limit", at, |s| s("j_limit"), 1e-9);
        let mut sparking = demonstration();
        sparking.set_fields(1);
        sparking.dust.load_kg_m3 = 0.0;
        sparking.electrical.voltage_v = vec![60e3];
        sparking.electrical.current_limit_a_m2 = 2e-3;
        sparking.electrical.rated_current_a_m2 = 2e-3;
        let rate = |s: Signs<'_>| 1.0 / (s("ΔV") / s("R") + s("t_q"));
        agree("sawtooth_spark_rate", (&sparking, None), rate, 1e-9);
        let mean = |s: Signs<'_>| {
            let rise_s = s("ΔV") / s("R");
            (s("V_s") - 0.5 * s("ΔV")) * rise_s / (rise_s + s("t_q"))
        };
        // What the recovery adds, half of it in 0.05 s of 3 s, is left out.
        agree("sawtooth_mean_voltage", (&sparking, None), mean, 0.01);
    }

    #[test]
    fn signs_of_dust_and_water_give_what_their_formulas_give() {
        let mut ideal = demonstration();
        ideal.teaching.migration_velocity_m_s = Some(0.0932);
        ideal.teaching.mixing = Some(Mixing::Full);
        ideal.teaching.single_diameter_m = Some(5e-6);
        ideal.electrical.voltage_v = ideal.reference.voltage_v.clone();
        let opacity = |s: Signs<'_>| {
            let left = s("C") * (-s("w") * s("A") / s("Q")).exp();
            1.0 - (-s("k_e") * left * s("L_s")).exp()
        };
        agree("bouguer_opacity", (&ideal, None), opacity, 1e-9);
        agree("dust_that_came", (&ideal, None), |s| s("C") * s("Q"), 1e-9);
        ideal.collector.kind = Kind::Wet;
        ideal.water.per_gas = 6.7e-4;
        ideal.water.recycled = 0.9;
        let wet = (&ideal, None);
        let came = |s: Signs<'_>| {
            let vapour = s("p") * s("W") * s("Q") / (GAS_CONSTANT_J_MOL_K * s("T₁"));
            s("spray") + 0.0180153 * vapour
        };
        agree("water_that_came", wet, came, 1e-9);
        let fresh =
            |s: Signs<'_>| s("evaporated") + (1.0 - s("recycled")) * (s("spray") - s("evaporated"));
        agree("fresh_water", wet, fresh, 1e-9);
        let solids = |s: Signs<'_>| s("C") * s("Q") * (1.0 - s("P")) / s("Q_b");
        agree("blowdown_solids", wet, solids, 1e-9);
        let drag = |s: Signs<'_>| {
            let force_n = s("q") * ELEMENTARY_CHARGE_C * s("E");
            let (viscosity_pa_s, size_m) = (1e-6 * s("μ"), s("d"));
            let stokes_m_s =
                force_n * s("Cc") / (3.0 * std::f64::consts::PI * viscosity_pa_s * size_m);
            let reynolds = |w: f64| s("ρ_g") * w * size_m / viscosity_pa_s;
            let next = |w: f64| stokes_m_s / (1.0 + 0.15 * reynolds(w).powf(0.687));
            (0..60).fold(stokes_m_s, |w, _| next(w))
        };
        let conditions = demonstration();
        agree(
            "drag_migration_velocity",
            (&conditions, Some(10e-6)),
            drag,
            1e-6,
        );
    }
}
