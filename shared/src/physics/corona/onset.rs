//! From which voltage on the wires glow and give ions.
//!
//! `E₀ = 3.0e6·m·(δ + 0.03 √(δ/r_w))`, `V₀ = E₀ r_w ln(d_eff/r_w)`

use super::WireRow;

/// Breakdown field of dense air in Peek's formula, V/m. Source: Peek 1929 (30 kV/cm).
const PEEK_FIELD_V_M: f64 = 3.0e6;
/// Curvature length of Peek's formula as a root, m^½. Source: from memory of White 1963 (Peek 1929: 0.301 cm^½).
const PEEK_ROOT_LENGTH: f64 = 0.03;

/// Field at the wire surface at which corona starts, V/m; once the wire glows the field stays there (Kaptsov 1947).
///
/// `E₀ = 3.0e6·m·(δ + 0.03 √(δ/r_w))`
///
/// # Arguments
/// * `wire_radius_m` – radius `r_w`, m, above 0.
/// * `relative_density` – δ of the gas, above 0.
/// * `roughness` – m, 1 for a polished wire, 0.5 to 1 in service.
///
/// # Source
/// Peek 1929, *Dielectric Phenomena in High Voltage Engineering*; SI form from memory of White 1963 and Robinson 1971.
///
/// # Validity
/// Round wires of 0.1–10 mm; other authors' constants differ by 5 %.
///
/// ```
/// let field = ashlane_shared::physics::corona::onset::peek_field_v_m(1e-3, 1.0, 1.0);
/// assert!((field / 5.84605e6 - 1.0).abs() < 1e-5);
/// ```
#[must_use]
pub fn peek_field_v_m(wire_radius_m: f64, relative_density: f64, roughness: f64) -> f64 {
    let curvature = PEEK_ROOT_LENGTH * (relative_density / wire_radius_m).sqrt();
    PEEK_FIELD_V_M * roughness * (relative_density + curvature)
}

/// Field above which the gas is ionised and glows, V/m.
///
/// `E = 3.0e6·δ`
///
/// # Arguments
/// * `relative_density` – δ of the gas, above 0.
///
/// # Source
/// Peek 1929: 30 kV/cm in dense air.
///
/// # Validity
/// Air and flue gas; where the glow ends to the eye is less sharp.
///
/// ```
/// let field = ashlane_shared::physics::corona::onset::glow_field_v_m(0.69278);
/// assert!((field / 2.07834e6 - 1.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn glow_field_v_m(relative_density: f64) -> f64 {
    PEEK_FIELD_V_M * relative_density
}

/// Voltage at which corona starts between wires and plates, V.
///
/// `V₀ = E₀ r_w ln(d_eff/r_w)`
///
/// # Arguments
/// * `row` – the wire row.
/// * `onset_field_v_m` – E₀ at the wire surface, V/m, above 0.
///
/// # Source
/// Gauss's law at the wire with the exact `d_eff` of the row.
///
/// # Validity
/// Clean gas; charged dust raises it, see [`super::space_charge::onset_shift_duct_v`].
#[must_use]
pub fn onset_voltage_v(row: &WireRow, onset_field_v_m: f64) -> f64 {
    onset_field_v_m * row.wire_radius_m() * row.log_ratio()
}

/// The same voltage by another road: the field of the row, added up from the wire to the plate, V.
///
/// `V₀ = E₀ r_w ∫_{r_w}^{s} E_y(0, y) dy` with `E_y` of the row of image lines, `1/r_w` at the wire
///
/// # Arguments
/// As [`onset_voltage_v`].
///
/// # Source
/// Definition of voltage; Simpson's rule in ln y, of the image rows and neither `d_eff` nor a map.
///
/// # Validity
/// As [`onset_voltage_v`]; 1e-6 for wires that are thin beside gap and pitch.
#[must_use]
pub fn integrated_onset_voltage_v(row: &WireRow, onset_field_v_m: f64) -> f64 {
    const INTERVALS: u32 = 256;
    // A hair outside the metal, in which there is no field.
    let near = (row.wire_radius_m() * (1.0 + 1e-9)).ln();
    let step = (row.gap_m().ln() - near) / f64::from(INTERVALS);
    let sum: f64 = (0..=INTERVALS)
        .map(|index| {
            let y_m = (near + step * f64::from(index)).exp().min(row.gap_m());
            let weight = match index {
                0 | INTERVALS => 1.0,
                odd if odd % 2 == 1 => 4.0,
                _ => 2.0,
            };
            weight * y_m * row.line_field(0.0, y_m).1
        })
        .sum();
    onset_field_v_m * row.wire_radius_m() * sum * step / 3.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thin_gas_and_rough_wires_glow_earlier() {
        let smooth = peek_field_v_m(1e-3, 1.0, 1.0);
        assert!(peek_field_v_m(1e-3, 0.7, 1.0) < smooth, "thin gas");
        assert!(
            (peek_field_v_m(1e-3, 1.0, 0.6) / smooth - 0.6).abs() < 1e-15,
            "rough wire"
        );
    }

    #[test]
    fn a_thinner_wire_needs_less_voltage() {
        let voltage = |radius_m: f64| {
            let row = WireRow::new(0.15, 0.25, radius_m).expect("a row");
            onset_voltage_v(&row, peek_field_v_m(radius_m, 1.0, 1.0))
        };
        assert!(
            voltage(0.5e-3) < voltage(1e-3),
            "{} {}",
            voltage(0.5e-3),
            voltage(1e-3)
        );
    }

    #[test]
    fn the_field_added_up_gives_the_same_onset() {
        for (gap_m, pitch_m) in [(0.15, 0.25), (0.15, 0.6), (0.2, 0.1)] {
            let row = WireRow::new(gap_m, pitch_m, 1.35e-3).expect("a row");
            let closed_v = onset_voltage_v(&row, 4e6);
            let added_v = integrated_onset_voltage_v(&row, 4e6);
            // A wire that is thick beside its neighbours' distance is not quite a line: (r/c)².
            let thin = (1.35e-3_f64 / pitch_m.min(gap_m)).powi(2);
            assert!(
                (added_v / closed_v - 1.0).abs() < 3.0 * thin + 1e-6,
                "{added_v} and {closed_v} V"
            );
        }
    }
}
