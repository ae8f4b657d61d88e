//! Charts beside the drawing, each made of drawing primitives, so that the same figure goes to a file.

mod along;
mod axes;
mod by_size;
mod caught;
mod face;
mod layer_curve;
pub(crate) mod linear;
mod trends;
mod voltage_current;

pub use along::along_drawing;
pub(crate) use axes::{percent_of_caught, percent_text, plain_number};
pub use by_size::{by_size_axes, by_size_checks, by_size_drawing, by_size_note};
pub use caught::{caught_checks, caught_drawing, caught_height};
pub use face::{FaceView, face_check, face_drawing, face_note, row_means};
pub use layer_curve::{LayerCurve, layer_curve_check, layer_curve_drawing};
pub use trends::{
    PlantView, hoppers_checks, hoppers_drawing, layers_checks, layers_drawing, stack_checks,
    stack_drawing,
};
pub(crate) use trends::{hour_ticks, reduced, steps};
pub use voltage_current::{textbook_note, voltage_current_check, voltage_current_drawing};

/// Like [`plain_number`], and 0 as 0.
pub(crate) fn plain_number_or_zero(value: f64) -> String {
    if value == 0.0 {
        "0".to_owned()
    } else {
        plain_number(value)
    }
}
