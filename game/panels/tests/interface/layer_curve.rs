//! The curve with a layer on the plates: legible, moved and bent as the layer says, and its check notices.

use std::sync::OnceLock;

use ashlane_panels::charts::{LayerCurve, layer_curve_check, layer_curve_drawing};
use ashlane_panels::{drawing::Item, theme::Ink};
use ashlane_shared::{
    checks::Verdict,
    conditions::demonstration,
    simulation::{FieldEnergization, electrics, energization_of},
    units::UnitSystem,
};

use crate::drawings::texts_are_legible;

fn sets() -> &'static [FieldEnergization] {
    static SETS: OnceLock<Vec<FieldEnergization>> = OnceLock::new();
    SETS.get_or_init(|| {
        let mut off = demonstration();
        off.electrical.voltage_v = vec![0.0; 4];
        [(demonstration(), 0), (demonstration(), 3), (off, 1)]
            .map(|(conditions, field)| {
                let found = electrics(&conditions).expect("fields");
                energization_of(&conditions, &found, field).expect("a set")
            })
            .into()
    })
}

#[test]
fn the_curve_with_a_layer_is_legible_at_every_width() {
    for set in sets() {
        for resistivity_ohm_m in [None, Some(1e8), Some(1e10), Some(0.0)] {
            for thickness_m in [None, Some(0.0), Some(0.02)] {
                let curve = LayerCurve::new(set, resistivity_ohm_m, thickness_m);
                for units in [UnitSystem::Si, UnitSystem::Us] {
                    for width in [260.0, 300.0, 560.0] {
                        let size = [width, (0.66_f32 * width).clamp(190.0, 280.0) + 70.0];
                        let drawing = layer_curve_drawing(&curve, "field 1", units, size);
                        let what = format!("{resistivity_ohm_m:?} {thickness_m:?} {size:?}");
                        texts_are_legible(&drawing, &what);
                    }
                }
            }
        }
    }
}

/// The line of the layer in a drawing.
fn line(curve: &LayerCurve<'_>) -> Vec<[f32; 2]> {
    let drawing = layer_curve_drawing(curve, "field 1", UnitSystem::Si, [420.0, 340.0]);
    let lines = drawing.items.into_iter().filter_map(|item| match item {
        Item::Line {
            points,
            ink: Ink::Dust,
            ..
        } => Some(points),
        _ => None,
    });
    lines.max_by_key(Vec::len).expect("the layer")
}

#[test]
fn a_bad_layer_bends_the_curve_back_and_a_good_one_does_not() {
    let back = |resistivity_ohm_m: f64| {
        let curve = LayerCurve::new(&sets()[1], Some(resistivity_ohm_m), None);
        let line = line(&curve);
        line.windows(2).any(|pair| pair[1][0] < pair[0][0] - 0.5)
    };
    assert!(!back(1e8), "1e10 Ω·cm carries 1000 nA/cm²");
    assert!(back(1e10), "1e12 Ω·cm breaks at 10 nA/cm²");
}

#[test]
fn the_drop_agrees_and_a_false_curve_does_not() {
    for set in &sets()[..2] {
        for resistivity_ohm_m in [None, Some(1e9), Some(1e10)] {
            let mut curve = LayerCurve::new(set, resistivity_ohm_m, None);
            let check = layer_curve_check(&curve, UnitSystem::Si).expect("a current");
            assert_eq!(check.verdict, Verdict::Agree, "{check:?}");
            curve.layer.thickness_m *= 1.05;
            let check = layer_curve_check(&curve, UnitSystem::Si).expect("a current");
            assert_eq!(check.verdict, Verdict::Disagree, "{check:?}");
        }
    }
    let off = LayerCurve::new(&sets()[2], None, None);
    assert!(layer_curve_check(&off, UnitSystem::Si).is_none());
}

#[test]
fn the_drops_are_those_of_the_table() {
    // physics.md B1: 0.15, 1.5 and 15 kV at 30 nA/cm² through 5 mm of 1e10, 1e11 and 1e12 Ω·cm; the last would break
    // at 10 nA/cm² and stays at 5 kV.
    for (resistivity_ohm_m, drop_v) in [(1e8, 150.0), (1e9, 1500.0), (1e10, 5000.0)] {
        let layer = LayerCurve::new(&sets()[1], Some(resistivity_ohm_m), None).layer;
        assert!(
            (layer.drop_v(30e-5) / drop_v - 1.0).abs() < 1e-9,
            "{layer:?}"
        );
    }
}
