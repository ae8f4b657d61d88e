//! The followed grain: legible at every size, arrows of one scale, curves that end where the grain is.

use std::sync::OnceLock;

use ashlane_panels::{
    drawing::{Drawing, Item, Point, svg},
    grain::{self, GrainView},
    theme::{Ink, Theme},
};
use ashlane_shared::{
    checks::{GrainCurves, Verdict, charge_check, grain_forces, speed_check},
    conditions::{Charging, Conditions, GasDirection, Sizes, demonstration},
    simulation::{Command, Follow, FollowedGrain, GrainFate, Simulation},
    units::UnitSystem,
};

use crate::drawings::{SIZES, texts_are_legible};

/// A record with all that belongs to it.
pub(crate) struct Stand {
    name: &'static str,
    conditions: Conditions,
    grain: FollowedGrain,
    curves: GrainCurves,
}

impl Stand {
    fn new(name: &'static str, conditions: Conditions, grain: FollowedGrain) -> Self {
        Self {
            name,
            curves: GrainCurves::new(&conditions, &grain),
            conditions,
            grain,
        }
    }

    /// The same, this share of its points ago.
    fn earlier(&self, name: &'static str, share: f64) -> Self {
        let mut grain = self.grain.clone();
        grain.fate = None;
        let kept = (share * grain.points.len() as f64) as usize;
        grain.points.truncate(kept);
        grain.waiting = kept == 0;
        if grain.waiting {
            grain.diameter_m = 5e-6;
        }
        Self::new(name, self.conditions.clone(), grain)
    }
}

/// The first grain of this size whose flight has at least so many points, flown to its end.
fn flown(conditions: &Conditions, diameter_m: f64, least: usize) -> FollowedGrain {
    let mut simulation = Simulation::new(conditions.clone(), 7).expect("possible");
    let wish = Follow { diameter_m };
    simulation
        .apply(Command::Follow(Some(wish)))
        .expect("always");
    for _ in 0..40_000 {
        simulation.step();
        let grain = simulation.frame().followed().expect("a record");
        if grain.fate.is_some() && grain.points.len() >= least {
            return grain.clone();
        }
    }
    panic!("no flight of {least} steps");
}

/// The demonstration with coarser dust, invented: paths that the tests speak of.
fn coarse() -> Conditions {
    let mut conditions = demonstration();
    conditions.dust.sizes = Sizes::LogNormal {
        mass_median_diameter_m: 16e-6,
        geometric_deviation: 3.0,
    };
    conditions
}

fn stands() -> &'static [Stand] {
    static STANDS: OnceLock<Vec<Stand>> = OnceLock::new();
    STANDS.get_or_init(|| {
        let conditions = coarse();
        let of = |name, diameter_m, least| {
            Stand::new(
                name,
                conditions.clone(),
                flown(&conditions, diameter_m, least),
            )
        };
        let five = of("five", 5e-6, 240);
        let mut fixed = coarse();
        fixed.teaching.migration_velocity_m_s = Some(0.1);
        let uncharged = flown(&fixed, 10e-6, 240);
        let mut cochet = coarse();
        cochet.teaching.charging = Charging::Cochet;
        let by_cochet = flown(&cochet, 2e-6, 300);
        vec![
            five.earlier("waiting", 0.0),
            five.earlier("entered", 0.01),
            five.earlier("midway", 0.5),
            five.earlier("late", 0.95),
            five,
            of("half", 0.5e-6, 900),
            of("fast", 30e-6, 60),
            of("coarse", 90e-6, 20),
            Stand::new("cochet", cochet, by_cochet),
            Stand::new("fixed", fixed, uncharged),
        ]
    })
}

pub(crate) fn stand(name: &str) -> &'static Stand {
    let found = stands().iter().find(|stand| stand.name == name);
    found.expect("a stand of this name")
}

