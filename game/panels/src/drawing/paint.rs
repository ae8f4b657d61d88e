//! A drawing on the screen.

use egui::{
    Align2, Color32, Context, CornerRadius, FontId, Id, Mesh, Painter, Pos2, Rect, Shape, Stroke,
    StrokeKind, vec2,
};

use super::{Anchor, Drawing, Item, Point};
use crate::{
    fonts::bold_family,
    theme::{Ink, Theme},
};

/// Paints a drawing with its top left corner at `origin`.
pub fn paint(drawing: &Drawing, painter: &Painter, origin: Pos2, theme: Theme) {
    let least = painter.ctx().data(|data| data.get_temp(least_line_id()));
    let brush = Brush {
        origin,
        theme,
        least: least.unwrap_or_default(),
    };
    // The many rectangles of a map go as one mesh: quick, and without seams between them.
    let mut map = Mesh::default();
    for item in &drawing.items {
        if let Item::Cell { min, max, rgb } = item {
            map.add_colored_rect(
                brush.rect(min, max),
                Color32::from_rgb(rgb[0], rgb[1], rgb[2]),
            );
            continue;
        }
        if !map.is_empty() {
            painter.add(std::mem::take(&mut map));
        }
        match item {
            Item::Line { .. } | Item::Ring { .. } => painter.add(brush.stroked(item)),
            Item::Text { .. } => {
                text(item, painter, origin, theme);
                continue;
            }
            _ => painter.add(brush.filled(item)),
        };
    }
    if !map.is_empty() {
        painter.add(map);
    }
}

/// Paints a drawing with every point put somewhere else, lines and words as faint as asked, 0 to 1.
pub(crate) fn paint_placed(
    drawing: &Drawing,
    painter: &Painter,
    theme: Theme,
    place: impl Fn(Point) -> Point + Copy,
    (lines, words): (f32, f32),
) {
    for (wanted, opacity) in [(false, lines), (true, words)] {
        if opacity <= 0.0 {
            continue;
        }
        let is_words = |item: &&Item| matches!(item, Item::Text { .. }) == wanted;
        let items = drawing.items.iter().filter(is_words).cloned();
        let part = Drawing {
            size: drawing.size,
            items: items.map(|item| item.placed(place)).collect(),
        };
        let mut painter = painter.clone();
        painter.multiply_opacity(opacity);
        paint(&part, &painter, Pos2::ZERO, theme);
    }
}

/// Says how thin a line may be in this window, points; thinner ones are widened.
pub(crate) fn least_line(context: &Context, width: f32) {
    context.data_mut(|data| data.insert_temp(least_line_id(), width));
}

fn least_line_id() -> Id {
    Id::new("least width of a line")
}

struct Brush {
    origin: Pos2,
    theme: Theme,
    least: f32,
}

impl Brush {
    fn place(&self, point: &Point) -> Pos2 {
        self.origin + vec2(point[0], point[1])
    }

    fn places(&self, points: &[Point]) -> Vec<Pos2> {
        points.iter().map(|point| self.place(point)).collect()
    }

    fn rect(&self, min: &Point, max: &Point) -> Rect {
        Rect::from_min_max(self.place(min), self.place(max))
    }

    fn stroke(&self, width: f32, ink: Ink) -> Stroke {
        Stroke::new(width.max(self.least), ink.colour(self.theme))
    }

    fn stroked(&self, item: &Item) -> Shape {
        match item {
            Item::Line {
                points,
                ink,
                width,
                dash,
            } => {
                let (points, stroke) = (self.places(points), self.stroke(*width, *ink));
                match dash {
                    None => Shape::line(points, stroke),
                    Some((on, off)) => Shape::Vec(Shape::dashed_line(&points, stroke, *on, *off)),
                }
            }
            Item::Ring {
                centre,
                radius,
                ink,
                width,
            } => Shape::circle_stroke(self.place(centre), *radius, self.stroke(*width, *ink)),
            _ => Shape::Noop,
        }
    }

    /// Two triangles from each place to the next: a band need not be convex.
    fn band(&self, ends: &[[Point; 2]], colour: Color32) -> Mesh {
        let mut mesh = Mesh::default();
        for end in ends.as_flattened() {
            mesh.colored_vertex(self.place(end), colour);
        }
        for place in 1..ends.len() as u32 {
            let low = 2 * place - 2;
            mesh.add_triangle(low, low + 1, low + 2);
            mesh.add_triangle(low + 1, low + 2, low + 3);
        }
        mesh
    }

    fn filled(&self, item: &Item) -> Shape {
        // The engine blends in linear light.
        let seen = |ink: &Ink, opacity: &f32| ink.colour(self.theme).linear_multiply(*opacity);
        match item {
            Item::Rect {
                min,
                max,
                ink,
                opacity,
                corner,
            } => Shape::rect_filled(
                self.rect(min, max),
                CornerRadius::same(*corner as u8),
                seen(ink, opacity),
            ),
            Item::Dot {
                centre,
                radius,
                ink,
                opacity,
            } => Shape::circle_filled(self.place(centre), *radius, seen(ink, opacity)),
            Item::Area {
                points,
                ink,
                opacity,
            } => Shape::convex_polygon(self.places(points), seen(ink, opacity), Stroke::NONE),
            Item::Band { ends, ink, opacity } => Shape::mesh(self.band(ends, seen(ink, opacity))),
            _ => Shape::Noop,
        }
    }
}

fn text(item: &Item, painter: &Painter, origin: Pos2, theme: Theme) {
    let Item::Text {
        at,
        anchor,
        text,
        size,
        ink,
        bold,
        plate,
    } = item
    else {
        return;
    };
    let align = match anchor {
        Anchor::Left => Align2::LEFT_CENTER,
        Anchor::Centre => Align2::CENTER_CENTER,
        Anchor::Right => Align2::RIGHT_CENTER,
        Anchor::Top => Align2::CENTER_TOP,
        Anchor::Bottom => Align2::CENTER_BOTTOM,
    };
    let family = if *bold {
        bold_family()
    } else {
        egui::FontFamily::Proportional
    };
    let colour = ink.colour(theme);
    let galley = painter.layout_no_wrap(text.clone(), FontId::new(*size, family), colour);
    let rect = align.anchor_size(origin + vec2(at[0], at[1]), galley.size());
    if *plate {
        let ground = Ink::Ground.colour(theme);
        painter.rect(
            rect.expand2(vec2(4.0, 1.0)),
            3.0,
            ground,
            Stroke::NONE,
            StrokeKind::Inside,
        );
    }
    painter.galley(rect.min, galley, colour);
}
