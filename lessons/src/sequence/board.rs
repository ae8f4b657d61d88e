//! The board: what the acts have led to so far, computed second by second.

use ashlane_shared::{conditions::Conditions, physics::PhysicsError};

use super::{
    Act, BoardError, Consequences, Exercise, Start,
    act::LONGEST_S,
    gas::{OUTSIDE_K, dew_point_k, moved, volume_m3},
};

/// The keys, as a principle: nothing here is a step.
pub const KEYS_PRINCIPLE: &str = "While a set is on, its key is captive in it. Off is not discharged. Isolation, key exchange, grounding and proof belong to the site's procedure and its authorised people; the keys force an order and make nothing safe by themselves. This board opens no door: it ends with the hand-over to the permit holder.";

/// Longest piece of time that is computed at once, s.
const STEP_S: f64 = 5.0;
/// Teaching values, no source: rise of the insulators over the outside by their heaters, K; share of the gas's own rise
/// that reaches them; time in which they follow, s.
const HEATERS_K: f64 = 90.0;
const FROM_GAS: f64 = 0.15;
const INSULATOR_S: f64 = 3.0 * 3600.0;
/// Combustibles, share by volume, invented: left in a cold casing, of a fire that is not stable, of one that is.
const LEFT: f64 = 8e-3;
const UNSTABLE: f64 = 4e-3;
const STABLE: f64 = 1e-4;
/// One migration velocity, m/s: that of the reference collector of training.md; the sheet's where it has one.
const DRIFT_M_S: f64 = 0.0932;
/// Times in which rappers clean plates and ash removal empties hoppers, s. Teaching values, no source.
const RAPPING_S: f64 = 1800.0;
const REMOVAL_S: f64 = 900.0;
/// Volume changes after which there is too little left of the old gas to be a second witness of the purge.
const WITNESS_CHANGES: f64 = 20.0;
/// What counts as clean, kg: a thousandth of what a shift brings would already be more.
const CLEAN_KG: f64 = 1.0;

/// The board after some acts.
#[derive(Clone, Debug)]
pub struct Board {
    exercise: Exercise,
    conditions: Conditions,
    dew_k: f64,
    /// Acts that hold, those that were taken back left out.
    acts: Vec<Act>,
    now: Now,
}

/// Everything that time changes.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Now {
    pub(super) time_s: f64,
    pub(super) heaters: bool,
    pub(super) ash_removal: bool,
    pub(super) rappers: bool,
    pub(super) fan: bool,
    /// How long the fire has burned, s; nothing while there is none.
    pub(super) burning_s: Option<f64>,
    pub(super) on: Vec<bool>,
    pub(super) insulator_k: f64,
    pub(super) combustibles: f64,
    pub(super) flow_m3_s: f64,
    /// Gas that was exchanged since there was last none of the fire's, m³.
    pub(super) purged_m3: f64,
    /// What combustibles were when that purge began, while no fire was lit; for the second witness of the purge.
    pub(super) purge_from: f64,
    /// Volume changes and combustibles at the end of the purge: the fire was lit, or next to nothing was left.
    pub(super) purge_closed: Option<(f64, f64)>,
    pub(super) layers_kg: Vec<f64>,
    pub(super) hoppers_kg: Vec<f64>,
    pub(super) handed_over: bool,
    pub(super) so_far: Consequences,
}

impl Board {
    /// The board at the start of an exercise.
    ///
    /// # Errors
    /// The gas has no dew point.
    pub fn new(exercise: &Exercise, conditions: &Conditions) -> Result<Self, PhysicsError> {
        Ok(Self {
            exercise: exercise.clone(),
            conditions: conditions.clone(),
            dew_k: dew_point_k(conditions)?,
            acts: Vec::new(),
            now: start(exercise, conditions),
        })
    }

    /// The board that these acts lead to.
    ///
    /// # Errors
    /// The gas has no dew point, or the first act that is not possible, in words.
    pub fn replayed(
        exercise: &Exercise,
        conditions: &Conditions,
        acts: &[Act],
    ) -> Result<Self, String> {
        let mut board = Self::new(exercise, conditions).map_err(|error| error.to_string())?;
        for act in acts {
            board.take(*act).map_err(|error| error.to_string())?;
        }
        Ok(board)
    }

