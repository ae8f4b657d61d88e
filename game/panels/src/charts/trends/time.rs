//! Trends one below the other on one axis of time: rules at the same hours, and where the conditions changed.

use ashlane_shared::units::number_text;

use super::{HOUR_S, LEFT, PlantView};
use crate::{
    charts::linear::Linear,
    drawing::{Anchor, Drawing, text_width},
    theme::{BODY, Ink, SMALL},
};

/// Heights: the heading, the words of a change, the name of a plot, below the last plot.
const HEADING: f32 = 22.0;
const CHANGE: f32 = 17.0;
const NAME: f32 = 20.0;
const BELOW: f32 = 22.0;
/// Between a plot and the name of the next.
const GAP: f32 = 7.0;
/// Room of the hours of one tick, and from the last plot's right edge to their unit.
const TICK: f32 = 30.0;
const UNIT: f32 = 14.0;
/// Hours from tick to tick.
const EVERY_H: [f64; 13] = [
    0.1, 0.25, 0.5, 1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0, 72.0, 168.0, 336.0,
];
const CHANGED: &str = "conditions changed";

/// Where the trends of a figure stand.
pub(super) struct Trends {
    /// Left and right edge of every plot.
    edges: (f32, f32),
    hours: (f64, f64),
    ticks: Vec<f64>,
    /// Hour of the last change of the conditions.
    changed_h: Option<f64>,
    /// Whether that has been said.
    is_said: bool,
    /// Where the next trend begins.
    y: f32,
}

/// Height of a figure with plots of these heights and so many rows of words above them.
pub(super) fn height(view: &PlantView<'_>, rows: usize, plots: &[f32]) -> f32 {
    if view.readings.is_empty() {
        return HEADING + NAME + 2.0;
    }
    let change = view.changed_h().map_or(0.0, |_| CHANGE);
    let plots: f32 = plots.iter().map(|plot| NAME + plot + GAP).sum();
    HEADING + change + rows as f32 * NAME + plots - GAP + BELOW
}

impl Trends {
    /// Below the heading; nothing where there is nothing to draw yet, which is said.
    pub(super) fn new(drawing: &mut Drawing, view: &PlantView<'_>, title: &str) -> Option<Self> {
        drawing.bold([2.0, 12.0], Anchor::Left, title, BODY, Ink::Text);
        if view.readings.is_empty() {
            let words = "no readings yet: run the plant clock";
            drawing.text([2.0, 33.0], Anchor::Left, words, SMALL, Ink::Faint);
            return None;
        }
        let edges = (LEFT, drawing.size[0] - view.room_beside());
        let hours = view.hours();
        Some(Self {
            edges,
            hours,
            ticks: ticks(hours, edges.1 - edges.0),
            changed_h: view.changed_h(),
            is_said: false,
            y: HEADING,
        })
    }

    /// A row of words; its middle.
    pub(super) fn row(&mut self) -> f32 {
        self.y += NAME;
        self.y - 0.5 * NAME
    }

    /// A plot of this height with its name above, and rules at the hours.
    pub(super) fn plot(
        &mut self,
        drawing: &mut Drawing,
        name: &str,
        (height, y): (f32, (f64, f64)),
    ) -> Linear {
        let middle = self.row();
        drawing.text([2.0, middle], Anchor::Left, name, SMALL, Ink::Faint);
        self.say_change(drawing);
        let plot = Linear {
            min: [self.edges.0, self.y],
            max: [self.edges.1, self.y + height],
            x: self.hours,
            y,
        };
        for hour in &self.ticks {
            let x = plot.at_x(*hour);
            drawing.line([[x, plot.min[1]], [x, plot.max[1]]], Ink::Rule, 1.0);
        }
        self.y += height + GAP;
        plot
    }

    /// Words over the line of the change, on the first plot.
    fn say_change(&mut self, drawing: &mut Drawing) {
        let Some(hour) = self.changed_h.filter(|_| !self.is_said) else {
            return;
        };
        let half = 0.5 * text_width(CHANGED, SMALL, false) + 1.0;
        let x = self.at_x(hour).clamp(half, drawing.size[0] - half);
        let at = [x, self.y + 0.5 * CHANGE - 2.0];
        drawing.text(at, Anchor::Centre, CHANGED, SMALL, Ink::Text);
        self.y += CHANGE;
        self.is_said = true;
    }

    /// A line across a plot where the conditions changed.
    pub(super) fn mark_change(&self, drawing: &mut Drawing, plot: &Linear) {
        if let Some(hour) = self.changed_h {
            let x = plot.at_x(hour);
            drawing.line([[x, plot.min[1] - 2.0], [x, plot.max[1]]], Ink::Text, 1.0);
        }
    }

    /// The hours below the last plot, and their unit beside it.
    pub(super) fn axis(&self, drawing: &mut Drawing, plot: &Linear) {
        let [right, bottom] = plot.max;
        for hour in &self.ticks {
            let x = plot.at_x(*hour);
            drawing.line([[x, bottom], [x, bottom + 4.0]], Ink::Faint, 1.0);
            let (at, text) = ([x, bottom + 12.0], number_text(*hour, 3));
            drawing.text(at, Anchor::Centre, text, SMALL, Ink::Faint);
        }
        let at = [right + UNIT, bottom + 12.0];
        drawing.text(at, Anchor::Left, "h", SMALL, Ink::Faint);
    }

    fn at_x(&self, hour: f64) -> f32 {
        let ((left, right), (from, to)) = (self.edges, self.hours);
        left + ((hour - from) / (to - from)) as f32 * (right - left)
    }
}

/// Even hours, as many as have room.
pub(crate) fn ticks((from, to): (f64, f64), room: f32) -> Vec<f64> {
    let most = f64::from((room / TICK).floor().clamp(1.0, 9.0));
    let fits = |every: &&f64| (to - from) / **every <= most;
    let every = EVERY_H.iter().find(fits).copied().unwrap_or(to - from);
    let first = (from / every - 1e-6).ceil();
    (0..)
        .map(|count| (first + f64::from(count)) * every)
        .take_while(|hour| *hour <= to + 1e-6 * every)
        .collect()
}

impl PlantView<'_> {
    /// Hour of the plant clock at which the conditions changed last, where that is between the readings.
    fn changed_h(&self) -> Option<f64> {
        let (from, to) = (self.readings.first()?.time_s, self.readings.last()?.time_s);
        let between = self.steady_since_s > from && self.steady_since_s <= to;
        between.then_some(self.steady_since_s / HOUR_S)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hours_are_those_of_a_clock_and_have_room() {
        assert_eq!(ticks((0.0, 48.0), 200.0), [0.0, 12.0, 24.0, 36.0, 48.0]);
        assert_eq!(ticks((0.0, 168.0), 500.0).len(), 8, "a week by days");
        assert_eq!(ticks((3.2, 4.0), 130.0), [3.25, 3.5, 3.75, 4.0]);
        assert_eq!(ticks((0.0, 10_000.0), 100.0), [0.0, 10_000.0]);
    }
}
