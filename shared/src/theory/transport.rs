//! The solver with the computed field: dust of each size marched down the collector in thin sheets across the gap.
//!
//! Each moment m of the charge (see `moments`) moves by `u ∂m/∂x = ∂/∂y(D ∂m/∂y − w m)` with its own drift w, slot by slot
//! past the wires, because what a grain gains in the strong field beside a wire it keeps; between steps the charge grows
//! in the local field.
//!
//! Dust that is uncharged at the start of a field (fresh, returned from the plates, or having passed by every field so
//! far) must not be averaged with dust that is charged, so each starting field has its own march of unit mass; what
//! starts where is then a matter of adding up.

use super::{
    Airborne,
    grains::{GrainShare, Grains},
    lanes::lanes,
    medium::Medium,
    moments::{Dust, Spread},
    places::Places,
    pull::Pull,
    zones::{LocalField, MixedField, SLOTS},
};
use crate::{
    conditions::Conditions,
    count::STATIONS_PER_FIELD,
    parallel,
    physics::{
        PhysicsError,
        efficiency::{Column, ColumnStep, march::cell_velocities_m_s},
    },
    simulation::{Passage, Stirring, TIME_STEP_S},
};

/// Sheets across the half gap; they are thinner near the wire line.
const CELLS: usize = 26;
/// Sheets where nothing mixes but the sheets themselves.
const CELLS_UNMIXED: usize = 120;
/// Share of the starting mass below which a size is not followed any more.
const NOTHING: f64 = 1e-7;

/// Airborne mass along the collector and by class at its end.
pub(super) fn airborne(
    conditions: &Conditions,
    passage: &Passage,
    grains: &Grains,
) -> Result<Airborne, PhysicsError> {
    let column = column(conditions, passage)?;
    let place = Places::new(conditions, passage, &column);
    airborne_at(conditions, passage, grains, (column, place))
}

/// The same where the field is as strong everywhere as at the plate, and every grain charges as one that has been
/// everywhere: what is left of the difference from the formula has nothing to do with the field. Nothing where mixing is
/// perfect: there the formula has the same field.
pub(super) fn airborne_in_even_field(
    conditions: &Conditions,
    passage: &Passage,
    grains: &Grains,
) -> Result<Option<Airborne>, PhysicsError> {
    if passage.stirring == Stirring::Full {
        return Ok(None);
    }
    let column = column(conditions, passage)?;
    let place = Places::even(conditions, passage, &column);
    airborne_at(conditions, passage, grains, (column, place)).map(Some)
}

fn airborne_at(
    conditions: &Conditions,
    passage: &Passage,
    grains: &Grains,
    (column, place): (Column, Places),
) -> Result<Airborne, PhysicsError> {
    let lanes = lanes(passage.velocity_spread)?;
    let solver = Solver::new(conditions, passage, grains, column, place)?;
    // One job per size: all lanes and starting fields of it.
    let fates: Vec<Vec<Vec<Fate>>> = parallel::map_indices(0..grains.list.len(), |grain| {
        lanes
            .iter()
            .map(|lane| solver.fates(grain, lane.relative_velocity))
            .collect()
    })
    .into_iter()
    .collect::<Result<_, _>>()?;
    let stations = passage.stages.len() * STATIONS_PER_FIELD;
    let mut airborne = Airborne {
        total: vec![0.0; stations + 1],
        by_class: vec![0.0; grains.classes],
    };
    for (index, lane) in lanes.iter().enumerate() {
        let of_lane: Vec<&[Fate]> = fates
            .iter()
            .map(|of_grain| of_grain[index].as_slice())
            .collect();
        add_lane(
            &mut airborne,
            passage,
            &grains.list,
            &of_lane,
            lane.gas_share,
        );
    }
    for (share, inlet) in airborne.by_class.iter_mut().zip(grains.inlet_by_class()) {
        *share = if inlet > 0.0 { *share / inlet } else { 0.0 };
    }
    Ok(airborne)
}

/// What becomes of a unit of uncharged dust of one size that starts at a field: airborne at each station from there on
/// (those that pass by the whole first field left out at its end), and caught in each field.
struct Fate {
    airborne: Vec<f64>,
    caught: Vec<f64>,
}

