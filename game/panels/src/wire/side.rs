//! The key beside the cell: the scale of colours, what the lines are, and the wire enlarged with its glowing skin.

use ashlane_shared::units::Dimension;

use super::{
    WirePlaces, WireView,
    glow::thickness_m,
    lines::{cased, cased_dashes},
    map::{self, Scale},
    places::LINE,
};
use crate::{
    cividis,
    drawing::{Anchor, Drawing, Item, Point, fitting, text_width},
    theme::{Ink, SMALL},
};

/// Widths of the scale of colours, and of the words beside the enlargement.
const SCALE: f32 = 210.0;
const WORDS: f32 = 118.0;
/// Largest radius of the enlargement.
const LARGEST: f32 = 190.0;
/// The glow, or without one the wire, takes this share of the radius of the enlargement.
const FILLED: f64 = 0.5;
/// Height of the scale of colours with its words.
const SCALE_TALL: f32 = 46.0;

/// What the enlargement shows.
pub(super) struct Content<'a> {
    /// Colours.
    pub(super) scale: Option<&'a Scale>,
    /// Ion paths of a quarter, m.
    pub(super) paths_m: &'a [Vec<[f64; 2]>],
    /// Edge of the glow, m.
    pub(super) edge_m: Option<&'a [[f64; 2]]>,
}

/// The enlargement: where it stands, how large, how many times.
#[derive(Clone, Copy)]
pub(super) struct Enlarged {
    /// Left edge of the scale and the names.
    names_left: f32,
    centre: Point,
    radius: f32,
    times: f32,
}

impl Enlarged {
    /// The largest that fits: below the scale and the lines' names or beside them.
    pub(super) fn place(view: &WireView<'_>, places: &WirePlaces, glow_m: f64) -> Self {
        let ([left, top], [right, bottom]) = places.key;
        let rows = SCALE_TALL + 3.0 * LINE + 6.0;
        let below = (right - left - WORDS).min(bottom - top - rows);
        let beside = (right - left - SCALE - 30.0 - WORDS).min(bottom - top);
        let radius = (0.5 * below.max(beside)).clamp(24.0, LARGEST);
        let (names_left, centre) = if below >= beside {
            (left, [left + radius, top + rows + radius])
        } else {
            // Next to the cell, so that the lines from the wire run through no words.
            let names_left = left + 2.0 * radius + WORDS + 30.0;
            (names_left, [left + radius, top + radius])
        };
        let shown_m = (view.field.row().wire_radius_m() + glow_m) / FILLED;
        let times = (radius / (shown_m as f32 * places.per_m)).floor().max(1.0);
        Self {
            names_left,
            centre,
            radius,
            times,
        }
    }

    /// Top left of the scale and the names, and their right edge.
    pub(super) fn names(&self, places: &WirePlaces) -> (Point, f32) {
        let ([_, top], [right, _]) = places.key;
        ([self.names_left, top], right)
    }

    /// Radius in the cell of what is enlarged.
    pub(super) fn ring(&self) -> f32 {
        self.radius / self.times
    }

    /// Draws it, and the lines that lead to it from the wire.
    pub(super) fn draw(
        &self,
        drawing: &mut Drawing,
        view: &WireView<'_>,
        places: &WirePlaces,
        content: &Content<'_>,
    ) {
        let (centre, radius) = (self.centre, self.radius);
        let [x, y] = places.centre();
        for side in [-1.0, 1.0] {
            let from = [x, y + side * self.ring()];
            cased(
                drawing,
                vec![from, [centre[0], centre[1] + side * radius]],
                Ink::Text,
                0.8,
            );
        }
        let ring = |centre, radius| Item::Ring {
            centre,
            radius,
            ink: Ink::Text,
            width: 1.8,
        };
        drawing.items.push(ring([x, y], self.ring()));
        drawing.dot(centre, radius + 1.0, Ink::Ground);
        self.content(drawing, view, places, content);
        drawing.items.push(ring(centre, radius));
        self.words(drawing, view, content.edge_m);
    }

    /// Colours, ion paths, glow and wire.
    fn content(
        &self,
        drawing: &mut Drawing,
        view: &WireView<'_>,
        places: &WirePlaces,
        content: &Content<'_>,
    ) {
        let (centre, radius) = (self.centre, self.radius);
        let per_m = places.per_m * self.times;
        if let Some(scale) = content.scale {
            // Patches end on whole points: a little less keeps them within the rim.
            map::disc(drawing, view, (centre, radius - 0.8), per_m, scale);
        }
        let at = |[x_m, y_m]: [f64; 2]| {
            [
                centre[0] + x_m as f32 * per_m,
                centre[1] - y_m as f32 * per_m,
            ]
        };
        let shown_m = f64::from(radius / per_m);
        for path in content.paths_m {
            for [x_side, y_side] in [[1.0, 1.0], [-1.0, 1.0], [1.0, -1.0], [-1.0, -1.0]] {
                let inside = path.iter().filter(|[x, y]| x.hypot(*y) < shown_m);
                let points = inside.map(|[x, y]| at([x_side * x, y_side * y])).collect();
                cased(drawing, points, Ink::Text, 1.0);
            }
        }
        if let Some(edge_m) = content.edge_m {
            let mut points: Vec<Point> = edge_m.iter().copied().map(at).collect();
            drawing.items.push(glow_area(points.clone(), 0.55));
            points.extend(points.first().copied());
            cased(drawing, points, Ink::HighVoltage, 1.6);
        }
        let wire = view.field.row().wire_radius_m() as f32 * per_m;
        drawing.dot(centre, wire + 1.0, Ink::Ground);
        drawing.dot(centre, wire, Ink::Electrode);
    }

