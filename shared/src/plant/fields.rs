//! The electrical fields on the plant clock: what layers, wires and ash make of them, and how dust drifts in them then.

use crate::{
    conditions::Conditions,
    physics::PhysicsError,
    simulation::{ChargeAlong, MEAN_OF_SINE, Met, Swung, TabulatedField, TabulatedState, Wear},
};

use super::Rates;

/// Change of voltage or current, as a share, from which on the drift is worked out again.
const FELT: f64 = 5e-3;

/// Change of the layer and of the coat on the wires, m, from which on a field is looked up again: some volts.
const SEEN_LAYER_M: f64 = 5e-5;
const SEEN_COAT_M: f64 = 5e-7;

/// All fields at one time.
#[derive(Clone, Debug)]
pub(super) struct Fields {
    conditions: Conditions,
    tables: Vec<TabulatedField>,
    charging: ChargeAlong,
    /// Drift of each size class by field when the rates were counted, m/s.
    counted: Vec<Vec<f64>>,
    diameters_m: Vec<f64>,
    now: Vec<Swung>,
    /// Wear with which they were looked up.
    seen: Vec<Option<Wear>>,
    /// States for which the drift was worked out.
    felt: Vec<TabulatedState>,
    /// Drift over that when the rates were counted, by field and size class.
    drifts: Vec<Vec<f64>>,
}

impl Fields {
    /// The fields as they were when the rates were counted; none where nobody has counted any.
    pub(super) fn new(conditions: &Conditions, rates: &Rates) -> Result<Self, PhysicsError> {
        let (tables, diameters_m) = (&rates.fields, &rates.diameters_m);
        let mut now = Vec::with_capacity(tables.len());
        for (field, table) in tables.iter().enumerate() {
            let swing_m = conditions.defects[field].swing_m;
            let counted = table.state(&Wear {
                layer_m: conditions.rapping.layer_m[field],
                // Rates are counted with the wires there.
                displaced_m: MEAN_OF_SINE * swing_m,
                ..Wear::NONE
            })?;
            now.push(Swung::still(counted));
        }
        let felt: Vec<TabulatedState> = now.iter().map(|field| field.mean).collect();
        let mut fields = Self {
            conditions: conditions.clone(),
            tables: tables.clone(),
            charging: ChargeAlong::new(conditions),
            counted: Vec::new(),
            drifts: vec![vec![1.0; diameters_m.len()]; tables.len()],
            diameters_m: diameters_m.clone(),
            seen: vec![None; now.len()],
            now,
            felt,
        };
        fields.counted = fields.drifts_of(&fields.felt);
        Ok(fields)
    }

    /// Looks again, with this wear of every field; tells whether the dust feels a difference.
    pub(super) fn look(&mut self, wear: &[Wear]) -> Result<bool, PhysicsError> {
        for (field, table) in self.tables.iter().enumerate() {
            if self.seen[field].is_none_or(|seen| differs(&seen, &wear[field])) {
                self.now[field] = table.over_swing(&wear[field])?;
                self.seen[field] = Some(wear[field]);
            }
        }
        let mut pairs = self.now.iter().zip(&self.felt);
        if pairs.all(|(now, felt)| is_as(&now.mean, felt)) {
            return Ok(false);
        }
        self.felt = self.now.iter().map(|field| field.mean).collect();
        let drifts = self.drifts_of(&self.felt);
        let over = |now: f64, then: f64| if then > 0.0 { now / then } else { 1.0 };
        for (field, drifts) in drifts.iter().enumerate() {
            for (class, now) in drifts.iter().enumerate() {
                self.drifts[field][class] = over(*now, self.counted[field][class]);
            }
        }
        Ok(true)
    }

    /// State of one field; nothing where there are no rates.
    pub(super) fn state(&self, field: usize) -> Option<&Swung> {
        self.now.get(field)
    }

    /// Drift over that when the rates were counted, by field and size class.
    pub(super) fn drifts(&self) -> &[Vec<f64>] {
        &self.drifts
    }

    /// Drift by field and size class in these states, m/s.
    fn drifts_of(&self, states: &[TabulatedState]) -> Vec<Vec<f64>> {
        let mut drifts = vec![vec![0.0; self.diameters_m.len()]; states.len()];
        let met: Vec<Met> = states
            .iter()
            .map(|state| Met {
                gap_v: state.gap_v,
                ions_a_m2: state.forward_a_m2,
            })
            .collect();
        for (field, state) in states.iter().enumerate() {
            let teaching = &self.conditions;
            if let Some(m_s) = teaching.teaching_migration_velocity_m_s(field, state.gap_v) {
                drifts[field].fill(m_s * state.charge_share);
            }
        }
        if self.conditions.teaching.migration_velocity_m_s.is_some() {
            return drifts;
        }
        for (class, diameter_m) in self.diameters_m.iter().enumerate() {
            let charges_c = self.charging.charges_c(*diameter_m, &met);
            for (field, (state, met)) in states.iter().zip(&met).enumerate() {
                let drift_m_s = self.charging.drift_m_s(*diameter_m, charges_c[field], met);
                drifts[field][class] = drift_m_s * state.charge_share;
            }
        }
        drifts
    }
}

/// Whether a field would show the difference of two wears.
fn differs(seen: &Wear, now: &Wear) -> bool {
    (now.layer_m - seen.layer_m).abs() > SEEN_LAYER_M
        || (now.wire_coating_m - seen.wire_coating_m).abs() > SEEN_COAT_M
        || now.ash_share != seen.ash_share
}

/// Whether dust would not feel the difference of two states.
fn is_as(now: &TabulatedState, felt: &TabulatedState) -> bool {
    let near = |now: f64, felt: f64| (now - felt).abs() <= FELT * felt.abs();
    near(now.gap_v, felt.gap_v)
        && near(now.forward_a_m2, felt.forward_a_m2)
        && near(now.charge_share, felt.charge_share)
}
