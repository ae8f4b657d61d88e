//! Charging of parcels during a step, by the four models of `physics.md` 3 in the form that a step needs.
//!
//! With ν = q e/(2π ε0 d k T), W = ε/(ε+2)·E d e/(2kT) and the step dτ = (e N0 b/ε0) dt:
//! * field charging (Pauthenier), `dν/dτ = (ν_s/4)(1 − ν/ν_s)²`, `ν_s = 3W`, exact over a step of constant field;
//! * Cochet: the same with `ν_s` larger by a factor of the grain;
//! * White: dν/dτ = K e^{−ν}, exact;
//! * Lawless: below 3W field charging plus a diffusion term f, above it f x/(e^x − 1) with x = ν − 3W; one
//!   linearly implicit step of second order, which stays stable however long the step.

#![expect(
    clippy::needless_range_loop,
    reason = "one index runs through several arrays of a block, which is what the compiler vectorises"
)]

use super::{
    parcels::{BLOCK, Block},
    step::LocalBlock,
    vector_math::{exp, ln, pow},
};
use crate::conditions::Charging;

/// The charging model in use.
pub(crate) type ChargingLaw = Charging;

/// Smallest saturation charge, so that a grain on a line without field divides by something.
const LEAST: f32 = 1e-6;

/// Charges the parcels of one block for `time_s`.
///
/// Several short loops: each is a short chain of operations, so that a processor can work on several lanes at a time.
#[inline(always)]
pub(crate) fn charge_block(law: ChargingLaw, block: &mut Block, local: &LocalBlock, time_s: f32) {
    let (mut w, mut tau) = ([0.0; BLOCK], [0.0; BLOCK]);
    for i in 0..BLOCK {
        w[i] = block.charge_per_field[i] * local.strength[i];
        tau[i] = local.charging[i] * (time_s * block.exposed[i]);
    }
    match law {
        Charging::Lawless => {
            let mut f = [0.0; BLOCK];
            for i in 0..BLOCK {
                f[i] = diffusion_share(w[i]);
            }
            for i in 0..BLOCK {
                block.charge[i] = lawless(block.charge[i], w[i], f[i], tau[i]);
            }
        }
        Charging::Field => {
            for i in 0..BLOCK {
                block.charge[i] = towards(block.charge[i], 3.0 * w[i], tau[i]);
            }
        }
        Charging::Cochet => {
            for i in 0..BLOCK {
                block.charge[i] = towards(
                    block.charge[i],
                    3.0 * w[i] * block.charging_constant[i],
                    tau[i],
                );
            }
        }
        Charging::White => {
            for i in 0..BLOCK {
                block.charge[i] +=
                    ln(1.0 + block.charging_constant[i] * tau[i] * exp(-block.charge[i]));
            }
        }
    }
}

/// Field charging: with `θ = 1 − ν/ν_s`, `dθ/dτ = −θ²/4`, so `θ' = θ/(1 + θ τ/4)`. A grain charged above `ν_s` keeps its charge.
#[inline(always)]
fn towards(charge: f32, saturation: f32, tau: f32) -> f32 {
    let saturation = saturation.max(LEAST);
    let theta = (1.0 - charge / saturation).max(0.0);
    charge + saturation * (theta - theta / (1.0 + 0.25 * theta * tau))
}

/// Lawless' f: the share of the grain's surface that diffusing ions reach, 1 below W = 0.525.
#[inline(always)]
fn diffusion_share(w: f32) -> f32 {
    pow(w.max(0.525) + 0.475, -0.575)
}

#[inline(always)]
fn lawless(charge: f32, w: f32, f: f32, tau: f32) -> f32 {
    let saturation = (3.0 * w).max(LEAST);
    let theta = 1.0 - charge / saturation;
    let below = 0.25 * saturation * theta * theta + f;
    // x/(e^x − 1) and its slope, by their series near zero.
    let x = (charge - saturation).max(0.0);
    let small = x < 0.02;
    let e = exp(-x);
    let rest = 1.0 - e;
    let inverse = 1.0 / if small { 1.0 } else { x * rest };
    let g = if small {
        1.0 - 0.5 * x
    } else {
        x * x * e * inverse
    };
    let slope = if small {
        0.5 - x / 6.0
    } else {
        g * (x - rest) * inverse
    };
    let (rate, damping) = if charge > saturation {
        (f * g, f * slope)
    } else {
        (below, 0.5 * theta)
    };
    charge + tau * rate / (1.0 + 0.5 * tau * damping)
}
