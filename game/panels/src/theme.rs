//! All colours and sizes in one place: what each ink means, in the dark theme and in the light one.
//!
//! Hues are those of Okabe and Ito, which people with any colour vision tell apart; maps use cividis. Colour is never
//! the only cue. Contrasts are computed in the tests: 4.5:1 for text, 3:1 for lines that carry meaning.

use egui::{Color32, Stroke, Visuals};
use serde::{Deserialize, Serialize};

/// Dark ground for the screen, light ground for projectors and print.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Theme {
    /// Dark ground.
    #[default]
    Dark,
    /// Light ground.
    Light,
}

/// What a line, area or text means; the theme gives it a colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Ink {
    /// Behind everything.
    Ground,
    /// Behind panels.
    Panel,
    /// Text and numbers.
    Text,
    /// Text of less weight.
    Faint,
    /// Rules, frames, grids.
    Rule,
    /// Grounded metal: plates, casing.
    Metal,
    /// The discharge electrode itself.
    Electrode,
    /// Everything at high voltage.
    HighVoltage,
    /// Dust that carries charge, and dust on plates.
    Dust,
    /// Dust that carries no charge yet.
    Uncharged,
    /// Gas.
    Gas,
    /// The solver.
    FiniteMixing,
    /// The formula of Deutsch and Anderson.
    Deutsch,
    /// The laminar limit.
    Laminar,
    /// A control, its selection and focus.
    Control,
    /// A check that disagrees, a refused value.
    Trouble,
    /// Mark of an alarm of high priority; alarms have their colours on the operator's panel and nowhere else.
    AlarmHigh,
    /// Mark of an alarm of medium priority.
    AlarmMedium,
    /// Mark of an alarm of low priority.
    AlarmLow,
    /// Outline and digit of such a mark.
    AlarmEdge,
    /// What a presenter draws on the picture.
    Pen,
}

impl Ink {
    /// Every ink, for tests and legends.
    pub const ALL: [Self; 21] = [
        Self::Ground,
        Self::Panel,
        Self::Text,
        Self::Faint,
        Self::Rule,
        Self::Metal,
        Self::Electrode,
        Self::HighVoltage,
        Self::Dust,
        Self::Uncharged,
        Self::Gas,
        Self::FiniteMixing,
        Self::Deutsch,
        Self::Laminar,
        Self::Control,
        Self::Trouble,
        Self::AlarmHigh,
        Self::AlarmMedium,
        Self::AlarmLow,
        Self::AlarmEdge,
        Self::Pen,
    ];

    /// Red, green and blue, 0–255.
    #[must_use]
    pub const fn rgb(self, theme: Theme) -> [u8; 3] {
        let (dark, light) = match self {
            Self::Ground => (0x001b_1b1b, 0x00f7_f7f5),
            Self::Panel => (0x0022_2326, 0x00ec_ecea),
            Self::Text => (0x00e8_e8e8, 0x0020_2020),
            Self::Faint => (0x00b0_b2b6, 0x004c_4e52),
            Self::Rule => (0x0050_5358, 0x00bf_c1c4),
            Self::Metal => (0x00a4_aab2, 0x005c_636c),
            Self::Electrode => (0x00f4_f4f4, 0x0030_3030),
            Self::HighVoltage => (0x00d5_8cb4, 0x009a_3f73),
            Self::Dust => (0x00e6_9f00, 0x0071_3d00),
            Self::Uncharged => (0x00cf_d2d6, 0x0075_7b82),
            Self::Gas => (0x0056_b4e9, 0x0000_66a0),
            Self::FiniteMixing => (0x0019_b98d, 0x0000_7a58),
            Self::Deutsch => (0x00f0_f0f0, 0x0030_3030),
            Self::Laminar => (0x00b9_9be6, 0x0067_46a8),
            Self::Control => (0x0056_b4e9, 0x0000_6aa8),
            Self::Trouble => (0x00f0_7a3c, 0x00b8_4300),
            Self::AlarmHigh => (0x00d5_5e00, 0x00d5_5e00),
            Self::AlarmMedium => (0x00e6_9f00, 0x00e6_9f00),
            Self::AlarmLow => (0x00f0_e442, 0x00f0_e442),
            Self::AlarmEdge => (0x0000_0000, 0x0000_0000),
            Self::Pen => (0x00f0_e442, 0x00c4_005a),
        };
        let hex: u32 = match theme {
            Theme::Dark => dark,
            Theme::Light => light,
        };
        [(hex >> 16) as u8, (hex >> 8) as u8, hex as u8]
    }

