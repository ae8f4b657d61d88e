//! Random numbers for one block of parcels at a time: uniform, and normal by Box and Muller's transform.
//!
//! Two uniform numbers a, b give two independent normal ones: √(−2 ln a)·cos 2πb and √(−2 ln a)·sin 2πb
//! (Box & Muller 1958, Ann. Math. Stat. 29:610). One 32-bit word serves each number, which cuts the tail at 6.5 σ.

use chacha20::{ChaChaCore, R8, variants::Legacy};
use rand_core::{SeedableRng, block::Generator};

use super::{
    parcels::{BLOCK, Lanes},
    streams::{Purpose, key},
    vector_math::{ln, sin_cos_turn},
};

/// Random numbers by the block: one fill of the generator's buffer is one word a lane.
pub(crate) struct NoiseStream(ChaChaCore<R8, Legacy>);

impl NoiseStream {
    /// The stream of one purpose in one chunk.
    pub(crate) fn new(seed: u64, chunk: u64, purpose: Purpose) -> Self {
        Self(ChaChaCore::from_seed(key(seed, chunk, purpose)))
    }
}

/// A generator that the debugger need not print word for word.
impl std::fmt::Debug for NoiseStream {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter.write_str("NoiseStream")
    }
}

const HALF: usize = BLOCK / 2;
/// 2⁻³¹: words lose their lowest bit so that they convert as signed integers, which every processor can do.
const UNIT: f32 = 1.0 / (1_u32 << 31) as f32;

/// A number in (0, 1) for each lane.
#[inline(always)]
pub(crate) fn uniform(stream: &mut NoiseStream) -> Lanes {
    let mut words = [0_u32; BLOCK];
    stream.0.generate(&mut words);
    let mut numbers = [0.0; BLOCK];
    for i in 0..BLOCK {
        numbers[i] = ((words[i] >> 1).cast_signed() as f32 + 0.5) * UNIT;
    }
    numbers
}

/// A standard normal number for each lane.
#[inline(always)]
pub(crate) fn normal(stream: &mut NoiseStream) -> Lanes {
    let uniform = uniform(stream);
    let mut numbers = [0.0; BLOCK];
    for i in 0..HALF {
        let radius = (-2.0 * ln(uniform[i])).sqrt();
        let (sine, cosine) = sin_cos_turn(uniform[i + HALF]);
        numbers[i] = radius * cosine;
        numbers[i + HALF] = radius * sine;
    }
    numbers
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn normal_numbers_have_the_moments_and_tail_of_the_normal_distribution() {
        let mut stream = NoiseStream::new(7, 0, Purpose::Dispersion);
        let blocks = 40_000;
        let (mut sums, mut beyond_three, mut product) = ([0.0_f64; 4], 0, 0.0);
        for _ in 0..blocks {
            let numbers = normal(&mut stream);
            for (i, &x) in numbers.iter().enumerate() {
                let x = f64::from(x);
                for (power, sum) in sums.iter_mut().enumerate() {
                    *sum += x.powi(power as i32 + 1);
                }
                beyond_three += usize::from(x.abs() > 3.0);
                product += x * f64::from(numbers[(i + HALF) % BLOCK]);
            }
        }
        let n = (blocks * BLOCK) as f64;
        // Standard errors of the moments of a normal sample: √(1, 2, 15, 96)/√n.
        for (k, (expected, variance)) in [(0.0, 1.0), (1.0, 2.0), (0.0, 15.0), (3.0, 96.0)]
            .into_iter()
            .enumerate()
        {
            let score = (sums[k] / n - expected) / (variance / n).sqrt();
            assert!(
                score.abs() < 4.0,
                "moment {}: {score} standard errors off",
                k + 1
            );
        }
        let expected = 0.002_699_796 * n;
        assert!(
            (beyond_three as f64 - expected).abs() < 4.0 * expected.sqrt(),
            "{beyond_three} beyond 3 σ, {expected}"
        );
        assert!(
            (product / n).abs() < 4.0 * (2.0 / n).sqrt(),
            "partners are correlated: {}",
            product / n
        );
    }
}