/// Adds up one lane of gas: what is uncharged at the start of each field, times what becomes of it.
fn add_lane(
    airborne: &mut Airborne,
    passage: &Passage,
    grains: &[GrainShare],
    fates: &[&[Fate]],
    gas_share: f64,
) {
    let fields = passage.stages.len();
    let mut uncharged: Vec<f64> = grains.iter().map(|grain| grain.inlet).collect();
    let mut caught = vec![0.0; fields];
    airborne.total[0] += gas_share;
    for start in 0..fields {
        let first = start * STATIONS_PER_FIELD + 1;
        for (mass, of_grain) in uncharged.iter().zip(fates) {
            let fate = &of_grain[start];
            for (sum, share) in airborne.total[first..].iter_mut().zip(&fate.airborne) {
                *sum += gas_share * mass * share;
            }
            for (sum, share) in caught[start..].iter_mut().zip(&fate.caught) {
                *sum += mass * share;
            }
        }
        let left_of = |fate: &Fate| fate.airborne.last().copied().unwrap_or(0.0);
        for ((grain, mass), of_grain) in grains.iter().zip(&uncharged).zip(fates) {
            airborne.by_class[grain.class] += gas_share * mass * left_of(&of_grain[start]);
        }
        // Uncharged at the next field: what passed by this one, and what came back from its plates.
        let returned = passage.reentrained * caught[start];
        for (grain, mass) in grains.iter().zip(&mut uncharged) {
            *mass = passage.sneakage * *mass + returned * grain.returned;
        }
        airborne.total[first + STATIONS_PER_FIELD - 1] += gas_share * uncharged.iter().sum::<f64>();
    }
    for (grain, mass) in grains.iter().zip(&uncharged) {
        airborne.by_class[grain.class] += gas_share * mass;
    }
}

struct Solver<'a> {
    conditions: &'a Conditions,
    passage: &'a Passage,
    /// Charging and drift of each grain.
    pulls: Vec<Pull>,
    column: Column,
    place: Places,
    /// Gas velocity of each cell over the mean of the lane.
    profile: Vec<f64>,
    /// Diffusivity across at every face, m²/s.
    diffusivities_m2_s: Vec<f64>,
}

/// One size of dust in one lane on its way.
struct Flight<'a> {
    pull: &'a Pull,
    /// Gas velocity of every cell, m/s.
    velocity_m_s: &'a [f64],
    column: Column,
    dust: Dust,
}

impl<'a> Solver<'a> {
    fn new(
        conditions: &'a Conditions,
        passage: &'a Passage,
        grains: &Grains,
        column: Column,
        place: Places,
    ) -> Result<Self, PhysicsError> {
        let (medium, zones, strongest_v_m) = (
            Medium::new(conditions),
            place.zones(),
            place.strongest_v_m(),
        );
        let pulls = parallel::map_indices(0..grains.list.len(), |grain| {
            let mixed = passage.stirring == Stirring::Full;
            Pull::new(
                &medium,
                grains.list[grain].diameter_m,
                &zones,
                strongest_v_m,
                mixed,
            )
        });
        let profile = cell_velocities_m_s(&column, conditions.teaching.profile, 1.0);
        let diffusivities_m2_s = passage.diffusivities_m2_s(column.faces_m())?;
        Ok(Self {
            diffusivities_m2_s,
            conditions,
            passage,
            pulls,
            column,
            place,
            profile,
        })
    }

    /// What becomes of one size in one lane, for every starting field.
    fn fates(&self, grain: usize, relative_velocity: f64) -> Result<Vec<Fate>, PhysicsError> {
        let lane_m_s = relative_velocity * self.passage.face_velocity_m_s;
        let velocity_m_s: Vec<f64> = self.profile.iter().map(|share| share * lane_m_s).collect();
        (0..self.passage.stages.len())
            .map(|start| {
                let mut flight = Flight {
                    pull: &self.pulls[grain],
                    velocity_m_s: &velocity_m_s,
                    column: self.column.clone(),
                    dust: Dust::uncharged(self.column.cells()),
                };
                self.fate(&mut flight, start)
            })
            .collect()
    }

