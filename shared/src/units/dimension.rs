//! The kinds of quantity Ashlane knows, each with its units and the one it is shown in.
//!
//! Two kinds may share their units and differ only in what people expect to read: a plate is metres high, a gap is
//! millimetres wide, a grain is micrometres across.

use super::{UnitSystem, table, unit::Unit};

/// A kind of quantity.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Dimension {
    /// Volume of gas per time, m³/s.
    Flow,
    /// Speed of gas, m/s.
    Velocity,
    /// Speed of a grain towards the plate, m/s.
    MigrationVelocity,
    /// Length of something a person walks along, m.
    Length,
    /// Length of a part held in the hand, m.
    PartSize,
    /// Diameter of a grain, m.
    GrainSize,
    /// Area, m².
    Area,
    /// Volume, m³.
    Volume,
    /// Short time, s.
    Time,
    /// Time between two things that happen a few times a day, s.
    Interval,
    /// Temperature, K.
    Temperature,
    /// Absolute pressure, Pa.
    Pressure,
    /// Pressure difference, Pa.
    PressureDrop,
    /// Share of a whole, 1.
    Fraction,
    /// Small share by volume, parts per million.
    TraceShare,
    /// Dust per volume of gas at the inlet, kg/m³.
    DustLoad,
    /// Dust per volume of gas at the outlet, kg/m³.
    Emission,
    /// Density of a solid, kg/m³.
    Density,
    /// Mass, kg.
    Mass,
    /// Mass per time, kg/s.
    MassFlow,
    /// Electrical resistivity, Ω·m.
    Resistivity,
    /// Voltage, V.
    Voltage,
    /// Current, A.
    Current,
    /// Current per plate area, A/m².
    CurrentDensity,
    /// Current per length of wire, A/m.
    CurrentPerLength,
    /// Electric field strength, V/m.
    Field,
    /// Ion mobility, m²/V/s.
    Mobility,
    /// Eddy diffusivity, m²/s.
    Diffusivity,
    /// Acceleration, m/s².
    Acceleration,
    /// Sparks per time, 1/s.
    SparkRate,
    /// Turns of a shaft per time, 1/s.
    Turning,
    /// Volume of water per volume of gas, 1.
    WaterPerGas,
    /// Collecting area per gas flow, s/m.
    SpecificArea,
    /// Power, W.
    Power,
    /// Corona power per gas flow, W/(m³/s).
    PowerPerFlow,
    /// Number of elementary charges, 1.
    Charge,
    /// Charge per volume, C/m³.
    ChargeDensity,
    /// Count per volume, 1/m³.
    NumberDensity,
    /// Force on a grain, N.
    Force,
    /// A plain number, 1.
    Number,
}

/// What is known about one kind of quantity.
struct Row {
    dimension: Dimension,
    name: &'static str,
    units: &'static [Unit],
    si: &'static str,
    us: &'static str,
}

const fn row(
    dimension: Dimension,
    name: &'static str,
    units: &'static [Unit],
    si: &'static str,
    us: &'static str,
) -> Row {
    Row {
        dimension,
        name,
        units,
        si,
        us,
    }
}

const NO_ROW: Row = row(Dimension::Number, "a plain number", table::NUMBER, "", "");

