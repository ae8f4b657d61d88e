//! Every unit Ashlane reads, with its factor to SI: one list a dimension, the preferred spelling for files first.
//!
//! Factors are the exact definitions (inch 25.4 mm, pound 0.45359237 kg, grain a 7000th of it), so that text in
//! either system gives the same numbers; inches of water and mercury are the conventional ones (1000 and
//! 13 595.1 kg/m³ at 9.80665 m/s²).

use super::unit::{Basis, Unit};

const INCH_M: f64 = 0.0254;
const FOOT_M: f64 = 0.3048;
const FOOT2_M2: f64 = FOOT_M * FOOT_M;
const FOOT3_M3: f64 = FOOT_M * FOOT_M * FOOT_M;
/// The liquid gallon of the United States: 231 cubic inches.
const GALLON_M3: f64 = 231.0 * INCH_M * INCH_M * INCH_M;
const POUND_KG: f64 = 0.453_592_37;
const GRAIN_KG: f64 = POUND_KG / 7000.0;
const GRAVITY_M_S2: f64 = 9.806_65;
const MINUTE_S: f64 = 60.0;
const HOUR_S: f64 = 3600.0;
const DAY_S: f64 = 86_400.0;
const ACFM_M3_S: f64 = FOOT3_M3 / MINUTE_S;
const INCH_WATER_PA: f64 = INCH_M * 1000.0 * GRAVITY_M_S2;
const INCH_MERCURY_PA: f64 = INCH_M * 13_595.1 * GRAVITY_M_S2;
const FAHRENHEIT_K: f64 = 5.0 / 9.0;

type Units = &'static [Unit];

pub(super) const FLOW: Units = &[
    Unit::new("m³/s", &["m3/s"], 1.0),
    Unit::part("m³/min", &["m3/min"], MINUTE_S),
    Unit::part("m³/h", &["m3/h", "m3/hr"], HOUR_S),
    Unit::new("acfm", &["acfm", "ft3/min", "cfm"], ACFM_M3_S),
    Unit::new("1000 acfm", &["kacfm", "1000 acfm"], 1000.0 * ACFM_M3_S),
    Unit::new("Nm³/s", &["Nm3/s"], 1.0).volume_at(Basis::Normal),
    Unit::part("Nm³/h", &["Nm3/h", "Nm3/hr"], HOUR_S).volume_at(Basis::Normal),
    Unit::new("scfm", &["scfm"], ACFM_M3_S).volume_at(Basis::Standard),
    Unit::new("dscfm", &["dscfm"], ACFM_M3_S).volume_at(Basis::StandardDry),
];

pub(super) const VELOCITY: Units = &[
    Unit::new("m/s", &["m/s"], 1.0),
    Unit::part("cm/s", &["cm/s"], 100.0),
    Unit::part("mm/s", &["mm/s"], 1e3),
    Unit::part("m/min", &["m/min"], MINUTE_S),
    Unit::new("ft/s", &["ft/s", "fps"], FOOT_M),
    Unit::new("ft/min", &["ft/min", "fpm"], FOOT_M / MINUTE_S),
];

pub(super) const LENGTH: Units = &[
    Unit::new("m", &["m"], 1.0),
    Unit::part("cm", &["cm"], 100.0),
    Unit::part("mm", &["mm"], 1e3),
    Unit::part("µm", &["um", "micron", "microns"], 1e6),
    Unit::part("nm", &["nm"], 1e9),
    Unit::new("in", &["in", "inch", "\""], INCH_M),
    Unit::new("ft", &["ft"], FOOT_M),
];

pub(super) const AREA: Units = &[
    Unit::new("m²", &["m2"], 1.0),
    Unit::part("cm²", &["cm2"], 1e4),
    Unit::part("mm²", &["mm2"], 1e6),
    Unit::new("ft²", &["ft2", "sq ft"], FOOT2_M2),
    Unit::new("in²", &["in2", "sq in"], INCH_M * INCH_M),
];

