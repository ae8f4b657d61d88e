//! The readings of the set as a table: what its meters show, and what they do not.

use ashlane_shared::units::{Dimension, number_text};

use super::{EnergizationView, reading::is_dark};
use crate::{
    drawing::{Anchor, Drawing, Point, fitting},
    theme::{Ink, SMALL},
};

/// Height of a row.
pub(super) const ROW: f32 = 17.0;

/// One row: its name, and its value in words from long to short.
struct Row {
    name: &'static str,
    values: Vec<String>,
}

fn row(name: &'static str, value: impl Into<String>) -> Row {
    Row {
        name,
        values: vec![value.into()],
    }
}

/// How many rows there are at most.
pub(super) fn rows_count(view: &EnergizationView<'_>) -> usize {
    rows(view).len()
}

/// Draws as many rows as fit between these corners.
pub(super) fn table(drawing: &mut Drawing, view: &EnergizationView<'_>, [min, max]: [Point; 2]) {
    let fit = ((max[1] - min[1]) / ROW).floor() as usize;
    for (index, row) in rows(view).into_iter().take(fit).enumerate() {
        let y = min[1] + (index as f32 + 0.5) * ROW;
        let named = crate::drawing::text_width(row.name, SMALL, false);
        drawing.text([min[0], y], Anchor::Left, row.name, SMALL, Ink::Faint);
        let value = fitting(&row.values, max[0] - min[0] - named - 8.0);
        drawing.text([max[0], y], Anchor::Right, value, SMALL, Ink::Text);
    }
}

/// All rows, the most important first.
fn rows(view: &EnergizationView<'_>) -> Vec<Row> {
    let set = view.energization;
    let volts = |voltage_v| view.text(voltage_v, Dimension::Voltage);
    let amperes = |current_a| view.text(current_a, Dimension::Current);
    let sparks = match set.state.sparks_per_min {
        0.0 => "none aimed for".to_owned(),
        wanted => format!("{} /min aimed for", number_text(wanted, 3)),
    };
    let mut rows = vec![row("mean voltage", volts(set.state.voltage_v))];
    let Some(cycle) = &set.waveform else {
        rows.push(row("set", "off"));
        return rows;
    };
    if is_dark(set, cycle.mean_current_a) {
        rows.push(row("mean current", "none: no corona"));
        rows.push(Row {
            name: "rated",
            values: rating(view),
        });
        return rows;
    }
    let watts = |power_w| view.text(power_w, Dimension::Power);
    rows.extend([
        row("peak voltage", volts(set.state.peak_voltage_v)),
        row("mean current", amperes(view.mean_current_a())),
        row("ripple", percent(cycle.ripple())),
        row("true power", watts(cycle.secondary_power_w)),
        Row {
            name: "mean kV × mA",
            values: products(view, cycle.product_of_means_w(), cycle.secondary_power_w),
        },
        row(
            "firing angle",
            format!("{:.0}°", cycle.firing_angle_rad.to_degrees()),
        ),
        Row {
            name: "sparks",
            values: vec![
                sparks,
                format!("{} /min", number_text(set.state.sparks_per_min, 3)),
            ],
        },
        row(
            "primary voltage",
            format!("{} V RMS", number_text(cycle.primary_rms_voltage_v, 3)),
        ),
        row(
            "primary current",
            format!("{} A RMS", number_text(cycle.primary_rms_current_a, 3)),
        ),
        row("primary power", watts(cycle.primary_power_w)),
        row(
            "capacitance",
            format!("{} nF", number_text(1e9 * set.load.capacitance_f(), 3)),
        ),
        Row {
            name: "rated",
            values: rating(view),
        },
    ]);
    rows
}

fn rating(view: &EnergizationView<'_>) -> Vec<String> {
    let set = view.energization;
    let volts = view.text(set.rated_mean_v, Dimension::Voltage);
    let amperes = view.text(set.rated_mean_a, Dimension::Current);
    vec![
        format!("{volts} and {amperes} mean, invented"),
        format!("{volts}, {amperes} mean"),
    ]
}

fn percent(share: f64) -> String {
    format!("{} %", number_text(100.0 * share, 3))
}

/// The product of the two meters, and how far it is below the true power.
fn products(view: &EnergizationView<'_>, product_w: f64, true_w: f64) -> Vec<String> {
    let product = view.text(product_w, Dimension::Power);
    if true_w <= 0.0 {
        return vec![product];
    }
    let less = percent(1.0 - product_w / true_w);
    vec![
        format!("{product}, {less} less"),
        format!("{product}, −{less}"),
    ]
}
