//! The shapes that the solver knows, each stretched into a plain rectangle.
//!
//! Every shape gives an analytic map `z(ζ)`, `ζ = −p + iψ`, that turns the gas between emitter and collector into the
//! rectangle `p ∈ [0, p_w]` (collector to emitter), `ψ ∈ [0, span]`. Laplace's part of the potential is then `p` itself,
//! and a solver needs nothing of the shape but the stretch `|dz/dζ|²`.

use std::f64::consts::{FRAC_PI_2, PI};

use super::super::WireRow;

/// A shape with its map.
pub trait Geometry {
    /// `p` of the emitter: its potential without space charge in units of `λ'/(2πε₀)`.
    fn emitter_p(&self) -> f64;
    /// Extent of ψ.
    fn span(&self) -> f64;
    /// How many such rectangles lie around one emitter.
    fn copies(&self) -> f64;
    /// `|dz/dζ|` at the emitter, m: the radius of a wire.
    fn emitter_scale_m(&self) -> f64;
    /// `|dz/dζ|²`, m².
    fn stretch_m2(&self, p: f64, psi: f64) -> f64;
    /// `p` on the side ψ = 0 where the stretch is infinite, but its integral is not.
    fn singular_p(&self) -> Option<f64> {
        None
    }
    /// `p` at which the rows of the grid are closest.
    fn finest_p(&self) -> f64 {
        self.singular_p().unwrap_or(0.0)
    }
    /// How fast the rows widen away from there, per unit of `p`.
    fn widening(&self) -> f64 {
        0.25
    }
    /// Distance from the wire plane, the axis or the emitting plane, m: dust is spread by it.
    fn depth_m(&self, p: f64, psi: f64) -> f64;
}

impl Geometry for WireRow {
    fn emitter_p(&self) -> f64 {
        self.log_ratio()
    }

    fn span(&self) -> f64 {
        FRAC_PI_2
    }

    fn copies(&self) -> f64 {
        4.0
    }

    fn emitter_scale_m(&self) -> f64 {
        self.wire_radius_m()
    }

    fn stretch_m2(&self, p: f64, psi: f64) -> f64 {
        let jacobi = self.jacobi();
        let scale_m = self.pitch_m() / (2.0 * jacobi.complete_integral);
        let square = (-2.0 * p).exp() / jacobi.modulus;
        let near = from_one(square, 2.0 * psi);
        let far = from_one(square * jacobi.modulus * jacobi.modulus, 2.0 * psi);
        scale_m * scale_m * square / (near * far).sqrt()
    }

    fn singular_p(&self) -> Option<f64> {
        // Midway between two wires, t = 1.
        Some(-0.5 * self.jacobi().modulus.ln())
    }

    fn depth_m(&self, p: f64, psi: f64) -> f64 {
        self.place_m(p, psi).1
    }
}

impl WireRow {
    /// `|dz/dζ|` at a point of the rectangle, m.
    pub(crate) fn stretch_m(&self, p: f64, psi: f64) -> f64 {
        self.stretch_m2(p, psi).sqrt()
    }
}

/// A wire in the axis of a tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coaxial {
    /// Radius of the wire, m.
    pub wire_radius_m: f64,
    /// Radius of the tube, m.
    pub tube_radius_m: f64,
}

impl Geometry for Coaxial {
    fn emitter_p(&self) -> f64 {
        (self.tube_radius_m / self.wire_radius_m).ln()
    }

    fn span(&self) -> f64 {
        FRAC_PI_2
    }

    fn copies(&self) -> f64 {
        4.0
    }

    fn emitter_scale_m(&self) -> f64 {
        self.wire_radius_m
    }

    fn stretch_m2(&self, p: f64, _psi: f64) -> f64 {
        self.depth_m(p, 0.0).powi(2)
    }

    fn depth_m(&self, p: f64, _psi: f64) -> f64 {
        self.tube_radius_m * (-p).exp()
    }
}

/// Two flat plates, one of which gives the ions; currents are per area.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ParallelPlanes {
    /// Distance between them, m.
    pub distance_m: f64,
}

impl Geometry for ParallelPlanes {
    fn emitter_p(&self) -> f64 {
        self.distance_m
    }

    fn span(&self) -> f64 {
        1.0
    }

    fn copies(&self) -> f64 {
        1.0
    }

    fn emitter_scale_m(&self) -> f64 {
        1.0
    }

    fn stretch_m2(&self, _p: f64, _psi: f64) -> f64 {
        1.0
    }

    /// Where a weak field gives off many ions the charge piles up in a thin skin.
    fn finest_p(&self) -> f64 {
        self.distance_m
    }

    fn widening(&self) -> f64 {
        3e4 / self.distance_m
    }

    fn depth_m(&self, p: f64, _psi: f64) -> f64 {
        self.distance_m - p
    }
}

/// One wire above a wide plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WireOverPlane {
    /// Radius of the wire, m.
    pub wire_radius_m: f64,
    /// Distance of its axis from the plane, m.
    pub distance_m: f64,
}

impl Geometry for WireOverPlane {
    fn emitter_p(&self) -> f64 {
        (2.0 * self.distance_m / self.wire_radius_m).ln()
    }

    fn span(&self) -> f64 {
        PI
    }

    fn copies(&self) -> f64 {
        2.0
    }

    fn emitter_scale_m(&self) -> f64 {
        self.wire_radius_m
    }

    fn stretch_m2(&self, p: f64, psi: f64) -> f64 {
        // z = ia(1+w)/(1−w), w = e^ζ.
        let size = (-p).exp();
        (2.0 * self.distance_m * size / from_one(size, psi)).powi(2)
    }

    fn depth_m(&self, p: f64, psi: f64) -> f64 {
        // The wire's height above the plane less the point's: a − Im z.
        let size = (-p).exp();
        self.distance_m * (1.0 - (1.0 - size * size) / from_one(size, psi))
    }
}

impl WireOverPlane {
    /// `|dz/dζ|` on the plane at the angle ψ, m.
    #[must_use]
    pub fn stretch_at_plane_m(&self, psi: f64) -> f64 {
        self.stretch_m2(0.0, psi).sqrt()
    }
}

/// `|1 − g e^{iα}|² = (1 − g)² + 4 g sin²(α/2)`, which keeps its digits near one.
fn from_one(size: f64, angle: f64) -> f64 {
    let half = (0.5 * angle).sin();
    (1.0 - size) * (1.0 - size) + 4.0 * size * half * half
}
