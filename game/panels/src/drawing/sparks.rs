//! The mark of a spark: small, and fading without a flash.
//!
//! No more than three flashes a second (WCAG 2.2, 2.3.1): a flash needs 25 % of a 10° field, about 21 800 points² of a
//! 1024×768 screen. All marks together are smaller than that by construction: so many at most, each of this size.

use ashlane_shared::simulation::{Spark, recent_sparks};

use super::{Drawing, Item, Point};
use crate::theme::Ink;

/// How long a mark takes to fade, s.
pub(crate) const FADES_S: f64 = 1.2;
/// Most marks of one field at a time, and half the size of one, points.
const MOST: usize = 3;
const HALF: f32 = 7.0;
/// Seed of the drawn flight.
const SEED: u64 = 1;

/// Sparks of a field to be marked at a step of the flight.
pub(crate) fn marked(field: usize, per_min: f64, step: u64) -> Vec<Spark> {
    let mut sparks = recent_sparks(SEED, field, per_min, step, FADES_S);
    sparks.truncate(MOST);
    sparks
}

/// A jagged line from an electrode towards the plate, thinner the older it is.
pub(crate) fn mark(drawing: &mut Drawing, spark: &Spark, [x, y]: Point, towards: f32) {
    let left = 1.0 - (spark.age_s / FADES_S) as f32;
    if left <= 0.0 {
        return;
    }
    let at = |dx: f32, dy: f32| [x + dx * HALF, y + towards * dy * HALF];
    drawing.items.push(Item::Area {
        points: vec![at(-0.5, 0.0), at(0.35, 0.9), at(0.5, 2.0), at(-0.35, 1.1)],
        ink: Ink::Electrode,
        opacity: 0.9 * left,
    });
}