pub(super) const VOLUME: Units = &[
    Unit::new("m³", &["m3"], 1.0),
    Unit::part("L", &["L", "l"], 1e3),
    Unit::new("ft³", &["ft3", "cu ft"], FOOT3_M3),
    Unit::new("yd³", &["yd3", "cu yd"], 27.0 * FOOT3_M3),
];

pub(super) const TIME: Units = &[
    Unit::new("s", &["s", "sec"], 1.0),
    Unit::part("ms", &["ms"], 1e3),
    Unit::part("µs", &["us"], 1e6),
    Unit::new("min", &["min"], MINUTE_S),
    Unit::new("h", &["h", "hr"], HOUR_S),
    Unit::new("d", &["d", "day", "days"], DAY_S),
];

pub(super) const TEMPERATURE: Units = &[
    Unit::new("°C", &["°C", "degC", "C"], 1.0).shifted(273.15),
    Unit::new("°F", &["°F", "degF", "F"], FAHRENHEIT_K).shifted(273.15 - 32.0 * FAHRENHEIT_K),
    Unit::new("K", &["K"], 1.0),
];

pub(super) const PRESSURE: Units = &[
    Unit::new("Pa", &["Pa"], 1.0),
    Unit::new("hPa", &["hPa"], 100.0),
    Unit::new("kPa", &["kPa"], 1000.0),
    Unit::new("mbar", &["mbar"], 100.0),
    Unit::new("bar", &["bar"], 1e5),
    Unit::new("atm", &["atm"], 101_325.0),
    Unit::new("mm Hg", &["mmHg", "mm Hg"], INCH_MERCURY_PA / 25.4),
    Unit::new(
        "in w.g.",
        &[
            "in w.g.", "in wg", "inwg", "in w.c.", "in wc", "inH2O", "in H2O", "iwg",
        ],
        INCH_WATER_PA,
    ),
    Unit::new("in Hg", &["inHg", "in Hg"], INCH_MERCURY_PA),
    Unit::new(
        "psi",
        &["psi", "psia"],
        POUND_KG * GRAVITY_M_S2 / (INCH_M * INCH_M),
    ),
];

pub(super) const FRACTION: Units = &[
    Unit::part("%", &["%", "percent"], 100.0),
    Unit::new("", &[""], 1.0),
];

/// The formulas of ash conditioning take parts per million, so that is the base.
pub(super) const TRACE: Units = &[
    Unit::new("ppm", &["ppm", "ppmv"], 1.0),
    Unit::part("ppb", &["ppb", "ppbv"], 1e3),
    Unit::new("%", &["%"], 1e4),
];

pub(super) const CONCENTRATION: Units = &[
    Unit::part("g/m³", &["g/m3"], 1e3),
    Unit::part("mg/m³", &["mg/m3"], 1e6),
    Unit::part("µg/m³", &["ug/m3"], 1e9),
    Unit::new("kg/m³", &["kg/m3"], 1.0),
    Unit::new("gr/acf", &["gr/acf", "gr/ft3"], GRAIN_KG / FOOT3_M3),
    Unit::part("g/Nm³", &["g/Nm3"], 1e3).per_volume_at(Basis::Normal),
    Unit::part("mg/Nm³", &["mg/Nm3"], 1e6).per_volume_at(Basis::Normal),
    Unit::new("gr/scf", &["gr/scf"], GRAIN_KG / FOOT3_M3).per_volume_at(Basis::Standard),
    Unit::new("gr/dscf", &["gr/dscf"], GRAIN_KG / FOOT3_M3).per_volume_at(Basis::StandardDry),
];

pub(super) const DENSITY: Units = &[
    Unit::new("kg/m³", &["kg/m3"], 1.0),
    Unit::new("g/cm³", &["g/cm3"], 1000.0),
    Unit::new("t/m³", &["t/m3"], 1000.0),
    Unit::new("lb/ft³", &["lb/ft3", "pcf"], POUND_KG / FOOT3_M3),
];

