//! Mott & Gurney 1940, *Electronic Processes in Ionic Crystals*: current limited by its own space charge.

use ashlane_shared::physics::corona::planes;

use crate::close;

#[test]
fn largest_current() {
    // The law is printed in the source; the number is computed.
    close(
        "value C3",
        planes::mott_gurney_a_m2(50e3, 0.1, 2e-4),
        4.980480645e-3,
        1e-9,
    );
    close(
        "value C3, back",
        planes::voltage_v(4.980480645e-3, 0.0, 0.1, 2e-4),
        50e3,
        1e-9,
    );
}

#[test]
fn voltage_with_a_field_at_the_source() {
    // Computed: closed form of Poisson's equation with ρ = j/(bE).
    close(
        "value C4",
        planes::voltage_v(3e-4, 2e5, 0.1, 2e-4),
        23772.8199,
        1e-9,
    );
}
