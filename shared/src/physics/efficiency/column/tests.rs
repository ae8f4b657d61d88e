//! What every column must keep: mass, sign, order and its word about bad input.

use proptest::prelude::*;

use super::{Column, ColumnStep};

const CELLS: usize = 40;

fn advance(
    column: &mut Column,
    drift: &[f64],
    diffusivity: f64,
    step: f64,
    scalars: &mut [&mut [f64]],
) -> Vec<f64> {
    let mut captured = vec![0.0; scalars.len()];
    let weight = vec![1.2; column.cells()];
    let step = ColumnStep {
        step,
        face_drift_m_s: drift,
        face_diffusivity_m2_s: &vec![diffusivity; drift.len()],
        weight: &weight,
    };
    column
        .advance(&step, scalars, &mut captured)
        .expect("a valid step");
    captured
}

proptest! {
    #[test]
    fn what_leaves_the_gas_is_what_the_plate_took(
        drift in prop::collection::vec(-0.5..1.0_f64, CELLS + 1),
        dust in prop::collection::vec(0.0..1.0_f64, CELLS),
        log_diffusivity in -9.0..-1.0_f64,
        log_step in -5.0..1.0_f64,
    ) {
        let mut column = Column::uniform(CELLS, 0.15).expect("a column");
        let weight = [1.2; CELLS];
        let before = column.content(&weight, &dust);
        let mut after = dust;
        let taken = advance(&mut column, &drift, 10_f64.powf(log_diffusivity), 10_f64.powf(log_step), &mut [&mut after]);
        let left = column.content(&weight, &after);
        prop_assert!((before - left - taken[0]).abs() <= 1e-10 * before, "{} {} {}", before, left, taken[0]);
        prop_assert!(after.iter().all(|value| *value >= 0.0), "{:?}", after);
    }

    #[test]
    fn a_sharp_edge_never_rings(edge in 1..CELLS, log_diffusivity in -9.0..-1.0_f64, log_step in -5.0..1.0_f64) {
        // Uniform drift: no value may leave the range of the values it came from.
        let mut column = Column::uniform(CELLS, 0.15).expect("a column");
        let drift = [0.1; CELLS + 1];
        let mut dust: Vec<f64> = (0..CELLS).map(|cell| if cell < edge { 0.0 } else { 1.0 }).collect();
        let mut step = 10_f64.powf(log_step);
        for _ in 0..5 {
            let _taken = advance(&mut column, &drift, 10_f64.powf(log_diffusivity), step, &mut [&mut dust]);
            step *= 1.5;
        }
        // At y = 0 nothing enters, so dust may pile up only where the closed wall meets no drift; there is none here.
        prop_assert!(dust.iter().all(|value| (0.0..=1.2).contains(value)), "{:?}", dust);
    }
}

#[test]
fn several_scalars_move_as_if_alone() {
    let mut column = Column::uniform(CELLS, 0.15).expect("a column");
    let drift = [0.08; CELLS + 1];
    let first: Vec<f64> = (0..CELLS).map(|cell| 1.0 + cell as f64).collect();
    let second: Vec<f64> = (0..CELLS)
        .map(|cell| if cell == 7 { 1.0 } else { 0.0 })
        .collect();
    let (mut a, mut b) = (first.clone(), second.clone());
    let together = advance(&mut column, &drift, 1e-6, 0.5, &mut [&mut b, &mut a]);
    let (mut c, mut d) = (first, second);
    let alone_c = advance(&mut column, &drift, 1e-6, 0.5, &mut [&mut c]);
    let alone_d = advance(&mut column, &drift, 1e-6, 0.5, &mut [&mut d]);
    assert_eq!((a, b), (c, d), "scalars disturb each other");
    assert_eq!(
        together,
        vec![alone_d[0], alone_c[0]],
        "captures disturb each other"
    );
}

