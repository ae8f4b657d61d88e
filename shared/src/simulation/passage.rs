//! One gas passage as the step sees it: the conditions turned into the few numbers and tables that a step needs.

use super::{
    charge::ChargingLaw,
    electrics::{Electrics, FieldState, electrics},
    field_map::FieldMaps,
    grain::{Grain, GrainMaker},
    gusts::Gusts,
    sizes::SizeSampler,
};
use crate::{
    conditions::{Conditions, Mixing, Profile},
    physics::{
        PhysicsError,
        constants::VACUUM_PERMITTIVITY_F_M,
        corona::{WireField, WireRow},
        efficiency::velocity_spread::{Lane, lanes},
        gas,
        mixing::{IonCurrent, PassageFlow, eddy_diffusivity_m2_s},
    },
};

/// What moves the grains across.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Motion {
    /// One migration velocity for every grain.
    Fixed,
    /// Charge and local field.
    Charged(ChargingLaw),
}

/// What mixes them across.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Stirring {
    /// Nothing.
    None,
    /// Random displacement.
    Diffusive {
        /// Diffusivity without the gusts, m²/s.
        diffusivity_m2_s: f64,
    },
    /// Everything, at once.
    Full,
}

impl Stirring {
    /// 2D, m²/s; 0 where nothing diffuses.
    #[inline(always)]
    pub(crate) fn double_diffusivity(self) -> f32 {
        match self {
            Self::Diffusive { diffusivity_m2_s } => (2.0 * diffusivity_m2_s) as f32,
            Self::None | Self::Full => 0.0,
        }
    }
}

/// One electrical field of the passage.
#[derive(Clone, Debug)]
pub(crate) struct Stage {
    /// Distance of its downstream edge from the start of the first field, m.
    pub(crate) end_m: f32,
    /// The one migration velocity, m/s, where it is fixed.
    pub(crate) fixed_drift_m_s: f64,
}

/// Everything a step reads and never changes.
#[derive(Clone, Debug)]
pub(crate) struct Passage {
    pub(crate) gap_m: f32,
    pub(crate) height_m: f32,
    pub(crate) parabolic: bool,
    pub(crate) motion: Motion,
    pub(crate) stirring: Stirring,
    pub(crate) gusts: Option<Gusts>,
    pub(crate) stages: Vec<Stage>,
    pub(crate) maps: FieldMaps,
    pub(crate) states: Vec<FieldState>,
    pub(crate) fields: Vec<WireField>,
    pub(crate) face_velocity_m_s: f64,
    pub(crate) velocity_spread: f64,
    pub(crate) sneakage: f64,
    /// Share of the sneakage that goes through the hoppers.
    pub(crate) hopper_share: f64,
    /// Share of the caught dust that goes back into the gas, by raps or out of the hoppers.
    pub(crate) reentrained: f64,
    pub(crate) sizes: SizeSampler,
    pub(crate) makers: GrainMaker,
}

impl Passage {
    /// Prepares a passage.
    ///
    /// # Errors
    /// A formula refused its inputs; the message names which.
    pub(crate) fn new(conditions: &Conditions) -> Result<Self, PhysicsError> {
        Self::in_fields(conditions, electrics(conditions)?.as_ref())
    }

    /// Prepares a passage with these electrical fields.
    ///
    /// # Errors
    /// A formula refused its inputs; the message names which.
    pub(crate) fn in_fields(
        conditions: &Conditions,
        electrics: &Electrics,
    ) -> Result<Self, PhysicsError> {
        let (states, fields) = (electrics.states.clone(), electrics.fields.clone());
        let (stirring, gusts) = stirring(conditions, &states)?;
        Ok(Self {
            gap_m: conditions.gap_m() as f32,
            height_m: conditions.collector.plate_height_m as f32,
            parabolic: conditions.teaching.profile == Profile::Parabolic,
            motion: match conditions.teaching.migration_velocity_m_s {
                Some(_) => Motion::Fixed,
                None => Motion::Charged(conditions.teaching.charging),
            },
            stirring,
            gusts,
            stages: stages(conditions, &states)?,
            maps: field_maps(conditions, &fields, &states),
            states,
            fields,
            face_velocity_m_s: conditions.gas_velocity_m_s(),
            velocity_spread: conditions.gas.velocity_spread,
            sneakage: conditions.collector.sneakage,
            hopper_share: conditions.collector.hopper_share,
            reentrained: conditions.returned_share(),
            sizes: SizeSampler::new(conditions)?,
            makers: GrainMaker::new(conditions),
        })
    }

