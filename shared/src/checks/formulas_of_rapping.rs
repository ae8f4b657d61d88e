//! What lessons hold rapping against: the growing layer, one puff over what leaves all the time, rapping of thin layers.
//!
//! The rows that name them stand in `formulas.rs`.

use super::{
    formulas::{Evaluate, Formula},
    on_plant::{OnPlant, Row, field_m2, field_of, landing_kg_s},
};
use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        rapping::{puff_duration_s, removed_share, returned_share},
        root::root_of_rising,
    },
    plant::struck_groups,
    units::Dimension,
};

pub(super) const GROWING_LAYER: Formula = Formula {
    name: "growing_layer",
    title: "growth of the layer",
    equation: "h = C Q η t/(A ρ_b)",
    source: "mass balance, Deutsch 1922",
    validity: "one migration velocity, full mixing, even gas; before the first blow",
    gives: Dimension::PartSize,
    evaluate: Evaluate::OnPlant(growing_layer_m),
};
pub(super) const PUFF_CONTRAST: Formula = Formula {
    name: "puff_contrast",
    title: "puff of one blow",
    equation: "1 + N RR φ m_g p_S^(n−i)/(t_p C Q p_S^n), p_S = S + (1−S) p_c",
    source: "mass balance of one group of plates, Deutsch 1922",
    validity: "grains of one size, full mixing, even gas; first blow of a field, none upstream before",
    gives: Dimension::Number,
    evaluate: Evaluate::OnPlant(puff_contrast),
};
pub(super) const RAPPED_PENETRATION: Formula = Formula {
    name: "rapped_penetration",
    title: "sections with thin layers",
    equation: "P = Π [S + (1−S)(p_c + (1−p_c) RR(h))], h φ(h) = Δh",
    source: "US EPA Air Pollution Control Cost Manual; RR(h) is a teaching form with no source",
    validity: "one migration velocity, full mixing, even gas; mean over many blows",
    gives: Dimension::Fraction,
    evaluate: Evaluate::Whole(rapped_penetration),
};

/// Stretches of a field that are looked at one by one: enough that more change nothing.
const STRETCHES: u32 = 64;
/// Thickest layer that is looked for, m.
const THICKEST_M: f64 = 0.5;

/// Thickness of the layer that grows on clean plates, m.
///
/// `h = C Q η_f t/(A_f ρ_b)`, `η_f = (S + (1−S)p_c)^(f−1) (1−S)(1−p_c)`
///
/// # Arguments
/// * `asked` – conditions, the time since the plates were clean, and the field.
///
/// # Source
/// Mass balance (physics of the growing layer: what is caught stays); Deutsch 1922 between the plates.
///
/// # Validity
/// One migration velocity, full mixing, even gas; before the first blow. What the wires get is left out: less than 1 %.
///
/// # Errors
/// No such field, or a formula refused the conditions.
pub fn growing_layer_m(asked: &OnPlant<'_>) -> Result<f64, PhysicsError> {
    let field = field_of(asked)?;
    let grown = |conditions: &Conditions, time_s: f64| {
        let held_kg_m = conditions.dust.layer_density_kg_m3 * field_m2(conditions);
        Ok::<_, PhysicsError>(landing_kg_s(conditions, field)? * time_s / held_kg_m)
    };
    Ok(asked.conditions.rapping.layer_m[field]
        + grown(asked.before, asked.settle_s)?
        + grown(asked.conditions, asked.time_s)?)
}

