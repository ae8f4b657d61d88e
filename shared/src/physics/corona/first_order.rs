//! A quick picture of field and ions between the wires, good enough to move dust before the solver has answered.
//!
//! `φ = V₀·(shape of the wire row) + ρᵢ(s²−y²)/(2ε₀)`, `ρᵢ = 2ε₀(V−V₀)/s²`; below V₀ `φ = V·(shape)` and no ions.

use super::WireRow;
use super::quadratic_law;
use crate::physics::PhysicsError;
use crate::physics::constants::{ELEMENTARY_CHARGE_C, VACUUM_PERMITTIVITY_F_M};
use crate::physics::error::{not_negative, positive};

/// Field of a wire row to first order in the current.
///
/// The polarity is dropped: the wires are counted as positive, so a grain charged by them is pushed along the field.
#[derive(Clone, Debug, PartialEq)]
pub struct FirstOrderField {
    row: WireRow,
    shape_voltage_v: f64,
    onset_voltage_v: f64,
    voltage_v: f64,
    ion_charge_c_m3: f64,
}

impl FirstOrderField {
    /// The field at this voltage.
    ///
    /// # Arguments
    /// * `row` – the wire row.
    /// * `onset_voltage_v` – V₀, V, above 0.
    /// * `voltage_v` – V between wires and plates, V, 0 or more.
    ///
    /// # Source
    /// Expansion of the space-charge equations to first order in the current, computed.
    ///
    /// # Validity
    /// Exact at V₀; the wire's potential and the mean field are right at every V, the ion density is 6 % off at most.
    ///
    /// # Errors
    /// A voltage outside its range.
    pub fn new(row: WireRow, onset_voltage_v: f64, voltage_v: f64) -> Result<Self, PhysicsError> {
        positive("onset_voltage_v", onset_voltage_v)?;
        not_negative("voltage_v", voltage_v)?;
        let excess_v = (voltage_v - onset_voltage_v).max(0.0);
        let ion_charge_c_m3 =
            2.0 * VACUUM_PERMITTIVITY_F_M * excess_v / (row.gap_m() * row.gap_m());
        Ok(Self {
            row,
            shape_voltage_v: voltage_v.min(onset_voltage_v),
            onset_voltage_v,
            voltage_v,
            ion_charge_c_m3,
        })
    }

    /// The wire row.
    #[must_use]
    pub fn row(&self) -> &WireRow {
        &self.row
    }

    /// Charge density of the ions ρᵢ, C/m³, the same everywhere; 0 below onset.
    ///
    /// # Source
    /// As [`Self::new`].
    ///
    /// # Validity
    /// As [`Self::new`].
    #[must_use]
    pub fn ion_charge_c_m3(&self) -> f64 {
        self.ion_charge_c_m3
    }

    /// Ions per volume N₀ = ρᵢ/e, 1/m³, the same everywhere; 0 below onset.
    ///
    /// # Source
    /// As [`Self::new`].
    ///
    /// # Validity
    /// As [`Self::new`].
    #[must_use]
    pub fn ion_density_per_m3(&self) -> f64 {
        self.ion_charge_c_m3 / ELEMENTARY_CHARGE_C
    }

    /// Mean current density on the plates by the quadratic law, A/m².
    ///
    /// `j_avg = i/(2c)`, i from [`quadratic_law::current_a_m`]
    ///
    /// # Arguments
    /// * `ion_mobility_m2_v_s` – b, m²/V/s, above 0.
    ///
    /// # Source
    /// Cooperman, in White 1963, ch. 4.
    ///
    /// # Validity
    /// As [`quadratic_law::current_a_m`].
    #[must_use]
    pub fn plate_current_a_m2(&self, ion_mobility_m2_v_s: f64) -> f64 {
        let current_a_m = quadratic_law::current_a_m(
            &self.row,
            ion_mobility_m2_v_s,
            self.onset_voltage_v,
            self.voltage_v,
        );
        quadratic_law::plate_current_a_m2(&self.row, current_a_m)
    }

    /// Potential at a point, V.
    ///
    /// `φ = V₀·(shape) + ρᵢ(s²−y²)/(2ε₀)`
    ///
    /// # Arguments
    /// * `x_m` – distance along the gas from a wire, m, any.
    /// * `y_m` – distance from the wire plane, m, −s to s.
    ///
    /// # Source
    /// As [`Self::new`].
    ///
    /// # Validity
    /// As [`Self::new`].
    #[must_use]
    pub fn potential_v(&self, x_m: f64, y_m: f64) -> f64 {
        let gap_m = self.row.gap_m();
        let parabola_m2 = (gap_m * gap_m - y_m * y_m).max(0.0);
        self.shape_voltage_v * self.row.potential(x_m, y_m)
            + self.ion_charge_c_m3 * parabola_m2 / (2.0 * VACUUM_PERMITTIVITY_F_M)
    }

