//! Static pressure along the way of the gas, and what the collector and its ducts cost.
//!
//! `p_k = p_{k−1} + ρ(u²_{k−1} − u²_k)/2 − ζ_k ρu²/2`; expansion `ζ = (1−A₁/A₂)²`, contraction `ζ = ½(1−A₂/A₁)`

use super::perforated_plate::{loss_coefficient, pressure_loss_pa};
use crate::physics::PhysicsError;
use crate::physics::error::{not_negative, positive, require};
use crate::physics::mixing::{PassageFlow, friction_velocity_m_s};

/// A place on the way of the gas.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Station {
    /// Where the inlet duct begins.
    Start,
    /// Behind a fan that pushes.
    PushingFan,
    /// Where the inlet duct ends and the nozzle begins.
    InletDuct,
    /// Behind the inlet nozzle, where the gas has spread over the face.
    InletNozzle,
    /// Behind a perforated plate, counted from 1.
    Plate(usize),
    /// Behind a field, counted from 1.
    Field(usize),
    /// Behind the outlet nozzle, where the outlet duct begins.
    OutletNozzle,
    /// Where the outlet duct ends.
    OutletDuct,
    /// Behind a fan that pulls.
    PullingFan,
    /// Where the stack opens into the air.
    Stack,
}

/// Where the fan stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FanPlace {
    /// Behind the collector: it pulls, and the collector is under suction.
    #[default]
    Downstream,
    /// Before the collector: it pushes.
    Upstream,
}

/// The gas and the shape of its way.
#[derive(Clone, Debug, PartialEq)]
pub struct GasPath {
    /// Flow Q, m³/s, above 0.
    pub flow_m3_s: f64,
    /// Density ρ, kg/m³, above 0.
    pub density_kg_m3: f64,
    /// Viscosity μ, Pa·s, above 0.
    pub viscosity_pa_s: f64,
    /// Area across the inlet duct, m², above 0.
    pub inlet_duct_m2: f64,
    /// Area across the passages, m², no less than either duct's.
    pub face_m2: f64,
    /// Area across the outlet duct, m², above 0.
    pub outlet_duct_m2: f64,
    /// Loss coefficient ζ of the inlet duct with its bends, 0 or more.
    pub inlet_duct_loss: f64,
    /// Loss coefficient ζ of the outlet duct with its bends, 0 or more.
    pub outlet_duct_loss: f64,
    /// Open share f of each perforated plate, above 0, at most 1.
    pub plate_open_shares: Vec<f64>,
    /// Number of fields.
    pub fields: usize,
    /// Length of a field along the gas, m, above 0.
    pub field_length_m: f64,
    /// Distance s from wire to plate, m, above 0.
    pub gap_m: f64,
    /// Static pressure at the start, over that outside, Pa.
    pub start_gauge_pa: f64,
    /// Static pressure at the end, over that outside, Pa: that at the foot of the stack.
    pub end_gauge_pa: f64,
    /// Where the fan stands.
    pub fan: FanPlace,
}

impl GasPath {
    /// Ducts and pressures of a plausible path round this face; invented teaching values, to be overridden.
    ///
    /// Both ducts are as wide as 15 m/s needs (common practice, no source) and each lose a third of a dynamic pressure.
    #[must_use]
    pub fn teaching(flow_m3_s: f64, face_m2: f64) -> Self {
        let duct_m2 = (flow_m3_s / 15.0).min(face_m2);
        Self {
            flow_m3_s,
            density_kg_m3: 0.835,
            viscosity_pa_s: 2.385e-5,
            inlet_duct_m2: duct_m2,
            face_m2,
            outlet_duct_m2: duct_m2,
            inlet_duct_loss: 0.3,
            outlet_duct_loss: 0.3,
            plate_open_shares: vec![0.45],
            fields: 4,
            field_length_m: 3.0,
            gap_m: 0.15,
            start_gauge_pa: -1500.0,
            end_gauge_pa: -50.0,
            fan: FanPlace::Downstream,
        }
    }
}

