//! The close look at one wire: legible at every size, lines that stand out, and numbers that are those of the field.

use std::sync::OnceLock;

use ashlane_panels::{
    cividis,
    drawing::{Drawing, Item, Point, svg},
    theme::{Ink, Theme, contrast},
    wire::{self, WireLayer, WirePlaces, WireView},
};
use ashlane_shared::{
    checks::Verdict,
    conditions::{Conditions, demonstration},
    physics::{
        corona::{CoronaSolver, WireField, onset, solver::Fineness},
        gas,
    },
    simulation::{FieldState, corona, electrics, wire_row},
    units::UnitSystem,
};

use crate::drawings::{SIZES, texts_are_legible};

pub(crate) struct Stand {
    conditions: Conditions,
    field: WireField,
    state: FieldState,
    solved_onset_v: f64,
}

/// The last field of the demonstration, with its dust.
pub(crate) fn stand() -> &'static Stand {
    static STAND: OnceLock<Stand> = OnceLock::new();
    STAND.get_or_init(|| of(demonstration()))
}

/// The last field below onset.
fn dark() -> &'static Stand {
    static STAND: OnceLock<Stand> = OnceLock::new();
    STAND.get_or_init(|| {
        let mut conditions = demonstration();
        conditions.electrical.voltage_v = vec![20e3];
        of(conditions)
    })
}

fn of(conditions: Conditions) -> Stand {
    let found = electrics(&conditions).expect("fields");
    let last = found.fields.len() - 1;
    let row = wire_row(&conditions).expect("a row");
    let mut solver =
        CoronaSolver::new(row, corona(&conditions), Fineness::default()).expect("a solver");
    Stand {
        // The usual current is some 0.1 mA/m.
        solved_onset_v: solver.at_current(1e-10).expect("a state").voltage_v,
        field: found.fields[last].clone(),
        state: found.states[last].clone(),
        conditions,
    }
}

pub(crate) fn view(
    stand: &Stand,
    layer: WireLayer,
    units: UnitSystem,
    theme: Theme,
) -> WireView<'_> {
    let conditions = &stand.conditions;
    let peek_field_v_m = corona(conditions).onset_field_v_m;
    let row = wire_row(conditions).expect("a row");
    let delta = gas::relative_density(conditions.gas.temperature_k, conditions.gas.pressure_pa);
    WireView {
        field: &stand.field,
        onset_v: stand.solved_onset_v,
        peek_onset_v: onset::integrated_onset_voltage_v(&row, peek_field_v_m),
        peek_field_v_m,
        glow_field_v_m: 3.0e6 * delta,
        spark_v: stand.state.spark_v,
        plate_to_wire_current: stand.field.plate_to_wire_current(),
        layer,
        units,
        theme,
    }
}

fn plain(stand: &Stand) -> WireView<'_> {
    view(stand, WireLayer::Field, UnitSystem::Si, Theme::Dark)
}

#[test]
fn the_wire_view_is_legible_at_every_size() {
    for (name, stand) in [("glowing", stand()), ("dark", dark())] {
        for layer in [WireLayer::Field, WireLayer::Ions] {
            for units in [UnitSystem::Si, UnitSystem::Us] {
                for size in SIZES {
                    let drawing = wire::drawing(&view(stand, layer, units, Theme::Dark), size);
                    let what = format!("{name} {layer:?} {units:?} {size:?}");
                    texts_are_legible(&drawing, &what);
                }
            }
        }
    }
}

/// Also writes the pictures to look at into the folder that `ASHLANE_WIRE_PICTURES` names.
#[test]
fn the_file_holds_every_word_of_the_drawing() {
    let folder = std::env::var("ASHLANE_WIRE_PICTURES").ok();
    for (name, stand) in [("glowing", stand()), ("dark", dark())] {
        for layer in [WireLayer::Field, WireLayer::Ions] {
            for theme in [Theme::Dark, Theme::Light] {
                for [wide, tall] in SIZES {
                    let view = view(stand, layer, UnitSystem::Si, theme);
                    let drawing = wire::drawing(&view, [wide, tall]);
                    let file = svg(&drawing, "Wire", theme);
                    let words = drawing.texts().count();
                    assert_eq!(file.matches("<text ").count(), words);
                    if let Some(folder) = &folder {
                        let name = format!("{name}-{layer:?}-{theme:?}-{wide}x{tall}.svg");
                        std::fs::write(format!("{folder}/{name}"), file).expect("a file");
                    }
                }
            }
        }
    }
}

