//! The leaf on which a step's work is done on paper: a case at the desk, or the acts of the sequence board.

use ashlane_lessons::{
    diagnosis::{ACTIONS, CHECKS, Case, Check, Evidence, Finding, find_check},
    engine::{Lesson, Segment, Work},
    sequence::{Board, Exercise, Goal, KEYS_PRINCIPLE, PURGE_SHARE, Stage},
};
use ashlane_shared::{
    conditions::Conditions,
    units::{Dimension, UnitSystem, format},
};

use super::{
    Handout,
    html::{boxes, classed, lines, number, table, tag, words},
    room::{LEAF_MM, ROW_MM, TITLE_MM, rules_in},
    step::at,
};
use crate::charts::percent_text;

/// What stands wherever an order of acts is asked for or told.
pub(super) const NO_PROCEDURE: &str =
    "Order and limits are invented for this lesson; the site's own order replaces it.";
/// Height of a row that sentences are written into, mm.
const TALL_MM: f32 = 15.0;

/// The leaf of a step with work; nothing where it has none.
pub(super) fn leaf(handout: &Handout<'_>, index: usize) -> String {
    let lesson = handout.lesson;
    let Some(segment) = lesson.segments.get(index) else {
        return String::new();
    };
    let evidence = handout.evidence.get(index).and_then(Option::as_ref);
    let (place, inside) = match (&segment.work, evidence) {
        (Some(Work::Diagnosis(case)), Some(evidence)) => ("at the desk", desk(case, evidence)),
        (Some(Work::Sequence(exercise)), _) => ("at the sequence board", acts(exercise)),
        _ => return String::new(),
    };
    let at = format!("{} · {place}", at(lesson, index));
    let title = format!("{}. {}: {place}", index + 1, segment.title);
    let head = classed("p", "faint", &words(&at)) + &tag("h2", &words(&title));
    classed("section", "step work", &(head + &inside))
}

// A case --------------------------------------------------------------------------------------------------------------

fn desk(case: &Case, evidence: &Evidence) -> String {
    let open = |check: &&Check| case.first.contains(&check.key);
    let given: Vec<Vec<String>> = CHECKS
        .iter()
        .filter(open)
        .map(|check| {
            let findings = evidence.reveals(check);
            vec![
                words(&name(check, &findings)),
                shown(&findings, |finding| finding.shows),
                shown(&findings, |finding| finding.usual),
                "<span class=\"box\"></span>".to_owned(),
            ]
        })
        .collect();
    let further: Vec<Vec<String>> = CHECKS
        .iter()
        .filter(|check| !open(check))
        .map(|check| {
            vec![
                String::new(),
                words(check.name),
                words(check.reach.words()),
                String::new(),
                "<span class=\"box\"></span>".to_owned(),
            ]
        })
        .collect();
    let causes = case.offered();
    let causes = causes.iter().map(|cause| words(cause.fault.title));
    let actions = ACTIONS.iter().map(|action| words(action.name));
    tag("h3", "Open from the beginning")
        + &table(
            "given",
            &["reading", "shows", "usually", "evidence"],
            &given,
        )
        + &tag("h3", "Look further")
        + &tag(
            "p",
            "The trainer reads the machine for you. Ask for one check at a time, the safest and cheapest first; number them \
             in the order in which you ask, and write down what is up or down. Nobody is timed.",
        )
        + &table(
            "further",
            &[
                "no.",
                "check",
                "where, by whom",
                "what it shows",
                "evidence",
            ],
            &further,
        )
        + &tag(
            "h3",
            "Cause: which fits, with the readings marked as evidence",
        )
        + &boxes(causes, "options small")
        + &tag("h3", "First action")
        + &boxes(actions, "options two")
}

/// What a check reads, and of which fields.
fn name(check: &Check, findings: &[Finding]) -> String {
    let last = findings.last().and_then(|finding| finding.field);
    match last {
        Some(last) if last > 0 => format!("{}, fields 1 to {}", check.name, last + 1),
        _ => check.name.to_owned(),
    }
}

/// One number of every finding, the unit once; in both systems of units where they differ.
pub(super) fn shown(findings: &[Finding], value: impl Fn(&Finding) -> f64) -> String {
    let listed = |units| {
        let each = findings.iter().map(|finding| {
            let told = finding.told(value(finding));
            let text = match finding.dimension {
                Dimension::Fraction => percent_text(told),
                dimension => format(told, dimension, units),
            };
            let (amount, unit) = text.rsplit_once(' ').unwrap_or((&text, ""));
            (number(amount), unit.to_owned())
        });
        together(&each.collect::<Vec<_>>())
    };
    let (si, us) = (listed(UnitSystem::Si), listed(UnitSystem::Us));
    if si == us { si } else { format!("{si} ({us})") }
}

