//! Checks between keys: each value is possible alone, but not all of them together.

use super::{Conditions, Sizes, keys::Key, keys::keys, parts::find_part};
use crate::units::{Dimension, UnitSystem, format};

/// Thickest wire that the formulas of thin wires hold for, as a share of gap and wire spacing.
const THICKEST_WIRE: f64 = 0.25;
/// Gap over wire spacing for which the field is computed and checked.
const GAP_PER_WIRE_SPACING: (f64, f64) = (0.2, 3.0);
/// Gas velocities between a draught and a gale, m/s.
const GAS_VELOCITY_M_S: (f64, f64) = (0.02, 15.0);
/// A wanted voltage so many times above sparking is a slip of the pen.
const MOST_ABOVE_SPARKING: f64 = 3.0;
/// Longest site name of a part, characters.
const LONGEST_NAME: usize = 40;

/// Why values do not go together.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{key}: {message}")]
pub struct Objection {
    /// Key to change, dotted.
    pub key: String,
    /// What is wrong and what to do, in a sentence.
    pub message: String,
}

impl Objection {
    fn new(key: &str, message: String) -> Self {
        Self {
            key: key.to_owned(),
            message,
        }
    }
}

/// Checks every key against its range and all keys against each other, as for a sheet.
///
/// # Errors
/// Lists every objection.
pub fn check(conditions: &Conditions) -> Result<(), Vec<Objection>> {
    let mut objections = out_of_range(conditions);
    if objections.is_empty() {
        objections.extend(clashes(conditions));
        // What will be saved must be allowed too: mobility and velocity move with gas and voltage.
        objections.extend(out_of_range(&conditions.rebased().conditions));
    }
    if objections.is_empty() {
        Ok(())
    } else {
        Err(objections)
    }
}

fn out_of_range(conditions: &Conditions) -> Vec<Objection> {
    let fields = conditions.collector.fields;
    let check = |key: &'static Key| {
        let value = key.get(conditions)?;
        key.check(&value, fields)
            .err()
            .map(|refusal| Objection::new(key.path, refusal.to_string()))
    };
    let mut objections: Vec<Objection> = keys().filter_map(check).collect();
    objections.extend(list_lengths(conditions));
    objections.extend(part_names(conditions));
    objections.extend(defects(conditions));
    objections
}

/// No sheet can say these, so they are named as the fields of [`FieldDefects`](super::FieldDefects) are.
fn defects(conditions: &Conditions) -> Vec<Objection> {
    let gap_m = conditions.gap_m();
    let mut objections: Vec<Objection> = (conditions.defects.iter().zip(1..))
        .flat_map(|(defects, field)| {
            let wrong = defects.objections(gap_m).into_iter();
            wrong.map(move |(name, value, range)| {
                Objection::new(
                    &format!("defects of field {field}"),
                    format!("{name} {value}: {range}"),
                )
            })
        })
        .collect();
    let (length, fields) = (conditions.defects.len(), conditions.collector.fields);
    if length != fields {
        objections.push(Objection::new(
            "defects",
            format!("{length} entries for {fields} fields"),
        ));
    }
    objections
}

/// In the conditions, unlike in a sheet, lists are complete.
fn list_lengths(conditions: &Conditions) -> Vec<Objection> {
    let fields = conditions.collector.fields;
    [
        ("electrical.voltage", conditions.electrical.voltage_v.len()),
        ("rapping.interval", conditions.rapping.interval_s.len()),
        ("rapping.layer", conditions.rapping.layer_m.len()),
        (
            "rapping.wire_interval",
            conditions.rapping.wire_interval_s.len(),
        ),
        (
            "hoppers.evacuation_interval",
            conditions.hoppers.evacuation_interval_s.len(),
        ),
        ("electrical.voltage", conditions.reference.voltage_v.len()),
    ]
    .into_iter()
    .filter(|&(_, length)| length != fields)
    .map(|(key, length)| Objection::new(key, format!("{length} entries for {fields} fields")))
    .collect()
}

fn part_names(conditions: &Conditions) -> Vec<Objection> {
    let wrong = |(key, name): (&String, &String)| {
        let refusal = super::keys::check::text_length(name, LONGEST_NAME).err();
        let unknown = find_part(key).is_none().then(|| "no such part".to_owned());
        unknown
            .or_else(|| refusal.map(|refusal| refusal.to_string()))
            .map(|message| Objection::new(&format!("names.{key}"), message))
    };
    conditions
        .appearance
        .part_names
        .iter()
        .filter_map(wrong)
        .collect()
}

/// Everything that does not go together, in conditions whose values are possible one by one.
pub(super) fn clashes(conditions: &Conditions) -> Vec<Objection> {
    [
        thin_wire,
        wire_rows,
        wire_in_field,
        gas_velocity,
        sparking,
        layer,
        hammers,
        size_table,
    ]
    .iter()
    .filter_map(|rule| rule(conditions))
    .collect()
}

/// A value as people read it.
fn shown(value_si: f64, dimension: Dimension) -> String {
    format(value_si, dimension, UnitSystem::Si)
}

fn thin_wire(conditions: &Conditions) -> Option<Objection> {
    let collector = &conditions.collector;
    let room_m = conditions.gap_m().min(collector.wire_spacing_m);
    let most_m = THICKEST_WIRE * room_m;
    (collector.wire_diameter_m > most_m).then(|| {
        Objection::new(
            "collector.wire_diameter",
            format!(
                "a wire of {} is too thick for a gap of {} and a wire spacing of {}; write at most {}",
                shown(collector.wire_diameter_m, Dimension::PartSize),
                shown(conditions.gap_m(), Dimension::PartSize),
                shown(collector.wire_spacing_m, Dimension::PartSize),
                shown(most_m, Dimension::PartSize),
            ),
        )
    })
}