/// Dust that leaves in the first puff of a field over what leaves all the time.
///
/// `1 + k RR Σφ(h)h/(Σh) m L/(t_p C Q P)`, `m = h ρ_b A_f/G`, `L = (S + (1−S)p_c)^(n−f)`, `k` blows within one puff
///
/// # Arguments
/// * `asked` – conditions and the field, on which their layer lies and grows until its first blow.
///
/// # Source
/// Mass balance of what one group of plates sheds; Deutsch 1922 between the plates; duration of a puff by
/// [`puff_duration_s`].
///
/// # Validity
/// All grains alike, full mixing, even gas; nothing is rapped upstream before; no thin layers.
///
/// # Errors
/// No such field, or a formula refused the conditions.
pub fn puff_contrast(asked: &OnPlant<'_>) -> Result<f64, PhysicsError> {
    let (conditions, field) = (asked.conditions, field_of(asked)?);
    let row = Row::new(conditions)?;
    let area_m2 = field_m2(conditions);
    let interval_s = conditions.rapping.interval_s[field];
    let density_kg_m3 = conditions.dust.layer_density_kg_m3;
    let laid_m = conditions.rapping.layer_m[field];
    let grown_m = landing_kg_s(conditions, field)? * interval_s / (density_kg_m3 * area_m2);
    let mut off_m = 0.0;
    for part in stretches(&row) {
        let thickness_m = laid_m + grown_m * part;
        off_m += thickness_m * removed(conditions, thickness_m)? / f64::from(STRETCHES);
    }
    let groups = struck_groups(conditions);
    let back_kg = conditions.returned_share() * off_m * density_kg_m3 * area_m2 / groups as f64;
    let collector = &conditions.collector;
    let lasts_s = puff_duration_s(
        collector.plate_height_m,
        collector.field_length_m,
        conditions.gas_velocity_m_s(),
    )?;
    let apart_s = 1.0 / (conditions.rapping.shaft_speed_per_s * groups as f64);
    let at_once = (lasts_s / apart_s).ceil().min(groups as f64);
    let through = row.passes(0.0);
    let behind = (field + 1..row.fields).fold(1.0, |share, _| share * through);
    let steady_kg_s = conditions.inlet_mass_kg_s() * row.reaches(row.fields, 0.0);
    Ok(1.0 + at_once * back_kg * behind / (lasts_s * steady_kg_s))
}

/// How much more than in the mean lands on each stretch of a field: `De e^(−De x)/(1 − e^(−De))`.
fn stretches(row: &Row) -> impl Iterator<Item = f64> + use<> {
    let deutsch = row.deutsch;
    let edge = move |at: u32| (-deutsch * f64::from(at) / f64::from(STRETCHES)).exp();
    let whole = edge(0) - edge(STRETCHES);
    (0..STRETCHES).map(move |at| f64::from(STRETCHES) * (edge(at) - edge(at + 1)) / whole)
}

fn removed(conditions: &Conditions, thickness_m: f64) -> Result<f64, PhysicsError> {
    let rapping = &conditions.rapping;
    removed_share(
        rapping.acceleration_m_s2,
        thickness_m,
        conditions.dust.layer_density_kg_m3,
    )
}

/// Penetration in the long run where thin layers return more than sheets.
///
/// `P = Π_f [1 − (1−S)(1−p_c)(1−RR_f)]`, `RR_f` the mean of `r(h)` over the field with `h φ(h) = Δh`: what grows between two
/// blows is what a blow takes away
///
/// # Arguments
/// * `conditions` – of the collector.
///
/// # Source
/// Sections with losses (US EPA *Air Pollution Control Cost Manual*, from memory of it) with the teaching form of
/// [`returned_share`], which has no source.
///
/// # Validity
/// One migration velocity, full mixing, even gas; plates that have been rapped for many intervals.
///
/// # Errors
/// A formula refused the conditions.
pub fn rapped_penetration(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let row = Row::new(conditions)?;
    let area_kg_m = conditions.dust.layer_density_kg_m3 * field_m2(conditions);
    let mut arrives = 1.0;
    for field in 0..row.fields {
        let interval_s = conditions.rapping.interval_s[field];
        let lands_kg_s = conditions.inlet_mass_kg_s() * arrives * row.lands();
        let grown_m = lands_kg_s * interval_s / area_kg_m;
        let mut returned = 0.0;
        for part in stretches(&row) {
            let thickness_m = before_a_blow_m(conditions, grown_m * part);
            returned += part * returned_of(conditions, thickness_m)? / f64::from(STRETCHES);
        }
        arrives *= row.passes(returned);
    }
    Ok(arrives)
}

/// Thickness of which a blow takes away what grew since the last.
fn before_a_blow_m(conditions: &Conditions, grown_m: f64) -> f64 {
    let left = |thickness_m: f64| {
        let share = removed(conditions, thickness_m).unwrap_or(f64::NAN);
        share * thickness_m - grown_m
    };
    root_of_rising(left, grown_m, THICKEST_M)
}

