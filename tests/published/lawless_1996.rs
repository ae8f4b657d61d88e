//! Lawless 1996, J. Aerosol Sci. 27:191: field and diffusion charging together.

use ashlane_shared::conditions::Charging;
use ashlane_shared::physics::charging::{
    Exposure, Grain, IonGas, charge_after_c, elementary_charges,
};
use ashlane_shared::physics::efficiency::SizeDistribution;
use ashlane_shared::physics::efficiency::limits::deutsch;
use ashlane_shared::physics::efficiency::size_distribution::mean;

use crate::standard_case::{
    TEMPERATURE_K, check_drifts, check_numbers, drift_m_s, mean_free_path_m, slowest_m,
};
use crate::{close, printed};

#[test]
fn charge_and_drift_after_one_second() {
    // Computed: case X, the ODE with coefficients from memory of the source.
    check_numbers(
        Charging::Lawless,
        &[
            (0.1, 9.173, 1e-3),
            (0.5, 64.912, 1e-3),
            (1.0, 179.705, 1e-3),
            (5.0, 3029.46, 1e-2),
            (10.0, 11_474.6, 0.1),
        ],
    );
    check_drifts(
        Charging::Lawless,
        &[
            (0.1, 0.08096),
            (0.5, 0.04271),
            (1.0, 0.04856),
            (5.0, 0.13639),
            (10.0, 0.25185),
        ],
    );
}

#[test]
fn diffusion_alone() {
    // Computed: exponential-integral closed form, 1 µm, ions of case X, no field.
    let density = 3e-4 / (1.602_176_634e-19 * 2.2e-4 * 3e5);
    let grain = Grain {
        diameter_m: 1e-6,
        permittivity: 5.0,
    };
    let ions = IonGas {
        temperature_k: TEMPERATURE_K,
        mean_free_path_m: mean_free_path_m(),
        ion_mobility_m2_v_s: 2.2e-4,
    };
    let exposure = Exposure {
        field_v_m: 0.0,
        ion_density_per_m3: density,
    };
    let charge_c = charge_after_c(Charging::Lawless, &grain, &ions, &exposure, 1.0);
    printed("value K5", elementary_charges(charge_c), 80.684, 1e-5, 1e-3);
}

#[test]
fn slowest_grain() {
    // Computed: minimum of w(d) in case X, three digits.
    close(
        "value M1, Lawless",
        slowest_m(Charging::Lawless),
        0.500e-6,
        5e-3,
    );
}

#[test]
fn penetration_of_fly_ash() {
    // Computed by quadrature: log-normal ash of 12 µm, GSD 3.2, w(d) of case X; Deutsch's law for every size.
    let ash = SizeDistribution::log_normal(12e-6, 3.2)
        .expect("a distribution")
        .classes(60);
    for (sca_s_m, expected) in [(20.0, 0.04983), (60.0, 0.0031504)] {
        let escaped = mean(&ash, |diameter_m| {
            deutsch(sca_s_m * drift_m_s(Charging::Lawless, diameter_m))
        });
        close("value Y2", escaped, expected, 0.01);
    }
}
