//! Growth of the layer on the plates by conservation of mass.

use ashlane_shared::physics::layer::growth::{growth_m_s, thickness_m};

use crate::close;

#[test]
fn the_first_field_grows_millimetres_an_hour() {
    // Computed by hand: 0.7·8e-3 kg/m³ / (20 s/m · 600 kg/m³) = 4.667e-7 m/s = 1.68 mm/h, whatever the flow.
    for flow_m3_s in [1.0, 118.8, 500.0] {
        let growth = growth_m_s(0.7 * 8e-3 * flow_m3_s, 20.0 * flow_m3_s, 600.0).expect("growth");
        close("value H2", growth * 3600.0 * 1e3, 1.68, 1e-12);
    }
    // Computed by hand: 6 kg/m² of 600 kg/m³ are 10 mm.
    close(
        "thickness",
        thickness_m(60.0, 10.0, 600.0).expect("a layer"),
        0.01,
        1e-12,
    );
}
