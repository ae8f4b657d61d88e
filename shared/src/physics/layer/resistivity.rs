//! How badly the layer of dust conducts: from what the ash is made of, the temperature, the moisture and the acid.
//!
//! `1/ρ = 1/ρ_v + 1/ρ_s (+ 1/ρ_a with SO₃)`: through the grains, along their moist surface, through the acid on it

use crate::physics::PhysicsError;
use crate::physics::error::{not_negative, positive, require, share};

/// Least resistivity that the formula is trusted with, Ω·m (1e7 Ω·cm); common practice, no source.
pub const LEAST_RESISTIVITY_OHM_M: f64 = 1.0e5;
/// Coldest layer of the formula, K. Source: from memory of Bickelhaupt 1979.
pub const COLDEST_K: f64 = 340.0;
/// Hottest layer of the formula, K. Source: from memory of Bickelhaupt 1979.
pub const HOTTEST_K: f64 = 700.0;

/// The formula gives Ω·cm.
const OHM_M_PER_OHM_CM: f64 = 0.01;
/// The formula takes kV/cm.
const V_M_PER_KV_CM: f64 = 1.0e5;
/// The formula takes per cent by volume.
const PERCENT: f64 = 100.0;
/// Fall of the logarithm of every resistivity per kV/cm. Source: from memory of Bickelhaupt 1979.
const FIELD_SLOPE: f64 = 0.069_078;
/// An ash with more magnesium and calcium (atomic per cent) than this takes up acid one way. Source: as above.
const MUCH_MAGNESIUM_CALCIUM_PERCENT: f64 = 3.5;
/// An ash with less potassium (atomic per cent) than this takes up acid the same way. Source: as above.
const LITTLE_POTASSIUM_PERCENT: f64 = 1.0;

/// Atomic shares of the ash that decide its resistivity, in per cent of all its atoms.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AshComposition {
    /// X, lithium plus sodium, atomic per cent, above 0.
    pub lithium_sodium_percent: f64,
    /// Y, iron, atomic per cent, above 0.
    pub iron_percent: f64,
    /// Z, magnesium plus calcium, atomic per cent, above 0.
    pub magnesium_calcium_percent: f64,
    /// Potassium, atomic per cent, 0 or more.
    pub potassium_percent: f64,
}

/// What the layer is exposed to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LayerSurroundings {
    /// T of the layer, K, 340 to 700.
    pub temperature_k: f64,
    /// Water vapour of the gas, fraction by volume, 0 to below 1.
    pub moisture: f64,
    /// Sulphur trioxide of the gas, ppm by volume, 0 or more.
    pub sulphur_trioxide_ppm: f64,
    /// Electric field in the layer, V/m, 0 or more.
    pub field_v_m: f64,
}

/// The surroundings in the units of the report.
struct Report {
    temperature_k: f64,
    moisture_percent: f64,
    acid_ppm: f64,
    /// What the field takes off the logarithm of every resistivity.
    field_term: f64,
}

