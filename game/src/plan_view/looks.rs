//! How a grain looks: radius by size, colour by charge, shape by fate; the same bytes for both ways of drawing.

use ashlane_panels::{
    elevation::grain_height_m,
    plan::grain_radius,
    theme::{Ink, Theme},
};
use ashlane_shared::simulation::{Frame, Grain, StuckGrain};
use bevy::tasks::ComputeTaskPool;

use super::{PlanFrame, SideSpan, tracers::Tracers};

/// Spots that can be drawn at a time: grains in the gas, on the plates, and tracers.
pub(super) const CAPACITY: usize = 65_536;
/// Half the length of a tracer, points.
const TRACER: f32 = 9.0;

/// Shapes as the shader knows them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Shape {
    /// In the gas.
    Disc = 0,
    /// On its way around the field.
    Ring = 1,
    /// On a plate.
    Flat = 2,
    /// Gas.
    Dash = 3,
}

impl Shape {
    /// Most that it covers of what lies behind it, as in the shader.
    pub(super) fn opacity(self) -> f32 {
        match self {
            Self::Disc | Self::Flat => 1.0,
            Self::Ring => 0.55,
            Self::Dash => 0.8,
        }
    }
}

/// One spot: place in metres, radius in points, look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spot {
    pub(super) along_m: f32,
    pub(super) across_m: f32,
    pub(super) radius: f32,
    pub(super) rgb: [u8; 3],
    pub(super) shape: Shape,
}

impl Spot {
    /// As the shader reads it.
    pub(super) fn bytes(&self) -> [u8; 16] {
        let mut bytes = [0; 16];
        bytes[..4].copy_from_slice(&self.along_m.to_le_bytes());
        bytes[4..8].copy_from_slice(&self.across_m.to_le_bytes());
        bytes[8..12].copy_from_slice(&self.radius.to_le_bytes());
        bytes[12..15].copy_from_slice(&self.rgb);
        bytes[15] = self.shape as u8;
        bytes
    }
}

/// Shades from uncharged to charged.
const SHADES: usize = 64;

/// The colours of dust in a theme, from no charge to all of it: worked out once a frame, not once a grain.
fn shades(theme: Theme) -> [[u8; 3]; SHADES] {
    std::array::from_fn(|shade| charge_rgb(shade as f32 / (SHADES - 1) as f32, theme))
}

/// Everything to draw in the shown part of the passage: plates first, then gas, then dust over it.
pub(super) fn spots(frame: &Frame<'_>, plan: &PlanFrame, tracers: &Tracers) -> Vec<Spot> {
    let (theme, gap_m) = (plan.theme, plan.gap_m);
    let margin_m = 0.02 * plan.window.length_m;
    let end_m = plan.window.start_m + plan.window.length_m;
    let shown = plan.window.start_m - margin_m..end_m + margin_m;
    let dust = plan.dust;
    let stuck = frame
        .deposits
        .recent()
        .take(if plan.turned > 0.5 { usize::MAX } else { 0 })
        .filter(|grain| shown.contains(&grain.along_m))
        .map(|grain| on_plate(grain, gap_m, theme));
    let gas = tracers
        .places()
        .filter(|(along_m, _)| shown.contains(along_m))
        .map(|(along_m, across_m)| Spot {
            along_m,
            across_m,
            radius: TRACER,
            rgb: Ink::Gas.rgb(theme),
            shape: Shape::Dash,
        });
    let gas = gas.take(if plan.tracers { usize::MAX } else { 0 });
    let smaller = |spot: Spot| Spot {
        radius: dust * spot.radius,
        ..spot
    };
    let mut spots: Vec<Spot> = stuck.map(smaller).chain(gas).collect();
    let (side, turned, shades, shown) = (plan.side, plan.turned, shades(theme), &shown);
    let shades = &shades;
    let flying = ComputeTaskPool::get().scope(|scope| {
        for lot in frame.lots() {
            scope.spawn(async move {
                let here = lot.filter(|grain| shown.contains(&grain.along_m));
                here.map(|grain| smaller(turned_spot(&grain, side, turned, gap_m, shades)))
                    .collect::<Vec<Spot>>()
            });
        }
    });
    // In the order of the lots, whichever thread was the first.
    spots.extend(flying.into_iter().flatten());
    spots.truncate(CAPACITY);
    spots
}

fn in_gas(grain: &Grain, shades: &[[u8; 3]; SHADES]) -> Spot {
    let shape = if grain.bypassing {
        Shape::Ring
    } else {
        Shape::Disc
    };
    let radius = grain_radius(grain.diameter_m);
    Spot {
        along_m: grain.along_m,
        across_m: grain.across_m,
        radius: if grain.bypassing {
            radius.clamp(1.8, 3.0)
        } else {
            radius
        },
        rgb: shades[(grain.charge_share.clamp(0.0, 1.0) * (SHADES - 1) as f32 + 0.5) as usize],
        shape,
    }
}

/// From the side smaller, for the machine is far away, and the height takes the place of the distance from the wires.
fn turned_spot(
    grain: &Grain,
    side: SideSpan,
    turned: f32,
    gap_m: f32,
    shades: &[[u8; 3]; SHADES],
) -> Spot {
    let spot = in_gas(grain, shades);
    if turned >= 1.0 {
        return spot;
    }
    let height_m = grain_height_m(f64::from(side.plate_m), grain) as f32;
    let share = (height_m - side.brim_m) / (side.roof_m - side.brim_m);
    let from_side_m = (2.0 * share - 1.0) * gap_m;
    Spot {
        across_m: from_side_m + turned * (spot.across_m - from_side_m),
        radius: (0.7 + 0.3 * turned) * spot.radius,
        ..spot
    }
}

fn on_plate(grain: &StuckGrain, gap_m: f32, theme: Theme) -> Spot {
    // A little off the plate, so that it lies on the layer and not in the metal.
    let across_m = if grain.upper { gap_m } else { -gap_m } * 0.992;
    Spot {
        along_m: grain.along_m,
        across_m,
        radius: grain_radius(grain.diameter_m),
        rgb: Ink::Dust.rgb(theme),
        shape: Shape::Flat,
    }
}

/// Grey without charge, turning to the colour of dust as it charges.
fn charge_rgb(share: f32, theme: Theme) -> [u8; 3] {
    let (from, to) = (Ink::Uncharged.rgb(theme), Ink::Dust.rgb(theme));
    let part = share.clamp(0.0, 1.0);
    std::array::from_fn(|channel| {
        let (from, to) = (f32::from(from[channel]), f32::from(to[channel]));
        (from + part * (to - from)).round() as u8
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colour_goes_from_uncharged_to_dust() {
        for theme in [Theme::Dark, Theme::Light] {
            assert_eq!(charge_rgb(0.0, theme), Ink::Uncharged.rgb(theme));
            assert_eq!(charge_rgb(1.0, theme), Ink::Dust.rgb(theme));
            assert_eq!(charge_rgb(7.0, theme), Ink::Dust.rgb(theme));
        }
    }
}
