//! A drawing as an SVG file, for print and handouts.

use std::fmt::Write;

use super::{Anchor, Drawing, Item, Point};
use crate::theme::{Ink, PAPER, Theme};

/// Writes a drawing as SVG 1.1, with a ground of the theme.
#[must_use]
pub fn svg(drawing: &Drawing, title: &str, theme: Theme) -> String {
    written(drawing, title, Palette::Theme(theme))
}

/// The same for print: the light theme on the white of the paper.
#[must_use]
pub(crate) fn svg_on_paper(drawing: &Drawing, title: &str) -> String {
    written(drawing, title, Palette::Paper)
}

/// Where colours come from.
#[derive(Clone, Copy)]
enum Palette {
    Theme(Theme),
    Paper,
}

impl Palette {
    fn rgb(self, ink: Ink) -> [u8; 3] {
        match self {
            Self::Theme(theme) => ink.rgb(theme),
            Self::Paper if ink == Ink::Ground => PAPER,
            Self::Paper => ink.rgb(Theme::Light),
        }
    }
}

fn written(drawing: &Drawing, title: &str, palette: Palette) -> String {
    let [width, height] = drawing.size;
    let mut text = String::new();
    line(
        &mut text,
        format_args!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.0}\" height=\"{height:.0}\" \
         viewBox=\"0 0 {width:.1} {height:.1}\" font-family=\"'Noto Sans', 'DejaVu Sans', sans-serif\" role=\"img\">"
        ),
    );
    line(&mut text, format_args!("<title>{}</title>", escaped(title)));
    line(
        &mut text,
        format_args!(
            "<rect width=\"100%\" height=\"100%\" fill=\"{}\"/>",
            hex(Ink::Ground, palette)
        ),
    );
    for item in &drawing.items {
        element(&mut text, item, palette);
    }
    line(&mut text, format_args!("</svg>"));
    text
}

fn line(text: &mut String, arguments: std::fmt::Arguments<'_>) {
    // Writing to a String cannot fail.
    if text.write_fmt(arguments).is_ok() {
        text.push('\n');
    }
}

fn element(text: &mut String, item: &Item, palette: Palette) {
    match item {
        Item::Line { .. } | Item::Ring { .. } => stroked(text, item, palette),
        Item::Text { .. } => words(text, item, palette),
        _ => filled(text, item, palette),
    }
}

fn stroked(text: &mut String, item: &Item, palette: Palette) {
    let (shape, ink, width, dash) = match item {
        Item::Line {
            points,
            ink,
            width,
            dash,
        } => {
            let shape = format!("polyline points=\"{}\"", list(points));
            (shape, ink, width, *dash)
        }
        Item::Ring {
            centre,
            radius,
            ink,
            width,
        } => (circle(*centre, *radius), ink, width, None),
        _ => return,
    };
    let dash = dash.map_or_else(String::new, |(on, off)| {
        format!(" stroke-dasharray=\"{on:.1} {off:.1}\"")
    });
    line(
        text,
        format_args!(
            "<{shape} fill=\"none\" stroke=\"{}\" stroke-width=\"{width:.2}\" stroke-linejoin=\"round\"{dash}/>",
            hex(*ink, palette)
        ),
    );
}

fn filled(text: &mut String, item: &Item, palette: Palette) {
    let (shape, colour, opacity) = match item {
        Item::Rect {
            min,
            max,
            ink,
            opacity,
            corner,
        } => {
            let shape = format!("rect {} rx=\"{corner:.1}\"", frame(*min, *max));
            (shape, hex(*ink, palette), *opacity)
        }
        Item::Cell { min, max, rgb } => {
            let [red, green, blue] = rgb;
            let colour = format!("#{red:02x}{green:02x}{blue:02x}");
            (format!("rect {}", frame(*min, *max)), colour, 1.0)
        }
        Item::Dot {
            centre,
            radius,
            ink,
            opacity,
        } => (circle(*centre, *radius), hex(*ink, palette), *opacity),
        Item::Area {
            points,
            ink,
            opacity,
        } => {
            let shape = format!("polygon points=\"{}\"", list(points));
            (shape, hex(*ink, palette), *opacity)
        }
        Item::Band { ends, ink, opacity } => {
            let (low, high) = (ends.iter().map(|end| end[0]), ends.iter().map(|end| end[1]));
            let outline: Vec<Point> = low.chain(high.rev()).collect();
            let shape = format!("polygon points=\"{}\"", list(&outline));
            (shape, hex(*ink, palette), *opacity)
        }
        _ => return,
    };
    line(
        text,
        format_args!("<{shape} fill=\"{colour}\" fill-opacity=\"{opacity:.2}\"/>"),
    );
}

fn circle(centre: Point, radius: f32) -> String {
    format!(
        "circle cx=\"{:.1}\" cy=\"{:.1}\" r=\"{radius:.2}\"",
        centre[0], centre[1]
    )
}

fn words(svg: &mut String, item: &Item, palette: Palette) {
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
    let (min, max) = super::text::text_rect(*at, *anchor, text, *size, *bold);
    if *plate {
        line(
            svg,
            format_args!(
                "<rect {} rx=\"3\" fill=\"{}\" fill-opacity=\"0.86\"/>",
                frame([min[0] - 4.0, min[1] - 1.0], [max[0] + 4.0, max[1] + 1.0]),
                hex(Ink::Ground, palette)
            ),
        );
    }
    let align = match anchor {
        Anchor::Left => "start",
        Anchor::Right => "end",
        Anchor::Centre | Anchor::Top | Anchor::Bottom => "middle",
    };
    // Letters stand on a line about 0.36 of their size below the middle.
    let baseline = 0.5 * (min[1] + max[1]) + 0.36 * size;
    let weight = if *bold { " font-weight=\"bold\"" } else { "" };
    line(
        svg,
        format_args!(
            "<text x=\"{:.1}\" y=\"{baseline:.1}\" font-size=\"{size:.1}\" text-anchor=\"{align}\"{weight} fill=\"{}\">{}</text>",
            at[0],
            hex(*ink, palette),
            escaped(text)
        ),
    );
}

fn frame(min: Point, max: Point) -> String {
    format!(
        "x=\"{:.1}\" y=\"{:.1}\" width=\"{:.1}\" height=\"{:.1}\"",
        min[0],
        min[1],
        max[0] - min[0],
        max[1] - min[1]
    )
}

fn list(points: &[Point]) -> String {
    points
        .iter()
        .map(|point| format!("{:.1},{:.1}", point[0], point[1]))
        .collect::<Vec<_>>()
        .join(" ")
}

fn hex(ink: Ink, palette: Palette) -> String {
    let [red, green, blue] = palette.rgb(ink);
    format!("#{red:02x}{green:02x}{blue:02x}")
}

pub(crate) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drawing_becomes_well_formed_elements() {
        let mut drawing = Drawing::new([200.0, 100.0]);
        drawing.line([[0.0, 0.0], [10.0, 20.0]], Ink::Metal, 1.5);
        drawing.label([50.0, 50.0], Anchor::Centre, "a < b & c", 14.0, Ink::Text);
        let text = svg(&drawing, "A title", Theme::Light);
        assert!(
            text.starts_with("<svg ") && text.trim_end().ends_with("</svg>"),
            "{text}"
        );
        assert!(text.contains("a &lt; b &amp; c"), "{text}");
        assert!(text.contains("<title>A title</title>"), "{text}");
        assert_eq!(text.matches("<text ").count(), 1);
        assert_eq!(text.matches("<polyline ").count(), 1);
    }
}
