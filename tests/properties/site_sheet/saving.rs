//! Saving keeps the author's hand and loses no physics.

use ashlane_shared::conditions::{
    Composition, Conditions, Mixing, Resistivity, SITES, Sizes, Value, find_key,
};

use super::{difference, good, site};

/// Everything after the first `#` of each line.
pub(super) fn comments(text: &str) -> Vec<&str> {
    text.lines()
        .filter_map(|line| line.split_once('#'))
        .map(|(_, comment)| comment.trim())
        .collect()
}

/// Lines of `new` that are not in `old`.
fn new_lines<'t>(old: &str, new: &'t str) -> Vec<&'t str> {
    new.lines()
        .filter(|line| !old.lines().any(|other| other == *line))
        .collect()
}

#[track_caller]
fn changed(name: &str, change: impl FnOnce(&mut Conditions)) -> (String, Conditions) {
    let sheet = good(site(name));
    let mut conditions = sheet.conditions.clone();
    change(&mut conditions);
    let text = sheet.save_text(&conditions);
    let rebased = conditions.rebased().conditions;
    assert_eq!(
        difference(&good(&text).conditions, &rebased, 1e-12),
        None,
        "{text}"
    );
    (text, rebased)
}

#[test]
fn what_did_not_change_is_not_touched() {
    for (name, text) in SITES {
        let sheet = good(text);
        assert_eq!(sheet.save_text(&sheet.conditions), *text, "{name}");
        let windows = text.replace('\n', "\r\n");
        let sheet = good(&windows);
        assert_eq!(
            sheet.save_text(&sheet.conditions),
            windows,
            "{name} with carriage returns"
        );
    }
}

/// Site, key, new value in SI, and how its line begins afterwards.
#[rustfmt::skip] // one row a line
const CHANGES: &[(&str, &str, f64, &str)] = &[
    ("demonstration", "gas.flow", 100.25, "flow = \"100.25 m3/s\"                          # actual, of the"),
    ("demonstration", "collector.plate_height", 12.0, "plate_height = \"12 m\""),
    ("demonstration", "collector.wire_diameter", 3.1e-3, "wire_diameter = \"3.1 mm\""),
    ("demonstration", "collector.wire_roughness", 0.9, "wire_roughness = 0.9   "),
    ("demonstration", "dust.resistivity", 3.5e9, "resistivity = \"3.5e11 ohm.cm\""),
    ("demonstration", "gas.moisture", 0.125, "moisture = \"12.5 %\" "),
    ("demonstration", "gas.so3", 7.0, "so3 = \"7 ppm\""),
    ("demonstration-us", "hoppers.volume", 28.316_846_592, "volume = \"1000 ft3\""),
    ("demonstration-us", "collector.plate_height", 9.144, "plate_height = \"30 ft\""),
    ("cement-kiln", "dust.density", 2800.0, "density = \"2800 kg/m3\""),
];

#[test]
fn one_change_changes_one_line_in_the_authors_unit() {
    for &(name, path, value, line) in CHANGES {
        let key = find_key(path).unwrap();
        let (text, _) = changed(name, |conditions| {
            key.set(conditions, &Value::Number(value)).unwrap();
        });
        let new = new_lines(site(name), &text);
        assert_eq!(new.len(), 1, "{path}: {new:?}");
        assert!(new[0].starts_with(line), "{path}: {new:?}");
        assert_eq!(comments(&text), comments(site(name)), "{path}");
    }
}

#[test]
fn lists_keep_the_entries_that_hold() {
    let (text, _) = changed("demonstration", |conditions| {
        conditions.electrical.voltage_v[1] = 41.5e3;
    });
    assert!(
        text.contains("voltage = [\"46 kV\", \"41.5 kV\", \"44 kV\", \"43 kV\"]   # wanted"),
        "{text}"
    );
    let (text, _) = changed("demonstration", |conditions| conditions.set_fields(2));
    assert!(
        text.contains("fields = 2 ") && text.contains("voltage = [\"46 kV\", \"45 kV\"] "),
        "{text}"
    );
    let (text, rebased) = changed("demonstration", |conditions| conditions.set_fields(6));
    assert!(
        text.contains("\"43 kV\"]"),
        "the last entry repeats by itself: {text}"
    );
    assert_eq!(rebased.rapping.interval_s.len(), 6);
    let (text, _) = changed("demonstration", |conditions| {
        conditions.set_fields(5);
        conditions.electrical.voltage_v[4] = 40e3;
    });
    assert!(text.contains("\"43 kV\", \"40 kV\"]"), "{text}");
}

#[test]
fn a_value_for_all_fields_becomes_a_list_only_when_it_must() {
    let one =
        site("demonstration").replace("[\"46 kV\", \"45 kV\", \"44 kV\", \"43 kV\"]", "\"45 kV\"");
    let sheet = good(&one);
    let mut conditions = sheet.conditions.clone();
    conditions.electrical.voltage_v = vec![44e3; 4];
    assert!(
        sheet
            .save_text(&conditions)
            .contains("voltage = \"44 kV\"   # wanted")
    );
    conditions.electrical.voltage_v[3] = 40e3;
    assert!(
        sheet
            .save_text(&conditions)
            .contains("voltage = [\"44 kV\", \"44 kV\", \"44 kV\", \"40 kV\"]   # wanted")
    );
}

