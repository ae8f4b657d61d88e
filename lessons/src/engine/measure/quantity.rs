//! The quantities a lesson may measure: one row a quantity.
//!
//! Tolerances are shares of the formula's value, of an efficiency those of the penetration: 99.80 against 99.75 %
//! looks tiny and is a quarter more dust.

use ashlane_shared::{
    count::Counted,
    units::{Dimension, UnitSystem, format},
};
use serde::{Deserialize, Serialize};

use super::{
    instruments::{self, Instrument},
    instruments_of_the_gas_path as gas_path, instruments_of_the_set as the_set, plant_instruments,
    stack,
};

/// A quantity.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Quantity {
    /// Share of the dust that gets through, at the target.
    Penetration,
    /// One less the penetration; its tolerance is that of the penetration.
    Efficiency,
    /// Penetration at the target over that at the start: how many times the dust.
    PenetrationRatio,
    /// Dust that leaves, kg/h, at the target over that at the start: the flow counts too.
    OutletDustRatio,
    /// Penetration of one size class of the count, at the target.
    SizePenetration,
    /// Size class that gets through most, m.
    WorstSize,
    /// Charge of a grain at the end of its flight in the mean field of the first field, electrons.
    GrainCharge,
    /// Time after which it has half of the charge that it goes towards, s.
    HalfChargeTime,
    /// Speed of the grain towards the plate at the end of the flight, m/s.
    MigrationVelocity,
    /// That speed over the one at which it falls.
    DriftOverFall,
    /// Voltage at which the solved current begins, V.
    OnsetVoltage,
    /// Mean current density on the plates of the first field, A/m².
    PlateCurrent,
    /// How far from the wire the solved field ionises, m.
    GlowDepth,
    /// Dust found on plates and wires, in hoppers and silo and out of the stack, kg/s.
    DustFound,
    /// Mean penetration over a time on the plant clock, puffs included.
    MeanPenetration,
    /// Ash that falls into a row of hoppers, kg/s.
    RowAsh,
    /// Time from empty to the level alarm of a row, s.
    TimeToAlarm,
    /// Time from empty to the brim of a row, s.
    TimeToBrim,
    /// What the ash of a day brought less what it cost, in the money of the site.
    AshMoney,
    /// Loss on ignition of the ash in the silo.
    SiloLoss,
    /// Thickness of the layer of a field, m.
    LayerThickness,
    /// Light lost in the darkest puff over that lost where no blow is.
    PuffContrast,
    /// Voltage that the layer of a field takes, V.
    LayerDrop,
    /// Water that leaves, drained and as vapour, kg/s.
    WaterLeft,
    /// Temperature of the gas that leaves, K.
    GasTemperature,
    /// Fresh water that is taken, kg/s.
    FreshWater,
    /// Dust in the water that is blown down, kg/m³.
    Solids,
    /// Share of the light that the dust takes away across the stack.
    Opacity,
    /// Field in the layer on the plates of the first field, V/m.
    LayerField,
    /// Voltage that is lost in that layer, V.
    FirstLayerDrop,
    /// Field in that layer over the current through it, Ω·m.
    LayerResistivity,
    /// Temperature at which the dust resists most, K.
    WorstTemperature,
    /// Mean voltage that the set of the first field reaches, V.
    SetVoltage,
    /// Mean current of that set over the plates, A/m².
    SetCurrent,
    /// Mean voltage that the recorder of the set writes, V.
    RecordedVoltage,
    /// Mean current that it writes over the plates, A/m².
    RecordedCurrent,
    /// Sparks that it writes, 1/s.
    RecordedSparks,
    /// Power behind the rectifier of the set, W.
    SecondaryPower,
    /// Mean time of tracers from the first field's face to the last one's end, s.
    TransitTime,
    /// Length of the fields over that time, m/s.
    TracerVelocity,
    /// Dry air that leaked in over the dry gas that came in, by two flow readings.
    LeakByFlow,
    /// Oxygen in the stack, dry.
    OutletOxygen,
    /// Flow through the fan, m³/s.
    FanFlow,
    /// Total pressure lost from before the inlet nozzle to behind the outlet nozzle, Pa.
    CollectorLoss,
    /// Static pressure behind the first field over that outside, Pa.
    CasingPressure,
}

/// A quantity with what it is called, what it is and how it is measured.
#[derive(Clone, Copy, Debug)]
pub struct QuantityRow {
    /// Name in lesson files.
    pub name: &'static str,
    /// The quantity.
    pub quantity: Quantity,
    /// What people call it.
    pub title: &'static str,
    /// What it is.
    pub dimension: Dimension,
    /// Whether it is that of a grain, whose diameter the check names.
    pub needs_size: bool,
    /// Whether it is that of a field, which the check names.
    pub needs_field: bool,
    pub(in crate::engine) instrument: Instrument,
}

