//! Leonard, Mitchner & Self 1983, J. Fluid Mech. 127:123: turbulence and ionic wind in a collector.

use ashlane_shared::physics::gas;
use ashlane_shared::physics::mixing::{
    IonCurrent, PassageFlow, eddy_diffusivity_m2_s, friction_velocity_m_s, ionic_wind_m_s,
    wind_number,
};

use crate::{close, printed};

#[test]
fn ionic_wind() {
    // Computed: js/(bρu²) and √(js/(ρb)).
    let flow = PassageFlow {
        velocity_m_s: 1.0,
        gap_m: 0.15,
        density_kg_m3: 0.838,
        viscosity_pa_s: 2.38e-5,
    };
    let current = IonCurrent {
        density_a_m2: 3e-4,
        mobility_m2_v_s: 2.2e-4,
    };
    printed(
        "value N3, number",
        wind_number(&flow, &current),
        0.2441,
        0.0,
        1e-4,
    );
    printed(
        "value N3, speed",
        ionic_wind_m_s(&flow, &current),
        0.494,
        0.0,
        1e-3,
    );
}

#[test]
fn empty_duct() {
    // From memory of the source: 0.067 u* s; u* ≈ 0.057 m/s, hence 5.75e-4 m²/s and Pe ≈ 26 at w = 0.1 m/s.
    let flow = PassageFlow {
        velocity_m_s: 1.0,
        gap_m: 0.15,
        density_kg_m3: gas::density_kg_m3(101_325.0, 423.15, 0.029),
        viscosity_pa_s: gas::viscosity_pa_s(423.15),
    };
    let off = IonCurrent {
        density_a_m2: 0.0,
        mobility_m2_v_s: 2.2e-4,
    };
    printed(
        "friction velocity",
        friction_velocity_m_s(&flow),
        0.057,
        0.0,
        1e-3,
    );
    let diffusivity = eddy_diffusivity_m2_s(&flow, &off);
    // u* is given to two digits, so the product is good to 1 %.
    close("diffusivity of the empty duct", diffusivity, 5.75e-4, 0.01);
    printed(
        "Péclet number of the empty duct",
        0.1 * 0.15 / diffusivity,
        26.0,
        0.0,
        1.0,
    );
}

#[test]
fn turbulence_and_wind_together() {
    // Computed with Python from the specification's blend (its 0.05 and 0.09 are common practice, no source):
    // 0.067 u* s = 5.7562e-4, 0.05 u_e s N²/(N²+0.09) = 1.47590e-3.
    let flow = PassageFlow {
        velocity_m_s: 1.0,
        gap_m: 0.15,
        density_kg_m3: 0.838,
        viscosity_pa_s: 2.38e-5,
    };
    let current = IonCurrent {
        density_a_m2: 3e-4,
        mobility_m2_v_s: 2.2e-4,
    };
    close(
        "diffusivity under current",
        eddy_diffusivity_m2_s(&flow, &current),
        2.051518e-3,
        1e-6,
    );
}
