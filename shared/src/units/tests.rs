//! Factors against the specification, spellings, refusals and what people see.

use super::{
    Dimension, GasState, UnitSystem, display, find_unit, format, number_text, number_text_down,
    number_text_up, parse,
};

const HOT: GasState = GasState {
    temperature_k: 423.15,
    pressure_pa: 101_325.0,
    moisture: 0.08,
};

#[track_caller]
fn si(text: &str, dimension: Dimension) -> f64 {
    parse(text, dimension, &HOT)
        .unwrap_or_else(|error| panic!("{text}: {error}"))
        .value_si
}

#[track_caller]
fn close(text: &str, dimension: Dimension, expected: f64, tolerance: f64) {
    let value = si(text, dimension);
    assert!(
        (value / expected - 1.0).abs() <= tolerance,
        "{text} gave {value}, expected {expected}"
    );
}

#[track_caller]
fn refused(text: &str, dimension: Dimension) -> String {
    parse(text, dimension, &HOT)
        .expect_err("must be refused")
        .to_string()
}

#[test]
fn factors_are_those_of_the_specification() {
    // physics.md 0, "Exact conversions", to the digits printed there.
    close("5.08 ft2/1000 acfm", Dimension::SpecificArea, 1.0, 1e-12);
    close("1 gr/ft3", Dimension::DustLoad, 2.288_352e-3, 1e-7);
    close("1000 acfm", Dimension::Flow, 0.471_947_4, 1e-7);
    close("1 in H2O", Dimension::PressureDrop, 249.089, 1e-6);
    close("1 nA/cm2", Dimension::CurrentDensity, 1e-5, 1e-15);
    close("1 kV/cm", Dimension::Field, 1e5, 1e-15);
    close("1 ohm.cm", Dimension::Resistivity, 0.01, 1e-15);
    close("1 ft/s", Dimension::Velocity, 0.3048, 1e-15);
    close("1 W/acfm", Dimension::PowerPerFlow, 2118.88, 1e-6);
    // training.md 6.4.
    close("1 acfm", Dimension::Flow, 4.719_47e-4, 1e-6);
    close("1 ft2/1000 acfm", Dimension::SpecificArea, 0.196_85, 1e-5);
    close(
        "1 nA/cm2",
        Dimension::CurrentDensity,
        si("0.9290 uA/ft2", Dimension::CurrentDensity),
        1e-4,
    );
    close("1 W/1000 acfm", Dimension::PowerPerFlow, 2.1189, 1e-4);
    close(
        "1 kV/cm",
        Dimension::Field,
        si("2.54 kV/in", Dimension::Field),
        1e-12,
    );
    close("1 in w.g.", Dimension::PressureDrop, 249.09, 1e-5);
    close("1 lb/ft3", Dimension::Density, 16.0185, 5e-6);
    close("302 °F", Dimension::Temperature, 423.15, 1e-12);
    close("1 rpm", Dimension::Turning, 1.0 / 60.0, 1e-12);
    // From memory of US EPA training texts: 5 gal/1000 acf are 0.67 L/m³; exactly 5·231 in³ in 1000 ft³.
    close("5 gal/1000 acf", Dimension::WaterPerGas, 0.67e-3, 3e-3);
    close("0.67 L/m3", Dimension::WaterPerGas, 0.67e-3, 1e-12);
    close("20 spm", Dimension::SparkRate, 1.0 / 3.0, 1e-12);
}

#[test]
fn normal_volumes_need_the_state_of_the_gas() {
    // Ideal gas, by hand: 273.15/423.15 of the normal concentration, 423.15/273.15 of the normal flow.
    close(
        "8 g/Nm3",
        Dimension::DustLoad,
        8e-3 * 273.15 / 423.15,
        1e-12,
    );
    close(
        "16 mg/Nm³",
        Dimension::Emission,
        16e-6 * 273.15 / 423.15,
        1e-12,
    );
    close("100 Nm3/s", Dimension::Flow, 100.0 * 423.15 / 273.15, 1e-12);
    let grain_per_foot = si("1 gr/acf", Dimension::DustLoad);
    close(
        "1 gr/scf",
        Dimension::DustLoad,
        grain_per_foot * 293.15 / 423.15,
        1e-12,
    );
    close(
        "1 gr/dscf",
        Dimension::DustLoad,
        grain_per_foot * 0.92 * 293.15 / 423.15,
        1e-12,
    );
    let half = GasState {
        pressure_pa: 50_662.5,
        ..GasState::NORMAL
    };
    let thin = parse("8 g/Nm3", Dimension::DustLoad, &half)
        .unwrap()
        .value_si;
    assert!(
        (thin - 4e-3).abs() < 1e-15,
        "half the pressure, half the dust per actual volume: {thin}"
    );
}

#[test]
fn training_table_of_the_reference_collector() {
    // training.md 3.0, both columns.
    close("251700 acfm", Dimension::Flow, 118.8, 1e-4);
    close("85250 ft2", Dimension::Area, 7920.0, 1e-3);
    close("339 ft2/1000 acfm", Dimension::SpecificArea, 66.7, 1e-3);
    close("0.306 ft/s", Dimension::MigrationVelocity, 0.0932, 1e-3);
    close("18.6 uA/ft2", Dimension::CurrentDensity, 20e-5, 2e-3);
    close("3.50 gr/acf", Dimension::DustLoad, 8e-3, 2e-3);
}

