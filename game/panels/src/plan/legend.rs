//! The legend of the plan: size by radius, charge by colour, fate by shape, and the scale of the field map.

use ashlane_shared::units::{Dimension, UnitSystem, display, number_text};

use super::{FieldScale, PlanView};
use crate::{
    cividis,
    drawing::{Anchor, Drawing, Item, Point, text_width},
    theme::{Ink, SMALL, Theme},
};

/// Height of a row of the legend.
const ROW: f32 = 26.0;
/// Width of the bar of the field scale and of the charge scale.
const FIELD_BAR: f32 = 190.0;
const SHORT_FIELD_BAR: f32 = 100.0;
const CHARGE_BAR: f32 = 56.0;

/// Radius of a grain on the drawing, points: it grows with the cube root of the diameter, so that fine grains stay visible.
#[must_use]
pub fn grain_radius(diameter_m: f32) -> f32 {
    (1.05 * (diameter_m * 1e6).cbrt()).clamp(0.9, 4.5)
}

/// Draws something at a place.
type Draw<'a> = Box<dyn Fn(&mut Drawing, Point) + 'a>;

/// One entry: how wide it is and how to draw it.
struct Entry<'a> {
    width: f32,
    draw: Draw<'a>,
}

/// What the legend explains.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Legend {
    scale: FieldScale,
    field_map: bool,
    /// Whether charge is computed; it is not where one migration velocity is given.
    charge: bool,
    units: UnitSystem,
    theme: Theme,
}

impl From<&PlanView<'_>> for Legend {
    fn from(plan: &PlanView<'_>) -> Self {
        Self {
            scale: plan.field_scale,
            field_map: plan.field_map,
            charge: plan.conditions.teaching.migration_velocity_m_s.is_none(),
            units: plan.units,
            theme: plan.theme,
        }
    }
}

impl Legend {
    /// Height in a width.
    #[must_use]
    pub fn height(&self, width: f32) -> f32 {
        let rows = flow(&entries(self, width), width)
            .last()
            .map_or(1.0, |place| place.1 + 1.0);
        rows * ROW + 4.0
    }

    /// Draws it in a width.
    #[must_use]
    pub fn drawing(&self, width: f32) -> Drawing {
        let entries = entries(self, width);
        let mut drawing = Drawing::new([width, self.height(width)]);
        for (entry, (x, row)) in entries.iter().zip(flow(&entries, width)) {
            (entry.draw)(&mut drawing, [x, ROW * (row + 0.5) + 2.0]);
        }
        drawing
    }
}

fn entries<'a>(legend: &Legend, width: f32) -> Vec<Entry<'a>> {
    let mut entries = Vec::new();
    for (text, diameter_m) in [("1 µm", 1e-6_f32), ("10 µm", 1e-5), ("50 µm", 5e-5)] {
        let radius = grain_radius(diameter_m);
        entries.push(Entry {
            width: 2.0 * radius + 6.0 + text_width(text, SMALL, false),
            draw: Box::new(move |drawing, [x, y]| {
                drawing.dot([x + radius, y], radius, Ink::Dust);
                drawing.text(
                    [x + 2.0 * radius + 6.0, y],
                    Anchor::Left,
                    text,
                    SMALL,
                    Ink::Text,
                );
            }),
        });
    }
    entries.push(if legend.charge {
        charge_entry()
    } else {
        mark("one migration velocity for all", |drawing, [x, y]| {
            drawing.dot([x + 5.5, y], 4.0, Ink::Dust);
        })
    });
    entries.push(mark("on a plate", |drawing, [x, y]| {
        drawing.rect([x, y - 2.0], [x + 11.0, y + 2.0], Ink::Dust, 1.0);
    }));
    entries.push(mark("around the field", |drawing, [x, y]| {
        drawing.items.push(Item::Ring {
            centre: [x + 5.5, y],
            radius: 4.0,
            ink: Ink::Uncharged,
            width: 1.5,
        });
    }));
    entries.push(mark("gas", |drawing, [x, y]| {
        drawing.line([[x, y], [x + 11.0, y]], Ink::Gas, 2.0);
    }));
    if legend.field_map {
        entries.push(field_entry(legend, width));
    }
    entries
}

fn mark<'a>(text: &'static str, symbol: impl Fn(&mut Drawing, Point) + 'a) -> Entry<'a> {
    Entry {
        width: 18.0 + text_width(text, SMALL, false),
        draw: Box::new(move |drawing, at| {
            symbol(drawing, at);
            drawing.text([at[0] + 18.0, at[1]], Anchor::Left, text, SMALL, Ink::Text);
        }),
    }
}

