//! The colours between the plates and their scale: field or ions, both logarithmic.

use ashlane_shared::{
    physics::constants::ELEMENTARY_CHARGE_C,
    units::{Dimension, GasState, Unit, find_unit},
};

use super::{WireLayer, WirePlaces, WireView};
use crate::{
    cividis,
    drawing::{Drawing, Item},
    plan::nice_below,
};

/// Size of the patches of one colour, points.
const PATCH: f32 = 3.0;
/// The ion scale begins this far below the density on the plate under the wire.
const IONS_BELOW_PLATE: f64 = 0.3;

/// A logarithmic scale of colours.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scale {
    low: f64,
    high: f64,
    /// What is shown.
    pub(super) name: &'static str,
    /// Its unit.
    pub(super) unit: &'static Unit,
}

impl Scale {
    /// From the plate's value to the wire's; nothing where no ions are to be shown.
    pub(super) fn of(view: &WireView<'_>) -> Option<Self> {
        let row = view.field.row();
        let on_wire = value(view, 0.0, row.wire_radius_m() * (1.0 + 1e-9));
        let (low, name, unit) = match view.layer {
            WireLayer::Field => {
                let profile = view.field.plate_profile();
                let least = profile
                    .iter()
                    .map(|point| point.field_v_m)
                    .fold(f64::MAX, f64::min);
                let unit = Dimension::Field.display_unit(view.units);
                (0.8 * least, "electric field", unit)
            }
            WireLayer::Ions => {
                let on_plate = value(view, 0.0, row.gap_m());
                let unit = per_cm3()?;
                (IONS_BELOW_PLATE * on_plate, "ions", unit)
            }
        };
        let low = nice_below(low / unit.to_si(1.0, &GAS)) * unit.to_si(1.0, &GAS);
        (on_wire > low && low > 0.0).then_some(Self {
            low,
            high: on_wire,
            name,
            unit,
        })
    }

    /// Where a value lies on the scale, 0 to 1.
    pub(super) fn share(&self, value: f64) -> f32 {
        let part = (value.max(1e-3 * self.low) / self.low).ln() / (self.high / self.low).ln();
        part.clamp(0.0, 1.0) as f32
    }

    /// Round values along the scale: where each lies, 0 to 1, and its number in the unit.
    pub(super) fn marks(&self) -> Vec<(f32, f64)> {
        let [from, to] = [self.low, self.high].map(|end| self.unit.from_si(end, &GAS));
        let decades = from.log10().floor() as i32..=to.log10().ceil() as i32;
        decades
            .flat_map(|exponent| [1.0, 2.0, 5.0].map(|step| step * 10_f64.powi(exponent)))
            .filter(|mark| (0.999 * from..=1.001 * to).contains(mark))
            .map(|mark| (self.share(self.unit.to_si(mark, &GAS)), mark))
            .collect()
    }
}

/// No unit of the scales depends on the gas.
const GAS: GasState = GasState::NORMAL;

/// The unit of ion densities in this view.
pub(super) fn per_cm3() -> Option<&'static Unit> {
    find_unit("1/cm3", Dimension::NumberDensity)
}

/// Ions per volume, 1/m³.
pub(super) fn ions_1_m3(ions_c_m3: f64) -> f64 {
    ions_c_m3 / ELEMENTARY_CHARGE_C
}

/// What the layer shows at a place, in SI units.
pub(super) fn value(view: &WireView<'_>, x_m: f64, y_m: f64) -> f64 {
    match view.layer {
        WireLayer::Field => view.strength_v_m(x_m, y_m),
        WireLayer::Ions => ions_1_m3(view.field.at(x_m, y_m).ions_c_m3),
    }
}

/// Colours of the whole cell: one quarter is looked up, the others are its mirror images.
pub(super) fn cell(drawing: &mut Drawing, view: &WireView<'_>, places: &WirePlaces, scale: &Scale) {
    let [x, y] = places.centre();
    let (half_wide, half_tall) = (places.max[0] - x, places.max[1] - y);
    let (columns, rows) = (patches(half_wide), patches(half_tall));
    let (wide, tall) = (half_wide / columns as f32, half_tall / rows as f32);
    for row in 0..rows {
        let up_m = f64::from((row as f32 + 0.5) * tall / places.per_m);
        let colour = |column: usize| {
            let along_m = f64::from((column as f32 + 0.5) * wide / places.per_m);
            cividis::themed_rgb(scale.share(value(view, along_m, up_m)), view.theme)
        };
        let (near, far) = (row as f32 * tall, (row + 1) as f32 * tall);
        for (from, to, rgb) in runs(columns, colour) {
            let (from, to) = (from as f32 * wide, to as f32 * wide);
            for (left, right) in [(x + from, x + to), (x - to, x - from)] {
                for (top, bottom) in [(y + near, y + far), (y - far, y - near)] {
                    drawing.items.push(Item::Cell {
                        min: [left, top].map(f32::round),
                        max: [right.round() + 0.3, bottom.round() + 0.3],
                        rgb,
                    });
                }
            }
        }
    }
}

/// Colours of a disc of this radius around the wire, with so many points a metre.
pub(super) fn disc(
    drawing: &mut Drawing,
    view: &WireView<'_>,
    (centre, radius): ([f32; 2], f32),
    per_m: f32,
    scale: &Scale,
) {
    let rows = patches(2.0 * radius);
    let tall = 2.0 * radius / rows as f32;
    for row in 0..rows {
        let down = (row as f32 + 0.5) * tall - radius;
        let half = (radius * radius - down * down).max(0.0).sqrt();
        let columns = patches(2.0 * half);
        let wide = 2.0 * half / columns as f32;
        let colour = |column: usize| {
            let along = (column as f32 + 0.5) * wide - half;
            let [x_m, y_m] = [along, -down].map(|way| f64::from(way / per_m));
            cividis::themed_rgb(scale.share(value(view, x_m, y_m)), view.theme)
        };
        for (from, to, rgb) in runs(columns, colour) {
            let start = centre[0] - half;
            let top = centre[1] + down - 0.5 * tall;
            drawing.items.push(Item::Cell {
                min: [start + from as f32 * wide, top].map(f32::round),
                max: [start + to as f32 * wide, top + tall].map(|edge| edge.round() + 0.3),
                rgb,
            });
        }
    }
}

fn patches(length: f32) -> usize {
    (length / PATCH).ceil().max(1.0) as usize
}

/// Neighbours of the same colour as one: first, one past the last, colour.
fn runs(count: usize, colour: impl Fn(usize) -> [u8; 3]) -> Vec<(usize, usize, [u8; 3])> {
    let mut runs: Vec<(usize, usize, [u8; 3])> = Vec::new();
    for index in 0..count {
        let here = colour(index);
        match runs.last_mut() {
            Some((_, to, rgb)) if *rgb == here => *to = index + 1,
            _ => runs.push((index, index + 1, here)),
        }
    }
    runs
}
