//! Peek 1929, *Dielectric Phenomena in High Voltage Engineering*: when a wire glows.

use ashlane_shared::physics::corona::WireRow;
use ashlane_shared::physics::corona::onset::{onset_voltage_v, peek_field_v_m};
use ashlane_shared::physics::gas::relative_density;

use crate::{close, printed};

#[test]
fn onset_field() {
    // Computed from the SI form of the formula; other authors' constants differ by 5 %.
    close(
        "value P1, 1 mm",
        peek_field_v_m(1e-3, 1.0, 1.0),
        5.84605e6,
        1e-5,
    );
    close(
        "value P1, hot",
        peek_field_v_m(1.365e-3, 0.69278, 1.0),
        4.10590e6,
        1e-5,
    );
    // Peek's own units: 30 kV/cm and 0.301 √(cm) give 30·(1 + 0.301/√0.1 cm) kV/cm; 0.301 is 0.03 √m within 0.4 %.
    close(
        "Peek in cm",
        peek_field_v_m(1e-3, 1.0, 1.0),
        30e5 * (1.0 + 0.301 / 0.1_f64.sqrt()),
        5e-3,
    );
}

#[test]
fn onset_voltage() {
    // Computed: E₀ r_w ln(d_eff/r_w) for s = 115, c = 150, r_w = 1.365 mm.
    let row = WireRow::new(0.115, 0.15, 1.365e-3).expect("a row in range");
    for (temperature_k, expected_v) in [(293.15, 39_104.0), (423.15, 29_536.0)] {
        let field_v_m = peek_field_v_m(1.365e-3, relative_density(temperature_k, 101_325.0), 1.0);
        printed(
            "value P2",
            onset_voltage_v(&row, field_v_m),
            expected_v,
            0.0,
            1.0,
        );
    }
}
