//! Back corona: the layer of dust breaks down, holds its field there and sends ions of the wrong sign into the gas.
//!
//! `j_max = E_b/ρ`, `E_l = min(jρ, E_b)`, `j_b = κ(jρ−E_b)₊/ρ`, charge of the grains times `(1 − j_b/j)₊`

use super::drop::ohmic_field_v_m;

/// Field at which the layer breaks down in lessons, V/m: invented within the 10–20 kV/cm that White 1974 and Hall 1971
/// give (from memory of them).
pub const TEACHING_BREAKDOWN_FIELD_V_M: f64 = 1.0e6;

/// Counter current per current above onset in lessons, κ: invented. From a half on the voltage falls while the current
/// jumps, as curves with back corona show; at one half it stands still.
pub const TEACHING_COUNTER_RATIO: f64 = 0.6;

/// Least voltage at which gas breaks down, in the pores of a layer as elsewhere, V. Source: minimum of Paschen's curve for
/// air, from memory of Raizer, *Gas Discharge Physics*, 1991.
pub const LEAST_BREAKDOWN_V: f64 = 327.0;

/// Mean field of the gap in which a positive streamer crosses it, in air at 25 °C and 1 atm, V/m. Source: from memory of
/// Raizer, *Gas Discharge Physics*, 1991 (4.5 to 5 kV/cm).
const STREAMER_FIELD_V_M: f64 = 5.0e5;

/// Field at which a layer of this thickness breaks down, V/m.
///
/// `E = max(E_b, U_min/h)`
///
/// # Arguments
/// * `breakdown_field_v_m` – `E_b` of a thick layer, V/m, above 0 (10–20 kV/cm, that is 1e6–2e6 V/m).
/// * `thickness_m` – h, m, 0 or more; no layer never breaks down.
///
/// # Source
/// No gas breaks down below the minimum of Paschen's curve, [`LEAST_BREAKDOWN_V`].
///
/// # Validity
/// An even layer; a third of a millimetre has the whole of `E_b`.
#[must_use]
pub fn breakdown_field_of_layer_v_m(breakdown_field_v_m: f64, thickness_m: f64) -> f64 {
    breakdown_field_v_m.max(LEAST_BREAKDOWN_V / thickness_m)
}

/// Mean field of the gap from which on a breakdown of the layer grows into a spark, V/m; below it glows: back corona.
///
/// `E = 5e5·δ`
///
/// # Arguments
/// * `relative_density` – δ of the gas, see [`relative_density`](crate::physics::gas::relative_density), above 0.
///
/// # Source
/// Field in which positive streamers keep going, from memory of Raizer, *Gas Discharge Physics*, 1991.
///
/// # Validity
/// Air and flue gas; moisture and oxygen raise it a little.
#[must_use]
pub fn streamer_field_v_m(relative_density: f64) -> f64 {
    STREAMER_FIELD_V_M * relative_density
}

/// Largest current density that a layer carries without back corona, A/m².
///
/// `j_max = E_b/ρ`
///
/// # Arguments
/// * `breakdown_field_v_m` – `E_b` of the layer, V/m, above 0 (10–20 kV/cm, that is 1e6–2e6 V/m).
/// * `resistivity_ohm_m` – ρ of the layer, Ω·m, above 0; 0 gives no limit.
///
/// # Source
/// Ohm's law with the breakdown field of White 1974 and Hall 1971, from memory of them.
///
/// # Validity
/// An even layer; it breaks down earlier in thin spots and under tufts of current.
///
/// ```
/// use ashlane_shared::physics::layer::back_corona::onset_current_density_a_m2;
/// // 10 kV/cm in 1e11 Ω·cm: 100 nA/cm².
/// assert!((onset_current_density_a_m2(1e6, 1e9) - 100e-5).abs() < 1e-15);
/// ```
#[must_use]
pub fn onset_current_density_a_m2(breakdown_field_v_m: f64, resistivity_ohm_m: f64) -> f64 {
    breakdown_field_v_m / resistivity_ohm_m
}