/// Amounts with their units, which are told once where they are the same.
fn together(numbers: &[(String, String)]) -> String {
    let Some(((first, unit), others)) = numbers.split_first() else {
        return String::new();
    };
    if others.iter().any(|(_, other)| other != unit) {
        let each = numbers
            .iter()
            .map(|(amount, unit)| format!("{amount}\u{a0}{unit}"));
        return each.collect::<Vec<_>>().join(" · ");
    }
    if !others.is_empty() && others.iter().all(|(amount, _)| amount == first) {
        return format!("each {first}\u{a0}{unit}");
    }
    let amounts: Vec<&str> = numbers.iter().map(|(amount, _)| amount.as_str()).collect();
    format!("{}\u{a0}{unit}", amounts.join(" · "))
}

/// The check of this key as people call it.
pub(super) fn check_name(key: &str) -> &str {
    find_check(key).map_or(key, |check| check.name)
}

// The sequence board --------------------------------------------------------------------------------------------------

/// How the board stands when the step begins; nothing where a step has none.
pub(super) fn at_start(segment: &Segment) -> String {
    let Some(Work::Sequence(exercise)) = &segment.work else {
        return String::new();
    };
    let Ok(board) = Board::new(exercise, &segment.start) else {
        return String::new();
    };
    tag("h3", "On the board at the beginning")
        + &table(
            "given board",
            &["reading", "shows", "the board waits for"],
            &readings(exercise, &board),
        )
}

/// Height of that, mm.
pub(super) fn at_start_mm(segment: &Segment) -> f32 {
    match &segment.work {
        // One of the lists of what is on and off takes two lines.
        Some(Work::Sequence(_)) => TITLE_MM + 8.0 * ROW_MM + 4.0,
        _ => 0.0,
    }
}

fn readings(exercise: &Exercise, board: &Board) -> Vec<Vec<String>> {
    let kelvin = |value| both(value, Dimension::Temperature);
    let (insulators_k, dew_k) = board.insulators_k();
    let (combustibles, set_point) = board.combustibles();
    let (changes, wanted) = board.volume_changes();
    let above_k = exercise.site.above_dew_k;
    let steady = if board.is_stable() { "stable" } else { "none" };
    let switches = board.switches();
    // A board begins with all of its fields on, or with none.
    let fields = format!("fields 1 to {}", board.fields().len());
    let fields_on = board.fields().iter().any(|on| *on);
    let parts = || {
        let parts = switches.iter().copied();
        parts.chain([(fields.as_str(), fields_on)])
    };
    let that_are = |wanted: bool| {
        let names: Vec<&str> = parts()
            .filter(|(_, on)| *on == wanted)
            .map(|(name, _)| name)
            .collect();
        if names.is_empty() {
            "nothing".to_owned()
        } else {
            names.join(", ")
        }
    };
    let row =
        |name: &str, shows: String, waits: String| vec![words(name), words(&shows), words(&waits)];
    vec![
        row("on", that_are(true), String::new()),
        row("off", that_are(false), String::new()),
        row(
            "insulators",
            kelvin(insulators_k),
            format!(
                "{above_k:.0} K ({:.0} °F) above the dew point of {}",
                1.8 * above_k,
                kelvin(dew_k)
            ),
        ),
        row(
            "combustibles",
            format!("{:.2} %", 100.0 * combustibles),
            format!("{:.2} % or less", 100.0 * set_point),
        ),
        row(
            "purge",
            format!("{changes:.0} volume changes"),
            format!("{wanted:.0} volume changes"),
        ),
        row(
            "fire",
            steady.to_owned(),
            format!(
                "{} of steady fire",
                both(exercise.site.stable_s, Dimension::Interval)
            ),
        ),
    ]
}

fn both(value: f64, dimension: Dimension) -> String {
    let text = |units| format(value, dimension, units);
    let (si, us) = (text(UnitSystem::Si), text(UnitSystem::Us));
    if si == us { si } else { format!("{si} ({us})") }
}

