//! How unevenly the gas comes to the face: smooth fast and slow patches, drawn from seeded noise, with a spread as wanted.
//!
//! The noise says which place is faster than which; a bell curve cut off at no flow says how fast. So the face has the
//! histogram that the theory of uneven gas takes, its mean is 1, its RMS the wanted one, and no gas flows back.

use noise::{NoiseFn, Perlin};
use rand_core::Rng;

use super::streams::{Purpose, stream, unit};
use crate::physics::PhysicsError;
use crate::physics::error::{positive, require};
use crate::physics::gas_path::perforated_plate::smoothing_of_plates;
use crate::physics::normal;
use crate::physics::root::root_of_rising;

/// Fast and slow patches over the height and over the width: a teaching setting, no source.
const PATCHES: f64 = 3.0;
/// Strength of the finer patches, twice as many, beside the coarse ones: a teaching setting, no source.
const FINE_STRENGTH: f64 = 0.4;
/// Widest spread that the bell curve reaches, as in the theory.
const WIDEST: f64 = 0.5;

/// Velocity over the mean velocity in every cell of a grid across the face, row by row from the top.
///
/// Mean 1 and RMS `spread` to rounding; all above 0; the same seed gives the same bits.
///
/// # Errors
/// A spread outside 0 to 0.5; no cell; a single cell that should be uneven.
pub fn face_velocities(
    seed: u64,
    spread: f64,
    rows: usize,
    columns: usize,
) -> Result<Vec<f64>, PhysicsError> {
    require(
        (0.0..=WIDEST).contains(&spread),
        "spread",
        spread,
        "0 to 0.5",
    )?;
    let cells = rows * columns;
    positive("cells of the face", cells as f64)?;
    if spread < 1e-9 {
        return Ok(vec![1.0; cells]);
    }
    require(cells >= 2, "cells of the face", cells as f64, "2 or more")?;
    let velocities = bell(spread, cells);
    let mut face = vec![0.0; cells];
    for (velocity, cell) in velocities.into_iter().zip(order(seed, rows, columns)) {
        face[cell] = velocity;
    }
    Ok(face)
}

/// The same face behind perforated plates of these open shares: what they leave of the unevenness.
///
/// # Errors
/// As [`smoothing_of_plates`].
pub fn behind_plates(face: &[f64], open_shares: &[f64]) -> Result<Vec<f64>, PhysicsError> {
    let left = smoothing_of_plates(open_shares)?;
    Ok(face
        .iter()
        .map(|velocity| 1.0 + left * (velocity - 1.0))
        .collect())
}

/// What a probe reads in the cells of a face, m/s, for [`uniformity`](crate::physics::gas_path::uniformity::uniformity).
///
/// # Errors
/// A mean velocity that is not above 0.
pub fn readings_m_s(face: &[f64], mean_velocity_m_s: f64) -> Result<Vec<f64>, PhysicsError> {
    let mean_m_s = positive("mean_velocity_m_s", mean_velocity_m_s)?;
    Ok(face.iter().map(|velocity| velocity * mean_m_s).collect())
}

/// Velocities in rising order: middles of equal shares of a bell curve above 0, with mean 1 and this RMS.
fn bell(spread: f64, cells: usize) -> Vec<f64> {
    let of_width = |width: f64| {
        let still = normal::cumulative(-1.0 / width);
        let values = (0..cells).map(|cell| {
            let share = (cell as f64 + 0.5) / cells as f64;
            1.0 + width * normal::quantile(still + (1.0 - still) * share)
        });
        normalised(values.collect())
    };
    // Middles of shares miss the tails, and no gas flows back: the curve must be a little wider than the spread.
    of_width(root_of_rising(
        |width| rms(&of_width(width)) - spread,
        0.5 * spread,
        1e3,
    ))
}

fn normalised(values: Vec<f64>) -> Vec<f64> {
    let mean = values.iter().sum::<f64>() / values.len() as f64;
    values.into_iter().map(|value| value / mean).collect()
}

/// RMS about 1.
fn rms(values: &[f64]) -> f64 {
    let squares: f64 = values.iter().map(|value| (value - 1.0).powi(2)).sum();
    (squares / values.len() as f64).sqrt()
}