    fn words(&self, drawing: &mut Drawing, view: &WireView<'_>, edge_m: Option<&[[f64; 2]]>) {
        let row = view.field.row();
        let wire = view.text(2.0 * row.wire_radius_m(), Dimension::PartSize);
        let thick = view.text(thickness_m(view, edge_m), Dimension::PartSize);
        let glow = if edge_m.is_some() {
            format!("glow {thick}")
        } else {
            "no glow".to_owned()
        };
        let texts = [format!("×{:.0}", self.times), format!("wire {wire}"), glow];
        let x = self.centre[0] + self.radius + 10.0;
        for (line, text) in texts.into_iter().enumerate() {
            let y = self.centre[1] + (line as f32 - 1.0) * LINE;
            drawing.text([x, y], Anchor::Left, text, SMALL, Ink::Text);
        }
    }
}

/// The glow as an area.
pub(super) fn glow_area(points: Vec<Point>, opacity: f32) -> Item {
    Item::Area {
        points,
        ink: Ink::HighVoltage,
        opacity,
    }
}

/// The scale of colours.
pub(super) fn colours(
    drawing: &mut Drawing,
    view: &WireView<'_>,
    ([left, top], right): (Point, f32),
    scale: Option<&Scale>,
) {
    let Some(scale) = scale else {
        drawing.text(
            [left, top + 8.0],
            Anchor::Left,
            "no ions flow",
            SMALL,
            Ink::Text,
        );
        return;
    };
    let title = format!("{}, {}, logarithmic", scale.name, scale.unit.symbol);
    drawing.text([left, top + 8.0], Anchor::Left, title, SMALL, Ink::Text);
    let bar = SCALE.min(right - left) - 12.0;
    let steps = 48_u8;
    for step in 0..steps {
        let [from, to] = [step, step + 1].map(|at| left + bar * f32::from(at) / f32::from(steps));
        drawing.items.push(Item::Cell {
            min: [from, top + 18.0],
            max: [to + 0.3, top + 28.0],
            rgb: cividis::themed_rgb((f32::from(step) + 0.5) / f32::from(steps), view.theme),
        });
    }
    let mut free_from = f32::MIN;
    for (share, mark) in scale.marks() {
        let at = left + bar * share;
        let text = number(mark);
        let half = 0.5 * text_width(&text, SMALL, false);
        drawing.line([[at, top + 28.0], [at, top + 31.0]], Ink::Text, 1.0);
        if at - half > free_from && at + half <= right {
            let at = at.max(left + half - 2.0);
            drawing.text([at, top + 38.0], Anchor::Centre, text, SMALL, Ink::Text);
            free_from = at + half + 5.0;
        }
    }
}

/// A number of the scale: powers of ten where it would be long.
pub(super) fn number(value: f64) -> String {
    if (1e-3..1e4).contains(&value) {
        return ashlane_shared::units::number_text(value, 3);
    }
    let exponent = value.abs().log10().floor();
    let lead = value / 10_f64.powf(exponent);
    let raised: String = format!("{exponent:.0}")
        .chars()
        .map(|digit| match digit {
            '-' => '⁻',
            '1' => '¹',
            '2' => '²',
            '3' => '³',
            '4' => '⁴',
            '5' => '⁵',
            '6' => '⁶',
            '7' => '⁷',
            '8' => '⁸',
            '9' => '⁹',
            _ => '⁰',
        })
        .collect();
    let lead = ashlane_shared::units::number_text(lead, 2);
    format!("{lead}·10{raised}")
}

/// What the lines are.
pub(super) fn names(
    drawing: &mut Drawing,
    view: &WireView<'_>,
    ([left, top], right): (Point, f32),
) {
    let room = right - left - 32.0;
    let y = |row: f32| top + SCALE_TALL + (row + 0.5) * LINE;
    cased_dashes(drawing, vec![[left, y(0.0)], [left + 24.0, y(0.0)]]);
    cased(
        drawing,
        vec![[left, y(1.0)], [left + 24.0, y(1.0)]],
        Ink::Text,
        1.0,
    );
    drawing.items.push(glow_area(
        vec![
            [left + 4.0, y(2.0) - 5.0],
            [left + 20.0, y(2.0) - 5.0],
            [left + 20.0, y(2.0) + 5.0],
            [left + 4.0, y(2.0) + 5.0],
        ],
        0.8,
    ));
    let limit = view.text(view.glow_field_v_m, Dimension::Field);
    let (paths, short) = if view.has_corona() {
        ("ion paths, equal current between", "ion paths")
    } else {
        ("field lines; no ions flow", "field lines")
    };
    let texts = [
        vec![
            "lines of equal voltage".to_owned(),
            "equal voltage".to_owned(),
        ],
        vec![paths.to_owned(), short.to_owned()],
        vec![
            format!("glow: field above {limit}"),
            format!("glow above {limit}"),
        ],
    ];
    for (row, texts) in texts.iter().enumerate() {
        let text = fitting(texts, room.min(SCALE));
        drawing.text(
            [left + 32.0, y(row as f32)],
            Anchor::Left,
            text,
            SMALL,
            Ink::Text,
        );
    }
}
