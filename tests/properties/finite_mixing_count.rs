//! Counting particles converges to the diffusion model: a million parcels at 200 steps against the exact solution.
//!
//! Exact values: T1 of the physics specification, computed four ways (series, transform inversion, march, count); laminar
//! limit for any profile with a flux-weighted inlet, P = max(0, 1 − De), computed.
//!
//! The criterion must see the usual mistakes: a scalar counter of the same recipe passes it, and the same counter with
//! one mistake does not.

use ashlane_shared::{
    conditions::{Mixing, Profile},
    physics::efficiency::penetration,
};
use ashlane_tests::{counted, diffusivity_m2_s, textbook};

const PARCELS: usize = 1_000_000;
const STEPS: u32 = 200;
const PECLETS: [f64; 4] = [0.1, 1.0, 10.0, 100.0];
const DEUTSCHS: [f64; 3] = [0.5, 1.0, 2.0];

fn standard_error(share: f64, parcels: usize) -> f64 {
    (share * (1.0 - share) / parcels as f64).sqrt()
}

/// Scores (count − exact)/σ of the cells, and the count of the one cell where nothing should be left.
fn scores(parcels: usize, count: impl Fn(f64, f64) -> f64) -> (Vec<f64>, f64) {
    let mut scores = Vec::new();
    let mut empty_cell = 0.0;
    for peclet in PECLETS {
        for deutsch in DEUTSCHS {
            let exact = penetration(peclet, deutsch).expect("a solution");
            let share = count(peclet, deutsch);
            if exact < 1e-6 {
                empty_cell = share * parcels as f64;
            } else {
                scores.push((share - exact) / standard_error(exact, parcels));
            }
        }
    }
    (scores, empty_cell)
}

/// Whether scores are those of chance alone.
fn is_chance(scores: &[f64]) -> bool {
    let mean = scores.iter().sum::<f64>() / scores.len() as f64;
    scores.iter().all(|score| score.abs() < 4.0) && mean.abs() * (scores.len() as f64).sqrt() < 3.0
}

#[test]
fn twelve_cells_agree_with_the_exact_solution() {
    let count = |peclet: f64, deutsch: f64| {
        let mixing = Mixing::Diffusivity(diffusivity_m2_s(deutsch, STEPS, peclet));
        counted(&textbook(deutsch, STEPS, mixing, Profile::Flat), PARCELS, 1)
            .penetration
            .share
    };
    let (scores, empty_cell) = scores(PARCELS, count);
    assert_eq!(scores.len(), 11, "cells with something left");
    assert!(is_chance(&scores), "scores {scores:.2?}");
    // P = 8e-9 at Pe 100, De 2: a million parcels leave one behind once in 120 runs.
    assert!(
        empty_cell <= 1.0,
        "{empty_cell} parcels where none should be left"
    );
}

#[test]
fn laminar_flow_agrees_for_both_profiles() {
    for profile in [Profile::Flat, Profile::Parabolic] {
        for deutsch in [0.25_f64, 0.5, 0.9] {
            let share = counted(&textbook(deutsch, STEPS, Mixing::None, profile), PARCELS, 2)
                .penetration
                .share;
            let score = (share - (1.0 - deutsch)) / standard_error(deutsch, PARCELS);
            assert!(
                score.abs() < 4.0,
                "{profile:?}, De {deutsch}: {share}, {score:.2} σ off"
            );
        }
        let share = counted(&textbook(1.1, STEPS, Mixing::None, profile), PARCELS, 3)
            .penetration
            .share;
        // In the slow gas at the plates of a parabola 1 % of the velocity is the floor, see `step`.
        assert!(share < 1e-4, "{profile:?}: {share} left beyond De = 1");
    }
}

#[test]
fn perfect_mixing_agrees_with_deutsch() {
    for deutsch in [0.5_f64, 2.0, 4.0] {
        let exact = (-deutsch).exp();
        let share = counted(
            &textbook(deutsch, STEPS, Mixing::Full, Profile::Flat),
            PARCELS,
            4,
        )
        .penetration
        .share;
        let score = (share - exact) / standard_error(exact, PARCELS);
        assert!(score.abs() < 4.0, "De {deutsch}: {share}, {score:.2} σ off");
    }
}

/// A mistake that a counter could make.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Mistake {
    None,
    AbsorbOnAnyCrossing,
    NoFold,
    /// The last of the steps is only half flown.
    HalfStep,
}

/// The recipe in plain scalar form, in units of the gap and the flight, with its own generator.
fn scalar_count(peclet: f64, deutsch: f64, parcels: usize, steps: u32, mistake: Mistake) -> f64 {
    let mut state = 0x9e37_79b9_7f4a_7c15_u64;
    // SplitMix64 (Steele, Lea & Flood 2014), to be independent of the project's generator.
    let mut unit = || {
        state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = state;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    };
    let step = 1.0 / f64::from(steps);
    let mut left = 0;
    for _ in 0..parcels {
        let mut y = 2.0 * unit() - 1.0;
        let mut caught = false;
        for index in 0..steps {
            let time = if mistake == Mistake::HalfStep && index + 1 == steps {
                0.5 * step
            } else {
                step
            };
            let normal =
                (-2.0 * (1.0 - unit()).ln()).sqrt() * (std::f64::consts::TAU * unit()).cos();
            y += (2.0 * deutsch / peclet * time).sqrt() * normal;
            if mistake == Mistake::AbsorbOnAnyCrossing && y.abs() >= 1.0 {
                caught = true;
                break;
            }
            if mistake == Mistake::NoFold {
                y = y.clamp(-1.0, 1.0);
            } else {
                while y.abs() > 1.0 {
                    y = y.signum() * (2.0 - y.abs());
                }
            }
            y += y.signum() * deutsch * time;
            if y.abs() >= 1.0 {
                caught = true;
                break;
            }
        }
        left += u32::from(!caught);
    }
    f64::from(left) / parcels as f64
}

#[test]
fn the_criterion_passes_the_recipe_and_sees_each_mistake() {
    let parcels = 40_000;
    let verdict = |mistake: Mistake, steps: u32| {
        is_chance(
            &scores(parcels, |peclet, deutsch| {
                scalar_count(peclet, deutsch, parcels, steps, mistake)
            })
            .0,
        )
    };
    assert!(verdict(Mistake::None, STEPS), "the recipe itself fails");
    assert!(
        !verdict(Mistake::AbsorbOnAnyCrossing, STEPS),
        "absorbing on any crossing goes unseen"
    );
    assert!(
        !verdict(Mistake::NoFold, STEPS),
        "a missing fold goes unseen"
    );
    assert!(
        !verdict(Mistake::HalfStep, 20),
        "half a step at 20 steps goes unseen"
    );
}
