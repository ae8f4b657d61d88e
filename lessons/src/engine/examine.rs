//! Computes whether the checks of a lesson make sense, before anybody counts: the solver stands in for the count.
//!
//! A check that holds already before the change teaches nothing, and too few parcels cannot tell what it claims.

use ashlane_shared::{
    checks::{Verdict, find_formula},
    conditions::sheet::{SheetErrors, SheetProblem, Trouble},
    count::Counted,
    physics::PhysicsError,
};

use super::{
    Check, Lesson, Measured, Moment, Relation, Segment,
    measure::{
        Expected, Formulas, Instrument, PlantRuns, Read, RunOrder, judge, judge_reading, read_runs,
    },
};

/// Parcels with which the rates of a plant are counted here: enough to see what a check is about.
const FEW: usize = 20_000;
/// 3 σ may be at most so many times the stated tolerance.
const MOST_NOISE: f64 = 2.0;

/// Examines a lesson that was read; `name` stands for it in messages.
///
/// # Errors
/// Lists every check that does not make sense, with its line and what to do.
pub fn examine(name: &str, lesson: &Lesson) -> Result<(), SheetErrors> {
    let mut problems = Vec::new();
    for (index, segment) in lesson.segments.iter().enumerate() {
        let path = format!("segment {}", index + 1);
        if let Err(error) = examine_segment(&path, (segment, lesson.seed), &mut problems) {
            let message = format!("this segment cannot be computed: {error}");
            problems.push(problem(None, path, message));
        }
    }
    if problems.is_empty() {
        Ok(())
    } else {
        Err(SheetErrors {
            file: name.to_owned(),
            problems,
            left_out: 0,
        })
    }
}

fn problem(line: Option<usize>, key: String, message: String) -> SheetProblem {
    SheetProblem {
        line,
        key,
        value: String::new(),
        trouble: Trouble::Clash(message),
    }
}

fn examine_segment(
    path: &str,
    (segment, seed): (&Segment, u64),
    problems: &mut Vec<SheetProblem>,
) -> Result<(), PhysicsError> {
    // Work proves itself through its own model when it is played.
    if segment.checks.is_empty() {
        return Ok(());
    }
    let mut formulas = Formulas::new(&segment.start, &segment.target);
    let Some(solver) = find_formula("finite_mixing_penetration") else {
        return Ok(());
    };
    let before = formulas.value(solver, Moment::Before, None)?;
    let after = formulas.value(solver, Moment::After, None)?;
    // A contrast to a formula may hold before; it stands beside a check that does not.
    let told = |check: &Check| {
        matches!(check.relation, Relation::Equals | Relation::Between) || segment.checks.len() == 1
    };
    let mut runs = PlantRuns::new(RunOrder {
        before: &segment.start,
        after: &segment.target,
        parcels: FEW,
        seed,
    });
    for (index, check) in segment.checks.iter().enumerate() {
        let path = format!("{path}.check {}", index + 1);
        let instrument = check.quantity.row().instrument;
        let whole = matches!(instrument, Instrument::WholeCount);
        // A size that the dust has not is told at its own line.
        let read = readings(whole, segment, check, &mut runs)
            .and_then(|read| Ok((read, formulas.expected(check)?)));
        let ((start, end), expected) = match read {
            Ok(found) => found,
            Err(error) => {
                problems.push(problem(check.line, path, error.to_string()));
                continue;
            }
        };
        let unchanged = if whole {
            judge(check, &expected, &exactly(before), &exactly(before))
        } else {
            judge_reading(check, &expected, without_chance(start))
        };
        if told(check) && unchanged.verdict == Verdict::Agree {
            let message = "this check holds already before the change, so that it shows nothing; change more, or check something else";
            problems.push(problem(check.line, path.clone(), message.to_owned()));
        }
        let enough = if whole {
            more_parcels(check, &expected, (before, after))
        } else {
            more_for(check, stated_of(&expected), end.standard_error)
        };
        if let Some(parcels) = enough {
            let message = format!(
                "too few parcels: 3 σ is more than {MOST_NOISE} times the tolerance; count at least {parcels}"
            );
            problems.push(problem(check.line, format!("{path}.parcels"), message));
        }
    }
    Ok(())
}

/// What is read at the start and at the target; a whole count has its own road and is not read here.
fn readings(
    whole: bool,
    segment: &Segment,
    check: &Check,
    runs: &mut PlantRuns<'_>,
) -> Result<(Counted, Counted), PhysicsError> {
    if whole {
        Ok((zero(), zero()))
    } else {
        expected_readings(segment, check, runs)
    }
}

/// What the instrument of a check would read at the start and at the target.
fn expected_readings(
    segment: &Segment,
    check: &Check,
    runs: &mut PlantRuns<'_>,
) -> Result<(Counted, Counted), PhysicsError> {
    let instrument = check.quantity.row().instrument;
    if instrument.runs() {
        let [start, mut end] = read_runs(check, runs)?;
        end.standard_error *= (FEW as f64 / check.parcels as f64).sqrt();
        return Ok((start, end));
    }
    let read = |conditions| instrument.expected(conditions, check.size_m, check.parcels);
    Ok((read(&segment.start)?, read(&segment.target)?))
}

/// Nothing, for what its own road tells.
fn zero() -> Counted {
    Counted {
        share: 0.0,
        standard_error: 0.0,
    }
}

/// What an instrument would read but for chance.
fn without_chance(read: Counted) -> Read {
    Read {
        before: None,
        measured: Counted {
            standard_error: 0.0,
            ..read
        },
        parcels: 0,
    }
}

/// A penetration without chance.
fn exactly(share: f64) -> Measured {
    Measured {
        penetration: Counted {
            share,
            standard_error: 0.0,
        },
        parcels: 0,
        seed: 0,
    }
}

/// Parcels that would do, where there are too few.
fn more_parcels(check: &Check, expected: &Expected, (before, after): (f64, f64)) -> Option<u64> {
    let parcels = check.parcels as f64;
    let counted = |share: f64| Counted {
        share,
        standard_error: (share * (1.0 - share) / parcels).sqrt(),
    };
    let noise = check
        .quantity
        .measured(counted(before), counted(after), expected.inlet_ratio);
    more_for(check, stated_of(expected), noise.standard_error)
}

/// The larger of the stated tolerances.
fn stated_of(expected: &Expected) -> f64 {
    let upper = expected.upper.as_ref().map_or(0.0, |upper| upper.stated);
    expected.lower.stated.max(upper)
}

/// Parcels that would do for a smaller error than this one.
fn more_for(check: &Check, stated: f64, standard_error: f64) -> Option<u64> {
    let excess = 3.0 * standard_error / (MOST_NOISE * stated);
    // σ falls as 1/√N; rounded up to a number people would write.
    (excess > 1.0 && excess.is_finite()).then(|| {
        let needed = check.parcels as f64 * excess * excess;
        let step = 10f64.powf(needed.log10().floor() - 1.0);
        ((needed / step).ceil() * step) as u64
    })
}
