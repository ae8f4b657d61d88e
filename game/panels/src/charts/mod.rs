//! Charts beside the drawing, each made of drawing primitives, so that the same figure goes to a file.

mod along;
mod axes;
mod by_size;
mod face;
pub(crate) mod linear;
mod plant;
mod voltage_current;

pub use along::along_drawing;
pub(crate) use axes::{percent_text, plain_number};
pub use by_size::by_size_drawing;
pub use face::{FaceView, face_check, face_drawing, face_note};
pub use plant::{PlantView, plant_check, plant_drawing};
pub use voltage_current::{textbook_note, voltage_current_check, voltage_current_drawing};

/// Like [`plain_number`], and 0 as 0.
pub(crate) fn plain_number_or_zero(value: f64) -> String {
    if value == 0.0 {
        "0".to_owned()
    } else {
        plain_number(value)
    }
}