pub(super) const MASS: Units = &[
    Unit::new("kg", &["kg"], 1.0),
    Unit::part("g", &["g"], 1e3),
    Unit::part("mg", &["mg"], 1e6),
    Unit::new("t", &["t"], 1000.0),
    Unit::new("lb", &["lb"], POUND_KG),
];

pub(super) const MASS_FLOW: Units = &[
    Unit::new("kg/s", &["kg/s"], 1.0),
    Unit::part("g/s", &["g/s"], 1e3),
    Unit::part("kg/h", &["kg/h", "kg/hr"], HOUR_S),
    Unit::new("t/h", &["t/h", "t/hr"], 1000.0 / HOUR_S),
    Unit::new("t/d", &["t/d"], 1000.0 / DAY_S),
    Unit::new("lb/min", &["lb/min"], POUND_KG / MINUTE_S),
    Unit::new("lb/h", &["lb/h", "lb/hr"], POUND_KG / HOUR_S),
];

pub(super) const RESISTIVITY: Units = &[
    Unit::new("Ω·m", &["ohm.m", "ohm-m"], 1.0),
    Unit::part("Ω·cm", &["ohm.cm", "ohm-cm"], 100.0),
];

pub(super) const VOLTAGE: Units = &[
    Unit::new("V", &["V"], 1.0),
    Unit::new("kV", &["kV"], 1000.0),
];

pub(super) const CURRENT: Units = &[
    Unit::new("A", &["A"], 1.0),
    Unit::part("mA", &["mA"], 1e3),
    Unit::part("µA", &["uA"], 1e6),
];

pub(super) const CURRENT_DENSITY: Units = &[
    Unit::new("A/m²", &["A/m2"], 1.0),
    Unit::part("mA/m²", &["mA/m2"], 1e3),
    Unit::part("µA/m²", &["uA/m2"], 1e6),
    Unit::part("µA/cm²", &["uA/cm2"], 100.0),
    Unit::part("nA/cm²", &["nA/cm2"], 1e5),
    Unit::new("µA/ft²", &["uA/ft2"], 1e-6 / FOOT2_M2),
    Unit::new("mA/ft²", &["mA/ft2"], 1e-3 / FOOT2_M2),
];

pub(super) const CURRENT_PER_LENGTH: Units = &[
    Unit::new("A/m", &["A/m"], 1.0),
    Unit::part("mA/m", &["mA/m"], 1e3),
    Unit::part("µA/m", &["uA/m"], 1e6),
    Unit::new("mA/ft", &["mA/ft"], 1e-3 / FOOT_M),
    Unit::new("µA/ft", &["uA/ft"], 1e-6 / FOOT_M),
];

pub(super) const FIELD: Units = &[
    Unit::new("V/m", &["V/m"], 1.0),
    Unit::new("kV/m", &["kV/m"], 1e3),
    Unit::new("MV/m", &["MV/m"], 1e6),
    Unit::new("V/cm", &["V/cm"], 100.0),
    Unit::new("kV/cm", &["kV/cm"], 1e5),
    Unit::new("kV/mm", &["kV/mm"], 1e6),
    Unit::new("kV/in", &["kV/in"], 1000.0 / INCH_M),
];

pub(super) const MOBILITY: Units = &[
    Unit::new(
        "m²/V/s",
        &["m2/V/s", "m2/(V.s)", "m2/Vs", "m2 V-1 s-1"],
        1.0,
    ),
    Unit::new(
        "cm²/V/s",
        &["cm2/V/s", "cm2/(V.s)", "cm2/Vs", "cm2 V-1 s-1"],
        1e-4,
    ),
];

pub(super) const DIFFUSIVITY: Units = &[
    Unit::new("m²/s", &["m2/s"], 1.0),
    Unit::part("cm²/s", &["cm2/s"], 1e4),
    Unit::new("ft²/s", &["ft2/s"], FOOT2_M2),
];