proptest! {
    #[test]
    fn the_charge_of_a_grain_stays_between_its_neighbours(
        edge in 1..CELLS, log_diffusivity in -7.0..-2.0_f64, log_step in -3.0..-0.5_f64,
    ) {
        // Dust, and dust times charge: 3 below the edge, 5 above. No grain may end up outside 3 to 5.
        let mut column = Column::uniform(CELLS, 0.15).expect("a column");
        let (mut dust, mut charge) = ([1.0; CELLS], [3.0; CELLS]);
        charge[edge..].fill(5.0);
        for _ in 0..3 {
            let scalars: &mut [&mut [f64]] = &mut [&mut dust, &mut charge];
            let _taken = advance(&mut column, &[0.1; CELLS + 1], 10_f64.powf(log_diffusivity), 10_f64.powf(log_step), scalars);
        }
        // The second-order stages may overshoot an edge by a little: 1 % of the charge that was there at first.
        for (charge, dust) in charge.iter().zip(&dust) {
            prop_assert!((3.0 * dust - 0.05..=5.0 * dust + 0.05).contains(charge), "{} / {}", charge, dust);
        }
    }
}

#[test]
fn without_drift_mixing_levels_everything() {
    let mut column = Column::with_faces(vec![0.0, 0.05, 0.08, 0.1, 0.12, 0.15]).expect("a column");
    let mut dust = [1.0, 0.0, 3.0, 0.0, 2.0];
    let mean = column.content(&[1.2; 5], &dust) / (1.2 * 0.15);
    for _ in 0..4 {
        let taken = advance(&mut column, &[0.0; 6], 0.01, 100.0, &mut [&mut dust]);
        assert!(taken[0].abs() < 1e-15, "{taken:?}");
    }
    assert!(
        dust.iter().all(|value| (value / mean - 1.0).abs() < 1e-4),
        "{dust:?}"
    );
}

#[test]
fn a_refined_grid_agrees_with_a_uniform_one() {
    let refined: Vec<f64> = (0..=200)
        .map(|face| 0.15 * (1.0 - (1.0 - f64::from(face) / 200.0).powf(1.5)))
        .collect();
    let outlet = |mut column: Column| {
        let cells = column.cells();
        let (drift, mut dust) = (vec![0.1; cells + 1], vec![1.0; cells]);
        let mut total = 0.0;
        for _ in 0..200 {
            total += advance(&mut column, &drift, 1.5e-3, 0.018, &mut [&mut dust])[0];
        }
        total
    };
    let uniform = outlet(Column::uniform(200, 0.15).expect("a column"));
    let graded = outlet(Column::with_faces(refined).expect("a column"));
    assert!(
        (graded / uniform - 1.0).abs() < 1e-4,
        "{graded} not {uniform}"
    );
}

#[test]
fn bad_input_is_refused_and_changes_nothing() {
    assert!(Column::uniform(0, 0.15).is_err(), "no cells");
    assert!(Column::uniform(5, -0.15).is_err(), "no gap");
    assert!(Column::with_faces(vec![0.0]).is_err(), "one face");
    assert!(
        Column::with_faces(vec![0.1, 0.2]).is_err(),
        "not from the wire plane"
    );
    assert!(
        Column::with_faces(vec![0.0, 0.2, 0.1]).is_err(),
        "not rising"
    );
    let mut column = Column::uniform(2, 0.15).expect("a column");
    let mut dust = [1.0, 2.0];
    let mut captured = [0.0];
    for (drift, weight, diffusivity) in [
        (&[0.1; 2][..], &[1.0; 2][..], 0.0),
        (&[0.1; 3], &[1.0; 3], 0.0),
        (&[0.1; 3], &[1.0; 2], -1.0),
        (&[0.1; 3], &[0.0; 2], 1.0),
        (&[f64::NAN; 3], &[1.0; 2], 1.0),
    ] {
        let step = ColumnStep {
            step: 0.1,
            face_drift_m_s: drift,
            face_diffusivity_m2_s: &[diffusivity; 3],
            weight,
        };
        let refused = column.advance(&step, &mut [&mut dust], &mut captured);
        assert!(refused.is_err(), "{step:?}");
    }
    assert_eq!(dust, [1.0, 2.0], "touched by a refused step");
}
