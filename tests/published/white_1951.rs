//! White 1951, Trans. AIEE 70:1186: charging by diffusion, as printed in Tan 2014.

use ashlane_shared::conditions::Charging;

use crate::standard_case::check_numbers;

#[test]
fn charge_after_one_second() {
    // Computed: case X, the formula printed in Tan 2014, *Air Pollution and Greenhouse Gases*.
    check_numbers(
        Charging::White,
        &[
            (0.1, 5.754, 1e-3),
            (0.5, 38.905, 1e-3),
            (1.0, 86.573, 1e-3),
            (5.0, 534.70, 1e-2),
            (10.0, 1157.2, 0.1),
        ],
    );
}
