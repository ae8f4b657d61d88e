//! What rows of hoppers get and when they are full: an invented four-field collector, computed by hand.

use ashlane_shared::physics::efficiency::limits::deutsch;
use ashlane_shared::physics::hopper::{Hopper, ash_split, fill_time_s, heap_volume_m3};

use crate::{close, printed};

const HOUR_S: f64 = 3600.0;

#[test]
fn four_equal_fields_share_the_ash() {
    // Computed by hand: 118.8 m³/s of 8 g/m³; De = ln 500 (99.8 % as a whole) over four equal fields.
    let inlet_kg_s = 118.8 * 8e-3;
    printed("inlet", inlet_kg_s * HOUR_S, 3421.0, 0.0, 1.0);
    let field = deutsch(500.0_f64.ln() / 4.0);
    printed("passed by a field", field, 0.211, 0.0, 1e-3);
    let split = ash_split(inlet_kg_s, &[field; 4]).expect("a split");
    for (row, (expected_kg_h, last_digit)) in
        [(2698.0, 1.0), (571.0, 1.0), (121.0, 1.0), (25.5, 0.1)]
            .into_iter()
            .enumerate()
    {
        let got_kg_h = split.rows_kg_s[row] * HOUR_S;
        printed("row", got_kg_h, expected_kg_h, 0.0, last_digit);
    }
    printed("stack", split.outlet_kg_s * HOUR_S, 6.8, 0.0, 0.1);
    // Field 1 out of service: row 2 gets what row 1 got.
    let lost = ash_split(inlet_kg_s, &[1.0, field, field, field]).expect("a split");
    printed("row 2", lost.rows_kg_s[1] * HOUR_S, 2698.0, 0.0, 1.0);
    // Computed: e^(ln 500/4) = 4.73 times the dust.
    printed(
        "lost",
        lost.outlet_kg_s / split.outlet_kg_s,
        4.73,
        0.0,
        0.01,
    );
}

#[test]
fn thirty_cubic_metres_fill_in_hours_or_a_day() {
    // Computed by hand from the rates of the rows, 480 and 560 kg/m³ (common practice, no source).
    for (rate_kg_h, density_kg_m3, expected_h, last_digit) in [
        (2698.0, 480.0, 5.3, 0.1),
        (2698.0, 560.0, 6.2, 0.1),
        (571.0, 480.0, 25.0, 1.0),
        (571.0, 560.0, 29.0, 1.0),
    ] {
        let time_s = fill_time_s(30.0, density_kg_m3, rate_kg_h / HOUR_S).expect("a time");
        printed("brim", time_s / HOUR_S, expected_h, 0.0, last_digit);
    }
}

#[test]
fn a_pyramid_at_62_per_cent_holds_under_a_third() {
    // Computed by hand: 0.62³ = 0.238328 for a pyramid; a real outlet adds some.
    let share = |outlet_m: f64| {
        let hopper = Hopper::new((3.0, 3.3), (outlet_m, outlet_m), 3.2).expect("a hopper");
        hopper.volume_below_m3(0.62 * 3.2).expect("inside") / hopper.volume_m3()
    };
    close("pyramid", share(0.0), 0.238_328, 1e-12);
    assert!(share(0.4) > share(0.0) && share(0.4) < 1.0 / 3.0, "frustum");
    // Heron of Alexandria, Metrica: a frustum of two similar rectangles holds (H/3)(A₁ + A₂ + √(A₁A₂)).
    let frustum = Hopper::new((3.0, 4.0), (0.3, 0.4), 5.0).expect("a hopper");
    let (top, outlet) = (12.0_f64, 0.12_f64);
    let heron = 5.0 / 3.0 * (top + outlet + (top * outlet).sqrt());
    close("frustum", frustum.volume_m3(), heron, 1e-14);
}

#[test]
fn a_heap_holds_a_cone() {
    // Computed by hand: π/3·1.5³·tan 40° = 2.9656 m³.
    let volume = heap_volume_m3(1.5, 40.0_f64.to_radians()).expect("a heap");
    printed("heap", volume, 2.9656, 0.0, 1e-4);
}
