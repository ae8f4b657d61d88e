//! `ashlane corona`: the contract of its object, its order, its errors and its map.

use std::fs;

use serde_json::Value as Json;

use super::{file, object, words};

fn number(value: &Json) -> f64 {
    value.as_f64().expect("a number")
}

/// The duct of value D-A as a sheet.
fn duct() -> std::path::PathBuf {
    let sheet = ashlane_shared::conditions::SITES[0].1;
    let mut text = String::new();
    for line in sheet.lines() {
        let key = line.split('=').next().unwrap_or_default().trim();
        let value = match key {
            "plate_spacing" => Some("\"228.6 mm\""),
            "wire_spacing" => Some("\"152.4 mm\""),
            "wire_diameter" => Some("\"2.032 mm\""),
            "wire_roughness" => Some("1.0"),
            "temperature" => Some("\"20 °C\""),
            "ion_mobility" => Some("\"1.82e-4 m2/V/s\""),
            _ => None,
        };
        match value {
            Some(value) => text.push_str(&format!("{key} = {value}\n")),
            None => text.push_str(&format!("{line}\n")),
        }
    }
    file("duct.toml", text)
}

#[test]
fn the_curve_has_the_currents_in_the_order_asked_for_and_the_specified_voltages() {
    let line = format!(
        "corona {} --currents 1e-4,3e-5,3e-4 --json",
        duct().display()
    );
    let result = object(&line);
    // Computed: conformal finite volumes, Richardson-extrapolated (specification, value D-A).
    let expected = [(1e-4, 40_422.0), (3e-5, 35_530.0), (3e-4, 50_187.0)];
    let curve = result["curve"].as_array().expect("a curve");
    assert_eq!(curve.len(), expected.len());
    for (point, (current_a_m, voltage_v)) in curve.iter().zip(expected) {
        assert!(
            (number(&point["current_a_m"]) / current_a_m - 1.0).abs() < 1e-9,
            "{point}"
        );
        assert!(
            (number(&point["voltage_v"]) / voltage_v - 1.0).abs() < 5e-3,
            "{point}"
        );
        assert!(
            (number(&point["current_density_a_m2"]) - current_a_m / 0.3048).abs() < 1e-9,
            "{point}"
        );
        assert!(
            number(&point["quadratic_law_voltage_v"]) > number(&point["voltage_v"]),
            "the textbook law is above: {point}"
        );
    }
    assert!((number(&result["onset_voltage_v"]) / 32_712.35 - 1.0).abs() < 1e-3);
    for key in ["onset_field_v_m", "effective_radius_m"] {
        assert!(number(&result[key]) > 0.0, "{key}");
    }
    let profile = result["plate_profile"].as_array().expect("a profile");
    assert!(
        number(&profile[0]["x_m"]).abs() < 1e-9,
        "it starts under the wire"
    );
    for key in ["current_density_a_m2", "field_v_m"] {
        assert!(
            number(&profile[0][key]) > number(&profile[profile.len() - 2][key]),
            "{key}"
        );
    }
}

#[test]
fn the_curve_runs_from_onset_to_sparking_and_dust_raises_the_onset() {
    let clean = object("corona demonstration --points 5 --json");
    let curve = clean["curve"].as_array().expect("a curve");
    assert_eq!(curve.len(), 5);
    assert!(
        number(&curve[0]["current_a_m"]).abs() < 1e-12,
        "no current at onset"
    );
    for pair in curve.windows(2) {
        assert!(number(&pair[1]["current_a_m"]) > number(&pair[0]["current_a_m"]));
    }
    assert!((number(&curve[4]["voltage_v"]) - number(&clean["spark_voltage_v"])).abs() < 1e-6);
    let dusty = object("corona demonstration --points 2 --dust --json");
    assert!(number(&dusty["onset_voltage_v"]) > 1.1 * number(&clean["onset_voltage_v"]));
    let text = words("corona demonstration --field 2").out;
    for part in ["field 2", "air load", "quadratic law", "Teaching model"] {
        assert!(text.contains(part), "no {part:?} in\n{text}");
    }
}

#[test]
fn wrong_arguments_are_told_with_what_is_allowed() {
    for (line, part) in [
        ("corona demonstration --field 5", "fields 1 to 4"),
        ("corona demonstration --field 0", "fields 1 to 4"),
        ("corona demonstration --points 1", "2 to 1000"),
        ("corona demonstration --currents -1", "A per metre"),
        ("corona demonstration --currents -1e-5", "A per metre"),
        ("corona demonstration --currents 1e-5,-2e-5", "A per metre"),
        ("corona demonstration --currents nan", "A per metre"),
        ("corona demonstration --currents 1e-5,,2e-5", "A per metre"),
        ("corona demonstration --currents 1e-5,much", "A per metre"),
        ("corona demonstration --field first", "number of a field"),
        ("corona demonstration --field -1", "number of a field"),
        (
            "corona demonstration --map no/such/folder.csv",
            "no such folder",
        ),
        ("corona nowhere.toml", "nowhere.toml"),
    ] {
        let ran = words(line);
        assert_eq!(ran.code(), 2, "{line}: {ran:?}");
        assert!(ran.err.contains(part), "{line}: no {part:?} in {}", ran.err);
        assert!(ran.out.is_empty(), "{line}");
    }
}

