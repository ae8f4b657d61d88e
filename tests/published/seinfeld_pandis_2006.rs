//! Seinfeld & Pandis 2006, *Atmospheric Chemistry and Physics*, Table 9.3: slip correction at 298 K.

use ashlane_shared::physics::gas::slip_factor;

use crate::close;

#[test]
fn slip_table() {
    // From memory of Table 9.3, with its free path of 65.1 nm; three digits, hence 0.5 %.
    let table = [
        (0.01, 22.2),
        (0.05, 4.95),
        (0.1, 2.85),
        (0.2, 1.865),
        (0.5, 1.326),
        (1.0, 1.164),
        (2.0, 1.082),
        (10.0, 1.016),
    ];
    for (diameter_um, expected) in table {
        close(
            "value G5",
            slip_factor(diameter_um * 1e-6, 65.1e-9),
            expected,
            5e-3,
        );
    }
}
