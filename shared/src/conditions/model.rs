//! The typed conditions of one collector: plain data that every other part reads.

use serde::{Deserialize, Serialize};

use super::{Appearance, FieldDefects};

/// Everything a collector is told.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Conditions {
    /// Name of the site, shown in titles.
    pub title: String,
    /// The gas that carries the dust.
    pub gas: Gas,
    /// The casing, plates and wires.
    pub collector: Collector,
    /// The ash.
    pub dust: Dust,
    /// Voltages and limits of the electrical sets.
    pub electrical: Electrical,
    /// Cleaning of the plates.
    pub rapping: Rapping,
    /// What catches the fallen ash.
    pub hoppers: Hoppers,
    /// The water of a wet collector.
    pub water: Water,
    /// What becomes of the ash that is taken away.
    pub ash: Ash,
    /// What is wrong with each field, one entry a field; no key of the sheet says it.
    pub defects: Vec<FieldDefects>,
    /// Simplifications for teaching; all absent means full physics.
    pub teaching: Teaching,
    /// What the machine looks like; no effect on the numbers.
    pub appearance: Appearance,
    /// The values of the sheet that some inputs are stated at.
    pub reference: Reference,
}

/// Gas entering the collector.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Gas {
    /// Actual flow of the whole collector, m³/s.
    pub flow_m3_s: f64,
    /// Temperature, K.
    pub temperature_k: f64,
    /// Absolute pressure, Pa.
    pub pressure_pa: f64,
    /// Water vapour, fraction by volume.
    pub moisture: f64,
    /// Sulphur trioxide, ppm by volume.
    pub sulphur_trioxide_ppm: f64,
    /// Oxygen where the inlet duct begins, dry, fraction by volume.
    pub oxygen: f64,
    /// Outside air that is sucked in, by place.
    pub in_leakage: InLeakage,
    /// RMS of the face velocity behind the distribution plate, fraction of the mean.
    pub velocity_spread: f64,
}

/// Outside air that is sucked in, by place: dry air for each part of dry gas that enters the inlet duct.
///
/// Flow, temperature and moisture of [`Gas`] and the dust load are those at the face of the fields, so what leaks in before
/// them is in those already; leaks behind the face change the gas path alone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct InLeakage {
    /// Before the fields: inlet duct and nozzle.
    pub inlet: f64,
    /// Along the fields: doors, roof, hoppers; as much in each.
    pub casing: f64,
    /// Behind the fields: outlet duct, before a fan that pulls.
    pub outlet: f64,
}

/// Dry or irrigated plates.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// Plates cleaned by rapping.
    Dry,
    /// Plates washed by a water film.
    Wet,
}

/// Casing, plates and wires.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Collector {
    /// Dry or wet.
    pub kind: Kind,
    /// Electrical fields in series along the gas.
    pub fields: usize,
    /// Gas passages side by side.
    pub passages: usize,
    /// Distance between neighbouring plates, m (twice the gap from wire to plate).
    pub plate_spacing_m: f64,
    /// Height of the plates, m.
    pub plate_height_m: f64,
    /// Length of one field along the gas, m.
    pub field_length_m: f64,
    /// Distance between neighbouring wires along the gas, m.
    pub wire_spacing_m: f64,
    /// Diameter of a wire, m.
    pub wire_diameter_m: f64,
    /// Roughness factor of the wire in Peek's formula, 1 for a polished wire.
    pub wire_roughness: f64,
    /// Share of the gas that bypasses the charged zone of each field.
    pub sneakage: f64,
    /// Share of that gas which goes through the hoppers and not over the top.
    pub hopper_share: f64,
    /// Ash that gas through the hoppers takes back: share of the ash that falls over share of the gas that sweeps it.
    pub hopper_sweepage: f64,
    /// Perforated distribution plates one behind the other.
    pub distribution_plates: usize,
    /// Open share of each of them.
    pub distribution_open_area: f64,
}

/// How the mass of the dust is spread over diameters.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sizes {
    /// Log-normal by mass.
    LogNormal {
        /// Half of the mass is in smaller grains, m.
        mass_median_diameter_m: f64,
        /// Geometric standard deviation, above 1.
        geometric_deviation: f64,
    },
    /// Cumulative table.
    Table {
        /// Diameter (m), strictly rising, and mass fraction finer than it, never falling: two neighbours with the
        /// same fraction have no dust between them.
        finer: Vec<(f64, f64)>,
        /// Diameter that everything is finer than, m.
        largest_m: f64,
    },
}

/// Electrical resistivity of the settled dust.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Resistivity {
    /// A measured or assumed value, Ω·m.
    Given(f64),
    /// To be computed from the ash composition, the temperature and the moisture.
    FromComposition(Composition),
}

/// Atomic shares of the ash that decide its resistivity.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Composition {
    /// Lithium plus sodium, atomic per cent.
    pub lithium_sodium_percent: f64,
    /// Iron, atomic per cent.
    pub iron_percent: f64,
    /// Magnesium plus calcium, atomic per cent.
    pub magnesium_calcium_percent: f64,
    /// Potassium, atomic per cent.
    pub potassium_percent: f64,
}

