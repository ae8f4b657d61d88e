//! Line drawings as data: the same figure goes to the window, to an SVG file and to print.

mod leaders;
mod paint;
pub(crate) mod sparks;
mod svg;
mod text;

pub(crate) use leaders::{Name, blanks_in_rows, label_where_free, names_in_rows};
pub(crate) use paint::least_line;
pub use paint::paint;
pub(crate) use paint::paint_placed;
pub use svg::svg;
pub(crate) use svg::{escaped, svg_on_paper};
pub use text::text_width;
pub(crate) use text::{fitting, lines_of};

use crate::theme::Ink;

/// A point in the drawing, in points from its top left corner.
pub type Point = [f32; 2];

/// Which point of a text stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Left end, middle of the height.
    Left,
    /// Centre.
    Centre,
    /// Right end, middle of the height.
    Right,
    /// Middle of the top.
    Top,
    /// Middle of the bottom.
    Bottom,
}

/// One piece of a drawing, later pieces over earlier ones.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// Connected straight lines.
    Line {
        /// Corners.
        points: Vec<Point>,
        /// Colour.
        ink: Ink,
        /// Width, points.
        width: f32,
        /// Length of dashes and gaps; nothing is a whole line.
        dash: Option<(f32, f32)>,
    },
    /// A filled rectangle.
    Rect {
        /// Top left.
        min: Point,
        /// Bottom right.
        max: Point,
        /// Colour.
        ink: Ink,
        /// 0 (nothing) to 1 (solid).
        opacity: f32,
        /// Radius of the corners.
        corner: f32,
    },
    /// A rectangle of a map.
    Cell {
        /// Top left.
        min: Point,
        /// Bottom right.
        max: Point,
        /// Red, green, blue.
        rgb: [u8; 3],
    },
    /// A disc.
    Dot {
        /// Middle.
        centre: Point,
        /// Radius, points.
        radius: f32,
        /// Colour.
        ink: Ink,
        /// 0 (nothing) to 1 (solid).
        opacity: f32,
    },
    /// A ring.
    Ring {
        /// Middle.
        centre: Point,
        /// Radius, points.
        radius: f32,
        /// Colour.
        ink: Ink,
        /// Width of the line.
        width: f32,
    },
    /// A filled convex area.
    Area {
        /// Corners.
        points: Vec<Point>,
        /// Colour.
        ink: Ink,
        /// 0 (nothing) to 1 (solid).
        opacity: f32,
    },
    /// A filled band between two lines over the same places.
    Band {
        /// Lower and upper end at every place, from left to right.
        ends: Vec<[Point; 2]>,
        /// Colour.
        ink: Ink,
        /// 0 (nothing) to 1 (solid).
        opacity: f32,
    },
    /// A text.
    Text {
        /// Where its anchor stands.
        at: Point,
        /// Which point of it that is.
        anchor: Anchor,
        /// The words.
        text: String,
        /// Size, points.
        size: f32,
        /// Colour.
        ink: Ink,
        /// Whether it is bold.
        bold: bool,
        /// Whether the ground shows behind it, so that lines do not run through it.
        plate: bool,
    },
}

impl Item {
    /// The same piece at another place.
    #[must_use]
    pub fn moved(self, by: Point) -> Self {
        self.placed(|[x, y]| [x + by[0], y + by[1]])
    }

    /// Every point of it.
    #[must_use]
    pub fn points(&self) -> Vec<Point> {
        match self {
            Self::Line { points, .. } | Self::Area { points, .. } => points.clone(),
            Self::Band { ends, .. } => ends.as_flattened().to_vec(),
            Self::Rect { min, max, .. } | Self::Cell { min, max, .. } => vec![*min, *max],
            Self::Dot { centre, .. } | Self::Ring { centre, .. } => vec![*centre],
            Self::Text { at, .. } => vec![*at],
        }
    }

    /// The same piece with thinner lines and smaller dots.
    #[must_use]
    pub fn thinner(mut self, times: f32) -> Self {
        match &mut self {
            Self::Line { width, .. } => *width /= times,
            Self::Ring { width, radius, .. } => {
                *width /= times;
                *radius /= times;
            }
            Self::Dot { radius, .. } => *radius /= times,
            _ => {}
        }
        self
    }

    /// The same piece as in a mirror that stands upright here; its words still read from left to right.
    #[must_use]
    pub fn mirrored(self, about: f32) -> Self {
        let mut item = self.placed(|[x, y]| [2.0 * about - x, y]);
        match &mut item {
            Self::Text { anchor, .. } => {
                *anchor = match *anchor {
                    Anchor::Left => Anchor::Right,
                    Anchor::Right => Anchor::Left,
                    same => same,
                };
            }
            Self::Rect { min, max, .. } | Self::Cell { min, max, .. } => {
                std::mem::swap(&mut min[0], &mut max[0]);
            }
            _ => {}
        }
        item
    }

