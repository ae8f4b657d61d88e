//! Current against voltage of one field: with its dust, in clean gas, by the textbook, and where the set works on it.

use ashlane_shared::{
    simulation::{FieldEnergization, VoltageCurrentPoint},
    units::{Dimension, GasState, UnitSystem, display, format_in},
};

use super::{axes::Mark, linear::Linear};
use crate::{
    checks::CheckLine,
    drawing::{Anchor, Drawing, Point, fitting, text_width},
    theme::{BODY, Ink, SMALL},
};

/// Slope of the computed current at onset and the exact one agree within this: the grid, and the current's own bend
/// between onset and the point just above it; thick wires are up to 1.4 % off.
const SLOPE_TOLERANCE: f64 = 0.02;
/// Voltage at which the textbook is held against the computed curve, over onset.
const LAW_AT: f64 = 1.25;
/// The limit of the current is drawn up to this many times the current at which the set works.
const LIMIT_SHOWN: f64 = 4.0;
/// Height of a line of the key.
const LINE: f32 = 17.0;

/// Draws the chart of the field of this name in this size.
#[must_use]
pub fn voltage_current_drawing(
    set: &FieldEnergization,
    name: &str,
    units: UnitSystem,
    size: Point,
) -> Drawing {
    let mut drawing = Drawing::new(size);
    let titles = [
        format!("Current against voltage, {name}"),
        format!("Current, voltage, {name}"),
    ];
    let title = fitting(&titles, 0.85 * (size[0] - 14.0));
    drawing.bold([10.0, 13.0], Anchor::Left, title, BODY, Ink::Text);
    let key = Key::new(set, units, size[0]);
    let plot = plot(
        set,
        units,
        [size[0] - 14.0, size[1] - 26.0 - key.tall_below()],
    );
    plot.upward(&mut drawing);
    let (limit, unit) = display(limit_a_m2(set), Dimension::CurrentDensity, units);
    let name = format!("{unit}, mean on the plates");
    drawing.text([10.0, 31.0], Anchor::Left, name, SMALL, Ink::Faint);
    let kv = |voltage_v: f64| display(voltage_v, Dimension::Voltage, units).0;
    limits(&mut drawing, &plot, (kv(set.state.spark_v), limit));
    let line = |points: &[VoltageCurrentPoint]| {
        plot.curve(points.iter().map(|point| {
            let density = point.current_density_a_m2;
            let (density, _) = display(density, Dimension::CurrentDensity, units);
            (kv(point.voltage_v), density)
        }))
    };
    drawing.dashed(line(&set.textbook), Ink::Deutsch, 1.5);
    drawing.line(line(&set.air_load), Ink::Gas, 3.4);
    drawing.line(line(&set.dust_load), Ink::Dust, 1.8);
    operating(&mut drawing, set, &plot, units);
    plot.rightward(&mut drawing, "kV, mean");
    key.draw(&mut drawing, &plot);
    drawing
}

fn limit_a_m2(set: &FieldEnergization) -> f64 {
    set.settings.current_limit_a / set.plate_area_m2
}

/// Whether the limit is near enough to where the set works to be drawn.
fn shows_limit(set: &FieldEnergization) -> bool {
    let works_a_m2 = set.state.current_density_a_m2;
    works_a_m2 <= 0.0 || limit_a_m2(set) <= LIMIT_SHOWN * works_a_m2
}

/// The frame, from below onset or the set's voltage to above sparking.
fn plot(set: &FieldEnergization, units: UnitSystem, max: Point) -> Linear {
    let state = &set.state;
    let kv = |voltage_v: f64| display(voltage_v, Dimension::Voltage, units).0;
    let lowest_v = 0.85 * state.onset_v.min(state.voltage_v.max(0.3 * state.onset_v));
    let highest_v = 1.06 * state.spark_v.max(state.voltage_v).max(state.dusty_onset_v);
    let highest_a_m2 = if shows_limit(set) {
        1.35 * limit_a_m2(set).max(state.current_density_a_m2)
    } else {
        LIMIT_SHOWN * state.current_density_a_m2
    };
    let (highest, _) = display(highest_a_m2, Dimension::CurrentDensity, units);
    Linear {
        min: [46.0, 44.0],
        max,
        x: (kv(lowest_v), kv(highest_v)),
        y: (0.0, highest),
    }
}

