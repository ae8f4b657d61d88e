//! The grid: rows from collector to emitter, nodes along ψ, and the areas of its cells on the real shape.

use super::Geometry;
use crate::physics::{
    PhysicsError,
    error::{positive, require},
    quadrature::gauss_legendre,
};

/// How fine a grid is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fineness {
    /// Intervals from collector to emitter.
    pub rows: usize,
    /// Intervals along ψ.
    pub columns: usize,
}

impl Default for Fineness {
    fn default() -> Self {
        Self {
            rows: 40,
            columns: 24,
        }
    }
}

/// A grid on one shape.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Mesh {
    /// p of every row, from 0 at the collector to the emitter.
    pub(super) p: Vec<f64>,
    /// Nodes in a row.
    pub(super) nodes: usize,
    /// Step of ψ.
    pub(super) step: f64,
    /// Mean of `|dz/dζ|²` around every node, m².
    pub(super) around: Vec<f64>,
    /// Mean of `|dz/dζ|²` between a row and the next, around every node's ψ, m².
    pub(super) between: Vec<f64>,
}

impl Mesh {
    pub(super) fn new(geometry: &impl Geometry, fineness: Fineness) -> Result<Self, PhysicsError> {
        let Fineness { rows, columns } = fineness;
        require(rows >= 8, "rows", rows as f64, "8 or more")?;
        require(columns >= 1, "columns", columns as f64, "1 or more")?;
        positive("emitter_p", geometry.emitter_p())?;
        let p = graded_rows(geometry, rows);
        let nodes = columns + 1;
        let step = geometry.span() / columns as f64;
        let quarters = quarter_areas(geometry, &p, columns, step);
        let mut around = vec![0.0; p.len() * nodes];
        let mut between = vec![0.0; (p.len() - 1) * nodes];
        for band in 0..p.len() - 1 {
            for node in 0..nodes {
                let [lower, upper] = quarters[band * nodes + node];
                around[band * nodes + node] += lower;
                around[(band + 1) * nodes + node] += upper;
                between[band * nodes + node] = lower + upper;
            }
        }
        for row in 0..p.len() {
            for node in 0..nodes {
                let width = node_width(node, columns, step);
                around[row * nodes + node] /= width * height(&p, row);
                if row + 1 < p.len() {
                    between[row * nodes + node] /= width * (p[row + 1] - p[row]);
                }
            }
        }
        Ok(Self {
            p,
            nodes,
            step,
            around,
            between,
        })
    }

    /// Number of rows.
    pub(super) fn rows(&self) -> usize {
        self.p.len()
    }

    /// Extent along p of the cells around a row.
    pub(super) fn height(&self, row: usize) -> f64 {
        height(&self.p, row)
    }

    /// The band between two rows in which p lies; beyond the ends the first or last.
    pub(super) fn band(&self, p: f64) -> usize {
        let above = self.p.partition_point(|row| *row <= p);
        above.clamp(1, self.rows() - 1) - 1
    }

    /// Mean over ψ of one row of values.
    pub(super) fn mean(&self, row: &[f64]) -> f64 {
        row.iter()
            .enumerate()
            .map(|(node, value)| self.share(node) * value)
            .sum()
    }

    /// Share of the whole ψ that belongs to a node.
    pub(super) fn share(&self, node: usize) -> f64 {
        let columns = self.nodes - 1;
        node_width(node, columns, 1.0) / columns as f64
    }
}

/// Half cells at both ends.
fn node_width(node: usize, columns: usize, step: f64) -> f64 {
    if node == 0 || node == columns {
        0.5 * step
    } else {
        step
    }
}

fn height(p: &[f64], row: usize) -> f64 {
    let below = if row > 0 { p[row] - p[row - 1] } else { 0.0 };
    let above = if row + 1 < p.len() {
        p[row + 1] - p[row]
    } else {
        0.0
    };
    0.5 * (below + above)
}

