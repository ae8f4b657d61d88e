//! The penetration of a passage in which drift changes along or across, found by marching a [`Column`] down it.
//!
//! `u(y) ∂C/∂x = ∂/∂y(D ∂C/∂y − w(x,y)C)`, `P = ∫uC dy` at the outlet over the same at the inlet

use super::{Column, ColumnStep};
use crate::conditions::Profile;
use crate::physics::PhysicsError;
use crate::physics::error::{not_negative, positive, require};

/// A passage between wire plane and plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Passage {
    /// Distance s from wire to plate, m, above 0.
    pub gap_m: f64,
    /// Length L along the gas, m, 0 or more.
    pub length_m: f64,
    /// Mean gas velocity u, m/s, above 0.
    pub velocity_m_s: f64,
    /// Diffusivity D across, m²/s, 0 or more.
    pub diffusivity_m2_s: f64,
    /// Shape of the gas velocity across the gap.
    pub profile: Profile,
}

/// How finely to march; the passage is marched once like this and once twice as fine in both directions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Resolution {
    /// Cells over the half gap, 1 or more.
    pub cells: usize,
    /// Steps along the passage, 1 or more.
    pub steps: usize,
}

impl Resolution {
    /// Good for 1e-3 of the penetration at Pe ≤ 100 and De ≤ 4 down to P = 0.01, and down to P = 1e-5 at Pe ≤ 10.
    pub const USUAL: Self = Self {
        cells: 100,
        steps: 100,
    };
    /// Good for 1e-3 of the penetration at Pe ≤ 100 and De ≤ 4 down to P = 1e-6.
    pub const FINE: Self = Self {
        cells: 200,
        steps: 200,
    };

    fn doubled(self) -> Self {
        Self {
            cells: 2 * self.cells,
            steps: 2 * self.steps,
        }
    }
}

/// Gas velocity of every cell of a column, m/s.
///
/// Flat `u`, parabolic `u(y) = 1.5 u (1 − y²/s²)` averaged over each cell, so that the flow is exact.
///
/// # Arguments
/// * `column` – the cells.
/// * `profile` – the shape.
/// * `mean_m_s` – mean velocity u, m/s, above 0.
///
/// # Source
/// Poiseuille flow between plates (the wires are ignored).
///
/// # Validity
/// The parabola is a teaching case: real collectors are turbulent and nearly flat.
#[must_use]
pub fn cell_velocities_m_s(column: &Column, profile: Profile, mean_m_s: f64) -> Vec<f64> {
    let faces_m = column.faces_m();
    let gap_m = faces_m.last().copied().unwrap_or(1.0);
    match profile {
        Profile::Flat => vec![mean_m_s; column.cells()],
        Profile::Parabolic => faces_m
            .windows(2)
            .map(|pair| {
                let (a, b) = (pair[0] / gap_m, pair[1] / gap_m);
                // Mean of 1 − η² between a and b, as 1 − (a²+ab+b²)/3.
                1.5 * mean_m_s * (1.0 - (a * a + a * b + b * b) / 3.0)
            })
            .collect(),
    }
}

/// Share of the dust that escapes a passage with any drift.
///
/// Equation: the file's first lines. The error of one march falls with the square of its fineness, so two marches
/// together take it off: `P = P_fine + (P_fine − P_coarse)/3` (Richardson 1911).
///
/// # Arguments
/// * `passage` – gap, length, velocity, diffusivity, profile.
/// * `resolution` – cells and steps of the coarser march.
/// * `drift_m_s` – w(x, y) towards the plate, m/s, from x (m along the passage) and y (m from the wire plane).
///
/// # Source
/// Convective diffusion of Leonard, Mitchner & Self 1980 with variable w; method in [`Column`].
///
/// # Validity
/// Smooth w and Pe up to a few hundred; where w is uniform use [`super::penetration`], exact and a thousand times
/// faster.
///
/// # Errors
/// A number outside its range.
pub fn penetration(
    passage: &Passage,
    resolution: Resolution,
    drift_m_s: impl Fn(f64, f64) -> f64,
) -> Result<f64, PhysicsError> {
    let coarse = march(passage, resolution, &drift_m_s)?;
    let fine = march(passage, resolution.doubled(), &drift_m_s)?;
    let extrapolated = fine + (fine - coarse) / 3.0;
    // A front too thin for the cells can be extrapolated below zero; the march itself cannot.
    Ok(if extrapolated > 0.0 {
        extrapolated
    } else {
        fine
    })
}

