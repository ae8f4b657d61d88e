//! Below the machine and over the same length: the draught at every station, and on a larger scale what the collector takes.

use ashlane_shared::{
    physics::gas_path::pressure::Station,
    simulation::{GasAlong, GasStation},
    units::{Dimension, display, number_text},
};

use super::{ElevationPlaces, ElevationView, ducts::plates_at_m};
use crate::{
    drawing::{Anchor, Drawing, Item, Point, text_width},
    plan::nice_below,
    theme::{Ink, SMALL},
};

/// Room above the curves for the title, and below, points.
const TITLE: f32 = 15.0;
const UNDER: f32 = 10.0;
/// Where the axis of the draught stands, points from the edge.
const AXIS: f32 = 52.0;
/// Steps of the axis at least.
const STEPS: f64 = 2.0;
/// The loss of the collector reaches down so much of the strip.
const LOSS: f64 = 0.8;

pub(super) fn strip(drawing: &mut Drawing, view: &ElevationView<'_>, places: &ElevationPlaces) {
    let Some(gas) = view.gas.filter(|_| places.below.strip > 0.0) else {
        return;
    };
    let bottom = drawing.size[1] - 24.0 - places.below.legend;
    let top = bottom - places.below.strip;
    if !places.is_whole() {
        drawing.rect([0.0, top], [drawing.size[0], bottom], Ink::Ground, 1.0);
    }
    let plot = Plot::new(gas, [top + TITLE, bottom - UNDER]);
    axis(drawing, view, &plot);
    let way: Vec<Point> = (gas.stations.iter())
        .map(|station| {
            [
                station_x(view, places, station.station),
                plot.y(station.static_gauge_pa),
            ]
        })
        .collect();
    for point in &way {
        drawing.dot(*point, 2.2, Ink::Gas);
    }
    drawing.line(way, Ink::Gas, 1.8);
    loss(drawing, view, places, (gas, &plot));
    let (_, unit) = display(0.0, view.draught(), view.units);
    let title = format!("static pressure against the air outside, {unit}");
    drawing.text(
        [AXIS + 6.0, top + 7.0],
        Anchor::Left,
        title,
        SMALL,
        Ink::Gas,
    );
    values(drawing, view, places, (gas, &plot));
}

/// Height on the drawing by pressure.
#[derive(Debug)]
struct Plot {
    top: f32,
    bottom: f32,
    low_pa: f64,
    high_pa: f64,
}

impl Plot {
    fn new(gas: &GasAlong, [top, bottom]: [f32; 2]) -> Self {
        let all = || gas.stations.iter().map(|station| station.static_gauge_pa);
        Self {
            top,
            bottom,
            low_pa: all().fold(-1.0, f64::min),
            high_pa: all().fold(0.0, f64::max),
        }
    }

    fn y(&self, gauge_pa: f64) -> f32 {
        let share = (self.high_pa - gauge_pa) / (self.high_pa - self.low_pa);
        self.top + share as f32 * (self.bottom - self.top)
    }
}

/// Lines at round pressures, with their numbers.
fn axis(drawing: &mut Drawing, view: &ElevationView<'_>, plot: &Plot) {
    let shown = |pa: f64| display(pa, view.draught(), view.units);
    let per_pa = shown(1.0).0 - shown(0.0).0;
    let step_pa = nice_below(per_pa * (plot.high_pa - plot.low_pa) / STEPS) / per_pa;
    let right = drawing.size[0] - 12.0;
    let (first, last) = (
        (plot.low_pa / step_pa).ceil(),
        (plot.high_pa / step_pa).floor(),
    );
    for step in first as i32..=last as i32 {
        let pa = f64::from(step) * step_pa;
        let y = plot.y(pa);
        drawing.line([[AXIS, y], [right, y]], Ink::Rule, 0.8);
        let text = number_text(shown(pa).0, 3);
        drawing.text([AXIS - 4.0, y], Anchor::Right, text, SMALL, Ink::Gas);
    }
}

/// Where a station lies along the machine.
fn station_x(view: &ElevationView<'_>, places: &ElevationPlaces, station: Station) -> f32 {
    let measures = &places.measures;
    let (left_m, right_m) = measures.walls_m();
    let plates_m = plates_at_m(view, measures);
    let before_m = plates_m.last().map_or(left_m, |plate_m| plate_m - 0.3);
    let (fan_m, wheel_m) = (measures.fan_at_m(), measures.wheel_m());
    let x_m = match station {
        Station::Start if measures.pushes => fan_m - wheel_m,
        Station::Start => measures.heater_m()[2],
        Station::PushingFan | Station::PullingFan => fan_m + wheel_m,
        Station::InletDuct => left_m - measures.nozzle_m,
        Station::InletNozzle => before_m,
        Station::Plate(number) => {
            let index = plates_m.len().checked_sub(number);
            let plate_m = index.and_then(|index| plates_m.get(index));
            plate_m.map_or(left_m, |plate_m| plate_m + 0.2)
        }
        Station::Field(number) => measures.field_at_m(number.saturating_sub(1)) + measures.field_m,
        Station::OutletNozzle => right_m + measures.nozzle_m,
        Station::OutletDuct if measures.pushes => measures.stack_at_m() - 0.5 * measures.stack_m,
        Station::OutletDuct => fan_m - wheel_m,
        Station::Stack => measures.stack_at_m(),
    };
    places.x(x_m)
}

