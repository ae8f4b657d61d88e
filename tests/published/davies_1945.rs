//! Davies 1945, Proc. Phys. Soc. 57:259: how fine grains slip through the gas.

use ashlane_shared::physics::gas::{mean_free_path_m, slip_factor};

use crate::close;

#[test]
fn slip_in_cold_air() {
    // Computed from the source's formula at a free path of 66.0 nm; equal to the particula library to 1e-9.
    for (diameter_um, expected) in [
        (0.01, 22.4502),
        (0.1, 2.88871),
        (0.5, 1.33349),
        (1.0, 1.16594),
        (10.0, 1.01659),
    ] {
        close(
            "value G4",
            slip_factor(diameter_um * 1e-6, 66.0e-9),
            expected,
            1e-5,
        );
    }
}

#[test]
fn slip_in_hot_gas() {
    // Computed from the source's formula at 423.15 K with the free path of ISO 15900 (104.693 nm).
    let path_m = mean_free_path_m(423.15, 101_325.0);
    for (diameter_um, expected) in [
        (0.1, 4.12728),
        (0.5, 1.53851),
        (1.0, 1.26364),
        (10.0, 1.02632),
    ] {
        close(
            "value G6",
            slip_factor(diameter_um * 1e-6, path_m),
            expected,
            1e-5,
        );
    }
}
