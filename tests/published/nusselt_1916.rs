//! Falling films of water: Nusselt 1916, as in the textbook of Bird, Stewart & Lightfoot.

use ashlane_shared::physics::water_film::{
    TURBULENT_REYNOLDS, film_reynolds, film_thickness_m, water_viscosity_pa_s,
};

use crate::{close, printed};

#[test]
fn a_film_of_oil_is_as_thick_as_in_the_textbook() {
    // Bird, Stewart & Lightfoot, *Transport Phenomena*, example 2.2-1, from memory of it: oil of 2e-4 m²/s and 800 kg/m³
    // in a film of 2.5 mm flows with 0.204 kg/(s·m), Re = 5.1.
    let (kinematic_m2_s, density_kg_m3) = (2.0e-4, 0.8e3);
    let viscosity_pa_s = kinematic_m2_s * density_kg_m3;
    let film_m = film_thickness_m(0.204, viscosity_pa_s, density_kg_m3).expect("a film");
    printed("film", film_m, 2.5e-3, 0.0, 0.01e-3);
    let reynolds = film_reynolds(0.204, viscosity_pa_s).expect("a film");
    printed("Reynolds number", reynolds, 5.1, 0.0, 0.1);
    assert!(reynolds < TURBULENT_REYNOLDS);
}

#[test]
fn water_is_as_viscous_as_in_the_tables() {
    // From memory of the CRC Handbook of Chemistry and Physics, mPa·s; the formula is good to 2.5 %.
    for (celsius, expected) in [
        (0.0, 1.792),
        (20.0, 1.002),
        (40.0, 0.653),
        (60.0, 0.466),
        (80.0, 0.354),
        (100.0, 0.282),
    ] {
        let found = water_viscosity_pa_s(celsius + 273.15).expect("water");
        close("viscosity of water", 1e3 * found, expected, 0.025);
    }
}
