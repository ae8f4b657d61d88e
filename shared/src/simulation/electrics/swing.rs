//! A loose wire that swings between the plates: the field is at every moment that of its present place.

use std::f64::consts::FRAC_PI_2;

use super::tabulated::{TabulatedField, TabulatedState, Wear};
use crate::physics::PhysicsError;

/// Places of a quarter of the swing that stand for all of it.
const PLACES: usize = 6;

/// A field over one swing of its wires.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swung {
    /// Mean over the swing.
    pub mean: TabulatedState,
    /// Lowest mean voltage at the set on the way, V; without a swing the mean itself.
    pub lowest_v: f64,
    /// Highest of it, V.
    pub highest_v: f64,
}

impl Swung {
    /// Without a swing.
    pub(crate) fn still(state: TabulatedState) -> Self {
        Self {
            mean: state,
            lowest_v: state.voltage_v,
            highest_v: state.voltage_v,
        }
    }
}

impl TabulatedField {
    /// The state over one swing under this wear: a swing is slow against the line, so each place has its own steady state.
    ///
    /// # Errors
    /// A formula refused the wear.
    pub fn over_swing(&self, wear: &Wear) -> Result<Swung, PhysicsError> {
        let swing_m = self.swing_m();
        if swing_m == 0.0 {
            return Ok(Swung::still(self.state(wear)?));
        }
        let mut places = Vec::with_capacity(PLACES);
        for place in 0..PLACES {
            let phase = FRAC_PI_2 * (place as f64 + 0.5) / PLACES as f64;
            places.push(self.state(&Wear {
                displaced_m: wear.displaced_m + swing_m * phase.sin(),
                ..*wear
            })?);
        }
        let voltages = places.iter().map(|state| state.voltage_v);
        Ok(Swung {
            lowest_v: voltages.clone().fold(f64::INFINITY, f64::min),
            highest_v: voltages.fold(0.0, f64::max),
            mean: mean(&places),
        })
    }
}

/// Mean of every number; what holds the voltage is told for the middle of the swing.
fn mean(places: &[TabulatedState]) -> TabulatedState {
    let of = |number: fn(&TabulatedState) -> f64| {
        places.iter().map(number).sum::<f64>() / places.len() as f64
    };
    TabulatedState {
        voltage_v: of(|state| state.voltage_v),
        peak_voltage_v: places
            .iter()
            .map(|state| state.peak_voltage_v)
            .fold(0.0, f64::max),
        gap_v: of(|state| state.gap_v),
        current_density_a_m2: of(|state| state.current_density_a_m2),
        metered_a_m2: of(|state| state.metered_a_m2),
        forward_a_m2: of(|state| state.forward_a_m2),
        sparks_per_min: of(|state| state.sparks_per_min),
        held_by: places[places.len() / 2].held_by,
        layer_field_v_m: of(|state| state.layer_field_v_m),
        layer_drop_v: of(|state| state.layer_drop_v),
        back_corona: places.iter().any(|state| state.back_corona),
        charge_share: of(|state| state.charge_share),
    }
}