/// The gas that moves through a station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MovingGas {
    /// Flow Q, m³/s, above 0.
    pub flow_m3_s: f64,
    /// Density ρ, kg/m³, above 0.
    pub density_kg_m3: f64,
    /// Viscosity μ, Pa·s, above 0.
    pub viscosity_pa_s: f64,
}

/// The gas at a station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StationPressure {
    /// The place.
    pub station: Station,
    /// Velocity there, m/s.
    pub velocity_m_s: f64,
    /// Static pressure over that outside, Pa; below 0 under suction.
    pub static_gauge_pa: f64,
    /// Total pressure lost since the start, Pa.
    pub lost_pa: f64,
}

/// Static pressure from start to end.
#[derive(Clone, Debug, PartialEq)]
pub struct PressureProfile {
    /// The stations in the order of the gas.
    pub stations: Vec<StationPressure>,
    /// Total pressure lost between the duct before the inlet nozzle and that behind the outlet nozzle, Pa.
    pub collector_loss_pa: f64,
    /// Total pressure that the fan adds, Pa; for its power.
    pub fan_rise_pa: f64,
}

impl PressureProfile {
    /// Static pressure at a station, over that outside, Pa.
    #[must_use]
    pub fn static_gauge_pa(&self, station: Station) -> Option<f64> {
        let mut stations = self.stations.iter();
        let found = stations.find(|one| one.station == station);
        found.map(|one| one.static_gauge_pa)
    }
}

/// Loss coefficient ζ of a sudden widening, in dynamic pressures of the narrow duct.
///
/// `ζ = (1 − A₁/A₂)²`
///
/// # Arguments
/// * `narrow_m2` – area before A₁, m², above 0.
/// * `wide_m2` – area behind A₂, m², A₁ or more.
///
/// # Source
/// Borda 1766 and Carnot: momentum balance over the widening.
///
/// # Validity
/// Sudden widening; a nozzle that opens gradually or has vanes loses less, so this is the upper bound.
///
/// # Errors
/// An area outside its range.
pub fn expansion_loss(narrow_m2: f64, wide_m2: f64) -> Result<f64, PhysicsError> {
    Ok((1.0 - narrowing(narrow_m2, wide_m2)?).powi(2))
}

/// Loss coefficient ζ of a sudden narrowing, in dynamic pressures of the narrow duct.
///
/// `ζ = ½ (1 − A₂/A₁)`
///
/// # Arguments
/// * `wide_m2` – area before A₁, m², above 0.
/// * `narrow_m2` – area behind A₂, m², A₁ or less.
///
/// # Source
/// From memory of Idelchik, *Handbook of Hydraulic Resistance*, sudden contraction with sharp edges.
///
/// # Validity
/// Sharp edges; a gradual nozzle loses far less, so this is an upper bound.
///
/// # Errors
/// An area outside its range.
pub fn contraction_loss(wide_m2: f64, narrow_m2: f64) -> Result<f64, PhysicsError> {
    Ok(0.5 * (1.0 - narrowing(narrow_m2, wide_m2)?))
}

/// Pressure that the plates of one field take by friction, Pa.
///
/// `Δp = ρu*² L/s`
///
/// # Arguments
/// * `flow` – the gas in a passage.
/// * `length_m` – length L of the field, m, 0 or more.
///
/// # Source
/// Balance of forces on the gas between two plates 2s apart; friction velocity by Blasius 1913.
///
/// # Validity
/// Smooth plates; stiffeners, wires and dust multiply it, and it still is a small part of the whole.
///
/// # Errors
/// An argument outside its range.
pub fn field_friction_pa(flow: &PassageFlow, length_m: f64) -> Result<f64, PhysicsError> {
    not_negative("length_m", length_m)?;
    positive("velocity_m_s", flow.velocity_m_s)?;
    positive("gap_m", flow.gap_m)?;
    positive("density_kg_m3", flow.density_kg_m3)?;
    positive("viscosity_pa_s", flow.viscosity_pa_s)?;
    Ok(flow.density_kg_m3 * friction_velocity_m_s(flow).powi(2) * length_m / flow.gap_m)
}

