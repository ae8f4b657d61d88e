//! The ash in every row of hoppers over time, with the level of the alarm and the hours until it sounds.

use ashlane_shared::{
    checks::{TwoWays, hours_to_alarm, time_of_alarm},
    count::CountResult,
    plant::{ALARM_LEVEL, FieldReading},
    units::number_text,
};

use super::{
    HOUR_S, PlantView,
    time::{Trends, height},
};
use crate::{
    charts::linear::SideLabel,
    checks::CheckLine,
    drawing::{Anchor, Drawing, fitting},
    theme::{Ink, SMALL},
};

/// Height of the plot.
const PLOT: f32 = 140.0;
/// Ash falls in sheets, the calculation by hand has it fall all the time.
const SHEETS: f64 = 0.05;
/// The hours are told up to this many.
const MOST_HOURS: f64 = 999.0;

/// Draws the chart in this width.
#[must_use]
pub fn hoppers_drawing(view: &PlantView<'_>, width: f32) -> Drawing {
    let mut drawing = Drawing::new([width, height(view, 0, &[PLOT])]);
    let Some(mut trends) = Trends::new(&mut drawing, view, "Ash in the hoppers") else {
        return drawing;
    };
    let words = [
        "level, % of the height; time to the alarm".to_owned(),
        "level, %; time to the alarm".to_owned(),
    ];
    let name = fitting(&words, width - 4.0);
    let plot = trends.plot(&mut drawing, name, (PLOT, (0.0, 105.0)));
    plot.upward(&mut drawing);
    let y = plot.at_y(100.0 * ALARM_LEVEL);
    drawing.dashed([[plot.min[0], y], [plot.max[0], y]], Ink::Trouble, 1.8);
    view.lines(&mut drawing, &plot, level);
    trends.mark_change(&mut drawing, &plot);
    trends.axis(&mut drawing, &plot);
    let at = [plot.min[0] + 6.0, y + 11.0];
    drawing.label(at, Anchor::Left, "level alarm", SMALL, Ink::Text);
    plot.beside(&mut drawing, labels(view));
    drawing
}

fn level(field: &FieldReading) -> f64 {
    100.0 * field.hopper_level
}

/// Words beside the lines.
pub(super) fn labels(view: &PlantView<'_>) -> Vec<SideLabel> {
    view.labels(level, |name, field| format!("{name}: {}", until(field)))
}

/// Time to the alarm in words.
fn until(field: &FieldReading) -> String {
    let hours = field.hopper_alarm_s / HOUR_S;
    if field.hopper_alarm {
        "ALARM".to_owned()
    } else if hours > MOST_HOURS {
        format!("> {MOST_HOURS:.0} h")
    } else {
        format!("{} h", number_text(hours, 2))
    }
}

/// The agreement lines of the row whose alarm is nearest: hours to it, and when the level crossed it, by hand.
#[must_use]
pub fn hoppers_checks(view: &PlantView<'_>, count: Option<&CountResult>) -> Vec<CheckLine> {
    let (readings, Some(count)) = (view.steady(), count) else {
        return Vec::new();
    };
    let Some(last) = readings.last() else {
        return Vec::new();
    };
    let rows = last.fields.iter().zip(&count.by_field).enumerate();
    let nearest = rows
        .filter(|(_, (field, _))| !field.hopper_alarm)
        .min_by(|one, other| one.1.0.hopper_alarm_s.total_cmp(&other.1.0.hopper_alarm_s));
    let mut lines = Vec::new();
    if let Some((row, (_, counted))) = nearest {
        let both = hours_to_alarm(view.conditions, view.rates, last, row, counted.collected);
        lines.extend(both.map(|both| {
            let name =
                "hours to the level alarm: reading against volume, density and counted catch";
            line(name, row, both, counted.collected, count)
        }));
    }
    let crossed = count
        .by_field
        .iter()
        .enumerate()
        .find_map(|(row, counted)| {
            let both = time_of_alarm(
                view.conditions,
                view.rates,
                readings,
                row,
                counted.collected,
            )?;
            Some((row, both, counted.collected))
        });
    lines.extend(crossed.map(|(row, both, caught)| {
        let name = "time from empty to the alarm: trend against the calculation by hand";
        line(name, row, both, caught, count)
    }));
    lines
}

fn line(
    name: &'static str,
    row: usize,
    both: TwoWays,
    caught: f64,
    count: &CountResult,
) -> CheckLine {
    let hours = |time_s: f64| number_text(time_s / HOUR_S, 3);
    let parcels = (count.parcels as f64 * caught).max(1.0);
    CheckLine::of_ratio(
        name,
        format!(
            "row {}: {} h and {} h by hand",
            row + 1,
            hours(both.shown),
            hours(both.expected)
        ),
        both.ratio(),
        SHEETS.max(ashlane_shared::checks::SIGMAS / parcels.sqrt()),
    )
}
