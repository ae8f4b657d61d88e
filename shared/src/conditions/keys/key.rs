//! One row of the key table, and what can be done with it.

use super::{
    Range, Refusal, Shape, Value,
    check::{WHOLE, known_word, per_field_length, points_length, text_length, within},
};
use crate::{
    conditions::{Conditions, Kind, Mixing, Sizes},
    units::Dimension,
};

/// Whether a sheet must say it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Presence {
    /// A collector cannot do without it.
    Required,
    /// The demonstration's value stands in.
    Default,
    /// Absent means nothing.
    Optional,
}

/// One key of the site sheet.
#[derive(Clone, Copy, Debug)]
pub struct Key {
    /// Dotted path, such as `gas.flow`.
    pub path: &'static str,
    /// Letter in the formulas, empty if it has none.
    pub symbol: &'static str,
    /// What it is, in one line of plain English.
    pub meaning: &'static str,
    /// Whether a sheet must say it.
    pub presence: Presence,
    /// Kind, limits and place of its value.
    pub shape: Shape,
    /// Default of a wet collector where it differs.
    pub wet_default: Option<f64>,
}

impl Key {
    pub(super) const fn required(
        path: &'static str,
        symbol: &'static str,
        meaning: &'static str,
        shape: Shape,
    ) -> Self {
        Self {
            path,
            symbol,
            meaning,
            presence: Presence::Required,
            shape,
            wet_default: None,
        }
    }

    pub(super) const fn with_default(
        path: &'static str,
        symbol: &'static str,
        meaning: &'static str,
        shape: Shape,
    ) -> Self {
        Self {
            path,
            symbol,
            meaning,
            presence: Presence::Default,
            shape,
            wet_default: None,
        }
    }

    pub(super) const fn optional(
        path: &'static str,
        symbol: &'static str,
        meaning: &'static str,
        shape: Shape,
    ) -> Self {
        Self {
            path,
            symbol,
            meaning,
            presence: Presence::Optional,
            shape,
            wet_default: None,
        }
    }

    pub(super) const fn when_wet(self, default: f64) -> Self {
        Self {
            wet_default: Some(default),
            ..self
        }
    }

    /// Section, such as `gas`, and name in it, such as `flow`.
    #[must_use]
    pub fn split(&self) -> (&'static str, &'static str) {
        self.path.rsplit_once('.').unwrap_or(("", self.path))
    }

    /// What the conditions say; nothing when they say it in another way or not at all.
    #[must_use]
    pub fn get(&self, conditions: &Conditions) -> Option<Value> {
        match self.shape {
            Shape::Quantity { get, .. } => get(conditions).map(Value::Number),
            Shape::PerField { get, .. } => Some(Value::PerField(get(conditions).to_vec())),
            Shape::Count { get, .. } => Some(Value::Count(get(conditions))),
            Shape::Word { get, .. } => Some(Value::Word(get(conditions))),
            Shape::Text { get, .. } => Some(Value::Text(get(conditions).to_owned())),
            Shape::Points { .. } => match &conditions.dust.sizes {
                Sizes::Table { finer, .. } => Some(Value::Points(finer.clone())),
                Sizes::LogNormal { .. } => None,
            },
            Shape::Mixing { .. } => conditions.teaching.mixing.map(Value::Mixing),
            Shape::PartName { .. } => None,
        }
    }

    /// Checks a value and writes it into the conditions.
    ///
    /// # Errors
    /// When the value is outside the range of this key or of another shape; the conditions are then unchanged.
    pub fn set(&self, conditions: &mut Conditions, value: &Value) -> Result<(), Refusal> {
        self.check(value, conditions.collector.fields)?;
        if self.put(conditions, value) {
            Ok(())
        } else {
            Err(Refusal::WrongShape)
        }
    }

    /// Takes an optional value away.
    pub fn clear(&self, conditions: &mut Conditions) {
        let (teaching, rapping) = (&mut conditions.teaching, &mut conditions.rapping);
        match self.path {
            "teaching.migration_velocity" => teaching.migration_velocity_m_s = None,
            "teaching.mixing" => teaching.mixing = None,
            "teaching.single_diameter" => teaching.single_diameter_m = None,
            "teaching.thin_layer" => teaching.thin_layer_m = None,
            "rapping.hammer_mass" => rapping.hammer_mass_kg = None,
            "rapping.hammer_drop" => rapping.hammer_drop_m = None,
            _ => {}
        }
    }

