//! Pauthenier & Moreau-Hanot 1932, J. Phys. Radium 3:590: charging by the field.

use ashlane_shared::conditions::Charging;
use ashlane_shared::physics::charging::{elementary_charges, field};
use ashlane_shared::physics::efficiency::SizeClass;
use ashlane_shared::physics::efficiency::limits::deutsch;
use ashlane_shared::physics::efficiency::size_distribution::mean;
use ashlane_shared::physics::{drag, gas};

use crate::standard_case::check_numbers;
use crate::{close, printed};

#[test]
fn charge_after_one_second() {
    // Computed: case X, q_s t/(t+τ).
    check_numbers(
        Charging::Field,
        &[
            (0.1, 1.078, 1e-3),
            (0.5, 26.948, 1e-3),
            (1.0, 107.792, 1e-3),
            (5.0, 2694.81, 1e-2),
            (10.0, 10_779.2, 0.1),
        ],
    );
}

#[test]
fn saturation() {
    // Computed: π ε₀ p_ε E d².
    printed(
        "value K3",
        elementary_charges(field::saturation_c(1e-6, 5.0, 5e5)),
        186.016,
        1e-4,
        1e-3,
    );
}

#[test]
fn penetration_of_a_measured_dust() {
    // Computed: sum over the bins, saturated charge, Stokes drag with Davies slip at 423.15 K, SCA = 60 s/m.
    let bins = [
        (0.4, 0.01),
        (0.79, 0.01),
        (1.77, 0.04),
        (3.87, 0.11),
        (7.75, 0.06),
        (12.25, 0.09),
        (25.0, 0.68),
    ];
    let classes: Vec<SizeClass> = bins
        .iter()
        .map(|(diameter_um, mass_fraction)| SizeClass {
            diameter_m: diameter_um * 1e-6,
            mass_fraction: *mass_fraction,
        })
        .collect();
    let (viscosity, path_m) = (
        gas::viscosity_pa_s(423.15),
        gas::mean_free_path_m(423.15, 101_325.0),
    );
    let escaped = mean(&classes, |diameter_m| {
        let slip = gas::slip_factor(diameter_m, path_m);
        let force_n = field::saturation_c(diameter_m, 5.0, 3e5) * 3e5;
        deutsch(60.0 * force_n * drag::stokes_mobility_m_n_s(diameter_m, slip, viscosity))
    });
    close("value Y3", escaped, 8.492278e-3, 1e-5);
}
