//! The computed field of a wire row, to be looked at anywhere between the wires and the plates.
//!
//! `E = −∇φ`: the solver's slopes in the stretched rectangle, turned back by `dζ/dz`.

use std::{f64::consts::FRAC_PI_2, sync::Arc};

use super::{WireRow, solver::CoronaSolution, wire_row::Image};

/// Field, ions and current of a wire row in one state.
///
/// The polarity is dropped: the wires are counted as positive, so a grain charged by them is pushed along the field.
#[derive(Clone, Debug, PartialEq)]
pub struct WireField {
    row: WireRow,
    ion_mobility_m2_v_s: f64,
    solution: Arc<CoronaSolution>,
}

/// The state at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LocalState {
    /// Potential against the plates, V.
    pub potential_v: f64,
    /// Field along the gas, V/m.
    pub along_v_m: f64,
    /// Field across the gas, V/m.
    pub across_v_m: f64,
    /// Charge of the ions, C/m³.
    pub ions_c_m3: f64,
}

/// One point of a plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlatePoint {
    /// Distance along the gas from the nearest wire, m.
    pub x_m: f64,
    /// Current density, A/m².
    pub current_density_a_m2: f64,
    /// Field, V/m.
    pub field_v_m: f64,
}

/// One point of the path of an ion.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PathPoint {
    /// Distance along the gas from the wire, m.
    pub x_m: f64,
    /// Distance from the wire plane, m.
    pub y_m: f64,
    /// Time since it left the wire, s.
    pub time_s: f64,
}

impl WireField {
    /// The field of a solution.
    #[must_use]
    pub fn new(row: WireRow, ion_mobility_m2_v_s: f64, solution: Arc<CoronaSolution>) -> Self {
        Self {
            row,
            ion_mobility_m2_v_s,
            solution,
        }
    }

    /// The wire row.
    #[must_use]
    pub fn row(&self) -> &WireRow {
        &self.row
    }

    /// The solution.
    #[must_use]
    pub fn solution(&self) -> &CoronaSolution {
        &self.solution
    }

    /// Ion mobility b, m²/V/s.
    #[must_use]
    pub fn ion_mobility_m2_v_s(&self) -> f64 {
        self.ion_mobility_m2_v_s
    }

    /// Potential, field and ions at a place.
    ///
    /// # Arguments
    /// * `x_m` – distance along the gas from a wire, m, any.
    /// * `y_m` – distance from the wire plane, m, −s to s; beyond a plate the plate's own state.
    ///
    /// # Source
    /// Linear between the nodes of the solver's grid.
    ///
    /// # Validity
    /// As [`super::CoronaSolver`]; inside a wire its surface.
    #[must_use]
    pub fn at(&self, x_m: f64, y_m: f64) -> LocalState {
        self.at_image(&self.row.image(x_m, y_m))
    }

    /// As [`Self::at`], for a place whose image in the rectangle is known.
    #[must_use]
    pub fn at_image(&self, image: &Image) -> LocalState {
        let place = self.solution.at(image.p, image.psi);
        let (forward, aside) = (place.towards_collector_v, place.aside_v);
        let along = forward * image.slope.0 + aside * image.slope.1;
        let across = aside * image.slope.0 - forward * image.slope.1;
        LocalState {
            potential_v: place.potential_v,
            along_v_m: along * image.sides.0,
            across_v_m: across * image.sides.1,
            ions_c_m3: place.ions_c_m3,
        }
    }

    /// Mean current density on the plates, A/m²: `i/(2c)`.
    #[must_use]
    pub fn plate_current_a_m2(&self) -> f64 {
        self.solution.current_a_m / (2.0 * self.row.pitch_m())
    }

    /// Mean field on the plates, V/m.
    ///
    /// `Ē = (2/c) ∫ E dx` from a wire to midway to the next
    ///
    /// # Source
    /// Gauss's law on the solver's grid.
    ///
    /// # Validity
    /// As [`super::CoronaSolver`].
    #[must_use]
    pub fn mean_plate_field_v_m(&self) -> f64 {
        let flux_v: f64 = self
            .solution
            .collector()
            .map(|(_, share, slope_v, _)| share * slope_v)
            .sum();
        flux_v * FRAC_PI_2 / (0.5 * self.row.pitch_m())
    }

    /// Current and field along a plate, from under a wire to midway to the next, at the grid's own points.
    ///
    /// `j = ρ_i b E`
    ///
    /// # Source
    /// As [`super::CoronaSolver`].
    ///
    /// # Validity
    /// Not midway between the wires itself, where the current of a fine grid goes to zero ever more slowly.
    #[must_use]
    pub fn plate_profile(&self) -> Vec<PlatePoint> {
        let mut points: Vec<PlatePoint> = self
            .solution
            .collector()
            .map(|(psi, _, slope_v, ions_c_m3)| {
                let field_v_m = slope_v / self.row.stretch_m(0.0, psi);
                PlatePoint {
                    x_m: self.row.place_m(0.0, psi).0,
                    current_density_a_m2: ions_c_m3 * self.ion_mobility_m2_v_s * field_v_m,
                    field_v_m,
                }
            })
            .collect();
        points.reverse();
        points
    }