/// Total pressure, Pa over the air.
fn total_pa(station: &GasStation) -> f64 {
    station.static_gauge_pa + 0.5 * station.density_kg_m3 * station.velocity_m_s.powi(2)
}

/// Total pressure lost since the inlet nozzle began, hanging from the line of the air, on a scale of its own.
fn loss(
    drawing: &mut Drawing,
    view: &ElevationView<'_>,
    places: &ElevationPlaces,
    (gas, plot): (&GasAlong, &Plot),
) {
    let from = gas
        .stations
        .iter()
        .position(|one| one.station == Station::InletDuct);
    let to = gas
        .stations
        .iter()
        .position(|one| one.station == Station::OutletNozzle);
    let Some((from, to)) = from.zip(to) else {
        return;
    };
    let stations = &gas.stations[from..=to];
    let start_pa = total_pa(&stations[0]);
    let zero = plot.y(0.0);
    let per_pa = (LOSS / gas.collector_loss_pa.max(1e-9)) as f32 * (plot.bottom - zero);
    let way: Vec<Point> = stations
        .iter()
        .map(|one| {
            let lost_pa = start_pa - total_pa(one);
            [
                station_x(view, places, one.station),
                zero + per_pa * lost_pa as f32,
            ]
        })
        .collect();
    let (Some(end), Some([way_begins, _])) = (way.last().copied(), way.first().copied()) else {
        return;
    };
    drawing.items.push(Item::Line {
        points: way,
        ink: Ink::Laminar,
        width: 1.8,
        dash: Some((5.0, 3.0)),
    });
    // Its scale: from nothing to what all of it takes.
    let x = end[0] + 7.0 * places.way();
    drawing.line([[x, zero], [x, end[1]]], Ink::Laminar, 1.0);
    for y in [zero, end[1]] {
        drawing.line([[x - 3.0, y], [x + 3.0, y]], Ink::Laminar, 1.0);
    }
    let at = [x - 12.0 * places.way(), zero + 11.0];
    let room = (x - way_begins).abs() - 60.0;
    loss_words(drawing, view, (at, room, places.way()), (gas, plot));
}

/// How much it is in the end, and how many times larger it is drawn.
fn loss_words(
    drawing: &mut Drawing,
    view: &ElevationView<'_>,
    (at, room, way): (Point, f32, f32),
    (gas, plot): (&GasAlong, &Plot),
) {
    let lost = view.text(gas.collector_loss_pa, Dimension::PressureDrop);
    let times = number_text(times(gas, plot), 2);
    let texts = [
        format!("{lost} lost in the collector, drawn ×{times}"),
        format!("{lost} lost in the collector"),
        format!("{lost} lost"),
    ];
    let anchor = if way > 0.0 {
        Anchor::Right
    } else {
        Anchor::Left
    };
    let fits = |text: &&String| text_width(text, SMALL, false) < room;
    if let Some(text) = texts.iter().find(fits) {
        drawing.label(at, anchor, text.as_str(), SMALL, Ink::Laminar);
    }
}

/// How many times larger the loss of the collector is drawn than the draught.
fn times(gas: &GasAlong, plot: &Plot) -> f64 {
    LOSS * -plot.low_pa / gas.collector_loss_pa.max(1e-9)
}

/// The draught in numbers where it turns: at both ends, and on both sides of the fan.
fn values(
    drawing: &mut Drawing,
    view: &ElevationView<'_>,
    places: &ElevationPlaces,
    (gas, plot): (&GasAlong, &Plot),
) {
    let told = |station: Station| {
        matches!(
            station,
            Station::Start
                | Station::PushingFan
                | Station::InletDuct
                | Station::OutletDuct
                | Station::PullingFan
        )
    };
    for one in gas.stations.iter().filter(|one| told(one.station)) {
        let text = view.text(one.static_gauge_pa, view.draught());
        let point = [
            station_x(view, places, one.station),
            plot.y(one.static_gauge_pa),
        ];
        let half = 0.5 * text_width(&text, SMALL, false);
        let x = point[0].clamp(AXIS + 6.0 + half, drawing.size[0] - 12.0 - half);
        // Over the curve where there is room, else below it.
        let seats = [(Anchor::Bottom, -4.0), (Anchor::Top, 4.0)];
        let free = seats.into_iter().find(|(anchor, off)| {
            let mut trial = Drawing::new(drawing.size);
            trial.text([x, point[1] + off], *anchor, text.as_str(), SMALL, Ink::Gas);
            let rect = trial.texts().next().map(|(_, min, max)| (min, max));
            rect.is_some_and(|rect| {
                rect.0[1] > plot.top - TITLE
                    && rect.1[1] < plot.bottom + UNDER
                    && is_free(drawing, rect)
            })
        });
        if let Some((anchor, off)) = free.filter(|_| (point[0] - x).abs() < 2.0 * half) {
            drawing.label([x, point[1] + off], anchor, text, SMALL, Ink::Gas);
        }
    }
}

/// Whether no text of the drawing lies in a rectangle.
fn is_free(drawing: &Drawing, (min, max): (Point, Point)) -> bool {
    drawing.texts().all(|(_, other_min, other_max)| {
        let wide = max[0].min(other_max[0]) - min[0].max(other_min[0]);
        let high = max[1].min(other_max[1]) - min[1].max(other_min[1]);
        wide < -4.0 || high < 0.0
    })
}
