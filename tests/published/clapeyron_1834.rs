//! Clapeyron 1834: the ideal gas.

use ashlane_shared::physics::gas;

use crate::printed;

#[test]
fn density_of_hot_gas() {
    // Computed: pM/(RT) with the exact R of SI 2019, and (293.15/423.15).
    printed(
        "value G3, density",
        gas::density_kg_m3(101_325.0, 423.15, 0.029),
        0.83519,
        0.0,
        1e-5,
    );
    printed(
        "value G3, relative",
        gas::relative_density(423.15, 101_325.0),
        0.69278,
        0.0,
        1e-5,
    );
}
