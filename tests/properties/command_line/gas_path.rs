//! The gas along its way in `simulate`, for people and for programs, and what an air leak does to it.

use serde_json::Value as Json;

use super::{demonstration_object, object, words};

fn number(value: &Json) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("{value} is no number"))
}

fn stations(result: &Json) -> &Vec<Json> {
    result["gas_path"]["stations"].as_array().expect("a list")
}

#[test]
fn every_station_has_its_pressure_temperature_oxygen_water_and_flow() {
    let result = demonstration_object();
    let stations = stations(result);
    assert_eq!(stations.len(), 12);
    for one in stations {
        for key in [
            "static_gauge_pa",
            "velocity_m_s",
            "flow_m3_s",
            "dry_flow_mol_s",
            "temperature_k",
            "oxygen_dry",
            "moisture",
        ] {
            assert!(one[key].is_number(), "{key}: {one}");
        }
        // The demonstration has no leaks: its gas is the sheet's all the way.
        assert_eq!(number(&one["temperature_k"]), 423.15, "{one}");
        assert!((number(&one["oxygen_dry"]) - 0.06).abs() < 1e-12, "{one}");
    }
    assert_eq!(stations[0]["place"], "inlet duct");
    let (last, before) = (stations.len() - 2, stations.len() - 3);
    assert_eq!(stations[last]["place"], "behind the fan");
    assert!(
        number(&stations[before]["static_gauge_pa"]) < -1000.0,
        "suction"
    );
    // P = QΔp/η with η = 0.7 (teaching value); both ends of the fan have the same duct and the same gas.
    let rise =
        number(&stations[last]["static_gauge_pa"]) - number(&stations[before]["static_gauge_pa"]);
    let power = 118.8 * rise / 0.7;
    let told = number(&result["gas_path"]["fan_power_w"]);
    assert!((told / power - 1.0).abs() < 1e-9, "{told} and {power}");
}

#[test]
fn an_air_leak_shows_at_the_stations_behind_it() {
    let result = object("simulate demonstration --parcels 5000 --json --fault air-leak");
    let stations = stations(&result);
    let at = |place: &str, key: &str| {
        let one = stations.iter().find(|one| one["place"] == place);
        number(&one.unwrap_or_else(|| panic!("no {place}"))[key])
    };
    // physics.md 13: oxygen from 6 to 8 % is 15.5 % of air.
    assert!((at("inlet duct", "oxygen_dry") - 0.06).abs() < 1e-9);
    assert!((at("before the fan", "oxygen_dry") - 0.08).abs() < 1e-9);
    let grown = at("before the fan", "dry_flow_mol_s") / at("inlet duct", "dry_flow_mol_s");
    assert!((grown - 1.155).abs() < 5e-4, "{grown}");
    assert!((at("inlet duct", "temperature_k") - 423.15).abs() < 1e-6);
    assert!(at("behind plate 1", "temperature_k") < 415.0);
    assert!(number(&result["gas_path"]["oxygen_balance_error"]) < 1e-9);
}

#[test]
fn the_report_has_a_row_for_every_station_in_both_unit_systems() {
    let ran = words("simulate demonstration --parcels 5000 --fault air-leak");
    for part in [
        "Gas along its way",
        "behind plate 1",
        "behind field 4",
        "mouth of the stack",
        "150 °C (302 °F)",
        "in w.g.",
        "8.00",
        "Fan: ",
    ] {
        assert!(ran.out.contains(part), "no {part:?} in\n{}", ran.out);
    }
    assert!(
        ran.out.lines().all(|line| line.chars().count() <= 130),
        "{}",
        ran.out
    );
}