    /// Field components (`E_x`, `E_y`) at a point, V/m.
    ///
    /// `E_x = V₀·(shape)`, `E_y = V₀·(shape) + ρᵢ y/ε₀`
    ///
    /// # Arguments
    /// * `x_m` – distance along the gas from a wire, m, any.
    /// * `y_m` – distance from the wire plane, m, −s to s.
    ///
    /// # Source
    /// As [`Self::new`].
    ///
    /// # Validity
    /// As [`Self::new`].
    #[must_use]
    pub fn field_v_m(&self, x_m: f64, y_m: f64) -> (f64, f64) {
        let (along, across) = self.row.field_per_volt_1_m(x_m, y_m);
        (
            self.shape_voltage_v * along,
            self.shape_voltage_v * across + self.ion_field_v_m(y_m),
        )
    }

    /// Mean of `E_y` over one pitch at this height, V/m: what carries the grains on average.
    ///
    /// `Ē_y = ±πV₀/(c ln(d_eff/r_w)) + ρᵢ y/ε₀`, the sign that of y (plus at y = 0)
    ///
    /// # Arguments
    /// * `y_m` – distance from the wire plane, m, −s to s.
    ///
    /// # Source
    /// Gauss's law over one pitch.
    ///
    /// # Validity
    /// As [`Self::new`].
    #[must_use]
    pub fn mean_transverse_field_v_m(&self, y_m: f64) -> f64 {
        let shape_v_m = self.shape_voltage_v * self.row.mean_field_per_volt_1_m();
        let signed_v_m = if y_m < 0.0 { -shape_v_m } else { shape_v_m };
        signed_v_m + self.ion_field_v_m(y_m)
    }

    fn ion_field_v_m(&self, y_m: f64) -> f64 {
        self.ion_charge_c_m3 * y_m / VACUUM_PERMITTIVITY_F_M
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::corona::onset;

    fn field(voltage_v: f64) -> FirstOrderField {
        let row = WireRow::new(0.15, 0.25, 1.35e-3).expect("a row");
        FirstOrderField::new(row, 24e3, voltage_v).expect("a field")
    }

    #[test]
    fn wire_and_plates_stand_at_their_potentials() {
        for voltage_v in [10e3, 24e3, 46e3] {
            let field = field(voltage_v);
            assert!(
                (field.potential_v(0.0, 0.0) / voltage_v - 1.0).abs() < 1e-12,
                "wire at {voltage_v}"
            );
            assert!(
                field.potential_v(0.07, 0.15).abs() < 1e-9,
                "plate at {voltage_v}"
            );
        }
    }

    #[test]
    fn no_ions_below_onset() {
        assert!(
            field(20e3).ion_density_per_m3().abs() < 1e-300,
            "ions below onset"
        );
        assert!(
            field(30e3).ion_density_per_m3() > 1e13,
            "no ions above onset"
        );
    }

    #[test]
    fn field_is_the_slope_of_the_potential() {
        let (field, x_m, y_m, step_m) = (field(46e3), 0.06, -0.04, 1e-6);
        let slope_v_m = (field.potential_v(x_m, y_m - step_m)
            - field.potential_v(x_m, y_m + step_m))
            / (2.0 * step_m);
        let across_v_m = field.field_v_m(x_m, y_m).1;
        assert!(
            (slope_v_m / across_v_m - 1.0).abs() < 1e-6,
            "{slope_v_m} not {across_v_m}"
        );
    }

    #[test]
    fn a_working_field_pulls_with_49_kv_m_at_the_wires_and_376_at_the_plate() {
        // Specification 2.5, to the printed digits: s = 150, c = 250, r_w = 1.35 mm, 423.15 K, roughness 0.7, 45 kV.
        let row = WireRow::new(0.15, 0.25, 1.35e-3).expect("a row");
        let peek_v_m = onset::peek_field_v_m(1.35e-3, 293.15 / 423.15, 0.7);
        let onset_v = onset::onset_voltage_v(&row, peek_v_m);
        let field = FirstOrderField::new(row, onset_v, 45e3).expect("a field");
        let at_wires = field.mean_transverse_field_v_m(0.0);
        let at_plate = field.mean_transverse_field_v_m(0.15);
        assert!((at_wires - 49e3).abs() < 0.5e3, "{at_wires}");
        assert!((at_plate - 376e3).abs() < 0.5e3, "{at_plate}");
    }
}
