//! Rows of the table of formulas: velocity, leak, flow and pressure along the gas.

use super::{formulas::Formula, formulas_of_the_gas_path as gas_path};
use crate::units::Dimension;

pub(super) const FACE_VELOCITY: Formula = Formula {
    name: "face_velocity",
    title: "continuity between the plates",
    equation: "v = Q/(H W)",
    source: "continuity",
    validity: "mean over the face",
    gives: Dimension::Velocity,
    evaluate: gas_path::FACE_VELOCITY,
};

pub(super) const PLUG_FLOW_TIME: Formula = Formula {
    name: "plug_flow_time",
    title: "length over velocity",
    equation: "t = L/v",
    source: "continuity",
    validity: "mean by flow, however uneven the gas is",
    gives: Dimension::Time,
    evaluate: gas_path::PLUG_FLOW_TIME,
};

pub(super) const LEAK_BY_OXYGEN: Formula = Formula {
    name: "leak_by_oxygen",
    title: "leak by oxygen",
    equation: "x = (O₂,out − O₂,in)/(20.9 % − O₂,out)",
    source: "balance of oxygen",
    validity: "dry readings; nothing burns in between",
    gives: Dimension::Fraction,
    evaluate: gas_path::LEAK_BY_OXYGEN,
};

pub(super) const MIXED_OXYGEN: Formula = Formula {
    name: "mixed_oxygen",
    title: "oxygen of gas and air mixed",
    equation: "O₂,out = (O₂,in + 20.9 % x)/(1 + x)",
    source: "balance of oxygen",
    validity: "dry readings; nothing burns in between",
    gives: Dimension::Fraction,
    evaluate: gas_path::MIXED_OXYGEN,
};

pub(super) const ADDED_VOLUMES: Formula = Formula {
    name: "added_volumes",
    title: "hot gas and cold air added up",
    equation: "Q_out = Q + x n R T_air/p",
    source: "continuity, equal heat capacities a mole",
    validity: "half a per cent; no leak before the fields",
    gives: Dimension::Flow,
    evaluate: gas_path::ADDED_VOLUMES,
};

pub(super) const ADDED_LOSSES: Formula = Formula {
    name: "added_losses",
    title: "losses added up",
    equation: "Δp = ρ(v₁−v)²/2 + n ζ ρv²/2 + friction + ζ₂ ρv₂²/2",
    source: "Borda and Carnot, Idelchik, Blasius",
    validity: "sudden nozzles, smooth plates, no leaks",
    gives: Dimension::PressureDrop,
    evaluate: gas_path::ADDED_LOSSES,
};

pub(super) const LEAST_PUBLISHED_LOSS: Formula = Formula {
    name: "least_published_loss",
    title: "published range, its low end",
    equation: "Δp ≥ 50 Pa",
    source: "TM-5-815-1",
    validity: "dry plate precipitators",
    gives: Dimension::PressureDrop,
    evaluate: gas_path::LEAST_LOSS,
};

pub(super) const MOST_PUBLISHED_LOSS: Formula = Formula {
    name: "most_published_loss",
    title: "published range, its high end",
    equation: "Δp ≤ 250 Pa",
    source: "TM-5-815-1",
    validity: "dry plate precipitators",
    gives: Dimension::PressureDrop,
    evaluate: gas_path::MOST_LOSS,
};

pub(super) const PRESSURE_FROM_THE_STACK: Formula = Formula {
    name: "pressure_from_the_stack",
    title: "pressure added up from the stack",
    equation: "p = p_end + ρv₂²/2 (1 + ζ_duct + ζ₂) + friction − ρv²/2",
    source: "Bernoulli with losses",
    validity: "a fan that pushes, no leaks",
    gives: Dimension::PressureDrop,
    evaluate: gas_path::PRESSURE_FROM_THE_STACK,
};