pub(crate) fn view(stand: &Stand, units: UnitSystem, theme: Theme) -> GrainView<'_> {
    let (conditions, grain, curves) = (&stand.conditions, &stand.grain, &stand.curves);
    GrainView {
        grain,
        conditions,
        curves,
        forces: grain
            .points
            .last()
            .map(|point| grain_forces(conditions, grain.diameter_m, point)),
        charge: charge_check(conditions, grain, curves),
        speed: speed_check(conditions, grain, curves),
        units,
        theme,
    }
}

fn plain(name: &str) -> GrainView<'static> {
    view(stand(name), UnitSystem::Si, Theme::Dark)
}

#[test]
fn the_grain_view_is_legible_at_every_size() {
    for stand in stands() {
        for units in [UnitSystem::Si, UnitSystem::Us] {
            for size in SIZES {
                let drawing = grain::drawing(&view(stand, units, Theme::Dark), size);
                let what = format!("{} {units:?} {size:?}", stand.name);
                texts_are_legible(&drawing, &what);
            }
        }
    }
}

/// Also writes the pictures to look at into the folder that `ASHLANE_GRAIN_PICTURES` names.
#[test]
fn the_file_holds_every_word_of_the_drawing() {
    let folder = std::env::var("ASHLANE_GRAIN_PICTURES").ok();
    for stand in stands() {
        for theme in [Theme::Dark, Theme::Light] {
            for [wide, tall] in SIZES {
                let units = if theme == Theme::Dark {
                    UnitSystem::Si
                } else {
                    UnitSystem::Us
                };
                let drawing = grain::drawing(&view(stand, units, theme), [wide, tall]);
                let file = svg(&drawing, "Grain", theme);
                assert_eq!(file.matches("<text ").count(), drawing.texts().count());
                if let Some(folder) = &folder {
                    let name = format!("{}-{theme:?}-{wide}x{tall}.svg", stand.name);
                    std::fs::write(format!("{folder}/{name}"), file).expect("a file");
                }
            }
        }
    }
}

/// Lengths of the arrows of an ink: their shafts are the only lines of 3 points.
fn arrow_length(drawing: &Drawing, ink: Ink) -> Option<f32> {
    drawing.items.iter().find_map(|item| match item {
        Item::Line {
            points,
            ink: found,
            width,
            ..
        } if *found == ink && (*width - 3.0).abs() < 1e-6 => {
            Some((points[1][0] - points[0][0]).hypot(points[1][1] - points[0][1]))
        }
        _ => None,
    })
}

#[test]
fn force_arrows_have_one_scale_and_point_against_each_other() {
    let mut view = plain("coarse");
    let mut forces = view.forces.expect("forces");
    // Made up, so that the arrows differ: drag of three quarters, weight of a third.
    forces.electric_n = (1.2e-9, 1.6e-9);
    forces.drag_n = (-0.9e-9, -1.2e-9);
    forces.weight_n = 0.7e-9;
    view.forces = Some(forces);
    for size in [[840.0, 560.0], [1440.0, 900.0], [720.0, 450.0]] {
        let drawing = grain::drawing(&view, size);
        let length = |ink| arrow_length(&drawing, ink).expect("an arrow");
        let electric = length(Ink::HighVoltage);
        assert!((length(Ink::Gas) / electric - 0.75).abs() < 1e-3);
        assert!((length(Ink::Text) / electric - 0.35).abs() < 1e-3);
        // 2000 pN of pull; the bar is a round part of it.
        let (bar, newtons) = scale_bar(&drawing);
        assert!((f64::from(bar / electric) / (newtons / 2000.0) - 1.0).abs() < 1e-3);
    }
    forces.weight_n = 1.23e-15;
    view.forces = Some(forces);
    for size in SIZES.into_iter().filter(|[wide, _]| *wide > 480.0) {
        let drawing = grain::drawing(&view, size);
        assert_eq!(arrow_length(&drawing, Ink::Text), None);
        let told = drawing
            .texts()
            .any(|(text, ..)| text.starts_with("weight 0.00123 pN: too small"));
        assert!(told, "{size:?}: the weight is not drawn, nobody says so");
    }
}

