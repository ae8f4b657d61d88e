//! The electric field of one electrical field, tabulated over a quarter of the cell round one wire.
//!
//! By symmetry the quarter from a wire to midway to the next wire, and from the wire line to the plate, holds all.
//! Nodes stand at the squares of equal steps, close together at the wire where the field is steep; between them values
//! are bilinear in the steps. Directions are those of the force on a grain: away from the wires.

use super::vector_math::{floor, low_bits};

/// Intervals of a table each way.
pub(crate) const INTERVALS: usize = 32;
/// Cells of the table of one electrical field.
pub(crate) const CELLS: usize = INTERVALS * INTERVALS;

/// Field strength along and across (V/m), charging rate e N0 b/ε0 (1/s), share of their charge
/// that grains keep.
type Node = [f32; 4];

/// A cell's bilinear form: value = c0 + a c1 + b (c2 + a c3), a along and b across the cell.
type Cell = [Node; 4];

/// The tables of all electrical fields, one after the other.
#[derive(Clone, Debug)]
pub(crate) struct FieldMaps {
    cells: Vec<Cell>,
    wires_per_m: f32,
    gaps_per_m: f32,
}

/// A place in a table: its cell, how far into it both ways, and the side of the wire it is on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Place {
    /// Index of the cell.
    pub(crate) cell: u32,
    /// Share of the cell along the gas.
    pub(crate) along: f32,
    /// Share of the cell across.
    pub(crate) across: f32,
    /// 1 downstream of the wire, −1 upstream.
    pub(crate) side: f32,
}

impl FieldMaps {
    /// No tables yet, for wires that stand `wire_spacing_m` apart, the first half a spacing from the start.
    pub(crate) fn new(wire_spacing_m: f64, gap_m: f64) -> Self {
        Self {
            cells: Vec::new(),
            wires_per_m: (1.0 / wire_spacing_m) as f32,
            gaps_per_m: (1.0 / gap_m) as f32,
        }
    }

    /// Something about every node, `of(u, v)`: u from a wire (0) to midway (1), v from the wire line (0) to the plate (1).
    pub(crate) fn nodes<P>(&self, of: impl Fn(f64, f64) -> P) -> Vec<P> {
        (0..=INTERVALS)
            .flat_map(|i| (0..=INTERVALS).map(move |j| (i, j)))
            .map(|(i, j)| of(square(i), square(j)))
            .collect()
    }

    /// Tabulates one more electrical field, which gives at each of the [`Self::nodes`] the field strength along and
    /// across in V/m and the charging rate in 1/s; grains keep `charge_share` of their charge in it.
    pub(crate) fn push<P>(
        &mut self,
        nodes: &[P],
        charge_share: f64,
        field: impl Fn(&P) -> (f64, f64, f64),
    ) {
        let nodes: Vec<Node> = nodes
            .iter()
            .map(|node| {
                let (along, across, rate) = field(node);
                [
                    along as f32,
                    across as f32,
                    rate as f32,
                    charge_share as f32,
                ]
            })
            .collect();
        let at = |i: usize, j: usize| nodes[i * (INTERVALS + 1) + j];
        for i in 0..INTERVALS {
            for j in 0..INTERVALS {
                let corners = [at(i, j), at(i + 1, j), at(i, j + 1), at(i + 1, j + 1)];
                self.cells.push(bilinear(&corners));
            }
        }
    }

    /// Takes the ions out: nothing is charged any more.
    pub(crate) fn drop_ions(&mut self) {
        for node in self.cells.iter_mut().flatten() {
            node[2] = 0.0;
        }
    }

