//! What drift and mixing carry from sheet to sheet, and how the equations of one step are solved.
//!
//! Through the face between cells i and i+1 flows `up·c_i − down·c_{i+1}`, both coefficients 0 or more.

use super::ColumnStep;

/// The three diagonals of the transport across the gap: `capacity·dc/dx = inflow − outflow`.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Transport {
    /// u h of each cell.
    pub(super) capacity: Vec<f64>,
    /// What face f carries up per unit of the cell below it, m/s.
    up: Vec<f64>,
    /// What face f carries down per unit of the cell above it, m/s.
    down: Vec<f64>,
    pub(super) plate_drift_m_s: f64,
    theta: f64,
    pivot: Vec<f64>,
    ratio: Vec<f64>,
}

impl Transport {
    pub(super) fn new(cells: usize) -> Self {
        Self {
            capacity: vec![0.0; cells],
            up: vec![0.0; cells + 1],
            down: vec![0.0; cells + 1],
            plate_drift_m_s: 0.0,
            theta: 0.0,
            pivot: vec![0.0; cells],
            ratio: vec![0.0; cells],
        }
    }

    pub(super) fn assemble(&mut self, widths_m: &[f64], step: &ColumnStep<'_>) {
        let cells = widths_m.len();
        for (capacity, (width_m, weight)) in self
            .capacity
            .iter_mut()
            .zip(widths_m.iter().zip(step.weight))
        {
            *capacity = width_m * weight;
        }
        for face in 1..cells {
            let (below_m, above_m) = (widths_m[face - 1], widths_m[face]);
            let drift = step.face_drift_m_s[face];
            // The cell that the drift leaves sets the extra mixing, so that neither coefficient turns negative.
            let upwind_m = if drift > 0.0 { below_m } else { above_m };
            let mixing = step.face_diffusivity_m2_s[face].max(0.5 * drift.abs() * upwind_m);
            let both_m = below_m + above_m;
            self.up[face] = (2.0 * mixing + drift * above_m) / both_m;
            self.down[face] = (2.0 * mixing - drift * below_m) / both_m;
        }
        self.plate_drift_m_s = step.face_drift_m_s[cells].max(0.0);
        self.up[cells] = self.plate_drift_m_s;
    }

    /// `(capacity + θ·transport)·value`.
    pub(super) fn explicit(&self, theta: f64, value: &[f64], result: &mut [f64]) {
        let last = value.len() - 1;
        for (index, out) in result.iter_mut().enumerate() {
            let mut gain = -(self.down[index] + self.up[index + 1]) * value[index];
            if index > 0 {
                gain += self.up[index] * value[index - 1];
            }
            if index < last {
                gain += self.down[index + 1] * value[index + 1];
            }
            *out = self.capacity[index] * value[index] + theta * gain;
        }
    }

    /// Prepares the solution of `(capacity − θ·transport)·x = b` (Thomas 1949).
    ///
    /// Its columns are dominated by the diagonal at every θ, so no pivoting is needed.
    pub(super) fn factorise(&mut self, theta: f64) {
        self.theta = theta;
        let cells = self.capacity.len();
        for index in 0..cells {
            let diagonal = self.capacity[index] + theta * (self.down[index] + self.up[index + 1]);
            let carried = if index > 0 {
                theta * self.up[index] * self.ratio[index - 1]
            } else {
                0.0
            };
            self.pivot[index] = diagonal - carried;
            self.ratio[index] = if index + 1 < cells {
                theta * self.down[index + 1] / self.pivot[index]
            } else {
                0.0
            };
        }
    }

    /// Replaces the right side by the solution.
    pub(super) fn solve(&self, side: &mut [f64]) {
        let mut before = 0.0;
        for (index, value) in side.iter_mut().enumerate() {
            let carried = if index > 0 {
                self.theta * self.up[index] * before
            } else {
                0.0
            };
            before = (*value + carried) / self.pivot[index];
            *value = before;
        }
        let mut after = 0.0;
        for (value, ratio) in side.iter_mut().zip(&self.ratio).rev() {
            *value += ratio * after;
            after = *value;
        }
    }
}
