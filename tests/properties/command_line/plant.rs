//! `ashlane simulate --hours`: the table over time, the file of it, and the books behind both.

use std::fs;

use super::{file, object, words};

const DAY: &str = "simulate demonstration --hours 24 --parcels 20000";

#[test]
fn a_day_is_a_table_with_its_check_and_its_books() {
    let ran = words(DAY);
    assert_eq!(ran.code(), 0, "{ran:?}");
    for part in [
        "24 h on the plant clock",
        "Teaching model. Not a procedure.",
        "penetration %",
        "layer 1 mm",
        "hopper 4 %",
        "efficiency) by the counted rates with their raps",
        "agree within",
        "Mass balance: in 82.1",
        "Darkest puff: opacity",
        "good for sale by EN 450-1",
        "at the prices of the sheet",
    ] {
        assert!(ran.out.contains(part), "no {part:?} in\n{}", ran.out);
    }
}

#[test]
fn the_same_seed_gives_the_same_day_on_any_number_of_threads() {
    let run = |threads: u32| words(&format!("{DAY} --json --threads {threads}")).out;
    assert_eq!(run(1), run(3));
}

#[test]
fn the_object_holds_every_kilogram() {
    let day = object(&format!("{DAY} --json --every 30min"));
    let number = |value: &serde_json::Value| value.as_f64().expect("a number");
    let mass = &day["mass_kg"];
    let sum: f64 = ["airborne", "layers", "hoppers", "taken_away", "outlet"]
        .iter()
        .map(|account| number(&mass[*account]))
        .sum();
    let inlet = number(&mass["inlet"]);
    assert!((sum / inlet - 1.0).abs() < 1e-9, "{sum} of {inlet} kg");
    assert!(number(&day["mass_relative_error"]) < 1e-9);
    // 118.8 m³/s with 8 g/m³ for a day.
    assert!(
        (inlet / (118.8 * 8e-3 * 86_400.0) - 1.0).abs() < 1e-9,
        "{inlet} kg"
    );
    let readings = day["readings"].as_array().expect("a list");
    assert_eq!(readings.len(), 49);
    // The last reading by subject is the last reading, whatever it holds of a field.
    let last = readings[48]["fields"].as_array().expect("fields");
    for (index, field) in last.iter().enumerate() {
        for (name, value) in field.as_object().expect("an object") {
            let subjects = ["by_field", "layers", "hoppers"];
            let found = subjects.map(|subject| &day[subject][index][name]);
            assert!(found.contains(&value), "{name} of field {index} is lost");
        }
        assert_eq!(day["hoppers"][index]["hopper_kg"], field["hopper_kg"]);
        assert_eq!(day["layers"][index]["layer_m"], field["layer_m"]);
        for key in [
            "voltage_v",
            "current_a",
            "sparks_per_min",
            "caught_fraction",
        ] {
            assert!(day["by_field"][index][key].is_number(), "{key}");
        }
    }
    assert_eq!(day["emission"]["opacity"], readings[48]["opacity"]);
    assert_eq!(
        day["emission"]["dust_kg_m3"],
        readings[48]["emission_kg_m3"]
    );
    assert!(day["gas_path"]["stations"].is_array());
    let left: f64 = readings
        .iter()
        .map(|reading| number(&reading["emission_kg_m3"]) * 118.8 * 1800.0)
        .sum();
    let outlet = number(&mass["outlet"]);
    assert!((left / outlet - 1.0).abs() < 1e-9, "{left} of {outlet} kg");
}

#[test]
fn the_file_has_a_row_for_every_time_and_a_name_for_every_column() {
    let path = file("day.csv", "");
    let line = format!("{DAY} --every 2h --csv {}", path.display());
    assert_eq!(words(&line).code(), 0);
    let text = fs::read_to_string(&path).expect("a table");
    let rows: Vec<Vec<&str>> = text.lines().map(|row| row.split(',').collect()).collect();
    assert_eq!(rows.len(), 14, "a head, the start and twelve rows");
    assert!(rows.iter().all(|row| row.len() == 7 + 4 * 14));
    let column = rows[0]
        .iter()
        .position(|name| *name == "layer_m_1")
        .expect("a layer");
    let layer = |row: usize| rows[row][column].parse::<f64>().expect("a number");
    assert_eq!(layer(1), 0.0);
    // The first field is struck from 4 h on, plate after plate: at 4 h its first plates, at 6 h two hours after all.
    assert!(layer(3) > 1.4 * layer(4), "{} then {}", layer(3), layer(4));
    assert!(layer(5) > 1.4 * layer(6), "{} then {}", layer(5), layer(6));
}

