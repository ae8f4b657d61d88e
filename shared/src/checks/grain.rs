//! A followed grain against the formulas: its charge along the path by every law, its speed by q E Cc/(3πμd), its forces.
//!
//! The formulas get the solved field at the grain's places, the time and, for the speed, the charge. They share neither
//! the table of the field nor the single precision of the step that flew the grain.

use crate::{
    conditions::{Charging, Conditions},
    physics::{
        charging::{Exposure, Grain, IonGas, charge_later_c, elementary_charges, path},
        constants::ELEMENTARY_CHARGE_C,
        drag, gas,
    },
    simulation::{FollowedGrain, GrainPoint},
};

/// The charging laws in the order of the curves.
pub const CHARGING_LAWS: [Charging; 4] = [
    Charging::Lawless,
    Charging::Field,
    Charging::Cochet,
    Charging::White,
];

/// Points from which on charge and speed are compared: 0.2 s of flight.
const LEAST_POINTS: usize = 48;
/// Nearer to the wire line than this share of the gap no speed towards the plate is compared.
const WIRE_LINE_SHARE: f64 = 0.2;

/// What the formulas say at every point of a record.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct GrainCurves {
    /// Whose record it is: its number and its diameter, m.
    of: (u64, f64),
    /// Charge by each of [`CHARGING_LAWS`], elementary charges.
    pub charges_e: [Vec<f64>; 4],
    /// Saturation charge of the law in use at the field of the moment, elementary charges.
    pub saturation_e: Vec<f64>,
    /// Speed towards the plate by Stokes: `w = q E Cc/(3πμd)`, m/s.
    pub stokes_m_s: Vec<f64>,
    /// The same with Schiller & Naumann's drag, m/s.
    pub schiller_naumann_m_s: Vec<f64>,
}

impl GrainCurves {
    /// The curves of a record.
    #[must_use]
    pub fn new(conditions: &Conditions, grain: &FollowedGrain) -> Self {
        let mut curves = Self::default();
        curves.update(conditions, grain);
        curves
    }

    /// Goes on to the end of the record; starts anew where it is another grain's.
    pub fn update(&mut self, conditions: &Conditions, grain: &FollowedGrain) {
        let known = self.saturation_e.len();
        let of = (grain.number, grain.diameter_m);
        if self.of != of || known > grain.points.len() {
            *self = Self {
                of,
                ..Self::default()
            };
        }
        let setting = Setting::new(conditions, grain.diameter_m);
        for index in self.saturation_e.len()..grain.points.len() {
            self.push(&setting, &grain.points, index);
        }
    }

    fn push(&mut self, setting: &Setting, points: &[GrainPoint], index: usize) {
        let point = &points[index];
        for (law, charges_e) in CHARGING_LAWS.into_iter().zip(&mut self.charges_e) {
            let charge_e = match (index.checked_sub(1), charges_e.last()) {
                (Some(before), Some(charge_e)) => {
                    let duration_s = point.time_s - points[before].time_s;
                    let exposure = exposure(&points[before]);
                    let charge_c = charge_e * ELEMENTARY_CHARGE_C;
                    let (grain, gas) = (&setting.grain, &setting.ion_gas);
                    elementary_charges(charge_later_c(
                        law, grain, gas, &exposure, charge_c, duration_s,
                    ))
                }
                _ => 0.0,
            };
            charges_e.push(charge_e);
        }
        let saturation_c = path::saturation_c(
            setting.law,
            &setting.grain,
            &setting.ion_gas,
            &exposure(point),
        );
        self.saturation_e.push(elementary_charges(saturation_c));
        let (stokes_m_s, real_m_s) = setting.speeds_m_s(point);
        self.stokes_m_s.push(stokes_m_s);
        self.schiller_naumann_m_s.push(real_m_s);
    }

    /// The curve of one law.
    #[must_use]
    pub fn charge_e(&self, law: Charging) -> &[f64] {
        let index = CHARGING_LAWS.iter().position(|known| *known == law);
        index.map_or(&[], |index| self.charges_e[index].as_slice())
    }
}

/// One thing that the flight gives and a formula too.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Comparison {
    /// As flown.
    pub flown: f64,
    /// By the formula.
    pub formula: f64,
    /// As flown over the formula.
    pub ratio: f64,
}

impl Comparison {
    fn of(flown: f64, formula: f64) -> Self {
        Self {
            flown,
            formula,
            ratio: flown / formula,
        }
    }
}

/// The speed towards the plate, as flown and by the formula.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpeedComparison {
    /// Against the formula with Schiller & Naumann's drag, m/s.
    pub speed: Comparison,
    /// Plain Stokes, m/s.
    pub stokes_m_s: f64,
}

/// Charge at the last point against the law in use along the whole path, elementary charges.
///
/// Nothing where no charge is computed, in the first fifth of a second, and for a grain that [`brushed_a_wire`].
#[must_use]
pub fn charge_check(
    conditions: &Conditions,
    grain: &FollowedGrain,
    curves: &GrainCurves,
) -> Option<Comparison> {
    if !is_compared(conditions, grain) || brushed_a_wire(conditions, grain) {
        return None;
    }
    let formula_e = *curves.charge_e(conditions.teaching.charging).last()?;
    let flown_e = grain.points.last()?.charge_e;
    (formula_e > 0.0).then(|| Comparison::of(flown_e, formula_e))
}