/// Length of the bar of forces, and the piconewtons that it says: the last text of the close-up, and the line before it.
fn scale_bar(drawing: &Drawing) -> (f32, f64) {
    for (index, item) in drawing.items.iter().enumerate() {
        let Item::Text { text, .. } = item else {
            continue;
        };
        let Some(number) = text.strip_suffix(" pN") else {
            continue;
        };
        if let (Ok(newtons), Item::Line { points, .. }) =
            (number.parse(), &drawing.items[index - 3])
        {
            return (points[1][0] - points[0][0], newtons);
        }
    }
    panic!("no bar of forces");
}

/// The last dot of a chart is larger than the others.
fn last_dots(drawing: &Drawing) -> Vec<Point> {
    drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Dot {
                centre,
                radius,
                ink: Ink::Dust,
                ..
            } if (*radius - 4.5).abs() < 1e-6 => Some(*centre),
            _ => None,
        })
        .collect()
}

#[test]
fn the_curve_of_the_law_in_use_ends_at_the_charge_of_the_grain() {
    for name in ["late", "five", "half", "cochet"] {
        for size in SIZES {
            let view = plain(name);
            let drawing = grain::drawing(&view, size);
            let dot = last_dots(&drawing)[0];
            let ink = if name == "cochet" {
                Ink::Laminar
            } else {
                Ink::FiniteMixing
            };
            let end = drawing.items.iter().find_map(|item| match item {
                Item::Line {
                    points,
                    ink: found,
                    dash: None,
                    ..
                } if *found == ink => points.last().copied(),
                _ => None,
            });
            let end = end.expect("a whole line");
            // 2 % of the height is what law and flight may differ by, and the line leaves out what is below 0.8 points.
            let off = (end[0] - dot[0]).hypot(end[1] - dot[1]);
            assert!(off < 0.02 * size[1] + 1.0, "{name} {size:?}: {off} points");
        }
    }
    // A wrong charge would stand apart.
    let mut wrong = stand("five").grain.clone();
    let last = wrong.points.len() - 1;
    wrong.points[last].charge_e *= 0.5;
    let mut view = plain("five");
    view.grain = &wrong;
    let drawing = grain::drawing(&view, SIZES[0]);
    let right = grain::drawing(&plain("five"), SIZES[0]);
    assert!(last_dots(&drawing)[0][1] > last_dots(&right)[0][1] + 40.0);
}

#[test]
fn checks_agree_and_notice_what_is_off() {
    let mut view = plain("five");
    let lines = grain::checks(&view);
    assert_eq!(lines.len(), 2);
    assert!(
        lines.iter().all(|line| line.verdict == Verdict::Agree),
        "{lines:?}"
    );
    let (mut charge, mut speed) = (view.charge.expect("one"), view.speed.expect("one"));
    charge.ratio *= 1.03;
    speed.speed.ratio *= 0.98;
    (view.charge, view.speed) = (Some(charge), Some(speed));
    let lines = grain::checks(&view);
    assert!(
        lines.iter().all(|line| line.verdict == Verdict::Disagree),
        "{lines:?}"
    );
    charge.ratio = f64::NAN;
    view.charge = Some(charge);
    assert_eq!(grain::checks(&view)[0].verdict, Verdict::Disagree);
    assert!(grain::checks(&plain("fixed")).is_empty(), "no charge");
    assert!(grain::checks(&plain("waiting")).is_empty(), "no grain");
}

#[test]
fn what_is_not_compared_says_why() {
    assert_eq!(grain::not_compared(&plain("five")), None);
    assert_eq!(grain::not_compared(&plain("waiting")), None);
    let why = |view: &GrainView<'_>| grain::not_compared(view).expect("a reason");
    assert!(why(&plain("fixed")).contains("no charge"));
    assert!(why(&plain("entered")).contains("0.2 s"));
    let mut brushed = stand("five").grain.clone();
    let wire_m = 0.5 * stand("five").conditions.collector.wire_spacing_m;
    let at_wire = brushed.points.iter_mut().find(|point| point.exposed);
    let at_wire = at_wire.expect("a point in the charged zone");
    (at_wire.along_m, at_wire.across_m) = (wire_m, 0.0);
    let mut view = plain("five");
    view.grain = &brushed;
    view.charge = charge_check(view.conditions, &brushed, view.curves);
    assert!(why(&view).contains("too near to a wire"));
}

