//! What the instruments of a machine show at one moment, as far as alarms read them.

use crate::{
    conditions::Conditions,
    machine::Machine,
    physics::{PhysicsError, gas_path::pressure::Station},
    simulation::{Clock, GasAlong},
};

/// One moment of the whole collector.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Instruments {
    /// Time of layers and hoppers since they were clean, s.
    pub time_s: f64,
    /// By field.
    pub fields: Vec<FieldInstruments>,
    /// Mean opacity in the stack; nothing on the flight clock, whose few drawn grains are no mean.
    pub opacity: Option<f64>,
    /// Oxygen in the inlet duct, dry, share by volume.
    pub oxygen_in: Option<f64>,
    /// The same in the outlet duct.
    pub oxygen_out: Option<f64>,
}

/// One field.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FieldInstruments {
    /// Voltage that the operator asks of the set, V; 0 where it is switched off on purpose.
    pub asked_v: f64,
    /// What its kilovolt meter shows, V.
    pub metered_v: f64,
    /// What its milliammeter shows, A.
    pub metered_a: f64,
    /// Its current limit, A.
    pub limit_a: f64,
    /// Level of the ash as a share of the height of its hoppers.
    pub hopper_level: Option<f64>,
}

impl Instruments {
    /// Reads a machine. What the operator asks of the sets stands in `asked`, which a fault does not change; `gas` is the
    /// gas along its way under the conditions that hold.
    ///
    /// # Errors
    /// A formula refused the state.
    pub fn of(
        machine: &Machine,
        asked: &Conditions,
        gas: Option<&GasAlong>,
    ) -> Result<Self, PhysicsError> {
        let conditions = machine.conditions();
        let area_m2 = conditions.collecting_area_m2() / conditions.collector.fields as f64;
        let hoppers = machine.hoppers()?;
        let meters = machine.meters();
        let fields = meters.iter().enumerate().map(|(field, state)| {
            let asked_v = asked.electrical.voltage_v.get(field);
            FieldInstruments {
                asked_v: asked_v.copied().unwrap_or(0.0),
                metered_v: state.metered_v(),
                metered_a: state.metered_a_m2() * area_m2,
                limit_a: conditions.electrical.current_limit_a_m2 * area_m2,
                hopper_level: hoppers.get(field).map(|row| row.level),
            }
        });
        let opacity = match machine.runs() {
            Clock::Flight => None,
            Clock::Plant { .. } => machine.trend().last().map(|last| last.opacity),
        };
        let oxygen = |station| Some(gas?.at(station)?.oxygen_dry);
        Ok(Self {
            time_s: machine.plant_time_s(),
            fields: fields.collect(),
            opacity,
            oxygen_in: oxygen(Station::InletDuct),
            oxygen_out: oxygen(Station::OutletDuct),
        })
    }

    /// Middle of what the kilovolt meters of the other fields show that are on, V; nothing where there are none.
    #[must_use]
    pub fn middle_of_others_v(&self, field: usize) -> Option<f64> {
        let others = self.fields.iter().enumerate();
        let mut others_v: Vec<f64> = others
            .filter(|(index, other)| *index != field && other.asked_v > 0.0)
            .map(|(_, other)| other.metered_v)
            .collect();
        others_v.sort_by(f64::total_cmp);
        // Of an even number the higher of the two in the middle: one dead neighbour of two hides nothing.
        others_v.get(others_v.len() / 2).copied()
    }
}