fn wire_rows(conditions: &Conditions) -> Option<Objection> {
    let gap_m = conditions.gap_m();
    let ratio = gap_m / conditions.collector.wire_spacing_m;
    let (low, high) = GAP_PER_WIRE_SPACING;
    (ratio < low || ratio > high).then(|| {
        Objection::new(
            "collector.wire_spacing",
            format!(
                "wires {} apart do not suit a gap of {}; write {} to {}",
                shown(conditions.collector.wire_spacing_m, Dimension::PartSize),
                shown(gap_m, Dimension::PartSize),
                shown(gap_m / high, Dimension::PartSize),
                shown(gap_m / low, Dimension::PartSize),
            ),
        )
    })
}

fn wire_in_field(conditions: &Conditions) -> Option<Objection> {
    let collector = &conditions.collector;
    (collector.wire_spacing_m > collector.field_length_m).then(|| {
        Objection::new(
            "collector.wire_spacing",
            format!(
                "wires {} apart leave none in a field of {}; write less than the field length",
                shown(collector.wire_spacing_m, Dimension::PartSize),
                shown(collector.field_length_m, Dimension::Length),
            ),
        )
    })
}

fn gas_velocity(conditions: &Conditions) -> Option<Objection> {
    let velocity_m_s = conditions.gas_velocity_m_s();
    let (low, high) = GAS_VELOCITY_M_S;
    (velocity_m_s < low || velocity_m_s > high).then(|| {
        Objection::new(
            "gas.flow",
            format!(
                "{} through {} passages of {} × {} is {}, outside {} to {}; check flow, passages, spacing and height",
                shown(conditions.gas.flow_m3_s, Dimension::Flow),
                conditions.collector.passages,
                shown(conditions.collector.plate_spacing_m, Dimension::PartSize),
                shown(conditions.collector.plate_height_m, Dimension::Length),
                shown(velocity_m_s, Dimension::Velocity),
                shown(low, Dimension::Velocity),
                shown(high, Dimension::Velocity),
            ),
        )
    })
}

fn sparking(conditions: &Conditions) -> Option<Objection> {
    let spark_v = conditions.spark_field_v_m() * conditions.gap_m();
    let highest_v = conditions
        .electrical
        .voltage_v
        .iter()
        .copied()
        .fold(0.0, f64::max);
    (highest_v > MOST_ABOVE_SPARKING * spark_v).then(|| {
        Objection::new(
            "electrical.voltage",
            format!(
                "{} can never be reached: this gap of {} sparks at {}; write at most {} or check spark_field",
                shown(highest_v, Dimension::Voltage),
                shown(conditions.gap_m(), Dimension::PartSize),
                shown(spark_v, Dimension::Voltage),
                shown(MOST_ABOVE_SPARKING * spark_v, Dimension::Voltage),
            ),
        )
    })
}

fn layer(conditions: &Conditions) -> Option<Objection> {
    let dust = &conditions.dust;
    (dust.layer_density_kg_m3 > dust.density_kg_m3).then(|| {
        Objection::new(
            "dust.layer_density",
            format!(
                "a layer of {} would be denser than its grains of {}; write at most that",
                shown(dust.layer_density_kg_m3, Dimension::Density),
                shown(dust.density_kg_m3, Dimension::Density),
            ),
        )
    })
}

/// A hammer is described whole or not at all.
fn hammers(conditions: &Conditions) -> Option<Objection> {
    let (there, missing) = match (
        conditions.rapping.hammer_mass_kg,
        conditions.rapping.hammer_drop_m,
    ) {
        (Some(_), None) => ("rapping.hammer_mass", "rapping.hammer_drop"),
        (None, Some(_)) => ("rapping.hammer_drop", "rapping.hammer_mass"),
        _ => return None,
    };
    Some(Objection::new(
        there,
        format!(
            "the energy of a blow needs {missing} too; add it, or take this away and rapping.acceleration counts"
        ),
    ))
}

fn size_table(conditions: &Conditions) -> Option<Objection> {
    let Sizes::Table { finer, largest_m } = &conditions.dust.sizes else {
        return None;
    };
    let size = |diameter_m: f64| shown(diameter_m, Dimension::GrainSize);
    let share = |fraction: f64| shown(fraction, Dimension::Fraction);
    for pair in finer.windows(2) {
        let &[(small_m, less), (large_m, more)] = pair else {
            continue;
        };
        if large_m <= small_m {
            let message = format!(
                "{} stands beside {}; the diameters must all rise or all fall along the list",
                size(large_m),
                size(small_m)
            );
            return Some(Objection::new("dust.sizes", message));
        }
        if more < less {
            let message = format!(
                "{} is finer than {} but only {} finer than {}; cumulative shares never fall with the diameter",
                share(less),
                size(small_m),
                share(more),
                size(large_m)
            );
            return Some(Objection::new("dust.sizes", message));
        }
    }
    match finer.last() {
        None => Some(Objection::new(
            "dust.sizes",
            "the table is empty; write at least one pair".to_owned(),
        )),
        Some(&(last_m, _)) if *largest_m <= last_m => {
            let message = format!(
                "{} is not above the last diameter of dust.sizes, {}; write a larger one",
                size(*largest_m),
                size(last_m)
            );
            Some(Objection::new("dust.largest", message))
        }
        Some(_) => None,
    }
}
