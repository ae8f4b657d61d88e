//! Elementary functions in single precision that a compiler can run on several parcels at once.
//!
//! The standard library's `exp`, `ln` and `sin` are calls into a C library: they stop a loop from being vectorised
//! and may differ in the last bit from one machine to the next.
//! These are plain arithmetic without branches, so a loop over an array becomes vector instructions, and every lane
//! gives the same bits whatever the width of the vector.
//! Polynomials are summed in pairs (Estrin's scheme), which a processor can overlap.
//! Relative errors are below 3e-7 over the ranges named; a test walks them against double precision.

/// 2^x for −126 ≤ x ≤ 127; beyond, the nearest bound's value.
///
/// x = n + f with |f| ≤ ½; 2^f by its Taylor polynomial of degree 7 (remainder below 1e-8), 2^n by the exponent bits.
#[inline(always)]
pub(crate) fn exp2(x: f32) -> f32 {
    let x = x.clamp(-126.0, 127.0);
    // Adding and subtracting 1.5·2²³ rounds to the nearest integer in plain arithmetic.
    let shifted = x + ROUNDER;
    scaled_exp2(x - (shifted - ROUNDER), shifted)
}

/// e^x for −87 ≤ x ≤ 88; beyond, the nearest bound's value.
#[inline(always)]
pub(crate) fn exp(x: f32) -> f32 {
    let x = x.clamp(-87.0, 88.0);
    let shifted = x * std::f32::consts::LOG2_E + ROUNDER;
    let whole = shifted - ROUNDER;
    // Taking n·ln 2 off in two parts keeps the rounding of a large product out of the result.
    let rest = (x - whole * LN_2_HIGH) - whole * LN_2_LOW;
    scaled_exp2(rest * std::f32::consts::LOG2_E, shifted)
}

/// 2^f · 2^n, |f| ≤ ½, where n sits in the low bits of `shifted` = n + 1.5·2²³.
#[inline(always)]
fn scaled_exp2(f: f32, shifted: f32) -> f32 {
    let f2 = f * f;
    let f4 = f2 * f2;
    let low = (1.0 + std::f32::consts::LN_2 * f) + (0.240_226_5 + 5.550_411e-2 * f) * f2;
    let high = (9.618_129e-3 + 1.333_355_8e-3 * f) + (1.540_353e-4 + 1.525_273_4e-5 * f) * f2;
    let p = low + high * f4;
    f32::from_bits(p.to_bits().wrapping_add(shifted.to_bits() << 23))
}

/// Natural logarithm of a positive normal number.
///
/// x = m·2^n with √½ ≤ m < √2; ln m = 2 artanh z, z = (m−1)/(m+1), as an odd series in z (|z| ≤ 0.172).
#[inline(always)]
pub(crate) fn ln(x: f32) -> f32 {
    let (n, z, p) = log_parts(x);
    let series = 2.0 * z + 2.0 * z * p;
    n * LN_2_LOW + series + n * LN_2_HIGH
}

/// n, z and p such that ln x = n ln 2 + 2(z + z p).
#[inline(always)]
fn log_parts(x: f32) -> (f32, f32, f32) {
    // Subtracting √½ from the bits makes the exponent field count from √½ instead of 1.
    let offset = x.to_bits().wrapping_sub(SQRT_HALF_BITS);
    let n = (offset.cast_signed() >> 23) as f32;
    let m = f32::from_bits((offset & 0x007f_ffff).wrapping_add(SQRT_HALF_BITS));
    let z = (m - 1.0) / (m + 1.0);
    let z2 = z * z;
    let p = z2 * ((1.0 / 3.0 + z2 * (1.0 / 5.0)) + (1.0 / 7.0 + z2 * (1.0 / 9.0)) * (z2 * z2));
    (n, z, p)
}

/// x^y for positive normal x: 2^(y log2 x). The error grows with the exponent, to 2e-6 where y log2 x = ±40.
#[inline(always)]
pub(crate) fn pow(x: f32, y: f32) -> f32 {
    const TWO_OVER_LN_2: f32 = 2.0 * std::f32::consts::LOG2_E;
    let (n, z, p) = log_parts(x);
    exp2(y * (n + TWO_OVER_LN_2 * (z + z * p)))
}

