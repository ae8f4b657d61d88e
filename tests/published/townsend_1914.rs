//! Townsend 1914, Phil. Mag. 28:83: corona in a tube, exact.

use ashlane_shared::physics::corona::onset::peek_field_v_m;
use ashlane_shared::physics::corona::tube::{Tube, TubeShape};

use crate::{close, printed};

fn tube(current_a_m: f64) -> Tube {
    let shape = TubeShape {
        wire_radius_m: 1e-3,
        tube_radius_m: 0.1,
        ion_mobility_m2_v_s: 2e-4,
        // Peek's field unrounded: 5.846 049 89e6; the eight digits below need it.
        onset_field_v_m: peek_field_v_m(1e-3, 1.0, 1.0),
    };
    Tube::new(&shape, current_a_m).expect("a current in range")
}

#[test]
fn voltage_at_each_current() {
    // Computed: closed form, equal to high-order integration of Gauss's law to 1e-9.
    for (current_a_m, expected_v) in [
        (0.0, 26922.0547),
        (1e-6, 26960.3245),
        (1e-4, 30027.5836),
        (1e-3, 44951.9112),
    ] {
        close("value C1", tube(current_a_m).voltage_v(), expected_v, 1e-8);
    }
    close(
        "value C1, field at the tube",
        tube(1e-3).field_v_m(0.1),
        305_424.557,
        1e-8,
    );
}

#[test]
fn potential_along_the_radius() {
    // Computed as above; one decimal is printed.
    for (radius_m, expected_v) in [
        (2e-3, 40_893.5),
        (10e-3, 31_139.3),
        (50e-3, 15_546.1),
        (80e-3, 6_136.3),
    ] {
        printed(
            "value C2",
            tube(1e-3).potential_v(radius_m),
            expected_v,
            0.0,
            0.1,
        );
    }
}