fn returned_of(conditions: &Conditions, thickness_m: f64) -> Result<f64, PhysicsError> {
    let sheets = conditions.returned_share();
    match conditions.teaching.thin_layer_m {
        Some(thin_m) => returned_share(thickness_m, sheets, thin_m),
        None => Ok(sheets),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::conditions::{Mixing, Resistivity, demonstration};

    /// R1 of training.md with its losses: De 6.214, 5 % past each field, 12.4 % back.
    fn r1() -> Conditions {
        let mut conditions = demonstration();
        conditions.gas.velocity_spread = 0.0;
        conditions.teaching.mixing = Some(Mixing::Full);
        conditions.teaching.migration_velocity_m_s = Some(0.0932);
        conditions.electrical.spark_field_v_m = 8e5;
        conditions.electrical.current_limit_a_m2 = 2e-3;
        conditions.electrical.rated_current_a_m2 = 2e-3;
        conditions.dust.resistivity = Resistivity::Given(1e5);
        conditions
    }

    fn asked(conditions: &Conditions, hours: f64, field: usize) -> OnPlant<'_> {
        OnPlant {
            before: conditions,
            settle_s: 0.0,
            conditions,
            time_s: hours * 3600.0,
            field,
        }
    }

    #[test]
    fn the_layer_grows_as_the_specification_says() {
        // physics.md H2: 8 g/m³, 70 % caught on a field of 20 s/m: 1.68 mm/h at 600 kg/m³.
        let mut conditions = r1();
        conditions.set_fields(1);
        conditions.collector.sneakage = 0.0;
        conditions.gas.flow_m3_s = 1980.0 / 20.0;
        let number = -(0.3f64.ln());
        conditions.teaching.migration_velocity_m_s = Some(number / 20.0);
        let grown_m = growing_layer_m(&asked(&conditions, 1.0, 0)).expect("possible");
        assert!((grown_m / 1.68e-3 - 1.0).abs() < 1e-3, "{grown_m}");
        // training.md L12: field 1 of R1 grows 10 mm in about 4 h, without sneakage 4.4 h.
        let mut ideal = r1();
        ideal.collector.sneakage = 0.0;
        let of_four_hours = growing_layer_m(&asked(&ideal, 4.4, 0)).expect("possible");
        assert!(
            (of_four_hours / 0.010 - 1.0).abs() < 0.01,
            "{of_four_hours}"
        );
    }

    #[test]
    fn sheets_return_the_share_of_the_sheet() {
        // training.md L12: R1 with 5 % and 12.4 %: 98.60 %.
        let conditions = r1();
        let penetration = rapped_penetration(&conditions).expect("possible");
        assert!((penetration - 0.0140).abs() < 1e-4, "{penetration}");
        let sections = crate::checks::section_loss_penetration(&conditions).expect("possible");
        assert!((penetration / sections - 1.0).abs() < 1e-9, "{penetration}");
        // Thin layers return more, and more so the oftener they are struck.
        let mut thin = r1();
        thin.teaching.thin_layer_m = Some(0.003);
        let seldom = rapped_penetration(&thin).expect("possible");
        for interval_s in &mut thin.rapping.interval_s {
            *interval_s *= 0.1;
        }
        let often = rapped_penetration(&thin).expect("possible");
        assert!(
            penetration < seldom && 1.5 * seldom < often,
            "{seldom} {often}"
        );
    }

    #[test]
    fn a_puff_is_what_one_group_of_plates_sheds() {
        // By hand, 5 mm and what grows in a quarter of an hour, 0.005 mm: φ = Φ(ln(1500·5.005/10000)/0.6 + 1.2816) = 0.7892;
        // a group sheds 5.005e-3·0.7892·600·1980/32 = 146.6 kg, 12.4 % of it in 3.928 s: 4.629 kg/s over
        // 118.8·0.008·0.2509⁴ = 3.770e-3.
        let mut conditions = r1();
        conditions.rapping.layer_m = vec![0.005; 4];
        conditions.rapping.interval_s = vec![0.25 * 3600.0; 4];
        let last = puff_contrast(&asked(&conditions, 5.0, 3)).expect("possible");
        assert!((last / 1229.0 - 1.0).abs() < 0.003, "{last}");
        // Each field behind takes all but a quarter of it.
        let through = Row::new(&conditions).expect("possible").passes(0.0);
        let third = puff_contrast(&asked(&conditions, 5.0, 2)).expect("possible");
        assert!(
            ((third - 1.0) / (last - 1.0) / through - 1.0).abs() < 0.05,
            "{third}"
        );
        // A shaft so fast that a puff outlasts sixteen blows.
        conditions.rapping.shaft_speed_per_s = 4.0 / 32.0;
        let fast = puff_contrast(&asked(&conditions, 5.0, 3)).expect("possible");
        assert!(
            ((fast - 1.0) / (last - 1.0) / 16.0 - 1.0).abs() < 1e-9,
            "{fast}"
        );
    }
}
