//! The ions on their way from emitter to collector, a row at a time.
//!
//! `E·∇(1/ρ) = (1 + ρ_q/ρ)/ε₀`: what `∇·(ρ_i b E) = 0` and Poisson's equation make of the density along a path. From
//! each node the path is followed back to the row before, where the density is interpolated; so a row needs the one
//! before it and nothing else.

use super::mesh::Mesh;
use crate::physics::{PhysicsError, constants::VACUUM_PERMITTIVITY_F_M};

/// Paths must not turn back: the field towards the collector stays above this share of the mean field.
const LEAST_FIELD_SHARE: f64 = 1e-6;

/// Scratch rows of a march.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct March {
    forward: Vec<f64>,
    /// How many nodes a path drifts aside within the band.
    aside: Vec<f64>,
    /// Growth of 1/ρ within the band.
    growth: Vec<f64>,
    dust: Vec<f64>,
}

/// 1/ρ of the ions at every node, m³/C, in the field of `potential`; `dust` is the charge held by grains, C/m³.
///
/// # Errors
/// The field turns back towards the emitter somewhere, so that no ion gets there.
pub(super) fn march(
    mesh: &Mesh,
    potential: &[f64],
    dust: &[f64],
    emitter_inverse: f64,
    scratch: &mut March,
    inverse: &mut [f64],
) -> Result<(), PhysicsError> {
    let nodes = mesh.nodes;
    let last = mesh.rows() - 1;
    let mean_field = potential[last * nodes].abs() / mesh.p[last];
    inverse[last * nodes..].fill(emitter_inverse);
    for band in (0..last).rev() {
        let height = mesh.p[band + 1] - mesh.p[band];
        let (low, high) = (
            &potential[band * nodes..(band + 1) * nodes],
            &potential[(band + 1) * nodes..(band + 2) * nodes],
        );
        scratch.look(mesh, band, (low, high), dust);
        if scratch
            .forward
            .iter()
            .any(|field| field.is_nan() || *field <= LEAST_FIELD_SHARE * mean_field)
        {
            return Err(PhysicsError::Impossible {
                reason: "the charge in the gas turns the field back towards the wires".to_owned(),
            });
        }
        scratch.drift(height);
        let (here, before) = inverse.split_at_mut((band + 1) * nodes);
        scratch.carry(&before[..nodes], &mut here[band * nodes..]);
    }
    Ok(())
}

impl March {
    /// Field towards the collector and aside, and what the band adds.
    fn look(&mut self, mesh: &Mesh, band: usize, (low, high): (&[f64], &[f64]), dust: &[f64]) {
        let nodes = mesh.nodes;
        let height = mesh.p[band + 1] - mesh.p[band];
        let stretch = &mesh.between[band * nodes..(band + 1) * nodes];
        self.forward.clear();
        self.forward.extend(
            high.iter()
                .zip(low)
                .map(|(high, low)| (high - low) / height),
        );
        self.aside.clear();
        self.aside.resize(nodes, 0.0);
        let per_step = 0.25 / mesh.step;
        for node in 1..nodes - 1 {
            self.aside[node] = per_step
                * (low[node - 1] - low[node + 1] + high[node - 1] - high[node + 1])
                / self.forward[node];
        }
        self.growth.clear();
        self.growth.extend(
            stretch
                .iter()
                .zip(&self.forward)
                .map(|(stretch, field)| stretch / (VACUUM_PERMITTIVITY_F_M * field)),
        );
        self.dust.clear();
        if !dust.is_empty() {
            let here = &dust[band * nodes..(band + 1) * nodes];
            let before = &dust[(band + 1) * nodes..(band + 2) * nodes];
            self.dust
                .extend(here.iter().zip(before).map(|(a, b)| 0.5 * (a + b)));
        }
        for value in &mut self.aside {
            *value /= mesh.step;
        }
    }

    /// From slopes to what happens over the height of the band.
    fn drift(&mut self, height: f64) {
        for value in self.aside.iter_mut().chain(&mut self.growth) {
            *value *= height;
        }
    }

    fn carry(&self, before: &[f64], here: &mut [f64]) {
        for (node, inverse) in here.iter_mut().enumerate() {
            let place = node as f64;
            let mut aside = self.aside[node];
            aside = linear(&self.aside, place - 0.5 * aside);
            aside = linear(&self.aside, place - 0.5 * aside);
            let middle = place - 0.5 * aside;
            let start = cubic(before, place - aside);
            let growth = linear(&self.growth, middle);
            *inverse = if self.dust.is_empty() {
                start + growth
            } else {
                let rise = linear(&self.dust, middle) * growth;
                // (e^x − 1)/x, safe at small x.
                let share = if rise.abs() < 1e-6 {
                    1.0 + 0.5 * rise
                } else {
                    rise.exp_m1() / rise
                };
                start * rise.exp() + growth * share
            };
        }
    }
}

/// Between two nodes; beyond the ends the value there.
fn linear(values: &[f64], place: f64) -> f64 {
    let last = values.len() - 1;
    let place = place.clamp(0.0, last as f64);
    let below = (place as usize).min(last - 1);
    values[below] + (values[below + 1] - values[below]) * (place - below as f64)
}

/// Through four nodes, mirrored at both sides, and never beyond the two nodes next to the place.
fn cubic(values: &[f64], place: f64) -> f64 {
    let last = values.len() - 1;
    let place = place.abs().min(last as f64);
    let below = (place as usize).min(last - 1);
    let part = place - below as f64;
    let left = values[if below == 0 { 1 } else { below - 1 }];
    let (near, far) = (values[below], values[below + 1]);
    let right = values[if below + 2 > last {
        last - 1
    } else {
        below + 2
    }];
    let value = near
        + part
            * ((-2.0 * left - 3.0 * near + 6.0 * far - right) / 6.0
                + part
                    * (0.5 * (left - 2.0 * near + far)
                        + part * (right - left + 3.0 * (near - far)) / 6.0));
    // What is no number passes through; whoever asked refuses it.
    value.max(near.min(far)).min(near.max(far))
}