    fn fate(&self, flight: &mut Flight<'_>, start: usize) -> Result<Fate, PhysicsError> {
        let fields = self.passage.stages.len();
        let mut fate = Fate {
            airborne: vec![0.0; (fields - start) * STATIONS_PER_FIELD],
            caught: vec![0.0; fields - start],
        };
        let share = |values: &[f64]| self.share(values);
        for (index, stations) in fate.airborne.chunks_mut(STATIONS_PER_FIELD).enumerate() {
            let entering = flight.dust.shares(share);
            if entering[0] < NOTHING {
                break;
            }
            let sneakage = self.passage.sneakage;
            let bypass = entering.map(|moment| sneakage * moment);
            flight.dust.scale(1.0 - sneakage);
            let way = self.pass_field(flight, start + index)?;
            for (station, airborne) in stations.iter_mut().enumerate() {
                let along = (station + 1) as f64 / STATIONS_PER_FIELD as f64;
                *airborne = bypass[0] + way.at(along);
            }
            fate.caught[index] = entering[0] - bypass[0] - way.at(1.0);
            if index > 0 {
                flight.dust.add_evenly(bypass);
            } else if let Some(end) = stations.last_mut() {
                // What passed by the first field is uncharged still and starts again at the next.
                *end -= bypass[0];
            }
        }
        Ok(fate)
    }

    /// Share of the starting mass in a column, weighted by the gas that carries it.
    fn share(&self, values: &[f64]) -> f64 {
        self.column.content(&self.profile, values) / self.conditions.gap_m()
    }

    /// Past all wires of a field; returns the airborne share along it.
    fn pass_field(&self, flight: &mut Flight<'_>, field: usize) -> Result<Way, PhysicsError> {
        let mut way = Way {
            points: vec![(0.0, self.share(&flight.dust.mass))],
        };
        let mut along_m = 0.0;
        let length_m = self.conditions.collector.field_length_m;
        for _ in 0..self.conditions.wires_per_field() {
            // Towards the wire and away from it.
            for step in 0..2 * SLOTS {
                let (slot, side) = if step < SLOTS {
                    (SLOTS - 1 - step, -1.0)
                } else {
                    (step - SLOTS, 1.0)
                };
                along_m += match &self.place {
                    Places::Local(fields) => {
                        let length_m = fields[field].slots[slot].length_m;
                        self.pass_slot(flight, &fields[field], (field, slot), side)?;
                        length_m
                    }
                    Places::Even(fields) => {
                        let local = &fields[field].0;
                        self.pass_slot(flight, local, (field, slot), side)?;
                        local.slots[slot].length_m
                    }
                    Places::Mixed(fields) => {
                        let pitch_m = length_m / f64::from(self.conditions.wires_per_field());
                        let step_m = pitch_m / (2 * SLOTS) as f64;
                        self.pass_mixed(flight, &fields[field], field, step_m);
                        step_m
                    }
                };
                let share = self.share(&flight.dust.mass);
                way.points.push((along_m / length_m, share));
                if share < NOTHING {
                    flight.dust.scale(0.0);
                    way.points.push((1.0, 0.0));
                    return Ok(way);
                }
            }
        }
        Ok(way)
    }

    /// Through one slot beside a wire: charge, and move with the charge of halfway.
    fn pass_slot(
        &self,
        flight: &mut Flight<'_>,
        field: &LocalField,
        (index, slot_index): (usize, usize),
        side: f64,
    ) -> Result<(), PhysicsError> {
        let slot = &field.slots[slot_index];
        let cells = flight.dust.mass.len();
        let (first_zone, per_cell) = self.place.zones_of_slot(index, slot_index, cells);
        let mut spreads = Vec::with_capacity(cells);
        for cell in 0..cells {
            let spread = flight.dust.spread(cell);
            // The field along the gas holds grains back before the wire and speeds them up behind it.
            let velocity_m_s = flight.velocity_m_s[cell];
            let push_m_s = side * flight.pull.drift_m_s(spread.mean_c, slot.away_v_m[cell]);
            let time_s = slot.length_m / (velocity_m_s + push_m_s).max(0.3 * velocity_m_s);
            let charged = spread.mapped(|charge_c| {
                flight
                    .pull
                    .charge_later_c(first_zone + per_cell * cell, charge_c, time_s)
            });
            flight.dust.set(cell, charged);
            spreads.push(spread.halfway_to(charged));
        }
        self.move_sheets(flight, &spreads, slot.length_m, &slot.towards_plate_v_m)
    }