/// The acts without their order, with room for it and for the reasons.
fn acts(exercise: &Exercise) -> String {
    let mut stages: Vec<Stage> = exercise.site.order.clone();
    stages.sort_by_key(|stage| stage.words());
    let rows: Vec<Vec<String>> = stages
        .iter()
        .map(|stage| {
            let mut row = vec![String::new(), words(stage.words())];
            row.resize(4, String::new());
            row
        })
        .collect();
    let goal = format!("Goal: {}. {NO_PROCEDURE}", exercise.goal.words());
    let mut text = tag("p", &words(&goal))
        + &tag(
            "p",
            "The acts stand here by the alphabet. Write 1 beside the first that you would take, 2 beside the second, and so \
             on; beside each, what it waits for, and what follows if it does not wait.",
        )
        + &table(
            "acts",
            &["no.", "act", "waits for", "if it does not wait"],
            &rows,
        )
        + &tag("h3", "Explain: what the board shows, in my own words");
    let keys = exercise.goal == Goal::HandedOver;
    let used_mm = 6.0 + 10.5 + 27.0 + ROW_MM + TALL_MM * rows.len() as f32 + TITLE_MM;
    let keys_mm = if keys { 20.0 } else { 0.0 };
    text.push_str(&lines(rules_in(LEAF_MM[1] - used_mm - keys_mm)));
    if keys {
        text.push_str(&classed("p", "faint", &words(KEYS_PRINCIPLE)));
    }
    text
}

/// The example of a lesson at the board: how a purge is counted. Nothing where a lesson has none.
pub(super) fn example(lesson: &Lesson) -> String {
    let mut boards = lesson
        .segments
        .iter()
        .filter_map(|segment| match &segment.work {
            Some(Work::Sequence(exercise)) => Some(purge_example(&segment.start, exercise)),
            _ => None,
        });
    boards.next().unwrap_or_default()
}

fn purge_example(conditions: &Conditions, exercise: &Exercise) -> String {
    let purge = exercise.usual_purge(conditions);
    let row = |sign: &str, name: &str, value: f64, dimension| {
        let text = |units| words(&format(value, dimension, units));
        let (si, us) = (text(UnitSystem::Si), text(UnitSystem::Us));
        let us = if us == si { "the same".to_owned() } else { us };
        vec![format!("<b>{sign}</b>"), words(name), si, us]
    };
    let share = format!(
        "flow of the purge, {:.0} % of that in service",
        100.0 * PURGE_SHARE
    );
    let rows = [
        row(
            "V",
            "volume in which the gas is exchanged",
            purge.volume_m3,
            Dimension::Volume,
        ),
        row("Q", &share, purge.flow_m3_s, Dimension::Flow),
        row(
            "n",
            "volume changes that the board waits for",
            purge.changes,
            Dimension::Number,
        ),
    ];
    tag("h2", "A worked example")
        + &tag(
            "p",
            "A purge at the flow that the fan usually gives, once it has run up",
        )
        + &classed(
            "p",
            "equation",
            "volume changes of a purge: n = ∫Q dt / V, so t = n V / Q",
        )
        + &table(
            "signs",
            &["sign", "what it is", ">SI", ">US customary"],
            &rows,
        )
        + &classed(
            "p",
            "result",
            &format!(
                "Result: <b>{}</b>, and the minute in which the fan runs up.",
                words(&format(purge.time_s, Dimension::Time, UnitSystem::Si))
            ),
        )
        + &classed(
            "p",
            "faint",
            &words(&format!(
                "{PURGE_SOURCE} The number of changes is invented for this lesson."
            )),
        )
}

/// Where the formula of the purge holds and comes from.
pub(super) const PURGE_SOURCE: &str = "Holds for gas that is exchanged as a whole, not for corners that no gas sweeps. Source: continuity.";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_unit_is_told_once_and_the_same_number_too() {
        let listed = |numbers: &[(&str, &str)]| {
            let owned = numbers
                .iter()
                .map(|(amount, unit)| ((*amount).to_owned(), (*unit).to_owned()));
            together(&owned.collect::<Vec<_>>()).replace('\u{a0}', " ")
        };
        assert_eq!(listed(&[("42", "kV"), ("20.5", "kV")]), "42 · 20.5 kV");
        assert_eq!(listed(&[("950", "mA"), ("1.2", "A")]), "950 mA · 1.2 A");
        assert_eq!(listed(&[("0", "1/min"), ("0", "1/min")]), "each 0 1/min");
        assert_eq!(listed(&[("7.8", "%")]), "7.8 %");
    }
}
