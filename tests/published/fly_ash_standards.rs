//! What standards ask of fly ash for concrete: ASTM C618 and EN 450-1, from memory of both.

use ashlane_shared::physics::fly_ash::{AshLimits, SIEVE_M, retained_share};

use crate::{close, printed};

#[test]
fn the_limits_are_those_of_the_standards() {
    // From memory of ASTM C618, classes F and C: loss on ignition at most 6 %, at most 34 % on the 45 µm sieve (No. 325).
    // From memory of EN 450-1: category A at most 5 %, category N at most 40 % on the 0.045 mm sieve.
    for (limits, loss_percent, retained_percent) in [
        (AshLimits::ASTM_C618, 6.0, 34.0),
        (AshLimits::EN_450_1, 5.0, 40.0),
    ] {
        let (loss, retained) = (loss_percent / 100.0, retained_percent / 100.0);
        assert!(
            limits.allow(loss, retained),
            "{} on its limits",
            limits.name
        );
        assert!(!limits.allow(loss + 1e-6, retained), "{}", limits.name);
        assert!(!limits.allow(loss, retained + 1e-6), "{}", limits.name);
    }
    close("No. 325 sieve", SIEVE_M, 45e-6, 1e-12);
}

#[test]
fn a_sieve_keeps_the_tail_of_a_log_normal_dust() {
    // Standard normal distribution from any table (Abramowitz & Stegun, table 26.1), at 0, 0.5 … 3.
    let upper = [
        0.5, 0.691_46, 0.841_34, 0.933_19, 0.977_25, 0.993_79, 0.998_65,
    ];
    let below: Vec<f64> = upper[1..]
        .iter()
        .rev()
        .map(|share| 1.0 - share)
        .chain(upper)
        .collect();
    let masses_kg: Vec<f64> = below.windows(2).map(|pair| pair[1] - pair[0]).collect();
    // Median 15 µm, geometric deviation 3: 45 µm is one deviation above it, so 15.866 % are coarser.
    let middles_m: Vec<f64> = (0..masses_kg.len())
        .map(|class| 15e-6 * 3.0_f64.powf(-2.75 + 0.5 * class as f64))
        .collect();
    let kept = retained_share(&middles_m, &masses_kg, SIEVE_M).expect("a share");
    // The classes end at ± 3 deviations, which leaves 0.13 % out at either end.
    printed("on the sieve", kept, 0.158_66, 0.0, 2.0e-3);
}