/// Speed towards the plate at the last point in the charged zone against the formula there.
///
/// Nothing where no charge is computed, and in the first fifth of a second. Points nearer to the wire line than a fifth
/// of the gap are left out: there the field points along the gas, and hardly anything of it to a plate.
#[must_use]
pub fn speed_check(
    conditions: &Conditions,
    grain: &FollowedGrain,
    curves: &GrainCurves,
) -> Option<SpeedComparison> {
    if !is_compared(conditions, grain) {
        return None;
    }
    let least_m = WIRE_LINE_SHARE * conditions.gap_m();
    let drifts = |point: &GrainPoint| point.exposed && point.across_m.abs() >= least_m;
    let last = grain.points.iter().rposition(drifts)?;
    let formula_m_s = *curves.schiller_naumann_m_s.get(last)?;
    (formula_m_s > 0.0).then(|| SpeedComparison {
        speed: Comparison::of(grain.points[last].speed_m_s, formula_m_s),
        stokes_m_s: curves.stokes_m_s[last],
    })
}

/// Whether the grain came nearer to the axis of a wire than the wire is thick.
///
/// The drawn flight lets grains fly through wires, and its table of the field is coarse there; few do.
#[must_use]
pub fn brushed_a_wire(conditions: &Conditions, grain: &FollowedGrain) -> bool {
    let collector = &conditions.collector;
    let spacing_m = collector.field_length_m / f64::from(conditions.wires_per_field());
    let from_wire_m = |point: &GrainPoint| {
        let turns = point.along_m / spacing_m - 0.5;
        (spacing_m * (turns - turns.round())).hypot(point.across_m)
    };
    let near = |point: &GrainPoint| point.exposed && from_wire_m(point) < collector.wire_diameter_m;
    grain.points.iter().any(near)
}

fn is_compared(conditions: &Conditions, grain: &FollowedGrain) -> bool {
    conditions.teaching.migration_velocity_m_s.is_none() && grain.points.len() >= LEAST_POINTS
}

/// Forces on a grain at one moment, N.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GrainForces {
    /// Electric force q E along the gas and towards the nearer plate.
    pub electric_n: (f64, f64),
    /// Drag along the gas and towards the nearer plate: against the motion through the gas as flown.
    pub drag_n: (f64, f64),
    /// Weight, downwards: at right angles to both.
    pub weight_n: f64,
}

/// Forces on a followed grain at a point of its record.
///
/// `F = qE`; `F = 3πμdv(1+0.15Re^0.687)/Cc` of the speed that was flown; `F = (π/6)ρ_p d³ g`.
#[must_use]
pub fn grain_forces(conditions: &Conditions, diameter_m: f64, point: &GrainPoint) -> GrainForces {
    let setting = Setting::new(conditions, diameter_m);
    let charge_c = point.charge_share * point.charge_e * ELEMENTARY_CHARGE_C;
    let (along_m_s, towards_m_s) = (point.drift_along_m_s, point.speed_m_s);
    let speed_m_s = along_m_s.hypot(towards_m_s);
    let gas = (setting.gas_density_kg_m3, setting.viscosity_pa_s);
    let drag_n = drag::drag_n(speed_m_s, diameter_m, setting.slip, gas);
    let per_speed = if speed_m_s > 0.0 {
        -drag_n / speed_m_s
    } else {
        0.0
    };
    GrainForces {
        electric_n: (
            charge_c * point.field_along_v_m,
            charge_c * point.field_towards_plate_v_m,
        ),
        drag_n: (per_speed * along_m_s, per_speed * towards_m_s),
        weight_n: drag::weight_n(diameter_m, conditions.dust.density_kg_m3),
    }
}

fn exposure(point: &GrainPoint) -> Exposure {
    Exposure {
        field_v_m: point.field_along_v_m.hypot(point.field_towards_plate_v_m),
        ion_density_per_m3: point.ion_density_per_m3,
    }
}

/// What the formulas need of the conditions.
struct Setting {
    grain: Grain,
    ion_gas: IonGas,
    law: Charging,
    slip: f64,
    viscosity_pa_s: f64,
    gas_density_kg_m3: f64,
}

impl Setting {
    fn new(conditions: &Conditions, diameter_m: f64) -> Self {
        let gas = &conditions.gas;
        let mean_free_path_m = gas::mean_free_path_m(gas.temperature_k, gas.pressure_pa);
        Self {
            grain: Grain {
                diameter_m,
                permittivity: conditions.dust.permittivity,
            },
            ion_gas: IonGas {
                temperature_k: gas.temperature_k,
                mean_free_path_m,
                ion_mobility_m2_v_s: conditions.ion_mobility_m2_v_s(),
            },
            law: conditions.teaching.charging,
            slip: gas::slip_factor(diameter_m, mean_free_path_m),
            viscosity_pa_s: gas::viscosity_pa_s(gas.temperature_k),
            gas_density_kg_m3: gas::density_kg_m3(
                gas.pressure_pa,
                gas.temperature_k,
                gas::molar_mass_kg_mol(gas.moisture),
            ),
        }
    }

    /// Speed towards the plate by Stokes' drag and by Schiller & Naumann's, which knows only the speed along the force.
    fn speeds_m_s(&self, point: &GrainPoint) -> (f64, f64) {
        let diameter_m = self.grain.diameter_m;
        let field_v_m = exposure(point).field_v_m;
        if field_v_m <= 0.0 {
            return (0.0, 0.0);
        }
        let force_n = point.charge_share * point.charge_e * ELEMENTARY_CHARGE_C * field_v_m;
        let mobility = drag::stokes_mobility_m_n_s(diameter_m, self.slip, self.viscosity_pa_s);
        let stokes_m_s = mobility * force_n;
        let real_m_s = drag::terminal_drift_m_s(
            stokes_m_s,
            diameter_m,
            self.gas_density_kg_m3,
            self.viscosity_pa_s,
        );
        let share = point.field_towards_plate_v_m / field_v_m;
        (stokes_m_s * share, real_m_s * share)
    }
}
