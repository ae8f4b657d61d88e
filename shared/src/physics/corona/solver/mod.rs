//! The corona, computed: Poisson's equation with drifting ions between emitter and collector, in two dimensions.
//!
//! `∇²φ = −(ρ_i+ρ_q)/ε₀`, `∇·(ρ_i b E) = 0`, mean field at the emitter held at its onset value while current flows.
//! The shape is stretched into a rectangle by an analytic map ([`geometry`]), where the equations keep their form; the
//! ions are followed row by row ([`ions`](self)), the potential comes from a cosine transform along the rows and a
//! tridiagonal solve across them. Both are repeated until they agree.

pub mod geometry;
mod ions;
mod mesh;
mod poisson;
mod solution;
mod solve;

pub use geometry::{Coaxial, Geometry, ParallelPlanes, WireOverPlane};
pub use mesh::Fineness;
pub use solution::{CoronaSolution, Place};
pub use solve::{Corona, CoronaSolver};
