//! A whole page: style, fonts and body in one file, and figures on paper.

use super::{
    Figure, fonts,
    html::{tag, words},
    room::{LEAF_MM, caption_mm, figure_mm},
};
use crate::drawing::{escaped, svg_on_paper};

/// How a page looks, on paper first.
const STYLE: &str = include_str!("page.css");

/// A point of a drawing on paper, mm: a CSS pixel.
const PIXEL_MM: f32 = 25.4 / 96.0;

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

/// A figure with what is said below it, as large as the height that is left allows.
pub(super) fn figure(figure: &Figure, left_mm: f32) -> String {
    let size = figure.drawing.size;
    // Letters of a drawing are never blown up beyond those of the page.
    let most_mm = LEAF_MM[0].min(size[0] * PIXEL_MM);
    let wide_mm = figure_mm(size, &figure.caption, left_mm, most_mm);
    let drawing = svg_on_paper(&figure.drawing, &figure.caption);
    let inside = format!("<div style=\"width: {wide_mm}mm\">\n{drawing}</div>\n");
    tag(
        "figure",
        &(inside + &tag("figcaption", &words(&figure.caption))),
    )
}

/// Height that the figure takes, mm.
pub(super) fn height_mm(figure: &Figure, left_mm: f32) -> f32 {
    let [wide, high] = figure.drawing.size;
    let most_mm = LEAF_MM[0].min(wide * PIXEL_MM);
    let wide_mm = figure_mm([wide, high], &figure.caption, left_mm, most_mm);
    wide_mm * high / wide + caption_mm(&figure.caption)
}
