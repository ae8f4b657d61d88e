//! What the plant clock says at its end of the ash that was taken away, of the darkest puff and of the water.

use ashlane_shared::{
    conditions::{Conditions, Key, Value, find_key},
    plant::{AshReading, AshRoute, PlantReading, WaterReading},
};

use crate::command_line::numbers::percent_short;

/// What the check of the long run does not know.
const THIN: &str =
    "Thin layers return more here (teaching.thin_layer) than both sides of that check assume.\n";

/// A line each, as far as there is something to say.
pub(super) fn ash(conditions: &Conditions, readings: &[PlantReading]) -> String {
    let last = readings.last();
    let darkest = readings
        .iter()
        .filter(|reading| reading.peak_at_s.is_some())
        .max_by(|one, other| one.peak_opacity.total_cmp(&other.peak_opacity));
    let water = last.and_then(|reading| reading.water.as_ref());
    [
        conditions.teaching.thin_layer_m.map(|_| THIN.to_owned()),
        darkest.map(puff),
        last.map(|reading| silo(conditions, &reading.ash)),
        water.map(run_down),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn puff(reading: &PlantReading) -> String {
    format!(
        "Darkest puff: opacity {} % at hour {:.2}, for {:.1} s.\n",
        percent_short(reading.peak_opacity),
        reading.peak_at_s.unwrap_or_default() / 3600.0,
        reading.puff_s
    )
}

fn silo(conditions: &Conditions, ash: &AshReading) -> String {
    let word = match ash.route {
        None => return String::new(),
        Some(AshRoute::Sale) => "good for sale",
        Some(AshRoute::Disposal) => "not good for sale",
    };
    let standard = match find_key("ash.standard").and_then(|key: &Key| key.get(conditions)) {
        Some(Value::Word(word)) => word,
        _ => "",
    };
    format!(
        "Silo: {} % loss on ignition, {} % above 45 µm: {word} by {standard} (these two limits).\n\
         Sold {:.1} t, disposed of {:.1} t, money {:+.0} at the prices of the sheet.\n",
        percent_short(ash.loss_on_ignition),
        percent_short(ash.retained_45_um),
        ash.sold_kg / 1e3,
        ash.disposed_kg / 1e3,
        ash.money
    )
}

fn run_down(water: &WaterReading) -> String {
    format!(
        "Water: {:.1} L/s sprayed, {:.1} evaporated, {:.1} blown down with {:.1} g/L of dust; film {:.2} mm.\n",
        1e3 * water.sprayed_m3_s,
        1e3 * water.evaporated_m3_s,
        1e3 * water.blown_down_m3_s,
        water.solids_kg_m3,
        1e3 * water.film_m
    )
}
