//! A whole page: style, fonts and body in one file, and figures on paper.

use super::{
    Figure, fonts,
    html::{tag, words},
    room::{caption_mm, figure_mm},
};
use crate::drawing::{Drawing, Item, escaped, svg_on_paper};

/// How a page looks, on paper first.
const STYLE: &str = include_str!("page.css");

/// Room below the lowest line of a drawing, its points.
const FOOT: f32 = 4.0;

/// How the leaves lie: as long as they are for all but a wide drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Leaf {
    Upright,
    OnItsSide,
}

impl Leaf {
    /// What of the style it changes, and the class of the body.
    const fn style(self) -> (&'static str, &'static str) {
        match self {
            Self::Upright => ("", "upright"),
            Self::OnItsSide => (
                "@page { size: landscape; margin: 11mm 15mm 15mm; }\n",
                "side",
            ),
        }
    }
}

/// A page with everything in it.
pub(super) fn document(title: &str, body: &str, leaf: Leaf) -> String {
    let (turned, class) = leaf.style();
    let style = fonts::faces(body) + STYLE + turned;
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n\
         <meta name=\"viewport\" content=\"width=device-width\"/>\n<title>{}</title>\n\
         <style>\n{style}</style>\n</head>\n<body class=\"{class}\">\n{body}</body>\n</html>\n",
        escaped(title)
    )
}

/// The drawing without the empty strip at its foot.
fn trimmed(drawing: &Drawing) -> Drawing {
    let words = drawing.texts().map(|(.., [_, bottom])| bottom);
    let lines = drawing.items.iter().flat_map(|item| match item {
        Item::Text { .. } => Vec::new(),
        Item::Dot { radius, .. } | Item::Ring { radius, .. } => {
            let low = |[_, y]: [f32; 2]| y + radius;
            item.points().into_iter().map(low).collect()
        }
        _ => item
            .points()
            .into_iter()
            .map(|[_, y]| y)
            .collect::<Vec<f32>>(),
    });
    let lowest = words.chain(lines).fold(0.0, f32::max);
    let mut drawing = drawing.clone();
    drawing.size[1] = drawing.size[1].min(lowest + FOOT);
    drawing
}

/// A figure with what is said below it, as large as the height that is left allows.
pub(super) fn figure(figure: &Figure, left_mm: f32) -> String {
    let drawing = trimmed(&figure.drawing);
    let wide_mm = figure_mm(&drawing, &figure.caption, left_mm);
    let drawing = svg_on_paper(&drawing, &figure.caption);
    let inside = format!("<div style=\"width: {wide_mm}mm\">\n{drawing}</div>\n");
    tag(
        "figure",
        &(inside + &tag("figcaption", &words(&figure.caption))),
    )
}

/// Height that the figure takes, mm.
pub(super) fn height_mm(figure: &Figure, left_mm: f32) -> f32 {
    let drawing = trimmed(&figure.drawing);
    let [wide, high] = drawing.size;
    let wide_mm = figure_mm(&drawing, &figure.caption, left_mm);
    wide_mm * high / wide + caption_mm(&figure.caption)
}
