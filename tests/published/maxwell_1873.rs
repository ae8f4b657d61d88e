//! Maxwell 1873, *A Treatise on Electricity and Magnetism*: the stress of the electric field on a layer of dust.

use ashlane_shared::physics::layer::stress::clamping_stress_pa;

use crate::printed;

#[test]
fn a_conducting_layer_is_pulled_and_a_resisting_one_is_held() {
    // Computed: ½ε₀(ε_r E_l² − E_g²) with ε₀ = 8.8541878e-12 F/m (CODATA 2018), ε_r = 2, E_g = 3 kV/cm.
    for (layer_field_v_m, expected_pa) in [(0.0, -0.398), (1e6, 8.456)] {
        printed(
            "value B2",
            clamping_stress_pa(layer_field_v_m, 3e5, 2.0),
            expected_pa,
            0.0,
            1e-3,
        );
    }
}
