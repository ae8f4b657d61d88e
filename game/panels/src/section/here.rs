//! The other section, small: where on the machine the big drawing looks.

use ashlane_shared::units::{Dimension, format};

use super::{SectionView, travel::eyed};
use crate::{
    drawing::{Anchor, Drawing, Item, Point, fitting},
    elevation::{self, ElevationPlaces, Measures},
    state::{PlanWindow, Rung, UiState},
    theme::{Ink, SMALL},
    zoom::{Eye, Stand, wire_at_m},
};

/// The small drawing is made from one so many times larger, with lines so many times wider.
const SMALLER: f32 = 5.0;
const THINNER: f32 = 2.6;
/// Room for the words below.
const WORDS: f32 = 17.0;
/// Narrowest mark, points.
const NARROWEST: f32 = 3.0;

/// What the big drawing looks at: from where to where along the gas, m of the passage.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Looked {
    from_m: f32,
    to_m: f32,
}

/// The small drawing; nothing where the big one shows no place of the machine.
pub(super) fn here_drawing(
    section: &SectionView<'_>,
    state: &UiState,
    size: Point,
) -> Option<Drawing> {
    let mut drawing = Drawing::new(size);
    let room = [size[0], size[1] - WORDS];
    let words = match state.rung {
        Rung::Board => return None,
        Rung::Elevation => {
            from_above(&mut drawing, section, state, room);
            format!("you are here: {}", passage(section))
        }
        Rung::CrossSection => {
            let looked = Looked {
                from_m: 0.0,
                to_m: 0.0,
            };
            from_the_side(&mut drawing, section, looked, room);
            "you are here, looking along the gas".to_owned()
        }
        Rung::Plan | Rung::Wire | Rung::Grain | Rung::Energization => {
            from_the_side(&mut drawing, section, looked(section, state)?, room);
            "you are here".to_owned()
        }
    };
    Some(named(drawing, &[words, "you are here".to_owned()]))
}

/// The same in words, for a view with room for them: where the plan looks, and how to move there.
pub(super) fn here_words(section: &SectionView<'_>, state: &UiState) -> Option<String> {
    let Looked { from_m, to_m } = looked(section, state)?;
    let at = |along_m: f32| format(f64::from(along_m), Dimension::Length, section.plan.units);
    Some(format!(
        "You are here: {} to {} from the inlet, in {}, seen from above. Wheel, + and −: nearer, down to one wire and one \
         grain, and farther, up to the whole machine. Drag or arrow keys: along the gas.",
        at(from_m),
        at(to_m),
        passage(section)
    ))
}

/// The longest words that fit, below.
fn named(mut drawing: Drawing, words: &[String]) -> Drawing {
    let [width, height] = drawing.size;
    let text = fitting(words, width);
    let at = [0.5 * width, height - 0.5 * WORDS];
    drawing.text(at, Anchor::Centre, text, SMALL, Ink::Text);
    drawing
}

/// Which of the passages is drawn is no matter: all are alike.
fn passage(section: &SectionView<'_>) -> String {
    let passages = section.plan.conditions.collector.passages;
    format!("one of {passages} passages")
}

/// What the closer looks look at.
fn looked(section: &SectionView<'_>, state: &UiState) -> Option<Looked> {
    let conditions = section.plan.conditions;
    let total_m = conditions.length_m() as f32;
    let field_m = conditions.collector.field_length_m as f32;
    let part = |start_m: f32, length_m: f32| Looked {
        from_m: start_m,
        to_m: start_m + length_m,
    };
    Some(match state.rung {
        Rung::Plan => {
            let PlanWindow { start_m, length_m } = state.window.within(total_m);
            part(start_m, length_m)
        }
        Rung::Wire => {
            let pitch_m = field_m / conditions.wires_per_field() as f32;
            let at_m = wire_at_m(conditions, state.field, state.window);
            part(at_m - 0.5 * pitch_m, pitch_m)
        }
        Rung::Grain => part(section.grain.as_ref()?.now()?.along_m as f32, 0.0),
        _ => part(state.field as f32 * field_m, field_m),
    })
}