/// Cells from the slowest to the fastest.
fn order(seed: u64, rows: usize, columns: usize) -> Vec<usize> {
    let mut generator = stream(seed, 0, Purpose::Face);
    let coarse = Perlin::new(generator.next_u32());
    let fine = Perlin::new(generator.next_u32());
    let shift = [unit(&mut generator), unit(&mut generator)];
    let strength = |cell: usize| {
        let down = PATCHES * ((cell / columns) as f64 + 0.5) / rows as f64 + shift[0];
        let along = PATCHES * ((cell % columns) as f64 + 0.5) / columns as f64 + shift[1];
        coarse.get([down, along]) + FINE_STRENGTH * fine.get([2.0 * down, 2.0 * along])
    };
    let mut cells: Vec<(f64, usize)> = (0..rows * columns)
        .map(|cell| (strength(cell), cell))
        .collect();
    cells.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
    cells.into_iter().map(|(_, cell)| cell).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::gas_path::uniformity::uniformity;

    const GRIDS: [(usize, usize); 5] = [(1, 2), (2, 2), (6, 5), (20, 33), (1, 40)];

    #[test]
    fn mean_and_spread_are_exact_and_no_gas_flows_back() {
        for spread in [1e-6, 0.05, 0.1, 0.25, 0.4, 0.5] {
            for (rows, columns) in GRIDS {
                let face = face_velocities(3, spread, rows, columns).expect("a face");
                assert_eq!(face.len(), rows * columns);
                assert!(face.iter().all(|&u| u > 0.0), "{spread} {rows}×{columns}");
                let found = uniformity(&face).expect("readings");
                assert!((found.mean_m_s - 1.0).abs() < 1e-9, "{found:?}");
                assert!(
                    (found.rms_share - spread).abs() < 1e-9,
                    "{found:?} for {spread}"
                );
            }
        }
    }

    #[test]
    fn the_same_seed_gives_the_same_bits_and_another_seed_another_face() {
        let face = |seed| face_velocities(seed, 0.1, 20, 33).expect("a face");
        let bits = |seed| face(seed).iter().map(|u| u.to_bits()).collect::<Vec<_>>();
        assert_eq!(bits(7), bits(7));
        assert_ne!(bits(7), bits(8));
        // All 64 bits of a seed count.
        assert_ne!(bits(7), bits(7 + (1 << 40)));
    }

    #[test]
    fn an_even_face_is_all_ones() {
        let face = face_velocities(7, 0.0, 4, 5).expect("a face");
        assert_eq!(face, vec![1.0; 20]);
        assert_eq!(face_velocities(7, 0.0, 1, 1), Ok(vec![1.0]));
    }

    #[test]
    fn neighbours_are_alike() {
        // Patches and not grains: the difference of neighbours is far below the √2 of independent places.
        let (rows, columns) = (20, 33);
        for seed in 0..5 {
            let face = face_velocities(seed, 0.1, rows, columns).expect("a face");
            let squares: f64 = face
                .chunks(columns)
                .flat_map(|row| row.windows(2).map(|pair| (pair[1] - pair[0]).powi(2)))
                .sum();
            let difference = (squares / (rows * (columns - 1)) as f64).sqrt();
            assert!(difference < 0.5 * 0.1, "seed {seed}: {difference}");
        }
    }

    #[test]
    fn plates_leave_the_spread_that_their_smoothing_says() {
        let face = face_velocities(7, 0.3, 20, 33).expect("a face");
        for plates in [&[0.6][..], &[0.45], &[0.5, 0.5]] {
            let behind = behind_plates(&face, plates).expect("a face");
            let left = smoothing_of_plates(plates).expect("plates").abs();
            let found = uniformity(&readings_m_s(&behind, 1.2).expect("readings"));
            let found = found.expect("a face");
            assert!(
                (found.rms_share - 0.3 * left).abs() < 1e-9,
                "{found:?}, {left}"
            );
            assert!((found.mean_m_s - 1.2).abs() < 1e-9, "{found:?}");
            assert!(left < 1.0 && behind.iter().all(|&u| u > 0.0));
        }
    }

    #[test]
    fn faces_that_cannot_be_are_refused() {
        for (spread, rows, columns) in [
            (0.6, 4, 4),
            (-0.1, 4, 4),
            (f64::NAN, 4, 4),
            (0.1, 0, 4),
            (0.1, 1, 1),
        ] {
            assert!(
                face_velocities(1, spread, rows, columns).is_err(),
                "{spread} {rows}"
            );
        }
        assert!(readings_m_s(&[1.0], 0.0).is_err());
        assert!(behind_plates(&[1.0], &[0.0]).is_err());
    }
}
