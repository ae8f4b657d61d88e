//! The dust between wire and plate cut into thin sheets, moved on step by step where drift and mixing change.
//!
//! `u ∂c/∂x = ∂/∂y(D ∂c/∂y − wc)` on 0 ≤ y ≤ s; nothing passes y = 0, the plate at y = s takes only the drift flux wc.

mod transport;

use transport::Transport;

use crate::physics::PhysicsError;
use crate::physics::error::{length, not_negative, positive, require};

/// Half of the first stage of a step: γ/2 with γ = 2−√2, at which both stages share one matrix.
const HALF_GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
/// Weight of the first two fluxes of a step, √2/4; the last has γ/2.
const EARLY_WEIGHT: f64 = 0.5 * std::f64::consts::FRAC_1_SQRT_2;

/// Finite volumes over the half gap, with the work space of the solver.
///
/// In space the flux through a face is the central one, with just enough extra mixing (`D ≥ |w|h/2`) that no sheet of
/// width h takes from an empty one; along the gas a Crank–Nicolson stage is followed by a backward-difference stage
/// that damps what Crank–Nicolson would let ring (TR-BDF2). Should a coarse step still drive a value below zero, that
/// step is repeated for all scalars with two fully implicit halves, which cannot.
///
/// # Source
/// Faces: Patankar 1980, *Numerical Heat Transfer and Fluid Flow*, 5.2. Steps: Bank et al. 1985, IEEE Trans. Electron
/// Devices 32:1992; Hosea & Shampine 1996, Appl. Numer. Math. 20:21.
///
/// # Validity
/// Second order in sheet width and step while `|w|h/D < 2`; positive and free of ringing beyond, but then too mixed.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    faces_m: Vec<f64>,
    centres_m: Vec<f64>,
    widths_m: Vec<f64>,
    transport: Transport,
    start: Vec<f64>,
    middle: Vec<f64>,
    end: Vec<f64>,
}

/// One step of a column.
#[derive(Clone, Copy, Debug)]
pub struct ColumnStep<'a> {
    /// Length of the step: Δx in m where `weight` is a velocity, Δt in s where it is 1.
    pub step: f64,
    /// Drift w towards the plate at every face from y = 0 to y = s, m/s; one more than there are cells.
    pub face_drift_m_s: &'a [f64],
    /// Diffusivity D across at every face, m²/s, 0 or more.
    pub face_diffusivity_m2_s: &'a [f64],
    /// Gas velocity u of every cell, m/s (or 1 to march in time), above 0.
    pub weight: &'a [f64],
}

impl Column {
    /// Cells of equal width.
    ///
    /// # Arguments
    /// * `cells` – how many, 1 or more.
    /// * `gap_m` – s, m, above 0.
    ///
    /// # Errors
    /// No cells, or no gap.
    pub fn uniform(cells: usize, gap_m: f64) -> Result<Self, PhysicsError> {
        require(cells > 0, "cells", cells as f64, "1 or more")?;
        positive("gap_m", gap_m)?;
        let width_m = gap_m / cells as f64;
        Self::with_faces((0..=cells).map(|face| face as f64 * width_m).collect())
    }

    /// Cells between given faces.
    ///
    /// # Arguments
    /// * `faces_m` – distance of each face from the wire plane, m, from 0 to s, strictly rising.
    ///
    /// # Errors
    /// Fewer than two faces, a first face that is not 0, faces that do not rise.
    pub fn with_faces(faces_m: Vec<f64>) -> Result<Self, PhysicsError> {
        let first = faces_m.first().copied().unwrap_or(f64::NAN);
        require(first.abs() <= 0.0, "faces_m", first, "starting at 0")?;
        require(faces_m.len() > 1, "faces_m", first, "two or more")?;
        let widths_m: Vec<f64> = faces_m.windows(2).map(|pair| pair[1] - pair[0]).collect();
        for width_m in &widths_m {
            positive("width of a cell, m", *width_m)?;
        }
        let centres_m = faces_m
            .windows(2)
            .map(|pair| 0.5 * (pair[0] + pair[1]))
            .collect();
        let cells = widths_m.len();
        Ok(Self {
            faces_m,
            centres_m,
            widths_m,
            transport: Transport::new(cells),
            start: vec![0.0; cells],
            middle: vec![0.0; cells],
            end: vec![0.0; cells],
        })
    }

    /// Number of cells.
    #[must_use]
    pub fn cells(&self) -> usize {
        self.widths_m.len()
    }

    /// Distance of each face from the wire plane, m; one more than there are cells.
    #[must_use]
    pub fn faces_m(&self) -> &[f64] {
        &self.faces_m
    }

    /// Distance of the middle of each cell from the wire plane, m.
    #[must_use]
    pub fn centres_m(&self) -> &[f64] {
        &self.centres_m
    }

    /// Width of each cell, m.
    #[must_use]
    pub fn widths_m(&self) -> &[f64] {
        &self.widths_m
    }

    /// What a scalar adds up to over the half gap: `Σ u h c`.
    ///
    /// # Arguments
    /// * `weight` – u of every cell, as in [`ColumnStep::weight`].
    /// * `scalar` – c of every cell.
    ///
    /// # Source
    /// Definition.
    ///
    /// # Validity
    /// Exact for cell means.
    #[must_use]
    pub fn content(&self, weight: &[f64], scalar: &[f64]) -> f64 {
        let cells = self.widths_m.iter().zip(weight).zip(scalar);
        cells
            .map(|((width_m, weight), value)| width_m * weight * value)
            .sum()
    }

