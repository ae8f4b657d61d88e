//! What the panel shows of every field and of the gas: a number, and a bar beside what is wanted, the limit or the others.

use ashlane_shared::{
    alarms::find_alarm,
    conditions::Conditions,
    physics::gas_path::pressure::Station,
    plant::ALARM_LEVEL,
    simulation::{FieldState, GasStation, HeldBy},
    units::{Dimension, number_text},
};

use super::BoardView;
use crate::elevation::ElevationView;

/// Room above the highest value or mark, as a share of it.
const HEADROOM: f64 = 1.15;
const MINUTE_S: f64 = 60.0;
const HOUR_S: f64 = 3600.0;
/// The hours are told up to this many.
const MOST_HOURS: f64 = 999.0;
const NOTHING: &str = "–";

/// A row of the panel: its name and a cell for every column.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What is read.
    pub name: &'static str,
    /// What the tick of its bars is; a row without bars has none.
    pub tick: Option<&'static str>,
    /// One cell a column.
    pub cells: Vec<Cell>,
}

/// A value.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cell {
    /// As text.
    pub text: String,
    /// As a bar.
    pub bar: Option<Bar>,
}

/// A value between nothing and the end of its bar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// The value, 0 to 1.
    pub share: f64,
    /// What it is held against, 0 to 1.
    pub mark: f64,
}

impl Cell {
    fn plain(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            bar: None,
        }
    }

    fn with_bar(text: String, value: f64, mark: f64, end: f64) -> Self {
        let share = |value: f64| (value / end).clamp(0.0, 1.0);
        let bar = (end > 0.0).then(|| Bar {
            share: share(value),
            mark: share(mark),
        });
        Self { text, bar }
    }
}

/// What a meter shows of a field, in SI.
type Meter<'a> = &'a dyn Fn(&FieldState) -> f64;

/// Plate area of one field, m².
pub(super) fn area_m2(conditions: &Conditions) -> f64 {
    conditions.collecting_area_m2() / conditions.collector.fields as f64
}

/// What the milliammeter of a field shows, A.
pub(crate) fn amperes(state: &FieldState, conditions: &Conditions) -> f64 {
    state.metered_a_m2() * area_m2(conditions)
}

/// What every field shows.
#[must_use]
pub fn field_rows(board: &BoardView<'_>) -> Vec<Row> {
    let view = &board.machine;
    let electrical = &view.conditions.electrical;
    let limit_a = electrical.current_limit_a_m2 * area_m2(view.conditions);
    let aim_per_min = MINUTE_S * electrical.spark_target_per_s;
    let amperes = |state: &FieldState| amperes(state, view.conditions);
    let watts = |state: &FieldState| state.metered_v() * amperes(state);
    let middle_w = middle(view.fields.iter().map(watts).collect());
    let volts = |value: f64| view.text(value, Dimension::Voltage);
    let plain = |name, cell: &dyn Fn(&FieldState) -> String| Row {
        name,
        tick: None,
        cells: view
            .fields
            .iter()
            .map(|state| Cell::plain(cell(state)))
            .collect(),
    };
    vec![
        barred(
            view,
            ("kV, mean", "asked"),
            &volts,
            &FieldState::metered_v,
            &|state| state.wanted_v,
        ),
        plain("kV, peak", &|state| volts(state.metered_peak_v())),
        barred(
            view,
            ("current", "limit"),
            &|value| view.text(value, Dimension::Current),
            &amperes,
            &|_| limit_a,
        ),
        barred(
            view,
            ("sparks a minute", "aim"),
            &|value| format!("{value:.0}"),
            &|state| state.sparks_per_min,
            &|_| aim_per_min,
        ),
        barred(
            view,
            ("power", "middle field"),
            &|value| view.text(value, Dimension::Power),
            &watts,
            &|_| middle_w,
        ),
        plain("held by", &|state| held(state).to_owned()),
        hopper_row(view),
        rapper_row(view),
    ]
}

/// A row whose bars all end above the highest value and mark.
fn barred(
    view: &ElevationView<'_>,
    (name, tick): (&'static str, &'static str),
    text: &dyn Fn(f64) -> String,
    value: Meter<'_>,
    mark: Meter<'_>,
) -> Row {
    let highest = |of: Meter<'_>| view.fields.iter().map(of).fold(0.0, f64::max);
    let end = HEADROOM * highest(value).max(highest(mark));
    let cell = |state| Cell::with_bar(text(value(state)), value(state), mark(state), end);
    Row {
        name,
        tick: Some(tick),
        cells: view.fields.iter().map(cell).collect(),
    }
}

