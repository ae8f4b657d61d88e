//! The sites that come with the program.

use std::{fs, path::Path};

use ashlane_shared::conditions::{Kind, SITES, Sizes, check, demonstration};

use super::{difference, good, site};

#[test]
fn every_site_loads_and_is_possible() {
    for (name, text) in SITES {
        let conditions = good(text).conditions;
        assert_eq!(check(&conditions), Ok(()), "{name}");
        assert!(
            text.contains("invented"),
            "{name} must say that it is invented"
        );
    }
    assert_eq!(
        difference(
            &demonstration(),
            &good(site("demonstration")).conditions,
            0.0
        ),
        None
    );
}

#[test]
fn every_file_in_the_folder_is_a_site() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/sites");
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path
            .extension()
            .is_some_and(|extension| extension == "toml")
        {
            let stem = path
                .file_stem()
                .unwrap_or_default()
                .to_string_lossy()
                .into_owned();
            assert_eq!(
                fs::read_to_string(&path).unwrap(),
                site(&stem),
                "{stem} is not the one that is built in"
            );
        }
    }
}

#[test]
fn both_unit_systems_describe_the_same_collector() {
    // training.md 3.0: one collector, two columns.
    let si = good(site("demonstration")).conditions;
    let us = good(site("demonstration-us")).conditions;
    assert_eq!(difference(&si, &us, 1e-9), None);
}

#[test]
fn the_demonstration_is_the_reference_collector() {
    // training.md 3.0, reference collector R1, to the digits printed there.
    let r1 = demonstration();
    assert!((r1.gas_velocity_m_s() - 1.20).abs() < 1e-9);
    assert!((r1.collecting_area_m2() - 7920.0).abs() < 1e-6);
    assert!((r1.specific_collection_area_s_m() - 66.7).abs() < 0.05);
    assert!((r1.treatment_time_s() - 10.0).abs() < 1e-9);
    assert!((r1.inlet_mass_kg_s() * 3600.0 - 3421.0).abs() < 1.0);
    assert_eq!(r1.electrical.voltage_v, [46e3, 45e3, 44e3, 43e3]);
    assert_eq!(r1.reference.voltage_v, r1.electrical.voltage_v);
    assert_eq!(
        r1.ion_mobility_m2_v_s(),
        2.2e-4,
        "stated at the sheet's own gas"
    );
}

#[test]
fn the_published_sizes_are_those_of_the_table() {
    let Sizes::Table { finer, largest_m } =
        good(site("pulverised-coal-ap42")).conditions.dust.sizes
    else {
        panic!("the sheet has no size table")
    };
    // From memory of US EPA AP-42, Table 1.1-6, uncontrolled dry-bottom boilers.
    let published = [
        (0.625, 1.0),
        (1.0, 2.0),
        (1.25, 2.0),
        (2.5, 6.0),
        (6.0, 17.0),
        (10.0, 23.0),
        (15.0, 32.0),
    ];
    assert_eq!(finer.len(), published.len());
    for ((diameter_m, share), (diameter_um, percent)) in finer.into_iter().zip(published) {
        assert!(
            (diameter_m * 1e6 - diameter_um).abs() < 1e-9 && (share * 100.0 - percent).abs() < 1e-9,
            "{diameter_um} µm"
        );
    }
    assert!((largest_m - 100e-6).abs() < 1e-15);
}

#[test]
fn a_normal_load_becomes_an_actual_one() {
    let kiln = good(site("cement-kiln")).conditions;
    // 45 g/Nm³ at 140 °C and 98 kPa, ideal gas.
    let expected = 45e-3 * (273.15 / 413.15) * (98e3 / 101_325.0);
    assert!((kiln.dust.load_kg_m3 / expected - 1.0).abs() < 1e-12);
    assert_eq!(
        kiln.appearance.part_names.get("hopper").map(String::as_str),
        Some("trough")
    );
}

#[test]
fn the_order_of_sections_does_not_matter() {
    for (name, text) in SITES {
        // A heading begins a section; what stands above the first one is comment.
        let mut sections: Vec<&str> = text.split("\n[").skip(1).collect();
        sections.reverse();
        let reversed = format!("[{}", sections.join("\n["));
        assert_eq!(good(&reversed).conditions, good(text).conditions, "{name}");
    }
}

#[test]
fn short_lists_repeat_and_defaults_fill_in() {
    let sheet = "[gas]\nflow = \"10 m3/s\"\ntemperature = \"60 °C\"\n[collector]\nkind = \"wet\"\nfields = 3\npassages = 5\n\
        plate_spacing = \"300 mm\"\nplate_height = \"5 m\"\nfield_length = \"2 m\"\n[dust]\nload = \"1 g/m3\"\n\
        [electrical]\nvoltage = [\"50 kV\", \"48 kV\"]\n[rapping]\ninterval = \"1 h\"\n";
    let conditions = good(sheet).conditions;
    assert_eq!(conditions.electrical.voltage_v, [50e3, 48e3, 48e3]);
    assert_eq!(conditions.rapping.interval_s, [3600.0; 3]);
    assert_eq!(conditions.collector.kind, Kind::Wet);
    // physics.md 11: wet collectors.
    assert_eq!(
        (
            conditions.rapping.reentrained,
            conditions.collector.sneakage
        ),
        (0.0, 0.05)
    );
    let dry = good(&sheet.replace("\"wet\"", "\"dry\"")).conditions;
    assert_eq!(dry.rapping.reentrained, 0.124, "the demonstration's value");
}
