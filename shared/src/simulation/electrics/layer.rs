//! The dust on the plates in series with the gap: the voltage that is lost in it, where it breaks down, what comes back.

use crate::{
    conditions::{Conditions, Kind, Resistivity},
    physics::{
        PhysicsError, gas,
        layer::{
            back_corona::{
                TEACHING_BREAKDOWN_FIELD_V_M, TEACHING_COUNTER_RATIO, breakdown_field_of_layer_v_m,
                charge_factor, counter_current_density_a_m2, held_drop_v, held_field_v_m,
                net_current_density_a_m2, onset_current_density_a_m2, streamer_field_v_m,
            },
            resistivity::{AshComposition, LayerSurroundings, ash_resistivity_ohm_m},
        },
    },
};

/// Field at which a composition's resistivity is taken, V/m: 10 kV/cm, as tables and lessons have it.
const TABLE_FIELD_V_M: f64 = 1e6;

/// The layer of one field.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LayerLoad {
    /// Thickness, m.
    pub thickness_m: f64,
    /// Resistivity, Ω·m.
    pub resistivity_ohm_m: f64,
    /// Field at which it breaks down, V/m; infinite where there is none.
    pub breakdown_v_m: f64,
    /// Gap voltage from which on its breakdown sparks, V.
    pub streamer_v: f64,
}

impl LayerLoad {
    /// The layer of a field, 0 for the first, as the conditions have it.
    ///
    /// # Errors
    /// A formula refused the conditions.
    pub fn new(conditions: &Conditions, field: usize) -> Result<Self, PhysicsError> {
        let thickness_m = conditions.rapping.layer_m.get(field).copied();
        let resistivity_ohm_m = layer_resistivity_ohm_m(conditions)?;
        Ok(Self::of(
            conditions,
            resistivity_ohm_m,
            thickness_m.unwrap_or(0.0),
        ))
    }

    /// A layer of this resistivity and thickness.
    pub(crate) fn of(conditions: &Conditions, resistivity_ohm_m: f64, thickness_m: f64) -> Self {
        let gas = &conditions.gas;
        let delta = gas::relative_density(gas.temperature_k, gas.pressure_pa);
        Self {
            thickness_m,
            resistivity_ohm_m,
            breakdown_v_m: breakdown_field_of_layer_v_m(TEACHING_BREAKDOWN_FIELD_V_M, thickness_m),
            streamer_v: streamer_field_v_m(delta) * conditions.gap_m(),
        }
    }

    /// Whether it takes nothing off the voltage.
    #[must_use]
    pub fn is_none(&self) -> bool {
        self.thickness_m * self.resistivity_ohm_m == 0.0
    }

    /// Voltage that is lost in it at a current density in A/m², V.
    #[must_use]
    pub fn drop_v(&self, density_a_m2: f64) -> f64 {
        if self.is_none() {
            return 0.0;
        }
        held_drop_v(
            density_a_m2,
            self.resistivity_ohm_m,
            self.breakdown_v_m,
            self.thickness_m,
        )
    }

    /// Field in it, V/m.
    #[must_use]
    pub fn field_v_m(&self, density_a_m2: f64) -> f64 {
        held_field_v_m(density_a_m2, self.resistivity_ohm_m, self.breakdown_v_m)
    }

    /// Largest current density that it carries unbroken, A/m²; infinite where there is none.
    #[must_use]
    pub fn unbroken_a_m2(&self) -> f64 {
        if self.is_none() {
            return f64::INFINITY;
        }
        onset_current_density_a_m2(self.breakdown_v_m, self.resistivity_ohm_m)
    }

    /// Current density whose charge is left in the gas, A/m².
    #[must_use]
    pub fn net_a_m2(&self, density_a_m2: f64) -> f64 {
        net_current_density_a_m2(
            density_a_m2,
            self.resistivity_ohm_m,
            self.breakdown_v_m,
            TEACHING_COUNTER_RATIO,
        )
    }

    /// Current density of the ions that arrive, A/m²: all but those that come back.
    #[must_use]
    pub fn forward_a_m2(&self, density_a_m2: f64) -> f64 {
        density_a_m2
            - counter_current_density_a_m2(
                density_a_m2,
                self.resistivity_ohm_m,
                self.breakdown_v_m,
                TEACHING_COUNTER_RATIO,
            )
    }

    /// Share of their charge that grains keep.
    #[must_use]
    pub fn charge_share(&self, density_a_m2: f64) -> f64 {
        charge_factor(
            density_a_m2,
            self.resistivity_ohm_m,
            self.breakdown_v_m,
            TEACHING_COUNTER_RATIO,
        )
    }

    /// Share of the spark voltage that is left where the layer stands in the gap.
    pub(super) fn gap_share(&self, gap_m: f64) -> f64 {
        (1.0 - self.thickness_m / gap_m).max(0.0)
    }
}

/// Resistivity of the dust on the plates, Ω·m: as given, or by its composition at 10 kV/cm; none where water runs.
///
/// # Errors
/// A formula refused the conditions.
pub fn layer_resistivity_ohm_m(conditions: &Conditions) -> Result<f64, PhysicsError> {
    if conditions.collector.kind == Kind::Wet {
        return Ok(0.0);
    }
    match &conditions.dust.resistivity {
        Resistivity::Given(resistivity_ohm_m) => Ok(*resistivity_ohm_m),
        Resistivity::FromComposition(ash) => ash_resistivity_ohm_m(
            &AshComposition {
                lithium_sodium_percent: ash.lithium_sodium_percent,
                iron_percent: ash.iron_percent,
                magnesium_calcium_percent: ash.magnesium_calcium_percent,
                potassium_percent: ash.potassium_percent,
            },
            &LayerSurroundings {
                temperature_k: conditions.gas.temperature_k,
                moisture: conditions.gas.moisture,
                sulphur_trioxide_ppm: conditions.gas.sulphur_trioxide_ppm,
                field_v_m: TABLE_FIELD_V_M,
            },
        ),
    }
}
