//! Idelchik 1986, *Handbook of Hydraulic Resistance*: perforated plates, sudden widenings and narrowings of ducts.

use ashlane_shared::physics::gas_path::perforated_plate::{loss_coefficient, pressure_loss_pa};
use ashlane_shared::physics::gas_path::pressure::{contraction_loss, expansion_loss};

use crate::{close, printed};

#[test]
fn perforated_plate() {
    // From memory of diagram 8-1: [0.707 √(1−f) + 1−f]²/f²; `fluids` gives the same plate within 9 %.
    for (open_share, expected, last_digit) in [
        (0.3, 18.534, 1e-3),
        (0.4, 8.2317, 1e-4),
        (0.5, 3.9994, 1e-4),
    ] {
        let loss = loss_coefficient(open_share).expect("a plate");
        printed("value N1", loss, expected, 0.0, last_digit);
    }
    // Computed: 3.9994 · 0.83519 · 1.2²/2.
    let loss_pa = pressure_loss_pa(3.9994, 0.83519, 1.2).expect("a loss");
    close("loss of a half open plate", loss_pa, 2.40497, 1e-5);
}

#[test]
fn widenings_and_narrowings() {
    // From memory of the source: sudden widening (1 − A₁/A₂)² (Borda and Carnot), sharp-edged narrowing ½(1 − A₂/A₁);
    // its end points are a jet into open space, 1, and a pipe out of a large vessel, 0.5.
    for (narrow_over_wide, widening, narrowing) in [
        (1.0, 0.0, 0.0),
        (0.5, 0.25, 0.25),
        (0.2, 0.64, 0.4),
        (1e-9, 1.0, 0.5),
    ] {
        let got = expansion_loss(narrow_over_wide, 1.0).expect("a widening");
        printed("widening", got, widening, 1e-8, 1e-12);
        let got = contraction_loss(1.0, narrow_over_wide).expect("a narrowing");
        printed("narrowing", got, narrowing, 1e-8, 1e-12);
    }
}
