//! How much fly ash a blow removes (J. Soc. Powder Technol. Japan 16(10), from memory of it), and how it falls.

use ashlane_shared::physics::rapping::{blow_energy_j, removed_share, slide_time_s};

use crate::{close, printed};

#[test]
fn a_thousand_metres_a_second_squared_remove_nine_tenths() {
    // From memory of the journal: 90 % at 1000 m/s², log-normal; 10 mm, 600 kg/m³ and σ = 0.6 common practice, no source.
    let removed = |acceleration| removed_share(acceleration, 0.010, 600.0).expect("a share");
    printed("90 %", removed(1000.0), 0.9, 0.0, 1e-3);
    // Computed by hand: the median is 1000·e^(−0.76896) = 463.5 m/s²; one σ above it, at 844.5, 84.134 % come off and
    // one σ below it, at 254.4, 15.866 % (any table of the normal distribution).
    for (acceleration, expected) in [(463.5, 0.5), (844.5, 0.841_34), (254.4, 0.158_66)] {
        // 2e-4: the accelerations are printed to four digits.
        printed("log-normal", removed(acceleration), expected, 0.0, 4e-4);
    }
}

#[test]
fn a_sheet_slides_ten_metres_in_less_than_a_second_and_a_half() {
    // Computed by hand: √(2·10/9.80665) s.
    printed(
        "slide",
        slide_time_s(10.0).expect("a time"),
        1.43,
        0.0,
        0.01,
    );
    // Computed by hand: 5 kg falling 0.6 m, 9.80665 m/s².
    close(
        "blow",
        blow_energy_j(5.0, 0.6).expect("a blow"),
        29.419_95,
        1e-9,
    );
}
