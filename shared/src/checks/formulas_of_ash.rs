//! What lessons hold hoppers and the silo against: dust that comes, rows, hours to alarm and brim, mixed ash, money.
//!
//! The rows that name them stand in `formulas.rs`.

use super::{
    formulas::{Evaluate, Formula},
    on_plant::{OnPlant, falling_kg_s, field_of},
    trend::alarm_volume_m3,
};
use crate::{
    conditions::{AshStandard, Conditions, Sizes},
    physics::{PhysicsError, fly_ash::AshLimits, fly_ash::SIEVE_M, normal},
    units::Dimension,
};

pub(super) const DUST_THAT_CAME: Formula = Formula {
    name: "dust_that_came",
    title: "dust that came in",
    equation: "C Q",
    source: "mass balance",
    validity: "always",
    gives: Dimension::MassFlow,
    evaluate: Evaluate::Whole(|conditions| Ok(conditions.inlet_mass_kg_s())),
};
pub(super) const ROW_ASH: Formula = Formula {
    name: "row_ash",
    title: "split of the ash",
    equation: "ṁ = C Q p_f^(i−1) (1−S)(1−p_c)(1−RR), p_f = 1 − (1−S)(1−p_c)(1−RR)",
    source: "mass balance of fields in a row, Deutsch 1922",
    validity: "one migration velocity, equal fields, full mixing, even gas; mean over many blows",
    gives: Dimension::MassFlow,
    evaluate: Evaluate::OnPlant(row_ash_kg_s),
};
pub(super) const HOURS_TO_ALARM: Formula = Formula {
    name: "hours_to_alarm",
    title: "volume to the alarm",
    equation: "t = V_alarm ρ_a/ṁ",
    source: "mass balance; cut pyramid",
    validity: "as split of the ash; nothing is taken away",
    gives: Dimension::Interval,
    evaluate: Evaluate::OnPlant(time_to_alarm_s),
};
pub(super) const HOURS_TO_BRIM: Formula = Formula {
    name: "hours_to_brim",
    title: "volume to the brim",
    equation: "t = V_brim ρ_a/ṁ",
    source: "mass balance",
    validity: "as split of the ash; nothing is taken away",
    gives: Dimension::Interval,
    evaluate: Evaluate::OnPlant(time_to_brim_s),
};
pub(super) const ASH_MONEY: Formula = Formula {
    name: "ash_money",
    title: "tonnes times price",
    equation: "Σ sold · price − Σ disposed · cost",
    source: "definition; limits of EN 450-1 and ASTM C618",
    validity: "one migration velocity, so that ash is as coarse as dust; for a day, in the money of the site",
    gives: Dimension::Number,
    evaluate: Evaluate::Whole(ash_money_per_day),
};
pub(super) const MIXED_ASH: Formula = Formula {
    name: "mixed_ash",
    title: "mix by mass",
    equation: "(m₁ x₁ + m₂ x₂)/(m₁ + m₂)",
    source: "mass balance of what burns off",
    validity: "as much is caught in both times",
    gives: Dimension::Fraction,
    evaluate: Evaluate::OnPlant(mixed_loss_on_ignition),
};

const DAY_S: f64 = 86_400.0;
const KG_PER_TONNE: f64 = 1000.0;

/// Ash that falls into one row of hoppers, kg/s.
///
/// `ṁ_i = C Q (S + (1−S)(p_c + (1−p_c)RR))^(i−1) (1−S)(1−p_c)(1−RR)`
///
/// # Arguments
/// * `asked` – conditions and the field above the row.
///
/// # Source
/// Mass balance of equal fields in a row; Deutsch 1922 between the plates.
///
/// # Validity
/// One migration velocity, full mixing, even gas, as much falling as landing: the mean over many blows.
///
/// # Errors
/// No such field, or a formula refused the conditions.
pub fn row_ash_kg_s(asked: &OnPlant<'_>) -> Result<f64, PhysicsError> {
    falling_kg_s(asked.conditions, field_of(asked)?)
}

