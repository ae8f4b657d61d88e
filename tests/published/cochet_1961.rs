//! Cochet 1961, Colloques Int. CNRS 102:331: one charging formula for all sizes.

use ashlane_shared::conditions::Charging;

use crate::close;
use crate::standard_case::{check_drifts, check_numbers, slowest_m};

#[test]
fn charge_and_drift_after_one_second() {
    // Computed: case X.
    check_numbers(
        Charging::Cochet,
        &[
            (0.1, 5.001, 1e-3),
            (0.5, 35.444, 1e-3),
            (1.0, 121.110, 1e-3),
            (5.0, 2744.57, 1e-2),
            (10.0, 10_874.2, 0.1),
        ],
    );
    check_drifts(
        Charging::Cochet,
        &[
            (0.1, 0.04414),
            (0.5, 0.02332),
            (1.0, 0.03273),
            (5.0, 0.12357),
            (10.0, 0.23867),
        ],
    );
}

#[test]
fn slowest_grain() {
    // Computed: minimum of w(d) in case X, three digits.
    close(
        "value M1, Cochet",
        slowest_m(Charging::Cochet),
        0.343e-6,
        5e-3,
    );
}