#[test]
fn a_fault_begins_at_its_hour_and_the_books_stay_exact() {
    let day = object(&format!("{DAY} --json --every 1h --fault supply-lost@13"));
    let readings = day["readings"].as_array().expect("a list");
    let number = |hour: usize, key: &str| readings[hour][key].as_f64().expect("a number");
    // Hours 11 and 15 have no rap.
    assert!(
        number(15, "penetration") > 1.5 * number(11, "penetration"),
        "{} then {}",
        number(11, "penetration"),
        number(15, "penetration")
    );
    assert!(day["mass_relative_error"].as_f64().expect("a number") < 1e-9);
    assert_eq!(day["faults"][0]["name"], "supply-lost");
    let sound = object(&format!("{DAY} --json --every 1h"));
    assert_eq!(
        sound["readings"][11], readings[11],
        "before it nothing differs"
    );
}

#[test]
fn several_faults_at_their_hours_end_again() {
    let faults = "--fault supply-lost@13-16 --fault air-leak:0.5@14-17";
    let day = object(&format!("{DAY} --json --every 1h {faults}"));
    let readings = day["readings"].as_array().expect("a list");
    let penetration = |hour: usize| readings[hour]["penetration"].as_f64().expect("a number");
    // Hours 11, 15 and 19 have no rap.
    assert!(penetration(15) > 1.5 * penetration(11));
    let sound = object(&format!("{DAY} --json --every 1h"));
    let of_sound = sound["readings"][19]["penetration"].as_f64();
    // But for what the layers have become meanwhile.
    let back = penetration(19) / of_sound.expect("a number");
    assert!((back - 1.0).abs() < 0.05, "{back}: sound again");
    assert_eq!(day["faults"][0]["to_s"], 57_600.0);
    assert!(day["mass_relative_error"].as_f64().expect("a number") < 1e-9);
    let told = words(&format!("{DAY} {faults}")).out;
    assert!(
        told.contains("Fault air-leak of severity 0.5 from hour 14 to 17."),
        "{told}"
    );
}

#[test]
fn faults_are_listed_and_what_is_no_fault_is_told() {
    let listed = words("fault list");
    assert_eq!(listed.code(), 0);
    for fault in ashlane_lessons::faults::FAULTS {
        assert!(listed.out.contains(fault.name) && listed.out.contains(fault.signs));
        let mut rows = listed.out.lines().map(|line| line.split_whitespace());
        let row = rows.find(|row| row.clone().take(2).eq([fault.row, fault.name]));
        assert!(row.is_some(), "no row of {} in\n{}", fault.name, listed.out);
    }
    for (line, says) in [
        (
            "simulate demonstration --fault suply-lost",
            "did you mean \"supply-lost\"?",
        ),
        ("simulate demonstration --fault air-leak:3", "0 to 1"),
        ("simulate demonstration --fault air-leak:1@4", "add --hours"),
        (
            "simulate demonstration --fault air-leak:1@0-4",
            "add --hours",
        ),
    ] {
        let ran = words(line);
        assert_eq!(ran.code(), 2, "{line}");
        assert!(ran.err.contains(says), "{line}: {}", ran.err);
    }
    let ill = words("simulate demonstration --parcels 20000 --fault supply-lost");
    assert_eq!(ill.code(), 0, "{ill:?}");
    let heading = ill.out.lines().next().expect("a heading");
    assert!(
        heading.contains("fault supply-lost of severity 1"),
        "{heading}"
    );
}

#[test]
fn wrong_times_are_told_and_write_nothing() {
    for (line, says) in [
        ("simulate demonstration --every 1h", "--hours"),
        ("simulate demonstration --csv day.csv", "--hours"),
        ("simulate demonstration --hours 0", "0.01 to 8784"),
        ("simulate demonstration --hours never", "0.01 to 8784"),
        ("simulate demonstration --hours 1 --every 3kg", "kg"),
        (
            "simulate demonstration --hours 1 --every 0.1s",
            "1 s or more",
        ),
        ("simulate demonstration --hours 8784 --every 1s", "at most"),
        (
            "simulate demonstration --hours 1 --csv no/such/folder/day.csv",
            "no such folder",
        ),
    ] {
        let ran = words(line);
        assert_eq!(ran.code(), 2, "{line}");
        assert!(
            ran.err.contains(says) && ran.out.is_empty(),
            "{line}: {}",
            ran.err
        );
    }
}