/// Time from empty to the level alarm of a row, s.
///
/// `t = V_alarm ρ/ṁ_i`
///
/// # Arguments
/// * `asked` – conditions and the field above the row.
///
/// # Source
/// As [`row_ash_kg_s`]; volume of a cut pyramid (Euclid, *Elements* XII).
///
/// # Validity
/// As [`row_ash_kg_s`]; nothing is taken away, level ash of one density.
///
/// # Errors
/// As [`row_ash_kg_s`].
pub fn time_to_alarm_s(asked: &OnPlant<'_>) -> Result<f64, PhysicsError> {
    let conditions = asked.conditions;
    let held_kg = alarm_volume_m3(conditions) * conditions.hoppers.ash_density_kg_m3;
    Ok(held_kg / row_ash_kg_s(asked)?)
}

/// Time from empty to the brim of a row, s.
///
/// `t = V ρ/ṁ_i`
///
/// # Arguments
/// * `asked` – conditions and the field above the row.
///
/// # Source
/// As [`row_ash_kg_s`].
///
/// # Validity
/// As [`time_to_alarm_s`].
///
/// # Errors
/// As [`row_ash_kg_s`].
pub fn time_to_brim_s(asked: &OnPlant<'_>) -> Result<f64, PhysicsError> {
    let hoppers = &asked.conditions.hoppers;
    Ok(hoppers.volume_m3 * hoppers.ash_density_kg_m3 / row_ash_kg_s(asked)?)
}

/// What the ash of a day brings less what it costs, in the money of the site.
///
/// `Σ_i ṁ_i·(price, if the ash keeps both limits; else −cost)`
///
/// # Arguments
/// * `conditions` – of the collector, its ash and its prices.
///
/// # Source
/// Definition; limits of the standards, see [`AshLimits`].
///
/// # Validity
/// As [`row_ash_kg_s`]; all grains are caught alike, so that the ash is as coarse as the dust.
///
/// # Errors
/// A formula refused the conditions.
pub fn ash_money_per_day(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let mut falling = 0.0;
    for field in 0..conditions.collector.fields {
        falling += falling_kg_s(conditions, field)?;
    }
    let tonnes = falling * DAY_S / KG_PER_TONNE;
    let limits = match conditions.ash.standard {
        AshStandard::En450 => AshLimits::EN_450_1,
        AshStandard::AstmC618 => AshLimits::ASTM_C618,
    };
    let ash = &conditions.ash;
    let price = if limits.allow(ash.loss_on_ignition, coarser_share(conditions)) {
        ash.sale_price_per_tonne
    } else {
        -ash.disposal_price_per_tonne
    };
    Ok(tonnes * price)
}

/// Share of the dust that a sieve of 45 µm keeps back.
fn coarser_share(conditions: &Conditions) -> f64 {
    if let Some(diameter_m) = conditions.teaching.single_diameter_m {
        return if diameter_m > SIEVE_M { 1.0 } else { 0.0 };
    }
    match &conditions.dust.sizes {
        Sizes::LogNormal {
            mass_median_diameter_m,
            geometric_deviation,
        } => {
            let away = (SIEVE_M / mass_median_diameter_m).ln() / geometric_deviation.ln();
            1.0 - normal::cumulative(away)
        }
        Sizes::Table { finer, .. } => {
            let below = finer
                .iter()
                .filter(|(diameter_m, _)| *diameter_m <= SIEVE_M);
            1.0 - below.map(|(_, share)| *share).fold(0.0, f64::max)
        }
    }
}

