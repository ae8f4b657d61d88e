//! What raps the plates, looking along the gas: hammers on their shaft or weights over the roof, where the last blow on the
//! first field put them.

use ashlane_shared::conditions::Rapper;

use super::{
    CrossSectionView, SUPPORTS,
    drawing::{Places, WALL_M},
};
use crate::{
    drawing::Drawing,
    elevation::{ANVIL_M, ARM_M, HEAD_M, ShaftPlace},
    theme::Ink,
};

/// Roof rappers side by side that are drawn at most.
const MOST_ON_ROOF: usize = 10;
/// Room on the roof that a support and the set take from their middle, m.
const TAKEN_M: f64 = 0.75;

pub(super) fn rappers(drawing: &mut Drawing, view: &CrossSectionView<'_>, places: &Places) {
    let machine = &view.machine;
    let shaft = ShaftPlace::new(machine.conditions, machine.plates.first(), machine.step);
    match machine.conditions.appearance.rapper {
        Rapper::TumblingHammer => hammers(drawing, view, places, &shaft),
        Rapper::RoofRapper => roof_rappers(drawing, view, places, &shaft),
    }
}

/// The shaft through the wall with its drive, and one hammer a plate, each turned a little further than the one before.
fn hammers(
    drawing: &mut Drawing,
    view: &CrossSectionView<'_>,
    places: &Places,
    shaft: &ShaftPlace,
) {
    let collector = &view.machine.conditions.collector;
    let half_m = 0.5 * view.width_m();
    let height_m = ANVIL_M + ARM_M;
    let drive_m = -half_m - WALL_M - 0.5;
    let ends = [
        places.at(drive_m, height_m),
        places.at(half_m + 0.1, height_m),
    ];
    drawing.line(ends, Ink::Metal, 1.4);
    let motor = [
        places.at(drive_m - 0.25, height_m + 0.22),
        places.at(drive_m + 0.15, height_m + 0.22),
        places.at(drive_m + 0.15, height_m - 0.22),
        places.at(drive_m - 0.25, height_m - 0.22),
        places.at(drive_m - 0.25, height_m + 0.22),
    ];
    drawing.line(motor, Ink::Metal, 1.4);
    let plates = collector.passages + 1;
    for plate in 0..plates {
        let x_m = plate as f64 * collector.plate_spacing_m - half_m;
        let turned = shaft.hammer(plate * shaft.groups / plates);
        let head = places.at(x_m, height_m - ARM_M * turned.cos());
        drawing.line([places.at(x_m, height_m), head], Ink::Metal, 1.0);
        drawing.dot(head, (HEAD_M as f32 * places.scale).max(1.6), Ink::Text);
    }
}

/// Weights in their tubes over the roof, above rods that lead to the beam, where supports and set leave room.
fn roof_rappers(
    drawing: &mut Drawing,
    view: &CrossSectionView<'_>,
    places: &Places,
    shaft: &ShaftPlace,
) {
    let (measures, width_m) = (view.measures(), view.width_m());
    let taken_m = [0.0, SUPPORTS[0] * width_m, SUPPORTS[1] * width_m];
    let every = shaft.groups.div_ceil(MOST_ON_ROOF).max(1);
    for group in (0..shaft.groups).filter(|group| group % every == 0) {
        let x_m = width_m * ((group as f64 + 0.5) / shaft.groups as f64 - 0.5);
        if taken_m
            .iter()
            .any(|taken_m| (x_m - taken_m).abs() < TAKEN_M)
        {
            continue;
        }
        let roof_m = measures.roof_m;
        let rod = [
            places.at(x_m, roof_m + 0.35),
            places.at(x_m, measures.beam_m()),
        ];
        drawing.line(rod, Ink::Metal, 1.4);
        let tube = [
            places.at(x_m - 0.11, roof_m),
            places.at(x_m - 0.11, roof_m + 1.25),
            places.at(x_m + 0.11, roof_m + 1.25),
            places.at(x_m + 0.11, roof_m),
        ];
        drawing.line(tube, Ink::Metal, 1.2);
        let foot_m = roof_m + 0.35 + 0.35 * shaft.weight(group);
        let weight = [places.at(x_m, foot_m), places.at(x_m, foot_m + 0.4)];
        drawing.line(weight, Ink::Text, (0.12 * places.scale).max(2.4));
    }
}
