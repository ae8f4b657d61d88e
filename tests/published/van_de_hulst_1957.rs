//! van de Hulst 1957, *Light Scattering by Small Particles*, ch. 11: how much light one grain takes away.

use std::f64::consts::PI;

use ashlane_shared::physics::stack::{COARSE_EXTINCTION, grain_extinction};

use crate::{close, printed};

/// `Q_ext` at a phase shift ϱ; n − 1 = 0.5 makes ϱ = πd/λ.
fn extinction(phase_shift: f64) -> f64 {
    let wavelength_m = 0.55e-6;
    grain_extinction(phase_shift * wavelength_m / PI, wavelength_m, 1.5).expect("in range")
}

#[test]
fn the_first_maximum_the_first_minimum_and_the_limits() {
    // From memory of the book: first maximum 3.17 at ϱ = 4.09, first minimum 1.54 at ϱ = 7.63.
    printed("maximum", extinction(4.09), 3.17, 0.0, 0.01);
    printed("minimum", extinction(7.63), 1.54, 0.0, 0.01);
    for (at, sign) in [(4.09, 1.0), (7.63, -1.0)] {
        for aside in [-0.1, 0.1] {
            let fall = sign * (extinction(at) - extinction(at + aside));
            assert!(fall > 0.0, "ϱ = {at} is no extremum: {fall}");
        }
    }
    // From memory of the book: ϱ²/2 for small ϱ, 2 for large.
    close("small", extinction(1e-3), 0.5e-6, 1e-6);
    close("small", extinction(0.05), 0.5 * 0.05 * 0.05, 2e-4);
    close("large", extinction(4e4), COARSE_EXTINCTION, 1e-3);
}

#[test]
fn a_quarter_below_the_exact_series_at_most() {
    // Computed with Mie's series (Mie 1908) for n = 1.5 and 0.55 µm, mean of 51 diameters within ±5 %.
    let wavelength_m = 0.55e-6;
    for (diameter_um, exact) in [
        (0.5, 3.298),
        (0.7, 4.104),
        (1.0, 3.126),
        (2.0, 2.822),
        (5.0, 2.253),
        (10.0, 2.134),
        (20.0, 2.088),
    ] {
        let sum: f64 = (-25..=25)
            .map(|step| {
                let diameter_m = diameter_um * 1e-6 * (1.0 + 0.002 * f64::from(step));
                grain_extinction(diameter_m, wavelength_m, 1.5).expect("in range")
            })
            .sum();
        let ratio = sum / 51.0 / exact;
        // The documented range of the approximation, not a tolerance.
        assert!((0.75..=1.0).contains(&ratio), "{diameter_um} µm: {ratio}");
        if diameter_um > 7.0 {
            let coarse = COARSE_EXTINCTION / exact;
            assert!((0.9..=1.0).contains(&coarse), "{diameter_um} µm: {coarse}");
        }
    }
}