    /// Moves one or several scalars on by one step, all with the same drift, mixing and matrix.
    ///
    /// Equation: the file's first lines. What goes missing from a scalar's [`Self::content`] is what is reported as
    /// captured, to rounding.
    ///
    /// # Arguments
    /// * `step` – length, drift, diffusivity and weights; `Δ·w/(u h)` may be large, accuracy wants it below about 1.
    /// * `scalars` – cell means of each scalar, in and out.
    /// * `captured` – for each scalar, what the plate took: `∫wc dx`.
    ///
    /// # Source
    /// As [`Column`].
    ///
    /// # Validity
    /// As [`Column`].
    ///
    /// # Errors
    /// Lists of the wrong length; a step, diffusivity or weight outside its range. The scalars are then untouched.
    pub fn advance(
        &mut self,
        step: &ColumnStep<'_>,
        scalars: &mut [&mut [f64]],
        captured: &mut [f64],
    ) -> Result<(), PhysicsError> {
        self.check(step, scalars, captured)?;
        self.transport.assemble(&self.widths_m, step);
        self.transport.factorise(HALF_GAMMA * step.step);
        let mut ends = vec![0.0; self.cells() * scalars.len()];
        let mut positive = true;
        for (index, end) in ends.chunks_exact_mut(self.cells()).enumerate() {
            captured[index] = self.two_stage_step(step.step, scalars[index]);
            end.copy_from_slice(&self.end);
            positive &= keeps_sign(scalars[index], end);
        }
        if !positive {
            // All of them, so that ratios of scalars (charge per grain) stay the means of what they came from.
            self.transport.factorise(0.5 * step.step);
            for (index, end) in ends.chunks_exact_mut(self.cells()).enumerate() {
                captured[index] = self.two_implicit_halves(step.step, scalars[index]);
                end.copy_from_slice(&self.end);
            }
        }
        for (scalar, end) in scalars.iter_mut().zip(ends.chunks_exact(self.cells())) {
            scalar.copy_from_slice(end);
        }
        Ok(())
    }

    /// TR-BDF2: from `scalar` to `self.end`; returns what the plate took.
    fn two_stage_step(&mut self, step: f64, scalar: &[f64]) -> f64 {
        self.start.copy_from_slice(scalar);
        self.transport
            .explicit(HALF_GAMMA * step, &self.start, &mut self.middle);
        self.transport.solve(&mut self.middle);
        // [c₁ − (1−γ)²c₀]/(γ(2−γ)) with γ = 2−√2.
        let gamma = 2.0 * HALF_GAMMA;
        let scale = 1.0 / (gamma * (2.0 - gamma));
        let keep = (1.0 - gamma) * (1.0 - gamma);
        for (index, value) in self.end.iter_mut().enumerate() {
            let mixed = scale * (self.middle[index] - keep * self.start[index]);
            *value = self.transport.capacity[index] * mixed;
        }
        self.transport.solve(&mut self.end);
        let last = self.end.len() - 1;
        let early = EARLY_WEIGHT * (self.start[last] + self.middle[last]);
        step * self.transport.plate_drift_m_s * (early + HALF_GAMMA * self.end[last])
    }

    /// Two backward Euler steps from `scalar` to `self.end`; returns what the plate took.
    fn two_implicit_halves(&mut self, step: f64, scalar: &[f64]) -> f64 {
        self.end.copy_from_slice(scalar);
        let last = self.end.len() - 1;
        let mut taken = 0.0;
        for _ in 0..2 {
            for (value, capacity) in self.end.iter_mut().zip(&self.transport.capacity) {
                *value *= capacity;
            }
            self.transport.solve(&mut self.end);
            taken += 0.5 * step * self.transport.plate_drift_m_s * self.end[last];
        }
        taken
    }

    fn check(
        &self,
        step: &ColumnStep<'_>,
        scalars: &[&mut [f64]],
        captured: &[f64],
    ) -> Result<(), PhysicsError> {
        not_negative("step", step.step)?;
        length(
            "face_drift_m_s",
            step.face_drift_m_s.len(),
            self.cells() + 1,
        )?;
        length(
            "face_diffusivity_m2_s",
            step.face_diffusivity_m2_s.len(),
            self.cells() + 1,
        )?;
        for diffusivity in step.face_diffusivity_m2_s {
            not_negative("face_diffusivity_m2_s", *diffusivity)?;
        }
        length("weight", step.weight.len(), self.cells())?;
        length("captured", captured.len(), scalars.len())?;
        for weight in step.weight {
            positive("weight", *weight)?;
        }
        for drift in step.face_drift_m_s {
            require(drift.is_finite(), "face_drift_m_s", *drift, "finite")?;
        }
        scalars
            .iter()
            .try_for_each(|scalar| length("scalar", scalar.len(), self.cells()))
    }
}

/// Whether values that were all zero or more still are.
fn keeps_sign(before: &[f64], after: &[f64]) -> bool {
    after.iter().all(|value| *value >= 0.0) || before.iter().any(|value| *value < 0.0)
}

#[cfg(test)]
mod tests;
