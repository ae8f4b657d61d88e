//! What one unit is: its spellings, how it converts to SI, and at which gas state its volume is meant.

/// Volume state a unit refers to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// The gas as it is: hot and wet.
    Actual,
    /// Normal: 273.15 K, 101.325 kPa, wet.
    Normal,
    /// Standard in the United States: 68 °F, 101.325 kPa, wet.
    Standard,
    /// Standard and without its water vapour.
    StandardDry,
}

/// What a normal or standard volume needs to become an actual one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GasState {
    /// Temperature, K.
    pub temperature_k: f64,
    /// Absolute pressure, Pa.
    pub pressure_pa: f64,
    /// Water vapour, fraction by volume.
    pub moisture: f64,
}

impl GasState {
    /// 273.15 K, 101.325 kPa, dry: here a normal volume is an actual one.
    pub const NORMAL: Self = Self {
        temperature_k: 273.15,
        pressure_pa: STANDARD_PRESSURE_PA,
        moisture: 0.0,
    };
}

const STANDARD_PRESSURE_PA: f64 = 101_325.0;
const NORMAL_TEMPERATURE_K: f64 = 273.15;
/// 68 °F, the base of the US Environmental Protection Agency's "standard" volumes.
const STANDARD_TEMPERATURE_K: f64 = 293.15;

/// Which way a unit changes with the gas state.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Counts {
    /// Something per volume of gas: falls as the gas swells.
    PerVolume,
    /// Volume of gas: rises as the gas swells.
    Volume,
}

/// One unit of one dimension.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unit {
    /// How Ashlane shows it, in Unicode.
    pub symbol: &'static str,
    /// Spellings that are read; the first is the one written to files. Superscripts, µ, Ω and dots may also be
    /// typed in Unicode, so only what differs beyond that is listed.
    pub spellings: &'static [&'static str],
    factor: f64,
    divisor: f64,
    offset: f64,
    basis: Basis,
    counts: Counts,
}

impl Unit {
    pub(crate) const fn new(
        symbol: &'static str,
        spellings: &'static [&'static str],
        factor: f64,
    ) -> Self {
        Self {
            symbol,
            spellings,
            factor,
            divisor: 1.0,
            offset: 0.0,
            basis: Basis::Actual,
            counts: Counts::PerVolume,
        }
    }

    /// A decimal part of the SI unit: dividing by 1000 is exact where multiplying by 0.001 is not.
    pub(crate) const fn part(
        symbol: &'static str,
        spellings: &'static [&'static str],
        divisor: f64,
    ) -> Self {
        Self {
            divisor,
            ..Self::new(symbol, spellings, 1.0)
        }
    }

    /// A scale whose zero is elsewhere: SI = factor · value / divisor + offset.
    pub(crate) const fn shifted(self, offset: f64) -> Self {
        Self { offset, ..self }
    }

    /// Something per normal or standard volume.
    pub(crate) const fn per_volume_at(self, basis: Basis) -> Self {
        Self {
            basis,
            counts: Counts::PerVolume,
            ..self
        }
    }

    /// A normal or standard volume.
    pub(crate) const fn volume_at(self, basis: Basis) -> Self {
        Self {
            basis,
            counts: Counts::Volume,
            ..self
        }
    }

    /// The spelling written to files.
    #[must_use]
    pub fn file_spelling(&self) -> &'static str {
        self.spellings.first().copied().unwrap_or(self.symbol)
    }

    /// Volume state the unit refers to.
    #[must_use]
    pub fn basis(&self) -> Basis {
        self.basis
    }

    /// A value in this unit, in SI; normal and standard volumes become actual ones in `gas`.
    #[must_use]
    pub fn to_si(&self, value: f64, gas: &GasState) -> f64 {
        (self.factor * value / self.divisor + self.offset) * self.to_actual(gas)
    }

    /// An SI value, in this unit.
    #[must_use]
    pub fn from_si(&self, value_si: f64, gas: &GasState) -> f64 {
        (value_si / self.to_actual(gas) - self.offset) * self.divisor / self.factor
    }

    /// Actual amount over the amount at the unit's own state, from the ideal gas law.
    fn to_actual(self, gas: &GasState) -> f64 {
        let (base_k, dry_share) = match self.basis {
            Basis::Actual => return 1.0,
            Basis::Normal => (NORMAL_TEMPERATURE_K, 1.0),
            Basis::Standard => (STANDARD_TEMPERATURE_K, 1.0),
            Basis::StandardDry => (STANDARD_TEMPERATURE_K, 1.0 - gas.moisture),
        };
        let swelling =
            (gas.temperature_k / base_k) * (STANDARD_PRESSURE_PA / gas.pressure_pa) / dry_share;
        match self.counts {
            Counts::Volume => swelling,
            Counts::PerVolume => 1.0 / swelling,
        }
    }
}