/// Resistivity of the layer of ash, Ω·m, at least [`LEAST_RESISTIVITY_OHM_M`].
///
/// `1/ρ = 1/ρ_v + 1/ρ_s`, and `+ 1/ρ_a` when there is SO₃; the three with their coefficients below in Ω·cm:
/// `ρ_v = exp(−1.8916 ln X − 0.9696 ln Y + 1.237 ln Z + 3.62876 − 0.069078 E + 9980.58/T)`,
/// `ρ_s = exp(27.59774 − 2.233348 ln X − 0.00176 W − 0.069078 E − 0.00073895 W e^(2303.3/T))`,
/// `ρ_a = exp(59.0677 − 0.854721 C − 13049.47/T − 0.069078 E)` for Z > 3.5 % or K < 1 %,
/// else `exp(85.1405 − 0.708046 C − 23267.2/T − 0.069078 E)`
///
/// # Arguments
/// * `ash` – X, Y, Z and K, atomic per cent, X, Y and Z above 0.
/// * `surroundings` – T, W (the formula takes per cent), C (ppm) and E (kV/cm), given here in K, a fraction, ppm and V/m.
///
/// # Source
/// Bickelhaupt 1979, US EPA-600/7-79-204, form and coefficients from memory of it.
///
/// # Validity
/// Fly ash of coal at 340–700 K; a measured layer differs by a factor of 3 to 10 (common practice, no source). The part
/// of the acid is known least, and it jumps at Z = 3.5 % and K = 1 %. Below 1e7 Ω·cm the answer is 1e7 Ω·cm.
///
/// # Errors
/// A number outside its range, a temperature outside 340–700 K.
///
/// ```
/// use ashlane_shared::physics::layer::resistivity::{
///     AshComposition, LayerSurroundings, ash_resistivity_ohm_m,
/// };
/// let ash = AshComposition {
///     lithium_sodium_percent: 0.42,
///     iron_percent: 1.0,
///     magnesium_calcium_percent: 1.5,
///     potassium_percent: 0.5,
/// };
/// let surroundings = LayerSurroundings {
///     temperature_k: 423.0,
///     moisture: 0.09,
///     sulphur_trioxide_ppm: 0.0,
///     field_v_m: 1e6,
/// };
/// let resistivity = ash_resistivity_ohm_m(&ash, &surroundings)?;
/// assert!((resistivity / 5.678e9 - 1.0).abs() < 1e-3);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn ash_resistivity_ohm_m(
    ash: &AshComposition,
    surroundings: &LayerSurroundings,
) -> Result<f64, PhysicsError> {
    positive("lithium_sodium_percent", ash.lithium_sodium_percent)?;
    positive("iron_percent", ash.iron_percent)?;
    positive("magnesium_calcium_percent", ash.magnesium_calcium_percent)?;
    not_negative("potassium_percent", ash.potassium_percent)?;
    let report = in_units_of_the_report(surroundings)?;
    let mut conductivity = 1.0 / volume_ohm_cm(ash, &report) + 1.0 / surface_ohm_cm(ash, &report);
    if report.acid_ppm > 0.0 {
        conductivity += 1.0 / acid_ohm_cm(ash, &report);
    }
    Ok((OHM_M_PER_OHM_CM / conductivity).max(LEAST_RESISTIVITY_OHM_M))
}

fn in_units_of_the_report(surroundings: &LayerSurroundings) -> Result<Report, PhysicsError> {
    let temperature_k = surroundings.temperature_k;
    require(
        (COLDEST_K..=HOTTEST_K).contains(&temperature_k),
        "temperature_k",
        temperature_k,
        "340 to 700 K",
    )?;
    Ok(Report {
        temperature_k,
        moisture_percent: share("moisture", surroundings.moisture)? * PERCENT,
        acid_ppm: not_negative("sulphur_trioxide_ppm", surroundings.sulphur_trioxide_ppm)?,
        field_term: FIELD_SLOPE * not_negative("field_v_m", surroundings.field_v_m)?
            / V_M_PER_KV_CM,
    })
}

/// Through the grains: falls when it gets hotter.
fn volume_ohm_cm(ash: &AshComposition, report: &Report) -> f64 {
    let composition = -1.8916 * ash.lithium_sodium_percent.ln() - 0.9696 * ash.iron_percent.ln()
        + 1.237 * ash.magnesium_calcium_percent.ln();
    (composition + 3.62876 - report.field_term + 9980.58 / report.temperature_k).exp()
}

/// Along the surface of the grains: falls when it gets colder and damper.
fn surface_ohm_cm(ash: &AshComposition, report: &Report) -> f64 {
    let damp =
        report.moisture_percent * (0.00176 + 0.000_738_95 * (2303.3 / report.temperature_k).exp());
    (27.59774 - 2.233_348 * ash.lithium_sodium_percent.ln() - report.field_term - damp).exp()
}

/// Through the acid on the grains: falls when it gets colder and with more acid.
fn acid_ohm_cm(ash: &AshComposition, report: &Report) -> f64 {
    let takes_up_well = ash.magnesium_calcium_percent > MUCH_MAGNESIUM_CALCIUM_PERCENT
        || ash.potassium_percent < LITTLE_POTASSIUM_PERCENT;
    let (start, acid_slope, temperature_slope_k) = if takes_up_well {
        (59.0677, 0.854_721, 13_049.47)
    } else {
        (85.1405, 0.708_046, 23_267.2)
    };
    let acid = acid_slope * report.acid_ppm;
    (start - acid - temperature_slope_k / report.temperature_k - report.field_term).exp()
}

#[cfg(test)]
mod tests {
    use super::*;

