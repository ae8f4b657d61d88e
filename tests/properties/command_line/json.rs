//! `simulate --json`: the keys of the contract, and that their numbers hang together.

use serde_json::Value as Json;

use super::{ashlane, demonstration_object, file, object, one_field};

fn number(value: &Json) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("{value} is no number"))
}

fn sum(list: &Json, key: &str) -> f64 {
    let entries = list.as_array().expect("a list");
    entries.iter().map(|entry| number(&entry[key])).sum()
}

#[test]
fn every_key_of_the_contract_is_there() {
    let result = demonstration_object();
    for path in [
        "/conditions/gas/flow_m3_s",
        "/parcels",
        "/seed",
        "/penetration/counted",
        "/penetration/standard_error",
        "/penetration/finite_mixing",
        "/penetration/deutsch_anderson",
        "/penetration/laminar",
        "/deutsch_number",
        "/peclet_number",
        "/by_size/0/diameter_m",
        "/by_size/0/counted",
        "/by_size/0/standard_error",
        "/by_size/0/expected",
        "/by_field/0/field",
        "/by_field/0/collected_fraction",
        "/by_field/0/voltage_v",
        "/by_field/0/current_a",
        "/by_field/0/current_density_a_m2",
        "/by_field/0/peak_voltage_v",
        "/by_field/0/sparks_per_min",
        "/by_field/0/over_top_fraction",
        "/by_field/0/through_hoppers_fraction",
        "/layers/3/layer_m",
        "/layers/3/growth_m_s",
        "/hoppers/3/inflow_kg_s",
        "/hoppers/3/fill_time_s",
        "/emission/dust_kg_m3",
        "/emission/dust_kg_s",
        "/emission/opacity",
        "/gas_path/fan_power_w",
        "/gas_path/collector_loss_pa",
        "/mass_kg_per_s/inlet",
        "/mass_kg_per_s/layers",
        "/mass_kg_per_s/hoppers",
        "/mass_kg_per_s/taken_away",
        "/mass_kg_per_s/outlet",
        "/mass_kg_per_s/airborne_change",
        "/mass_relative_error",
    ] {
        let value = result.pointer(path);
        assert!(value.is_some_and(Json::is_number), "{path}: {value:?}");
    }
    assert_eq!(result["parcels"], 20_000);
    assert_eq!(result["seed"], 3);
}

#[test]
fn the_numbers_hang_together() {
    let result = demonstration_object();
    let penetration = &result["penetration"];
    let counted = number(&penetration["counted"]);
    // One standard error of a share.
    let sigma = (counted * (1.0 - counted) / 20_000.0).sqrt();
    assert!((number(&penetration["standard_error"]) / sigma - 1.0).abs() < 1e-9);
    let caught = sum(&result["by_field"], "collected_fraction");
    assert!(
        (caught + counted - 1.0).abs() < 1e-12,
        "{caught} and {counted}"
    );
    assert!((sum(&result["by_size"], "inlet_share") - 1.0).abs() < 1e-12);
    let by_size: f64 = result["by_size"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|class| number(&class["inlet_share"]) * number(&class["counted"]))
        .sum();
    assert!((by_size - counted).abs() < 1e-9, "{by_size} and {counted}");
    let deutsch = -number(&penetration["deutsch_anderson"]).ln();
    assert!((number(&result["deutsch_number"]) - deutsch).abs() < 1e-9);
    let mass = &result["mass_kg_per_s"];
    // 8 g/m³ in 118.8 m³/s.
    assert!((number(&mass["inlet"]) - 0.9504).abs() < 1e-12);
    assert!((number(&mass["outlet"]) - 0.9504 * counted).abs() < 1e-12);
    assert!((number(&mass["layers"]) - 0.9504 * caught).abs() < 1e-12);
    assert!(number(&result["mass_relative_error"]) < 1e-9);
    let falling = sum(&result["hoppers"], "inflow_kg_s");
    assert!(
        (falling - number(&mass["layers"])).abs() < 1e-12,
        "{falling}"
    );
    // The layers that grow hold the same dust: 1980 m² a field, 600 kg/m³.
    let growing = sum(&result["layers"], "growth_m_s") * 1980.0 * 600.0;
    assert!((growing / falling - 1.0).abs() < 1e-9, "{growing}");
    let emission = &result["emission"];
    assert!((number(&emission["dust_kg_s"]) - number(&mass["outlet"])).abs() < 1e-12);
    assert!((number(&emission["dust_kg_m3"]) - 8e-3 * counted).abs() < 1e-12);
    assert!((0.0..1.0).contains(&number(&emission["opacity"])));
    for field in result["by_field"].as_array().expect("a list") {
        // 33 passages · 2 faces · 3 m · 10 m.
        let current = number(&field["current_density_a_m2"]) * 1980.0;
        assert!(
            (number(&field["current_a"]) / current - 1.0).abs() < 1e-9,
            "{field}"
        );
    }
    assert_eq!(result["by_field"][0]["voltage_v"], 46e3);
}

