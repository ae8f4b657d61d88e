//! Leonard, Mitchner & Self 1980, Atmos. Environ. 14:1289: penetration with finite mixing across the gap.

use ashlane_shared::conditions::Profile;
use ashlane_shared::physics::efficiency::march::{self, Passage, Resolution};
use ashlane_shared::physics::efficiency::penetration;

use crate::{close, printed};

/// (De, P, last printed digit).
type Cell = (f64, f64, f64);

/// Table T1 as (Pe, cells). Computed four ways, among them the series and the inversion.
const TABLE: [(f64, [Cell; 4]); 6] = [
    (
        0.0,
        [
            (0.5, 0.6065307, 1e-7),
            (1.0, 0.3678794, 1e-7),
            (2.0, 0.1353353, 1e-7),
            (4.0, 0.0183156, 1e-7),
        ],
    ),
    (
        0.1,
        [
            (0.5, 0.6015973, 1e-7),
            (1.0, 0.3618491, 1e-7),
            (2.0, 0.1309094, 1e-7),
            (4.0, 0.0171339, 1e-7),
        ],
    ),
    (
        1.0,
        [
            (0.5, 0.5671311, 1e-7),
            (1.0, 0.3156702, 1e-7),
            (2.0, 0.0977815, 1e-7),
            (4.0, 9.382163e-3, 1e-9),
        ],
    ),
    (
        10.0,
        [
            (0.5, 0.5050411, 1e-7),
            (1.0, 0.1626456, 1e-7),
            (2.0, 9.636164e-3, 1e-9),
            (4.0, 2.371721e-5, 1e-11),
        ],
    ),
    // The last cell of this row is not printed; the dash means "too small".
    (
        100.0,
        [
            (0.5, 0.5, 1e-7),
            (1.0, 0.0558618, 1e-7),
            (2.0, 8.204529e-9, 1e-15),
            (4.0, 0.0, 1e-20),
        ],
    ),
    (
        f64::INFINITY,
        [
            (0.5, 0.5, 0.0),
            (1.0, 0.0, 0.0),
            (2.0, 0.0, 0.0),
            (4.0, 0.0, 0.0),
        ],
    ),
];

#[test]
fn exact_solution() {
    for (peclet, cells) in TABLE {
        for (deutsch, expected, last_digit) in cells {
            let got = penetration(peclet, deutsch).expect("arguments in range");
            printed(
                &format!("value T1, Pe = {peclet}, De = {deutsch}"),
                got,
                expected,
                1e-9,
                last_digit,
            );
        }
    }
}

#[test]
fn march_of_the_same_equation() {
    // The specification's tolerance: 1e-3, relative where P > 1e-6, absolute below; Pe from 0.1 to 100.
    for (peclet, cells) in TABLE
        .iter()
        .filter(|(peclet, _)| (0.1..=100.0).contains(peclet))
    {
        for (deutsch, expected, _) in cells {
            let passage = Passage {
                gap_m: 0.15,
                length_m: deutsch * 0.15 / 0.1,
                velocity_m_s: 1.0,
                diffusivity_m2_s: 0.1 * 0.15 / peclet,
                profile: Profile::Flat,
            };
            let got = march::penetration(&passage, Resolution::USUAL, |_, _| 0.1)
                .expect("a passage in range");
            let absolute = if *expected > 1e-6 { 0.0 } else { 2e-3 };
            printed(
                &format!("value T1, marched, Pe = {peclet}, De = {deutsch}"),
                got,
                *expected,
                1e-3,
                absolute,
            );
        }
    }
}

#[test]
fn first_dust_is_lost_undiluted() {
    // Exact: dP/dDe = −1 at De = 0.
    for peclet in [0.1, 1.0, 10.0, 100.0] {
        let lost = 1.0 - penetration(peclet, 1e-6).expect("arguments in range");
        close("slope at the inlet", lost / 1e-6, 1.0, 1e-4);
    }
}