fn charge_entry<'a>() -> Entry<'a> {
    let (before, after) = ("uncharged", "charged");
    let before_width = text_width(before, SMALL, false);
    Entry {
        width: before_width + CHARGE_BAR + 12.0 + text_width(after, SMALL, false),
        draw: Box::new(move |drawing, [x, y]| {
            drawing.text([x, y], Anchor::Left, before, SMALL, Ink::Text);
            let start = x + before_width + 9.0;
            for step in 0..5_u8 {
                let share = f32::from(step) / 4.0;
                let centre = [start + share * (CHARGE_BAR - 12.0), y];
                drawing.items.push(Item::Dot {
                    centre,
                    radius: 4.0,
                    ink: Ink::Uncharged,
                    opacity: 1.0 - share,
                });
                drawing.items.push(Item::Dot {
                    centre,
                    radius: 4.0,
                    ink: Ink::Dust,
                    opacity: share,
                });
            }
            drawing.text(
                [start + CHARGE_BAR, y],
                Anchor::Left,
                after,
                SMALL,
                Ink::Text,
            );
        }),
    }
}

fn field_entry<'a>(legend: &Legend, width: f32) -> Entry<'a> {
    let Legend {
        scale,
        units,
        theme,
        ..
    } = *legend;
    let (_, after) = display(0.0, Dimension::Field, units);
    let before = "electric field";
    let before_width = text_width(before, SMALL, false) + 8.0;
    let bar = if width < 420.0 {
        SHORT_FIELD_BAR
    } else {
        FIELD_BAR
    };
    Entry {
        width: before_width + bar + 12.0 + text_width(after, SMALL, false),
        draw: Box::new(move |drawing, [x, y]| {
            drawing.text([x, y], Anchor::Left, before, SMALL, Ink::Text);
            let start = x + before_width;
            let steps = 38_u8;
            for step in 0..steps {
                let [left, right] =
                    [step, step + 1].map(|at| start + bar * f32::from(at) / f32::from(steps));
                let rgb = cividis::themed_rgb((f32::from(step) + 0.5) / f32::from(steps), theme);
                drawing.items.push(Item::Cell {
                    min: [left, y - 9.0],
                    max: [right + 0.3, y - 2.0],
                    rgb,
                });
            }
            let mut free_from = f32::MIN;
            for (at_v_m, mark) in scale.marks(units) {
                let at = start + bar * scale.share(at_v_m);
                drawing.line([[at, y - 2.0], [at, y + 1.0]], Ink::Text, 1.0);
                let text = number_text(mark, 3);
                let half = 0.5 * text_width(&text, SMALL, false);
                if at - half > free_from {
                    drawing.text([at, y + 7.0], Anchor::Centre, text, SMALL, Ink::Text);
                    free_from = at + half + 4.0;
                }
            }
            drawing.text(
                [start + bar + 12.0, y],
                Anchor::Left,
                after,
                SMALL,
                Ink::Text,
            );
        }),
    }
}

/// Left edge and row of every entry, wrapped at the width.
fn flow(entries: &[Entry<'_>], width: f32) -> Vec<(f32, f32)> {
    const SIDE: f32 = 14.0;
    const BETWEEN: f32 = 20.0;
    let (mut x, mut row) = (SIDE, 0.0);
    entries
        .iter()
        .map(|entry| {
            if x > SIDE && x + entry.width > width - SIDE {
                (x, row) = (SIDE, row + 1.0);
            }
            let place = (x, row);
            x += entry.width + BETWEEN;
            place
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_legend_wraps_and_nothing_is_cut_off() {
        for (width, charge) in [300.0, 520.0, 840.0, 1400.0]
            .into_iter()
            .flat_map(|width| [(width, true), (width, false)])
        {
            let legend = Legend {
                scale: FieldScale {
                    low_v_m: 1e5,
                    high_v_m: 2e6,
                },
                field_map: true,
                charge,
                units: UnitSystem::Us,
                theme: Theme::Dark,
            };
            let drawing = legend.drawing(width);
            for (text, min, max) in drawing.texts() {
                assert!(
                    min[0] >= 0.0 && max[0] <= width + 0.5,
                    "{text} at {min:?} to {max:?} in {width}"
                );
                assert!(
                    min[1] >= -0.5 && max[1] <= drawing.size[1] + 0.5,
                    "{text} at {min:?} in {:?}",
                    drawing.size
                );
            }
        }
    }

    #[test]
    fn larger_grains_are_drawn_larger_and_none_is_invisible() {
        assert!(grain_radius(1e-7) >= 0.9 && grain_radius(1e-5) > grain_radius(1e-6));
        assert!(grain_radius(1e-3) <= 4.5);
    }
}