    /// Where in its table a parcel is.
    #[inline(always)]
    pub(crate) fn place(&self, along_m: f32, across_m: f32) -> Place {
        const LAST: f32 = INTERVALS as f32 - 0.001;
        let turns = along_m * self.wires_per_m - 0.5;
        let from_wire = turns - floor(turns + 0.5);
        let u = ((from_wire.abs() * 2.0).sqrt() * INTERVALS as f32).min(LAST);
        let v = ((across_m.abs() * self.gaps_per_m).sqrt() * INTERVALS as f32).min(LAST);
        let (whole_u, whole_v) = (floor(u), floor(v));
        Place {
            cell: low_bits(whole_u * INTERVALS as f32 + whole_v),
            along: u - whole_u,
            across: v - whole_v,
            side: 1.0_f32.copysign(from_wire),
        }
    }

    /// Field strength of one electrical field along the gas and towards the plate, V/m.
    pub(crate) fn field_v_m(&self, field: usize, along_m: f32, across_m: f32) -> (f32, f32) {
        let place = self.place(along_m, across_m);
        let cell = place.cell + (field * CELLS) as u32;
        let [along, across, ..] = self.at(cell, place.along, place.across);
        (along * place.side, across)
    }

    /// The field at a place: along the gas on the downstream side, towards the plate (both V/m), charging rate (1/s), share of
    /// the charge that is kept.
    ///
    /// `cell` counts through all tables; beyond the last there is no field.
    #[inline(always)]
    pub(crate) fn at(&self, cell: u32, along: f32, across: f32) -> Node {
        let [c0, c1, c2, c3] = self.cells.get(cell as usize).unwrap_or(&NO_FIELD);
        // All four numbers, so that they fill a vector register.
        let mut value = [0.0; 4];
        for k in 0..4 {
            value[k] = (c0[k] + along * c1[k]) + across * (c2[k] + along * c3[k]);
        }
        value
    }
}

/// Where a node stands, as a share of the way.
fn square(index: usize) -> f64 {
    (index as f64 / INTERVALS as f64).powi(2)
}

/// Where there is no electrical field.
const NO_FIELD: Cell = [[0.0; 4]; 4];

/// Coefficients from the corners: near, along, across, both.
fn bilinear([near, along, across, both]: &[Node; 4]) -> Cell {
    let mut cell = NO_FIELD;
    for k in 0..4 {
        cell[0][k] = near[k];
        cell[1][k] = along[k] - near[k];
        cell[2][k] = across[k] - near[k];
        cell[3][k] = both[k] - along[k] - across[k] + near[k];
    }
    cell
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A field that is bilinear in the roots of the distances: the table holds it exactly.
    fn plain() -> FieldMaps {
        let mut maps = FieldMaps::new(0.25, 0.15);
        let nodes = maps.nodes(|u, v| (u, v));
        maps.push(&nodes, 1.0, |_| (0.0, 0.0, 0.0));
        maps.push(&nodes, 0.7, |(u, v)| {
            let (a, b) = (u.sqrt(), v.sqrt());
            (10.0 * a, 100.0 + 20.0 * b + 30.0 * a * b, 5.0)
        });
        maps
    }

    #[test]
    fn a_bilinear_field_comes_back_exactly_with_its_symmetries() {
        let maps = plain();
        for (along, across, u, v) in [
            (0.125, 0.0375, 0.0_f32, 0.5),
            (0.145, 0.0375, 0.4, 0.5),
            (0.105, -0.0375, -0.4, 0.5),
            (0.645, -0.1499, 0.4, 0.999_67),
            (2.749, 0.0, 0.995_99, 0.0),
        ] {
            let place = maps.place(along, across);
            let cell = place.cell + CELLS as u32;
            let [field_along, field_across, rate, share] = maps.at(cell, place.along, place.across);
            assert!(
                (field_along * place.side - 10.0 * u).abs() < 1e-3,
                "along at {along}: {field_along}"
            );
            let expected = 100.0 + 20.0 * v + 30.0 * u.abs() * v;
            assert!(
                (field_across - expected).abs() < 2e-3,
                "across at {along}, {across}: {field_across}"
            );
            assert!((rate - 5.0).abs() < 1e-6, "rate {rate}");
            assert!((share - 0.7).abs() < 1e-6, "share {share}");
        }
    }
}
