//! The formulas that a lesson may hold its measurement against: one row a formula, found by name.
//!
//! A lesson names a formula; nothing in a lesson is computed by the lesson itself. A new formula is one function and
//! one row here, and a test walks the table.

use super::closed_forms;
use crate::{conditions::Conditions, physics::PhysicsError, units::Dimension};

use super::{
    formulas_of_ash, formulas_of_rapping, formulas_of_water, on_plant::OnPlant,
    rows_of_the_gas_path, rows_of_the_set,
};

use super::formulas_of_area::{
    deutsch_after_doubling_area, deutsch_anderson_penetration, finite_mixing_penetration,
    laminar_penetration, matts_ohnfeldt_after_doubling_area,
};
use super::formulas_of_losses::{
    loss_floor, pilot_plant_penetration, section_loss_penetration, uneven_gas_penetration,
};
use super::formulas_of_panel::bouguer_opacity;

/// A formula with what a learner may ask about it.
#[derive(Clone, Copy, Debug)]
pub struct Formula {
    /// Name in lesson files.
    pub name: &'static str,
    /// What people call it.
    pub title: &'static str,
    /// The equation, as text.
    pub equation: &'static str,
    /// Author and year.
    pub source: &'static str,
    /// Where it holds.
    pub validity: &'static str,
    /// What it gives, in SI units.
    pub gives: Dimension,
    /// How it is computed.
    pub evaluate: Evaluate,
}

