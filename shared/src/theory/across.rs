//! Dust of one drift across the gap, in the form that its mixing calls for.

use crate::{
    conditions::Conditions,
    physics::{
        PhysicsError,
        efficiency::{Column, ColumnStep, march::cell_velocities_m_s},
    },
    simulation::{Passage, Stirring},
};

/// Sheets across the half gap.
const CELLS: usize = 120;

/// Dust across the gap in one lane.
#[derive(Clone, Debug)]
pub(super) enum Across {
    /// Perfectly mixed: one number.
    Mixed(f64),
    /// Not mixed at all: pieces of equal concentration by the flow between the wire line and them, up to 1 at the plate.
    Pieces(Vec<Piece>),
    /// Mixed by a diffusivity.
    Sheets(Box<Sheets>),
}

/// Dust in thin sheets across the gap.
#[derive(Clone, Debug)]
pub(super) struct Sheets {
    column: Column,
    /// Gas velocity of each cell over the mean.
    profile: Vec<f64>,
    /// Diffusivity at each face, m²/s.
    diffusivity_m2_s: Vec<f64>,
    mass: Vec<f64>,
}

/// Dust of one concentration.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Piece {
    /// Flow between the wire line and its near side, 0 to 1.
    from: f64,
    concentration: f64,
}

impl Across {
    pub(super) fn new(
        conditions: &Conditions,
        passage: &Passage,
        share: f64,
    ) -> Result<Self, PhysicsError> {
        Ok(match passage.stirring {
            Stirring::Full => Self::Mixed(share),
            Stirring::None => Self::Pieces(vec![Piece {
                from: 0.0,
                concentration: share,
            }]),
            Stirring::Diffusive { .. } => {
                let column = Column::uniform(CELLS, conditions.gap_m())?;
                let profile = cell_velocities_m_s(&column, conditions.teaching.profile, 1.0);
                let mass = vec![share; CELLS];
                let diffusivity_m2_s = passage.diffusivities_m2_s(column.faces_m())?;
                Self::Sheets(Box::new(Sheets {
                    column,
                    profile,
                    diffusivity_m2_s,
                    mass,
                }))
            }
        })
    }

    /// Share of the inlet mass.
    pub(super) fn share(&self) -> f64 {
        match self {
            Self::Mixed(share) => *share,
            Self::Pieces(pieces) => {
                let ends = pieces.iter().skip(1).map(|piece| piece.from).chain([1.0]);
                pieces
                    .iter()
                    .zip(ends)
                    .map(|(piece, end)| (end - piece.from) * piece.concentration)
                    .sum()
            }
            Self::Sheets(sheets) => {
                let Sheets {
                    column,
                    profile,
                    mass,
                    ..
                } = sheets.as_ref();
                column.content(profile, mass) / column.content(profile, &vec![1.0; mass.len()])
            }
        }
    }

    pub(super) fn scale(&mut self, factor: f64) {
        match self {
            Self::Mixed(share) => *share *= factor,
            Self::Pieces(pieces) => pieces
                .iter_mut()
                .for_each(|piece| piece.concentration *= factor),
            Self::Sheets(sheets) => sheets.mass.iter_mut().for_each(|mass| *mass *= factor),
        }
    }

    pub(super) fn add_evenly(&mut self, share: f64) {
        match self {
            Self::Mixed(mixed) => *mixed += share,
            Self::Pieces(pieces) => pieces
                .iter_mut()
                .for_each(|piece| piece.concentration += share),
            Self::Sheets(sheets) => sheets.mass.iter_mut().for_each(|mass| *mass += share),
        }
    }

    /// Drifts for the Deutsch number `deutsch` in `time_s`.
    pub(super) fn drift(&mut self, deutsch: f64, time_s: f64) -> Result<(), PhysicsError> {
        match self {
            Self::Mixed(share) => *share *= (-deutsch).exp(),
            Self::Pieces(pieces) => {
                // In terms of the flow the drift is the same for every profile: dF/dx = w/(u s).
                pieces
                    .iter_mut()
                    .for_each(|piece| piece.from = (piece.from + deutsch).min(1.0));
                pieces.insert(
                    0,
                    Piece {
                        from: 0.0,
                        concentration: 0.0,
                    },
                );
            }
            Self::Sheets(sheets) => {
                let Sheets {
                    column,
                    profile,
                    diffusivity_m2_s,
                    mass,
                } = sheets.as_mut();
                let gap_m = column.faces_m().last().copied().unwrap_or(1.0);
                let drift = vec![deutsch * gap_m / time_s; column.cells() + 1];
                let step = ColumnStep {
                    step: time_s,
                    face_drift_m_s: &drift,
                    face_diffusivity_m2_s: diffusivity_m2_s,
                    weight: profile,
                };
                column.advance(&step, &mut [mass], &mut [0.0])?;
            }
        }
        Ok(())
    }
}
