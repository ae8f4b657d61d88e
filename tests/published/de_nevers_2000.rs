//! de Nevers 2000, *Air Pollution Control Engineering*, ch. 9: a grain charged, pulled and caught.

use ashlane_shared::physics::charging::{elementary_charges, field};
use ashlane_shared::physics::drag::stokes_mobility_m_n_s;
use ashlane_shared::physics::efficiency::limits::{deutsch, deutsch_number};

use crate::printed;

#[test]
fn example_9_1_charge() {
    // From memory of Ex. 9.1: 1 µm, ε_r = 6, 300 kV/m, "117 electrons"; computed 117.19.
    let number = elementary_charges(field::saturation_c(1e-6, 6.0, 300e3));
    printed("value K2, printed", number, 117.0, 0.0, 1.0);
    printed("value K2, computed", number, 117.19, 0.0, 0.01);
}

#[test]
fn example_9_2_drift() {
    // From memory of Ex. 9.2: the same grain, μ = 1.8e-5, no slip, "0.033 m/s"; computed 0.033203.
    let force_n = field::saturation_c(1e-6, 6.0, 300e3) * 300e3;
    let drift = stokes_mobility_m_n_s(1e-6, 1.0, 1.8e-5) * force_n;
    printed("value M2, printed", drift, 0.033, 0.0, 1e-3);
    printed("value M2, computed", drift, 0.033203, 0.0, 1e-6);
}

#[test]
fn example_9_3_efficiency() {
    // From memory of Ex. 9.3: w = 0.109 ft/s, A/Q = 0.2 min/ft, "0.73". 1 ft = 0.3048 m exactly.
    let number = deutsch_number(0.109 * 0.3048, 0.2 * 60.0 / 0.3048);
    printed("value W3", 1.0 - deutsch(number), 0.73, 0.0, 0.01);
}
