//! Current against voltage with dust on the plates: moved right by what the layer takes, bent back where it breaks.

use ashlane_shared::{
    checks::layer_drop,
    simulation::{FieldEnergization, LayerLoad, VoltageCurrentPoint},
    units::{Dimension, GasState, UnitSystem, display, format, format_in},
};

use super::linear::Linear;
use crate::{
    checks::CheckLine,
    drawing::{Anchor, Drawing, Item, Point, fitting},
    theme::{BODY, Ink, SMALL},
};

/// Thickness of a layer that is asked for where none lies, m. Teaching value, no source.
const ASKED_M: f64 = 5e-3;
/// Curves are straight between solved points; both are read at the same places.
const DROP_TOLERANCE: f64 = 0.01;
/// Height of a line of the key.
const LINE: f32 = 17.0;

/// A layer and the curve with it.
#[derive(Clone, Debug)]
pub struct LayerCurve<'a> {
    /// The set.
    pub set: &'a FieldEnergization,
    /// The layer.
    pub layer: LayerLoad,
    /// Points from onset up.
    pub points: Vec<VoltageCurrentPoint>,
}

impl<'a> LayerCurve<'a> {
    /// The curve of a set with a layer of this resistivity and thickness; of what is not said, its own, and 5 mm where
    /// none lies.
    #[must_use]
    pub fn new(
        set: &'a FieldEnergization,
        resistivity_ohm_m: Option<f64>,
        thickness_m: Option<f64>,
    ) -> Self {
        let own_m = (set.layer.thickness_m > 0.0).then_some(set.layer.thickness_m);
        let (layer, points) = set.with_layer(
            resistivity_ohm_m.unwrap_or(set.layer.resistivity_ohm_m),
            thickness_m.or(own_m).unwrap_or(ASKED_M),
        );
        Self { set, layer, points }
    }
}

/// Draws the chart of the field of this name in this size.
#[must_use]
pub fn layer_curve_drawing(
    curve: &LayerCurve<'_>,
    name: &str,
    units: UnitSystem,
    size: Point,
) -> Drawing {
    let mut drawing = Drawing::new(size);
    let set = curve.set;
    let titles = [
        format!("What a layer does to the curve, {name}"),
        format!("Curve with a layer, {name}"),
    ];
    let title = fitting(&titles, 0.85 * (size[0] - 4.0));
    drawing.bold([2.0, 12.0], Anchor::Left, title, BODY, Ink::Text);
    let layer = &curve.layer;
    let words = format!(
        "{}, {} thick",
        format(layer.resistivity_ohm_m, Dimension::Resistivity, units),
        format(layer.thickness_m, Dimension::PartSize, units)
    );
    drawing.text([2.0, 31.0], Anchor::Left, words, SMALL, Ink::Text);
    let shown = |point: &VoltageCurrentPoint| {
        (
            display(point.voltage_v, Dimension::Voltage, units).0,
            display(point.current_density_a_m2, Dimension::CurrentDensity, units).0,
        )
    };
    let plot = plot(curve, shown, size);
    let (_, unit) = display(0.0, Dimension::CurrentDensity, units);
    let name = format!("{unit}, mean on the plates");
    drawing.text([2.0, 49.0], Anchor::Left, name, SMALL, Ink::Faint);
    plot.upward(&mut drawing);
    plot.rightward(&mut drawing, "kV");
    let line = |points: &[VoltageCurrentPoint]| plot.curve(points.iter().map(shown));
    drawing.dashed(line(&set.dust_load), Ink::Gas, 2.4);
    drawing.line(line(&curve.points), Ink::Dust, 2.4);
    let breaks = breaking(curve).map(shown);
    if let Some((x, y)) = breaks {
        let centre = [plot.at_x(x), plot.at_y(y)];
        ring(&mut drawing, centre);
    }
    key(&mut drawing, curve, units, plot.max[1] + 22.0);
    drawing
}

fn ring(drawing: &mut Drawing, centre: Point) {
    drawing.items.push(Item::Ring {
        centre,
        radius: 5.0,
        ink: Ink::Trouble,
        width: 2.0,
    });
}