/// The whole machine from the side, with a mark where the big drawing looks.
fn from_the_side(drawing: &mut Drawing, section: &SectionView<'_>, looked: Looked, room: Point) {
    let whole = Stand {
        rung: Rung::Elevation,
        window: section.plan.window,
        eye: Eye::WHOLE,
    };
    let mut view = eyed(section, &whole);
    view.labels = false;
    let large = room.map(|side| SMALLER * side);
    let measures = Measures::new(view.conditions, view.hoppers, view.gas);
    let places = ElevationPlaces::new(measures, large, Eye::WHOLE);
    let [min, max] = places.whole();
    let scale = (room[0] / (max[0] - min[0])).min(room[1] / (max[1] - min[1]));
    let left = 0.5 * (room[0] - scale * (max[0] - min[0]));
    let place = |[x, y]: Point| [left + scale * (x - min[0]), scale * (y - min[1])];
    let machine = elevation::drawing(&view, large);
    let lines = machine.items.into_iter();
    let lines = lines.filter(|item| !matches!(item, Item::Text { .. }));
    let inside = |point: &Point| point[1] >= min[1] - 1.0 && point[1] <= max[1] + 1.0;
    let lines = lines.filter(|item| item.points().iter().all(inside));
    drawing
        .items
        .extend(lines.map(|item| item.placed(place).thinner(THINNER)));
    let total_m = view.conditions.length_m();
    let at =
        |along_m: f32, height_m: f64| place(places.grain(f64::from(along_m) / total_m, height_m));
    let corners = [at(looked.from_m, measures.plate_m), at(looked.to_m, 0.0)];
    mark(drawing, corners);
}

/// All passages from above, with a mark where the big drawing looks.
fn from_above(drawing: &mut Drawing, section: &SectionView<'_>, state: &UiState, room: Point) {
    let view = &section.elevation;
    let measures = Measures::new(view.conditions, view.hoppers, view.gas);
    let collector = &view.conditions.collector;
    let width_m = collector.passages as f64 * collector.plate_spacing_m;
    let (from_m, to_m) = measures.walls_m();
    let margin = 4.0;
    let scale = ((room[0] - 2.0 * margin) / (to_m - from_m) as f32)
        .min((room[1] - 2.0 * margin) / width_m as f32);
    let left = 0.5 * (room[0] - scale * (to_m - from_m) as f32);
    let top = 0.5 * (room[1] - scale * width_m as f32);
    let mirrored = measures.mirrored;
    let along_m = move |x_m: f64| if mirrored { to_m - x_m } else { x_m - from_m };
    let x = |x_m: f64| left + scale * along_m(x_m) as f32;
    let y = |y_m: f64| top + scale * y_m as f32;
    for field in 0..measures.fields {
        let from_m = measures.field_at_m(field);
        for plate in 0..=collector.passages {
            let y = y(plate as f64 * collector.plate_spacing_m);
            let ends = [[x(from_m), y], [x(from_m + measures.field_m), y]];
            drawing.line(ends, Ink::Metal, 0.7);
        }
    }
    let corners = vec![
        [x(from_m), y(0.0)],
        [x(to_m), y(0.0)],
        [x(to_m), y(width_m)],
        [x(from_m), y(width_m)],
        [x(from_m), y(0.0)],
    ];
    drawing.line(corners, Ink::Metal, 1.2);
    let rect = state
        .zoom
        .rect
        .map_or([800.0, 560.0], |rect| rect.size().into());
    let seen = ElevationPlaces::new(measures, rect, state.eye).seen_m();
    let inside = |x_m: f32| f64::from(x_m).clamp(from_m, to_m);
    let middle_m = (collector.passages / 2) as f64 * collector.plate_spacing_m;
    mark(
        drawing,
        [
            [x(inside(seen[0])), y(middle_m)],
            [x(inside(seen[1])), y(middle_m + collector.plate_spacing_m)],
        ],
    );
}

/// A frame round a place, never too narrow to be seen.
fn mark(drawing: &mut Drawing, [min, max]: [Point; 2]) {
    let wide = |axis: usize| {
        let middle = 0.5 * (min[axis] + max[axis]);
        let half = (0.5 * (max[axis] - min[axis]).abs()).max(NARROWEST);
        (middle - half, middle + half)
    };
    let ((left, right), (top, bottom)) = (wide(0), wide(1));
    drawing.rect([left, top], [right, bottom], Ink::Control, 0.25);
    let corners = vec![
        [left, top],
        [right, top],
        [right, bottom],
        [left, bottom],
        [left, top],
    ];
    drawing.line(corners, Ink::Control, 2.0);
}
