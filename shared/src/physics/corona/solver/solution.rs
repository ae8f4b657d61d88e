//! What the solver found: potential, ions and current of one state, to be looked at anywhere.

use std::sync::Arc;

use super::mesh::Mesh;
use crate::physics::constants::VACUUM_PERMITTIVITY_F_M;

/// Potential, ions and current of one state.
///
/// Places are given in the rectangle of the shape's map, see [`super::Geometry`].
#[derive(Clone, Debug, PartialEq)]
pub struct CoronaSolution {
    /// Voltage between emitter and collector, V.
    pub voltage_v: f64,
    /// Voltage at which the current sets in with the dust that is in the gas, V.
    pub onset_v: f64,
    /// Current per metre of wire, A/m; between planes per area, A/m². 0 below onset.
    pub current_a_m: f64,
    /// Rounds until field and ions agreed.
    pub rounds: usize,
    pub(super) mesh: Arc<Mesh>,
    /// Potential at every node, V.
    pub(super) potential_v: Vec<f64>,
    /// Charge of the ions at every node, C/m³.
    pub(super) ions_c_m3: Vec<f64>,
    /// `∂φ/∂p` at every node, V.
    pub(super) slope_v: Vec<f64>,
    /// `−∂φ/∂ψ` at every node, V.
    pub(super) aside_v: Vec<f64>,
}

/// The state at one place of the rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Potential against the collector, V.
    pub potential_v: f64,
    /// Field towards the collector times `|dz/dζ|`, V: `∂φ/∂p`.
    pub towards_collector_v: f64,
    /// Field towards larger ψ times `|dz/dζ|`, V: `−∂φ/∂ψ`.
    pub aside_v: f64,
    /// Charge of the ions, C/m³.
    pub ions_c_m3: f64,
}

impl CoronaSolution {
    /// From the numbers at the nodes; `source_v` is `ρ|dz/dζ|²/ε₀` at every node, V.
    pub(super) fn new(
        mesh: &Arc<Mesh>,
        head: Head,
        potential_v: Vec<f64>,
        ions_c_m3: Vec<f64>,
        source_v: &[f64],
    ) -> Self {
        Self {
            voltage_v: head.voltage_v,
            onset_v: head.onset_v,
            current_a_m: head.current_a_m,
            rounds: head.rounds,
            slope_v: slopes(mesh, &potential_v, source_v),
            aside_v: asides(mesh, &potential_v),
            mesh: Arc::clone(mesh),
            potential_v,
            ions_c_m3,
        }
    }

    /// The state at a place of the rectangle.
    ///
    /// # Arguments
    /// * `p` – 0 at the collector to the emitter's.
    /// * `psi` – 0 to the shape's span.
    ///
    /// # Source
    /// Linear between the nodes.
    ///
    /// # Validity
    /// As [`super::CoronaSolver`].
    #[must_use]
    pub fn at(&self, p: f64, psi: f64) -> Place {
        let mesh = &self.mesh;
        let band = mesh.band(p);
        let up = (p - mesh.p[band]) / (mesh.p[band + 1] - mesh.p[band]);
        let columns = mesh.nodes - 1;
        let place = (psi / mesh.step).clamp(0.0, columns as f64);
        let left = (place as usize).min(columns - 1);
        let along = place - left as f64;
        let corner = band * mesh.nodes + left;
        let between = |values: &[f64]| {
            let row = |start: usize| values[start] + along * (values[start + 1] - values[start]);
            let (low, high) = (row(corner), row(corner + mesh.nodes));
            low + up.clamp(0.0, 1.0) * (high - low)
        };
        Place {
            potential_v: between(&self.potential_v),
            towards_collector_v: between(&self.slope_v),
            aside_v: between(&self.aside_v),
            ions_c_m3: between(&self.ions_c_m3),
        }
    }

    /// The collector's nodes: ψ, share of the span, `∂φ/∂p` in V and the charge of the ions in C/m³.
    pub(crate) fn collector(&self) -> impl Iterator<Item = (f64, f64, f64, f64)> + '_ {
        (0..self.mesh.nodes).map(|node| {
            (
                node as f64 * self.mesh.step,
                self.mesh.share(node),
                self.slope_v[node],
                self.ions_c_m3[node],
            )
        })
    }
}

/// The numbers of a solution that are not at nodes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Head {
    pub(super) voltage_v: f64,
    pub(super) onset_v: f64,
    pub(super) current_a_m: f64,
    pub(super) rounds: usize,
}

/// `∂φ/∂p` at every node: at the two ends the potential's curve is its source alone.
fn slopes(mesh: &Mesh, potential: &[f64], source: &[f64]) -> Vec<f64> {
    let (nodes, last) = (mesh.nodes, mesh.rows() - 1);
    let mut slopes = vec![0.0; potential.len()];
    for row in 0..=last {
        for node in 0..nodes {
            let here = row * nodes + node;
            let rise = |band: usize| {
                let low = band * nodes + node;
                (potential[low + nodes] - potential[low]) / (mesh.p[band + 1] - mesh.p[band])
            };
            slopes[here] = if row == 0 {
                rise(0) + 0.5 * mesh.p[1] * source[here]
            } else if row == last {
                rise(last - 1) - 0.5 * (mesh.p[last] - mesh.p[last - 1]) * source[here]
            } else {
                // The parabola through three uneven rows.
                let below = mesh.p[row] - mesh.p[row - 1];
                let above = mesh.p[row + 1] - mesh.p[row];
                (above * rise(row - 1) + below * rise(row)) / (below + above)
            };
        }
    }
    slopes
}

/// `−∂φ/∂ψ` at every node; none at the sides, which are mirrors.
fn asides(mesh: &Mesh, potential: &[f64]) -> Vec<f64> {
    let nodes = mesh.nodes;
    let mut asides = vec![0.0; potential.len()];
    for row in 0..mesh.rows() {
        for node in 1..nodes - 1 {
            let here = row * nodes + node;
            asides[here] = (potential[here - 1] - potential[here + 1]) / (2.0 * mesh.step);
        }
    }
    asides
}

/// `ρ|dz/dζ|²/ε₀` of one charge at one node, V.
pub(super) fn source_v(stretch_m2: f64, charge_c_m3: f64) -> f64 {
    stretch_m2 * charge_c_m3 / VACUUM_PERMITTIVITY_F_M
}
