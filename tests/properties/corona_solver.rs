//! Whatever it is asked, the corona solver answers with numbers or with one clear error.

use ashlane_shared::physics::corona::{
    CoronaSolver, WireRow, onset,
    solver::{Corona, Fineness},
};
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    /// Below onset and far above sparking, wires apart and touching, clean gas and dust that quenches or attracts.
    #[test]
    fn every_row_and_voltage_gives_numbers_or_an_error(
        gap_m in 0.05..0.5_f64,
        ratio in 0.2..3.0_f64,
        radius_share in 1e-4..0.6_f64,
        roughness in 0.3..1.0_f64,
        density in 0.3..1.5_f64,
        mobility in 1e-5..1e-3_f64,
        over_onset in -0.5..12.0_f64,
        dust_c_m3 in -2e-5..2e-4_f64,
        dusty: bool,
    ) {
        let radius_m = radius_share * gap_m;
        let Ok(row) = WireRow::new(gap_m, gap_m / ratio, radius_m) else {
            // Wires that are too thick for the thin-wire map, or touch: refused with a reason.
            return Ok(());
        };
        let corona = Corona {
            onset_field_v_m: onset::peek_field_v_m(radius_m, density, roughness),
            ion_mobility_m2_v_s: mobility,
        };
        let mut solver = CoronaSolver::new(row, corona, Fineness::default()).expect("a solver");
        if dusty {
            solver.fill_with_dust(|_| dust_c_m3).expect("finite charge");
        }
        let voltage_v = over_onset * solver.onset_v();
        match solver.at_voltage(voltage_v) {
            Ok(solution) => {
                prop_assert!(solution.current_a_m.is_finite() && solution.current_a_m >= 0.0);
                prop_assert!((solution.voltage_v - voltage_v).abs() <= 1e-9 * voltage_v);
                let collected = solver.collected_current_a_m(&solution);
                prop_assert!(
                    (collected - solution.current_a_m).abs() <= 0.02 * solution.current_a_m,
                    "{} A/m leave the wire, {} arrive", solution.current_a_m, collected
                );
                prop_assert!((solution.current_a_m > 0.0) == (voltage_v > solution.onset_v));
                for (p, psi) in [(0.0, 0.1), (0.5, 0.0), (2.0, 1.0)] {
                    let place = solution.at(p, psi);
                    prop_assert!(place.potential_v.is_finite() && place.ions_c_m3 >= 0.0);
                }
            }
            Err(error) => {
                let text = error.to_string();
                prop_assert!(text.contains("allowed is") || text.contains("field"), "{text}");
            }
        }
    }

    /// More voltage never means less current.
    #[test]
    fn current_rises_with_voltage(ratio in 0.2..3.0_f64, over in 1.01..4.0_f64, dust_c_m3 in 0.0..1e-5_f64) {
        let row = WireRow::new(0.15, 0.15 / ratio, 1.35e-3).expect("a row");
        let corona = Corona {
            onset_field_v_m: onset::peek_field_v_m(1.35e-3, 0.7, 0.85),
            ion_mobility_m2_v_s: 2.2e-4,
        };
        let mut solver = CoronaSolver::new(row, corona, Fineness::default()).expect("a solver");
        solver.fill_with_dust(|_| dust_c_m3).expect("finite charge");
        let low_v = over * solver.onset_v();
        let low = solver.at_voltage(low_v).expect("a state");
        let high = solver.at_voltage_from(1.02 * low_v, Some(&low)).expect("a state");
        prop_assert!(high.current_a_m > low.current_a_m);
    }
}

#[test]
fn impossible_questions_are_refused() {
    let row = WireRow::new(0.15, 0.25, 1.35e-3).expect("a row");
    let corona = Corona {
        onset_field_v_m: 4e6,
        ion_mobility_m2_v_s: 2.2e-4,
    };
    let mut solver = CoronaSolver::new(row.clone(), corona, Fineness::default()).expect("a solver");
    for voltage_v in [-1.0, f64::NAN, f64::INFINITY] {
        let refusal = solver.at_voltage(voltage_v).expect_err("no such voltage");
        assert!(refusal.to_string().contains("voltage_v"), "{refusal}");
    }
    assert!(solver.at_current(-1e-6).is_err(), "negative current");
    assert!(solver.fill_with_dust(|_| f64::NAN).is_err(), "no number");
    let still = Corona {
        ion_mobility_m2_v_s: 0.0,
        ..corona
    };
    assert!(
        CoronaSolver::new(row, still, Fineness::default()).is_err(),
        "ions that do not move"
    );
    assert!(WireRow::new(0.15, 0.25, 0.125).is_err(), "wires that touch");
}