/// The limit of the current and the voltage at which the gap sparks.
fn limits(drawing: &mut Drawing, plot: &Linear, (spark_kv, limit): (f64, f64)) {
    let x = plot.at_x(spark_kv);
    drawing.dashed([[x, plot.min[1]], [x, plot.max[1]]], Ink::Trouble, 1.5);
    if limit <= plot.y.1 {
        let y = plot.at_y(limit);
        drawing.dashed([[plot.min[0], y], [plot.max[0], y]], Ink::Control, 1.3);
    }
}

/// Where the set works: a disc at the mean, and a line from it to the peak of the ripple.
fn operating(drawing: &mut Drawing, set: &FieldEnergization, plot: &Linear, units: UnitSystem) {
    let state = &set.state;
    let kv = |voltage_v: f64| display(voltage_v, Dimension::Voltage, units).0;
    let density = display(state.current_density_a_m2, Dimension::CurrentDensity, units).0;
    let (y, mean, peak) = (
        plot.at_y(density),
        plot.at_x(kv(state.voltage_v)),
        plot.at_x(kv(state.peak_voltage_v)),
    );
    drawing.line([[mean, y], [peak, y]], Ink::HighVoltage, 1.6);
    drawing.line([[peak, y - 5.0], [peak, y + 5.0]], Ink::HighVoltage, 1.6);
    drawing.dot([mean, y], 6.0, Ink::Ground);
    drawing.dot([mean, y], 4.5, Ink::HighVoltage);
}

/// One line of the key.
struct Entry {
    ink: Ink,
    mark: Mark,
    text: String,
}

impl Entry {
    fn new(ink: Ink, mark: Mark, text: impl Into<String>) -> Self {
        let text = text.into();
        Self { ink, mark, text }
    }

    fn wide(&self) -> f32 {
        28.0 + text_width(&self.text, SMALL, false)
    }

    fn draw(&self, drawing: &mut Drawing, [x, y]: Point, over_curves: bool) {
        match self.mark {
            Mark::Line => drawing.line([[x, y], [x + 22.0, y]], self.ink, 2.0),
            Mark::Dashes => drawing.dashed([[x, y], [x + 22.0, y]], self.ink, 2.0),
            Mark::Point => drawing.dot([x + 11.0, y], 4.5, self.ink),
        }
        let text = self.text.as_str();
        if over_curves {
            drawing.label([x + 28.0, y], Anchor::Left, text, SMALL, Ink::Text);
        } else {
            drawing.text([x + 28.0, y], Anchor::Left, text, SMALL, Ink::Text);
        }
    }
}

/// What is drawn: the set and its limits, and the curves.
struct Key {
    set: Vec<Entry>,
    curves: Vec<Entry>,
    /// In two columns below the plot, because the corner above the curves is too narrow.
    below: bool,
}

impl Key {
    fn new(set: &FieldEnergization, units: UnitSystem, width: f32) -> Self {
        let text = |value_si: f64, dimension: Dimension| {
            let unit = dimension.display_unit(units);
            format_in(value_si, unit, &GasState::NORMAL, 3)
        };
        let state = &set.state;
        let mean = text(state.voltage_v, Dimension::Voltage);
        let density = text(state.current_density_a_m2, Dimension::CurrentDensity);
        let peak = text(state.peak_voltage_v, Dimension::Voltage);
        let spark = text(state.spark_v, Dimension::Voltage);
        let limit = text(limit_a_m2(set), Dimension::CurrentDensity);
        let limit = if shows_limit(set) {
            format!("limit {limit}")
        } else {
            format!("limit {limit}, higher up")
        };
        let works = format!("set: mean {mean}, {density}");
        let entries = vec![
            Entry::new(Ink::HighVoltage, Mark::Point, works),
            Entry::new(
                Ink::HighVoltage,
                Mark::Line,
                format!("its ripple, to peak {peak}"),
            ),
            Entry::new(
                Ink::Trouble,
                Mark::Dashes,
                format!("sparks at peak {spark}"),
            ),
            Entry::new(Ink::Control, Mark::Dashes, limit),
        ];
        let widest = entries.iter().map(Entry::wide).fold(0.0, f32::max);
        let below = widest + 10.0 > 0.38 * (width - 60.0);
        let [dusty, clean, law] = if below {
            ["with dust", "clean gas", "textbook"]
        } else {
            [
                "with its dust",
                "clean gas (air load)",
                "textbook, clean gas",
            ]
        };
        Self {
            set: entries,
            curves: vec![
                Entry::new(Ink::Dust, Mark::Line, dusty),
                Entry::new(Ink::Gas, Mark::Line, clean),
                Entry::new(Ink::Deutsch, Mark::Dashes, law),
            ],
            below,
        }
    }

