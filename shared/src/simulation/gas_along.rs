//! The gas at every station of its way, from the inlet duct to the stack: pressure, temperature, oxygen, water, flow.
//!
//! `n_k = n_{k−1} + leak_k n_0`, heat and water added up, `p_k` by Bernoulli with losses, `P_fan = QΔp/η`

use serde::Serialize;

use crate::{
    conditions::{Conditions, FanPosition},
    physics::{
        PhysicsError, fan, gas,
        gas_path::{
            heat::DryGas,
            leakage::{OXYGEN_OF_AIR, OutsideAir, before_leak, behind_leak},
            pressure::{FanPlace, GasPath, MovingGas, Station, pressure_profile_of},
            stream::{GasStream, dry_flow_mol_s},
        },
    },
};

/// Efficiency of fan and motor. Teaching value, no source.
const FAN_EFFICIENCY: f64 = 0.7;

/// The gas at one station.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GasStation {
    /// What the place is called.
    pub place: String,
    /// The place.
    #[serde(skip)]
    pub station: Station,
    /// Static pressure over that outside, Pa; below 0 under suction.
    pub static_gauge_pa: f64,
    /// Velocity, m/s.
    pub velocity_m_s: f64,
    /// Density, kg/m³.
    pub density_kg_m3: f64,
    /// Flow as it is, hot and wet, m³/s.
    pub flow_m3_s: f64,
    /// Dry gas, mol/s.
    pub dry_flow_mol_s: f64,
    /// Temperature, K.
    pub temperature_k: f64,
    /// Oxygen, dry, fraction by volume.
    pub oxygen_dry: f64,
    /// Water vapour, fraction by volume.
    pub moisture: f64,
}

/// The gas along its way, with what moving it takes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GasAlong {
    /// The stations in the order of the gas.
    pub stations: Vec<GasStation>,
    /// Total pressure lost between inlet nozzle and outlet nozzle, both included, Pa.
    pub collector_loss_pa: f64,
    /// Total pressure that the fan adds, Pa.
    pub fan_rise_pa: f64,
    /// Flow through the fan, m³/s.
    pub fan_flow_m3_s: f64,
    /// Power that the fan takes, W.
    pub fan_power_w: f64,
    /// Dry gas by flow, temperature, pressure and water, against dry gas by the oxygen: the largest difference, relative.
    pub oxygen_balance_error: f64,
}

impl GasAlong {
    /// The gas at a station.
    #[must_use]
    pub fn at(&self, station: Station) -> Option<&GasStation> {
        self.stations.iter().find(|one| one.station == station)
    }
}

/// The gas at the face of the fields, as the conditions tell it.
///
/// # Source
/// The sheet; the dry gas is that of the oxygen where the inlet duct begins, with the air that leaked in since.
///
/// # Validity
/// Gas of burnt coal.
#[must_use]
pub fn gas_at_face(conditions: &Conditions) -> GasStream {
    let gas = &conditions.gas;
    GasStream {
        flow_m3_s: gas.flow_m3_s,
        temperature_k: gas.temperature_k,
        pressure_pa: gas.pressure_pa,
        moisture: gas.moisture,
        dry: DryGas::with_oxygen(gas.oxygen).with(&DryGas::AIR, gas.in_leakage.inlet),
    }
}

/// The gas at every station of its way.
///
/// The sheet's gas is that at the face. Air sucked in before the face is taken out of it again to find the gas in the inlet
/// duct; air sucked in along the fields comes in evenly by field, that behind them in the outlet duct.
///
/// # Source
/// Balances of dry gas, water and heat; Bernoulli's equation with losses, see [`crate::physics::gas_path`].
///
/// # Validity
/// Outside air of 15 °C and ducts of 15 m/s (invented). Flows are those at the sheet's pressure: within 2 % of those at the
/// pressure of the place. No heat is lost through the shell, none comes from the fan. What leaks in along the fields is in this
/// path and not in the count, whose gas is that of the face. A fan that pushes has no suction behind it to draw air in.
///
/// # Errors
/// A formula refused the conditions: in-leakage that brought more water or heat than the gas has.
pub fn gas_along(conditions: &Conditions) -> Result<GasAlong, PhysicsError> {
    let streams = Streams::new(conditions)?;
    let path = path(conditions, streams.inlet.flow_m3_s);
    let profile = pressure_profile_of(&path, |station| moving(streams.at(station)))?;
    let mut stations: Vec<GasStation> = (profile.stations.iter())
        .map(|one| {
            let place = name(one.station, path.fan);
            gas_station(
                (one.station, place),
                (one.static_gauge_pa, one.velocity_m_s),
                streams.at(one.station),
            )
        })
        .collect();
    // Where it opens, the stack has the pressure outside; the draught of the stack is that between its foot and there.
    let mouth_m_s = stations.last().map_or(0.0, |last| last.velocity_m_s);
    let mouth = (Station::Stack, name(Station::Stack, path.fan));
    stations.push(gas_station(
        mouth,
        (0.0, mouth_m_s),
        streams.at(Station::Stack),
    ));
    let fan_flow_m3_s = match path.fan {
        FanPlace::Downstream => streams.at(Station::PullingFan).flow_m3_s,
        FanPlace::Upstream => streams.at(Station::PushingFan).flow_m3_s,
    };
    Ok(GasAlong {
        collector_loss_pa: profile.collector_loss_pa,
        fan_rise_pa: profile.fan_rise_pa,
        fan_flow_m3_s,
        fan_power_w: fan::fan_power_w(fan_flow_m3_s, profile.fan_rise_pa.max(0.0), FAN_EFFICIENCY)?,
        oxygen_balance_error: oxygen_balance_error(&stations),
        stations,
    })
}