#[test]
fn the_heading_tells_size_charge_and_fate() {
    let has = |name: &str, words: &str| {
        let drawing = grain::drawing(&plain(name), SIZES[0]);
        let found = drawing.texts().any(|(text, ..)| text.contains(words));
        assert!(found, "{name}: no \"{words}\"");
    };
    has("waiting", "Waiting for a grain of 5");
    for name in ["midway", "late"] {
        let now = stand(name).grain.points.last().expect("a point");
        let field = now.field + 1;
        if now.exposed {
            has(name, &format!("in field {field} after"));
        } else {
            has(name, &format!("around the charged zone of field {field}"));
        }
    }
    let five = stand("five");
    match five.grain.fate.expect("ended") {
        GrainFate::Caught { field } => has("five", &format!("caught in field {} after", field + 1)),
        GrainFate::Left => has("five", "left with the gas after"),
        GrainFate::RecordFull => has("five", "still in the gas after"),
    }
    has("fixed", "no charge is computed");
}

#[test]
fn the_path_is_drawn_from_the_inlet_to_the_plate() {
    let view = plain("five");
    for size in SIZES {
        let drawing = grain::drawing(&view, size);
        let plates: Vec<(Point, Point)> = drawing
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Rect {
                    min,
                    max,
                    ink: Ink::Metal,
                    ..
                } => Some((*min, *max)),
                _ => None,
            })
            .collect();
        let [upper, lower] = plates[..] else {
            panic!("two plates")
        };
        let path: Vec<Point> = drawing
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Line {
                    points,
                    ink: Ink::Dust | Ink::Uncharged,
                    ..
                } => Some(points.clone()),
                _ => None,
            })
            .flatten()
            .collect();
        let (first, last) = (path[0], path[path.len() - 1]);
        assert!((first[0] - upper.0[0]).abs() < 1.0, "{first:?} is no inlet");
        let at_plate = (last[1] - upper.1[1]).abs() < 1.0 || (last[1] - lower.0[1]).abs() < 1.0;
        assert!(at_plate, "{size:?}: {last:?}");
        assert!(last[0] > 0.5 * upper.1[0], "most of the strip is used");
    }
}

/// The way of the grain: the longest line of dust.
fn way(drawing: &Drawing) -> Vec<Point> {
    let lines = drawing.items.iter().filter_map(|item| match item {
        Item::Line {
            points,
            ink: Ink::Dust,
            ..
        } => Some(points.clone()),
        _ => None,
    });
    lines.flatten().collect()
}

#[test]
fn where_the_gas_comes_from_the_right_so_does_the_grain() {
    let mut mirrored = stand("five").conditions.clone();
    mirrored.appearance.gas_direction = GasDirection::RightToLeft;
    for size in SIZES {
        let plain = plain("five");
        let drawing = grain::drawing(&plain, size);
        let other = grain::drawing(
            &GrainView {
                conditions: &mirrored,
                ..plain
            },
            size,
        );
        texts_are_legible(&other, &format!("mirrored, {size:?}"));
        let (way, back) = (way(&drawing), way(&other));
        assert!(way.len() > 10 && way.len() == back.len(), "{size:?}");
        // The path lies left and right of the same middle, at the same heights.
        let middle = 0.5 * (way[0][0] + back[0][0]);
        let strip = way.iter().zip(&back).take(10);
        for (there, here) in strip {
            assert!(
                (there[0] + here[0] - 2.0 * middle).abs() < 1e-2,
                "{there:?} {here:?}"
            );
            assert_eq!(there[1], here[1]);
        }
        assert!(back[0][0] > way[0][0], "the inlet is on the right");
    }
}