    /// Takes an act.
    ///
    /// # Errors
    /// It is not possible; the board is as it was.
    pub fn take(&mut self, act: Act) -> Result<(), BoardError> {
        if act == Act::TakeBack {
            return self.take_back();
        }
        if self.now.handed_over {
            return Err(BoardError::HandedOver);
        }
        match act {
            Act::Heaters(on) => switch(&mut self.now.heaters, on)?,
            Act::AshRemoval(on) => switch(&mut self.now.ash_removal, on)?,
            Act::Rappers(on) => switch(&mut self.now.rappers, on)?,
            Act::Fan(on) => self.turn_fan(on)?,
            Act::Fire(on) => self.light(on)?,
            Act::Energize(field) => self.energize(field, true)?,
            Act::DeEnergize(field) => self.energize(field, false)?,
            Act::Wait(time_s) => self.wait(time_s)?,
            Act::HandOver => self.hand_over()?,
            Act::TakeBack => {}
        }
        self.acts.push(act);
        Ok(())
    }

    /// Acts that hold.
    #[must_use]
    pub fn acts(&self) -> &[Act] {
        &self.acts
    }

    /// What has followed so far.
    #[must_use]
    pub fn consequences(&self) -> &Consequences {
        &self.now.so_far
    }

    /// Time since the start of the board, s: shown, never scored.
    #[must_use]
    pub fn time_s(&self) -> f64 {
        self.now.time_s
    }

    /// Which fields are on.
    #[must_use]
    pub fn fields(&self) -> &[bool] {
        &self.now.on
    }