/// Loss on ignition of the ash of two times, mixed by mass.
///
/// `x = (m₁x₁ + m₂x₂)/(m₁ + m₂)`, `m = C Q t`
///
/// # Arguments
/// * `asked` – both conditions and how long each lasted.
///
/// # Source
/// Mass balance of what burns off.
///
/// # Validity
/// The same share of the dust is caught in both times; none lies between plates and silo longer than the other.
///
/// # Errors
/// Never.
pub fn mixed_loss_on_ignition(asked: &OnPlant<'_>) -> Result<f64, PhysicsError> {
    let first_kg = asked.before.inlet_mass_kg_s() * asked.settle_s;
    let second_kg = asked.conditions.inlet_mass_kg_s() * asked.time_s;
    let burns_off_kg = first_kg * asked.before.ash.loss_on_ignition
        + second_kg * asked.conditions.ash.loss_on_ignition;
    Ok(burns_off_kg / (first_kg + second_kg))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::proofs;

    /// R1 of training.md: De 6.214 in four equal fields, no losses.
    fn ideal() -> Conditions {
        let mut conditions = proofs::ideal(6.214);
        conditions.teaching.migration_velocity_m_s = Some(0.0932);
        conditions.electrical.spark_field_v_m = 8e5;
        conditions.electrical.current_limit_a_m2 = 2e-3;
        conditions.electrical.rated_current_a_m2 = 2e-3;
        conditions
    }

    fn asked(conditions: &Conditions, field: usize) -> OnPlant<'_> {
        OnPlant {
            before: conditions,
            settle_s: 48.0 * 3600.0,
            conditions,
            time_s: 24.0 * 3600.0,
            field,
        }
    }

    #[test]
    fn rows_get_what_the_specification_says() {
        // training.md 3.2, L16: 2,698, 571, 121 and 25.5 kg/h.
        let conditions = ideal();
        for (field, expected) in [2698.0, 571.0, 121.0, 25.5].into_iter().enumerate() {
            let found = 3600.0 * row_ash_kg_s(&asked(&conditions, field)).expect("possible");
            assert!((found / expected - 1.0).abs() < 5e-3, "{found} {expected}");
        }
        assert!(row_ash_kg_s(&asked(&conditions, 4)).is_err(), "no such row");
    }

    #[test]
    fn brim_and_alarm_come_when_the_specification_says() {
        // training.md 3.2, L16: 30 m³ at 480 to 560 kg/m³ are full in 5.3 to 6.2 h in row 1 and in 25 to 29 h in row 2.
        let mut conditions = ideal();
        for (density, first, second) in [(480.0, 5.34, 25.2), (560.0, 6.23, 29.4)] {
            conditions.hoppers.ash_density_kg_m3 = density;
            for (field, expected) in [first, second].into_iter().enumerate() {
                let hours = time_to_brim_s(&asked(&conditions, field)).expect("possible") / 3600.0;
                assert!((hours / expected - 1.0).abs() < 5e-3, "{hours} {expected}");
            }
        }
        // By hand: (0.82³ − 0.1³)/(1 − 0.1³) = 0.5509 of the volume lies below the alarm.
        let both = [time_to_alarm_s, time_to_brim_s]
            .map(|time| time(&asked(&conditions, 0)).expect("possible"));
        assert!((both[0] / both[1] - 0.5509).abs() < 1e-4, "{both:?}");
    }

    #[test]
    fn money_changes_its_sign_where_ash_leaves_the_limit() {
        // By hand: 8 g/m³ of 118.8 m³/s are 82.11 t a day, 99.8 % of it caught: at 15 and at −25 a tonne.
        let mut conditions = ideal();
        let sold = ash_money_per_day(&conditions).expect("possible");
        assert!((sold / (82.11 * 0.998 * 15.0) - 1.0).abs() < 1e-3, "{sold}");
        conditions.ash.loss_on_ignition = 0.08;
        let disposed = ash_money_per_day(&conditions).expect("possible");
        assert!((disposed / sold + 25.0 / 15.0).abs() < 1e-12, "{disposed}");
        // Coarse ash is not sold either: all of it stays on the sieve.
        conditions.ash.loss_on_ignition = 0.01;
        conditions.teaching.single_diameter_m = Some(60e-6);
        assert!(ash_money_per_day(&conditions).expect("possible") < 0.0);
    }

    #[test]
    fn ash_mixes_by_mass() {
        // By hand: two days of 3 % and one of 9 % make 5 %.
        let (mut early, mut late) = (ideal(), ideal());
        early.ash.loss_on_ignition = 0.03;
        late.ash.loss_on_ignition = 0.09;
        let both = OnPlant {
            before: &early,
            ..asked(&late, 0)
        };
        let mixed = mixed_loss_on_ignition(&both).expect("possible");
        assert!((mixed - 0.05).abs() < 1e-12, "{mixed}");
        let mut more = late.clone();
        more.dust.load_kg_m3 *= 2.0;
        let heavier = mixed_loss_on_ignition(&OnPlant {
            conditions: &more,
            ..both
        });
        assert!((heavier.expect("possible") - 0.06).abs() < 1e-12);
    }
}