#[test]
fn lines_stand_out_from_every_colour_of_the_map() {
    for theme in [Theme::Dark, Theme::Light] {
        let drawing = wire::drawing(
            &view(stand(), WireLayer::Field, UnitSystem::Si, theme),
            SIZES[0],
        );
        let lines = lines_on_the_map(&drawing, &plain(stand()));
        assert!(lines.len() > 20, "{} lines", lines.len());
        for (ink, rim) in lines {
            for step in 0..=100_u8 {
                let map = cividis::themed_rgb(f32::from(step) / 100.0, theme);
                let best = contrast(ink.rgb(theme), map).max(contrast(rim.rgb(theme), map));
                assert!(
                    best >= 3.0,
                    "{ink:?} in {rim:?} at {step} %, {theme:?}: {best:.2}"
                );
            }
            let own = contrast(ink.rgb(theme), rim.rgb(theme));
            assert!(
                own >= 3.0,
                "{ink:?} on its rim {rim:?}, {theme:?}: {own:.2}"
            );
        }
    }
}

/// The ink of every line that lies wholly between the plates, with that of the rim below it.
fn lines_on_the_map(drawing: &Drawing, view: &WireView<'_>) -> Vec<(Ink, Ink)> {
    let places = WirePlaces::new(view, drawing.size);
    let inside = |point: &Point| {
        (0..2).all(|axis| {
            point[axis] >= places.min[axis] - 0.5 && point[axis] <= places.max[axis] + 0.5
        })
    };
    let mut found = Vec::new();
    let mut before: Option<(&Vec<Point>, Ink, f32)> = None;
    for item in &drawing.items {
        let Item::Line {
            points, ink, width, ..
        } = item
        else {
            continue;
        };
        if points.iter().all(inside) && *ink != Ink::Ground {
            let (rim_points, rim, rim_width) = before.expect("a rim before the line");
            assert_eq!(rim_points, points, "the rim runs along the line");
            assert!(rim_width >= width + 1.0, "a rim of {rim_width} for {width}");
            found.push((*ink, rim));
        }
        before = Some((points, *ink, *width));
    }
    found
}

#[test]
fn the_mean_of_the_drawn_profile_is_the_plate_current() {
    for size in SIZES {
        let view = plain(stand());
        let drawing = wire::drawing(&view, size);
        let places = WirePlaces::new(&view, size);
        let (mut curve, mut mean) = (None, None);
        let (mut axis, width) = (None, places.max[0] - places.min[0]);
        for item in &drawing.items {
            let Item::Line {
                points, ink, dash, ..
            } = item
            else {
                continue;
            };
            let wide = points[points.len() - 1][0] - points[0][0];
            let across = (wide - width).abs() < 1.0 && points[0][1] > places.max[1];
            match (ink, dash) {
                (Ink::FiniteMixing, None) if across => curve = Some(points.clone()),
                (Ink::Text, Some(_)) if across => mean = Some(points[0][1]),
                (Ink::Faint, None) if across => axis = Some(points[1][1]),
                _ => {}
            }
        }
        let (curve, mean, axis) = (
            curve.expect("a profile"),
            mean.expect("a mean"),
            axis.expect("an axis"),
        );
        let area: f32 = curve
            .windows(2)
            .map(|pair| (pair[1][0] - pair[0][0]) * (axis - 0.5 * (pair[0][1] + pair[1][1])))
            .sum();
        // 2 %: what the solver may lose between wire and plate.
        let ratio = area / width / (axis - mean);
        assert!((ratio - 1.0).abs() < 0.02, "{size:?}: {ratio}");
    }
}

#[test]
fn numbers_of_voltage_stand_on_their_lines_and_rise_towards_the_wire() {
    for size in SIZES {
        let view = plain(stand());
        let drawing = wire::drawing(&view, size);
        let places = WirePlaces::new(&view, size);
        let mut numbers: Vec<(f64, f64)> = Vec::new();
        for (text, min, max) in drawing.texts() {
            let middle = [0.5 * (min[0] + max[0]), 0.5 * (min[1] + max[1])];
            let Some((x_m, y_m)) = places.metres(middle) else {
                continue;
            };
            let kv: f64 = text.trim_end_matches(" kV").parse().expect("a voltage");
            let there = view.field.at(x_m, y_m).potential_v / 1e3;
            // A twentieth of the whole: lines run straight between nodes 3 points apart.
            let off = (there - kv).abs() / (view.field.solution().voltage_v / 1e3);
            assert!(off < 0.05, "{size:?}: {text} stands at {there:.2} kV");
            numbers.push((kv, there));
        }
        assert!(numbers.len() >= 2, "{size:?}: {numbers:?}");
        numbers.sort_by(|a, b| a.0.total_cmp(&b.0));
        for pair in numbers.windows(2) {
            assert!(pair[0].0 < pair[1].0, "a number twice: {numbers:?}");
            assert!(pair[0].1 < pair[1].1, "not towards the wire: {numbers:?}");
        }
    }
}

