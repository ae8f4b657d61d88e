//! Gusts: the visible swirls of the gas in a passage, drawn from smooth noise so that they neither gather nor thin dust.
//!
//! The stream function `ψ(ξ, y, t) = Σ_k sin(kπ(y+s)/2s)·n_k(ξ, t)` vanishes at both plates, so no gust blows through
//! them; `n_k` is four-dimensional gradient noise wound round two circles, so the pattern repeats without a seam in
//! the direction of the gas and in time. Velocities are its curl, u = ∂ψ/∂y, v = −∂ψ/∂ξ, taken on the faces of a
//! grid and linear in between: free of divergence in every cell, which leaves a uniform cloud uniform.
//! The pattern travels with the gas while it changes.

mod spreading;

use std::sync::OnceLock;

use noise::{NoiseFn, Perlin};
use spreading::Spreading;

use super::{
    parcels::{BLOCK, Lanes},
    vector_math::{floor, low_bits},
};

/// RMS of the gust velocity across the passage over the gas velocity: a teaching setting, small against the 10–20 %
/// turbulence of real collectors because the eddy diffusivity is added separately.
pub const INTENSITY: f64 = 0.04;
/// Length of the pattern along the gas, in gaps.
const PERIOD_GAPS: f64 = 8.0;
/// Pattern lengths that the gas travels while the pattern repeats in time.
const PERIODS_PER_CYCLE: f64 = 16.0;

const ALONG: usize = 64;
const ACROSS: usize = 16;
const CELLS_PER_GAP: f64 = ALONG as f64 / PERIOD_GAPS;
const CELLS: usize = ALONG * ACROSS;
/// Pictures of the pattern in one cycle; each stands still for a few steps.
const PICTURES: usize = 512;
/// Modes across the gap.
const MODES: u32 = 4;
/// Radii of the circles that the noise is wound on: how many swirls fit on a period, along and in time.
const ALONG_RADIUS: f64 = 1.6;
const TIME_RADIUS: f64 = 5.2;

/// Velocities on the four faces of a cell, in units of the gas velocity: u at low and high ξ, v at low and high y.
type Faces = [f32; 4];
/// The pattern at one moment.
type Picture = [Faces; CELLS];

/// The gust pattern in units of the gap and the gas velocity, the same for every run.
#[derive(Debug)]
pub(crate) struct Pattern {
    pictures: Vec<Picture>,
}

impl Pattern {
    /// The pattern after it has travelled so many gaps, from a moment of its cycle on; lengths in gaps, velocities in
    /// those of the gas.
    fn at_gaps(&self, first_periods: f64, travelled_gaps: f64) -> GustsNow<'_> {
        let periods = first_periods + travelled_gaps / PERIOD_GAPS;
        GustsNow {
            picture: self.picture(periods),
            cells_per_m: CELLS_PER_GAP as f32,
            travelled_cells: (periods.fract() * ALONG as f64) as f32,
            gaps_per_m: 1.0,
            velocity_m_s: 1.0,
            stretch: CELLS_PER_GAP as f32,
        }
    }

    /// The picture that stands after so many lengths of the pattern.
    fn picture(&self, periods: f64) -> &Picture {
        let cycle = (periods / PERIODS_PER_CYCLE).fract();
        let picture = (cycle * PICTURES as f64) as usize;
        &self.pictures[picture.min(PICTURES - 1)]
    }
}

/// The gusts of one passage.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Gusts {
    pattern: &'static Pattern,
    velocity_m_s: f64,
    gap_m: f64,
}

/// The gusts during one step.
#[derive(Clone, Copy, Debug)]
pub(crate) struct GustsNow<'a> {
    picture: &'a Picture,
    cells_per_m: f32,
    travelled_cells: f32,
    gaps_per_m: f32,
    velocity_m_s: f32,
    /// ∂u/∂x per difference of u over a cell, 1/s.
    stretch: f32,
}