    const ASH: AshComposition = AshComposition {
        lithium_sodium_percent: 0.42,
        iron_percent: 1.0,
        magnesium_calcium_percent: 1.5,
        potassium_percent: 2.0,
    };
    const WARM: LayerSurroundings = LayerSurroundings {
        temperature_k: 423.0,
        moisture: 0.09,
        sulphur_trioxide_ppm: 0.0,
        field_v_m: 1e6,
    };

    fn resistivity(ash: &AshComposition, surroundings: &LayerSurroundings) -> f64 {
        ash_resistivity_ohm_m(ash, surroundings).expect("in range")
    }

    #[test]
    fn sodium_iron_moisture_acid_and_field_lower_it_and_lime_raises_it() {
        let start = resistivity(&ASH, &WARM);
        for (what, ash, surroundings) in [
            (
                "sodium",
                AshComposition {
                    lithium_sodium_percent: 0.8,
                    ..ASH
                },
                WARM,
            ),
            (
                "iron",
                AshComposition {
                    iron_percent: 2.0,
                    ..ASH
                },
                WARM,
            ),
            (
                "moisture",
                ASH,
                LayerSurroundings {
                    moisture: 0.12,
                    ..WARM
                },
            ),
            (
                "acid",
                ASH,
                LayerSurroundings {
                    sulphur_trioxide_ppm: 8.0,
                    ..WARM
                },
            ),
            (
                "field",
                ASH,
                LayerSurroundings {
                    field_v_m: 1.5e6,
                    ..WARM
                },
            ),
        ] {
            let lower = resistivity(&ash, &surroundings);
            assert!(lower < start, "{what}: {lower} and {start} Ω·m");
        }
        let lime = AshComposition {
            magnesium_calcium_percent: 3.0,
            ..ASH
        };
        assert!(resistivity(&lime, &WARM) > start, "lime");
    }

    #[test]
    fn a_decade_of_field_term_is_a_decade_of_resistivity() {
        // By hand: 0.069078 is ln(10)/33.33, so 33.33 kV/cm more take one decade off.
        let strong = LayerSurroundings {
            field_v_m: WARM.field_v_m + 10.0_f64.ln() / 0.069_078 * 1e5,
            ..WARM
        };
        let ratio = resistivity(&ASH, &WARM) / resistivity(&ASH, &strong);
        assert!((ratio - 10.0).abs() < 1e-9, "{ratio}");
    }

    #[test]
    fn acid_joins_by_the_ash_and_the_sum_stays_above_its_least() {
        // By hand, 10 ppm at 423 K: parts of the acid 1.749e8 and 5.159e9 Ω·cm, far below the 5.678e11 of the rest.
        let sour = LayerSurroundings {
            sulphur_trioxide_ppm: 10.0,
            ..WARM
        };
        let little_potassium = AshComposition {
            potassium_percent: 0.5,
            ..ASH
        };
        for (ash, acid_ohm_cm) in [(little_potassium, 1.749e8_f64), (ASH, 5.159e9)] {
            let expected = 0.01 / (1.0 / acid_ohm_cm + 1.0 / 5.678e11);
            let got = resistivity(&ash, &sour);
            assert!((got / expected - 1.0).abs() < 1e-3, "{got} and {expected}");
        }
        let much = LayerSurroundings {
            sulphur_trioxide_ppm: 40.0,
            ..WARM
        };
        let least = resistivity(&little_potassium, &much);
        assert!((least / 1e5 - 1.0).abs() < 1e-15, "{least} Ω·m");
    }

    #[test]
    fn what_the_formula_does_not_know_is_refused_by_name() {
        let refused = |ash: AshComposition, surroundings: LayerSurroundings| {
            ash_resistivity_ohm_m(&ash, &surroundings)
                .expect_err("out of range")
                .to_string()
        };
        for temperature_k in [339.0, 701.0, f64::NAN] {
            let cold_or_hot = LayerSurroundings {
                temperature_k,
                ..WARM
            };
            let message = refused(ASH, cold_or_hot);
            assert!(message.contains("340 to 700 K"), "{message}");
        }
        let no_sodium = AshComposition {
            lithium_sodium_percent: 0.0,
            ..ASH
        };
        let message = refused(no_sodium, WARM);
        assert!(message.contains("lithium_sodium_percent"), "{message}");
    }
}
