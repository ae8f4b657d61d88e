//! What the meters of the sets show on the plant clock: layers, coats and ash as they are by now.

use super::Plant;
use crate::simulation::{FieldState, Swung};

impl Plant {
    /// These states, solved with the layer of the conditions, as the layers, coats and ash of this moment have made them.
    ///
    /// What a layer does not change, as the voltages of onset and spark in a clean gap, is that of the given states; so is
    /// everything where no rates are known.
    #[must_use]
    pub fn meters(&self, solved: &[FieldState]) -> Vec<FieldState> {
        let fields = solved.iter().enumerate();
        fields
            .map(|(field, solved)| {
                let now = self.fields.state(field);
                now.map_or_else(|| solved.clone(), |now| worn(solved, now))
            })
            .collect()
    }
}

fn worn(solved: &FieldState, now: &Swung) -> FieldState {
    let mean = &now.mean;
    FieldState {
        voltage_v: mean.voltage_v,
        peak_voltage_v: mean.peak_voltage_v,
        held_by: mean.held_by,
        sparks_per_min: mean.sparks_per_min,
        current_density_a_m2: mean.current_density_a_m2,
        leakage_a_m2: mean.metered_a_m2 - mean.current_density_a_m2,
        layer_drop_v: mean.layer_drop_v,
        layer_field_v_m: mean.layer_field_v_m,
        back_corona: mean.back_corona,
        charge_share: mean.charge_share,
        ..solved.clone()
    }
}
