//! The curve of a field with another layer on its plates: what if the dust were worse, or lay thicker.

use super::{FieldEnergization, LayerLoad, VoltageCurrentPoint, layered};
use crate::physics::layer::back_corona::{
    TEACHING_BREAKDOWN_FIELD_V_M, breakdown_field_of_layer_v_m,
};

impl FieldEnergization {
    /// The layer and the curve with it: the gap's own, moved up by `jρh`, and back to less voltage where the layer glows.
    ///
    /// Dust in the gas and its charge are as they are.
    ///
    /// # Arguments
    /// * `resistivity_ohm_m` – ρ of the layer, Ω·m, 0 or more.
    /// * `thickness_m` – h of the layer, m, 0 or more.
    #[must_use]
    pub fn with_layer(
        &self,
        resistivity_ohm_m: f64,
        thickness_m: f64,
    ) -> (LayerLoad, Vec<VoltageCurrentPoint>) {
        let layer = LayerLoad {
            thickness_m,
            resistivity_ohm_m,
            breakdown_v_m: breakdown_field_of_layer_v_m(TEACHING_BREAKDOWN_FIELD_V_M, thickness_m),
            ..self.layer
        };
        let limit_a_m2 = self.settings.current_limit_a / self.plate_area_m2;
        // The peak sparks, the curve is of steady voltages.
        let gap_v = self.state.gap_v();
        let peak_share = if gap_v > 0.0 {
            (self.state.peak_voltage_v - self.state.layer_drop_v) / gap_v
        } else {
            1.0
        };
        let sparks_v = layer.streamer_v / peak_share.max(1.0);
        let curve = layered::curve(&self.dust_load, &layer, limit_a_m2, sparks_v);
        (layer, curve)
    }
}
