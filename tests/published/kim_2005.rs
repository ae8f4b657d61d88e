//! Kim, Mulholland, Kukuck & Pui 2005, J. Res. NIST 110:31: viscosity and mean free path of air (ISO 15900).

use ashlane_shared::physics::gas;

use crate::close;

#[test]
fn viscosity() {
    // Computed from Sutherland's law with the constants of the source; the constants are printed there.
    for (temperature_k, expected) in [
        (293.15, 1.818093e-5),
        (423.15, 2.384761e-5),
        (623.15, 3.099829e-5),
    ] {
        close(
            "value G1",
            gas::viscosity_pa_s(temperature_k),
            expected,
            1e-6,
        );
    }
    // Computed: the constant itself at its own temperature.
    close(
        "value G1, base",
        gas::viscosity_pa_s(296.15),
        1.83245e-5,
        1e-12,
    );
}

#[test]
fn mean_free_path() {
    // Computed from the source's formula, the constants from memory of it; authors differ by 1.8 %.
    close(
        "value G2, 293 K",
        gas::mean_free_path_m(293.15, 101_325.0),
        66.434e-9,
        1e-4,
    );
    close(
        "value G2, 423 K",
        gas::mean_free_path_m(423.15, 101_325.0),
        104.693e-9,
        1e-4,
    );
    // Ideal gas: half the pressure, twice the path.
    close(
        "value G2, half pressure",
        gas::mean_free_path_m(293.15, 50_662.5),
        132.868e-9,
        1e-4,
    );
}
