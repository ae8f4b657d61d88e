//! What follows from the conditions by simple arithmetic: velocity, areas, times, and values scaled from the sheet's.

use crate::units::GasState;

use super::{Conditions, FieldDefects, Sizes};

/// How the spark field of a gap follows the gas density: E ∝ (p/T)^0.8, `physics.md` 8.
const SPARK_EXPONENT: f64 = 0.8;

impl Conditions {
    /// Whether grains of about this diameter are more than a rarity in the dust.
    #[must_use]
    pub fn has_grains_of(&self, diameter_m: f64) -> bool {
        /// Geometric standard deviations from the median within which grains are looked for.
        const DEVIATIONS: f64 = 2.5;
        match &self.dust.sizes {
            Sizes::LogNormal {
                mass_median_diameter_m,
                geometric_deviation,
            } => {
                let off = (diameter_m / mass_median_diameter_m).ln().abs();
                off <= DEVIATIONS * geometric_deviation.ln()
            }
            Sizes::Table { finer, largest_m } => {
                let smallest_m = finer
                    .iter()
                    .map(|(size_m, _)| *size_m)
                    .fold(*largest_m, f64::min);
                (smallest_m..=*largest_m).contains(&diameter_m)
            }
        }
    }

    /// Distance from wire to plate, s, m: half the plate spacing.
    #[must_use]
    pub fn gap_m(&self) -> f64 {
        0.5 * self.collector.plate_spacing_m
    }

    /// Length of all fields together, m.
    #[must_use]
    pub fn length_m(&self) -> f64 {
        self.collector.fields as f64 * self.collector.field_length_m
    }

    /// Wires standing in one field along the gas, at least one.
    #[must_use]
    pub fn wires_per_field(&self) -> u32 {
        let collector = &self.collector;
        (collector.field_length_m / collector.wire_spacing_m)
            .round()
            .max(1.0) as u32
    }

    /// Area open to the gas, m².
    #[must_use]
    pub fn face_area_m2(&self) -> f64 {
        let collector = &self.collector;
        collector.passages as f64 * collector.plate_spacing_m * collector.plate_height_m
    }

    /// Mean gas velocity u = Q/(passages · spacing · height), m/s.
    #[must_use]
    pub fn gas_velocity_m_s(&self) -> f64 {
        self.gas.flow_m3_s / self.face_area_m2()
    }

    /// Collecting area of both faces of every passage, m².
    #[must_use]
    pub fn collecting_area_m2(&self) -> f64 {
        2.0 * self.length_m() * self.collector.plate_height_m * self.collector.passages as f64
    }

    /// Specific collection area A/Q, s/m.
    #[must_use]
    pub fn specific_collection_area_s_m(&self) -> f64 {
        self.collecting_area_m2() / self.gas.flow_m3_s
    }

    /// Time the gas spends in the fields, s.
    #[must_use]
    pub fn treatment_time_s(&self) -> f64 {
        self.length_m() / self.gas_velocity_m_s()
    }

    /// Share of the caught dust that leaves its field with the gas again: with a rap, or out of the hopper,
    /// `RR + (1−RR) k S h`.
    ///
    /// With no sweepage k it is the rapping loss itself, to the last bit.
    #[must_use]
    pub fn returned_share(&self) -> f64 {
        let collector = &self.collector;
        let swept = collector.hopper_sweepage * collector.sneakage * collector.hopper_share;
        let reentrained = self.rapping.reentrained;
        reentrained + (1.0 - reentrained) * swept
    }

    /// Dust entering, kg/s.
    #[must_use]
    pub fn inlet_mass_kg_s(&self) -> f64 {
        self.dust.load_kg_m3 * self.gas.flow_m3_s
    }

    /// Ion mobility at the present temperature and pressure, m²/V/s: `b = b_ref (T/T_ref)(p_ref/p)`.
    #[must_use]
    pub fn ion_mobility_m2_v_s(&self) -> f64 {
        self.electrical.ion_mobility_m2_v_s
            * (self.gas.temperature_k / self.reference.temperature_k)
            * (self.reference.pressure_pa / self.gas.pressure_pa)
    }

    /// Wanted mean voltage of a field, V; 0 for the first field. The list's last value stands for those beyond it.
    #[must_use]
    pub fn wanted_voltage_v(&self, field: usize) -> f64 {
        let wanted = &self.electrical.voltage_v;
        wanted
            .get(field)
            .or_else(|| wanted.last())
            .copied()
            .unwrap_or(0.0)
    }

    /// Mean gap field at which the gap sparks at the present temperature and pressure, V/m:
    /// `E = E_ref ((T_ref/T)(p/p_ref))^0.8`.
    #[must_use]
    pub fn spark_field_v_m(&self) -> f64 {
        let density_ratio = (self.reference.temperature_k / self.gas.temperature_k)
            * (self.gas.pressure_pa / self.reference.pressure_pa);
        self.electrical.spark_field_v_m * density_ratio.powf(SPARK_EXPONENT)
    }

    /// The one teaching migration velocity of a field at `voltage_v`, m/s: `w = w_ref (V/V_ref)² (s_ref/s)²`.
    ///
    /// A field that was off in the sheet has no voltage to scale from: it drifts with w itself once it is on.
    #[must_use]
    pub fn teaching_migration_velocity_m_s(&self, field: usize, voltage_v: f64) -> Option<f64> {
        let velocity_m_s = self.teaching.migration_velocity_m_s?;
        Some(velocity_m_s * self.voltage_scale(field, voltage_v) * self.spacing_scale())
    }

    /// `(V/V_ref)²` of a field.
    fn voltage_scale(&self, field: usize, voltage_v: f64) -> f64 {
        let voltages = &self.reference.voltage_v;
        let reference_v = voltages
            .get(field)
            .or_else(|| voltages.last())
            .copied()
            .unwrap_or(0.0);
        if voltage_v == 0.0 {
            0.0
        } else if reference_v == 0.0 {
            1.0
        } else {
            (voltage_v / reference_v).powi(2)
        }
    }

    /// `(s_ref/s)²`.
    fn spacing_scale(&self) -> f64 {
        (self.reference.plate_spacing_m / self.collector.plate_spacing_m).powi(2)
    }

    /// What normal and standard volumes refer to.
    #[must_use]
    pub fn gas_state(&self) -> GasState {
        let gas = &self.gas;
        GasState {
            temperature_k: gas.temperature_k,
            pressure_pa: gas.pressure_pa,
            moisture: gas.moisture,
        }
    }

    /// Changes the number of fields; new ones take over the settings of the last.
    pub fn set_fields(&mut self, fields: usize) {
        self.collector.fields = fields;
        for list in [
            &mut self.electrical.voltage_v,
            &mut self.rapping.interval_s,
            &mut self.rapping.layer_m,
            &mut self.rapping.wire_interval_s,
            &mut self.hoppers.evacuation_interval_s,
            &mut self.reference.voltage_v,
        ] {
            let last = list.last().copied().unwrap_or_default();
            list.resize(fields, last);
        }
        self.defects.resize(fields, FieldDefects::NONE);
    }
}
