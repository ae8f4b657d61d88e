//! What raps: tumbling hammers on their shaft or weights on rods through the roof, where the blow that was struck last puts
//! them; the rappers of the electrodes and of the distribution plate.

use std::f64::consts::{PI, TAU};

use ashlane_shared::{
    conditions::{Conditions, Rapper},
    machine::FieldPlates,
    plant::struck_groups,
};

use super::{
    ElevationPlaces, ElevationView, Measures,
    ducts::{across_nozzle_m, plates_at_m},
    electrodes::UPPER_FRAME_M,
    roof::{BOX_M, SET_M, SUPPORTS},
};
use crate::{drawing::Drawing, theme::Ink};

/// Arm and head of a hammer, m; common practice, no source.
pub(crate) const ARM_M: f64 = 0.3;
pub(crate) const HEAD_M: f64 = 0.08;
/// How far the shaft lies behind the plates, and how high the anvils are over their bottom edge, m; common practice, no source.
const SHAFT_M: f64 = 0.38;
pub(crate) const ANVIL_M: f64 = 0.06;
/// How far a roof rapper lifts its weight, its height over the roof and its width, m; common practice, no source.
const LIFT_M: f64 = 0.35;
pub(super) const ROOF_RAPPER_M: (f64, f64) = (1.25, 0.22);
/// From this scale on every hammer of a shaft is drawn, below it so many, points per metre.
const LARGE: f32 = 60.0;
const FEW: usize = 6;

/// Where the shaft of a field with its groups of plates stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShaftPlace {
    /// Groups that are struck one after the other.
    pub groups: usize,
    /// Share of a turn since the first group was struck, 0 to 1.
    pub turned: f64,
}

impl ShaftPlace {
    /// The place of a shaft after so many steps; one that struck nothing yet rests after its last blow.
    #[must_use]
    pub fn new(conditions: &Conditions, plates: Option<&FieldPlates>, step: u64) -> Self {
        let turn = plates.and_then(|plates| plates.turn);
        let groups = turn.map_or_else(|| struck_groups(conditions), |turn| turn.blow.1);
        let rest = 1.0 - 1.0 / groups.max(1) as f64;
        Self {
            groups,
            turned: turn.map_or(rest, |turn| turn.turned(step)),
        }
    }

    /// Share of a turn since a group was struck, 0 to 1: hammers are staggered evenly.
    #[must_use]
    pub fn since_blow(&self, group: usize) -> f64 {
        let share = (self.turned - group as f64 / self.groups.max(1) as f64).rem_euclid(1.0);
        // What is struck just now is not about to be struck.
        if share > 1.0 - 1e-9 { 0.0 } else { share }
    }

    /// The group that was struck last.
    #[must_use]
    pub fn last(&self) -> usize {
        ((self.turned * self.groups as f64 + 1e-9).floor() as usize)
            .min(self.groups.saturating_sub(1))
    }

    /// How far the hammer of a group is turned up from where it strikes, radians: for half a turn of the shaft it hangs, for
    /// the other half it is lifted to the top, from where it falls. The joint between arm and shaft is not drawn.
    #[must_use]
    pub fn hammer(&self, group: usize) -> f64 {
        (TAU * (self.since_blow(group) - 0.5)).clamp(0.0, PI)
    }

    /// How far the weight of a group is lifted, as a share: it goes up while the blow before lasts, then it falls.
    #[must_use]
    pub fn weight(&self, group: usize) -> f64 {
        let groups = self.groups.max(1) as f64;
        (1.0 - groups * (1.0 - self.since_blow(group))).clamp(0.0, 1.0)
    }
}

/// Where the shaft of a field lies, m.
pub(super) fn shaft_m(measures: &Measures, field: usize) -> (f64, f64) {
    let end_m = measures.field_at_m(field) + measures.field_m;
    (end_m + SHAFT_M, ANVIL_M + ARM_M)
}

/// Where the roof rappers of a field stand, between a support and the set, m.
pub(super) fn roof_rapper_m(measures: &Measures, field: usize) -> f64 {
    let box_m = SUPPORTS[0] * measures.field_m + 0.5 * BOX_M.0;
    let set_m = 0.5 * (measures.field_m - SET_M.0);
    measures.field_at_m(field) + 0.5 * (box_m + set_m)
}

pub(super) fn rappers(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    for field in 0..places.measures.fields {
        let shaft = ShaftPlace::new(view.conditions, view.plates.get(field), view.step);
        match view.conditions.appearance.rapper {
            Rapper::TumblingHammer => hammers(drawing, &shaft, places, field),
            Rapper::RoofRapper => roof_rapper(drawing, &shaft, places, field),
        }
        electrode_rapper(drawing, places, field);
    }
    distribution_rapper(drawing, view, places);
}

/// The shaft, its hammers and the anvil of the plate in front: that of the last blow lies on it.
fn hammers(drawing: &mut Drawing, shaft: &ShaftPlace, places: &ElevationPlaces, field: usize) {
    let (x_m, height_m) = shaft_m(&places.measures, field);
    let face_m = x_m - HEAD_M;
    let plate_m = places.measures.field_at_m(field) + places.measures.field_m;
    drawing.line(
        [places.at(plate_m, ANVIL_M), places.at(face_m, ANVIL_M)],
        Ink::Metal,
        (0.07 * places.scale).max(2.2),
    );
    let every = if places.scale < LARGE {
        shaft.groups.div_ceil(FEW).max(1)
    } else {
        1
    };
    for group in (0..shaft.groups).filter(|group| group % every == 0) {
        hammer(
            drawing,
            shaft.hammer(group),
            places,
            (x_m, height_m),
            Ink::Rule,
        );
    }
    hammer(
        drawing,
        shaft.hammer(shaft.last()),
        places,
        (x_m, height_m),
        Ink::Metal,
    );
    let bearing = (0.06 * places.scale).max(1.5);
    drawing.dot(places.at(x_m, height_m), bearing, Ink::Metal);
}