/// Rows that widen with the distance from where they are closest; that place is on a row.
fn graded_rows(geometry: &impl Geometry, intervals: usize) -> Vec<f64> {
    let (widening, far) = (geometry.widening(), geometry.emitter_p());
    let middle = geometry.finest_p().clamp(0.0, far);
    let length = |distance: f64| (widening * distance).ln_1p() / widening;
    let distance = |length: f64| (widening * length).exp_m1() / widening;
    let (below, above) = (length(middle), length(far - middle));
    let mut lower = (intervals as f64 * below / (below + above)).round() as usize;
    if below > 0.0 && above > 0.0 {
        lower = lower.clamp(2, intervals - 2);
    }
    let upper = intervals - lower;
    let part =
        |index: usize, whole: usize, length: f64| length * index as f64 / whole.max(1) as f64;
    let down = (0..lower).map(|index| middle - distance(part(lower - index, lower, below)));
    let up = (0..=upper).map(|index| middle + distance(part(index, upper, above)));
    let mut p: Vec<f64> = down.chain(up).collect();
    p[0] = 0.0;
    if let Some(last) = p.last_mut() {
        *last = far;
    }
    p
}

/// Areas of the lower and the upper half of every node's part of every band, m².
fn quarter_areas(geometry: &impl Geometry, p: &[f64], columns: usize, step: f64) -> Vec<[f64; 2]> {
    let rules = Rules::new();
    let singular = geometry.singular_p();
    let nodes = columns + 1;
    let mut areas = vec![[0.0; 2]; (p.len() - 1) * nodes];
    for band in 0..p.len() - 1 {
        let (low, high) = (p[band], p[band + 1]);
        let middle = 0.5 * (low + high);
        for column in 0..columns {
            let (left, right) = (column as f64 * step, (column + 1) as f64 * step);
            let centre = 0.5 * (left + right);
            let close =
                singular.is_some_and(|at| (at - middle).abs() < 3.0 * (high - low)) && column < 3;
            for (half, (from, to)) in [(low, middle), (middle, high)].into_iter().enumerate() {
                for (node, (start, end)) in
                    [(column, (left, centre)), (column + 1, (centre, right))]
                {
                    let cell = Cell {
                        from,
                        to,
                        start,
                        end,
                    };
                    areas[band * nodes + node][half] += rules.area_m2(geometry, &cell, close);
                }
            }
        }
    }
    areas
}

/// A rectangle of p and ψ.
struct Cell {
    from: f64,
    to: f64,
    start: f64,
    end: f64,
}

/// Points and weights of the quadratures, on 0…1.
struct Rules {
    coarse: Vec<(f64, f64)>,
    fine: Vec<(f64, f64)>,
}

impl Rules {
    fn new() -> Self {
        Self {
            coarse: gauss_legendre(2, 0.0, 1.0),
            fine: gauss_legendre(6, 0.0, 1.0),
        }
    }

    fn area_m2(&self, geometry: &impl Geometry, cell: &Cell, close: bool) -> f64 {
        let (height, width) = (cell.to - cell.from, cell.end - cell.start);
        let singular = geometry.singular_p();
        let touches =
            |p: f64| cell.start == 0.0 && singular.is_some_and(|at| (at - p).abs() < 1e-12);
        let rule = if close { &self.fine } else { &self.coarse };
        let mut sum = 0.0;
        if touches(cell.from) || touches(cell.to) {
            let (corner, inwards) = if touches(cell.from) {
                (cell.from, height)
            } else {
                (cell.to, -height)
            };
            // Two triangles with the singular corner as their tip: the 1/r of the stretch cancels.
            for &(outwards, weight) in &self.fine {
                for &(sideways, other) in &self.fine {
                    let near = geometry
                        .stretch_m2(corner + inwards * outwards, width * outwards * sideways);
                    let far = geometry
                        .stretch_m2(corner + inwards * outwards * sideways, width * outwards);
                    sum += weight * other * outwards * (near + far);
                }
            }
        } else {
            for &(up, weight) in rule {
                for &(along, other) in rule {
                    sum += weight
                        * other
                        * geometry.stretch_m2(cell.from + height * up, cell.start + width * along);
                }
            }
        }
        sum * height * width
    }
}
