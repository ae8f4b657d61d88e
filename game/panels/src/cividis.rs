//! The colour map of fields: cividis, which people with and without red-green deficiency read almost alike.
//!
//! Nuñez, Anderton & Renslow 2018, `PLoS` ONE 13(7): e0199239; 33 of its 256 colours, straight lines between.

use crate::theme::{Ink, Theme};

const STOPS: [u32; 33] = [
    0x0000_224e,
    0x0000_285b,
    0x0000_2e6a,
    0x0005_3371,
    0x001a_386f,
    0x0027_3e6e,
    0x0032_436d,
    0x003b_496c,
    0x0043_4e6c,
    0x004b_546c,
    0x0053_5a6d,
    0x005a_5f6e,
    0x0061_656f,
    0x0068_6a71,
    0x006f_7073,
    0x0076_7676,
    0x007d_7c78,
    0x0084_8279,
    0x008c_8878,
    0x0093_8e78,
    0x009b_9476,
    0x00a3_9a74,
    0x00ab_a072,
    0x00b4_a76f,
    0x00bc_ae6c,
    0x00c4_b468,
    0x00cd_bb63,
    0x00d5_c25e,
    0x00de_c958,
    0x00e7_d150,
    0x00f0_d846,
    0x00f9_e03a,
    0x00fe_e838,
];

/// How much of the ground shows through the map in the light theme, so that dust stands out from it.
const WASHED_OUT: f32 = 0.55;

/// Red, green and blue of the map as a theme shows it: as it is on a dark ground, washed out on a light one.
#[must_use]
pub fn themed_rgb(share: f32, theme: Theme) -> [u8; 3] {
    let (map, ground) = (rgb(share), Ink::Ground.rgb(theme));
    match theme {
        Theme::Dark => map,
        Theme::Light => std::array::from_fn(|channel| {
            let (map, ground) = (f32::from(map[channel]), f32::from(ground[channel]));
            (map + WASHED_OUT * (ground - map)).round() as u8
        }),
    }
}

/// Red, green and blue at a place on the map, 0 (dark blue) to 1 (yellow).
#[must_use]
pub fn rgb(share: f32) -> [u8; 3] {
    let place = share.clamp(0.0, 1.0) * (STOPS.len() - 1) as f32;
    let below = (place as usize).min(STOPS.len() - 2);
    let part = place - below as f32;
    let channel = |stop: u32, shift: u32| ((stop >> shift) & 0xff) as f32;
    [16, 8, 0].map(|shift| {
        let (low, high) = (
            channel(STOPS[below], shift),
            channel(STOPS[below + 1], shift),
        );
        (low + part * (high - low)).round() as u8
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_map_runs_from_dark_to_light_without_turning_back() {
        let light = |share: f32| -> f32 {
            let [red, green, blue] = rgb(share).map(f32::from);
            0.2126 * red + 0.7152 * green + 0.0722 * blue
        };
        for step in 1..=64_u8 {
            let (before, here) = (f32::from(step - 1) / 64.0, f32::from(step) / 64.0);
            assert!(light(here) > light(before), "not lighter at {here}");
        }
    }
}
