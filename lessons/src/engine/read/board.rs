//! Reads an exercise at the sequence board: start, goal, and the order and limits of a site, which have no default.

use ashlane_shared::{
    conditions::sheet::{Report, Trouble},
    units::Dimension,
};

use super::section::{Section, unknown};
use crate::sequence::{Exercise, Goal, PURGE_SHARE, SiteSettings, Stage, Start};

const KEYS: [&str; 9] = [
    "start",
    "goal",
    "order",
    "source",
    "combustibles",
    "volume_changes",
    "stable",
    "above_dew",
    "purge_flow",
];

pub(super) fn board(section: &Section<'_>, report: &mut Report<'_>) -> Option<Exercise> {
    let section = section.section(report, "board", "start, goal, and the settings of a site")?;
    section.only(report, &KEYS);
    let start = section.word(report, "start", &Start::ALL);
    let goal = section.word(report, "goal", &Goal::ALL);
    let order = order(&section, report);
    let source = source(&section, report);
    let combustibles = number(
        &section,
        ("combustibles", "a share of volume such as \"0.1 %\""),
        (&[Dimension::Fraction], (1e-6, 0.1)),
        report,
    );
    let volume_changes = number(
        &section,
        ("volume_changes", "a number such as 5"),
        (&[Dimension::Number], (1.0, 100.0)),
        report,
    );
    let stable_s = number(
        &section,
        ("stable", "a time such as \"900 s\""),
        (&[Dimension::Time, Dimension::Interval], (1.0, 86_400.0)),
        report,
    );
    let above_dew_k = number(
        &section,
        (
            "above_dew",
            "kelvins above the dew point, a number such as 20",
        ),
        (&[Dimension::Number], (0.0, 60.0)),
        report,
    );
    let purge_share = if section.has("purge_flow") {
        number(
            &section,
            ("purge_flow", "a share of the usual flow such as \"30 %\""),
            (&[Dimension::Fraction], (0.05, 1.0)),
            report,
        )
    } else {
        Some(PURGE_SHARE)
    };
    Some(Exercise {
        purge_share: purge_share?,
        start: start?,
        goal: goal?,
        site: SiteSettings {
            source: source?,
            order: order?,
            combustibles: combustibles?,
            volume_changes: volume_changes?,
            stable_s: stable_s?,
            above_dew_k: above_dew_k?,
        },
    })
}

fn order(section: &Section<'_>, report: &mut Report<'_>) -> Option<Vec<Stage>> {
    let advice = "the site's own order, such as [\"heaters\", \"purge\", \"fire\", \"energize\"]";
    let listed = section.strings(report, "order", advice)?;
    let mut order = Vec::with_capacity(listed.len());
    for (name, place) in listed {
        let found = Stage::ALL.iter().find(|(known, _)| *known == name);
        let trouble = match found {
            Some((_, stage)) if order.contains(stage) => format!("\"{name}\" stands twice"),
            Some((_, stage)) => {
                order.push(*stage);
                continue;
            }
            None => unknown("stage", name, &Stage::ALL.map(|(known, _)| known)),
        };
        report.value(section.path_of("order"), place, Trouble::Clash(trouble));
    }
    if order.is_empty() {
        section.wrong(report, "order", format!("write {advice}"));
        return None;
    }
    Some(order)
}

/// Whose order and limits these are.
fn source(section: &Section<'_>, report: &mut Report<'_>) -> Option<String> {
    let source = section.line(report, "source")?;
    let low = source.to_lowercase();
    if low.contains("invented") || low.contains("site") {
        return Some(source);
    }
    let message = "say whose order and limits these are: those of a site, or invented".to_owned();
    section.wrong(report, "source", message);
    None
}

fn number(
    section: &Section<'_>,
    (name, advice): (&str, &str),
    (dimensions, (low, high)): (&[Dimension], (f64, f64)),
    report: &mut Report<'_>,
) -> Option<f64> {
    let (value, dimension) = section.measure(report, name)?;
    if dimensions.contains(&dimension) && (low..=high).contains(&value) {
        return Some(value);
    }
    section.wrong(
        report,
        name,
        format!("write {advice} ({low} to {high}, SI)"),
    );
    None
}