/// Static pressure at every station of the way, and what the fan must add.
///
/// `p_k = p_{k−1} + ρ(u²_{k−1} − u²_k)/2 − ζ_k ρu²/2`, the fan making up what is missing at the end
///
/// # Arguments
/// * `path` – the gas and the shape of its way.
///
/// # Source
/// Bernoulli's equation with losses; loss coefficients of this file and of [`super::perforated_plate`].
///
/// # Validity
/// The same gas all the way; a loss of the collector of 50 to 250 Pa is common practice, no source.
///
/// # Errors
/// A value of the path outside its range; a duct wider than the face.
pub fn pressure_profile(path: &GasPath) -> Result<PressureProfile, PhysicsError> {
    let same = MovingGas {
        flow_m3_s: path.flow_m3_s,
        density_kg_m3: path.density_kg_m3,
        viscosity_pa_s: path.viscosity_pa_s,
    };
    pressure_profile_of(path, |_| same)
}

/// As [`pressure_profile`], with the gas that each station has: more of it and cooler behind leaks.
///
/// # Validity
/// Density constant from station to station; air that leaks in takes on the total pressure of the gas.
///
/// # Errors
/// As [`pressure_profile`].
pub fn pressure_profile_of(
    path: &GasPath,
    gas_at: impl Fn(Station) -> MovingGas,
) -> Result<PressureProfile, PhysicsError> {
    for (name, gauge_pa) in [
        ("start_gauge_pa", path.start_gauge_pa),
        ("end_gauge_pa", path.end_gauge_pa),
    ] {
        require(gauge_pa.is_finite(), name, gauge_pa, "finite")?;
    }
    let legs = legs(path, &gas_at)?;
    let whole_loss_pa: f64 = legs.iter().map(|leg| leg.lost_pa).sum();
    let (inlet, outlet) = (gas_at(Station::Start), gas_at(Station::OutletDuct));
    let inlet_pa = dynamic_pa(&inlet, path.inlet_duct_m2);
    let outlet_pa = dynamic_pa(&outlet, path.outlet_duct_m2);
    let fan_rise_pa =
        path.end_gauge_pa + outlet_pa + whole_loss_pa - path.start_gauge_pa - inlet_pa;
    let mut walk = Walk {
        stations: Vec::with_capacity(legs.len() + 2),
        total_pa: path.start_gauge_pa + inlet_pa,
        lost_pa: 0.0,
    };
    walk.arrive(Station::Start, &inlet, path.inlet_duct_m2);
    if path.fan == FanPlace::Upstream {
        walk.total_pa += fan_rise_pa;
        walk.arrive(Station::PushingFan, &inlet, path.inlet_duct_m2);
    }
    for leg in &legs {
        walk.total_pa -= leg.lost_pa;
        walk.lost_pa += leg.lost_pa;
        walk.arrive(leg.to, &gas_at(leg.to), leg.area_m2);
    }
    if path.fan == FanPlace::Downstream {
        walk.total_pa += fan_rise_pa;
        walk.arrive(Station::PullingFan, &outlet, path.outlet_duct_m2);
    }
    let in_ducts = |leg: &&Leg| matches!(leg.to, Station::InletDuct | Station::OutletDuct);
    let ducts_pa: f64 = legs.iter().filter(in_ducts).map(|leg| leg.lost_pa).sum();
    Ok(PressureProfile {
        stations: walk.stations,
        collector_loss_pa: whole_loss_pa - ducts_pa,
        fan_rise_pa,
    })
}

fn dynamic_pa(gas: &MovingGas, area_m2: f64) -> f64 {
    0.5 * gas.density_kg_m3 * (gas.flow_m3_s / area_m2).powi(2)
}

/// A piece of the way: where it ends, how wide it is there, what it cost.
#[derive(Debug)]
struct Leg {
    to: Station,
    area_m2: f64,
    lost_pa: f64,
}

