//! How random bits become a number between nought and one.

use rand_core::Rng;

/// A number in (0, 1), never the ends, from the top 53 bits.
#[inline]
pub(crate) fn unit(generator: &mut impl Rng) -> f64 {
    ((generator.next_u64() >> 11) as f64 + 0.5) * (1.0 / 9_007_199_254_740_992.0)
}