/// The ash.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Dust {
    /// Mass per actual volume of gas at the inlet, kg/m³.
    pub load_kg_m3: f64,
    /// Size distribution by mass.
    pub sizes: Sizes,
    /// Density of a grain, kg/m³.
    pub density_kg_m3: f64,
    /// Relative permittivity of a grain.
    pub permittivity: f64,
    /// Density of the layer on the plates, kg/m³.
    pub layer_density_kg_m3: f64,
    /// Resistivity of the layer.
    pub resistivity: Resistivity,
}

/// Electrical sets, one a field.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Electrical {
    /// Wanted mean voltage of each field, V; one entry a field.
    pub voltage_v: Vec<f64>,
    /// Mobility of the negative ions at the reference temperature and pressure, m²/V/s.
    pub ion_mobility_m2_v_s: f64,
    /// Largest mean current density on the plates, A/m².
    pub current_limit_a_m2: f64,
    /// Mean current density that the set of a field is built for, A/m²; it gives no more, whatever the limit.
    pub rated_current_a_m2: f64,
    /// Sparks the controller aims for, 1/s.
    pub spark_target_per_s: f64,
    /// How long a set is blocked after a spark, s.
    pub quench_s: f64,
    /// How far below the voltage of a spark the ramp starts again, share of that voltage.
    pub setback: f64,
    /// Mean gap field at which this gap sparks, V/m.
    pub spark_field_v_m: f64,
}

/// Cleaning of the plates.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Rapping {
    /// Net share of the dislodged dust that leaves its field with the gas.
    pub reentrained: f64,
    /// Time between raps of each field, s; one entry a field.
    pub interval_s: Vec<f64>,
    /// Peak acceleration of the plate, m/s²; hammers that are described give their own.
    pub acceleration_m_s2: f64,
    /// Mass of a hammer, kg; goes with its drop.
    pub hammer_mass_kg: Option<f64>,
    /// Height that the centre of mass of a hammer falls, m; goes with its mass.
    pub hammer_drop_m: Option<f64>,
    /// Turns of the hammer shaft, 1/s; one turn strikes every plate of the field once.
    pub shaft_speed_per_s: f64,
    /// Time between blows on the wires of each field, s; one entry a field.
    pub wire_interval_s: Vec<f64>,
    /// Thickness of the dust on the plates of each field, m; one entry a field.
    pub layer_m: Vec<f64>,
}

/// What catches the fallen ash.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Hoppers {
    /// Volume of one row of hoppers under each field, m³.
    pub volume_m3: f64,
    /// Time between two emptyings of each row, s; one entry a field.
    pub evacuation_interval_s: Vec<f64>,
    /// Density of the loose ash in it, kg/m³.
    pub ash_density_kg_m3: f64,
}

/// The water that runs down the plates of a wet collector; a dry one has none.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Water {
    /// Volume of water sprayed on the gas and the plates per volume of gas.
    pub per_gas: f64,
    /// Share of the drained water that is sprayed again.
    pub recycled: f64,
}

/// Whose limits ash for concrete must keep.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AshStandard {
    /// EN 450-1, loss on ignition of category A, fineness of category N.
    #[default]
    En450,
    /// ASTM C618, classes F and C.
    AstmC618,
}

/// What becomes of the ash that is taken away.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ash {
    /// Share of its mass that burns off: mostly unburned carbon.
    pub loss_on_ignition: f64,
    /// Limits that decide whether it can be sold.
    pub standard: AshStandard,
    /// What a tonne (1000 kg) of sold ash brings, in the money of the site.
    pub sale_price_per_tonne: f64,
    /// What a tonne (1000 kg) of other ash costs, in the money of the site.
    pub disposal_price_per_tonne: f64,
}

/// How the gas mixes across a passage.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Mixing {
    /// Laminar: no mixing across.
    None,
    /// Perfect mixing across: the assumption of Deutsch and Anderson.
    Full,
    /// Eddy diffusivity across, m²/s.
    Diffusivity(f64),
}

/// Velocity profile across a passage.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Profile {
    /// Plug flow.
    #[default]
    Flat,
    /// Parabola, zero at the plates.
    Parabolic,
}

/// Charging model.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Charging {
    /// Lawless 1996, field and diffusion charging together.
    #[default]
    Lawless,
    /// Cochet 1961.
    Cochet,
    /// White 1951, diffusion charging alone.
    White,
    /// Pauthenier & Moreau-Hanot 1932, field charging alone.
    Field,
}

/// Simplifications for teaching.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Teaching {
    /// One migration velocity for every grain at the reference voltage and spacing, m/s.
    pub migration_velocity_m_s: Option<f64>,
    /// Mixing instead of the computed diffusivity and gusts.
    pub mixing: Option<Mixing>,
    /// One diameter for every grain, m.
    pub single_diameter_m: Option<f64>,
    /// Velocity profile across the gap.
    pub profile: Profile,
    /// Charging model.
    pub charging: Charging,
    /// Thickness below which a layer comes off as powder and not as a sheet, so that more of it returns, m.
    pub thin_layer_m: Option<f64>,
}

/// What the sheet said, for inputs that are stated at the sheet's values and scale when controls move.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reference {
    /// Temperature at which the ion mobility is stated, K.
    pub temperature_k: f64,
    /// Pressure at which the ion mobility is stated, Pa.
    pub pressure_pa: f64,
    /// Voltages at which the teaching migration velocity is stated, V; one entry a field, 0 for a field that was off.
    pub voltage_v: Vec<f64>,
    /// Plate spacing at which the teaching migration velocity is stated, m.
    pub plate_spacing_m: f64,
}
