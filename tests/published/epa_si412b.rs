//! US EPA APTI SI:412B, *Electrostatic Precipitator Plan Review*, design review lesson.

use ashlane_shared::physics::efficiency::limits::needed_area_m2;

use crate::printed;

#[test]
fn collecting_area_of_the_lesson() {
    // From memory of the lesson: 1e6 acfm, 8 gr/ft³ in, 0.04 out, w = 0.3 ft/s, "99.5 %", "294 350 ft²".
    let penetration = 0.04 / 8.0;
    printed("value W2, efficiency", 1.0 - penetration, 0.995, 1e-12, 0.0);
    // 1000 acfm = 0.4719474 m³/s and 1 ft = 0.3048 m, exactly.
    let area_m2 = needed_area_m2(penetration, 0.3 * 0.3048, 1000.0 * 0.4719474);
    printed(
        "value W2, area in ft²",
        area_m2 / (0.3048 * 0.3048),
        294_350.0,
        0.0,
        10.0,
    );
}
