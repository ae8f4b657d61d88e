//! Power of the fan by conservation of energy.

use ashlane_shared::physics::fan::fan_power_w;

use crate::printed;

#[test]
fn five_hundred_cubic_metres_against_two_hundred_pascal() {
    // Computed by hand: 500·200/0.7 W = 142.857 kW.
    let power_w = fan_power_w(500.0, 200.0, 0.7).expect("a fan");
    printed("value J1", power_w / 1e3, 142.9, 0.0, 0.1);
}