    /// One field's stage; the last one stands in beyond the end.
    #[inline(always)]
    pub(crate) fn stage(&self, field: u32) -> &Stage {
        let last = self.stages.len() - 1;
        &self.stages[(field as usize).min(last)]
    }

    /// Constants of a grain of this diameter.
    pub(crate) fn grain(&self, diameter_m: f64) -> Grain {
        self.makers.grain(diameter_m)
    }

    /// Diffusivity across at distances from the wire line that a solver should use, m²/s: eddies, and gusts as they
    /// spread dust in gas of all its velocities.
    ///
    /// # Errors
    /// A spread of the velocity out of range.
    pub(crate) fn diffusivities_m2_s(&self, places_m: &[f64]) -> Result<Vec<f64>, PhysicsError> {
        let eddies_m2_s = match self.stirring {
            Stirring::Diffusive { diffusivity_m2_s } => diffusivity_m2_s,
            Stirring::None | Stirring::Full => 0.0,
        };
        let Some(gusts) = &self.gusts else {
            return Ok(vec![eddies_m2_s; places_m.len()]);
        };
        let lanes = lanes(self.velocity_spread)?;
        let profile = |place_m: f64| {
            let place = place_m / f64::from(self.gap_m);
            if self.parabolic {
                1.5 * (1.0 - place * place)
            } else {
                1.0
            }
        };
        let gusts_m2_s = |place_m: f64| -> f64 {
            let in_lane = |lane: &Lane| {
                let velocity = lane.relative_velocity * profile(place_m);
                lane.gas_share * gusts.diffusivity_at_m2_s(place_m, velocity)
            };
            lanes.iter().map(in_lane).sum()
        };
        Ok(places_m
            .iter()
            .map(|&place_m| eddies_m2_s + gusts_m2_s(place_m))
            .collect())
    }

    /// Mean diffusivity across in gas of the mean velocity, m²/s: eddies and gusts together.
    pub(crate) fn total_diffusivity_m2_s(&self) -> f64 {
        let eddies = match self.stirring {
            Stirring::Diffusive { diffusivity_m2_s } => diffusivity_m2_s,
            Stirring::None => 0.0,
            Stirring::Full => f64::INFINITY,
        };
        eddies + self.gusts.map_or(0.0, |gusts| gusts.diffusivity_m2_s())
    }
}

fn stages(conditions: &Conditions, states: &[FieldState]) -> Result<Vec<Stage>, PhysicsError> {
    let drifts = drifts_m_s(conditions, states)?;
    let stage = |(index, drift): (usize, f64)| Stage {
        end_m: ((index + 1) as f64 * conditions.collector.field_length_m) as f32,
        fixed_drift_m_s: drift,
    };
    Ok(drifts.into_iter().enumerate().map(stage).collect())
}

/// The electric field of every stage, tabulated.
///
/// A whole number of wires stands evenly in a field, half a spacing from its ends; the spacing on the way along is
/// stretched to that, the field round a wire keeps the sheet's.
fn field_maps(conditions: &Conditions, fields: &[WireField], states: &[FieldState]) -> FieldMaps {
    let collector = &conditions.collector;
    let gap_m = conditions.gap_m();
    let mobility = conditions.ion_mobility_m2_v_s();
    let mut maps = FieldMaps::new(
        collector.field_length_m / f64::from(conditions.wires_per_field()),
        gap_m,
    );
    // Where the nodes lie in the solver's rectangle is worked out once for all fields whose wires are alike. The places
    // are shares of the solved wires' own lengths: for a moment they may not be those of the conditions.
    let mut known: Option<(&WireRow, Vec<_>)> = None;
    for (field, state) in fields.iter().zip(states) {
        let row = field.row();
        let (_, places) = match known.take() {
            Some(alike) if alike.0 == row => known.insert(alike),
            _ => known.insert((
                row,
                maps.nodes(|u, v| {
                    let image = row.image(0.5 * u * row.pitch_m(), v * row.gap_m());
                    (u, v, image)
                }),
            )),
        };
        maps.push(places, state.charge_share, |(u, v, image)| {
            let local = field.at_image(image);
            let ions_c_m3 = state.ion_share * local.ions_c_m3;
            let charging_per_s = ions_c_m3 * mobility / VACUUM_PERMITTIVITY_F_M;
            // On the axis of the wire there is no direction.
            let there = if *u == 0.0 && *v == 0.0 { 0.0 } else { 1.0 };
            (
                there * local.along_v_m,
                there * local.across_v_m,
                charging_per_s,
            )
        });
    }
    maps
}

