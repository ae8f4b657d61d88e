//! One wire in the axis of a tube: the only corona with space charge that can be written down exactly.
//!
//! `E(r) = √{(i/2πε₀b)(1−r₀²/r²) + (E₀r₀/r)²}`; with `a = i/(2πε₀b)`, `B² = r₀²(E₀²−a)`, `S(r) = √(ar²+B²)`:
//! `V = S(R) − S(r₀) + B ln{(S(r₀)+B)R/((S(R)+B)r₀)}`, `ρ(r) = i/(2πbrE)`.

use std::f64::consts::PI;

use crate::physics::PhysicsError;
use crate::physics::constants::VACUUM_PERMITTIVITY_F_M;
use crate::physics::error::{positive, require};

/// A wire in a tube in corona at a given current.
///
/// # Source
/// Townsend 1914, Phil. Mag. 28:83; White 1963, ch. 4.
///
/// # Validity
/// One sort of ions, no dust, field at the wire pinned at E₀ (Kaptsov). Exact within that.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tube {
    wire_radius_m: f64,
    tube_radius_m: f64,
    /// a, V²/m².
    current_square_v2_m2: f64,
    /// B, V.
    wire_term_v: f64,
    charge_flow: f64,
}

/// What describes the tube besides the current.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubeShape {
    /// Radius r₀ of the wire, m, above 0.
    pub wire_radius_m: f64,
    /// Radius R of the tube, m, above the wire's.
    pub tube_radius_m: f64,
    /// Ion mobility b, m²/V/s, above 0.
    pub ion_mobility_m2_v_s: f64,
    /// Onset field E₀ at the wire, V/m, above 0.
    pub onset_field_v_m: f64,
}

impl Tube {
    /// The tube at a current i per metre of wire.
    ///
    /// # Arguments
    /// * `shape` – radii, mobility and onset field.
    /// * `current_a_m` – i, A/m, 0 to `2πε₀bE₀²` (the limit beyond which the field would grow from the wire on).
    ///
    /// # Source
    /// Townsend 1914; White 1963, ch. 4.
    ///
    /// # Validity
    /// As [`Tube`].
    ///
    /// # Errors
    /// A number outside its range.
    ///
    /// ```
    /// use ashlane_shared::physics::corona::tube::{Tube, TubeShape};
    /// let shape = TubeShape {
    ///     wire_radius_m: 1e-3,
    ///     tube_radius_m: 0.1,
    ///     ion_mobility_m2_v_s: 2e-4,
    ///     onset_field_v_m: 5.846050e6,
    /// };
    /// let voltage = Tube::new(&shape, 1e-3)?.voltage_v();
    /// assert!((voltage - 44_951.9112).abs() < 1e-3);
    /// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
    /// ```
    pub fn new(shape: &TubeShape, current_a_m: f64) -> Result<Self, PhysicsError> {
        let r0 = positive("wire_radius_m", shape.wire_radius_m)?;
        let mobility = positive("ion_mobility_m2_v_s", shape.ion_mobility_m2_v_s)?;
        let onset = positive("onset_field_v_m", shape.onset_field_v_m)?;
        let tube_radius_m = shape.tube_radius_m;
        require(
            tube_radius_m > r0 && tube_radius_m.is_finite(),
            "tube_radius_m",
            tube_radius_m,
            "above the radius of the wire",
        )?;
        let charge_flow = current_a_m / (2.0 * PI * mobility);
        let current_square_v2_m2 = charge_flow / VACUUM_PERMITTIVITY_F_M;
        require(
            current_a_m >= 0.0 && current_square_v2_m2 <= onset * onset,
            "current_a_m",
            current_a_m,
            "0 to 2πε₀bE₀²",
        )?;
        Ok(Self {
            wire_radius_m: r0,
            tube_radius_m,
            current_square_v2_m2,
            wire_term_v: r0 * (onset * onset - current_square_v2_m2).sqrt(),
            charge_flow,
        })
    }

    /// Field at radius r, V/m.
    ///
    /// `E(r) = S(r)/r`
    ///
    /// # Arguments
    /// * `radius_m` – r, m, from the wire's radius to the tube's.
    ///
    /// # Source
    /// Townsend 1914; White 1963, ch. 4.
    ///
    /// # Validity
    /// As [`Tube`].
    #[must_use]
    pub fn field_v_m(&self, radius_m: f64) -> f64 {
        self.swell_v(radius_m) / radius_m
    }

