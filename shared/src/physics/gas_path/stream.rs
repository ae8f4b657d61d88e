//! A stream of moist gas: how much dry gas and how much water it carries, and where its volume comes from.
//!
//! `n = pQ/(RT)`, water `x n`, dry gas `(1−x) n`

use super::heat::{DryGas, dry_heat_j_mol, vapour_heat_j_mol};
use crate::physics::PhysicsError;
use crate::physics::constants::GAS_CONSTANT_J_MOL_K;
use crate::physics::error::{not_negative, positive, require, share};
use crate::physics::gas::WATER_MOLAR_MASS_KG_MOL;

/// The gas at one place of its way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GasStream {
    /// Flow Q as it is, hot and wet, m³/s, 0 or more.
    pub flow_m3_s: f64,
    /// Temperature T, K, 250 to 1000.
    pub temperature_k: f64,
    /// Absolute pressure p, Pa, above 0.
    pub pressure_pa: f64,
    /// Water vapour x, fraction by volume, 0 or more and below 1.
    pub moisture: f64,
    /// The rest.
    pub dry: DryGas,
}

impl GasStream {
    /// The stream itself, if it is possible.
    pub(super) fn checked(&self) -> Result<&Self, PhysicsError> {
        not_negative("flow_m3_s", self.flow_m3_s)?;
        require(
            (250.0..=1000.0).contains(&self.temperature_k),
            "temperature_k",
            self.temperature_k,
            "250 to 1000",
        )?;
        positive("pressure_pa", self.pressure_pa)?;
        share("moisture", self.moisture)?;
        Ok(self)
    }

    /// The stream that `dry_mol_s` of dry gas make, with `vapour_per_dry` moles of vapour for each of them.
    pub(super) fn of_moles(
        dry_mol_s: f64,
        vapour_per_dry: f64,
        temperature_k: f64,
        pressure_pa: f64,
        dry: DryGas,
    ) -> Self {
        let moles_s = dry_mol_s * (1.0 + vapour_per_dry);
        Self {
            flow_m3_s: moles_s * GAS_CONSTANT_J_MOL_K * temperature_k / pressure_pa,
            temperature_k,
            pressure_pa,
            moisture: vapour_per_dry / (1.0 + vapour_per_dry),
            dry,
        }
    }

    /// Moles of water vapour for each mole of dry gas.
    pub(super) fn vapour_per_dry(&self) -> f64 {
        self.moisture / (1.0 - self.moisture)
    }

    /// Heat of the stream for each mole of dry gas, if it had this temperature, J/mol.
    pub(super) fn heat_per_dry_j_mol(&self, temperature_k: f64) -> f64 {
        dry_heat_j_mol(&self.dry, temperature_k)
            + self.vapour_per_dry() * vapour_heat_j_mol(temperature_k)
    }
}

/// Dry gas in a stream, mol/s.
///
/// `n_d = (1−x) pQ/(RT)`
///
/// # Arguments
/// * `stream` – the gas.
///
/// # Source
/// Ideal gas (Clapeyron 1834).
///
/// # Validity
/// Near one atmosphere, above the dew point.
#[must_use]
pub fn dry_flow_mol_s(stream: &GasStream) -> f64 {
    let moles_s =
        stream.pressure_pa * stream.flow_m3_s / (GAS_CONSTANT_J_MOL_K * stream.temperature_k);
    (1.0 - stream.moisture) * moles_s
}

/// Water vapour in a stream, kg/s.
///
/// `ṁ = M_w x pQ/(RT)`
///
/// # Arguments
/// * `stream` – the gas.
///
/// # Source
/// Ideal gas (Clapeyron 1834).
///
/// # Validity
/// Near one atmosphere, above the dew point.
#[must_use]
pub fn vapour_flow_kg_s(stream: &GasStream) -> f64 {
    WATER_MOLAR_MASS_KG_MOL * dry_flow_mol_s(stream) * stream.vapour_per_dry()
}

/// Heat that a stream carries beyond dry gas and liquid water of 0 °C, W.
///
/// `Ḣ = n_d [h_d(T) + y h_v(T)]`, `y = x/(1−x)`
///
/// # Arguments
/// * `stream` – the gas.
///
/// # Source
/// Sum of the ideal gases, see [`super::heat`].
///
/// # Validity
/// As [`super::heat`].
#[must_use]
pub fn heat_flow_w(stream: &GasStream) -> f64 {
    dry_flow_mol_s(stream) * stream.heat_per_dry_j_mol(stream.temperature_k)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stream_made_of_its_moles_is_itself() {
        let stream = GasStream {
            flow_m3_s: 118.8,
            temperature_k: 423.15,
            pressure_pa: 98e3,
            moisture: 0.08,
            dry: DryGas::FLUE_GAS,
        };
        let again = GasStream::of_moles(
            dry_flow_mol_s(&stream),
            stream.vapour_per_dry(),
            stream.temperature_k,
            stream.pressure_pa,
            stream.dry,
        );
        assert!((again.flow_m3_s / 118.8 - 1.0).abs() < 1e-14, "{again:?}");
        assert!((again.moisture - 0.08).abs() < 1e-15, "{again:?}");
    }
}