#[test]
fn numbers_and_units_in_many_hands() {
    close("2e10 ohm.cm", Dimension::Resistivity, 2e8, 1e-15);
    close("12 in", Dimension::PartSize, 0.3048, 1e-15);
    close("150 °C", Dimension::Temperature, 423.15, 1e-15);
    close("5%", Dimension::Fraction, 0.05, 1e-15);
    close("0.05", Dimension::Fraction, 0.05, 1e-15);
    close("20 /min", Dimension::SparkRate, 20.0 / 60.0, 1e-15);
    close("20 1/min", Dimension::SparkRate, 20.0 / 60.0, 1e-15);
    close("  2.2E-4  m²/(V·s) ", Dimension::Mobility, 2.2e-4, 1e-15);
    close("16 µm", Dimension::GrainSize, 16e-6, 1e-12);
    close("16 \u{3bc}m", Dimension::GrainSize, 16e-6, 1e-12);
    close("117 e", Dimension::Charge, 117.0, 1e-15);
    close("\u{2212}40 °F", Dimension::Temperature, 233.15, 1e-12);
    close(
        "2 kacfm",
        Dimension::Flow,
        2000.0 * 0.028_316_846_592 / 60.0,
        1e-12,
    );
    close(".5 g", Dimension::Acceleration, 4.903_325, 1e-12);
}

/// What is typed, what is wanted, and a piece of the answer.
const REFUSALS: &[(&str, Dimension, &str)] = &[
    ("", Dimension::Flow, "nothing is written"),
    (
        "about 5 m3/s",
        Dimension::Flow,
        "does not begin with a number",
    ),
    ("nan m3/s", Dimension::Flow, "not a finite number"),
    ("-inf m3/s", Dimension::Flow, "not a finite number"),
    ("1e999 m3/s", Dimension::Flow, "not a finite number"),
    (
        "118,8 m3/s",
        Dimension::Flow,
        "point, not a comma: write 118.8",
    ),
    ("251,700 acfm", Dimension::Flow, "write 251700 or 251.700"),
    (
        "251 700 acfm",
        Dimension::Flow,
        "without separators: write 251700",
    ),
    (
        "1'000'000 Pa",
        Dimension::Pressure,
        "without separators: write 1000000",
    ),
    (
        "1.000.000 Pa",
        Dimension::Pressure,
        "without separators: write 1000000",
    ),
    (
        "1,234.5 Pa",
        Dimension::Pressure,
        "without separators: write 1234.5",
    ),
    (
        "1.234,5 Pa",
        Dimension::Pressure,
        "without separators: write 1234.5",
    ),
    ("2×10^10 ohm.cm", Dimension::Resistivity, "such as 2e10"),
    ("2 x 10^10 ohm.cm", Dimension::Resistivity, "such as 2e10"),
    ("118.8", Dimension::Flow, "the unit is missing"),
    ("5 m", Dimension::Flow, "\"m\" is a length and not a flow"),
    (
        "5 KV",
        Dimension::Voltage,
        "unknown unit \"KV\" (did you mean \"kV\"?); allowed: V, kV",
    ),
    (
        "5 furlong",
        Dimension::Length,
        "unknown unit \"furlong\"; allowed: m, cm, mm, um, nm, in, ft",
    ),
    (
        "0.85 m",
        Dimension::Number,
        "plain number is written without a unit",
    ),
];

#[test]
fn refusals_say_what_to_write() {
    for &(text, dimension, expected) in REFUSALS {
        let message = refused(text, dimension);
        assert!(message.contains(expected), "{text:?} gave {message:?}");
    }
}

#[test]
fn every_spelling_is_read_and_names_one_unit_of_its_kind() {
    for dimension in Dimension::all() {
        for unit in dimension.units() {
            for spelling in unit.spellings.iter().chain([&unit.symbol]) {
                let found = find_unit(spelling, dimension);
                assert_eq!(found, Some(unit), "{spelling:?} of {}", dimension.name());
            }
        }
        for system in UnitSystem::ALL {
            let shown = dimension.display_unit(system);
            assert!(
                dimension.units().contains(shown),
                "{} is shown in a unit it cannot be read in",
                dimension.name()
            );
        }
    }
}

#[test]
fn people_see_the_unit_they_expect() {
    assert_eq!(format(45e3, Dimension::Voltage, UnitSystem::Si), "45 kV");
    assert_eq!(
        format(118.8, Dimension::Flow, UnitSystem::Us),
        "251700 acfm"
    );
    assert_eq!(format(0.3, Dimension::PartSize, UnitSystem::Si), "300 mm");
    assert_eq!(
        format(2e8, Dimension::Resistivity, UnitSystem::Us),
        "2e10 Ω·cm"
    );
    assert_eq!(
        format(2.2e-4, Dimension::Mobility, UnitSystem::Si),
        "2.2e-4 m²/V/s"
    );
    assert_eq!(format(0.85, Dimension::Number, UnitSystem::Si), "0.85");
    assert_eq!(
        display(0.0932, Dimension::MigrationVelocity, UnitSystem::Si).1,
        "cm/s"
    );
    assert_eq!(
        format(423.15, Dimension::Temperature, UnitSystem::Us),
        "302 °F"
    );
}

#[test]
fn ranges_are_rounded_inwards() {
    assert_eq!(number_text_up(211.888, 4), "211.9");
    assert_eq!(number_text_down(211.888, 4), "211.8");
    assert_eq!(number_text_down(5000.0, 4), "5000");
    assert_eq!(number_text_up(0.0, 4), "0");
    assert_eq!(number_text_down(99_996.0, 4), "99990");
    assert_eq!(number_text(1_234_567.0, 3), "1230000");
}
