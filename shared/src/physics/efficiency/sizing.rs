//! How large a collector must be for a wanted efficiency: the full procedure of the EPA's cost manual.
//!
//! `μ = 1.72e-5(T/273)^0.71`, `E_bd = 6.3e5(273/T)^0.8`, `E_avg = E_bd/1.75`, smallest n with `LF^n < p`,
//! `p_s = p^(1/n)`, `p_c = (p_s−LF)/(1−LF)`, `SCA_k = −(μ/ε₀)(1−S_N) ln p_c/(E_avg² MMD_k)`,
//! `MMD_{k+1} = {MMD_k S_N + [(1−p_c)MMD_p + p_c MMD_k]p_c}/p_s + RR(1−S_N)(1−p_c)MMD_r/p_s`

use super::losses;
use crate::physics::PhysicsError;
use crate::physics::constants::VACUUM_PERMITTIVITY_F_M;
use crate::physics::error::{positive, require};

// All constants: US EPA Air Pollution Control Cost Manual (EPA/452/B-02-001), Sec. 6 Ch. 3, from memory of it.
/// Base temperature of the manual's power laws, K.
const BASE_TEMPERATURE_K: f64 = 273.0;
/// Viscosity of the gas at the base temperature, Pa·s.
const BASE_VISCOSITY_PA_S: f64 = 1.72e-5;
/// How viscosity grows with temperature.
const VISCOSITY_POWER: f64 = 0.71;
/// Sparking field at the base temperature, V/m.
const BASE_SPARK_FIELD_V_M: f64 = 6.3e5;
/// How the sparking field falls with temperature.
const SPARK_POWER: f64 = 0.8;
/// Sparking field over mean field, without back corona.
const SPARK_OVER_MEAN: f64 = 1.75;
/// Most penetrating size, m.
const PENETRATING_DIAMETER_M: f64 = 2e-6;
/// Inlet median above which rapped dust is coarse, m.
const COARSE_INLET_M: f64 = 5e-6;
/// Median of rapped dust behind a coarse inlet, m.
const COARSE_PUFF_M: f64 = 5e-6;
/// Median of rapped dust behind a fine inlet, m.
const FINE_PUFF_M: f64 = 3e-6;
/// More sections than any collector has.
const MOST_SECTIONS: i32 = 20;

/// What is asked of the collector.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SizingTask {
    /// Wanted efficiency η, above 0 and below 1.
    pub efficiency: f64,
    /// Mass median diameter at the inlet, m, above 0.
    pub inlet_median_m: f64,
    /// Gas temperature, K, 250 to 800.
    pub temperature_k: f64,
    /// Share `S_N` of the gas that bypasses each section, 0 to below 1.
    pub sneakage: f64,
    /// Share RR of the caught dust that rapping throws back, 0 to below 1.
    pub reentrained: f64,
}

/// One section of the answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SectionSize {
    /// Mass median diameter that enters it, m.
    pub inlet_median_m: f64,
    /// Specific collection area it needs, s/m.
    pub specific_collection_area_s_m: f64,
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Sizing {
    /// Mean field `E_avg`, V/m.
    pub mean_field_v_m: f64,
    /// Loss factor LF of each section.
    pub loss_factor: f64,
    /// Penetration `p_s` of each section.
    pub section_penetration: f64,
    /// Penetration `p_c` between the plates of each section.
    pub charged_penetration: f64,
    /// The sections along the gas.
    pub sections: Vec<SectionSize>,
    /// Specific collection area of the whole, s/m.
    pub specific_collection_area_s_m: f64,
    /// Migration velocity −ln p/SCA that a one-line design would have used, m/s.
    pub design_velocity_m_s: f64,
}