/// The table: name with its article, units, and the unit shown in each system.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
const ROWS: &[Row] = &[
    row(Dimension::Flow, "a flow", table::FLOW, "m³/s", "acfm"),
    row(Dimension::Velocity, "a velocity", table::VELOCITY, "m/s", "ft/s"),
    row(Dimension::MigrationVelocity, "a velocity", table::VELOCITY, "cm/s", "ft/s"),
    row(Dimension::Length, "a length", table::LENGTH, "m", "ft"),
    row(Dimension::PartSize, "a length", table::LENGTH, "mm", "in"),
    row(Dimension::GrainSize, "a length", table::LENGTH, "µm", "µm"),
    row(Dimension::Area, "an area", table::AREA, "m²", "ft²"),
    row(Dimension::Volume, "a volume", table::VOLUME, "m³", "ft³"),
    row(Dimension::Time, "a time", table::TIME, "s", "s"),
    row(Dimension::Interval, "a time", table::TIME, "h", "h"),
    row(Dimension::Temperature, "a temperature", table::TEMPERATURE, "°C", "°F"),
    row(Dimension::Pressure, "a pressure", table::PRESSURE, "kPa", "in Hg"),
    row(Dimension::PressureDrop, "a pressure", table::PRESSURE, "Pa", "in w.g."),
    row(Dimension::Fraction, "a share", table::FRACTION, "%", "%"),
    row(Dimension::TraceShare, "a trace share", table::TRACE, "ppm", "ppm"),
    row(Dimension::DustLoad, "a dust concentration", table::CONCENTRATION, "g/m³", "gr/acf"),
    row(Dimension::Emission, "a dust concentration", table::CONCENTRATION, "mg/m³", "gr/acf"),
    row(Dimension::Density, "a density", table::DENSITY, "kg/m³", "lb/ft³"),
    row(Dimension::Mass, "a mass", table::MASS, "kg", "lb"),
    row(Dimension::MassFlow, "a mass flow", table::MASS_FLOW, "kg/h", "lb/h"),
    row(Dimension::Resistivity, "a resistivity", table::RESISTIVITY, "Ω·m", "Ω·cm"),
    row(Dimension::Voltage, "a voltage", table::VOLTAGE, "kV", "kV"),
    row(Dimension::Current, "a current", table::CURRENT, "mA", "mA"),
    row(Dimension::CurrentDensity, "a current density", table::CURRENT_DENSITY, "nA/cm²", "µA/ft²"),
    row(Dimension::CurrentPerLength, "a current per length", table::CURRENT_PER_LENGTH, "mA/m", "mA/ft"),
    row(Dimension::Field, "an electric field strength", table::FIELD, "kV/cm", "kV/in"),
    row(Dimension::Mobility, "an ion mobility", table::MOBILITY, "m²/V/s", "m²/V/s"),
    row(Dimension::Diffusivity, "a diffusivity", table::DIFFUSIVITY, "m²/s", "ft²/s"),
    row(Dimension::Acceleration, "an acceleration", table::ACCELERATION, "m/s²", "g"),
    row(Dimension::SparkRate, "a spark rate", table::SPARK_RATE, "1/min", "spm"),
    row(Dimension::Turning, "a speed of turning", table::TURNING, "1/min", "1/min"),
    row(Dimension::WaterPerGas, "water per gas", table::WATER_PER_GAS, "L/m³", "gal/1000 acf"),
    row(Dimension::SpecificArea, "an area per flow", table::SPECIFIC_AREA, "m²/(m³/s)", "ft²/1000 acfm"),
    row(Dimension::Power, "a power", table::POWER, "kW", "kW"),
    row(Dimension::PowerPerFlow, "a power per flow", table::POWER_PER_FLOW, "W/(m³/s)", "W/1000 acfm"),
    row(Dimension::Charge, "a number of charges", table::CHARGE, "e", "e"),
    row(Dimension::ChargeDensity, "a charge density", table::CHARGE_DENSITY, "µC/m³", "µC/m³"),
    row(Dimension::NumberDensity, "a number density", table::NUMBER_DENSITY, "1/m³", "1/cm³"),
    row(Dimension::Force, "a force", table::FORCE, "pN", "pN"),
    row(Dimension::Number, "a plain number", table::NUMBER, "", ""),
];

impl Dimension {
    /// Every kind, in the order of the documentation.
    pub fn all() -> impl Iterator<Item = Self> {
        ROWS.iter().map(|row| row.dimension)
    }

    fn row(self) -> &'static Row {
        // A test walks all kinds, so the fallback is never taken; it only keeps this free of panics.
        ROWS.iter()
            .find(|row| row.dimension == self)
            .unwrap_or(&NO_ROW)
    }

    /// Its name with the article, as in "a flow".
    #[must_use]
    pub fn name(self) -> &'static str {
        self.row().name
    }

    /// Every unit it may be written in.
    #[must_use]
    pub fn units(self) -> &'static [Unit] {
        self.row().units
    }

    /// The unit it is shown in.
    #[must_use]
    pub fn display_unit(self, system: UnitSystem) -> &'static Unit {
        let &Row { units, si, us, .. } = self.row();
        let symbol = match system {
            UnitSystem::Si => si,
            UnitSystem::Us => us,
        };
        units
            .iter()
            .find(|unit| unit.symbol == symbol)
            .unwrap_or(&table::NUMBER_UNIT)
    }

    /// The units it may be written in, as a list for people.
    #[must_use]
    pub fn unit_list(self) -> String {
        let spellings: Vec<&str> = self
            .units()
            .iter()
            .map(Unit::file_spelling)
            .filter(|spelling| !spelling.is_empty())
            .collect();
        spellings.join(", ")
    }
}