    /// Checks a value against the range of this key for a collector of so many fields.
    ///
    /// # Errors
    /// When it is outside or of another shape.
    pub fn check(&self, value: &Value, fields: usize) -> Result<(), Refusal> {
        match (self.shape, value) {
            (
                Shape::Quantity {
                    allowed, dimension, ..
                },
                Value::Number(number),
            ) => within(*number, allowed, dimension),
            (
                Shape::PerField {
                    allowed, dimension, ..
                },
                Value::PerField(list),
            ) => {
                per_field_length(list.len(), fields)?;
                list.iter()
                    .try_for_each(|&number| within(number, allowed, dimension))
            }
            (Shape::Count { min, max, .. }, Value::Count(count)) => {
                if (min..=max).contains(count) {
                    Ok(())
                } else {
                    Err(Refusal::CountOutOfRange { min, max })
                }
            }
            (Shape::Word { words, .. }, Value::Word(word)) => known_word(word, &words()),
            (Shape::Text { longest, .. } | Shape::PartName { longest }, Value::Text(text)) => {
                text_length(text, longest)
            }
            (Shape::Points { allowed }, Value::Points(points)) => {
                points_length(points.len())?;
                points.iter().try_for_each(|&(diameter_m, finer)| {
                    within(diameter_m, allowed, Dimension::GrainSize)?;
                    within(finer, WHOLE, Dimension::Fraction)
                })
            }
            (Shape::Mixing { allowed, .. }, Value::Mixing(Mixing::Diffusivity(number))) => {
                within(*number, allowed, Dimension::Diffusivity)
            }
            (Shape::Mixing { .. }, Value::Mixing(_)) => Ok(()),
            _ => Err(Refusal::WrongShape),
        }
    }

    /// Writes a value that has been checked; false when it is of another shape.
    pub(in crate::conditions) fn put(&self, conditions: &mut Conditions, value: &Value) -> bool {
        match (self.shape, value) {
            (Shape::Quantity { set, .. }, Value::Number(number)) => set(conditions, *number),
            (Shape::PerField { list, .. }, Value::PerField(values)) => {
                let fields = conditions.collector.fields;
                let last = values.last().copied().unwrap_or_default();
                let slot = list(conditions);
                slot.clone_from(values);
                slot.resize(fields, last);
            }
            (Shape::Count { set, .. }, Value::Count(count)) => set(conditions, *count),
            (Shape::Word { set, .. }, Value::Word(word)) => return set(conditions, word),
            (Shape::Text { set, .. }, Value::Text(text)) => set(conditions, text.clone()),
            (Shape::Points { .. }, Value::Points(points)) => {
                let largest_m = match conditions.dust.sizes {
                    Sizes::Table { largest_m, .. } => largest_m,
                    Sizes::LogNormal { .. } => 0.0,
                };
                conditions.dust.sizes = Sizes::Table {
                    finer: points.clone(),
                    largest_m,
                };
            }
            (Shape::Mixing { .. }, Value::Mixing(mixing)) => {
                conditions.teaching.mixing = Some(*mixing);
            }
            _ => return false,
        }
        true
    }

    /// The demonstration's value for a collector of this kind and size: the default, where the key has one.
    #[must_use]
    pub fn usual(&self, conditions: &Conditions) -> Option<Value> {
        let wet = conditions.collector.kind == Kind::Wet;
        Some(match self.shape {
            Shape::Quantity { sample, .. } => {
                Value::Number(self.wet_default.filter(|_| wet).unwrap_or(sample))
            }
            Shape::PerField { sample, .. } => {
                let mut list = sample.to_vec();
                list.resize(
                    conditions.collector.fields,
                    sample.last().copied().unwrap_or_default(),
                );
                Value::PerField(list)
            }
            Shape::Count { sample, .. } => Value::Count(sample),
            Shape::Word { words, .. } => Value::Word(words().first().copied().unwrap_or_default()),
            Shape::Text { sample, .. } => Value::Text(sample.to_owned()),
            Shape::Mixing { sample, .. } => Value::Mixing(Mixing::Diffusivity(sample)),
            Shape::Points { .. } | Shape::PartName { .. } => return None,
        })
    }

    /// What the value measures, if it measures anything.
    #[must_use]
    pub fn dimension(&self) -> Option<Dimension> {
        match self.shape {
            Shape::Quantity { dimension, .. } | Shape::PerField { dimension, .. } => {
                Some(dimension)
            }
            Shape::Mixing { .. } => Some(Dimension::Diffusivity),
            Shape::Points { .. } => Some(Dimension::GrainSize),
            _ => None,
        }
    }

    /// What a sheet may say, in SI.
    #[must_use]
    pub fn allowed(&self) -> Option<Range> {
        match self.shape {
            Shape::Quantity { allowed, .. }
            | Shape::PerField { allowed, .. }
            | Shape::Mixing { allowed, .. }
            | Shape::Points { allowed } => Some(allowed),
            _ => None,
        }
    }

    /// What a slider offers, in SI.
    #[must_use]
    pub fn slider(&self) -> Option<Range> {
        match self.shape {
            Shape::Quantity { slider, .. } | Shape::PerField { slider, .. } => Some(slider),
            _ => None,
        }
    }
}