/// Sizes a collector.
///
/// Equations: the file's first lines.
///
/// # Arguments
/// * `task` – what is asked.
///
/// # Source
/// US EPA *Air Pollution Control Cost Manual* (EPA/452/B-02-001), Sec. 6 Ch. 3, Turner et al., from memory of it.
///
/// # Validity
/// Plate-wire collectors without back corona.
///
/// # Errors
/// A number outside its range, or losses so high that 20 sections do not reach the efficiency.
///
/// ```
/// use ashlane_shared::physics::efficiency::sizing::{SizingTask, size};
/// let answer = size(&SizingTask {
///     efficiency: 0.99,
///     inlet_median_m: 16e-6,
///     temperature_k: 422.0,
///     sneakage: 0.07,
///     reentrained: 0.124,
/// })?;
/// assert!((answer.design_velocity_m_s - 0.101).abs() < 0.001);
/// # Ok::<(), ashlane_shared::physics::PhysicsError>(())
/// ```
pub fn size(task: &SizingTask) -> Result<Sizing, PhysicsError> {
    let efficiency = task.efficiency;
    require(
        efficiency > 0.0 && efficiency < 1.0,
        "efficiency",
        efficiency,
        "between 0 and 1",
    )?;
    positive("inlet_median_m", task.inlet_median_m)?;
    let temperature_k = task.temperature_k;
    require(
        (250.0..=800.0).contains(&temperature_k),
        "temperature_k",
        temperature_k,
        "250 to 800",
    )?;
    let loss_factor = losses::loss_factor(task.sneakage, task.reentrained)?;
    let penetration = 1.0 - efficiency;
    let count = section_count(loss_factor, penetration)?;
    let section_penetration = penetration.powf(1.0 / f64::from(count));
    let charged_penetration = (section_penetration - loss_factor) / (1.0 - loss_factor);
    let mean_field_v_m = mean_field_v_m(temperature_k);
    let walk = Walk {
        task,
        section_penetration,
        charged_penetration,
        area_times_median: area_times_median(task, charged_penetration, mean_field_v_m),
    };
    let sections = walk.sections(count);
    let specific_collection_area_s_m = sections
        .iter()
        .map(|section| section.specific_collection_area_s_m)
        .sum();
    Ok(Sizing {
        mean_field_v_m,
        loss_factor,
        section_penetration,
        charged_penetration,
        sections,
        specific_collection_area_s_m,
        design_velocity_m_s: -penetration.ln() / specific_collection_area_s_m,
    })
}

/// Smallest n with `LF^n < p`.
fn section_count(loss_factor: f64, penetration: f64) -> Result<i32, PhysicsError> {
    (1..=MOST_SECTIONS)
        .find(|count| losses::floor(loss_factor, *count) < penetration)
        .ok_or_else(|| PhysicsError::Impossible {
            reason: format!(
                "each section loses {:.1} % by bypass and rapping, so {MOST_SECTIONS} sections in series still let \
                 more than {penetration:.2e} escape",
                100.0 * loss_factor
            ),
        })
}

/// `E_avg = 6.3e5(273/T)^0.8/1.75`, V/m.
fn mean_field_v_m(temperature_k: f64) -> f64 {
    BASE_SPARK_FIELD_V_M * (BASE_TEMPERATURE_K / temperature_k).powf(SPARK_POWER) / SPARK_OVER_MEAN
}

/// `−(μ/ε₀)(1−S_N) ln p_c/E_avg²`: SCA of a section times its median diameter, s.
fn area_times_median(task: &SizingTask, charged_penetration: f64, mean_field_v_m: f64) -> f64 {
    let viscosity_pa_s =
        BASE_VISCOSITY_PA_S * (task.temperature_k / BASE_TEMPERATURE_K).powf(VISCOSITY_POWER);
    -viscosity_pa_s / VACUUM_PERMITTIVITY_F_M * (1.0 - task.sneakage) * charged_penetration.ln()
        / (mean_field_v_m * mean_field_v_m)
}

/// The walk from section to section.
struct Walk<'a> {
    task: &'a SizingTask,
    section_penetration: f64,
    charged_penetration: f64,
    area_times_median: f64,
}

