//! The field between wires and plates as the solver sees it: zones, each with the field strengths that stand for it.

use crate::{
    conditions::Conditions,
    physics::{
        charging::Exposure, constants::ELEMENTARY_CHARGE_C, corona::WireField,
        quadrature::gauss_legendre,
    },
    simulation::FieldState,
};

/// Half a wire spacing cut into slots, finer at the wire; edges as shares of it.
const SLOT_EDGES: [f64; 7] = [0.0, 0.04, 0.1, 0.2, 0.36, 0.62, 1.0];
/// Slots from a wire to midway to the next.
pub(super) const SLOTS: usize = SLOT_EDGES.len() - 1;
/// Points each way at which the field of a zone is looked at.
const POINTS: usize = 2;
/// Zones along and across a mixed passage, and points in each.
const MIXED_ZONES: usize = 32;

/// A zone: exposures and the share of its grains that meets each.
pub(super) type Zone = Vec<(Exposure, f64)>;

/// One electrical field where place matters: by slot along and cell across.
#[derive(Clone, Debug)]
pub(super) struct LocalField {
    /// By slot, from the wire outwards.
    pub(super) slots: Vec<Slot>,
}

/// The field a certain way from the wire along the gas.
#[derive(Clone, Debug)]
pub(super) struct Slot {
    /// Length along the gas, m.
    pub(super) length_m: f64,
    /// By cell across.
    pub(super) zones: Vec<Zone>,
    /// Field strength along the gas, away from the wire, in the middle of each cell, V/m.
    pub(super) away_v_m: Vec<f64>,
    /// Field strength towards the plate at each face, V/m.
    pub(super) towards_plate_v_m: Vec<f64>,
}

/// One electrical field where every grain is everywhere in turn.
#[derive(Clone, Debug)]
pub(super) struct MixedField {
    /// All of it.
    pub(super) zone: Zone,
    /// Mean field strength at the plate, V/m.
    pub(super) plate_v_m: f64,
}

impl LocalField {
    /// The field in cells between the distances `faces_m` from the wire line.
    pub(super) fn new(conditions: &Conditions, field: &WireField, faces_m: &[f64]) -> Self {
        let probe = Probe { field };
        let half_m = 0.5 * conditions.collector.wire_spacing_m;
        // The whole number of wires in a field stretches the way along, not the field round a wire.
        let pitch_m = conditions.collector.field_length_m / f64::from(conditions.wires_per_field());
        let slots = SLOT_EDGES
            .windows(2)
            .map(|edge| {
                let (low_m, high_m) = (edge[0] * half_m, edge[1] * half_m);
                let middle_m = 0.5 * (low_m + high_m);
                let centres = faces_m.windows(2).map(|face| 0.5 * (face[0] + face[1]));
                Slot {
                    length_m: 0.5 * pitch_m * (edge[1] - edge[0]),
                    zones: faces_m
                        .windows(2)
                        .map(|face| probe.zone((low_m, high_m), (face[0], face[1])))
                        .collect(),
                    away_v_m: centres
                        .map(|y_m| probe.field_v_m(middle_m, y_m).0)
                        .collect(),
                    towards_plate_v_m: faces_m
                        .iter()
                        .map(|&y_m| probe.field_v_m(middle_m, y_m).1)
                        .collect(),
                }
            })
            .collect();
        Self { slots }
    }
}

impl LocalField {
    /// As [`Self::new`] with the plate's field everywhere and none along the gas; its one zone is that of the mixed field.
    pub(super) fn even(conditions: &Conditions, plate_v_m: f64, cells: usize) -> Self {
        let pitch_m = conditions.collector.field_length_m / f64::from(conditions.wires_per_field());
        let slots = SLOT_EDGES.windows(2).map(|edge| Slot {
            length_m: 0.5 * pitch_m * (edge[1] - edge[0]),
            zones: Vec::new(),
            away_v_m: vec![0.0; cells],
            towards_plate_v_m: vec![plate_v_m; cells + 1],
        });
        Self {
            slots: slots.collect(),
        }
    }
}

impl LocalField {
    /// The same under back corona: more negative ions than the solved field has, and grains that keep a share of their
    /// charge, so that so much of the field pulls them.
    pub(super) fn under(mut self, state: &FieldState) -> Self {
        for slot in &mut self.slots {
            slot.zones
                .iter_mut()
                .for_each(|zone| more_ions(zone, state));
            let strengths = slot.away_v_m.iter_mut().chain(&mut slot.towards_plate_v_m);
            strengths.for_each(|strength_v_m| *strength_v_m *= state.charge_share);
        }
        self
    }
}

impl MixedField {
    /// As [`LocalField::under`].
    pub(super) fn under(mut self, state: &FieldState) -> Self {
        more_ions(&mut self.zone, state);
        self.plate_v_m *= state.charge_share;
        self
    }

    /// The field of a perfectly mixed passage.
    pub(super) fn new(conditions: &Conditions, field: &WireField) -> Self {
        let probe = Probe { field };
        let (half_m, gap_m) = (
            0.5 * conditions.collector.wire_spacing_m,
            conditions.gap_m(),
        );
        let mut zone = Vec::new();
        // Zones between squares of equal steps, small at the wire.
        let edge = |index: usize| (index as f64 / MIXED_ZONES as f64).powi(2);
        for i in 0..MIXED_ZONES {
            for j in 0..MIXED_ZONES {
                let along_m = (half_m * edge(i), half_m * edge(i + 1));
                let across_m = (gap_m * edge(j), gap_m * edge(j + 1));
                let share = (edge(i + 1) - edge(i)) * (edge(j + 1) - edge(j));
                let middle = (
                    0.5 * (along_m.0 + along_m.1),
                    0.5 * (across_m.0 + across_m.1),
                );
                zone.push((probe.exposure(middle.0, middle.1), share));
            }
        }
        Self {
            zone: grouped(&zone),
            plate_v_m: field.mean_plate_field_v_m(),
        }
    }
}

