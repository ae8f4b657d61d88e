//! The plant clock as charts: layers and voltages, the stack, the hoppers, over the time that was read.
//!
//! Readings may lie at any times, one or thousands of them: a line keeps the highest and the lowest of every column.

mod hoppers;
mod layers;
mod stack;
mod time;

pub use hoppers::{hoppers_checks, hoppers_drawing};
pub use layers::{layers_checks, layers_drawing};
pub use stack::{stack_checks, stack_drawing};
pub(crate) use time::ticks as hour_ticks;

use ashlane_shared::{
    checks::LongRun,
    conditions::Conditions,
    plant::{FieldReading, PlantReading, Rates},
    units::UnitSystem,
};

use super::linear::{Linear, SideLabel, room_beside};
use crate::{drawing::Drawing, theme::Ink};

const HOUR_S: f64 = 3600.0;
/// Room for the numbers on the left.
const LEFT: f32 = 46.0;
/// Least room on the right, for the unit of the hours.
const LEAST_BESIDE: f32 = 26.0;
/// Colours of the fields, over and over; the words beside say which is which.
const FIELDS: [Ink; 4] = [Ink::Dust, Ink::Gas, Ink::FiniteMixing, Ink::Laminar];
/// Width of a line, how much wider one is below the next, and up to how many.
const LINE: f32 = 1.8;
const NEST: f32 = 1.2;
const MOST_NESTED: usize = 3;
/// Most fields that are named beside their lines.
const MOST_NAMED: usize = 6;
/// Width of a column in which a line keeps its highest and its lowest point only, points.
const COLUMN: f32 = 1.0;

/// A time on the plant clock with its checks.
#[derive(Clone, Copy, Debug)]
pub struct PlantView<'a> {
    /// Readings in the order of their times.
    pub readings: &'a [PlantReading],
    /// The conditions that hold.
    pub conditions: &'a Conditions,
    /// Its rates.
    pub rates: &'a Rates,
    /// Since when they hold, s of the plant clock: earlier readings are drawn, and no check looks at them.
    pub steady_since_s: f64,
    /// What leaves in the long run, by two roads.
    pub long_run: LongRun,
    /// Units of the labels.
    pub units: UnitSystem,
}

impl<'a> PlantView<'a> {
    /// The readings under the conditions that hold.
    #[must_use]
    pub fn steady(&self) -> &'a [PlantReading] {
        let before = |reading: &PlantReading| reading.time_s < self.steady_since_s;
        &self.readings[self.readings.partition_point(before)..]
    }

    /// First and last hour; an hour where there is no more than one reading.
    fn hours(&self) -> (f64, f64) {
        let (first, last) = (self.readings.first(), self.readings.last());
        let from = first.map_or(0.0, |first| first.time_s / HOUR_S);
        let to = last.map_or(0.0, |last| last.time_s / HOUR_S);
        if to > from {
            (from, to)
        } else {
            (from, from + 1.0)
        }
    }

    fn fields(&self) -> usize {
        self.readings.last().map_or(0, |last| last.fields.len())
    }

    /// Largest of a number of all readings.
    fn highest(&self, value: impl Fn(&PlantReading) -> f64) -> f64 {
        self.readings.iter().map(value).fold(0.0, f64::max)
    }

    /// What a field shows over time, hours and value.
    fn of_field(
        &self,
        field: usize,
        value: impl Fn(&FieldReading) -> f64,
    ) -> impl Iterator<Item = (f64, f64)> {
        self.readings.iter().filter_map(move |reading| {
            let field = reading.fields.get(field)?;
            Some((reading.time_s / HOUR_S, value(field)))
        })
    }

    /// Room for the words beside any of the trends: all of them end at the same place.
    fn room_beside(&self) -> f32 {
        let labels = layers::labels(self).into_iter().flatten();
        let labels = labels
            .chain(hoppers::labels(self))
            .chain(stack::labels(self).into_iter().flatten());
        room_beside(&labels.collect::<Vec<_>>()).max(LEAST_BESIDE)
    }

    /// A line for every field.
    fn lines(
        &self,
        drawing: &mut Drawing,
        plot: &Linear,
        value: impl Fn(&FieldReading) -> f64 + Copy,
    ) {
        for field in 0..self.fields() {
            let line = plot.curve(reduced(self.of_field(field, value), plot).into_iter());
            drawing.line(line, ink_of(field), LINE);
        }
    }

    /// The same where many fields often show the same: each line is thinner than the one below it.
    fn nested_lines(
        &self,
        drawing: &mut Drawing,
        plot: &Linear,
        value: impl Fn(&FieldReading) -> f64 + Copy,
    ) {
        let fields = self.fields();
        for field in 0..fields {
            let line = plot.curve(reduced(self.of_field(field, value), plot).into_iter());
            let above = (fields - 1 - field).min(MOST_NESTED) as f32;
            drawing.line(line, ink_of(field), LINE + NEST * above);
        }
    }

    /// Words beside the ends of the lines.
    fn labels(
        &self,
        value: impl Fn(&FieldReading) -> f64,
        text: impl Fn(&str, &FieldReading) -> String,
    ) -> Vec<SideLabel> {
        let Some(last) = self.readings.last() else {
            return Vec::new();
        };
        let fields = last.fields.iter().enumerate().take(MOST_NAMED);
        fields
            .map(|(index, field)| SideLabel {
                value: value(field),
                text: text(&self.conditions.short_field_name(index), field),
                ink: ink_of(index),
            })
            .collect()
    }
}

