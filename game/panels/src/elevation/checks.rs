//! What the elevation shows, computed in two ways: the gas that the instruments at both ends read, and the ash under the drawn
//! level of the fullest hopper against the books.

use ashlane_shared::{
    physics::gas_path::{leakage::leak_share, pressure::Station},
    plant::OUTLET_SHARE,
    units::{Dimension, number_text},
};

use super::ElevationView;
use crate::checks::CheckLine;

/// Largest difference that is rounding, as a share.
const ROUNDING: f64 = 1e-6;

/// The agreement lines.
#[must_use]
pub fn checks(view: &ElevationView<'_>) -> Vec<CheckLine> {
    [gas_check(view), ash_check(view)]
        .into_iter()
        .flatten()
        .collect()
}

/// Dry gas in the outlet duct over that in the inlet duct: by flow, temperature, pressure and water, and by the oxygen that
/// the instruments show, for what leaks in is air.
fn gas_check(view: &ElevationView<'_>) -> Option<CheckLine> {
    let gas = view.gas?;
    let (before, behind) = (gas.at(Station::InletDuct)?, gas.at(Station::OutletDuct)?);
    let by_flow = behind.dry_flow_mol_s / before.dry_flow_mol_s;
    // What the formula refuses, as less oxygen behind than before, disagrees.
    let leak = leak_share(before.oxygen_dry, behind.oxygen_dry);
    let by_oxygen = leak.map_or(f64::NAN, |leak| 1.0 + leak);
    let percent = |ratio: f64| number_text((1e4 * ratio).round() / 100.0, 5);
    Some(CheckLine::of_ratio(
        "dry gas, outlet over inlet duct, by flow and by oxygen",
        format!("{} % and {} %", percent(by_flow), percent(by_oxygen)),
        by_flow / by_oxygen,
        ROUNDING,
    ))
}

/// The ash in the fullest hopper; nothing while all are empty or full to the brim.
///
/// `H/6 (A_0 + 4 A_{1/2} + A_1) ρ` of the drawn frustum (prismoidal formula, exact for it) against the booked mass
fn ash_check(view: &ElevationView<'_>) -> Option<CheckLine> {
    let rows = view.hoppers.iter().enumerate();
    let partly = rows.filter(|(_, row)| row.filled > 0.0 && row.filled < 1.0);
    let (index, row) = partly.max_by(|one, other| one.1.level.total_cmp(&other.1.level))?;
    let collector = &view.conditions.collector;
    let width_m = collector.passages as f64 * collector.plate_spacing_m;
    let side = |share: f64| OUTLET_SHARE + (1.0 - OUTLET_SHARE) * share;
    let area_m2 = |share: f64| side(share) * collector.field_length_m * side(share) * width_m;
    let level_m = row.level * row.height_m;
    let volume_m3 =
        level_m / 6.0 * (area_m2(0.0) + 4.0 * area_m2(0.5 * row.level) + area_m2(row.level));
    let drawn_kg = volume_m3 * view.conditions.hoppers.ash_density_kg_m3;
    Some(CheckLine::of_ratio(
        "ash under the drawn level, by the prismoidal formula, against the books",
        format!(
            "{}: {} and {}",
            view.conditions.part_name_of_field("hopper", index),
            view.text(drawn_kg, Dimension::Mass),
            view.text(row.ash_kg, Dimension::Mass)
        ),
        drawn_kg / row.ash_kg,
        ROUNDING,
    ))
}