    /// As egui's colour.
    #[must_use]
    pub fn colour(self, theme: Theme) -> Color32 {
        let [red, green, blue] = self.rgb(theme);
        Color32::from_rgb(red, green, blue)
    }
}

/// Paper: the ground of what is printed.
pub(crate) const PAPER: [u8; 3] = [255; 3];
/// A picture that a presenter took away.
pub const BLACK_OUT: Color32 = Color32::BLACK;
/// The same in white.
pub const WHITE_OUT: Color32 = Color32::WHITE;
/// What lies over everything that a spotlight leaves out.
pub const DIMMED: Color32 = Color32::from_black_alpha(190);

/// Height of a control that can be clicked, points.
pub const TOUCH: f32 = 28.0;
/// Size of ordinary text, points.
pub const BODY: f32 = 14.0;
/// Size of small text, points: the smallest there is.
pub const SMALL: f32 = 12.5;

/// Puts the theme on egui's widgets.
pub fn apply(context: &egui::Context, theme: Theme) {
    let mut visuals = match theme {
        Theme::Dark => Visuals::dark(),
        Theme::Light => Visuals::light(),
    };
    let colour = |ink: Ink| ink.colour(theme);
    visuals.override_text_color = Some(colour(Ink::Text));
    visuals.weak_text_color = Some(colour(Ink::Faint));
    visuals.panel_fill = colour(Ink::Panel);
    visuals.window_fill = colour(Ink::Panel);
    visuals.extreme_bg_color = colour(Ink::Ground);
    visuals.window_stroke = Stroke::new(1.0, colour(Ink::Rule));
    visuals.selection.bg_fill = colour(Ink::Control).gamma_multiply(0.35);
    visuals.selection.stroke = Stroke::new(1.5, colour(Ink::Control));
    visuals.hyperlink_color = colour(Ink::Control);
    visuals.widgets.noninteractive.bg_stroke = Stroke::new(1.0, colour(Ink::Rule));
    visuals.widgets.active.bg_stroke = Stroke::new(2.0, colour(Ink::Control));
    visuals.slider_trailing_fill = true;
    let style = |style: &mut egui::Style| {
        style.spacing.interact_size.y = TOUCH;
        style.spacing.item_spacing = egui::vec2(8.0, 5.0);
        style.spacing.button_padding = egui::vec2(9.0, 4.0);
        for (text_style, font) in &mut style.text_styles {
            font.size = match text_style {
                egui::TextStyle::Heading => 18.0,
                egui::TextStyle::Small => SMALL,
                _ => BODY,
            };
        }
    };
    context.set_theme(match theme {
        Theme::Dark => egui::Theme::Dark,
        Theme::Light => egui::Theme::Light,
    });
    context.set_visuals(visuals);
    context.all_styles_mut(style);
}

/// Contrast ratio of two colours, 1 to 21.
///
/// WCAG 2.2 (W3C, definitions of "relative luminance" and "contrast ratio").
#[must_use]
pub fn contrast(a: [u8; 3], b: [u8; 3]) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

