//! Schiller & Naumann 1933, Z. VDI 77:318: drag of grains too fast for Stokes.

use ashlane_shared::physics::charging::field;
use ashlane_shared::physics::{drag, gas};

use crate::close;

#[test]
fn coarse_grains_are_slower_than_stokes() {
    // Computed: saturated grains, E = 3e5 V/m, ε_r = 5, 423.15 K, ρ_g = 0.84959 kg/m³, no slip.
    let viscosity = gas::viscosity_pa_s(423.15);
    for (diameter_m, stokes_m_s, drift_m_s) in
        [(10e-6, 0.23868, 0.23239), (50e-6, 1.19341, 0.97844)]
    {
        let force_n = field::saturation_c(diameter_m, 5.0, 3e5) * 3e5;
        let stokes = force_n * drag::stokes_mobility_m_n_s(diameter_m, 1.0, viscosity);
        close("value M3, Stokes", stokes, stokes_m_s, 1e-4);
        let drift = drag::terminal_drift_m_s(stokes, diameter_m, 0.84959, viscosity);
        close("value M3", drift, drift_m_s, 1e-4);
    }
}
