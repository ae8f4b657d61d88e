//! White 1963, *Industrial Electrostatic Precipitation*: the field of wires between plates and of charged dust (ch. 4),
//! and the rule of corona power.

use ashlane_shared::physics::corona::WireRow;
use ashlane_shared::physics::corona::space_charge::{
    Cloud, onset_shift_duct_v, onset_shift_tube_v, saturated_charge_c_m3,
};
use ashlane_shared::physics::efficiency::corona_power::corona_power_penetration;

use crate::{close, printed};

fn row(gap_m: f64, pitch_m: f64, wire_radius_m: f64) -> WireRow {
    WireRow::new(gap_m, pitch_m, wire_radius_m).expect("a row in range")
}

#[test]
fn potential_in_units_of_the_line_charge() {
    // Computed: Cooperman's series, image rows and theta functions agree.
    let row = row(0.115, 0.15, 1.365e-3);
    for (x_m, y_m, expected) in [
        (0.03, 0.02, 2.031418883),
        (0.075, 0.0, 1.715538075),
        (0.05, 0.10, 0.3086836027),
    ] {
        close("value L1", row.line_potential(x_m, y_m), expected, 1e-9);
    }
    for x_m in [0.0, 0.04, 0.075] {
        // The plates are grounded; just before them the potential is the plate field times the distance.
        let near = row.line_potential(x_m, 0.115 - 1e-9);
        assert!(near.abs() < 1e-6, "value L1 on the plate: {near}");
    }
}

#[test]
fn effective_radius() {
    // Computed: c/(π θ₂ θ₃).
    let table = [
        (0.2, 1.275219),
        (0.3, 1.300781),
        (0.5, 1.525520),
        (0.75, 2.238572),
        (1.0, 3.682930),
        (1.5, 11.811183),
    ];
    for (gap_over_pitch, expected) in table {
        let radius_m = row(0.15, 0.15 / gap_over_pitch, 1e-3).effective_radius_m();
        close("value L2", radius_m / 0.15, expected, 1e-6);
    }
}

#[test]
fn potential_and_plate_field_of_one_volt() {
    // Computed: as value L1, over ln(d_eff/r_w).
    let row = row(0.115, 0.15, 1.365e-3);
    close("value L3", row.potential(0.0, 0.01), 0.6207339, 1e-6);
    close("value L3", row.potential(0.0, 0.0575), 0.2462594, 1e-6);
    close("value L3", row.potential(0.075, 0.0), 0.3255274, 1e-6);
    close(
        "value L3, plate under the wire",
        row.field_per_volt_1_m(0.0, 0.115).1,
        4.103810,
        1e-6,
    );
    close(
        "value L3, plate between wires",
        row.field_per_volt_1_m(0.075, 0.115).1,
        3.846598,
        1e-6,
    );
}

#[test]
fn parabola_of_uniform_charge() {
    // Computed: ρs²/(2ε₀) for 1e-5 C/m³ and s = 0.115 m, with the ε₀ of CODATA 2018.
    close("value L4", onset_shift_duct_v(1e-5, 0.115), 7468.22, 1e-6);
}

#[test]
fn charged_dust_raises_the_onset() {
    // Computed: 6 p_ε ε₀ E C/(ρ_p d) and ρ_q s²/(2ε₀); in a tube ρ_q R²/(4ε₀).
    let cloud = Cloud {
        load_kg_m3: 5e-3,
        diameter_m: 5e-6,
        density_kg_m3: 2300.0,
        permittivity: 5.0,
    };
    let charge_c_m3 = saturated_charge_c_m3(&cloud, 3e5);
    close("value S1, charge", charge_c_m3, 1.4849e-5, 1e-4);
    close(
        "value S1, onset",
        onset_shift_duct_v(charge_c_m3, 0.15),
        18_866.5,
        1e-4,
    );
    close(
        "value S1, tube",
        onset_shift_tube_v(charge_c_m3, 0.15),
        18_866.5 / 2.0,
        1e-4,
    );
}

#[test]
fn more_corona_power_lets_less_dust_escape() {
    // From memory of the book: η = 1 − e^(−0.55 P_c/Q), W per ft³/s; 50 and 100 W per 1000 ft³/min are 3 and 6, computed.
    let thousand_acfm_m3_s = 1000.0 * 0.3048_f64.powi(3) / 60.0;
    for (power_w, expected) in [(50.0, 0.80795), (100.0, 0.96312)] {
        let escaped = corona_power_penetration(power_w, thousand_acfm_m3_s).expect("in range");
        printed("value H1", 1.0 - escaped, expected, 0.0, 1e-5);
    }
}