    /// Current that arrives on both plates over the current that leaves the wire; 1 where none flows.
    ///
    /// `2·2∫ j dx / i` from under the wire to midway to the next, by trapezoids
    ///
    /// # Source
    /// Conservation of charge: what leaves the wire arrives.
    ///
    /// # Validity
    /// As [`Self::plate_profile`].
    #[must_use]
    pub fn plate_to_wire_current(&self) -> f64 {
        let leaves_a_m = self.solution.current_a_m;
        if leaves_a_m <= 0.0 {
            return 1.0;
        }
        // Each trapezoid stands for four: both sides of the wire, both plates.
        let trapezoid = |pair: &[PlatePoint]| {
            let sum_a_m2 = pair[0].current_density_a_m2 + pair[1].current_density_a_m2;
            2.0 * sum_a_m2 * (pair[1].x_m - pair[0].x_m).abs()
        };
        let arrives_a_m: f64 = self.plate_profile().windows(2).map(trapezoid).sum();
        arrives_a_m / leaves_a_m
    }

    /// The path of an ion that leaves the wire at an angle from the wire plane, until it meets the plate.
    ///
    /// `dr/dt = bE`, fourth-order steps in space whose length shrinks at the wire
    ///
    /// # Arguments
    /// * `angle_rad` – 0 (along the gas) to π/2 (straight to the plate).
    ///
    /// # Source
    /// Runge & Kutta 1901, the classical step.
    ///
    /// # Validity
    /// As [`super::CoronaSolver`]; a path along the wire plane ends midway to the next wire, where there is no field.
    #[must_use]
    pub fn ion_path(&self, angle_rad: f64) -> Vec<PathPoint> {
        let radius_m = self.row.wire_radius_m() * (1.0 + 1e-9);
        let mut here = PathPoint {
            x_m: radius_m * angle_rad.cos(),
            y_m: radius_m * angle_rad.sin(),
            time_s: 0.0,
        };
        let mut path = vec![here];
        for _ in 0..MOST_PATH_STEPS {
            let (half_pitch_m, gap_m) = (0.5 * self.row.pitch_m(), self.row.gap_m());
            if here.y_m >= gap_m || here.x_m > half_pitch_m {
                break;
            }
            let from_wire_m = here.x_m.hypot(here.y_m);
            let step_m = PATH_STEP * from_wire_m.min(0.25 * gap_m);
            let Some(next) = self.path_step(here, step_m) else {
                break;
            };
            here = next;
            path.push(here);
        }
        path
    }

    /// One step of `step_m` along the field; nothing where there is no field to follow.
    fn path_step(&self, from: PathPoint, step_m: f64) -> Option<PathPoint> {
        let slope = |x_m: f64, y_m: f64| {
            let state = self.at(x_m, y_m);
            let strength = state.along_v_m.hypot(state.across_v_m);
            (strength > 1e-9 * self.solution.voltage_v).then(|| {
                let per_m = 1.0 / (strength * self.ion_mobility_m2_v_s);
                (
                    state.along_v_m / strength,
                    state.across_v_m / strength,
                    per_m,
                )
            })
        };
        let (x, y) = (from.x_m, from.y_m);
        let a = slope(x, y)?;
        let b = slope(x + 0.5 * step_m * a.0, y + 0.5 * step_m * a.1)?;
        let c = slope(x + 0.5 * step_m * b.0, y + 0.5 * step_m * b.1)?;
        let d = slope(x + step_m * c.0, y + step_m * c.1)?;
        let mean = |a: f64, b: f64, c: f64, d: f64| (a + 2.0 * (b + c) + d) / 6.0;
        let full = PathPoint {
            x_m: x + step_m * mean(a.0, b.0, c.0, d.0),
            y_m: y + step_m * mean(a.1, b.1, c.1, d.1),
            time_s: from.time_s + step_m * mean(a.2, b.2, c.2, d.2),
        };
        // The last step ends on the plate.
        let gap_m = self.row.gap_m();
        let part = if full.y_m > gap_m {
            (gap_m - y) / (full.y_m - y)
        } else {
            1.0
        };
        Some(PathPoint {
            x_m: x + part * (full.x_m - x),
            y_m: if part < 1.0 { gap_m } else { full.y_m },
            time_s: from.time_s + part * (full.time_s - from.time_s),
        })
    }
}

/// Steps of a path are this share of the distance from the wire, or of a quarter of the gap.
const PATH_STEP: f64 = 0.05;
/// Steps after which a path is given up.
const MOST_PATH_STEPS: usize = 5_000;
