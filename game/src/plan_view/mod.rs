//! The engine's part of the plan: field map and dust between the plates, behind the lines that the panels draw.

mod field;
mod gpu_assets;
mod grains;
mod looks;
mod mesh_grains;
mod tracers;

use ashlane_panels::{plan::FieldScale, state::PlanWindow, theme::Theme};
use bevy::{prelude::*, render::render_resource::ShaderType};

use crate::schedule::FrameStage;

/// Adds field map, dust and tracers.
pub(super) fn plugin(app: &mut App) {
    app.init_resource::<PlanFrame>()
        .add_plugins((
            field::plugin,
            grains::plugin,
            mesh_grains::plugin,
            tracers::plugin,
        ))
        .configure_sets(Update, FrameStage::Draw);
}

/// Where the panels left room for the passage, and what part of it is shown; written once a frame by the interface.
#[derive(Resource, Clone, Copy, Debug, PartialEq)]
pub(crate) struct PlanFrame {
    /// Space between the plates on the screen, logical pixels from the top left; nothing hides the plan.
    pub(crate) rect: Option<Rect>,
    /// Size of the screen, logical pixels.
    pub(crate) screen: Vec2,
    /// Logical pixels per point of the interface.
    pub(crate) pixels_per_point: f32,
    /// Part that is shown.
    pub(crate) window: PlanWindow,
    /// Wire-to-plate distance, m.
    pub(crate) gap_m: f32,
    /// Distance between wires along the way, m.
    pub(crate) pitch_m: f32,
    /// Fields and the length of one, m.
    pub(crate) fields: usize,
    /// Length of a field, m.
    pub(crate) field_m: f32,
    /// Scale of the field map.
    pub(crate) scale: FieldScale,
    /// Dark or light.
    pub(crate) theme: Theme,
    /// Whether the map of the field is shown.
    pub(crate) field_map: bool,
    /// Whether gas tracers are shown.
    pub(crate) tracers: bool,
    /// Heights of the space that is shown from the side.
    pub(crate) side: SideSpan,
    /// From the side (0), from above (1), or tipping over between.
    pub(crate) turned: f32,
    /// How much of the dust is there, 0 to 1.
    pub(crate) dust: f32,
    /// The gas runs from right to left.
    pub(crate) mirrored: bool,
}

/// Heights over the bottom edge of the plates, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct SideSpan {
    /// Of the plates.
    pub(crate) plate_m: f32,
    /// Of the brims of the hoppers, where the shown space begins.
    pub(crate) brim_m: f32,
    /// Of the roof, where it ends.
    pub(crate) roof_m: f32,
}

impl Default for PlanFrame {
    fn default() -> Self {
        Self {
            rect: None,
            screen: Vec2::ONE,
            pixels_per_point: 1.0,
            window: PlanWindow {
                start_m: 0.0,
                length_m: 1.0,
            },
            gap_m: 0.15,
            pitch_m: 0.25,
            fields: 1,
            field_m: 3.0,
            scale: FieldScale {
                low_v_m: 1e5,
                high_v_m: 2e6,
            },
            theme: Theme::Dark,
            field_map: true,
            tracers: true,
            side: SideSpan {
                plate_m: 10.0,
                brim_m: -1.0,
                roof_m: 11.0,
            },
            turned: 1.0,
            dust: 1.0,
            mirrored: false,
        }
    }
}

/// The same for the shaders, in the world of the camera: origin in the middle of the screen, y upwards.
#[derive(ShaderType, Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct PlanUniform {
    rect: Vec4,
    scale: Vec4,
    field: Vec4,
    /// Opacity of the field map; the rest is spare.
    map: Vec4,
}

impl PlanFrame {
    /// Corners of the space between the plates in the world: left, bottom, right, top.
    fn world_rect(&self) -> Vec4 {
        let Some(rect) = self.rect else {
            return Vec4::ZERO;
        };
        let half = 0.5 * self.screen;
        Vec4::new(
            rect.min.x - half.x,
            half.y - rect.max.y,
            rect.max.x - half.x,
            half.y - rect.min.y,
        )
    }

    /// How much of the field map there is: it comes when the passage is seen from above, and goes with the dust.
    fn map_opacity(&self) -> f32 {
        if self.field_map {
            self.dust * ((self.turned - 0.6) / 0.4).clamp(0.0, 1.0)
        } else {
            0.0
        }
    }

    /// For the shaders.
    fn uniform(&self) -> PlanUniform {
        let rect = self.world_rect();
        // From right to left, the left edge shows the end of the window, and on from there it is backwards.
        let (left_m, way) = if self.mirrored {
            (self.window.start_m + self.window.length_m, -1.0)
        } else {
            (self.window.start_m, 1.0)
        };
        let along = way * (rect.z - rect.x) / self.window.length_m;
        let across = (rect.w - rect.y) / (2.0 * self.gap_m);
        PlanUniform {
            rect,
            scale: Vec4::new(left_m, along, self.gap_m, across),
            field: Vec4::new(
                1.0 / self.pitch_m,
                self.fields as f32,
                self.field_m,
                self.pixels_per_point,
            ),
            map: Vec4::new(self.map_opacity(), 0.0, 0.0, 0.0),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gas_that_runs_to_the_left_comes_in_at_the_right_edge() {
        let frame = |mirrored| PlanFrame {
            rect: Some(Rect::new(100.0, 50.0, 500.0, 250.0)),
            screen: Vec2::new(800.0, 600.0),
            window: PlanWindow {
                start_m: 2.0,
                length_m: 4.0,
            },
            mirrored,
            ..PlanFrame::default()
        };
        // As both ways of drawing grains put a place along the gas on the screen.
        let x = |mirrored, along_m: f32| {
            let PlanUniform { rect, scale, .. } = frame(mirrored).uniform();
            rect.x + (along_m - scale.x) * scale.y
        };
        let middle = 0.5 * (100.0 + 500.0) - 400.0;
        assert!((x(false, 2.0) - -300.0).abs() < 1e-3, "{}", x(false, 2.0));
        assert!((x(true, 2.0) - 100.0).abs() < 1e-3, "{}", x(true, 2.0));
        for along_m in [2.0, 3.1, 5.9] {
            let (right, left) = (x(false, along_m), x(true, along_m));
            assert!((right + left - 2.0 * middle).abs() < 1e-3, "{right} {left}");
        }
    }
}