    /// Potential at radius r against the tube, V.
    ///
    /// `φ(r) = S(R) − S(r) + B ln{(S(r)+B)R/((S(R)+B)r)}`
    ///
    /// # Arguments
    /// * `radius_m` – r, m, from the wire's radius to the tube's.
    ///
    /// # Source
    /// Townsend 1914; White 1963, ch. 4.
    ///
    /// # Validity
    /// As [`Tube`].
    #[must_use]
    pub fn potential_v(&self, radius_m: f64) -> f64 {
        let (here, outside) = (self.swell_v(radius_m), self.swell_v(self.tube_radius_m));
        let ratio = (here + self.wire_term_v) * self.tube_radius_m
            / ((outside + self.wire_term_v) * radius_m);
        outside - here + self.wire_term_v * ratio.ln()
    }

    /// Voltage between wire and tube, V: the potential of the wire.
    ///
    /// # Source
    /// Townsend 1914; White 1963, ch. 4.
    ///
    /// # Validity
    /// As [`Tube`].
    #[must_use]
    pub fn voltage_v(&self) -> f64 {
        self.potential_v(self.wire_radius_m)
    }

    /// Charge density of the ions at radius r, C/m³.
    ///
    /// `ρ(r) = i/(2πbrE)`
    ///
    /// # Arguments
    /// * `radius_m` – r, m, from the wire's radius to the tube's.
    ///
    /// # Source
    /// Townsend 1914; White 1963, ch. 4.
    ///
    /// # Validity
    /// As [`Tube`].
    #[must_use]
    pub fn ion_charge_c_m3(&self, radius_m: f64) -> f64 {
        self.charge_flow / self.swell_v(radius_m)
    }

    /// `S(r) = √(ar²+B²)`, V.
    fn swell_v(&self, radius_m: f64) -> f64 {
        (self.current_square_v2_m2 * radius_m * radius_m + self.wire_term_v * self.wire_term_v)
            .sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SHAPE: TubeShape = TubeShape {
        wire_radius_m: 1e-3,
        tube_radius_m: 0.1,
        ion_mobility_m2_v_s: 2e-4,
        onset_field_v_m: 5.846_050e6,
    };

    #[test]
    fn poisson_holds_everywhere() {
        // (1/r) d(rE)/dr = ρ/ε₀ by central differences.
        let tube = Tube::new(&SHAPE, 1e-3).expect("a tube");
        for radius_m in [2e-3, 1e-2, 5e-2, 9e-2] {
            let step_m = 1e-5 * radius_m;
            let flux = |r: f64| r * tube.field_v_m(r);
            let slope =
                (flux(radius_m + step_m) - flux(radius_m - step_m)) / (2.0 * step_m * radius_m);
            let expected = tube.ion_charge_c_m3(radius_m) / VACUUM_PERMITTIVITY_F_M;
            assert!(
                (slope / expected - 1.0).abs() < 1e-5,
                "{slope} not {expected} at {radius_m}"
            );
        }
    }

    #[test]
    fn the_wire_keeps_its_onset_field() {
        for current_a_m in [0.0, 1e-4, 1e-2] {
            let field = Tube::new(&SHAPE, current_a_m)
                .expect("a tube")
                .field_v_m(1e-3);
            assert!(
                (field / SHAPE.onset_field_v_m - 1.0).abs() < 1e-12,
                "{field} at {current_a_m}"
            );
        }
    }

    #[test]
    fn impossible_tubes_are_refused() {
        assert!(Tube::new(&SHAPE, -1e-3).is_err(), "negative current");
        assert!(
            Tube::new(&SHAPE, 10.0).is_err(),
            "more than the wire can give"
        );
        assert!(Tube::new(&SHAPE, f64::NAN).is_err(), "no number");
        let narrow = TubeShape {
            tube_radius_m: 0.5e-3,
            ..SHAPE
        };
        assert!(Tube::new(&narrow, 1e-3).is_err(), "tube inside the wire");
    }
}