    /// Height that it takes below the plot.
    fn tall_below(&self) -> f32 {
        if self.below {
            self.set.len() as f32 * LINE + 2.0
        } else {
            0.0
        }
    }

    fn draw(&self, drawing: &mut Drawing, plot: &Linear) {
        let [width, height] = drawing.size;
        let y = |top: f32, row: usize| top + (row as f32 + 0.5) * LINE;
        if self.below {
            let top = height - self.tall_below();
            let curves = self.curves.iter().map(Entry::wide).fold(0.0, f32::max);
            for (row, entry) in self.set.iter().enumerate() {
                entry.draw(drawing, [10.0, y(top, row)], false);
            }
            for (row, entry) in self.curves.iter().enumerate() {
                entry.draw(drawing, [width - 10.0 - curves, y(top, row)], false);
            }
        } else {
            for (row, entry) in self.curves.iter().chain(&self.set).enumerate() {
                let place = [plot.min[0] + 10.0, y(plot.min[1] + 4.0, row)];
                entry.draw(drawing, place, true);
            }
        }
    }
}

/// The agreement line of this chart: the slope at onset.
#[must_use]
pub fn voltage_current_check(set: &FieldEnergization) -> CheckLine {
    CheckLine::of_ratio(
        "onset: slope of the current against the exact one",
        format!(
            "computed in clean gas, {:.2} % of 4πε0 b V0/(s² ln(d/r))",
            100.0 * set.onset_slope_share
        ),
        set.onset_slope_share,
        SLOPE_TOLERANCE,
    )
}

/// How far the textbook's law is off a quarter above onset; nothing where the curve ends before.
#[must_use]
pub fn textbook_note(set: &FieldEnergization, units: UnitSystem) -> Option<String> {
    let solved_v = LAW_AT * set.air_load.first().map_or(0.0, |point| point.voltage_v);
    let current_a = across(&set.air_load, solved_v, |point| {
        (point.voltage_v, point.current_a)
    });
    let law_v = current_a.and_then(|current| {
        across(&set.textbook, current, |point| {
            (point.current_a, point.voltage_v)
        })
    });
    let law_v = law_v?;
    let volts = |voltage_v| {
        let unit = Dimension::Voltage.display_unit(units);
        format_in(voltage_v, unit, &GasState::NORMAL, 3)
    };
    Some(format!(
        "The textbook's law needs {} for the current that the computed curve has at {}, {:.1} % more.",
        volts(law_v),
        volts(solved_v),
        100.0 * (law_v / solved_v - 1.0)
    ))
}

/// Where a drawn curve has a value, the other value there; nothing beyond its ends.
fn across(
    points: &[VoltageCurrentPoint],
    known: f64,
    values: fn(&VoltageCurrentPoint) -> (f64, f64),
) -> Option<f64> {
    points.windows(2).find_map(|pair| {
        let (low, high) = (values(&pair[0]), values(&pair[1]));
        (low.0..=high.0).contains(&known).then(|| {
            let part = (known - low.0) / (high.0 - low.0);
            low.1 + part * (high.1 - low.1)
        })
    })
}
