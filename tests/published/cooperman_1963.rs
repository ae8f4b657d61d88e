//! Cooperman, in White 1963, ch. 4: the quadratic law of current against voltage.

use ashlane_shared::physics::corona::{WireRow, onset, quadratic_law};

use crate::{close, printed};

const MOBILITY_M2_V_S: f64 = 1.82e-4;

fn collector_a() -> (WireRow, f64) {
    let row = WireRow::new(0.1143, 0.1524, 1.016e-3).expect("a row in range");
    let onset_v = onset::onset_voltage_v(&row, onset::peek_field_v_m(1.016e-3, 1.0, 1.0));
    (row, onset_v)
}

#[test]
fn onset_and_slope() {
    // Computed: Peek's field at δ = 1, the exact d_eff, and superposition at onset.
    let (row, onset_v) = collector_a();
    close("case D-A, V0", onset_v, 32_712.35, 1e-6);
    close(
        "case D-A, slope",
        quadratic_law::onset_slope_a_m_v(&row, MOBILITY_M2_V_S, onset_v),
        9.171051e-9,
        1e-6,
    );
}

#[test]
fn quadratic_voltages() {
    // Computed: the law solved for V; j_avg = i/2c. The exact voltages (35 530, 40 422, 50 187 V) need the solver.
    let (row, onset_v) = collector_a();
    for (current_a_m, plate_na_cm2, voltage_v) in [
        (3e-5, 9.84, 35_709.0),
        (1e-4, 32.81, 41_341.0),
        (3e-4, 98.43, 52_929.0),
    ] {
        let got_v = quadratic_law::voltage_v(&row, MOBILITY_M2_V_S, onset_v, current_a_m);
        // The specification rounds 41 340.49 V up; one volt of room.
        printed("case D-A, quadratic law", got_v, voltage_v, 0.0, 2.0);
        let back = quadratic_law::current_a_m(&row, MOBILITY_M2_V_S, onset_v, got_v);
        close(
            "case D-A, current of that voltage",
            back,
            current_a_m,
            1e-12,
        );
        // 1 nA/cm² = 1e-5 A/m².
        let plate = quadratic_law::plate_current_a_m2(&row, current_a_m) / 1e-5;
        printed("case D-A, plate current", plate, plate_na_cm2, 0.0, 0.01);
    }
}
