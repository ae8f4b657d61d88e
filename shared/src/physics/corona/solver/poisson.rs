//! Poisson's equation on the grid: a cosine transform along ψ, a tridiagonal solve along p for every wave.
//!
//! `φ_pp + φ_ψψ = −S`, `S = ρ|dz/dζ|²/ε₀`, φ = 0 on the collector and V on the emitter, no flux through the sides.

use std::f64::consts::PI;

use super::mesh::Mesh;

/// What a solve needs of the grid, worked out once.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Poisson {
    /// cos(π m i/N), by node and wave.
    cosines: Vec<f64>,
    /// Weight of each wave in the transform there.
    weights: Vec<f64>,
    /// 1/pivot of the elimination, by row and wave.
    pivots: Vec<f64>,
    /// Spectrum of the source and of the potential, by row and wave.
    spectrum: Vec<f64>,
}

impl Poisson {
    pub(super) fn new(mesh: &Mesh) -> Self {
        let (nodes, rows) = (mesh.nodes, mesh.rows());
        let columns = nodes - 1;
        let mut cosines = Vec::with_capacity(nodes * nodes);
        for node in 0..nodes {
            for wave in 0..nodes {
                // Whole turns taken off first, so that the table is exact where it should be.
                let turns = (node * wave) % (2 * columns);
                cosines.push((PI * turns as f64 / columns as f64).cos());
            }
        }
        let ends = |wave: usize| {
            if wave == 0 || wave == columns {
                1.0
            } else {
                2.0
            }
        };
        let mut pivots = vec![0.0; rows * nodes];
        for wave in 0..nodes {
            let square = (PI * wave as f64 / (columns as f64 * mesh.step)).powi(2);
            let mut previous = 0.0;
            for row in 1..rows - 1 {
                let below = 1.0 / (mesh.p[row] - mesh.p[row - 1]);
                let above = 1.0 / (mesh.p[row + 1] - mesh.p[row]);
                let diagonal = below + above + square * mesh.height(row) - below * below * previous;
                previous = 1.0 / diagonal;
                pivots[row * nodes + wave] = previous;
            }
        }
        Self {
            cosines,
            weights: (0..nodes).map(ends).collect(),
            pivots,
            spectrum: vec![0.0; rows * nodes],
        }
    }

    /// Solves for the potential of a source with the emitter at `emitter_v`.
    pub(super) fn solve(
        &mut self,
        mesh: &Mesh,
        source: &[f64],
        emitter_v: f64,
        potential: &mut [f64],
    ) {
        let (nodes, rows) = (mesh.nodes, mesh.rows());
        self.transform(mesh, source);
        let last = (rows - 1) * nodes;
        self.spectrum[..nodes].fill(0.0);
        self.spectrum[last..].fill(0.0);
        self.spectrum[last] = emitter_v;
        for row in 1..rows - 1 {
            let below = 1.0 / (mesh.p[row] - mesh.p[row - 1]);
            let height = mesh.height(row);
            let (done, rest) = self.spectrum.split_at_mut(row * nodes);
            let previous = &done[(row - 1) * nodes..];
            let pivots = &self.pivots[(row - 1) * nodes..row * nodes];
            for wave in 0..nodes {
                rest[wave] = rest[wave] * height + below * pivots[wave] * previous[wave];
            }
        }
        for row in (1..rows - 1).rev() {
            let above = 1.0 / (mesh.p[row + 1] - mesh.p[row]);
            let (done, rest) = self.spectrum.split_at_mut((row + 1) * nodes);
            let here = &mut done[row * nodes..];
            let pivots = &self.pivots[row * nodes..(row + 1) * nodes];
            for wave in 0..nodes {
                here[wave] = (here[wave] + above * rest[wave]) * pivots[wave];
            }
        }
        potential.fill(0.0);
        for row in 0..rows {
            let out = &mut potential[row * nodes..(row + 1) * nodes];
            for wave in 0..nodes {
                let size = self.spectrum[row * nodes + wave];
                let cosines = &self.cosines[wave * nodes..(wave + 1) * nodes];
                for (value, cosine) in out.iter_mut().zip(cosines) {
                    *value += size * cosine;
                }
            }
        }
    }

    fn transform(&mut self, mesh: &Mesh, source: &[f64]) {
        let nodes = mesh.nodes;
        self.spectrum.fill(0.0);
        for row in 1..mesh.rows() - 1 {
            let out = &mut self.spectrum[row * nodes..(row + 1) * nodes];
            for node in 0..nodes {
                let value = source[row * nodes + node] * mesh.share(node);
                let cosines = &self.cosines[node * nodes..(node + 1) * nodes];
                for (sum, cosine) in out.iter_mut().zip(cosines) {
                    *sum += value * cosine;
                }
            }
            for (sum, weight) in out.iter_mut().zip(&self.weights) {
                *sum *= weight;
            }
        }
    }
}