pub(super) const ACCELERATION: Units = &[
    Unit::new("m/s²", &["m/s2"], 1.0),
    Unit::new("ft/s²", &["ft/s2"], FOOT_M),
    Unit::new("g", &["g"], GRAVITY_M_S2),
];

pub(super) const SPARK_RATE: Units = &[
    Unit::new("1/s", &["/s", "1/s", "sparks/s"], 1.0),
    Unit::new(
        "1/min",
        &["/min", "1/min", "sparks/min", "per min"],
        1.0 / MINUTE_S,
    ),
    Unit::part("spm", &["spm"], MINUTE_S),
    Unit::part("1/h", &["/h", "1/h"], HOUR_S),
];

pub(super) const TURNING: Units = &[
    Unit::new("1/min", &["/min", "1/min", "rpm", "r/min"], 1.0 / MINUTE_S),
    Unit::new("1/s", &["/s", "1/s"], 1.0),
    Unit::part("1/h", &["/h", "1/h"], HOUR_S),
];

pub(super) const WATER_PER_GAS: Units = &[
    Unit::part("L/m³", &["L/m3", "l/m3"], 1e3),
    Unit::new(
        "gal/1000 acf",
        &["gal/1000 acf", "gal/1000acf", "gal/kacf"],
        GALLON_M3 / (1000.0 * FOOT3_M3),
    ),
];

pub(super) const SPECIFIC_AREA: Units = &[
    Unit::new("m²/(m³/s)", &["m2/(m3/s)", "m2 s/m3"], 1.0),
    Unit::new("s/m", &["s/m"], 1.0),
    Unit::new(
        "ft²/1000 acfm",
        &["ft2/1000 acfm", "ft2/1000acfm", "ft2/kacfm"],
        FOOT2_M2 / (1000.0 * ACFM_M3_S),
    ),
    Unit::new("min/ft", &["min/ft"], MINUTE_S / FOOT_M),
];

pub(super) const POWER: Units = &[
    Unit::new("W", &["W"], 1.0),
    Unit::new("kW", &["kW"], 1e3),
    Unit::new("MW", &["MW"], 1e6),
    Unit::new("hp", &["hp"], 550.0 * FOOT_M * POUND_KG * GRAVITY_M_S2),
];

pub(super) const POWER_PER_FLOW: Units = &[
    Unit::new("W/(m³/s)", &["W/(m3/s)", "W s/m3"], 1.0),
    Unit::new("kW/(m³/s)", &["kW/(m3/s)"], 1e3),
    Unit::new(
        "W/1000 acfm",
        &["W/1000 acfm", "W/1000acfm", "W/kacfm"],
        1e-3 / ACFM_M3_S,
    ),
    Unit::new("W/acfm", &["W/acfm"], 1.0 / ACFM_M3_S),
];

pub(super) const CHARGE: Units = &[Unit::new("e", &["e"], 1.0)];

pub(super) const CHARGE_DENSITY: Units = &[
    Unit::new("C/m³", &["C/m3"], 1.0),
    Unit::part("µC/m³", &["uC/m3"], 1e6),
    Unit::part("nC/m³", &["nC/m3"], 1e9),
];

pub(super) const NUMBER_DENSITY: Units = &[
    Unit::new("1/m³", &["1/m3", "/m3"], 1.0),
    Unit::new("1/cm³", &["1/cm3", "/cm3"], 1e6),
];

pub(super) const FORCE: Units = &[
    Unit::new("N", &["N"], 1.0),
    Unit::part("µN", &["uN"], 1e6),
    Unit::part("nN", &["nN"], 1e9),
    Unit::part("pN", &["pN"], 1e12),
    Unit::part("fN", &["fN"], 1e15),
];

/// No unit at all.
pub(super) const NUMBER_UNIT: Unit = Unit::new("", &[""], 1.0);

pub(super) const NUMBER: Units = &[NUMBER_UNIT];