#[test]
fn a_hotter_gas_restates_mobility_and_spark_field() {
    let (text, rebased) = changed("demonstration", |conditions| {
        conditions.gas.temperature_k = 433.15;
    });
    let new = new_lines(site("demonstration"), &text);
    assert_eq!(new.len(), 3, "{new:?}");
    assert!(new[0].starts_with("temperature = \"160 °C\""), "{new:?}");
    assert!(
        new[1].starts_with("ion_mobility") && new[2].starts_with("spark_field"),
        "{new:?}"
    );
    assert_eq!(rebased.reference.temperature_k, 433.15);
}

#[test]
fn a_load_per_normal_volume_is_restated_when_the_gas_changes() {
    let load = good(site("cement-kiln")).conditions.dust.load_kg_m3;
    let (text, rebased) = changed("cement-kiln", |conditions| {
        conditions.gas.pressure_pa = 56e3;
    });
    assert_eq!(
        rebased.dust.load_kg_m3, load,
        "the same dust in each actual cubic metre"
    );
    assert!(text.contains("load = \"78.75 g/Nm3\""), "{text}");
}

#[test]
fn keys_that_go_stay_as_comments() {
    let teaching = "[teaching]\n# as in the lecture\nmigration_velocity = \"9.32 cm/s\"   # from the stack test\nmixing = \"full\"\nprofile = \"flat\"\n";
    let text = format!("{}\n{teaching}# the end\n", site("demonstration"));
    let sheet = good(&text);
    let mut conditions = sheet.conditions.clone();
    conditions.teaching.migration_velocity_m_s = None;
    let saved = sheet.save_text(&conditions);
    assert_eq!(
        saved.split("[teaching]\n").nth(1),
        Some(
            "# as in the lecture\n# migration_velocity = \"9.32 cm/s\"   # from the stack test\nmixing = \"full\"\nprofile = \"flat\"\n# the end\n"
        )
    );
    assert_eq!(good(&saved).conditions, conditions);

    // The last key of a section leaves its comment before the next section.
    let (saved, _) = changed("pulverised-coal-ap42", |conditions| {
        let parts = Composition {
            lithium_sodium_percent: 0.42,
            iron_percent: 1.0,
            magnesium_calcium_percent: 1.5,
            potassium_percent: 1.2,
        };
        conditions.dust.resistivity = Resistivity::FromComposition(parts);
    });
    assert!(
        saved.contains("# resistivity = \"2e10 ohm.cm\"\n"),
        "{saved}"
    );
    assert!(
        saved.contains("[dust.composition]\nlithium_sodium = \"0.42 %\"\n"),
        "{saved}"
    );
}

#[test]
fn size_tables_and_log_normals_replace_each_other() {
    let (saved, _) = changed("pulverised-coal-ap42", |conditions| {
        conditions.dust.sizes = Sizes::LogNormal {
            mass_median_diameter_m: 12e-6,
            geometric_deviation: 3.0,
        };
    });
    assert!(
        saved.contains("#     [\"15 um\", \"32 %\"],")
            && saved.contains("mass_median_diameter = \"12 um\""),
        "{saved}"
    );
    assert!(
        !saved.contains("geometric_deviation"),
        "the default goes without saying: {saved}"
    );
    let (saved, _) = changed("demonstration", |conditions| {
        conditions.dust.sizes = Sizes::Table {
            finer: vec![(2e-6, 0.1), (2e-5, 0.6)],
            largest_m: 1e-4,
        };
    });
    assert!(
        saved.contains(
            "sizes = [[\"2 um\", \"10 %\"], [\"20 um\", \"60 %\"]]\nlargest = \"100 um\""
        ),
        "{saved}"
    );
    let (saved, _) = changed("pulverised-coal-ap42", |conditions| {
        if let Sizes::Table { finer, .. } = &mut conditions.dust.sizes {
            finer[0].1 = 0.015;
        }
    });
    let new = new_lines(site("pulverised-coal-ap42"), &saved);
    assert_eq!(new, ["    [\"0.625 um\", \"1.5 %\"],"], "{saved}");
}

#[test]
fn new_keys_take_the_units_of_the_sheet() {
    let add = |conditions: &mut Conditions| {
        conditions.teaching.migration_velocity_m_s = Some(0.3048);
        conditions.teaching.mixing = Some(Mixing::Diffusivity(0.002));
        conditions
            .appearance
            .part_names
            .insert("stack".to_owned(), "chimney".to_owned());
    };
    let (text, _) = changed("demonstration", add);
    assert!(text.contains("\n[teaching]\nmigration_velocity = \"30.48 cm/s\"\nmixing = { diffusivity = \"0.002 m2/s\" }\n"), "{text}");
    assert!(text.ends_with("\n[names]\nstack = \"chimney\"\n"), "{text}");
    let (text, _) = changed("demonstration-us", add);
    assert!(text.contains("migration_velocity = \"1 ft/s\""), "{text}");
}

#[test]
fn unequal_voltages_leave_a_remark_once() {
    let text = format!(
        "{}\n[teaching]\nmigration_velocity = \"10 cm/s\"\n",
        site("demonstration")
    );
    let sheet = good(&text);
    let mut conditions = sheet.conditions.clone();
    conditions.electrical.voltage_v[0] = 23e3;
    let saved = sheet.save_text(&conditions);
    assert!(saved.contains("# The voltages changed by different ratios: migration_velocity is that of field 1.\nmigration_velocity = \"2.5 cm/s\""), "{saved}");
    let again = good(&saved);
    let mut conditions = again.conditions.clone();
    conditions.electrical.voltage_v[0] = 46e3;
    let twice = again.save_text(&conditions);
    assert_eq!(twice.matches("different ratios").count(), 1, "{twice}");
}
