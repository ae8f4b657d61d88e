//! Taylor & Batchelor 1949, Q. J. Mech. Appl. Math. 2:1: what a screen leaves of an uneven flow.

use ashlane_shared::physics::gas_path::perforated_plate::smoothing_factor;

use crate::printed;

#[test]
fn one_loss_evens_out_everything() {
    // From memory of the source: nothing is left at ζ ≈ 2.8; its α makes that the root of 1.21ζ² − 3.42ζ + 0.21 = 0.
    let root = (3.42 + (3.42_f64 * 3.42 - 4.0 * 1.21 * 0.21).sqrt()) / 2.42;
    printed("loss that evens out", root, 2.8, 0.0, 0.1);
    let left = smoothing_factor(root).expect("a screen");
    assert!(left.abs() < 1e-12, "{left} is left at ζ = {root}");
}

#[test]
fn light_and_dense_screens() {
    // Computed with Python from the formula: ζ = 1 → α = 1.1/√2; ζ = 8.2317 → α = 1.1/√9.2317.
    for (loss, expected) in [(1.0, 0.359_995), (3.9994, -0.086_608), (8.2317, -0.168_666)] {
        let left = smoothing_factor(loss).expect("a screen");
        printed("left behind a screen", left, expected, 0.0, 2e-6);
    }
    // A screen without holes to speak of turns −α of it round, and α dies out: nothing is left either.
    assert!(smoothing_factor(1e9).expect("a screen").abs() < 1e-4);
}