/// Gust velocities of a block.
#[derive(Clone, Copy, Debug)]
pub(crate) struct GustBlock {
    /// Along the gas, m/s.
    pub(crate) along: Lanes,
    /// Across, m/s.
    pub(crate) across: Lanes,
    /// ∂u/∂x = −∂v/∂y, 1/s.
    pub(crate) stretch: Lanes,
}

impl Gusts {
    /// Gusts of a passage with wire-to-plate distance `gap_m` and mean gas velocity `velocity_m_s`.
    pub(crate) fn new(gap_m: f64, velocity_m_s: f64) -> Self {
        Self {
            pattern: pattern(),
            velocity_m_s,
            gap_m,
        }
    }

    /// Diffusivity across the passage that tracers in these gusts showed, m²/s: mean over the gap, in gas that travels
    /// with them.
    pub(crate) fn diffusivity_m2_s(&self) -> f64 {
        spreading().mean() * self.velocity_m_s * self.gap_m
    }

    /// The same at a distance from the wire line, in gas of a velocity over the mean.
    pub(crate) fn diffusivity_at_m2_s(&self, across_m: f64, relative_velocity: f64) -> f64 {
        let place = across_m / self.gap_m;
        spreading().at(place, relative_velocity) * self.velocity_m_s * self.gap_m
    }

    /// The gusts at a time.
    pub(crate) fn at(&self, time_s: f64) -> GustsNow<'static> {
        let periods = time_s * self.velocity_m_s / (self.gap_m * PERIOD_GAPS);
        GustsNow {
            picture: self.pattern.picture(periods),
            cells_per_m: (CELLS_PER_GAP / self.gap_m) as f32,
            travelled_cells: (periods.fract() * ALONG as f64) as f32,
            gaps_per_m: (1.0 / self.gap_m) as f32,
            velocity_m_s: self.velocity_m_s as f32,
            stretch: (self.velocity_m_s * CELLS_PER_GAP / self.gap_m) as f32,
        }
    }
}

impl GustsNow<'_> {
    /// Velocity along and across at one place, m/s.
    pub(crate) fn velocity_m_s(&self, along_m: f32, across_m: f32) -> (f32, f32) {
        let gust = self.block(&[along_m; BLOCK], &[across_m; BLOCK], &[0.0; BLOCK]);
        (gust.along[0], gust.across[0])
    }

    /// The gusts at the places of a block; `offset` shifts each parcel along the pattern, in cells.
    #[inline(always)]
    pub(crate) fn block(&self, along_m: &Lanes, across_m: &Lanes, offset: &Lanes) -> GustBlock {
        let mut cell = [0_u32; BLOCK];
        let (mut part_along, mut part_across) = ([0.0; BLOCK], [0.0; BLOCK]);
        for i in 0..BLOCK {
            let along = along_m[i] * self.cells_per_m + offset[i] - self.travelled_cells;
            let across = (across_m[i] * self.gaps_per_m + 1.0) * (0.5 * ACROSS as f32);
            let across = across.clamp(0.0, ACROSS as f32 - 0.001);
            let (whole_along, whole_across) = (floor(along), floor(across));
            let column = low_bits(whole_along) & (ALONG as u32 - 1);
            cell[i] = column * ACROSS as u32 + low_bits(whole_across);
            part_along[i] = along - whole_along;
            part_across[i] = across - whole_across;
        }
        let faces: [Faces; BLOCK] =
            std::array::from_fn(|i| self.picture[cell[i] as usize & (CELLS - 1)]);
        let mut block = GustBlock {
            along: [0.0; BLOCK],
            across: [0.0; BLOCK],
            stretch: [0.0; BLOCK],
        };
        for i in 0..BLOCK {
            let [u_low, u_high, v_low, v_high] = faces[i];
            let slope = u_high - u_low;
            block.along[i] = (u_low + slope * part_along[i]) * self.velocity_m_s;
            block.across[i] = (v_low + (v_high - v_low) * part_across[i]) * self.velocity_m_s;
            block.stretch[i] = slope * self.stretch;
        }
        block
    }
}

