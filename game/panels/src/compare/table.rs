//! The table of A | B: every condition that differs, and the readings with their difference and its uncertainty.

use ashlane_lessons::engine::value_text;
use ashlane_shared::{
    checks::{Agreement, Verdict},
    conditions::{Conditions, Value},
    units::{Dimension, UnitSystem, display, format, number_text},
};
use egui::{Grid, RichText, Ui};

use super::Side;
use crate::{
    board::amperes,
    change::differing,
    charts::{percent_of_caught, percent_text, plain_number_or_zero},
    controls::label,
    state::UiState,
    strip::{counted_texts, with_error},
    theme::{Ink, SMALL},
};

/// Standard errors above which a difference is told as one.
const SIGMAS: f64 = 3.0;
/// Columns after the name.
const COLUMNS: [&str; 4] = ["A", "B", "B − A", "B / A"];
/// Below this width there are no columns, points.
const WIDE: f32 = 640.0;
/// Digits of a difference.
const DIGITS: usize = 3;

/// One row: what, A, B, the difference, the ratio.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Row {
    name: String,
    cells: [String; 4],
}

/// Says whether B differs from A.
pub(super) fn verdict_ui(ui: &mut Ui, a: &Side<'_>, b: &Side<'_>) {
    ui.label(RichText::new(verdict(a, b)).strong());
}

/// Shows the table.
pub(super) fn table_ui(ui: &mut Ui, a: &Side<'_>, b: &Side<'_>, state: &UiState) {
    ui.add_space(4.0);
    let changed = conditions(a.controls, b.controls, state.units);
    if changed.is_empty() {
        ui.label("A and B are set alike: no condition differs.");
    }
    let groups = [
        ("Conditions that differ", changed),
        ("Readings", readings(a, b, state.units)),
        ("Fields", fields(a, b, state.units)),
    ];
    if ui.available_width() < WIDE {
        list_ui(ui, groups, state);
    } else {
        grid_ui(ui, groups, state);
    }
}