/// One march.
fn march(
    passage: &Passage,
    resolution: Resolution,
    drift_m_s: &impl Fn(f64, f64) -> f64,
) -> Result<f64, PhysicsError> {
    not_negative("length_m", passage.length_m)?;
    positive("velocity_m_s", passage.velocity_m_s)?;
    require(
        resolution.steps > 0,
        "steps",
        resolution.steps as f64,
        "1 or more",
    )?;
    let mut column = Column::uniform(resolution.cells, passage.gap_m)?;
    let weight = cell_velocities_m_s(&column, passage.profile, passage.velocity_m_s);
    let mut concentration = vec![1.0; column.cells()];
    let entering = column.content(&weight, &concentration);
    let step_m = passage.length_m / resolution.steps as f64;
    let mut captured = [0.0];
    let face_diffusivity_m2_s = vec![passage.diffusivity_m2_s; column.cells() + 1];
    for index in 0..resolution.steps {
        let x_m = (index as f64 + 0.5) * step_m;
        let face_drift_m_s: Vec<f64> = column
            .faces_m()
            .iter()
            .map(|y_m| drift_m_s(x_m, *y_m))
            .collect();
        let step = ColumnStep {
            step: step_m,
            face_drift_m_s: &face_drift_m_s,
            face_diffusivity_m2_s: &face_diffusivity_m2_s,
            weight: &weight,
        };
        column.advance(&step, &mut [&mut concentration], &mut captured)?;
    }
    Ok(column.content(&weight, &concentration) / entering)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::efficiency::{finite_mixing, limits};

    fn marched(peclet: f64, deutsch: f64, profile: Profile, resolution: Resolution) -> f64 {
        // s = 0.15 m, u = 1 m/s, w = 0.1 m/s; the length follows from De, the diffusivity from Pe.
        let passage = Passage {
            gap_m: 0.15,
            length_m: deutsch * 1.5,
            velocity_m_s: 1.0,
            diffusivity_m2_s: 0.015 / peclet,
            profile,
        };
        penetration(&passage, resolution, |_, _| 0.1).expect("a passage")
    }

    fn worst(resolution: Resolution, cells: &[(f64, f64)]) -> f64 {
        cells
            .iter()
            .map(|(peclet, deutsch)| {
                let exact = finite_mixing::penetration(*peclet, *deutsch).expect("in range");
                let got = marched(*peclet, *deutsch, Profile::Flat, resolution);
                // Relative where P > 1e-6, absolute below, as everywhere in the specification.
                (got - exact).abs() / if exact > 1e-6 { exact } else { 1.0 }
            })
            .fold(0.0, f64::max)
    }

    #[test]
    fn usual_resolution_meets_every_cell_of_the_published_table() {
        let mut cells = Vec::new();
        for peclet in [0.1, 1.0, 10.0, 100.0] {
            for deutsch in [0.5, 1.0, 2.0, 4.0] {
                cells.push((peclet, deutsch));
            }
        }
        let error = worst(Resolution::USUAL, &cells);
        assert!(error < 1e-3, "{error}");
    }

    #[test]
    fn fine_resolution_follows_the_front_far_down() {
        let error = worst(Resolution::FINE, &[(100.0, 1.3), (100.0, 1.6), (30.0, 2.2)]);
        assert!(error < 1e-3, "{error}");
    }

    #[test]
    fn the_error_of_one_march_falls_with_the_square_of_its_fineness() {
        let passage = Passage {
            gap_m: 0.15,
            length_m: 3.0,
            velocity_m_s: 1.0,
            diffusivity_m2_s: 1.5e-3,
            profile: Profile::Flat,
        };
        let exact = finite_mixing::penetration(10.0, 2.0).expect("in range");
        let error = |cells: usize| {
            let resolution = Resolution {
                cells,
                steps: cells,
            };
            march(&passage, resolution, &|_, _| 0.1).expect("a passage") - exact
        };
        let ratio = error(100) / error(200);
        assert!((3.5..4.5).contains(&ratio), "{ratio}");
    }

    #[test]
    fn laminar_flow_loses_dust_in_proportion_whatever_the_profile() {
        let resolution = Resolution {
            cells: 400,
            steps: 400,
        };
        for profile in [Profile::Flat, Profile::Parabolic] {
            for (deutsch, tolerance) in [(0.5, 1e-6), (0.8, 1e-3), (1.0, 0.03), (1.3, 0.003)] {
                let got = marched(f64::INFINITY, deutsch, profile, resolution);
                let exact = limits::laminar(deutsch);
                assert!(
                    (got - exact).abs() < tolerance,
                    "{got} not {exact}, {profile:?}"
                );
            }
        }
    }

    #[test]
    fn with_perfect_mixing_the_profile_does_not_matter() {
        for profile in [Profile::Flat, Profile::Parabolic] {
            let got = marched(
                1e-4,
                2.0,
                profile,
                Resolution {
                    cells: 50,
                    steps: 400,
                },
            );
            let exact = limits::deutsch(2.0);
            assert!(
                (got / exact - 1.0).abs() < 1e-3,
                "{got} not {exact}, {profile:?}"
            );
        }
    }

    #[test]
    fn only_the_sum_of_a_drift_that_changes_along_counts_when_mixing_is_perfect() {
        let passage = Passage {
            gap_m: 0.15,
            length_m: 3.0,
            velocity_m_s: 1.0,
            diffusivity_m2_s: 100.0,
            profile: Profile::Flat,
        };
        let got = penetration(
            &passage,
            Resolution {
                cells: 40,
                steps: 600,
            },
            |x, _| 0.1 * x / 1.5,
        )
        .expect("a passage");
        assert!((got / limits::deutsch(2.0) - 1.0).abs() < 1e-3, "{got}");
    }

    #[test]
    fn the_cells_carry_the_whole_flow() {
        let column = Column::uniform(17, 0.2).expect("a column");
        for profile in [Profile::Flat, Profile::Parabolic] {
            let weight = cell_velocities_m_s(&column, profile, 1.3);
            let flow = column.content(&weight, &[1.0; 17]);
            assert!((flow / 0.26 - 1.0).abs() < 1e-13, "{flow}");
        }
    }
}
