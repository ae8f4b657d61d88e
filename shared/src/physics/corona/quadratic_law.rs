//! The textbook curve of current against voltage of wires between plates.
//!
//! `i = 4πε₀ b V(V−V₀)/(s² ln(d_eff/r_w))`, `j_avg = i/(2c)`

use std::f64::consts::PI;

use super::WireRow;
use crate::physics::constants::VACUUM_PERMITTIVITY_F_M;

/// `4πε₀ b/(s² ln(d_eff/r_w))`, A/(m·V²).
fn coefficient(row: &WireRow, ion_mobility_m2_v_s: f64) -> f64 {
    4.0 * PI * VACUUM_PERMITTIVITY_F_M * ion_mobility_m2_v_s
        / (row.gap_m() * row.gap_m() * row.log_ratio())
}

/// Slope of the current at onset, A per metre of wire and volt: exact.
///
/// `di/dV = 4πε₀ b V₀/(s² ln(d_eff/r_w))`
///
/// # Arguments
/// * `row` – the wire row.
/// * `ion_mobility_m2_v_s` – b, m²/V/s, above 0.
/// * `onset_voltage_v` – V₀, V, above 0.
///
/// # Source
/// Uniform ion density in the duct at onset and superposition, computed.
///
/// # Validity
/// At V₀ exactly.
#[must_use]
pub fn onset_slope_a_m_v(row: &WireRow, ion_mobility_m2_v_s: f64, onset_voltage_v: f64) -> f64 {
    coefficient(row, ion_mobility_m2_v_s) * onset_voltage_v
}

/// Current of one metre of wire, A/m.
///
/// `i = 4πε₀ b V(V−V₀)/(s² ln(d_eff/r_w))`, 0 below V₀
///
/// # Arguments
/// * `row` – the wire row.
/// * `ion_mobility_m2_v_s` – b, m²/V/s, above 0.
/// * `onset_voltage_v` – V₀, V, above 0.
/// * `voltage_v` – V, V, any; below V₀ there is no current.
///
/// # Source
/// Cooperman, in White 1963, ch. 4.
///
/// # Validity
/// First guess: at a given current its voltage is 0.5–6 % too high.
#[must_use]
pub fn current_a_m(
    row: &WireRow,
    ion_mobility_m2_v_s: f64,
    onset_voltage_v: f64,
    voltage_v: f64,
) -> f64 {
    let excess_v = (voltage_v - onset_voltage_v).max(0.0);
    coefficient(row, ion_mobility_m2_v_s) * voltage_v * excess_v
}

/// Voltage at which one metre of wire gives this current, V: the law solved for V.
///
/// `V = V₀/2 + √(V₀²/4 + i s² ln(d_eff/r_w)/(4πε₀ b))`
///
/// # Arguments
/// * `row` – the wire row.
/// * `ion_mobility_m2_v_s` – b, m²/V/s, above 0.
/// * `onset_voltage_v` – V₀, V, above 0.
/// * `current_a_m` – i, A per metre of wire, 0 or more.
///
/// # Source
/// As [`current_a_m`].
///
/// # Validity
/// As [`current_a_m`].
#[must_use]
pub fn voltage_v(
    row: &WireRow,
    ion_mobility_m2_v_s: f64,
    onset_voltage_v: f64,
    current_a_m: f64,
) -> f64 {
    let half_onset_v = 0.5 * onset_voltage_v;
    half_onset_v
        + (half_onset_v * half_onset_v + current_a_m / coefficient(row, ion_mobility_m2_v_s)).sqrt()
}

/// Mean current density on the plates, A/m².
///
/// `j_avg = i/(2c)`
///
/// # Arguments
/// * `row` – the wire row.
/// * `current_a_m` – i, A per metre of wire.
///
/// # Source
/// Each wire feeds one pitch of two plates.
///
/// # Validity
/// Exact.
#[must_use]
pub fn plate_current_a_m2(row: &WireRow, current_a_m: f64) -> f64 {
    current_a_m / (2.0 * row.pitch_m())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn voltage_undoes_current_and_the_slope_fits() {
        let row = WireRow::new(0.15, 0.25, 1.35e-3).expect("a row");
        let (mobility, onset_v) = (2.2e-4, 30e3);
        for voltage in [30.0e3, 31e3, 45e3, 70e3] {
            let back = voltage_v(
                &row,
                mobility,
                onset_v,
                current_a_m(&row, mobility, onset_v, voltage),
            );
            assert!(
                (back / voltage - 1.0).abs() < 1e-12,
                "{voltage} came back as {back}"
            );
        }
        let step_v = 1e-2;
        let slope = current_a_m(&row, mobility, onset_v, onset_v + step_v) / step_v;
        let exact = onset_slope_a_m_v(&row, mobility, onset_v);
        assert!((slope / exact - 1.0).abs() < 1e-6, "{slope} not {exact}");
    }

    #[test]
    fn no_current_below_onset() {
        let row = WireRow::new(0.15, 0.25, 1.35e-3).expect("a row");
        let current = current_a_m(&row, 2.2e-4, 30e3, 20e3);
        assert!(current.abs() < 1e-300, "{current}");
    }
}
