//! What hangs on a hopper: heaters, level probes, poke holes, strike plate, vibrator, door, knife gate, airlock, conveyor.

use std::f64::consts::TAU;

use ashlane_shared::plant::{ALARM_LEVEL, OUTLET_SHARE};

use super::{ElevationPlaces, Measures, parts::AreaM};
use crate::{
    drawing::{Drawing, Item, Point},
    theme::Ink,
};

/// Heights of what hangs on the walls, as shares of the depth over the outlet; common practice, no source.
const HEATERS: (f64, f64) = (0.12, 0.5);
const POKE_HOLES: f64 = 0.14;
const STRIKE_PLATE: f64 = 0.3;
const VIBRATOR: f64 = 0.46;
const LOW_PROBE: f64 = 0.22;
const DOOR: f64 = 0.68;
/// Airlock: how far its middle lies below the outlet, and its radius, m; common practice, no source.
const AIRLOCK_M: (f64, f64) = (0.55, 0.24);
/// From this scale on vanes and screw are drawn, points per metre.
const FINE: f32 = 20.0;

/// The walls of one hopper.
#[derive(Clone, Copy)]
pub(super) struct Hopper {
    middle_m: f64,
    half_m: f64,
    brim_m: f64,
    depth_m: f64,
}

impl Hopper {
    /// That of a field.
    pub(super) fn new(measures: &Measures, field: usize) -> Self {
        Self {
            middle_m: measures.field_at_m(field) + 0.5 * measures.field_m,
            half_m: 0.5 * measures.field_m,
            brim_m: measures.brim_m,
            depth_m: measures.hopper_m,
        }
    }

    /// A place on a wall, so far outside of it, m: side −1 or 1, height as a share of the depth.
    fn wall_m(&self, side: f64, share: f64, outside_m: f64) -> (f64, f64) {
        let half_m = self.half_m * (OUTLET_SHARE + (1.0 - OUTLET_SHARE) * share);
        let height_m = self.brim_m - (1.0 - share) * self.depth_m;
        let run_m = self.half_m * (1.0 - OUTLET_SHARE);
        let slant_m = run_m.hypot(self.depth_m);
        (
            self.middle_m + side * (half_m + outside_m * self.depth_m / slant_m),
            height_m - outside_m * run_m / slant_m,
        )
    }

    /// The room round such a place.
    fn round(&self, side: f64, share: f64, outside_m: f64, reach_m: f64) -> AreaM {
        let (x_m, z_m) = self.wall_m(side, share, outside_m);
        [x_m - reach_m, z_m - reach_m, x_m + reach_m, z_m + reach_m]
    }

    pub(super) fn heaters_m(&self) -> AreaM {
        self.round(-1.0, 0.5 * (HEATERS.0 + HEATERS.1), 0.12, 0.3)
    }

    pub(super) fn poke_holes_m(&self) -> AreaM {
        self.round(1.0, POKE_HOLES, 0.2, 0.2)
    }

    pub(super) fn strike_plate_m(&self) -> AreaM {
        self.round(1.0, STRIKE_PLATE, 0.08, 0.2)
    }

    pub(super) fn vibrator_m(&self) -> AreaM {
        self.round(1.0, VIBRATOR, 0.2, 0.2)
    }

    pub(super) fn probe_m(&self) -> AreaM {
        self.round(1.0, ALARM_LEVEL, 0.05, 0.28)
    }

    pub(super) fn door_m(&self) -> AreaM {
        self.round(-1.0, DOOR, 0.1, 0.28)
    }

    pub(super) fn airlock_m(&self) -> AreaM {
        let z_m = self.brim_m - self.depth_m - AIRLOCK_M.0;
        [
            self.middle_m - 0.35,
            z_m - 0.3,
            self.middle_m + 0.35,
            z_m + 0.3,
        ]
    }

    pub(super) fn knife_gate_m(&self) -> AreaM {
        let z_m = self.brim_m - self.depth_m - 0.15;
        let reach_m = 2.4 * self.half_m * OUTLET_SHARE;
        [
            self.middle_m - 0.3,
            z_m - 0.15,
            self.middle_m + reach_m,
            z_m + 0.14,
        ]
    }
}