impl Walk<'_> {
    fn sections(&self, count: i32) -> Vec<SectionSize> {
        let mut median_m = self.task.inlet_median_m;
        (0..count)
            .map(|_| {
                let section = SectionSize {
                    inlet_median_m: median_m,
                    specific_collection_area_s_m: self.area_times_median / median_m,
                };
                median_m = self.next_median_m(median_m);
                section
            })
            .collect()
    }

    /// Median behind a section: bypassed, penetrating and rapped dust mixed by mass.
    fn next_median_m(&self, median_m: f64) -> f64 {
        let (sneakage, through) = (self.task.sneakage, self.charged_penetration);
        let puff_m = if self.task.inlet_median_m > COARSE_INLET_M {
            COARSE_PUFF_M
        } else {
            FINE_PUFF_M
        };
        let penetrating_m = (1.0 - through) * PENETRATING_DIAMETER_M + through * median_m;
        let rapped = self.task.reentrained * (1.0 - sneakage) * (1.0 - through);
        (median_m * sneakage + penetrating_m * through + rapped * puff_m) / self.section_penetration
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TASK: SizingTask = SizingTask {
        efficiency: 0.99,
        inlet_median_m: 16e-6,
        temperature_k: 422.0,
        sneakage: 0.07,
        reentrained: 0.124,
    };

    #[test]
    fn the_sections_together_give_the_wanted_efficiency() {
        for efficiency in [0.9, 0.99, 0.999, 0.9999] {
            let answer = size(&SizingTask { efficiency, ..TASK }).expect("a possible task");
            let section =
                losses::section_penetration(answer.loss_factor, answer.charged_penetration);
            let total = section.powi(answer.sections.len() as i32);
            assert!(
                (total / (1.0 - efficiency) - 1.0).abs() < 1e-9,
                "{total} at {efficiency}"
            );
        }
    }

    #[test]
    fn dust_grows_finer_and_sections_larger_along_the_gas() {
        let answer = size(&SizingTask {
            efficiency: 0.999,
            ..TASK
        })
        .expect("a possible task");
        assert!(answer.sections.len() > 2, "{answer:?}");
        assert!(
            answer
                .sections
                .windows(2)
                .all(|pair| pair[1].inlet_median_m < pair[0].inlet_median_m),
            "{answer:?}"
        );
        let areas = |index: usize| answer.sections[index].specific_collection_area_s_m;
        assert!(areas(1) > areas(0), "{answer:?}");
    }

    #[test]
    fn fine_dust_stays_as_the_manual_walks_it() {
        // Computed with Python from the manual's equations: 4 µm, 99 %, so three sections; rapped dust of 3 µm.
        let task = SizingTask {
            inlet_median_m: 4e-6,
            ..TASK
        };
        let answer = size(&task).expect("a possible task");
        let medians_um: Vec<f64> = answer
            .sections
            .iter()
            .map(|section| 1e6 * section.inlet_median_m)
            .collect();
        for (got, expected) in medians_um.iter().zip([4.0, 3.202_018_277, 2.937_681_043]) {
            assert!((got / expected - 1.0).abs() < 1e-9, "{medians_um:?}");
        }
        assert!(medians_um.len() == 3, "{medians_um:?}");
    }

    #[test]
    fn impossible_tasks_say_why() {
        assert!(
            size(&SizingTask {
                efficiency: 1.0,
                ..TASK
            })
            .is_err(),
            "nothing escapes"
        );
        assert!(
            size(&SizingTask {
                efficiency: f64::NAN,
                ..TASK
            })
            .is_err(),
            "no number"
        );
        assert!(
            size(&SizingTask {
                temperature_k: 20.0,
                ..TASK
            })
            .is_err(),
            "frozen gas"
        );
        let leaky = size(&SizingTask {
            sneakage: 0.9,
            efficiency: 0.999,
            ..TASK
        })
        .unwrap_err();
        assert!(leaky.to_string().contains("bypass and rapping"), "{leaky}");
    }
}