fn ink_of(field: usize) -> Ink {
    FIELDS[field % FIELDS.len()]
}

/// Points of which every column keeps the first, the lowest, the highest and the last.
pub(crate) fn reduced(points: impl Iterator<Item = (f64, f64)>, plot: &Linear) -> Vec<(f64, f64)> {
    let mut kept: Vec<(f64, f64)> = Vec::new();
    let mut column: Vec<(f64, f64)> = Vec::new();
    let column_of = |x: f64| (plot.at_x(x) / COLUMN).floor();
    for point in points {
        if let Some(first) = column.first()
            && column_of(first.0) != column_of(point.0)
        {
            empty(&mut column, &mut kept);
        }
        column.push(point);
    }
    empty(&mut column, &mut kept);
    kept
}

fn empty(column: &mut Vec<(f64, f64)>, kept: &mut Vec<(f64, f64)>) {
    if column.len() > 4 {
        let by = |better: fn(f64, f64) -> bool| {
            let indices = 0..column.len();
            indices.reduce(|best, index| {
                if better(column[index].1, column[best].1) {
                    index
                } else {
                    best
                }
            })
        };
        let lowest = by(|one, other| one < other).unwrap_or(0);
        let highest = by(|one, other| one > other).unwrap_or(0);
        let mut indices = vec![0, lowest, highest, column.len() - 1];
        indices.sort_unstable();
        indices.dedup();
        kept.extend(indices.into_iter().map(|index| column[index]));
        column.clear();
    } else {
        kept.append(column);
    }
}

/// Each reading is the mean since the one before: steps, in hours.
pub(crate) fn steps(
    readings: &[PlantReading],
    value: impl Fn(&PlantReading) -> f64,
) -> impl Iterator<Item = (f64, f64)> {
    readings.windows(2).flat_map(move |pair| {
        let mean = value(&pair[1]);
        [pair[0].time_s, pair[1].time_s].map(|time_s| (time_s / HOUR_S, mean))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_of_thousands_of_points_keeps_its_peaks_and_its_ends() {
        let plot = Linear {
            min: [0.0, 0.0],
            max: [100.0, 50.0],
            x: (0.0, 1.0),
            y: (0.0, 9.0),
        };
        let height = |index: u32| {
            if index == 4321 {
                9.0
            } else {
                f64::from(index % 7)
            }
        };
        let points = (0..=9999).map(|index| (f64::from(index) / 9999.0, height(index)));
        let line = reduced(points, &plot);
        assert!(line.len() <= 4 * 101, "{}", line.len());
        assert!(line.iter().any(|point| point.1 == 9.0), "the peak is lost");
        assert_eq!((line[0].0, line[line.len() - 1].0), (0.0, 1.0));
        assert!(line.windows(2).all(|pair| pair[0].0 <= pair[1].0));
    }
}