fn more_ions(zone: &mut Zone, state: &FieldState) {
    for (exposure, _) in zone {
        exposure.ion_density_per_m3 *= state.ion_share;
    }
}

/// Looks at the field.
struct Probe<'a> {
    field: &'a WireField,
}

impl Probe<'_> {
    /// Field along and across, V/m; inside the wire that on its surface, on its axis none.
    fn field_v_m(&self, x_m: f64, y_m: f64) -> (f64, f64) {
        if x_m == 0.0 && y_m == 0.0 {
            return (0.0, 0.0);
        }
        let state = self.field.at(x_m, y_m);
        (state.along_v_m, state.across_v_m)
    }

    fn exposure(&self, x_m: f64, y_m: f64) -> Exposure {
        let state = self.field.at(x_m, y_m);
        Exposure {
            field_v_m: state.along_v_m.hypot(state.across_v_m),
            ion_density_per_m3: state.ions_c_m3 / ELEMENTARY_CHARGE_C,
        }
    }

    fn zone(&self, (left_m, right_m): (f64, f64), (low_m, high_m): (f64, f64)) -> Zone {
        let area_m2 = (right_m - left_m) * (high_m - low_m);
        let mut zone = Vec::with_capacity(POINTS * POINTS);
        for (x_m, width_m) in gauss_legendre(POINTS, left_m, right_m) {
            for (y_m, height_m) in gauss_legendre(POINTS, low_m, high_m) {
                zone.push((self.exposure(x_m, y_m), width_m * height_m / area_m2));
            }
        }
        zone
    }
}

/// Sorted into a few groups of equal width in ln E, each with its mean and its share.
fn grouped(zone: &Zone) -> Zone {
    const GROUPS: usize = 32;
    let low = zone
        .iter()
        .map(|(exposure, _)| exposure.field_v_m)
        .fold(f64::INFINITY, f64::min)
        .max(1.0);
    let high = zone
        .iter()
        .map(|(exposure, _)| exposure.field_v_m)
        .fold(low, f64::max);
    let per_group = (high / low).ln().max(1e-9) / GROUPS as f64;
    let mut groups = [(0.0, 0.0, 0.0); GROUPS];
    for (exposure, share) in zone {
        let group = ((exposure.field_v_m.max(low) / low).ln() / per_group) as usize;
        let (field, ions, total) = &mut groups[group.min(GROUPS - 1)];
        *field += exposure.field_v_m * share;
        *ions += exposure.ion_density_per_m3 * share;
        *total += share;
    }
    groups
        .into_iter()
        .filter(|(_, _, total)| *total > 0.0)
        .map(|(field, ions, total)| {
            let mean = Exposure {
                field_v_m: field / total,
                ion_density_per_m3: ions / total,
            };
            (mean, total)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{conditions::demonstration, simulation::electrics};

    #[test]
    fn shares_of_a_zone_add_up_and_the_wire_is_where_the_field_is_strong() {
        let conditions = demonstration();
        let electrics = electrics(&conditions).expect("fields");
        let field = &electrics.fields[0];
        let mixed = MixedField::new(&conditions, field);
        let total: f64 = mixed.zone.iter().map(|(_, share)| share).sum();
        assert!((total - 1.0).abs() < 1e-9, "shares add up to {total}");
        let faces_m: Vec<f64> = (0..=24).map(|face| 0.15 * f64::from(face) / 24.0).collect();
        let local = LocalField::new(&conditions, field, &faces_m);
        let strongest = |slot: usize, cell: usize| {
            local.slots[slot].zones[cell]
                .iter()
                .map(|(exposure, _)| exposure.field_v_m)
                .fold(0.0, f64::max)
        };
        assert!(
            strongest(0, 0) > 3.0 * strongest(0, 23),
            "{} {}",
            strongest(0, 0),
            strongest(0, 23)
        );
        assert!(strongest(0, 0) > 3.0 * strongest(SLOTS - 1, 0));
        let length_m: f64 = local.slots.iter().map(|slot| slot.length_m).sum();
        assert!(
            (length_m - 0.125).abs() < 1e-12,
            "slots are {length_m} m long"
        );
    }

    #[test]
    fn rounding_of_the_geometry_does_not_move_the_field_at_the_wire() {
        let field = |factor: f64| {
            let mut conditions = demonstration();
            // Clean gas: parcels of charged dust would not fly the same way twice.
            conditions.dust.load_kg_m3 = 0.0;
            conditions.collector.plate_spacing_m *= factor;
            conditions.collector.wire_spacing_m *= factor;
            let electrics = electrics(&conditions).expect("fields");
            let zone = MixedField::new(&conditions, &electrics.fields[0]).zone;
            zone.iter()
                .map(|(exposure, share)| exposure.field_v_m * share)
                .sum::<f64>()
        };
        let exact = field(1.0);
        for rounding in [-1e-12, -1e-13, 1e-13, 1e-12] {
            let moved = field(1.0 + rounding);
            assert!((moved / exact - 1.0).abs() < 1e-9, "{moved}, not {exact}");
        }
    }
}
