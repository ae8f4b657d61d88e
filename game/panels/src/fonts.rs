//! The fonts of every window and picture: Noto Sans, embedded, with egui's own symbols behind it.

use std::sync::Arc;

use egui::{Context, FontData, FontDefinitions, FontFamily};

/// Noto Sans Regular.
pub(crate) const REGULAR: &[u8] = include_bytes!("../../../assets/fonts/NotoSans-Regular.ttf");
/// Noto Sans Bold.
pub(crate) const BOLD: &[u8] = include_bytes!("../../../assets/fonts/NotoSans-Bold.ttf");

/// Family of bold text.
#[must_use]
pub fn bold_family() -> FontFamily {
    FontFamily::Name("bold".into())
}

/// Installs the fonts.
pub fn install(context: &Context) {
    let mut fonts = FontDefinitions::default();
    for (name, data) in [("noto", REGULAR), ("noto-bold", BOLD)] {
        fonts
            .font_data
            .insert(name.to_owned(), Arc::new(FontData::from_static(data)));
    }
    let behind = fonts
        .families
        .get(&FontFamily::Proportional)
        .cloned()
        .unwrap_or_default();
    let family = |first: &str| -> Vec<String> {
        std::iter::once(first.to_owned())
            .chain(behind.iter().cloned())
            .collect()
    };
    fonts
        .families
        .insert(FontFamily::Proportional, family("noto"));
    fonts.families.insert(bold_family(), family("noto-bold"));
    context.set_fonts(fonts);
}