#[test]
fn the_map_is_a_table_with_grounded_plates() {
    let path = file("map.csv", "");
    let ran = words(&format!(
        "corona demonstration --points 2 --map {}",
        path.display()
    ));
    assert_eq!(ran.code(), 0, "{ran:?}");
    let text = fs::read_to_string(&path).expect("a table");
    let mut rows = 0;
    for line in text.lines().skip(1) {
        let cells: Vec<f64> = line
            .split(',')
            .map(|cell| cell.parse().expect("a number"))
            .collect();
        assert_eq!(cells.len(), 6, "{line}");
        if (cells[1] - 0.15).abs() < 1e-9 {
            assert!(cells[2].abs() < 1e-6, "the plate is grounded: {line}");
        }
        rows += 1;
    }
    assert_eq!(rows, 61 * 41);
    assert!(
        !path.with_file_name("map.csv.part").exists(),
        "nothing half written is left"
    );
}

#[test]
fn a_map_that_cannot_be_written_names_its_file_and_leaves_nothing() {
    let path = file("map.csv", "");
    let folder = path.parent().expect("a folder");
    fs::remove_file(&path).expect("removed");
    // A name longer than file systems allow fails for every user, root too.
    let long = folder.join(format!("{}.csv", "m".repeat(300)));
    let ran = words(&format!(
        "corona demonstration --points 2 --map {}",
        long.display()
    ));
    assert_eq!(ran.code(), 2, "{ran:?}");
    assert!(ran.err.contains("mmm.csv"), "which file? {}", ran.err);
    assert!(ran.out.is_empty(), "{ran:?}");
    let left = fs::read_dir(folder).expect("a folder").count();
    assert_eq!(left, 0, "something is left behind");
}

#[test]
fn a_map_touches_no_other_file() {
    let path = file("map.csv", "");
    let neighbour = path.with_file_name("map.csv.part");
    fs::write(&neighbour, "mine").expect("written");
    let line = format!("corona demonstration --points 2 --map {}", path.display());
    assert_eq!(words(&line).code(), 0);
    assert_eq!(fs::read_to_string(&neighbour).expect("still there"), "mine");
    let folder = path.parent().expect("a folder");
    assert_eq!(fs::read_dir(folder).expect("a folder").count(), 2);
}

#[test]
fn below_onset_the_map_has_no_ions_and_the_checks_claim_no_current() {
    let sheet = ashlane_shared::conditions::SITES[0].1;
    let lines: Vec<String> = sheet
        .lines()
        .map(|line| match line.split('=').next().map(str::trim) {
            Some("voltage") => "voltage = \"20 kV\"".to_owned(),
            _ => line.to_owned(),
        })
        .collect();
    let low = file("low.toml", lines.join("\n"));
    let map = low.with_file_name("map.csv");
    let line = format!(
        "corona {} --points 2 --map {}",
        low.display(),
        map.display()
    );
    let ran = words(&line);
    assert_eq!(ran.code(), 0, "{ran:?}");
    assert!(
        ran.out.contains("no current at this voltage"),
        "{}",
        ran.out
    );
    let text = fs::read_to_string(&map).expect("a table");
    for row in text.lines().skip(1) {
        let ions: f64 = row
            .rsplit(',')
            .next()
            .expect("a cell")
            .parse()
            .expect("a number");
        assert!(ions.abs() < 1e-300, "{row}");
    }
}

#[test]
fn the_report_holds_current_and_onset_slope_against_their_laws() {
    let text = words("corona demonstration --points 2").out;
    let percent = |after: &str| -> f64 {
        let rest = text
            .split_once(after)
            .unwrap_or_else(|| panic!("no {after:?} in\n{text}"))
            .1;
        rest.split_whitespace()
            .next()
            .expect("a word")
            .parse()
            .expect("a number")
    };
    // The same bounds as on the published duct: grid and chord (tests/published/corona_solver.rs).
    assert!(
        (percent("the plates collect ") - 100.0).abs() < 1.0,
        "{text}"
    );
    assert!(
        (percent("the current rises at ") - 100.0).abs() < 0.5,
        "{text}"
    );
    let dusty = words("corona demonstration --points 2 --dust").out;
    assert!(
        !dusty.contains("the current rises at"),
        "no exact slope with dust: {dusty}"
    );
}

#[test]
fn no_current_is_onset_and_a_voltage_beyond_sparking_is_told() {
    let onset = object("corona demonstration --currents 0,1e-4 --json");
    let first = &onset["curve"][0];
    assert_eq!(first["voltage_v"], onset["onset_voltage_v"]);
    assert_eq!(first["current_a_m"], 0.0);
    let demonstration = ashlane_shared::conditions::SITES[0].1;
    let sheet = file(
        "beyond_sparking.toml",
        demonstration.replace("[\"46 kV\"", "[\"75 kV\""),
    );
    let text = words(&format!("corona {} --points 2", sheet.display())).out;
    assert!(text.contains("the gap sparks first"), "{text}");
}