/// Electric field in the layer, V/m: Ohm's law up to breakdown, then it stays.
///
/// `E_l = min(jρ, E_b)`
///
/// # Arguments
/// * `current_density_a_m2` – j through the layer, A/m², 0 or more.
/// * `resistivity_ohm_m` – ρ of the layer, Ω·m, 0 or more.
/// * `breakdown_field_v_m` – `E_b` of the layer, V/m, above 0.
///
/// # Source
/// Ohm's law; that the field stays at breakdown is common practice, no source.
///
/// # Validity
/// Steady current, an even layer.
#[must_use]
pub fn held_field_v_m(
    current_density_a_m2: f64,
    resistivity_ohm_m: f64,
    breakdown_field_v_m: f64,
) -> f64 {
    ohmic_field_v_m(current_density_a_m2, resistivity_ohm_m).min(breakdown_field_v_m)
}

/// Voltage across the layer, V: it grows with the current up to breakdown, then it stays.
///
/// `ΔV = min(jρ, E_b)·h`
///
/// # Arguments
/// * `current_density_a_m2` – j through the layer, A/m², 0 or more.
/// * `resistivity_ohm_m` – ρ of the layer, Ω·m, 0 or more.
/// * `breakdown_field_v_m` – `E_b` of the layer, V/m, above 0.
/// * `thickness_m` – h of the layer, m, 0 or more.
///
/// # Source
/// As [`held_field_v_m`].
///
/// # Validity
/// As [`held_field_v_m`].
#[must_use]
pub fn held_drop_v(
    current_density_a_m2: f64,
    resistivity_ohm_m: f64,
    breakdown_field_v_m: f64,
    thickness_m: f64,
) -> f64 {
    held_field_v_m(current_density_a_m2, resistivity_ohm_m, breakdown_field_v_m) * thickness_m
}

/// Current density of the ions that a broken-down layer sends back into the gas, A/m².
///
/// `j_b = κ(jρ−E_b)₊/ρ = κ(j−j_max)₊`
///
/// # Arguments
/// * `current_density_a_m2` – j through the layer, A/m², 0 or more.
/// * `resistivity_ohm_m` – ρ of the layer, Ω·m, 0 or more.
/// * `breakdown_field_v_m` – `E_b` of the layer, V/m, above 0.
/// * `counter_ratio` – κ, counter current per current above onset, 0 or more.
///
/// # Source
/// Common practice, no source; κ is a teaching value.
///
/// # Validity
/// Shows the sign and the trend; the size is not predicted.
#[must_use]
pub fn counter_current_density_a_m2(
    current_density_a_m2: f64,
    resistivity_ohm_m: f64,
    breakdown_field_v_m: f64,
    counter_ratio: f64,
) -> f64 {
    let onset = onset_current_density_a_m2(breakdown_field_v_m, resistivity_ohm_m);
    counter_ratio * (current_density_a_m2 - onset).max(0.0)
}

/// Current density whose charge is left in the gas, A/m²: negative ions less the positive ones that come back.
///
/// `j_n = (j − 2 j_b)₊`: of the current j through the layer, `j_b` are ions that leave it and j − `j_b` ions that arrive.
///
/// # Arguments
/// As [`counter_current_density_a_m2`].
///
/// # Source
/// Balance of the two currents; ions of both signs are taken as equally mobile.
///
/// # Validity
/// As [`counter_current_density_a_m2`].
#[must_use]
pub fn net_current_density_a_m2(
    current_density_a_m2: f64,
    resistivity_ohm_m: f64,
    breakdown_field_v_m: f64,
    counter_ratio: f64,
) -> f64 {
    let counter = counter_current_density_a_m2(
        current_density_a_m2,
        resistivity_ohm_m,
        breakdown_field_v_m,
        counter_ratio,
    );
    (current_density_a_m2 - 2.0 * counter).max(0.0)
}