#[test]
fn the_pointer_reads_0_kv_at_the_plate_and_the_mean_voltage_at_the_wire() {
    let view = plain(stand());
    let row = view.field.row();
    for y_m in [row.gap_m(), -row.gap_m()] {
        for x_m in [0.0, 0.3 * row.pitch_m(), -0.2 * row.pitch_m()] {
            let text = wire::readout(&view, (x_m, y_m)).expect("a reading");
            assert!(text.starts_with("0 kV · "), "{text}");
            assert!(
                text.contains("kV/cm") && text.ends_with("ions per cm³"),
                "{text}"
            );
        }
    }
    let text = wire::readout(&view, (0.0, 0.0)).expect("a reading");
    let drawing = wire::drawing(&view, SIZES[0]);
    let kv = text.trim_start_matches("wire, ");
    let told = drawing
        .texts()
        .any(|(text, ..)| text.contains(&format!("mean {kv}")));
    assert!(told, "{text}");
    assert_eq!(wire::readout(&view, (0.0, 1.1 * row.gap_m())), None);
    assert_eq!(wire::readout(&view, (0.51 * row.pitch_m(), 0.0)), None);
}

#[test]
fn checks_agree_and_notice_what_is_off() {
    let mut view = plain(stand());
    let lines = wire::checks(&view);
    assert_eq!(lines.len(), 2);
    assert!(
        lines.iter().all(|line| line.verdict == Verdict::Agree),
        "{lines:?}"
    );
    view.peek_onset_v *= 1.05;
    view.plate_to_wire_current = 0.9;
    let lines = wire::checks(&view);
    assert!(
        lines.iter().all(|line| line.verdict == Verdict::Disagree),
        "{lines:?}"
    );
    view.plate_to_wire_current = f64::NAN;
    assert_eq!(
        wire::checks(&view)[1].verdict,
        Verdict::Disagree,
        "no number"
    );
    assert_eq!(
        wire::checks(&plain(dark())).len(),
        1,
        "no current, no check of it"
    );
}

#[test]
fn the_cell_is_to_scale_and_the_glow_a_thin_skin() {
    let view = plain(stand());
    let row = view.field.row();
    for size in SIZES {
        let places = WirePlaces::new(&view, size);
        let [wide, tall] = [0, 1].map(|axis| f64::from(places.max[axis] - places.min[axis]));
        assert!((wide / tall * 2.0 * row.gap_m() / row.pitch_m() - 1.0).abs() < 1e-4);
        let centre = places.point(0.0, 0.0);
        let drawing = wire::drawing(&view, size);
        let reach = drawing.items.iter().find_map(|item| match item {
            Item::Area {
                points,
                ink: Ink::HighVoltage,
                ..
            } => {
                let from_wire = |p: &Point| (p[0] - centre[0]).hypot(p[1] - centre[1]);
                Some(points.iter().map(from_wire).fold(0.0, f32::max))
            }
            _ => None,
        });
        let reach_m = f64::from(reach.expect("a glow") / places.per_m);
        let skin_m = reach_m - row.wire_radius_m();
        // A skin of about a millimetre on a wire of 2.7 mm, not a halo (design, field picture).
        assert!((0.2e-3..3e-3).contains(&skin_m), "{skin_m} m");
        let edge = view.field.at(reach_m, 0.0);
        let edge_v_m = edge.along_v_m.hypot(edge.across_v_m);
        // The edge differs by direction and is drawn in single precision.
        assert!(
            (edge_v_m / view.glow_field_v_m - 1.0).abs() < 0.03,
            "{edge_v_m} V/m"
        );
    }
    let dark = wire::drawing(&plain(dark()), SIZES[0]);
    assert!(dark.texts().any(|(text, ..)| text == "no glow"));
}
