//! Parts of the machine: each can be pointed at, none is hidden by others, all that a site can name is among them; names of
//! small parts come with the scale and never run over each other.

use ashlane_lessons::engine::find_caution;
use ashlane_panels::elevation::{
    ElevationPlaces, ElevationView, Measures, PARTS, drawing as drawing_of,
};
use ashlane_shared::{
    conditions::{Conditions, PARTS as SITE_PARTS, Rapper, demonstration},
    units::UnitSystem,
};

use crate::{
    drawings::texts_are_legible,
    elevation,
    inside::{SIZE, looking, says},
    support::Backdrop,
};

/// Machines of different length and looks.
fn machines() -> Vec<Backdrop> {
    [1, 2, 4, 8]
        .map(|fields| {
            looking(|conditions: &mut Conditions| {
                conditions.set_fields(fields);
                if fields == 2 {
                    conditions.appearance.rapper = Rapper::RoofRapper;
                }
            })
        })
        .into()
}

fn overlap(one: [[f32; 2]; 2], other: [[f32; 2]; 2]) -> f32 {
    let along = |axis: usize| {
        (one[1][axis].min(other[1][axis]) - one[0][axis].max(other[0][axis])).max(0.0)
    };
    along(0) * along(1)
}

#[test]
fn of_every_part_most_can_be_pointed_at() {
    for backdrop in machines() {
        let view = elevation::view(&backdrop, UnitSystem::Si);
        let places = ElevationPlaces::new(
            Measures::new(view.conditions, view.hoppers, view.gas),
            SIZE,
            ashlane_panels::zoom::Eye::WHOLE,
        );
        let areas: Vec<_> = PARTS
            .iter()
            .filter_map(|part| Some((part.name, part.area(&view, &places)?)))
            .collect();
        for (index, (name, area)) in areas.iter().enumerate() {
            let whole = overlap(*area, *area);
            let hidden: f32 = areas[index + 1..]
                .iter()
                .map(|(_, other)| overlap(*area, *other))
                .sum();
            let share = hidden / whole;
            assert!(
                share < 0.6,
                "{name} is hidden by {share:.2} in a machine of {} fields",
                view.conditions.collector.fields
            );
        }
    }
}

#[test]
fn every_part_has_a_name_of_its_own_a_purpose_and_cautions() {
    for (index, part) in PARTS.iter().enumerate() {
        assert!(
            PARTS[..index].iter().all(|other| other.name != part.name),
            "{} twice",
            part.name
        );
        assert!(
            part.purpose.ends_with('.') && !part.cautions.is_empty(),
            "{part:?}"
        );
        for code in part.cautions {
            assert!(find_caution(code).is_some(), "no caution {code}");
        }
    }
}

/// What a site can name and what is a place, not a part that can be pointed at.
const PLACES: [&str; 7] = [
    "collector",
    "casing",
    "field",
    "bus_section",
    "gas_passage",
    "insulator_compartment",
    "inlet_duct",
];
/// Outside of the casing, drawn elsewhere.
const OUTSIDE: [&str; 1] = ["opacity_monitor"];

#[test]
fn whatever_a_site_can_name_is_a_part_of_the_drawing() {
    for row in SITE_PARTS {
        let is_part = PARTS.iter().any(|part| part.key() == Some(row.key));
        let is_other = PLACES.contains(&row.key) || OUTSIDE.contains(&row.key);
        assert!(is_part || is_other, "{} is no part of the drawing", row.key);
    }
    let mut site = demonstration();
    for row in SITE_PARTS {
        let names = &mut site.appearance.part_names;
        names.insert(row.key.to_owned(), format!("my {}", row.name));
    }
    for part in &PARTS {
        let own = part.key().is_some();
        assert_eq!(part.shown(&site).starts_with("My "), own, "{part:?}");
    }
}

#[test]
fn larger_drawings_have_more_names_and_none_run_over_each_other() {
    let mut counts = Vec::new();
    for size in [
        [840.0, 560.0],
        [1440.0, 900.0],
        [2600.0, 1600.0],
        [5200.0, 3200.0],
    ] {
        for backdrop in machines() {
            for units in [UnitSystem::Si, UnitSystem::Us] {
                let view = elevation::view(&backdrop, units);
                let drawing = drawing_of(&view, size);
                let fields = view.conditions.collector.fields;
                texts_are_legible(&drawing, &format!("{fields} fields at {size:?}"));
                if fields == 4 && units == UnitSystem::Si {
                    counts.push(drawing.texts().count());
                    let small = says(&drawing, "strike plate");
                    assert_eq!(small, size[0] > 2000.0, "strike plate at {size:?}");
                }
            }
        }
    }
    assert!(
        counts.windows(2).all(|pair| pair[0] <= pair[1]),
        "{counts:?}"
    );
    assert!(counts[3] > counts[0] + 15, "{counts:?}");
}

#[test]
fn hoppers_tell_height_volume_and_hours_to_the_alarm() {
    let backdrop = looking(|_| {});
    let view = elevation::view(&backdrop, UnitSystem::Si);
    let drawing = drawing_of(&view, [2600.0, 1600.0]);
    let row = &view.hoppers[0];
    let volume_m3 = row.filled * view.conditions.hoppers.volume_m3;
    let kg = volume_m3 * view.conditions.hoppers.ash_density_kg_m3;
    assert!((kg / row.ash_kg - 1.0).abs() < 1e-9, "{kg} {}", row.ash_kg);
    assert!(row.level > row.filled, "a pyramid is wider above");
    for words in [
        format!("{:.0} % high", 100.0 * row.level),
        format!("{:.0} % full", 100.0 * row.filled),
        " h if not emptied".to_owned(),
    ] {
        assert!(says(&drawing, &words), "no \"{words}\"");
    }
    let mut idle = row.to_owned();
    (idle.until_alarm_s, idle.alarm) = (None, false);
    let rows = [idle];
    let uncounted = ElevationView {
        hoppers: &rows,
        ..view
    };
    let large = drawing_of(&uncounted, [2600.0, 1600.0]);
    assert!(says(&large, "not counted yet"));
    let mut full = row.to_owned();
    full.alarm = true;
    full.until_alarm_s = Some(0.0);
    let rows = [full];
    let alarmed = ElevationView {
        hoppers: &rows,
        ..view
    };
    assert!(says(&drawing_of(&alarmed, SIZE), "ALARM"));
}
