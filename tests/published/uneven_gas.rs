//! Uneven gas velocity over the face: what a bell-shaped spread costs.

use ashlane_shared::physics::efficiency::limits::deutsch;
use ashlane_shared::physics::efficiency::velocity_spread::deutsch_penetration;

use crate::close;

#[test]
fn penetration_grows_with_spread() {
    // Computed by quadrature: ∫v e^(−De/v) g dv/∫v g dv over e^(−De), Gaussian g; RMS 10, 15, 20, 25 %.
    let table = [
        (3.0, [1.0447, 1.0995, 1.1744, 1.2676]),
        (100.0_f64.ln(), [1.1051, 1.2341, 1.4108, 1.6325]),
    ];
    for (number, factors) in table {
        for (spread, expected) in [0.10, 0.15, 0.20, 0.25].into_iter().zip(factors) {
            let escaped = deutsch_penetration(number, spread).expect("in range");
            close(
                &format!("value N2, De = {number}, RMS {spread}"),
                escaped / deutsch(number),
                expected,
                5e-3,
            );
        }
    }
}