/// Rows below a title.
type Group = (&'static str, Vec<Row>);

fn grid_ui(ui: &mut Ui, groups: [Group; 3], state: &UiState) {
    let ink = Ink::Faint.colour(state.theme);
    Grid::new("A and B")
        .num_columns(5)
        .spacing([14.0, 3.0])
        .striped(true)
        .show(ui, |ui| {
            for (title, rows) in groups.into_iter().filter(|(_, rows)| !rows.is_empty()) {
                for head in [title, COLUMNS[0], COLUMNS[1], COLUMNS[2], COLUMNS[3]] {
                    ui.label(RichText::new(head).size(SMALL).color(ink));
                }
                ui.end_row();
                for row in rows {
                    ui.label(row.name);
                    for cell in row.cells {
                        ui.label(cell);
                    }
                    ui.end_row();
                }
            }
        });
}

/// The same in lines that break, where there is no room for columns.
fn list_ui(ui: &mut Ui, groups: [Group; 3], state: &UiState) {
    let ink = Ink::Faint.colour(state.theme);
    for (title, rows) in groups.into_iter().filter(|(_, rows)| !rows.is_empty()) {
        ui.label(RichText::new(title).size(SMALL).color(ink));
        for row in rows {
            let told = COLUMNS.into_iter().zip(&row.cells);
            let told = told.filter(|(_, cell)| !cell.is_empty());
            let texts: Vec<String> = told.map(|(head, cell)| format!("{head}: {cell}")).collect();
            ui.label(format!("{}. {}", row.name, texts.join(" · ")));
        }
    }
}

/// Whether B differs from A in what it lets through.
fn verdict(a: &Side<'_>, b: &Side<'_>) -> String {
    let (Some(then), Some(now)) = (a.count.agreement(), b.count.agreement()) else {
        return "B is still counting.".to_owned();
    };
    if let Some(share) = b.count.settling {
        return format!("B is still counting: {:.0} %.", 100.0 * share);
    }
    let (difference, sigma) = difference(&then, &now);
    if difference == 0.0 {
        return "A and B let the same share of the dust through.".to_owned();
    }
    let more = if difference > 0.0 { "more" } else { "less" };
    let size = format!(
        "B lets {} {more} of the dust through than A, {:.1} σ",
        percent_text(difference.abs()),
        difference.abs() / sigma
    );
    if difference.abs() > SIGMAS * sigma {
        format!("{size}: larger than its statistical uncertainty.")
    } else {
        format!("{size}: within its statistical uncertainty, so no difference is shown.")
    }
}

/// Difference of the counted penetrations, and its standard error.
fn difference(a: &Agreement, b: &Agreement) -> (f64, f64) {
    let sigma = a.counted.standard_error.hypot(b.counted.standard_error);
    (b.counted.share - a.counted.share, sigma)
}

/// Every key that says something else.
fn conditions(a: &Conditions, b: &Conditions, units: UnitSystem) -> Vec<Row> {
    differing(a, b)
        .map(|key| {
            let text = |value: &Option<Value>| {
                let known = value.as_ref();
                known.map_or_else(|| "–".to_owned(), |value| value_text(key, value, units))
            };
            let (then, now) = (key.get(a), key.get(b));
            let numbers = match (&then, &now) {
                (Some(Value::Number(then)), Some(Value::Number(now))) => Some((*then, *now)),
                (Some(Value::Count(then)), Some(Value::Count(now))) => {
                    Some((*then as f64, *now as f64))
                }
                _ => None,
            };
            let dimension = key.dimension().unwrap_or(Dimension::Number);
            let [change, ratio] = compared(numbers, dimension, units);
            Row {
                name: label(key).to_owned(),
                cells: [text(&then), text(&now), change, ratio],
            }
        })
        .collect()
}

/// Difference and ratio in display units; nothing where there are no two numbers.
fn compared(numbers: Option<(f64, f64)>, dimension: Dimension, units: UnitSystem) -> [String; 2] {
    let Some((a, b)) = numbers else {
        return [String::new(), String::new()];
    };
    // Differences of display values: a scale with a zero of its own, as of temperature, drops out.
    let ((shown_a, _), (shown_b, unit)) =
        (display(a, dimension, units), display(b, dimension, units));
    let change = signed(&number_text(shown_b - shown_a, DIGITS));
    let change = format!("{change} {unit}").trim_end().to_owned();
    let ratio = if dimension == Dimension::Temperature || a == 0.0 {
        String::new()
    } else {
        format!("×{}", plain_number_or_zero(b / a))
    };
    [change, ratio]
}

/// A number with its sign, and a minus that is one.
fn signed(number: &str) -> String {
    match number.strip_prefix('-') {
        Some(rest) => format!("−{rest}"),
        None if number.trim_end_matches(" %") == "0" => number.to_owned(),
        None => format!("+{number}"),
    }
}

/// What the counts and the theory say.
fn readings(a: &Side<'_>, b: &Side<'_>, units: UnitSystem) -> Vec<Row> {
    let sides = [a, b];
    let agreements = sides.map(|side| side.count.agreement());
    let [Some(then), Some(now)] = agreements else {
        return Vec::new();
    };
    let pair = [&then, &now];
    let (apart, sigma) = difference(&then, &now);
    let (apart_text, error) = with_error(100.0 * apart, 100.0 * SIGMAS * sigma);
    let [penetration_a, penetration_b] = pair.map(|one| format!("{} (3σ)", counted_texts(one).0));
    let [caught_a, caught_b] = pair.map(|one| percent_of_caught(one.counted.share));
    let points = with_error(-100.0 * apart, 100.0 * SIGMAS * sigma).0;
    let row = |name: &str, cells| Row {
        name: name.to_owned(),
        cells,
    };
    let [solved_a, solved_b] = pair.map(solved);
    let outlet = [(a, &then), (b, &now)]
        .map(|(side, one)| one.counted.share * side.conditions.dust.load_kg_m3);
    let numbers = sides.map(|side| {
        side.count
            .theory
            .map_or(0.0, |theory| theory.deutsch_number)
    });
    vec![
        row(
            "Penetration, counted",
            [
                penetration_a,
                penetration_b,
                format!("{} ± {error} %", signed(&apart_text)),
                ratio(then.counted.share, now.counted.share),
            ],
        ),
        row(
            "Efficiency",
            [
                caught_a,
                caught_b,
                format!("{} points", signed(&points)),
                String::new(),
            ],
        ),
        row(
            "Finite mixing",
            [
                solved_a,
                solved_b,
                signed(&percent_of(now.finite_mixing - then.finite_mixing)),
                ratio(then.finite_mixing, now.finite_mixing),
            ],
        ),
        measured(
            "Dust in the gas that leaves",
            outlet,
            Dimension::Emission,
            units,
        ),
        measured("Deutsch number De", numbers, Dimension::Number, units),
    ]
}

/// What the solver says, and whether the count agrees.
fn solved(one: &Agreement) -> String {
    let word = match one.verdict {
        Verdict::Agree => "agree",
        Verdict::Disagree => "disagree",
    };
    format!("{}, {word}", percent_text(one.finite_mixing))
}

/// A share that may be negative.
fn percent_of(share: f64) -> String {
    let text = percent_text(share.abs());
    if share < 0.0 {
        format!("-{text}")
    } else {
        text
    }
}

fn ratio(a: f64, b: f64) -> String {
    if a > 0.0 {
        format!("×{}", plain_number_or_zero(b / a))
    } else {
        String::new()
    }
}

/// A row of two numbers of one dimension.
fn measured(name: &str, [a, b]: [f64; 2], dimension: Dimension, units: UnitSystem) -> Row {
    let [change, ratio] = compared(Some((a, b)), dimension, units);
    Row {
        name: name.to_owned(),
        cells: [
            format(a, dimension, units),
            format(b, dimension, units),
            change,
            ratio,
        ],
    }
}

/// The meters of every field that both have, and of those that one of them has.
fn fields(a: &Side<'_>, b: &Side<'_>, units: UnitSystem) -> Vec<Row> {
    let most = a.fields.len().max(b.fields.len());
    // Of a field that only one of them has, the name that it has there.
    let titled = if a.fields.len() > b.fields.len() {
        a
    } else {
        b
    };
    let mut rows = Vec::new();
    for index in 0..most {
        let meters = [a, b].map(|side| {
            let field = side.fields.get(index)?;
            let (volts, amperes) = (field.metered_v(), amperes(field, side.conditions));
            Some([volts, amperes, volts * amperes])
        });
        let names = [
            ("voltage", Dimension::Voltage),
            ("current", Dimension::Current),
            ("power", Dimension::Power),
        ];
        for (meter, (name, dimension)) in names.into_iter().enumerate() {
            let name = format!("{}, {name}", titled.conditions.field_title(index));
            let [then, now] = meters.map(|meters| meters.map(|meters| meters[meter]));
            rows.push(match (then, now) {
                (Some(then), Some(now)) => measured(&name, [then, now], dimension, units),
                _ => {
                    let text = |value: Option<f64>| {
                        value
                            .map_or_else(|| "–".to_owned(), |value| format(value, dimension, units))
                    };
                    Row {
                        name,
                        cells: [text(then), text(now), String::new(), String::new()],
                    }
                }
            });
        }
    }
    rows
}