/// Sine and cosine of 2πu for 0 ≤ u ≤ 1.
///
/// The turn is folded to a quarter turn either side of zero; Taylor polynomials to v⁹ and v¹⁰ serve to 4e-6, which is
/// more than noise needs.
#[inline(always)]
pub(crate) fn sin_cos_turn(u: f32) -> (f32, f32) {
    // Nearest half turn: u = n/2 + v with |v| ≤ ¼.
    let n = (2.0 * u + ROUNDER) - ROUNDER;
    let v = (u - 0.5 * n) * std::f32::consts::TAU;
    let sign = 1.0 - 2.0 * (n - 2.0 * ((0.5 * n - 0.25 + ROUNDER) - ROUNDER));
    let v2 = v * v;
    let v4 = v2 * v2;
    let s = (-0.166_666_67 + 8.333_333e-3 * v2) + (-1.984_127e-4 + 2.755_731_9e-6 * v2) * v4;
    let sine = v + v * v2 * s;
    let c = (-0.5 + 4.166_666_8e-2 * v2) + (-1.388_888_9e-3 + 2.480_158_7e-5 * v2) * v4
        - 2.755_732e-7 * (v4 * v4);
    let cosine = 1.0 + v2 * c;
    (sine * sign, cosine * sign)
}

/// Largest integer not above x, for |x| < 2²².
#[inline(always)]
pub(crate) fn floor(x: f32) -> f32 {
    let nearest = (x + ROUNDER) - ROUNDER;
    nearest - if nearest > x { 1.0 } else { 0.0 }
}

/// The low 22 bits of a whole number |x| < 2²¹, in two's complement: what a table index needs after a mask.
///
/// A cast would be correct too, but it saturates, and that keeps a compiler from doing several at once.
#[inline(always)]
pub(crate) fn low_bits(whole: f32) -> u32 {
    (whole + ROUNDER).to_bits() & 0x003f_ffff
}

/// 1.5·2²³: adding it moves the unit to the last bit.
const ROUNDER: f32 = 12_582_912.0;
const SQRT_HALF_BITS: u32 = 0x3f35_04f3;
// ln 2 in two parts: the first has so few digits that its product with an exponent is exact.
const LN_2_HIGH: f32 = 0.693_359_4;
const LN_2_LOW: f32 = -2.121_944_4e-4;

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn close(what: &str, x: f32, got: f32, expected: f64, tolerance: f64) {
        let error = (f64::from(got) - expected).abs() / expected.abs().max(1.0);
        assert!(
            error < tolerance,
            "{what}({x}) = {got}, expected {expected}, error {error:e}"
        );
    }

    #[test]
    fn functions_follow_double_precision() {
        for i in 0..200_001 {
            let t = f64::from(i) / 200_000.0;
            let x = (-80.0 + 160.0 * t) as f32;
            let expected = f64::from(x).exp();
            assert!(
                ((f64::from(exp(x)) - expected) / expected).abs() < 3e-7,
                "exp({x}) = {}",
                exp(x)
            );
            let x = (-20.0 + 40.0 * t) as f32;
            let expected = f64::from(x).exp2();
            assert!(
                ((f64::from(exp2(x)) - expected) / expected).abs() < 3e-7,
                "exp2({x}) = {}",
                exp2(x)
            );
            let x = (60.0 * t - 30.0).exp() as f32;
            close("ln", x, ln(x), f64::from(x).ln(), 3e-7);
            let u = t as f32;
            let (sine, cosine) = sin_cos_turn(u);
            let (expected_sine, expected_cosine) = (f64::from(u) * std::f64::consts::TAU).sin_cos();
            close("sin", u, sine, expected_sine, 4e-6);
            close("cos", u, cosine, expected_cosine, 1e-6);
            let x = (-1000.0 + 2000.0 * t) as f32;
            assert_eq!(floor(x), x.floor(), "floor({x})");
            assert_eq!(
                low_bits(floor(x)) & 63,
                (x.floor() as i32 & 63).cast_unsigned(),
                "bits of {x}"
            );
        }
    }

    #[test]
    fn power_follows_double_precision() {
        for i in 1..2000 {
            let x = (f64::from(i) * 0.01) as f32;
            for y in [-0.575, 0.687, 2.0] {
                let expected = f64::from(x).powf(f64::from(y));
                assert!(
                    ((f64::from(pow(x, y)) - expected) / expected).abs() < 1e-6,
                    "{x}^{y}"
                );
            }
        }
    }
}