    /// The same piece with every point put somewhere else; lines, dots and words keep their size.
    #[must_use]
    pub fn placed(mut self, place: impl Fn(Point) -> Point) -> Self {
        let shift = |point: &mut Point| *point = place(*point);
        match &mut self {
            Self::Line { points, .. } | Self::Area { points, .. } => {
                points.iter_mut().for_each(shift);
            }
            Self::Band { ends, .. } => ends.iter_mut().flatten().for_each(shift),
            Self::Rect { min, max, .. } | Self::Cell { min, max, .. } => {
                [min, max].into_iter().for_each(shift);
            }
            Self::Dot { centre, .. } | Self::Ring { centre, .. } => shift(centre),
            Self::Text { at, .. } => shift(at),
        }
        self
    }
}

/// A drawing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawing {
    /// Width and height, points.
    pub size: Point,
    /// Pieces, back to front.
    pub items: Vec<Item>,
}

impl Drawing {
    /// An empty drawing.
    #[must_use]
    pub const fn new(size: Point) -> Self {
        Self {
            size,
            items: Vec::new(),
        }
    }

    /// Adds a whole line.
    pub fn line(&mut self, points: impl Into<Vec<Point>>, ink: Ink, width: f32) {
        self.items.push(Item::Line {
            points: points.into(),
            ink,
            width,
            dash: None,
        });
    }

    /// Adds a dashed line.
    pub fn dashed(&mut self, points: impl Into<Vec<Point>>, ink: Ink, width: f32) {
        self.items.push(Item::Line {
            points: points.into(),
            ink,
            width,
            dash: Some((6.0, 4.0)),
        });
    }

    /// Adds a rectangle between two opposite corners.
    pub fn rect(&mut self, one: Point, other: Point, ink: Ink, opacity: f32) {
        self.items.push(Item::Rect {
            min: [one[0].min(other[0]), one[1].min(other[1])],
            max: [one[0].max(other[0]), one[1].max(other[1])],
            ink,
            opacity,
            corner: 0.0,
        });
    }

    /// Adds a disc.
    pub fn dot(&mut self, centre: Point, radius: f32, ink: Ink) {
        self.items.push(Item::Dot {
            centre,
            radius,
            ink,
            opacity: 1.0,
        });
    }

    /// Adds a band.
    pub fn band(&mut self, ends: Vec<[Point; 2]>, ink: Ink, opacity: f32) {
        self.items.push(Item::Band { ends, ink, opacity });
    }

    /// Adds a text.
    pub fn text(
        &mut self,
        at: Point,
        anchor: Anchor,
        text: impl Into<String>,
        size: f32,
        ink: Ink,
    ) {
        self.items.push(Item::Text {
            at,
            anchor,
            text: text.into(),
            size,
            ink,
            bold: false,
            plate: false,
        });
    }

    /// Adds a bold text.
    pub fn bold(
        &mut self,
        at: Point,
        anchor: Anchor,
        text: impl Into<String>,
        size: f32,
        ink: Ink,
    ) {
        self.text(at, anchor, text, size, ink);
        if let Some(Item::Text { bold, .. }) = self.items.last_mut() {
            *bold = true;
        }
    }

    /// Adds a text with the ground behind it.
    pub fn label(
        &mut self,
        at: Point,
        anchor: Anchor,
        text: impl Into<String>,
        size: f32,
        ink: Ink,
    ) {
        self.text(at, anchor, text, size, ink);
        if let Some(Item::Text { plate, .. }) = self.items.last_mut() {
            *plate = true;
        }
    }

    /// Adds a tick for what is right, a cross for what is wrong, of this size.
    pub fn verdict(&mut self, [x, y]: Point, size: f32, right: bool, ink: Ink) {
        let half = 0.5 * size;
        if right {
            self.line(
                [
                    [x - half, y],
                    [x - 0.1 * size, y + 0.4 * size],
                    [x + half, y - 0.5 * size],
                ],
                ink,
                2.5,
            );
        } else {
            self.line([[x - half, y - half], [x + half, y + half]], ink, 2.5);
            self.line([[x - half, y + half], [x + half, y - half]], ink, 2.5);
        }
    }

    /// Every text with the rectangle that it takes.
    pub fn texts(&self) -> impl Iterator<Item = (&str, Point, Point)> {
        self.items.iter().filter_map(|item| match item {
            Item::Text {
                at,
                anchor,
                text,
                size,
                bold,
                ..
            } => {
                let (min, max) = text::text_rect(*at, *anchor, text, *size, *bold);
                Some((text.as_str(), min, max))
            }
            _ => None,
        })
    }
}