/// Total pressure carried from station to station.
#[derive(Debug)]
struct Walk {
    stations: Vec<StationPressure>,
    total_pa: f64,
    lost_pa: f64,
}

impl Walk {
    fn arrive(&mut self, station: Station, gas: &MovingGas, area_m2: f64) {
        self.stations.push(StationPressure {
            station,
            velocity_m_s: gas.flow_m3_s / area_m2,
            static_gauge_pa: self.total_pa - dynamic_pa(gas, area_m2),
            lost_pa: self.lost_pa,
        });
    }
}

/// All pieces of the way without the fan.
fn legs(path: &GasPath, gas_at: &impl Fn(Station) -> MovingGas) -> Result<Vec<Leg>, PhysicsError> {
    let (inlet_m2, face_m2, outlet_m2) = (path.inlet_duct_m2, path.face_m2, path.outlet_duct_m2);
    // The loss in dynamic pressures of the gas of a station in a duct of this area.
    let lost_pa = |loss: f64, from: Station, area_m2: f64| {
        let gas = gas_at(from);
        positive("flow_m3_s", gas.flow_m3_s)?;
        positive("density_kg_m3", gas.density_kg_m3)?;
        pressure_loss_pa(loss, gas.density_kg_m3, gas.flow_m3_s / area_m2)
    };
    let leg = |to: Station, area_m2: f64, lost_pa: f64| Leg {
        to,
        area_m2,
        lost_pa,
    };
    let widening = expansion_loss(inlet_m2, face_m2)?;
    let narrowing = contraction_loss(face_m2, outlet_m2)?;
    let inlet_pa = lost_pa(path.inlet_duct_loss, Station::InletDuct, inlet_m2)?;
    let widening_pa = lost_pa(widening, Station::InletDuct, inlet_m2)?;
    let mut legs = vec![
        leg(Station::InletDuct, inlet_m2, inlet_pa),
        leg(Station::InletNozzle, face_m2, widening_pa),
    ];
    for (number, &open_share) in (1..).zip(&path.plate_open_shares) {
        let plate = Station::Plate(number);
        let plate_pa = lost_pa(loss_coefficient(open_share)?, plate, face_m2)?;
        legs.push(leg(plate, face_m2, plate_pa));
    }
    for field in (1..=path.fields).map(Station::Field) {
        let gas = gas_at(field);
        let passage = PassageFlow {
            velocity_m_s: gas.flow_m3_s / face_m2,
            gap_m: path.gap_m,
            density_kg_m3: gas.density_kg_m3,
            viscosity_pa_s: gas.viscosity_pa_s,
        };
        let friction_pa = field_friction_pa(&passage, path.field_length_m)?;
        legs.push(leg(field, face_m2, friction_pa));
    }
    let narrowing_pa = lost_pa(narrowing, Station::OutletNozzle, outlet_m2)?;
    let outlet_pa = lost_pa(path.outlet_duct_loss, Station::OutletDuct, outlet_m2)?;
    legs.push(leg(Station::OutletNozzle, outlet_m2, narrowing_pa));
    legs.push(leg(Station::OutletDuct, outlet_m2, outlet_pa));
    Ok(legs)
}