/// Power that a part of the pressure takes from the fan, W.
///
/// # Errors
/// A flow or a pressure below 0.
pub fn fan_share_w(flow_m3_s: f64, pressure_pa: f64) -> Result<f64, PhysicsError> {
    fan::fan_power_w(flow_m3_s, pressure_pa, FAN_EFFICIENCY)
}

/// The gas between the leaks.
#[derive(Debug)]
struct Streams {
    inlet: GasStream,
    face: GasStream,
    /// Behind each field.
    fields: Vec<GasStream>,
    outlet: GasStream,
}

impl Streams {
    fn new(conditions: &Conditions) -> Result<Self, PhysicsError> {
        let (air, leaks) = (OutsideAir::TEACHING, &conditions.gas.in_leakage);
        let face = gas_at_face(conditions);
        let inlet = if leaks.inlet > 0.0 {
            before_leak(&face, &air, leaks.inlet)?
        } else {
            face
        };
        let came_in_mol_s = dry_flow_mol_s(&inlet);
        // A leak is a share of the gas that came in, and not of what is there by now.
        let with_air = |gas: &GasStream, leak: f64| {
            if leak > 0.0 {
                behind_leak(gas, &air, leak * came_in_mol_s / dry_flow_mol_s(gas))
            } else {
                Ok(*gas)
            }
        };
        let count = conditions.collector.fields;
        let mut fields = Vec::with_capacity(count);
        let mut present = face;
        for _ in 0..count {
            present = with_air(&present, leaks.casing / count as f64)?;
            fields.push(present);
        }
        Ok(Self {
            inlet,
            face,
            fields,
            outlet: with_air(&present, leaks.outlet)?,
        })
    }

    fn at(&self, station: Station) -> &GasStream {
        let behind = |number: usize| {
            let field = number
                .checked_sub(1)
                .and_then(|index| self.fields.get(index));
            field.unwrap_or(&self.face)
        };
        match station {
            Station::Start | Station::PushingFan | Station::InletDuct => &self.inlet,
            Station::InletNozzle | Station::Plate(_) => &self.face,
            Station::Field(number) => behind(number),
            Station::OutletNozzle => behind(self.fields.len()),
            Station::OutletDuct | Station::PullingFan | Station::Stack => &self.outlet,
        }
    }
}

fn moving(stream: &GasStream) -> MovingGas {
    MovingGas {
        flow_m3_s: stream.flow_m3_s,
        density_kg_m3: gas::density_kg_m3(
            stream.pressure_pa,
            stream.temperature_k,
            gas::molar_mass_kg_mol(stream.moisture),
        ),
        viscosity_pa_s: gas::viscosity_pa_s(stream.temperature_k),
    }
}

fn gas_station(
    (station, place): (Station, String),
    (static_gauge_pa, velocity_m_s): (f64, f64),
    stream: &GasStream,
) -> GasStation {
    GasStation {
        place,
        station,
        static_gauge_pa,
        velocity_m_s,
        density_kg_m3: moving(stream).density_kg_m3,
        flow_m3_s: stream.flow_m3_s,
        dry_flow_mol_s: dry_flow_mol_s(stream),
        temperature_k: stream.temperature_k,
        oxygen_dry: stream.dry.oxygen,
        moisture: stream.moisture,
    }
}

