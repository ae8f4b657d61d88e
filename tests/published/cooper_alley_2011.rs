//! Cooper & Alley 2011, *Air Pollution Control: A Design Approach*, ch. 5: how many plates.

use ashlane_shared::physics::efficiency::limits::{deutsch, deutsch_number, needed_area_m2};

use crate::{close, printed};

#[test]
fn example_5_1() {
    // From memory of Ex. 5.1: 8000 m³/min, 98 %, w = 6.0 m/min, "5216 m²"; plates 6 m × 3 m, "146 plates".
    let (flow, drift) = (8000.0 / 60.0, 6.0 / 60.0);
    let area_m2 = needed_area_m2(0.02, drift, flow);
    printed("value W1, area", area_m2, 5216.0, 0.0, 1.0);
    let passages = (area_m2 / (2.0 * 6.0 * 3.0)).ceil();
    close("value W1, passages", passages, 145.0, 0.0);
    close("value W1, plates", passages + 1.0, 146.0, 0.0);
    close(
        "value W1, back",
        deutsch(deutsch_number(drift, area_m2 / flow)),
        0.02,
        1e-12,
    );
}
