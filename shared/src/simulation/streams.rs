//! Random numbers: one stream per purpose and per chunk of parcels, all from one seed.
//!
//! A new use of chance gets a stream of its own, so it does not shift the dice of the others, and a chunk has its own
//! streams, so the result does not depend on which thread runs it.

use chacha20::ChaCha8Rng;
use rand_core::SeedableRng;

pub(crate) use crate::physics::chance::unit;

/// What a stream of random numbers is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Purpose {
    /// Diameter, place and velocity of fresh parcels.
    Injection = 0,
    /// Turbulent mixing across the passage.
    Dispersion = 1,
    /// Bypassing a field and returning from the plates.
    Losses = 2,
    /// Tracers that measure the mixing of the gusts.
    Tracers = 3,
    /// Strength of the gap in each half cycle.
    Sparks = 4,
    /// Fast and slow patches over the face.
    Face = 5,
    /// Where a fault strikes.
    Faults = 6,
    /// When and where sparks are drawn.
    SparkPlaces = 7,
}

/// The key of one purpose in one chunk: seed, chunk and purpose side by side, so no two streams share one.
pub(crate) fn key(seed: u64, chunk: u64, purpose: Purpose) -> [u8; 32] {
    let mut key = [0; 32];
    key[..8].copy_from_slice(&seed.to_le_bytes());
    key[8..16].copy_from_slice(&chunk.to_le_bytes());
    key[16] = purpose as u8;
    key
}

/// The stream of one purpose in one chunk.
pub(crate) fn stream(seed: u64, chunk: u64, purpose: Purpose) -> ChaCha8Rng {
    ChaCha8Rng::from_seed(key(seed, chunk, purpose))
}

/// The dice of one electrical field's sparks, for [`Controller`](crate::physics::energization::Controller).
#[must_use]
pub fn spark_stream(seed: u64, field: u64) -> ChaCha8Rng {
    stream(seed, field, Purpose::Sparks)
}

/// The field that a fault strikes, of so many: drawn with its own dice.
#[must_use]
pub fn struck_field(seed: u64, fields: usize) -> usize {
    let chance = unit(&mut stream(seed, 0, Purpose::Faults));
    ((chance * fields as f64) as usize).min(fields.saturating_sub(1))
}

#[cfg(test)]
mod tests {
    use rand_core::Rng;

    use super::*;

    #[test]
    fn streams_differ_by_purpose_chunk_and_seed_and_repeat_by_themselves() {
        let first = |seed, chunk, purpose| stream(seed, chunk, purpose).next_u64();
        let reference = first(1, 0, Purpose::Injection);
        assert_eq!(reference, first(1, 0, Purpose::Injection));
        assert_ne!(reference, first(1, 0, Purpose::Dispersion));
        assert_ne!(reference, spark_stream(1, 0).next_u64());
        assert_ne!(reference, first(1, 1, Purpose::Injection));
        assert_ne!(reference, first(2, 0, Purpose::Injection));
    }
}