/// Share of their charge that the grains keep under back corona, 0 to 1.
///
/// `(1 − j_b/j)₊`, 1 below onset
///
/// # Arguments
/// As [`counter_current_density_a_m2`].
///
/// # Source
/// As [`counter_current_density_a_m2`].
///
/// # Validity
/// As [`counter_current_density_a_m2`].
#[must_use]
pub fn charge_factor(
    current_density_a_m2: f64,
    resistivity_ohm_m: f64,
    breakdown_field_v_m: f64,
    counter_ratio: f64,
) -> f64 {
    let counter = counter_current_density_a_m2(
        current_density_a_m2,
        resistivity_ohm_m,
        breakdown_field_v_m,
        counter_ratio,
    );
    // Without current there is no counter current either.
    if counter > 0.0 {
        (1.0 - counter / current_density_a_m2).max(0.0)
    } else {
        1.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 10 kV/cm in 1e12 Ω·cm: onset at 10 nA/cm².
    const FIELD_V_M: f64 = 1e6;
    const RESISTIVITY_OHM_M: f64 = 1e10;

    fn factor(density_a_m2: f64, counter_ratio: f64) -> f64 {
        charge_factor(density_a_m2, RESISTIVITY_OHM_M, FIELD_V_M, counter_ratio)
    }

    #[test]
    fn below_onset_nothing_comes_back() {
        for density_a_m2 in [0.0, 5e-5, 10e-5] {
            let counter =
                counter_current_density_a_m2(density_a_m2, RESISTIVITY_OHM_M, FIELD_V_M, 1.0);
            assert!(counter.abs() < 1e-18, "{counter}");
            assert!((factor(density_a_m2, 1.0) - 1.0).abs() < 1e-12);
        }
        assert!(
            (charge_factor(1e-3, 0.0, FIELD_V_M, 1.0) - 1.0).abs() < 1e-15,
            "a layer without resistance never breaks down"
        );
    }

    #[test]
    fn past_onset_field_and_drop_stay_and_the_charge_falls() {
        // By hand, at three times the onset: j_b = κ·20 nA/cm² of 30, so 1 − 2κ/3 of the charge is left.
        let density_a_m2 = 30e-5;
        let field = held_field_v_m(density_a_m2, RESISTIVITY_OHM_M, FIELD_V_M);
        assert!((field / FIELD_V_M - 1.0).abs() < 1e-15, "{field}");
        let drop_v = held_drop_v(density_a_m2, RESISTIVITY_OHM_M, FIELD_V_M, 5e-3);
        assert!((drop_v / 5e3 - 1.0).abs() < 1e-14, "{drop_v}");
        for (counter_ratio, expected) in [(0.0, 1.0), (0.5, 2.0 / 3.0), (1.0, 1.0 / 3.0)] {
            let left = factor(density_a_m2, counter_ratio);
            assert!((left - expected).abs() < 1e-12, "κ {counter_ratio}: {left}");
        }
        assert!(factor(density_a_m2, 2.0).abs() < 1e-15, "never below 0");
    }

    #[test]
    fn past_onset_the_charge_left_in_the_gas_falls_from_half_of_it_coming_back_on() {
        // By hand, at three times the onset of 10 nA/cm²: j_b = κ·20, so 30 − 40κ are left.
        let net = |density_a_m2: f64, counter_ratio: f64| {
            net_current_density_a_m2(density_a_m2, RESISTIVITY_OHM_M, FIELD_V_M, counter_ratio)
        };
        for (counter_ratio, expected) in [(0.0, 30e-5), (0.5, 10e-5), (0.6, 6e-5), (0.9, 0.0)] {
            let left = net(30e-5, counter_ratio);
            assert!((left - expected).abs() < 1e-15, "κ {counter_ratio}: {left}");
        }
        assert!((net(8e-5, 0.6) - 8e-5).abs() < 1e-18, "below onset all");
    }

    #[test]
    fn a_thin_layer_needs_more_field_and_none_never_breaks_down() {
        // By hand: 327 V over 0.1 mm are 32.7 kV/cm.
        let field = breakdown_field_of_layer_v_m(FIELD_V_M, 1e-4);
        assert!((field / 3.27e6 - 1.0).abs() < 1e-12, "{field}");
        assert!((breakdown_field_of_layer_v_m(FIELD_V_M, 5e-3) - FIELD_V_M).abs() < 1e-9);
        assert!(breakdown_field_of_layer_v_m(FIELD_V_M, 0.0).is_infinite());
    }

    #[test]
    fn the_counter_current_is_what_the_held_field_leaves_over() {
        // Independent of j_max: what Ohm's law would need beyond the field that stays, over the resistivity.
        let density_a_m2 = 47e-5;
        let left_over = (ohmic_field_v_m(density_a_m2, RESISTIVITY_OHM_M)
            - held_field_v_m(density_a_m2, RESISTIVITY_OHM_M, FIELD_V_M))
            / RESISTIVITY_OHM_M;
        let counter = counter_current_density_a_m2(density_a_m2, RESISTIVITY_OHM_M, FIELD_V_M, 1.0);
        assert!((counter / left_over - 1.0).abs() < 1e-12, "{counter}");
    }
}