    /// Switches: heaters, ash removal, rappers, fan, fire.
    #[must_use]
    pub fn switches(&self) -> [(&'static str, bool); 5] {
        let now = &self.now;
        [
            ("insulator heaters", now.heaters),
            ("ash removal", now.ash_removal),
            ("rappers", now.rappers),
            ("fan", now.fan),
            ("fire", now.burning_s.is_some()),
        ]
    }

    /// Temperature of the insulators, and the dew point of the gas, K.
    #[must_use]
    pub fn insulators_k(&self) -> (f64, f64) {
        (self.now.insulator_k, self.dew_k)
    }

    /// Combustibles in the gas, share by volume, and the site's set-point.
    #[must_use]
    pub fn combustibles(&self) -> (f64, f64) {
        (self.now.combustibles, self.exercise.site.combustibles)
    }

    /// Volume changes of the purge, and those that the site asks for.
    #[must_use]
    pub fn volume_changes(&self) -> (f64, f64) {
        let changes = self.now.purged_m3 / volume_m3(&self.conditions);
        (changes, self.exercise.site.volume_changes)
    }

    /// Dust on the plates and ash in the hoppers, by field, kg.
    #[must_use]
    pub fn dust_kg(&self) -> (&[f64], &[f64]) {
        (&self.now.layers_kg, &self.now.hoppers_kg)
    }

    /// Whether the insulators are as far above the dew point as the site asks.
    #[must_use]
    pub fn is_dry(&self) -> bool {
        self.now.insulator_k >= self.dew_k + self.exercise.site.above_dew_k
    }

    /// Whether the purge is complete.
    #[must_use]
    pub fn is_purged(&self) -> bool {
        let (changes, wanted) = self.volume_changes();
        changes >= wanted
    }

    /// Whether the fire burns and counts as stable.
    #[must_use]
    pub fn is_stable(&self) -> bool {
        let stable_s = self.exercise.site.stable_s;
        self.now
            .burning_s
            .is_some_and(|burning_s| burning_s >= stable_s)
    }

    /// Whether combustibles are at or below the site's set-point.
    #[must_use]
    pub fn is_below_set_point(&self) -> bool {
        self.now.combustibles <= self.exercise.site.combustibles
    }

    /// Whether plates and hoppers are clean.
    #[must_use]
    pub fn is_clean(&self) -> bool {
        let dust = self.now.layers_kg.iter().chain(&self.now.hoppers_kg);
        dust.sum::<f64>() < CLEAN_KG
    }

    /// Whether the machine is with the permit holder.
    #[must_use]
    pub fn is_handed_over(&self) -> bool {
        self.now.handed_over
    }

    /// Whether every field is on, and the fire stable.
    #[must_use]
    pub fn is_in_service(&self) -> bool {
        let now = &self.now;
        let runs = now.heaters && now.rappers && now.ash_removal;
        runs && self.is_stable() && now.on.iter().all(|on| *on)
    }

    pub(super) fn now(&self) -> &Now {
        &self.now
    }

    fn take_back(&mut self) -> Result<(), BoardError> {
        let mut acts = self.acts.clone();
        acts.pop().ok_or(BoardError::Nothing)?;
        self.now = start(&self.exercise, &self.conditions);
        self.acts.clear();
        acts.into_iter().try_for_each(|act| self.take(act))
    }

    fn turn_fan(&mut self, on: bool) -> Result<(), BoardError> {
        if !on && self.now.burning_s.is_some() {
            return Err(BoardError::FireBurns);
        }
        switch(&mut self.now.fan, on)?;
        if on && !self.is_purged() {
            // A purge that was broken off begins anew.
            self.now.purged_m3 = 0.0;
            self.now.purge_from = self.now.combustibles;
            self.now.purge_closed = None;
        }
        Ok(())
    }

    fn light(&mut self, on: bool) -> Result<(), BoardError> {
        if on == self.now.burning_s.is_some() {
            return Err(BoardError::SoAlready);
        }
        if on && !self.now.fan {
            return Err(BoardError::NoDraught);
        }
        if on {
            self.now.so_far.lit_unpurged += u32::from(!self.is_purged());
            if self.now.purge_closed.is_none() {
                let (changes, _) = self.volume_changes();
                self.now.purge_closed = Some((changes, self.now.combustibles));
            }
        }
        if !on {
            // What the fire leaves has to be purged before the next one.
            self.now.purged_m3 = 0.0;
            self.now.purge_from = self.now.combustibles;
            self.now.purge_closed = None;
        }
        self.now.burning_s = on.then_some(0.0);
        Ok(())
    }

    fn energize(&mut self, field: usize, on: bool) -> Result<(), BoardError> {
        let fields = self.now.on.len();
        let switched = self.now.on.get_mut(field).ok_or(BoardError::NoField {
            field: field + 1,
            fields,
        })?;
        switch(switched, on)
    }

    fn hand_over(&mut self) -> Result<(), BoardError> {
        if self.now.on.iter().any(|on| *on) {
            return Err(BoardError::FieldsOn);
        }
        if self.now.burning_s.is_some() {
            return Err(BoardError::FireOn);
        }
        self.now.handed_over = true;
        Ok(())
    }

    fn wait(&mut self, time_s: f64) -> Result<(), BoardError> {
        if !(1.0..=LONGEST_S).contains(&time_s) {
            return Err(BoardError::Wait(time_s));
        }
        let steps = (time_s / STEP_S).ceil();
        let step_s = time_s / steps;
        for _ in 0..steps as u64 {
            self.step(step_s);
        }
        Ok(())
    }

    /// A few seconds go by.
    fn step(&mut self, step_s: f64) {
        self.record(step_s);
        let moved_m3 = self.move_gas(step_s);
        self.warm(step_s);
        self.carry_dust(step_s, moved_m3);
        let now = &mut self.now;
        now.time_s += step_s;
        if let Some(burning_s) = &mut now.burning_s {
            *burning_s += step_s;
        }
    }

    /// What follows from how things stand.
    fn record(&mut self, step_s: f64) {
        let fields = self.now.on.iter().filter(|on| **on).count() as f64;
        let burns = self.now.burning_s.is_some();
        let wet = burns && self.now.insulator_k < self.dew_k;
        let (above, unpurged) = (!self.is_below_set_point(), !self.is_purged());
        let unstable = burns && !self.is_stable();
        let so_far = &mut self.now.so_far;
        let while_on = |holds: bool| if holds { fields * step_s } else { 0.0 };
        so_far.condensing_s += if wet { step_s } else { 0.0 };
        so_far.tracking_s += while_on(wet);
        so_far.ignition_s += while_on(above);
        so_far.unpurged_s += while_on(unpurged);
        so_far.unstable_s += while_on(unstable);
    }

    /// Flow, purge and combustibles; returns the gas that went through, m³.
    fn move_gas(&mut self, step_s: f64) -> f64 {
        let full_m3_s = self.conditions.gas.flow_m3_s;
        let wanted_m3_s = match (self.now.fan, self.now.burning_s) {
            (false, _) => 0.0,
            (true, None) => self.exercise.purge_share * full_m3_s,
            (true, Some(_)) => full_m3_s,
        };
        let stable = self.is_stable();
        let now = &mut self.now;
        let (moved_m3, flow_m3_s) = moved(now.flow_m3_s, wanted_m3_s, step_s);
        now.flow_m3_s = flow_m3_s;
        let coming = match now.burning_s {
            None => 0.0,
            Some(_) if stable => STABLE,
            Some(_) => UNSTABLE,
        };
        let left = (-moved_m3 / volume_m3(&self.conditions)).exp();
        now.combustibles = coming + (now.combustibles - coming) * left;
        if now.burning_s.is_none() {
            now.purged_m3 += moved_m3;
            let changes = now.purged_m3 / volume_m3(&self.conditions);
            if changes >= WITNESS_CHANGES && now.purge_closed.is_none() {
                now.purge_closed = Some((changes, now.combustibles));
            }
        }
        moved_m3
    }

    /// Insulators follow their heaters and the gas below them.
    fn warm(&mut self, step_s: f64) {
        let now = &mut self.now;
        let mut end_k = OUTSIDE_K;
        if now.heaters {
            end_k += HEATERS_K;
        }
        if now.burning_s.is_some() {
            end_k += FROM_GAS * (self.conditions.gas.temperature_k - OUTSIDE_K);
        }
        now.insulator_k = end_k + (now.insulator_k - end_k) * (-step_s / INSULATOR_S).exp();
    }

    /// Dust comes with the fire's gas, is caught by the fields that are on, rapped off and taken away.
    fn carry_dust(&mut self, step_s: f64, moved_m3: f64) {
        let drift_m_s = (self.conditions.teaching.migration_velocity_m_s).unwrap_or(DRIFT_M_S);
        let fields = self.now.on.len();
        let area_m2 = self.conditions.collecting_area_m2() / fields as f64;
        let now = &mut self.now;
        let mut flying_kg = match now.burning_s {
            Some(_) => self.conditions.dust.load_kg_m3 * moved_m3,
            None => 0.0,
        };
        let through = if now.flow_m3_s > 0.0 {
            (-drift_m_s * area_m2 / now.flow_m3_s).exp()
        } else {
            0.0
        };
        let back = self.conditions.returned_share();
        for field in 0..fields {
            if now.on[field] {
                let caught_kg = (1.0 - through) * flying_kg;
                flying_kg -= caught_kg;
                now.layers_kg[field] += caught_kg;
                if !now.rappers {
                    now.so_far.uncleaned_kg += caught_kg;
                }
            }
            if now.rappers {
                let off_kg = now.layers_kg[field] * (1.0 - (-step_s / RAPPING_S).exp());
                now.layers_kg[field] -= off_kg;
                // What a rap sends back flies on, if there is gas to carry it.
                let carried = if now.flow_m3_s > 1.0 { back } else { 0.0 };
                flying_kg += carried * off_kg;
                now.hoppers_kg[field] += (1.0 - carried) * off_kg;
                if !now.ash_removal {
                    now.so_far.unremoved_kg += (1.0 - carried) * off_kg;
                }
            }
            if now.ash_removal {
                now.hoppers_kg[field] *= (-step_s / REMOVAL_S).exp();
            }
        }
        now.so_far.stack_kg += flying_kg;
    }
}

fn switch(state: &mut bool, on: bool) -> Result<(), BoardError> {
    if *state == on {
        return Err(BoardError::SoAlready);
    }
    *state = on;
    Ok(())
}

fn start(exercise: &Exercise, conditions: &Conditions) -> Now {
    let fields = conditions.collector.fields;
    let cold = Now {
        time_s: 0.0,
        heaters: false,
        ash_removal: false,
        rappers: false,
        fan: false,
        burning_s: None,
        on: vec![false; fields],
        insulator_k: OUTSIDE_K,
        combustibles: LEFT,
        flow_m3_s: 0.0,
        purged_m3: 0.0,
        purge_from: LEFT,
        purge_closed: None,
        layers_kg: vec![0.0; fields],
        hoppers_kg: vec![0.0; fields],
        handed_over: false,
        so_far: Consequences::default(),
    };
    let gas_rise_k = FROM_GAS * (conditions.gas.temperature_k - OUTSIDE_K);
    let burning = Now {
        fan: true,
        burning_s: Some(2.0 * exercise.site.stable_s),
        combustibles: STABLE,
        flow_m3_s: conditions.gas.flow_m3_s,
        purged_m3: 2.0 * exercise.site.volume_changes * volume_m3(conditions),
        purge_closed: Some((0.0, LEFT)),
        ash_removal: true,
        rappers: true,
        ..cold.clone()
    };
    match exercise.start {
        Start::Cold => cold,
        Start::Waiting => Now {
            insulator_k: OUTSIDE_K + gas_rise_k,
            ..burning
        },
        Start::Running => Now {
            heaters: true,
            insulator_k: OUTSIDE_K + HEATERS_K + gas_rise_k,
            on: vec![true; fields],
            layers_kg: vec![50.0; fields],
            ..burning
        },
    }
}