fn name(station: Station, fan: FanPlace) -> String {
    let pulls = fan == FanPlace::Downstream;
    match station {
        Station::Start if pulls => "inlet duct".to_owned(),
        Station::Start => "before the fan".to_owned(),
        Station::PushingFan | Station::PullingFan => "behind the fan".to_owned(),
        Station::InletDuct => "before the nozzle".to_owned(),
        Station::InletNozzle => "behind the nozzle".to_owned(),
        Station::Plate(number) => format!("behind plate {number}"),
        Station::Field(number) => format!("behind field {number}"),
        Station::OutletNozzle => "outlet".to_owned(),
        Station::OutletDuct if pulls => "before the fan".to_owned(),
        Station::OutletDuct => "outlet duct".to_owned(),
        Station::Stack => "mouth of the stack".to_owned(),
    }
}

/// `n_k/n_0 = (20.9 % − O₂,0)/(20.9 % − O₂,k)`: what leaks in is air, and nothing burns on the way.
fn oxygen_balance_error(stations: &[GasStation]) -> f64 {
    let Some(first) = stations.first() else {
        return 0.0;
    };
    let off = |one: &GasStation| {
        let by_oxygen = (OXYGEN_OF_AIR - first.oxygen_dry) / (OXYGEN_OF_AIR - one.oxygen_dry);
        (one.dry_flow_mol_s / first.dry_flow_mol_s / by_oxygen - 1.0).abs()
    };
    stations.iter().map(off).fold(0.0, f64::max)
}