/// The frame: all of the bent curve, and of the clean one as much as lies beside it.
fn plot(
    curve: &LayerCurve<'_>,
    shown: impl Fn(&VoltageCurrentPoint) -> (f64, f64),
    size: Point,
) -> Linear {
    let most = |points: &[VoltageCurrentPoint]| {
        points
            .iter()
            .map(&shown)
            .fold((f64::MAX, 0.0_f64, 0.0_f64), |(from, to, top), (x, y)| {
                (from.min(x), to.max(x), top.max(y))
            })
    };
    let (clean, layered) = (most(&curve.set.dust_load), most(&curve.points));
    let (from, to) = (clean.0.min(layered.0), clean.1.max(layered.1));
    let room = 0.05 * (to - from).max(1.0);
    Linear {
        min: [46.0, 62.0],
        max: [size[0] - 14.0, size[1] - 26.0 - 3.0 * LINE],
        x: (from - room, to + room),
        y: (
            0.0,
            1.08 * clean.2.min(2.0 * layered.2).max(layered.2).max(1e-3),
        ),
    }
}

/// What becomes of the layer on the way up its curve.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum End {
    /// No layer that could break.
    None,
    /// The curve ends before.
    Whole,
    /// It breaks, and the gap sparks at once.
    Sparks,
    /// It breaks and glows.
    Glows,
}

impl End {
    fn of(curve: &LayerCurve<'_>) -> Self {
        let most_a_m2 = curve.layer.unbroken_a_m2();
        let limit_a_m2 = curve.set.settings.current_limit_a / curve.set.plate_area_m2;
        let top_a_m2 = curve
            .points
            .last()
            .map_or(0.0, |point| point.current_density_a_m2);
        if !most_a_m2.is_finite() {
            Self::None
        } else if top_a_m2 > most_a_m2 * (1.0 + 1e-9) {
            Self::Glows
        } else if top_a_m2 >= most_a_m2 * (1.0 - 1e-9) && limit_a_m2 > most_a_m2 {
            Self::Sparks
        } else {
            Self::Whole
        }
    }

    /// In words, with the current density at which it breaks.
    fn words(self, most: &str) -> String {
        match self {
            Self::None => "no layer that could break".to_owned(),
            Self::Whole => format!("would break at {most}"),
            Self::Sparks => format!("breaks at {most}: sparks"),
            Self::Glows => format!("breaks at {most}: back corona"),
        }
    }
}

/// Where the layer breaks: the last point before the curve goes to more current at less voltage, or ends.
fn breaking<'a>(curve: &'a LayerCurve<'_>) -> Option<&'a VoltageCurrentPoint> {
    let most = curve.layer.unbroken_a_m2() * (1.0 + 1e-9);
    let unbroken = |point: &&VoltageCurrentPoint| point.current_density_a_m2 <= most;
    let breaks = matches!(End::of(curve), End::Sparks | End::Glows);
    let last = curve.points.iter().rev().find(unbroken);
    last.filter(|_| breaks)
}

/// Three lines below the plot.
fn key(drawing: &mut Drawing, curve: &LayerCurve<'_>, units: UnitSystem, top: f32) {
    let unit = Dimension::CurrentDensity.display_unit(units);
    let most = format_in(curve.layer.unbroken_a_m2(), unit, &GasState::NORMAL, 3);
    let end = End::of(curve);
    let y = |row: f32| top + (row + 0.5) * LINE;
    drawing.dashed([[10.0, y(0.0)], [32.0, y(0.0)]], Ink::Gas, 2.4);
    drawing.line([[10.0, y(1.0)], [32.0, y(1.0)]], Ink::Dust, 2.4);
    if matches!(end, End::Sparks | End::Glows) {
        ring(drawing, [21.0, y(2.0)]);
    }
    let texts = [
        "plates clean".to_owned(),
        "with the layer: + j ρ h".to_owned(),
        end.words(&most),
    ];
    for (row, text) in texts.into_iter().enumerate() {
        drawing.text([38.0, y(row as f32)], Anchor::Left, text, SMALL, Ink::Text);
    }
}

/// The agreement line: how far the curves lie apart at the current of the set against jρh; nothing without current.
#[must_use]
pub fn layer_curve_check(curve: &LayerCurve<'_>, units: UnitSystem) -> Option<CheckLine> {
    let LayerLoad {
        resistivity_ohm_m,
        thickness_m,
        ..
    } = curve.layer;
    let both = layer_drop(curve.set, &curve.points, resistivity_ohm_m, thickness_m)?;
    let volts = |voltage_v| format(voltage_v, Dimension::Voltage, units);
    Some(CheckLine::of_ratio(
        "voltage lost in the layer: distance of the curves against jρh",
        format!(
            "{} apart, jρh gives {}",
            volts(both.shown),
            volts(both.expected)
        ),
        both.ratio(),
        DROP_TOLERANCE,
    ))
}