fn luminance(rgb: [u8; 3]) -> f64 {
    let linear = rgb.map(|channel| {
        let value = f64::from(channel) / 255.0;
        if value <= 0.04045 {
            value / 12.92
        } else {
            ((value + 0.055) / 1.055).powf(2.4)
        }
    });
    0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_contrast_formula_gives_published_ratios() {
        // Black on white is 21:1 (WCAG 2.2); orange #E69F00 on #1B1B1B 7.65 (training specification 6.1).
        assert!((contrast([0, 0, 0], [255, 255, 255]) - 21.0).abs() < 1e-9);
        assert!((contrast([0xe6, 0x9f, 0x00], [0x1b, 0x1b, 0x1b]) - 7.65).abs() < 0.01);
    }

    #[test]
    fn text_and_lines_stand_out_from_both_grounds_in_both_themes() {
        for theme in [Theme::Dark, Theme::Light] {
            for ink in Ink::ALL {
                let needed = match ink {
                    // Of a mark of an alarm fill and outline stand out together: the next test.
                    Ink::AlarmHigh
                    | Ink::AlarmMedium
                    | Ink::AlarmLow
                    | Ink::AlarmEdge
                    | Ink::Ground
                    | Ink::Panel
                    | Ink::Rule => continue,
                    Ink::Text | Ink::Faint | Ink::Trouble => 4.5,
                    _ => 3.0,
                };
                for ground in [Ink::Ground, Ink::Panel] {
                    let ratio = contrast(ink.rgb(theme), ground.rgb(theme));
                    assert!(
                        ratio >= needed,
                        "{ink:?} on {ground:?} in {theme:?}: {ratio:.2}"
                    );
                }
            }
        }
    }

    #[test]
    fn marks_of_alarms_stand_out_by_fill_or_outline_and_their_digits_can_be_read() {
        let marks = [Ink::AlarmHigh, Ink::AlarmMedium, Ink::AlarmLow];
        for theme in [Theme::Dark, Theme::Light] {
            let ratio = |a: Ink, b: Ink| contrast(a.rgb(theme), b.rgb(theme));
            for mark in marks {
                // WCAG 2.2: 1.4.11 asks 3:1 of parts that carry meaning, 1.4.3 4.5:1 of the digit.
                assert!(ratio(Ink::AlarmEdge, mark) >= 4.5, "{mark:?} in {theme:?}");
                for ground in [Ink::Ground, Ink::Panel] {
                    let (fill, edge) = (ratio(mark, ground), ratio(Ink::AlarmEdge, ground));
                    assert!(fill.max(edge) >= 3.0, "{mark:?} on {ground:?} in {theme:?}");
                }
            }
        }
        // Okabe and Ito: vermillion, orange, yellow on #1B1B1B (training specification 6.1).
        let on_dark = |ink: Ink| contrast(ink.rgb(Theme::Dark), [0x1b; 3]);
        for (mark, told) in marks.into_iter().zip([4.45, 7.65, 13.03]) {
            assert!((on_dark(mark) - told).abs() < 0.01, "{mark:?}");
        }
    }

    #[test]
    fn dust_tells_from_gas_and_theory_by_brightness_or_hue_and_from_uncharged_dust() {
        for theme in [Theme::Dark, Theme::Light] {
            let distance = |a: Ink, b: Ink| -> i32 {
                a.rgb(theme)
                    .iter()
                    .zip(b.rgb(theme))
                    .map(|(x, y)| (i32::from(*x) - i32::from(y)).abs())
                    .sum()
            };
            for other in [
                Ink::Gas,
                Ink::FiniteMixing,
                Ink::HighVoltage,
                Ink::Uncharged,
            ] {
                assert!(
                    distance(Ink::Dust, other) > 90,
                    "dust against {other:?} in {theme:?}"
                );
            }
        }
    }

    #[test]
    fn a_print_without_colours_tells_charged_dust_from_uncharged() {
        let light = |ink: Ink| ink.rgb(Theme::Light);
        // Our own limit: neighbours in one legend, so less than the 3:1 that WCAG 2.2 asks against the ground.
        let ratio = contrast(light(Ink::Dust), light(Ink::Uncharged));
        assert!(ratio >= 2.0, "{ratio:.2}");
    }
}
