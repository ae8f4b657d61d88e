//! `corona --map`: the field over a quarter of the cell round a wire, as a table for other programs.

use std::path::Path;

use ashlane_shared::{conditions::sheet::write_atomically, physics::corona::WireField};

use crate::command_line::Failure;

/// Points from a wire to midway to the next, and from the wire plane to the plate.
const ALONG: usize = 61;
const ACROSS: usize = 41;

/// Writes the whole file or nothing.
pub(super) fn write(path: &Path, field: &WireField) -> Result<(), Failure> {
    Ok(write_atomically(path, table(field))?)
}

fn table(field: &WireField) -> String {
    let row = field.row();
    let point = |i: usize, j: usize| {
        let x_m = 0.5 * row.pitch_m() * i as f64 / (ALONG - 1) as f64;
        let y_m = row.gap_m() * j as f64 / (ACROSS - 1) as f64;
        let at = field.at(x_m, y_m);
        format!(
            "{x_m:.6},{y_m:.6},{:.3},{:.2},{:.2},{:.6e}\n",
            at.potential_v, at.along_v_m, at.across_v_m, at.ions_c_m3
        )
    };
    let head = "x_m,y_m,potential_v,field_along_v_m,field_across_v_m,ion_charge_c_m3\n";
    let points = (0..ALONG).flat_map(|i| (0..ACROSS).map(move |j| (i, j)));
    points.fold(head.to_owned(), |text, (i, j)| text + &point(i, j))
}