/// The one migration velocity of every field at the present voltages and spacing, m/s; 0 where drifts are computed.
///
/// # Errors
/// A formula refused the conditions; the message names which argument.
pub fn fixed_drifts_m_s(conditions: &Conditions) -> Result<Vec<f64>, PhysicsError> {
    drifts_m_s(conditions, &electrics(conditions)?.states)
}

/// The one migration velocity at the present voltages and spacing: `w = w_sheet (V/V_sheet)² (s_sheet/s)²`.
///
/// `V_sheet` is what the sheet's own voltage reaches at the sheet's own spacing and gas, so an unchanged sheet gives its w.
fn drifts_m_s(conditions: &Conditions, states: &[FieldState]) -> Result<Vec<f64>, PhysicsError> {
    let Some(velocity_m_s) = conditions.teaching.migration_velocity_m_s else {
        return Ok(vec![0.0; states.len()]);
    };
    let reference = &conditions.reference;
    let mut sheet = conditions.clone();
    sheet.electrical.voltage_v.clone_from(&reference.voltage_v);
    sheet.collector.plate_spacing_m = reference.plate_spacing_m;
    sheet.gas.temperature_k = reference.temperature_k;
    sheet.gas.pressure_pa = reference.pressure_pa;
    let spacing_ratio = reference.plate_spacing_m / conditions.collector.plate_spacing_m;
    Ok(states
        .iter()
        .zip(&electrics(&sheet)?.states)
        .map(|(now, sheet)| {
            // A field that was off in the sheet drifts with w itself once it is on.
            let voltage_ratio = if sheet.voltage_v > 0.0 {
                now.voltage_v / sheet.voltage_v
            } else {
                1.0
            };
            if now.voltage_v > 0.0 {
                velocity_m_s * (voltage_ratio * spacing_ratio).powi(2)
            } else {
                0.0
            }
        })
        .collect())
}

/// Mixing as told, or the diffusivity of the turbulence and the ionic wind with visible gusts on top.
fn stirring(
    conditions: &Conditions,
    states: &[FieldState],
) -> Result<(Stirring, Option<Gusts>), PhysicsError> {
    Ok(match conditions.teaching.mixing {
        Some(Mixing::None) => (Stirring::None, None),
        Some(Mixing::Full) => (Stirring::Full, None),
        Some(Mixing::Diffusivity(diffusivity_m2_s)) => {
            (Stirring::Diffusive { diffusivity_m2_s }, None)
        }
        None => {
            let gas = &conditions.gas;
            let mean_density = states
                .iter()
                .map(|state| state.current_density_a_m2)
                .sum::<f64>()
                / states.len().max(1) as f64;
            let flow = PassageFlow {
                velocity_m_s: conditions.gas_velocity_m_s(),
                gap_m: conditions.gap_m(),
                density_kg_m3: gas::density_kg_m3(
                    gas.pressure_pa,
                    gas.temperature_k,
                    gas::molar_mass_kg_mol(gas.moisture),
                ),
                viscosity_pa_s: gas::viscosity_pa_s(gas.temperature_k),
            };
            let current = IonCurrent {
                density_a_m2: mean_density,
                mobility_m2_v_s: conditions.ion_mobility_m2_v_s(),
            };
            let diffusivity_m2_s = eddy_diffusivity_m2_s(&flow, &current);
            let gusts = Gusts::new(conditions.gap_m(), conditions.gas_velocity_m_s());
            (Stirring::Diffusive { diffusivity_m2_s }, Some(gusts))
        }
    })
}