/// The path round the sheet's collector, its ducts by the teaching values as wide as the gas that comes in needs: a leak
/// makes no duct wider.
fn path(conditions: &Conditions, inlet_m3_s: f64) -> GasPath {
    let collector = &conditions.collector;
    GasPath {
        plate_open_shares: vec![collector.distribution_open_area; collector.distribution_plates],
        fields: collector.fields,
        field_length_m: collector.field_length_m,
        gap_m: conditions.gap_m(),
        fan: match conditions.appearance.fan {
            FanPosition::Downstream => FanPlace::Downstream,
            FanPosition::Upstream => FanPlace::Upstream,
        },
        ..GasPath::teaching(inlet_m3_s, conditions.face_area_m2())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        conditions::{InLeakage, demonstration},
        physics::gas_path::stream::heat_flow_w,
    };

    const LEAKS: InLeakage = InLeakage {
        inlet: 0.06,
        casing: 0.04,
        outlet: 0.03,
    };

    fn leaky() -> Conditions {
        let mut conditions = demonstration();
        conditions.gas.in_leakage = LEAKS;
        conditions
    }

    #[test]
    fn without_leaks_the_gas_is_the_sheets_all_the_way() {
        let conditions = demonstration();
        let along = gas_along(&conditions).expect("possible");
        for one in &along.stations {
            assert_eq!(one.temperature_k, conditions.gas.temperature_k, "{one:?}");
            assert_eq!(one.flow_m3_s, conditions.gas.flow_m3_s, "{one:?}");
            assert!((one.oxygen_dry - 0.06).abs() < 1e-15, "{one:?}");
        }
        let places: Vec<&str> = along
            .stations
            .iter()
            .map(|one| one.place.as_str())
            .collect();
        assert_eq!(
            places,
            [
                "inlet duct",
                "before the nozzle",
                "behind the nozzle",
                "behind plate 1",
                "behind field 1",
                "behind field 2",
                "behind field 3",
                "behind field 4",
                "outlet",
                "before the fan",
                "behind the fan",
                "mouth of the stack",
            ]
        );
    }

    #[test]
    fn dry_gas_by_its_volume_is_dry_gas_by_its_oxygen() {
        // Volume comes from the balance of heat and water, oxygen from that of the gases: they share the leak alone.
        let along = gas_along(&leaky()).expect("possible");
        assert!(along.oxygen_balance_error < 1e-9, "{along:?}");
        let (first, last) = (
            &along.stations[0],
            &along.stations[along.stations.len() - 1],
        );
        let grown = last.dry_flow_mol_s / first.dry_flow_mol_s;
        assert!((grown - 1.13).abs() < 1e-9, "{grown}");
        for pair in along.stations.windows(2) {
            assert!(pair[1].temperature_k <= pair[0].temperature_k, "{pair:?}");
            assert!(pair[1].oxygen_dry >= pair[0].oxygen_dry, "{pair:?}");
        }
        // physics.md 13: leak/inlet = (O2_out − O2_in)/(20.9 − O2_out).
        let told = (last.oxygen_dry - 0.06) / (0.209 - last.oxygen_dry);
        assert!((told - 0.13).abs() < 1e-9, "{told}");
    }

    #[test]
    fn the_face_has_the_gas_of_the_sheet_and_the_heat_is_that_of_gas_and_air() {
        let conditions = leaky();
        let along = gas_along(&conditions).expect("possible");
        let face = along.at(Station::Plate(1)).expect("a plate");
        assert_eq!(face.temperature_k, conditions.gas.temperature_k);
        assert_eq!(face.flow_m3_s, conditions.gas.flow_m3_s);
        let streams = Streams::new(&conditions).expect("possible");
        let air = GasStream {
            flow_m3_s: streams.inlet.flow_m3_s,
            temperature_k: OutsideAir::TEACHING.temperature_k,
            moisture: OutsideAir::TEACHING.moisture,
            dry: DryGas::AIR,
            ..streams.inlet
        };
        let air_w =
            heat_flow_w(&air) / dry_flow_mol_s(&air) * 0.13 * dry_flow_mol_s(&streams.inlet);
        let heat_w = heat_flow_w(&streams.inlet) + air_w;
        assert!((heat_flow_w(&streams.outlet) / heat_w - 1.0).abs() < 1e-9);
    }

    #[test]
    fn the_power_of_the_fan_follows_from_the_pressures_at_its_two_sides() {
        for fan in [FanPosition::Downstream, FanPosition::Upstream] {
            let mut conditions = leaky();
            conditions.appearance.fan = fan;
            let along = gas_along(&conditions).expect("possible");
            let total_pa = |place: &str| {
                let mut stations = along.stations.iter();
                let one = stations.find(|one| one.place == place).expect("a place");
                (
                    one,
                    one.static_gauge_pa + 0.5 * one.density_kg_m3 * one.velocity_m_s.powi(2),
                )
            };
            let ((before, low_pa), (_, high_pa)) =
                (total_pa("before the fan"), total_pa("behind the fan"));
            let power_w = before.flow_m3_s * (high_pa - low_pa) / 0.7;
            assert!(
                (along.fan_power_w / power_w - 1.0).abs() < 1e-9,
                "{fan:?} {along:?}"
            );
        }
    }

    #[test]
    fn a_fan_behind_keeps_the_collector_under_suction_and_one_before_it_under_pressure() {
        let gauge_pa = |fan: FanPosition| {
            let mut conditions = demonstration();
            conditions.appearance.fan = fan;
            let along = gas_along(&conditions).expect("possible");
            along
                .at(Station::Plate(1))
                .expect("a plate")
                .static_gauge_pa
        };
        assert!(gauge_pa(FanPosition::Downstream) < -1000.0);
        assert!(gauge_pa(FanPosition::Upstream) > 0.0);
    }

    #[test]
    fn a_leak_makes_no_duct_wider_and_costs_the_fan_more_than_its_share_of_the_flow() {
        let sound = demonstration();
        let mut ill = leaky();
        ill.gas.flow_m3_s *= 1.05;
        let (sound, ill) = [sound, ill]
            .map(|conditions| gas_along(&conditions).expect("possible"))
            .into();
        let area_m2 = |along: &GasAlong| {
            let one = along.at(Station::OutletDuct).expect("a duct");
            one.flow_m3_s / one.velocity_m_s
        };
        let inlet_share = ill.stations[0].flow_m3_s / sound.stations[0].flow_m3_s;
        assert!((area_m2(&ill) / area_m2(&sound) / inlet_share - 1.0).abs() < 1e-12);
        assert!(ill.fan_power_w / sound.fan_power_w > ill.fan_flow_m3_s / sound.fan_flow_m3_s);
    }

    #[test]
    fn every_plate_costs_the_same_again() {
        let loss_pa = |plates: usize| {
            let mut conditions = demonstration();
            conditions.collector.distribution_plates = plates;
            gas_along(&conditions).expect("possible").collector_loss_pa
        };
        let (one, three) = (loss_pa(2) - loss_pa(1), loss_pa(3) - loss_pa(1));
        assert!(
            one > 1.0 && (three / one - 2.0).abs() < 1e-9,
            "{one} {three}"
        );
    }

    #[test]
    fn air_that_brought_more_water_than_there_is_is_refused() {
        let mut conditions = leaky();
        conditions.gas.moisture = 0.0;
        let told = gas_along(&conditions).expect_err("too dry").to_string();
        assert!(
            told.contains("moisture") && told.contains("in-leakage"),
            "{told}"
        );
    }
}