/// How a formula is computed.
#[derive(Clone, Copy, Debug)]
pub enum Evaluate {
    /// From the conditions.
    Whole(fn(&Conditions) -> Result<f64, PhysicsError>),
    /// From the conditions and the diameter of a grain, m.
    OfSize(fn(&Conditions, f64) -> Result<f64, PhysicsError>),
    /// From a time on the plant clock.
    OnPlant(fn(&OnPlant<'_>) -> Result<f64, PhysicsError>),
}

impl Formula {
    /// Its value under these conditions; `size_m` is the diameter of the grain, where it needs one.
    ///
    /// Without a diameter the grain is that of the dust with one diameter only.
    ///
    /// # Errors
    /// The formula refused the conditions, or it needs a diameter and there is none.
    pub fn value(&self, conditions: &Conditions, size_m: Option<f64>) -> Result<f64, PhysicsError> {
        match self.evaluate {
            Evaluate::Whole(value) => value(conditions),
            Evaluate::OfSize(value) => {
                let size_m = size_m.or(conditions.teaching.single_diameter_m);
                let size_m = size_m.ok_or_else(|| PhysicsError::Impossible {
                    reason: format!("{} needs the diameter of a grain", self.title),
                })?;
                value(conditions, size_m)
            }
            Evaluate::OnPlant(_) => Err(PhysicsError::Impossible {
                reason: format!("{} needs a time on the plant clock", self.title),
            }),
        }
    }

    /// Its value for a time on the plant clock; a formula that needs no time is that of the conditions then.
    ///
    /// # Errors
    /// As [`Self::value`].
    pub fn value_on_plant(&self, asked: &OnPlant<'_>) -> Result<f64, PhysicsError> {
        match self.evaluate {
            Evaluate::OnPlant(value) => value(asked),
            _ => self.value(asked.conditions, None),
        }
    }

    /// Whether it needs the diameter of a grain.
    #[must_use]
    pub fn needs_size(&self) -> bool {
        matches!(self.evaluate, Evaluate::OfSize(_))
    }

    /// Whether it needs a time on the plant clock.
    #[must_use]
    pub fn needs_plant(&self) -> bool {
        matches!(self.evaluate, Evaluate::OnPlant(_))
    }
}

/// Every formula.
pub const FORMULAS: &[Formula] = &[
    Formula {
        name: "deutsch_anderson_penetration",
        title: "Deutsch–Anderson",
        equation: "P = Σ f(d) e^(−w(d) A/Q)",
        source: "Anderson 1919, Deutsch 1922",
        validity: "full mixing across the gap, no losses, even gas",
        gives: Dimension::Fraction,
        evaluate: Evaluate::Whole(deutsch_anderson_penetration),
    },
    Formula {
        name: "laminar_penetration",
        title: "laminar bound",
        equation: "P = Σ f(d) max(0, 1 − w(d) A/Q)",
        source: "integral along the paths of the grains",
        validity: "no mixing across the gap, no losses, even gas",
        gives: Dimension::Fraction,
        evaluate: Evaluate::Whole(laminar_penetration),
    },
    Formula {
        name: "finite_mixing_penetration",
        title: "finite mixing",
        equation: "u ∂C/∂x = D ∂²C/∂y² − ∂(wC)/∂y, with sneakage, rapping loss and uneven gas",
        source: "Leonard, Mitchner and Self 1980",
        validity: "any mixing; 1 % with one migration velocity, 10 % with the computed electric field",
        gives: Dimension::Fraction,
        evaluate: Evaluate::Whole(finite_mixing_penetration),
    },
    Formula {
        name: "section_loss_penetration",
        title: "sections with losses",
        equation: "P = (LF + (1−LF) e^(−w A/(n Q)))^n, LF = S + RR(1−S)",
        source: "US EPA Air Pollution Control Cost Manual",
        validity: "one migration velocity, equal fields, full mixing, even gas",
        gives: Dimension::Fraction,
        evaluate: Evaluate::Whole(section_loss_penetration),
    },
    Formula {
        name: "loss_floor",
        title: "floor of the losses",
        equation: "P ≥ LF^n",
        source: "US EPA Air Pollution Control Cost Manual",
        validity: "equal losses in every field; no plate area gets below it",
        gives: Dimension::Fraction,
        evaluate: Evaluate::Whole(loss_floor),
    },
    Formula {
        name: "uneven_gas_penetration",
        title: "Deutsch in uneven gas",
        equation: "P = ∫ v e^(−De/v) g(v) dv / ∫ v g(v) dv",
        source: "flux mean of Deutsch 1922",
        validity: "one migration velocity, full mixing within a lane, no losses",
        gives: Dimension::Fraction,
        evaluate: Evaluate::Whole(uneven_gas_penetration),
    },
    Formula {
        name: "pilot_plant_penetration",
        title: "pilot collector",
        equation: "P = 6.59·10⁸ V^(−5.46) %, V in kV",
        source: "US EPA pilot precipitator experiments 1978",
        validity: "fitted to one pilot collector near 30 to 36 kV; elsewhere only its slope",
        gives: Dimension::Fraction,
        evaluate: Evaluate::Whole(pilot_plant_penetration),
    },
    Formula {
        name: "deutsch_after_doubling_area",
        title: "Deutsch, area doubled",
        equation: "P₂ = P₁²",
        source: "Deutsch 1922, solved for twice the area",
        validity: "as Deutsch–Anderson: one migration velocity, full mixing, no losses",
        gives: Dimension::Fraction,
        evaluate: Evaluate::Whole(deutsch_after_doubling_area),
    },
    Formula {
        name: "matts_ohnfeldt_after_doubling_area",
        title: "Matts–Öhnfeldt, area doubled",
        equation: "P = e^(−(w_k A/Q)^k), so P₂ = P₁^(2^k), k = 0.5",
        source: "Matts and Öhnfeldt 1963",
        validity: "a fit for fly ash of many sizes, near the area it was measured at",
        gives: Dimension::Fraction,
        evaluate: Evaluate::Whole(matts_ohnfeldt_after_doubling_area),
    },
    Formula {
        name: "deutsch_size_penetration",
        title: "Deutsch–Anderson for this size",
        equation: "P(d) = e^(−w(d) A/Q)",
        source: "Anderson 1919, Deutsch 1922",
        validity: "full mixing across the gap, no losses, even gas; over the size class of the count",
        gives: Dimension::Fraction,
        evaluate: closed_forms::DEUTSCH_OF_SIZE,
    },
    Formula {
        name: "deutsch_worst_size",
        title: "smallest w(d) A/Q",
        equation: "dw/dd = 0",
        source: "minimum over 0.02 to 20 µm, computed",
        validity: "full mixing across the gap; charging law of the sheet",
        gives: Dimension::GrainSize,
        evaluate: closed_forms::DEUTSCH_WORST_SIZE,
    },
    Formula {
        name: "cochet_worst_size",
        title: "smallest w(d) A/Q with Cochet's charge",
        equation: "dw/dd = 0",
        source: "Cochet 1961; minimum over 0.02 to 20 µm, computed",
        validity: "full mixing across the gap; saturation charge of field and diffusion in one form",
        gives: Dimension::GrainSize,
        evaluate: closed_forms::COCHET_WORST_SIZE,
    },
    Formula {
        name: "lawless_charge",
        title: "Lawless",
        equation: "dν/dτ = (ν_s/4)(1 − ν/ν_s)² + f, in E = V/s and j for t = L/v",
        source: "Lawless 1996",
        validity: "even field and ions; charge in electrons",
        gives: Dimension::Number,
        evaluate: closed_forms::LAWLESS_CHARGE,
    },
    Formula {
        name: "pauthenier_charge",
        title: "Pauthenier",
        equation: "q = 3πε₀d²E ε_r/(ε_r+2) t/(t+τ), in E = V/s and j for t = L/v",
        source: "Pauthenier and Moreau-Hanot 1932",
        validity: "field charging alone, above about 1 µm; charge in electrons",
        gives: Dimension::Number,
        evaluate: closed_forms::PAUTHENIER_CHARGE,
    },
    Formula {
        name: "half_charge_time",
        title: "charging time",
        equation: "τ = 4ε₀E/j",
        source: "Pauthenier and Moreau-Hanot 1932",
        validity: "field charging alone: half of the saturation charge is there after τ",
        gives: Dimension::Time,
        evaluate: closed_forms::HALF_CHARGE_TIME,
    },
    Formula {
        name: "stokes_migration_velocity",
        title: "balance of force and drag",
        equation: "w = qE Cc/(3πμd)",
        source: "Stokes 1851, Cunningham 1910",
        validity: "Reynolds number well below 1: 2 % at 10 µm; charge by the law of the sheet in E = V/s",
        gives: Dimension::MigrationVelocity,
        evaluate: closed_forms::STOKES_VELOCITY,
    },
    Formula {
        name: "drag_migration_velocity",
        title: "balance of force and real drag",
        equation: "w (1 + 0.15 Re^0.687) = qE Cc/(3πμd), Re = ρ_g w d/μ",
        source: "Schiller and Naumann 1933, Cunningham 1910",
        validity: "Reynolds number below 1000; charge by the law of the sheet in E = V/s",
        gives: Dimension::MigrationVelocity,
        evaluate: closed_forms::DRAG_VELOCITY,
    },
    Formula {
        name: "force_over_weight",
        title: "force over weight",
        equation: "qE/(mg)",
        source: "balance with Stokes' drag both ways: drag and slip cancel",
        validity: "Reynolds number well below 1: 3 % at 10 µm",
        gives: Dimension::Number,
        evaluate: closed_forms::FORCE_OVER_WEIGHT,
    },
    Formula {
        name: "white_peek_onset",
        title: "White's form of Peek's law",
        equation: "V₀ = E₀ r ln(d_eff/r), E₀ = 3 MV/m · m (δ + 0.03 √(δ/r))",
        source: "Peek 1929, White 1963",
        validity: "round wires between plates, clean gas",
        gives: Dimension::Voltage,
        evaluate: closed_forms::PEEK_ONSET,
    },
    Formula {
        name: "added_up_onset",
        title: "field added up from wire to plate",
        equation: "V₀ = E₀ r ∫ E(y) dy of the row of wires, 1/r at the wire",
        source: "definition of voltage, with Peek's field at the wire",
        validity: "round wires between plates, clean gas",
        gives: Dimension::Voltage,
        evaluate: closed_forms::ADDED_ONSET,
    },
    Formula {
        name: "quadratic_current",
        title: "quadratic law",
        equation: "j = 2πε₀ b V(V−V₀)/(c s² ln(d_eff/r))",
        source: "Cooperman, in White 1963",
        validity: "a first guess: at a given voltage the computed current is up to a third higher",
        gives: Dimension::CurrentDensity,
        evaluate: closed_forms::QUADRATIC_CURRENT,
    },
    Formula {
        name: "glow_depth",
        title: "glow of the wire",
        equation: "r (E₀/E_g − 1), E_g = 3 MV/m · δ",
        source: "Peek 1929: field at the wire and field of ionisation, 1/r between them",
        validity: "near a thin wire; the eye sees less sharp an edge",
        gives: Dimension::PartSize,
        evaluate: closed_forms::GLOW_DEPTH,
    },
    formulas_of_ash::DUST_THAT_CAME,
    formulas_of_ash::ROW_ASH,
    formulas_of_ash::HOURS_TO_ALARM,
    formulas_of_ash::HOURS_TO_BRIM,
    formulas_of_ash::ASH_MONEY,
    formulas_of_ash::MIXED_ASH,
    formulas_of_rapping::GROWING_LAYER,
    formulas_of_rapping::PUFF_CONTRAST,
    formulas_of_rapping::RAPPED_PENETRATION,
    formulas_of_water::WATER_THAT_CAME,
    formulas_of_water::WET_BULB,
    formulas_of_water::FRESH_WATER,
    formulas_of_water::BLOWDOWN_SOLIDS,
    formulas_of_water::OHMIC_DROP,
    Formula {
        name: "bouguer_opacity",
        title: "Bouguer",
        equation: "O = 1 − e^(−k_e C₂ L_s), C₂ = C e^(−w A/Q)",
        source: "Bouguer 1729, Deutsch 1922; extinction after van de Hulst 1957",
        validity: "dust of one size, full mixing, no losses; stack of 5 m (teaching value)",
        gives: Dimension::Fraction,
        evaluate: Evaluate::Whole(bouguer_opacity),
    },
    rows_of_the_set::OHMIC_LAYER_FIELD,
    rows_of_the_set::OHMIC_FIRST_LAYER_DROP,
    rows_of_the_set::LAYER_BREAKDOWN_FIELD,
    rows_of_the_set::UNBENT_VOLTAGE,
    rows_of_the_set::LAYER_RESISTIVITY,
    rows_of_the_set::COLDEST_WORST_TEMPERATURE,
    rows_of_the_set::HOTTEST_WORST_TEMPERATURE,
    rows_of_the_set::SAWTOOTH_SPARK_RATE,
    rows_of_the_set::SAWTOOTH_MEAN_VOLTAGE,
    rows_of_the_set::CURRENT_LIMIT,
    rows_of_the_set::FIELD_POWER,
    rows_of_the_set::POWER_OF_METERS,
    rows_of_the_gas_path::FACE_VELOCITY,
    rows_of_the_gas_path::PLUG_FLOW_TIME,
    rows_of_the_gas_path::LEAK_BY_OXYGEN,
    rows_of_the_gas_path::MIXED_OXYGEN,
    rows_of_the_gas_path::ADDED_VOLUMES,
    rows_of_the_gas_path::ADDED_LOSSES,
    rows_of_the_gas_path::LEAST_PUBLISHED_LOSS,
    rows_of_the_gas_path::MOST_PUBLISHED_LOSS,
    rows_of_the_gas_path::PRESSURE_FROM_THE_STACK,
];

/// The row of a formula.
#[must_use]
pub fn find_formula(name: &str) -> Option<&'static Formula> {
    FORMULAS.iter().find(|formula| formula.name == name)
}