fn hammer(
    drawing: &mut Drawing,
    turned: f64,
    places: &ElevationPlaces,
    (x_m, height_m): (f64, f64),
    ink: Ink,
) {
    let head = places.at(x_m + ARM_M * turned.sin(), height_m - ARM_M * turned.cos());
    drawing.line([places.at(x_m, height_m), head], ink, 1.2);
    drawing.dot(head, (HEAD_M as f32 * places.scale).max(1.6), ink);
}

/// A weight in its tube over the roof, above the rod that leads the blow to the hanger beam.
fn roof_rapper(drawing: &mut Drawing, shaft: &ShaftPlace, places: &ElevationPlaces, field: usize) {
    let measures = &places.measures;
    let x_m = roof_rapper_m(measures, field);
    let (height_m, width_m) = ROOF_RAPPER_M;
    let (roof_m, half_m) = (measures.roof_m, 0.5 * width_m);
    let next = (shaft.last() + 1) % shaft.groups.max(1);
    let anvil_m = roof_m + 0.35;
    drawing.line(
        [places.at(x_m, anvil_m), places.at(x_m, measures.beam_m())],
        Ink::Metal,
        1.4,
    );
    let tube = [
        places.at(x_m - half_m, roof_m),
        places.at(x_m - half_m, roof_m + height_m),
        places.at(x_m + half_m, roof_m + height_m),
        places.at(x_m + half_m, roof_m),
    ];
    drawing.line(tube, Ink::Metal, 1.2);
    let foot_m = anvil_m + LIFT_M * shaft.weight(next);
    let weight = [places.at(x_m, foot_m), places.at(x_m, foot_m + 0.4)];
    drawing.line(weight, Ink::Text, (0.12 * places.scale).max(2.4));
}

/// Where the shaft that raps the electrodes ends at the upper frame, and its drive on the roof, m.
pub(super) fn electrode_rapper_m(measures: &Measures, field: usize) -> (f64, f64) {
    let end_m = measures.field_at_m(field) + measures.field_m;
    (end_m + 0.3, measures.plate_m + UPPER_FRAME_M + 0.14)
}

/// A hammer at the upper frame, at high voltage; its drive on the roof turns it through a shaft of insulating material.
fn electrode_rapper(drawing: &mut Drawing, places: &ElevationPlaces, field: usize) {
    let measures = &places.measures;
    let (x_m, height_m) = electrode_rapper_m(measures, field);
    let (roof_m, frame_m) = (measures.roof_m, measures.plate_m + UPPER_FRAME_M);
    let frame_end_m = measures.field_at_m(field) + measures.field_m;
    let anvil = [
        places.at(frame_end_m - 0.1, frame_m),
        places.at(x_m - 0.06, frame_m),
    ];
    drawing.line(anvil, Ink::HighVoltage, 1.8);
    let rod = [places.at(x_m, roof_m + 0.2), places.at(x_m, height_m)];
    drawing.line(rod, Ink::Text, 1.4);
    for shed in 0..3 {
        let z_m = roof_m - 0.2 - 0.13 * f64::from(shed);
        let ribs = [places.at(x_m - 0.09, z_m), places.at(x_m + 0.09, z_m)];
        drawing.line(ribs, Ink::Text, 1.2);
    }
    let head = places.at(x_m, frame_m);
    drawing.line([places.at(x_m, height_m), head], Ink::HighVoltage, 1.4);
    drawing.dot(head, (0.06 * places.scale).max(1.6), Ink::HighVoltage);
    let motor = [
        places.at(x_m - 0.14, roof_m),
        places.at(x_m - 0.14, roof_m + 0.42),
        places.at(x_m + 0.14, roof_m + 0.42),
        places.at(x_m + 0.14, roof_m),
    ];
    drawing.line(motor, Ink::Metal, 1.2);
}

/// Where the hammer of the last distribution plate strikes, m; nothing where there is no plate.
pub(super) fn distribution_rapper_m(
    view: &ElevationView<'_>,
    measures: &Measures,
) -> Option<(f64, f64)> {
    let x_m = *plates_at_m(view, measures).first()?;
    let (low_m, _) = across_nozzle_m(measures, x_m);
    Some((x_m + 0.1 + HEAD_M, low_m + 0.45))
}

/// A hammer that hangs at the lower part of the last distribution plate.
fn distribution_rapper(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    let Some((x_m, height_m)) = distribution_rapper_m(view, &places.measures) else {
        return;
    };
    let anvil = [
        places.at(x_m - HEAD_M - 0.1, height_m),
        places.at(x_m - HEAD_M, height_m),
    ];
    drawing.line(anvil, Ink::Metal, 2.2);
    let pivot = (x_m, height_m + ARM_M);
    hammer(drawing, 0.0, places, pivot, Ink::Metal);
    drawing.dot(
        places.at(pivot.0, pivot.1),
        (0.06 * places.scale).max(1.5),
        Ink::Metal,
    );
}