const fn row(
    (name, quantity): (&'static str, Quantity),
    title: &'static str,
    dimension: Dimension,
    instrument: Instrument,
) -> QuantityRow {
    QuantityRow {
        name,
        quantity,
        title,
        dimension,
        needs_size: false,
        needs_field: false,
        instrument,
    }
}

/// A row of a quantity that a grain has.
const fn of_grain(row: QuantityRow) -> QuantityRow {
    QuantityRow {
        needs_size: true,
        ..row
    }
}

/// A row of a quantity that a field has.
const fn of_field(row: QuantityRow) -> QuantityRow {
    QuantityRow {
        needs_field: true,
        ..row
    }
}

/// Every quantity. What comes from a count has its statistical uncertainty; a flown grain and a solved field have none.
// One row a line, so that it reads as the table it is.
#[rustfmt::skip]
pub const QUANTITIES: &[QuantityRow] = &[
    row(("penetration", Quantity::Penetration), "penetration", Dimension::Fraction, Instrument::WholeCount),
    row(("efficiency", Quantity::Efficiency), "efficiency", Dimension::Fraction, Instrument::WholeCount),
    row(("penetration_ratio", Quantity::PenetrationRatio), "penetration after over before", Dimension::Number, Instrument::WholeCount),
    row(("outlet_dust_ratio", Quantity::OutletDustRatio), "dust leaving in kg/h, after over before", Dimension::Number, Instrument::WholeCount),
    of_grain(row(("size_penetration", Quantity::SizePenetration), "penetration of this size", Dimension::Fraction, Instrument::Sizes(instruments::of_size))),
    row(("worst_size", Quantity::WorstSize), "size that gets through most", Dimension::GrainSize, Instrument::Sizes(instruments::worst_size)),
    of_grain(row(("grain_charge", Quantity::GrainCharge), "electrons on a grain", Dimension::Number, Instrument::Flown(instruments::charge_e))),
    of_grain(row(("half_charge_time", Quantity::HalfChargeTime), "time to half of the charge", Dimension::Time, Instrument::Flown(instruments::half_charge_time_s))),
    of_grain(row(("migration_velocity", Quantity::MigrationVelocity), "migration velocity", Dimension::MigrationVelocity, Instrument::Flown(instruments::drift_m_s))),
    of_grain(row(("drift_over_fall", Quantity::DriftOverFall), "speed to the plate over that of falling", Dimension::Number, Instrument::Flown(instruments::drift_over_fall))),
    row(("onset_voltage", Quantity::OnsetVoltage), "onset voltage", Dimension::Voltage, Instrument::Solved(instruments::onset_v)),
    row(("plate_current", Quantity::PlateCurrent), "current density", Dimension::CurrentDensity, Instrument::Solved(instruments::plate_current_a_m2)),
    row(("glow_depth", Quantity::GlowDepth), "thickness of the glow", Dimension::PartSize, Instrument::Solved(instruments::glow_depth_m)),
    row(("dust_found", Quantity::DustFound), "dust that was found", Dimension::MassFlow, Instrument::Plant(plant_instruments::dust_found_kg_s)),
    row(("mean_penetration", Quantity::MeanPenetration), "penetration, mean over the time", Dimension::Fraction, Instrument::Plant(plant_instruments::mean_penetration)),
    of_field(row(("row_ash", Quantity::RowAsh), "ash that falls into the row", Dimension::MassFlow, Instrument::Plant(plant_instruments::row_ash_kg_s))),
    of_field(row(("time_to_alarm", Quantity::TimeToAlarm), "time from empty to the level alarm", Dimension::Interval, Instrument::Plant(plant_instruments::time_to_alarm_s))),
    of_field(row(("time_to_brim", Quantity::TimeToBrim), "time from empty to the brim", Dimension::Interval, Instrument::Plant(plant_instruments::time_to_brim_s))),
    row(("ash_money", Quantity::AshMoney), "money for the ash of a day", Dimension::Number, Instrument::Plant(plant_instruments::ash_money_per_day)),
    row(("silo_loss", Quantity::SiloLoss), "loss on ignition in the silo", Dimension::Fraction, Instrument::Plant(plant_instruments::silo_loss_on_ignition)),
    of_field(row(("layer_thickness", Quantity::LayerThickness), "thickness of the layer", Dimension::PartSize, Instrument::Plant(plant_instruments::layer_m))),
    of_field(row(("puff_contrast", Quantity::PuffContrast), "darkest puff over a calm stack", Dimension::Number, Instrument::Plant(plant_instruments::puff_contrast))),
    of_field(row(("layer_drop", Quantity::LayerDrop), "voltage that the layer takes", Dimension::Voltage, Instrument::Plant(plant_instruments::layer_drop_v))),
    row(("water_left", Quantity::WaterLeft), "water and vapour that left", Dimension::MassFlow, Instrument::Plant(plant_instruments::water_left_kg_s)),
    row(("gas_temperature", Quantity::GasTemperature), "temperature of the gas that leaves", Dimension::Temperature, Instrument::Plant(plant_instruments::gas_temperature_k)),
    row(("fresh_water", Quantity::FreshWater), "fresh water taken", Dimension::MassFlow, Instrument::Plant(plant_instruments::fresh_water_kg_s)),
    row(("solids", Quantity::Solids), "dust in the blowdown", Dimension::Density, Instrument::Plant(plant_instruments::solids_kg_m3)),
    row(("opacity", Quantity::Opacity), "opacity", Dimension::Fraction, Instrument::Stack(stack::opacity)),
    row(("layer_field", Quantity::LayerField), "field in the layer", Dimension::Field, Instrument::Solved(the_set::layer_field_v_m)),
    row(("first_layer_drop", Quantity::FirstLayerDrop), "voltage lost in the layer of the first field", Dimension::Voltage, Instrument::Solved(the_set::layer_drop_v)),
    row(("layer_resistivity", Quantity::LayerResistivity), "resistivity of the layer", Dimension::Resistivity, Instrument::Solved(the_set::layer_resistivity)),
    row(("worst_temperature", Quantity::WorstTemperature), "temperature of the highest resistivity", Dimension::Temperature, Instrument::Solved(the_set::worst_temperature_k)),
    row(("set_voltage", Quantity::SetVoltage), "mean voltage of the set", Dimension::Voltage, Instrument::Solved(the_set::voltage_v)),
    row(("set_current", Quantity::SetCurrent), "mean current of the set", Dimension::CurrentDensity, Instrument::Solved(the_set::current_a_m2)),
    row(("recorded_voltage", Quantity::RecordedVoltage), "mean voltage of the recording", Dimension::Voltage, Instrument::Solved(the_set::recorded_voltage_v)),
    row(("recorded_current", Quantity::RecordedCurrent), "mean current of the recording", Dimension::CurrentDensity, Instrument::Solved(the_set::recorded_current_a_m2)),
    row(("recorded_sparks", Quantity::RecordedSparks), "sparks counted in the recording", Dimension::SparkRate, Instrument::Solved(the_set::recorded_sparks_per_s)),
    row(("secondary_power", Quantity::SecondaryPower), "power behind the rectifier", Dimension::Power, Instrument::Solved(the_set::secondary_power_w)),
    row(("transit_time", Quantity::TransitTime), "time of tracers between the plates", Dimension::Time, Instrument::Tracked(gas_path::transit_s)),
    row(("tracer_velocity", Quantity::TracerVelocity), "velocity of tracers between the plates", Dimension::Velocity, Instrument::Tracked(gas_path::velocity_m_s)),
    row(("leak_by_flow", Quantity::LeakByFlow), "air leaked in, by flow, temperature and water", Dimension::Fraction, Instrument::Solved(gas_path::leak_by_flow)),
    row(("outlet_oxygen", Quantity::OutletOxygen), "oxygen in the stack", Dimension::Fraction, Instrument::Solved(gas_path::outlet_oxygen)),
    row(("fan_flow", Quantity::FanFlow), "flow through the fan", Dimension::Flow, Instrument::Solved(gas_path::fan_flow_m3_s)),
    row(("collector_loss", Quantity::CollectorLoss), "pressure lost from nozzle to nozzle", Dimension::PressureDrop, Instrument::Solved(gas_path::collector_loss_pa)),
    row(("casing_pressure", Quantity::CasingPressure), "pressure in the casing over that outside", Dimension::PressureDrop, Instrument::Solved(gas_path::casing_pressure_pa)),
];

impl Quantity {
    /// Its row in the table.
    #[must_use]
    pub fn row(self) -> &'static QuantityRow {
        let found = QUANTITIES.iter().find(|row| row.quantity == self);
        found.unwrap_or(&QUANTITIES[0])
    }

    /// Its name in lesson files.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.row().name
    }

    /// A value of it for people, in their units; `error` says how many digits of a counted one count.
    #[must_use]
    pub fn text(self, value: f64, error: f64, units: UnitSystem) -> String {
        let decimals = |error: f64| (2.0 - error.log10().floor()).clamp(1.0, 9.0) as usize;
        match self.row().dimension {
            Dimension::Fraction if error > 0.0 => {
                let digits = decimals(100.0 * error);
                format!("{:.digits$} %", 100.0 * value)
            }
            Dimension::Number if error > 0.0 => {
                let digits = decimals(error);
                format!("{value:.digits$}")
            }
            dimension => format(value, dimension, units),
        }
    }

    /// A difference of it for people: of two temperatures without the place where the scale begins.
    #[must_use]
    pub fn difference_text(self, value: f64, error: f64, units: UnitSystem) -> String {
        match (self.row().dimension, units) {
            (Dimension::Temperature, UnitSystem::Si) => format!("{value:.2} K"),
            (Dimension::Temperature, UnitSystem::Us) => format!("{:.2} °F", 1.8 * value),
            _ => self.text(value, error, units),
        }
    }

    /// Whether the count at the start takes part.
    #[must_use]
    pub fn needs_before(self) -> bool {
        matches!(self, Self::PenetrationRatio | Self::OutletDustRatio)
    }

    /// Its value from what was read before and after, and the dust that enters after over that before.
    #[must_use]
    pub fn of(self, before: f64, after: f64, inlet_ratio: f64) -> f64 {
        match self {
            Self::Efficiency => 1.0 - after,
            Self::PenetrationRatio => after / before,
            Self::OutletDustRatio => inlet_ratio * after / before,
            _ => after,
        }
    }

    /// What its tolerance is a share of.
    #[must_use]
    pub(super) fn scale(self, before: f64, after: f64, inlet_ratio: f64) -> f64 {
        match self {
            Self::Efficiency => after,
            _ => self.of(before, after, inlet_ratio),
        }
    }

    /// Its value and standard error from two independent counts.
    #[must_use]
    pub(in crate::engine) fn measured(
        self,
        before: Counted,
        after: Counted,
        inlet_ratio: f64,
    ) -> Counted {
        let share = self.of(before.share, after.share, inlet_ratio);
        let standard_error = match self {
            // Relative errors of a quotient add as squares; written so that a count of nothing after is allowed.
            Self::PenetrationRatio | Self::OutletDustRatio => {
                let of_after = self.of(before.share, after.standard_error, inlet_ratio);
                of_after.hypot(share * before.standard_error / before.share)
            }
            _ => after.standard_error,
        };
        Counted {
            share,
            standard_error,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn errors_of_a_ratio_add_as_squares() {
        let before = Counted {
            share: 0.10,
            standard_error: 0.003,
        };
        let after = Counted {
            share: 0.01,
            standard_error: 0.0004,
        };
        let ratio = Quantity::PenetrationRatio.measured(before, after, 3.0);
        assert!((ratio.share - 0.1).abs() < 1e-12);
        // 3 % and 4 % make 5 %.
        assert!((ratio.standard_error - 0.005).abs() < 1e-12, "{ratio:?}");
        // Three times the dust enters, so three times as much leaves, and its error with it.
        let dust = Quantity::OutletDustRatio.measured(before, after, 3.0);
        assert!((dust.share - 0.3).abs() < 1e-12);
        assert!((dust.standard_error - 0.015).abs() < 1e-12, "{dust:?}");
        let efficiency = Quantity::Efficiency.measured(before, after, 3.0);
        assert!((efficiency.share - 0.99).abs() < 1e-12);
        assert!((efficiency.standard_error - 0.0004).abs() < 1e-15);
    }

    #[test]
    fn every_quantity_has_its_own_row() {
        for (index, row) in QUANTITIES.iter().enumerate() {
            assert_eq!(row.quantity.name(), row.name);
            assert!(!row.title.is_empty());
            let same = |other: &QuantityRow| other.name == row.name || other.title == row.title;
            assert!(!QUANTITIES[..index].iter().any(same), "{} twice", row.name);
            // The name in lesson files is that in recorded results.
            let written = serde_json::to_value(row.quantity).expect("a word");
            assert_eq!(written, row.name);
        }
    }

    #[test]
    fn values_are_told_in_the_readers_units_with_the_digits_that_count() {
        let (si, us) = (UnitSystem::Si, UnitSystem::Us);
        assert_eq!(Quantity::Penetration.text(0.01, 0.0002, si), "1.0000 %");
        assert_eq!(Quantity::PenetrationRatio.text(0.1, 0.02, si), "0.1000");
        assert_eq!(Quantity::OnsetVoltage.text(24_900.0, 0.0, us), "24.9 kV");
        assert_eq!(
            Quantity::MigrationVelocity.text(0.0932, 0.0, si),
            "9.32 cm/s"
        );
        assert_eq!(Quantity::MigrationVelocity.text(0.3048, 0.0, us), "1 ft/s");
        assert_eq!(Quantity::GasTemperature.text(326.15, 0.0, si), "53 °C");
        assert_eq!(
            Quantity::GasTemperature.difference_text(0.5, 0.0, si),
            "0.50 K"
        );
        assert_eq!(
            Quantity::GasTemperature.difference_text(0.5, 0.0, us),
            "0.90 °F"
        );
        assert_eq!(
            Quantity::OnsetVoltage.difference_text(500.0, 0.0, si),
            "0.5 kV"
        );
    }
}