pub(super) fn details(drawing: &mut Drawing, places: &ElevationPlaces, field: usize) {
    let hopper = Hopper::new(&places.measures, field);
    let at = |side: f64, share: f64, outside_m: f64| -> Point {
        let (x_m, z_m) = hopper.wall_m(side, share, outside_m);
        places.at(x_m, z_m)
    };
    let turns = 12;
    let heater = (0..=turns).map(|turn| {
        let share = HEATERS.0 + (HEATERS.1 - HEATERS.0) * f64::from(turn) / f64::from(turns);
        at(-1.0, share, if turn % 2 == 0 { 0.06 } else { 0.2 })
    });
    drawing.line(heater.collect::<Vec<_>>(), Ink::Trouble, 1.0);
    for share in [POKE_HOLES, POKE_HOLES + 0.06] {
        drawing.line([at(1.0, share, 0.0), at(1.0, share, 0.28)], Ink::Metal, 2.2);
        let cap = [at(1.0, share - 0.02, 0.28), at(1.0, share + 0.02, 0.28)];
        drawing.line(cap, Ink::Text, 1.6);
    }
    let plate = [
        at(1.0, STRIKE_PLATE - 0.05, 0.06),
        at(1.0, STRIKE_PLATE + 0.05, 0.06),
    ];
    drawing.line(plate, Ink::Text, 3.2);
    let vibrator = [
        at(1.0, VIBRATOR - 0.035, 0.2),
        at(1.0, VIBRATOR + 0.035, 0.2),
    ];
    drawing.line(vibrator, Ink::Metal, (0.22 * places.scale).max(4.0));
    for (side, share) in [(1.0, ALARM_LEVEL), (-1.0, LOW_PROBE)] {
        probe(drawing, places, hopper.wall_m(side, share, 0.0), side);
    }
    door(drawing, &at);
    airlock(drawing, places, &hopper);
}

/// A rod through the wall with its head outside.
fn probe(drawing: &mut Drawing, places: &ElevationPlaces, (x_m, z_m): (f64, f64), side: f64) {
    let rod = [
        places.at(x_m + side * 0.16, z_m),
        places.at(x_m - side * 0.35, z_m),
    ];
    drawing.line(rod, Ink::Text, 1.6);
    let head = places.at(x_m + side * 0.2, z_m);
    drawing.dot(head, (0.08 * places.scale).max(2.0), Ink::Text);
}

/// A door in the wall, shut, with its lock.
fn door(drawing: &mut Drawing, at: &dyn Fn(f64, f64, f64) -> Point) {
    let frame = vec![
        at(-1.0, DOOR - 0.07, 0.0),
        at(-1.0, DOOR - 0.07, 0.14),
        at(-1.0, DOOR + 0.07, 0.14),
        at(-1.0, DOOR + 0.07, 0.0),
    ];
    drawing.line(frame, Ink::Text, 1.2);
    drawing.dot(at(-1.0, DOOR - 0.03, 0.18), 1.6, Ink::Text);
}

/// The actuator of the knife gate, the wheel of the airlock.
fn airlock(drawing: &mut Drawing, places: &ElevationPlaces, hopper: &Hopper) {
    let [_, _, right_m, _] = hopper.knife_gate_m();
    let gate_m = hopper.brim_m - hopper.depth_m - 0.15;
    let actuator = [places.at(right_m - 0.3, gate_m), places.at(right_m, gate_m)];
    drawing.line(actuator, Ink::Metal, (0.16 * places.scale).max(3.0));
    let (x_m, z_m) = (hopper.middle_m, gate_m + 0.15 - AIRLOCK_M.0);
    let centre = places.at(x_m, z_m);
    let radius = (AIRLOCK_M.1 as f32) * places.scale;
    drawing.dot(centre, radius, Ink::Ground);
    drawing.items.push(Item::Ring {
        centre,
        radius,
        ink: Ink::Metal,
        width: 1.4,
    });
    let vanes = if places.scale >= FINE { 6 } else { 4 };
    for vane in 0..vanes {
        let turned = TAU * (f64::from(vane) + 0.25) / f64::from(vanes);
        let reach = places.at(
            x_m + 0.9 * AIRLOCK_M.1 * turned.cos(),
            z_m + 0.9 * AIRLOCK_M.1 * turned.sin(),
        );
        drawing.line([centre, reach], Ink::Metal, 1.0);
    }
}

/// The screw in its trough, from wall to wall.
pub(super) fn screw(
    drawing: &mut Drawing,
    places: &ElevationPlaces,
    (from_m, to_m): (f64, f64),
    axis_m: f64,
) {
    let axis = [places.at(from_m, axis_m), places.at(to_m, axis_m)];
    drawing.line(axis, Ink::Metal, 0.8);
    if places.scale < FINE {
        return;
    }
    let turns = ((to_m - from_m) / 0.3).floor().max(1.0) as usize;
    let flight = (0..=2 * turns).map(|turn| {
        let side = if turn % 2 == 0 { -0.13 } else { 0.13 };
        places.at(
            from_m + (to_m - from_m) * turn as f64 / (2 * turns) as f64,
            axis_m + side,
        )
    });
    drawing.line(flight.collect::<Vec<_>>(), Ink::Rule, 1.0);
}
