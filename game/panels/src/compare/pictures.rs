//! The two pictures side by side: the same step of the ladder, the same stretch, the same colours.

use ashlane_shared::simulation::{Frame, Grain};
use egui::{RichText, Ui, vec2};

use super::CompareView;
use crate::{
    drawing::Drawing,
    elevation::still_of as still_elevation,
    figure::figure_ui,
    plan::{FieldScale, PlanView, still_of as still_plan},
    section::{SectionView, figure},
    state::{PlanWindow, Rung, UiState},
    theme::{Ink, SMALL},
    zoom::Stand,
};

/// Below this width the pictures stand one above the other, points.
const WIDE: f32 = 640.0;
/// Lowest picture that can be read, and the share of the height that it gets, points.
const LOWEST: f32 = 300.0;
const SHARE: f32 = 0.58;
const GAP: f32 = 8.0;
/// Most grains in a picture; of more, one in two, in four, in eight … is drawn.
const MOST_GRAINS: usize = 1500;

/// Shows both.
pub(super) fn pictures_ui(
    ui: &mut Ui,
    compare: &CompareView<'_>,
    section: &SectionView<'_>,
    state: &UiState,
    height: f32,
) {
    let scale = common(compare, section, state);
    let width = ui.available_width();
    let wide = width >= WIDE;
    let size = [
        if wide { 0.5 * (width - GAP) } else { width },
        (SHARE * height).max(LOWEST),
    ];
    let sides = [
        ("A, pinned", &compare.section, &compare.then),
        ("B, now", section, &compare.now),
    ];
    let both = |ui: &mut Ui| {
        for (name, section, frame) in sides {
            ui.allocate_ui(vec2(size[0], size[1] + 24.0), |ui| {
                ui.vertical(|ui| {
                    ui.label(RichText::new(name).strong());
                    let drawing = picture(section, frame, &scale, state, size);
                    let corner = ui.cursor().min;
                    let ground = egui::Rect::from_min_size(corner, vec2(size[0], size[1]));
                    ui.painter()
                        .rect_filled(ground, 0.0, Ink::Ground.colour(state.theme));
                    figure_ui(ui, &drawing, name, state);
                });
            });
        }
    };
    if wide {
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = GAP;
            both(ui);
        });
    } else {
        both(ui);
    }
    let ink = Ink::Faint.colour(state.theme);
    let dusty = matches!(state.rung, Rung::Plan | Rung::Elevation);
    let thinned = (dusty && scale.one_in > 1)
        .then(|| format!("One grain in {} is drawn, on both sides.", scale.one_in));
    let note = note(compare, section, state.rung).map(str::to_owned);
    for text in note.into_iter().chain(thinned) {
        ui.label(RichText::new(text).size(SMALL).color(ink));
    }
}

/// Spreads the bits of a diameter (Knuth 1998, The Art of Computer Programming 3, section 6.4: 2³² over the golden ratio).
const MIX: u32 = 2_654_435_769;

/// What both pictures share.
struct Common {
    window: PlanWindow,
    field_scale: FieldScale,
    /// One grain in how many is drawn.
    one_in: u32,
}

impl Common {
    /// The grains that are drawn, the same ones at every moment.
    fn grains<'a>(&self, frame: &Frame<'a>) -> impl Iterator<Item = Grain> + 'a {
        let one_in = self.one_in;
        let alike = frame.conditions().teaching.single_diameter_m.is_some();
        let mut count = 0;
        frame.grains().filter(move |grain| {
            count += 1;
            // Grains of one size do not tell one from the other.
            let lot = if alike {
                count
            } else {
                grain.diameter_m.to_bits().wrapping_mul(MIX) >> 16
            };
            lot.is_multiple_of(one_in)
        })
    }
}

/// The same stretch of both passages, and one scale of colours for both.
fn common(compare: &CompareView<'_>, section: &SectionView<'_>, state: &UiState) -> Common {
    let plans = [&compare.section.plan, &section.plan];
    let shorter_m = plans
        .map(|plan| plan.conditions.length_m() as f32)
        .into_iter()
        .fold(f32::INFINITY, f32::min);
    let [a, b] = plans.map(|plan| plan.field_scale);
    let window = match state.rung {
        Rung::Plan => state.window.within(shorter_m),
        _ => PlanWindow {
            start_m: 0.0,
            length_m: f32::INFINITY,
        },
    };
    let seen = |frame: &Frame<'_>| {
        let ahead = |grain: &Grain| grain.along_m - window.start_m;
        let inside = |grain: &Grain| (0.0..=window.length_m).contains(&ahead(grain));
        frame.grains().filter(inside).count()
    };
    let most = seen(&compare.then).max(seen(&compare.now));
    Common {
        window,
        one_in: most.div_ceil(MOST_GRAINS).max(1).next_power_of_two() as u32,
        field_scale: if a.high_v_m > b.high_v_m { a } else { b },
    }
}

/// One state on the step of the ladder that is shown.
fn picture(
    section: &SectionView<'_>,
    frame: &Frame<'_>,
    common: &Common,
    state: &UiState,
    size: [f32; 2],
) -> Drawing {
    match state.rung {
        Rung::Plan => {
            let plan = PlanView {
                window: common.window,
                field_scale: common.field_scale,
                ..section.plan
            };
            still_plan(&plan, frame, common.grains(frame), size)
        }
        Rung::Elevation => still_elevation(&section.elevation, common.grains(frame), size),
        _ => figure(section, &Stand::of(state), size),
    }
}

/// What must be known to compare the two.
fn note(compare: &CompareView<'_>, section: &SectionView<'_>, rung: Rung) -> Option<&'static str> {
    let [a, b] = [&compare.section.plan, &section.plan].map(|plan| &plan.conditions.collector);
    let same = a == b;
    match rung {
        Rung::Plan if a.fields != b.fields || a.field_length_m != b.field_length_m => {
            Some("Both show the same stretch from the inlet on; one of the passages is longer.")
        }
        Rung::Elevation | Rung::CrossSection if !same => {
            Some("The two machines differ in size: each has its own scale bar.")
        }
        Rung::Wire | Rung::Grain | Rung::Energization => Some(
            "A shows the wire, the grain and the set that were looked at when it was pinned. Axes \
                 follow each side.",
        ),
        _ => None,
    }
}
