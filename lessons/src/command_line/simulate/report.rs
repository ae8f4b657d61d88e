//! The result of a count for people: what was counted beside the theory, and what it means.

use ashlane_shared::{
    checks::{SIGMAS, Verdict, left_out},
    units::{Dimension, UnitSystem, format},
};

use super::{Simulated, gas, tables};
use crate::{
    command_line::numbers::{both, decimals, percent},
    engine::NOTICE,
};

/// Longest line of effects that is printed, characters.
const LONGEST_LINE: usize = 110;

/// The whole report.
pub(in crate::command_line) fn report(simulated: &Simulated) -> String {
    let parts = [
        heading(simulated),
        tables::agreement(simulated),
        verdict(simulated),
        tables::by_field(simulated),
        tables::by_size(simulated),
        gas::stations(&simulated.gas_along),
        simulated.gas_path.clone(),
        balance(simulated),
    ];
    parts.join("\n")
}

fn heading(simulated: &Simulated) -> String {
    let conditions = &simulated.conditions;
    let gas = &conditions.gas;
    format!(
        "{} ({})\n{NOTICE}\n\n\
         Gas     {}, {}, {}\n\
         Plates  {}, SCA {}, treatment time {}\n\
         Dust    {}\n",
        conditions.title,
        simulated.name,
        both(gas.flow_m3_s, Dimension::Flow),
        both(gas.temperature_k, Dimension::Temperature),
        both(conditions.gas_velocity_m_s(), Dimension::Velocity),
        both(conditions.collecting_area_m2(), Dimension::Area),
        both(
            conditions.specific_collection_area_s_m(),
            Dimension::SpecificArea
        ),
        format(
            conditions.treatment_time_s(),
            Dimension::Time,
            UnitSystem::Si
        ),
        both(conditions.dust.load_kg_m3, Dimension::DustLoad),
    )
}

fn verdict(simulated: &Simulated) -> String {
    let agreement = &simulated.agreement;
    let difference = agreement.counted.share - agreement.finite_mixing;
    let digits = decimals(300.0 * agreement.counted.standard_error);
    let chance = SIGMAS * agreement.counted.standard_error;
    let reason = if agreement.tolerance > chance {
        format!(
            "{} % of finite mixing",
            100.0 * simulated.theory.model_tolerance
        )
    } else {
        format!("{SIGMAS} σ of the count")
    };
    let word = match agreement.verdict {
        Verdict::Agree => "agree",
        Verdict::Disagree => "DISAGREE",
    };
    let effects = left_out(&simulated.conditions, &simulated.theory);
    let omitted = if effects.is_empty() {
        "Deutsch–Anderson leaves nothing out here.".to_owned()
    } else {
        omitted(&effects)
    };
    let along = match simulated.theory.in_even_field {
        Some(_) => format!(
            "Between count and solver: the field is averaged along the wires, up to {} %.\n",
            100.0 * simulated.theory.model_tolerance
        ),
        None => String::new(),
    };
    format!(
        "Counted and finite mixing: difference {} %, tolerance {} % ({reason}): {word}.\n{omitted}\n{along}{}\n",
        percent(difference, digits),
        percent(agreement.tolerance, digits),
        mixing(simulated),
    )
}

/// What the formula leaves out, in lines that are not too long.
fn omitted(effects: &[String]) -> String {
    let mut text = "Deutsch–Anderson leaves out: ".to_owned();
    let mut long = text.chars().count();
    for (index, effect) in effects.iter().enumerate() {
        let end = if index + 1 < effects.len() { "," } else { "." };
        let length = effect.chars().count() + 2;
        if long + length > LONGEST_LINE {
            text = format!("{}\n  ", text.trim_end());
            long = 2;
        }
        text.push_str(effect);
        text.push_str(end);
        text.push(' ');
        long += length;
    }
    text.trim_end().to_owned()
}

fn mixing(simulated: &Simulated) -> String {
    let theory = &simulated.theory;
    let mixing = match (theory.peclet_number, theory.diffusivity_m2_s) {
        (None, _) => "no mixing across the gap".to_owned(),
        (Some(peclet), Some(diffusivity_m2_s)) => format!(
            "diffusivity D {}, Péclet number Pe {peclet:.1}",
            both(diffusivity_m2_s, Dimension::Diffusivity)
        ),
        (Some(_), None) => "full mixing across the gap, Pe 0".to_owned(),
    };
    format!("Deutsch number De {:.3}; {mixing}.", theory.deutsch_number)
}

fn balance(simulated: &Simulated) -> String {
    let inlet_kg_s = simulated.conditions.inlet_mass_kg_s();
    let escaped = simulated.count.penetration.share;
    let caught = simulated.caught();
    let mass = |share: f64| both(share * inlet_kg_s, Dimension::MassFlow);
    let stranded = match simulated.count.stranded {
        0 => String::new(),
        some => format!(
            "{some} parcels were still in the gas when the count ended and are booked as having left.\n"
        ),
    };
    format!(
        "Mass balance: in {}, on the plates {}, out {}.\nThe books are off by {:.0e} of the inlet.\n{stranded}",
        mass(1.0),
        mass(caught),
        mass(escaped),
        simulated
            .count
            .imbalance
            .max((1.0 - caught - escaped).abs()),
    )
}