    /// Moves the moments, each with the drift of its own charge.
    fn move_sheets(
        &self,
        flight: &mut Flight<'_>,
        spreads: &[Spread],
        step_m: f64,
        towards_plate_v_m: &[f64],
    ) -> Result<(), PhysicsError> {
        let last = spreads.len() - 1;
        let mut face_drift_m_s = vec![0.0; spreads.len() + 1];
        for (moment, values) in flight.dust.moments().into_iter().enumerate() {
            for (face, drift_m_s) in face_drift_m_s.iter_mut().enumerate() {
                let (below, above) = (&spreads[face.saturating_sub(1)], &spreads[face.min(last)]);
                let charge_c = 0.5 * (below.leaving_c(moment) + above.leaving_c(moment));
                *drift_m_s = flight.pull.drift_m_s(charge_c, towards_plate_v_m[face]);
            }
            let step = ColumnStep {
                step: step_m,
                face_drift_m_s: &face_drift_m_s,
                face_diffusivity_m2_s: &self.diffusivities_m2_s,
                weight: flight.velocity_m_s,
            };
            flight
                .column
                .advance(&step, &mut [values.as_mut_slice()], &mut [0.0])?;
        }
        Ok(())
    }

    /// Perfect mixing: the plate takes w/(u s) of the dust per metre, and the charge grows everywhere in turn.
    fn pass_mixed(&self, flight: &mut Flight<'_>, field: &MixedField, zone: usize, step_m: f64) {
        let widths_m = self.column.widths_m();
        let flow_m2_s: f64 = widths_m
            .iter()
            .zip(flight.velocity_m_s)
            .map(|(h, u)| h * u)
            .sum();
        let time_s = step_m * self.conditions.gap_m() / flow_m2_s;
        let (pull, dust) = (flight.pull, &mut flight.dust);
        let spread = dust.spread(0);
        let mut charged = spread.mapped(|charge_c| pull.charge_later_c(zone, charge_c, time_s));
        charged.variance_c2 += pull.rate_variance_c2_s2(zone, spread.mean_c) * TIME_STEP_S * time_s;
        for cell in 0..dust.mass.len() {
            dust.set(cell, charged);
        }
        let halfway = spread.halfway_to(charged);
        for (moment, values) in dust.moments().into_iter().enumerate() {
            let drift_m_s = pull.drift_m_s(halfway.leaving_c(moment), field.plate_v_m);
            let kept = (-drift_m_s * step_m / flow_m2_s).exp();
            values.iter_mut().for_each(|value| *value *= kept);
        }
    }
}

/// Sheets across the half gap: equal where nothing mixes, else thinner near the wire line, where the field is steep.
fn column(conditions: &Conditions, passage: &Passage) -> Result<Column, PhysicsError> {
    let gap_m = conditions.gap_m();
    match passage.stirring {
        Stirring::None => Column::uniform(CELLS_UNMIXED, gap_m),
        Stirring::Full => Column::uniform(1, gap_m),
        Stirring::Diffusive { .. } => {
            let face_m = |face: usize| {
                let share = face as f64 / CELLS as f64;
                gap_m * share * (0.25 + 0.75 * share)
            };
            Column::with_faces((0..=CELLS).map(face_m).collect())
        }
    }
}

/// Airborne share along a field.
struct Way {
    /// Share of the way and airborne share.
    points: Vec<(f64, f64)>,
}

impl Way {
    /// Between points by a straight line in the logarithm.
    fn at(&self, along: f64) -> f64 {
        let after = self.points.partition_point(|point| point.0 < along - 1e-9);
        let (Some(&(x1, p1)), Some(&(x0, p0))) = (
            self.points.get(after).or_else(|| self.points.last()),
            self.points.get(after.saturating_sub(1)),
        ) else {
            return 0.0;
        };
        if p0 <= 0.0 || p1 <= 0.0 || x1 <= x0 {
            return p1;
        }
        let share = ((along - x0) / (x1 - x0)).clamp(0.0, 1.0);
        p0 * (p1 / p0).powf(share)
    }
}
