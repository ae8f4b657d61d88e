//! A drawing on the screen.

use egui::{
    Align2, Color32, CornerRadius, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, vec2,
};

use super::{Anchor, Drawing, Item, Point};
use crate::{
    fonts::bold_family,
    theme::{Ink, Theme},
};

/// Paints a drawing with its top left corner at `origin`.
pub fn paint(drawing: &Drawing, painter: &Painter, origin: Pos2, theme: Theme) {
    let place = |point: &Point| origin + vec2(point[0], point[1]);
    for item in &drawing.items {
        match item {
            Item::Line {
                points,
                ink,
                width,
                dash,
            } => {
                let points: Vec<Pos2> = points.iter().map(place).collect();
                let stroke = Stroke::new(*width, ink.colour(theme));
                match dash {
                    None => painter.add(Shape::line(points, stroke)),
                    Some((on, off)) => {
                        painter.add(Shape::Vec(Shape::dashed_line(&points, stroke, *on, *off)))
                    }
                };
            }
            Item::Rect {
                min,
                max,
                ink,
                opacity,
                corner,
            } => {
                let rect = Rect::from_min_max(place(min), place(max));
                painter.rect_filled(
                    rect,
                    CornerRadius::same(*corner as u8),
                    seen(*ink, *opacity, theme),
                );
            }
            Item::Cell { min, max, rgb } => {
                let rect = Rect::from_min_max(place(min), place(max));
                painter.rect_filled(
                    rect,
                    CornerRadius::ZERO,
                    Color32::from_rgb(rgb[0], rgb[1], rgb[2]),
                );
            }
            Item::Dot {
                centre,
                radius,
                ink,
                opacity,
            } => {
                painter.circle_filled(place(centre), *radius, seen(*ink, *opacity, theme));
            }
            Item::Ring {
                centre,
                radius,
                ink,
                width,
            } => {
                painter.circle_stroke(
                    place(centre),
                    *radius,
                    Stroke::new(*width, ink.colour(theme)),
                );
            }
            Item::Area {
                points,
                ink,
                opacity,
            } => {
                let points = points.iter().map(place).collect();
                painter.add(Shape::convex_polygon(
                    points,
                    seen(*ink, *opacity, theme),
                    Stroke::NONE,
                ));
            }
            Item::Text { .. } => text(item, painter, origin, theme),
        }
    }
}

fn seen(ink: Ink, opacity: f32, theme: Theme) -> Color32 {
    ink.colour(theme).gamma_multiply(opacity)
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
        let ground = Ink::Ground.colour(theme).gamma_multiply(0.86);
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
