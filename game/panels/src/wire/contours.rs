//! Lines of equal value through a grid of samples, by marching squares.

use std::collections::BTreeMap;

/// Values at the nodes of an even grid.
pub(super) struct Grid {
    /// Nodes along and across.
    pub(super) nodes: [usize; 2],
    /// Distance of nodes along and across, m.
    pub(super) step_m: [f64; 2],
    /// Row by row.
    pub(super) values: Vec<f64>,
}

/// The side of a square: its first node, and whether it runs across.
type Side = (usize, usize, bool);
/// A piece of a line within one square.
type Piece = [Side; 2];

impl Grid {
    /// Samples a quantity from the origin to the far corner.
    pub(super) fn sample(
        far_m: [f64; 2],
        nodes: [usize; 2],
        value: impl Fn(f64, f64) -> f64,
    ) -> Self {
        let step_m = [0, 1].map(|axis| far_m[axis] / (nodes[axis] - 1) as f64);
        let mut values = Vec::with_capacity(nodes[0] * nodes[1]);
        for j in 0..nodes[1] {
            for i in 0..nodes[0] {
                values.push(value(i as f64 * step_m[0], j as f64 * step_m[1]));
            }
        }
        Self {
            nodes,
            step_m,
            values,
        }
    }

    fn at(&self, i: usize, j: usize) -> f64 {
        self.values[j * self.nodes[0] + i]
    }

    /// The lines on which the value is `level`, m from the origin.
    pub(super) fn lines(&self, level: f64) -> Vec<Vec<[f64; 2]>> {
        let pieces = self.pieces(level);
        let mut at_side: BTreeMap<Side, Vec<usize>> = BTreeMap::new();
        for (index, piece) in pieces.iter().enumerate() {
            for side in piece {
                at_side.entry(*side).or_default().push(index);
            }
        }
        // Open lines from one of their ends, then closed ones from anywhere.
        let ends = at_side
            .iter()
            .filter(|(_, touching)| touching.len() == 1)
            .map(|(side, _)| *side);
        let starts: Vec<Side> = ends.chain(pieces.iter().map(|piece| piece[0])).collect();
        let mut used = vec![false; pieces.len()];
        let mut lines = Vec::new();
        for start in starts {
            let mut here = start;
            let mut line = vec![self.crossing(here, level)];
            while let Some(index) = at_side
                .get(&here)
                .and_then(|touching| touching.iter().copied().find(|index| !used[*index]))
            {
                used[index] = true;
                let [from, to] = pieces[index];
                here = if from == here { to } else { from };
                line.push(self.crossing(here, level));
            }
            if line.len() > 1 {
                lines.push(line);
            }
        }
        lines
    }

    fn pieces(&self, level: f64) -> Vec<Piece> {
        let mut pieces = Vec::new();
        for j in 0..self.nodes[1] - 1 {
            for i in 0..self.nodes[0] - 1 {
                let corners = [
                    self.at(i, j),
                    self.at(i + 1, j),
                    self.at(i + 1, j + 1),
                    self.at(i, j + 1),
                ];
                let above = corners.map(|value| value > level);
                let sides: [Side; 4] = [
                    (i, j, false),
                    (i + 1, j, true),
                    (i, j + 1, false),
                    (i, j, true),
                ];
                let cut: Vec<Side> = (0..4)
                    .filter(|side| above[*side] != above[(side + 1) % 4])
                    .map(|side| sides[side])
                    .collect();
                match cut[..] {
                    [from, to] => pieces.push([from, to]),
                    [bottom, right, top, left] => {
                        // A saddle: the middle decides which corners belong together.
                        let middle = 0.25 * corners.iter().sum::<f64>() > level;
                        pieces.extend(if middle == above[0] {
                            [[bottom, right], [top, left]]
                        } else {
                            [[left, bottom], [right, top]]
                        });
                    }
                    _ => {}
                }
            }
        }
        pieces
    }

    /// Where a line crosses a side, m.
    fn crossing(&self, (i, j, across): Side, level: f64) -> [f64; 2] {
        let (from, to) = if across {
            (self.at(i, j), self.at(i, j + 1))
        } else {
            (self.at(i, j), self.at(i + 1, j))
        };
        let part = (level - from) / (to - from);
        let (along, up) = if across { (0.0, part) } else { (part, 0.0) };
        [
            (i as f64 + along) * self.step_m[0],
            (j as f64 + up) * self.step_m[1],
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_of_equal_distance_are_circles() {
        let grid = Grid::sample([1.0, 1.0], [41, 41], f64::hypot);
        let lines = grid.lines(0.6);
        assert_eq!(lines.len(), 1, "one quarter of a circle");
        for [x, y] in &lines[0] {
            // A chord of a circle of 0.6 over a step of 0.025 is off by at most 0.025²/(8 · 0.6).
            assert!((x.hypot(*y) - 0.6).abs() < 1.4e-4, "{x} {y}");
        }
        let grid = Grid::sample([2.0, 2.0], [41, 41], |x, y| (x - 1.0).hypot(y - 1.0));
        let closed = grid.lines(0.52);
        assert_eq!(closed.len(), 1, "one circle");
        assert_eq!(closed[0].first(), closed[0].last(), "closed");
    }
}
