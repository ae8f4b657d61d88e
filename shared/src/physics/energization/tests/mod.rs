//! What set, field and control must do together.

mod control;
mod waveform;

use super::{FieldLoad, TransformerRectifier, VoltageCurrent};

/// A field like those of a power station: onset 25 kV, 0.6 A at 50 kV, growing as V(V − V₀).
fn field(capacitance_f: f64) -> FieldLoad {
    let law = |v: f64| 0.6 * v * (v - 25e3) / (50e3 * 25e3);
    let curve = VoltageCurrent::from_formula(25e3, 80e3, law).expect("a curve");
    FieldLoad::new(capacitance_f, curve).expect("a load")
}

/// A set for 50 kV mean and 0.8 A mean.
fn set() -> TransformerRectifier {
    TransformerRectifier::teaching(50e3, 0.8).expect("a set")
}