/// How far across a gust carries a parcel in `time_s`, without changing areas: the stretch along the gas and the squeeze
/// across cancel exactly within a cell.
#[inline(always)]
pub(crate) fn carried(across_m_s: f32, stretch_per_s: f32, time_s: f32) -> f32 {
    time_s * across_m_s / (1.0 + time_s * stretch_per_s)
}

/// Cells by which a fresh parcel of a batch is shifted along the pattern, so that parcels are independent.
pub(crate) fn random_offset(random: f64) -> f32 {
    (random * ALONG as f64) as f32
}

/// The pattern, made on first use.
fn pattern() -> &'static Pattern {
    static PATTERN: OnceLock<Pattern> = OnceLock::new();
    PATTERN.get_or_init(|| Pattern {
        pictures: pictures(),
    })
}

/// What tracers show in it, measured on first use.
fn spreading() -> &'static Spreading {
    static SPREADING: OnceLock<Spreading> = OnceLock::new();
    SPREADING.get_or_init(|| Spreading::measured(pattern()))
}

/// Differences of ψ on the faces, scaled to the intensity.
fn pictures() -> Vec<Picture> {
    let cells: Vec<Vec<[f64; 4]>> = (0..PICTURES).map(picture).collect();
    let square = |cell: &[f64; 4]| 0.25 * (cell[2] + cell[3]).powi(2);
    let mean_square = cells.iter().flatten().map(square).sum::<f64>() / (PICTURES * CELLS) as f64;
    let scale = INTENSITY / mean_square.sqrt();
    cells
        .iter()
        .map(|cells| {
            let mut picture = [[0.0; 4]; CELLS];
            for (faces, cell) in picture.iter_mut().zip(cells) {
                *faces = cell.map(|velocity| (velocity * scale) as f32);
            }
            picture
        })
        .collect()
}

fn picture(time: usize) -> Vec<[f64; 4]> {
    let nodes = stream_function(time);
    let (step_along, step_across) = (1.0 / CELLS_PER_GAP, 2.0 / ACROSS as f64);
    (0..CELLS)
        .map(|cell| {
            let corner = |da: usize, dy: usize| {
                nodes[(cell / ACROSS + da) % ALONG * (ACROSS + 1) + cell % ACROSS + dy]
            };
            [
                (corner(0, 1) - corner(0, 0)) / step_across,
                (corner(1, 1) - corner(1, 0)) / step_across,
                -(corner(1, 0) - corner(0, 0)) / step_along,
                -(corner(1, 1) - corner(0, 1)) / step_along,
            ]
        })
        .collect()
}

/// ψ on (along, across) nodes at one moment, zero at both plates.
fn stream_function(time: usize) -> Vec<f64> {
    let mut nodes = vec![0.0; ALONG * (ACROSS + 1)];
    let (sine_time, cosine_time) = turn(time, PICTURES);
    for mode in 1..=MODES {
        let noise = Perlin::new(mode);
        for along in 0..ALONG {
            let (sine, cosine) = turn(along, ALONG);
            let strength = noise.get([
                ALONG_RADIUS * cosine,
                ALONG_RADIUS * sine,
                TIME_RADIUS * cosine_time,
                TIME_RADIUS * sine_time,
            ]) / f64::from(mode);
            for across in 1..ACROSS {
                let angle = std::f64::consts::PI * f64::from(mode) * across as f64 / ACROSS as f64;
                nodes[along * (ACROSS + 1) + across] += strength * angle.sin();
            }
        }
    }
    nodes
}

fn turn(index: usize, count: usize) -> (f64, f64) {
    (std::f64::consts::TAU * index as f64 / count as f64).sin_cos()
}
