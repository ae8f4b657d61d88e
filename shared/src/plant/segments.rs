//! Where on the plates of a field dust settles: stretches along the gas, and rows of the height.

use crate::{conditions::Conditions, physics::PhysicsError, simulation::face_velocities};

/// Stretches of a field along the gas, inlet end first.
pub const SEGMENTS_ALONG: usize = 4;
/// Rows of its height, the roof first.
pub const SEGMENTS_HIGH: usize = 3;
/// Places of a group of plates at which its layer is kept: all rows of the first stretch, then those of the next.
pub(super) const SEGMENTS: usize = SEGMENTS_ALONG * SEGMENTS_HIGH;

/// Cells of the face: rows that the segments share evenly, and columns.
const FACE: (usize, usize) = (4 * SEGMENTS_HIGH, 20);
/// The face of the plant clock is one and the same. Teaching choice, no source.
const FACE_SEED: u64 = 1;

/// Share of the dust that each row of the height gets: as much as its share of the gas.
///
/// A fast row also lets more of its dust pass, which is left out: the difference is of second order in the spread.
pub(super) fn height_shares(conditions: &Conditions) -> Result<[f64; SEGMENTS_HIGH], PhysicsError> {
    let (rows, columns) = FACE;
    let face = face_velocities(FACE_SEED, conditions.gas.velocity_spread, rows, columns)?;
    let total: f64 = face.iter().sum();
    let mut shares = [0.0; SEGMENTS_HIGH];
    for (share, cells) in shares
        .iter_mut()
        .zip(face.chunks(rows / SEGMENTS_HIGH * columns))
    {
        *share = cells.iter().sum::<f64>() / total;
    }
    Ok(shares)
}

/// Share of a field's dust that each segment gets.
pub(super) fn segment_shares(
    along: &[f64; SEGMENTS_ALONG],
    high: &[f64; SEGMENTS_HIGH],
) -> [f64; SEGMENTS] {
    let mut shares = [0.0; SEGMENTS];
    for (stretch, of_stretch) in shares.chunks_mut(SEGMENTS_HIGH).zip(along) {
        for (share, of_row) in stretch.iter_mut().zip(high) {
            *share = of_stretch * of_row;
        }
    }
    shares
}