/// Narrow area over wide area, 0 to 1.
fn narrowing(narrow_m2: f64, wide_m2: f64) -> Result<f64, PhysicsError> {
    positive("narrow_m2", narrow_m2)?;
    positive("wide_m2", wide_m2)?;
    require(
        narrow_m2 <= wide_m2,
        "narrow_m2",
        narrow_m2,
        "at most wide_m2: a duct is no wider than the face",
    )?;
    Ok(narrow_m2 / wide_m2)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn path() -> GasPath {
        GasPath::teaching(118.8, 99.0)
    }

    #[test]
    fn a_pulling_fan_leaves_suction_everywhere_before_it() {
        let profile = pressure_profile(&path()).expect("a profile");
        let (last, before) = profile.stations.split_last().expect("stations");
        assert_eq!(last.station, Station::PullingFan);
        assert!(
            (last.static_gauge_pa - path().end_gauge_pa).abs() < 1e-9,
            "{last:?}"
        );
        assert!(before.iter().all(|one| one.static_gauge_pa < 0.0));
        assert!(profile.fan_rise_pa > 0.0);
    }

    #[test]
    fn a_pushing_fan_leaves_the_end_where_it_is() {
        let mut path = path();
        path.fan = FanPlace::Upstream;
        path.start_gauge_pa = 0.0;
        path.end_gauge_pa = 0.0;
        let profile = pressure_profile(&path).expect("a profile");
        let end = profile
            .static_gauge_pa(Station::OutletDuct)
            .expect("an end");
        assert!(end.abs() < 1e-9, "{end}");
        let inlet = profile.static_gauge_pa(Station::InletDuct).expect("a duct");
        assert!(inlet > 0.0, "{inlet}");
    }

    #[test]
    fn an_equal_duct_without_loss_keeps_its_pressure() {
        let mut path = path();
        path.inlet_duct_m2 = path.face_m2;
        path.outlet_duct_m2 = path.face_m2;
        path.plate_open_shares.clear();
        path.fields = 0;
        (path.inlet_duct_loss, path.outlet_duct_loss) = (0.0, 0.0);
        let profile = pressure_profile(&path).expect("a profile");
        assert!(profile.collector_loss_pa.abs() < 1e-12, "{profile:?}");
        let pressure = |one: &StationPressure| (one.static_gauge_pa + 1500.0).abs() < 1e-9;
        let (_, before) = profile.stations.split_last().expect("stations");
        assert!(before.iter().all(pressure), "{profile:?}");
    }

    #[test]
    fn widening_gives_static_pressure_back() {
        // Momentum balance: p₂ − p₁ = ρu₂(u₁ − u₂), by another road than Bernoulli's with ζ.
        let profile = pressure_profile(&path()).expect("a profile");
        let gauge = |station| profile.static_gauge_pa(station).expect("a station");
        let (inlet_m_s, face_m_s) = (15.0, 118.8 / 99.0);
        let momentum_pa = 0.835 * face_m_s * (inlet_m_s - face_m_s);
        let gained_pa = gauge(Station::InletNozzle) - gauge(Station::InletDuct);
        assert!(
            (gained_pa / momentum_pa - 1.0).abs() < 1e-12,
            "{gained_pa} {momentum_pa}"
        );
    }

    #[test]
    fn a_second_plate_costs_what_one_does() {
        let one = pressure_profile(&path()).expect("a profile");
        let mut path = path();
        path.plate_open_shares = vec![0.45, 0.45];
        let two = pressure_profile(&path).expect("a profile");
        let more_pa = two.fan_rise_pa - one.fan_rise_pa;
        let loss = loss_coefficient(0.45).expect("a plate");
        let plate_pa = pressure_loss_pa(loss, 0.835, 1.2).expect("a loss");
        assert!(
            (more_pa / plate_pa - 1.0).abs() < 1e-9,
            "{more_pa} {plate_pa}"
        );
        let steps = two
            .stations
            .iter()
            .filter(|one| matches!(one.station, Station::Plate(_)));
        assert_eq!(steps.count(), 2);
    }

    #[test]
    fn what_cannot_be_is_refused() {
        for spoil in [
            |path: &mut GasPath| path.flow_m3_s = 0.0,
            |path: &mut GasPath| path.inlet_duct_m2 = 200.0,
            |path: &mut GasPath| path.outlet_duct_m2 = f64::NAN,
            |path: &mut GasPath| path.plate_open_shares = vec![0.0],
            |path: &mut GasPath| path.inlet_duct_loss = -1.0,
            |path: &mut GasPath| path.start_gauge_pa = f64::NAN,
            |path: &mut GasPath| path.gap_m = 0.0,
        ] {
            let mut path = path();
            spoil(&mut path);
            assert!(pressure_profile(&path).is_err(), "{path:?} passed");
        }
    }
}