#[test]
fn the_result_does_not_depend_on_the_threads() {
    let line = format!("simulate {} --parcels 20000 --json", one_field().display());
    let usual = object(&line);
    for threads in [1, 2, 8] {
        assert_eq!(
            object(&format!("{line} --threads {threads}")),
            usual,
            "{threads}"
        );
    }
    let other = object(&format!("{line} --seed 2"));
    assert_ne!(
        other["penetration"]["counted"],
        usual["penetration"]["counted"]
    );
    assert_eq!(
        other["penetration"]["finite_mixing"],
        usual["penetration"]["finite_mixing"]
    );
}

#[test]
fn a_sheet_in_us_units_says_the_same() {
    let si = demonstration_object();
    let us = object("simulate demonstration-us --parcels 5000 --json");
    let mut compared = 0;
    same("", &si["conditions"], &us["conditions"], &mut compared);
    assert!(compared > 40, "{compared} numbers");
    let solver = |result: &Json| number(&result["penetration"]["finite_mixing"]);
    // Rounding of the units sends the parcels whose charge is in the fields on other ways: over eight loads that differ in
    // the seventh digit the penetration had a standard deviation of 0.7 %; five of them for the difference of two.
    assert!((solver(si) / solver(&us) - 1.0).abs() < 0.05);
}

/// Equal to 1e-9, but for the title.
fn same(path: &str, one: &Json, other: &Json, compared: &mut usize) {
    match (one, other) {
        (Json::Number(_), Json::Number(_)) => {
            let (a, b) = (number(one), number(other));
            assert!((a - b).abs() <= 1e-9 * a.abs(), "{path}: {a} and {b}");
            *compared += 1;
        }
        (Json::Array(a), Json::Array(b)) => {
            assert_eq!(a.len(), b.len(), "{path}");
            for (index, (a, b)) in a.iter().zip(b).enumerate() {
                same(&format!("{path}/{index}"), a, b, compared);
            }
        }
        (Json::Object(a), Json::Object(b)) => {
            for (key, a) in a.iter().filter(|(key, _)| *key != "title") {
                same(&format!("{path}/{key}"), a, &b[key], compared);
            }
        }
        _ => assert_eq!(one, other, "{path}"),
    }
}

#[test]
fn the_peclet_number_is_nought_for_full_mixing_and_null_for_none() {
    for (mixing, expected) in [("\"full\"", Json::from(0.0)), ("\"none\"", Json::Null)] {
        let sheet = format!(
            "{}\n[teaching]\nmixing = {mixing}\nmigration_velocity = \"9.32 cm/s\"\n",
            ashlane_shared::conditions::SITES[0].1
        );
        let path = file("mixing.toml", sheet);
        let words = ["simulate", "--json", "--parcels", "5000"].map(std::ffi::OsString::from);
        let ran = ashlane(words.into_iter().chain([path.into_os_string()]));
        let result: Json = serde_json::from_str(&ran.out).unwrap_or_else(|_| panic!("{ran:?}"));
        assert_eq!(result["peclet_number"], expected, "{mixing}");
    }
}