/// Level of the ash and hours until it is at the probe.
fn hopper_row(view: &ElevationView<'_>) -> Row {
    let cell = |field: usize| {
        let Some(row) = view.hoppers.get(field) else {
            return Cell::plain(NOTHING);
        };
        let level = format!("{:.0} %", 100.0 * row.level);
        let hours = row.until_alarm_s.map(|until_s| until_s / HOUR_S);
        let text = match hours {
            _ if row.alarm => format!("{level} HIGH"),
            None => level,
            Some(hours) if hours > MOST_HOURS => format!("{level}, > {MOST_HOURS:.0} h"),
            Some(hours) => format!("{level}, {} h", number_text(hours, 2)),
        };
        Cell::with_bar(text, row.level, ALARM_LEVEL, 1.0)
    };
    Row {
        name: "hopper, to probe",
        tick: Some("level probe"),
        cells: (0..view.fields.len()).map(cell).collect(),
    }
}

fn rapper_row(view: &ElevationView<'_>) -> Row {
    let cell = |field: usize| {
        let turn = view.plates.get(field).map(|plates| plates.turn);
        Cell::plain(match turn {
            None => NOTHING.to_owned(),
            Some(None) => "at rest".to_owned(),
            Some(Some(turn)) => format!("{} of {}", turn.blow.0, turn.blow.1),
        })
    };
    Row {
        name: "plate rapper, blow",
        tick: None,
        cells: (0..view.fields.len()).map(cell).collect(),
    }
}

/// What the instruments show at inlet duct, outlet duct and stack.
#[must_use]
pub fn gas_rows(board: &BoardView<'_>) -> Vec<Row> {
    let view = &board.machine;
    let ends = [Station::InletDuct, Station::OutletDuct];
    let at_ends = |name, cell: &dyn Fn(&GasStation) -> String| {
        let cells = ends.iter().map(|end| {
            let station = view.gas.and_then(|gas| gas.at(*end));
            Cell::plain(station.map_or_else(|| NOTHING.to_owned(), cell))
        });
        Row {
            name,
            tick: None,
            cells: cells.chain([Cell::plain("")]).collect(),
        }
    };
    let dust = |kg_m3: f64| Cell::plain(view.text(kg_m3, Dimension::Emission));
    let load = view.text(view.conditions.dust.load_kg_m3, Dimension::DustLoad);
    let unknown = || Cell::plain(NOTHING);
    vec![
        at_ends("temperature", &|end| {
            view.text(end.temperature_k, Dimension::Temperature)
        }),
        at_ends("oxygen, dry", &|end| {
            let percent = (1e3 * end.oxygen_dry).round() / 10.0;
            format!("{} %", number_text(percent, 3))
        }),
        at_ends("draught", &|end| {
            view.text(end.static_gauge_pa, Dimension::Pressure)
        }),
        at_ends("gas velocity", &|end| {
            view.text(end.velocity_m_s, Dimension::Velocity)
        }),
        Row {
            name: "dust",
            tick: None,
            cells: vec![
                Cell::plain(load),
                board
                    .stack
                    .map_or_else(unknown, |stack| dust(stack.dust_kg_m3)),
                Cell::plain(board.stack.map_or("", |stack| stack.from)),
            ],
        },
        Row {
            name: "opacity",
            tick: Some("alarm"),
            cells: vec![Cell::plain(""), Cell::plain(""), opacity(board)],
        },
    ]
}

/// The opacity beside the set-point of its alarm.
fn opacity(board: &BoardView<'_>) -> Cell {
    let Some(stack) = board.stack else {
        return Cell::plain(NOTHING);
    };
    let percent = number_text(100.0 * stack.opacity, 2);
    let text = format!("{percent} %");
    match opacity_set_point(board) {
        Some(mark) => Cell::with_bar(
            text,
            stack.opacity,
            mark,
            HEADROOM * stack.opacity.max(2.0 * mark),
        ),
        None => Cell::plain(text),
    }
}

/// From which opacity on the alarm calls.
pub(super) fn opacity_set_point(board: &BoardView<'_>) -> Option<f64> {
    let sign = find_alarm("opacity")?.signs.first()?;
    (sign.set_point)(board.alarms.shown(), 0)
}

/// The middle of some values, of an even number the mean of the two.
fn middle(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let half = values.len() / 2;
    match values.len() {
        0 => 0.0,
        count if count % 2 == 1 => values[half],
        _ => 0.5 * (values[half - 1] + values[half]),
    }
}

pub(crate) fn held(state: &FieldState) -> &'static str {
    if state.wanted_v <= 0.0 {
        return "off";
    }
    match state.held_by {
        HeldBy::Setting => "setting",
        HeldBy::CurrentLimit => "current limit",
        HeldBy::Supply => "supply",
        HeldBy::Sparking => "sparking",
    }
}
