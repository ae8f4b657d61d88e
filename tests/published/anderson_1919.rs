//! Anderson 1919 and Deutsch 1922 (Ann. Phys. 373:335): the exponential law, and what mixing along the gas does to it.

use ashlane_shared::physics::efficiency::limits::{
    LongPassage, deutsch, deutsch_number, laminar, longitudinal_mixing,
};

use crate::{close, printed};

#[test]
fn efficiency_by_definition() {
    // Computed: 1 − e^(−0.05·5000/50).
    let number = deutsch_number(0.05, 5000.0 / 50.0);
    printed("value W4", 1.0 - deutsch(number), 0.993262, 0.0, 1e-6);
}

#[test]
fn rows_of_the_limits() {
    // Computed: e^(−De) and max(0, 1−De), the first and last row of table T1.
    for (number, perfect, none) in [
        (0.5, 0.6065307, 0.5),
        (1.0, 0.3678794, 0.0),
        (2.0, 0.1353353, 0.0),
        (4.0, 0.0183156, 0.0),
    ] {
        printed("value T1, Deutsch", deutsch(number), perfect, 0.0, 1e-7);
        close("value T1, laminar", laminar(number), none, 0.0);
    }
}

#[test]
fn mixing_along_the_gas() {
    // Computed: decaying solution of dispersed plug flow.
    let passage = LongPassage {
        velocity_m_s: 1.0,
        length_m: 8.0,
        gap_m: 0.15,
    };
    close(
        "value E2",
        longitudinal_mixing(&passage, 0.08, 0.1),
        1.723929e-2,
        1e-6,
    );
}
