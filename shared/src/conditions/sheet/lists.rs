//! Reads the lists of a sheet: one quantity a field, and size tables.

use toml_edit::Value as Toml;

use super::{
    advice::{advice, of_quantity},
    convert::{Context, Misfit, kind_of, wrong_type},
    quantity::quantity,
};
use crate::{
    conditions::keys::{Key, Range, Value, check},
    units::Dimension,
};

/// Examples for the two halves of a pair.
const DIAMETER_SAMPLE_M: f64 = 15e-6;
const FINER_SAMPLE: f64 = 0.32;

/// One value for all fields, or a list whose last entry is repeated.
pub(super) fn per_field(
    key: &Key,
    value: &Toml,
    dimension: Dimension,
    allowed: Range,
    context: &Context,
) -> Result<Value, Misfit> {
    let advice = || advice(key);
    let Some(list) = value.as_array() else {
        let read = quantity(value, dimension, allowed, advice, context)?;
        return Ok(Value::PerField(vec![read.value_si; context.fields]));
    };
    check::per_field_length(list.len(), context.fields)?;
    let mut values = Vec::with_capacity(context.fields);
    for (index, entry) in list.iter().enumerate() {
        let read = quantity(entry, dimension, allowed, advice, context)
            .map_err(|misfit| in_entry(misfit, index, entry))?;
        values.push(read.value_si);
    }
    let last = values.last().copied().unwrap_or_default();
    values.resize(context.fields, last);
    Ok(Value::PerField(values))
}

/// Pairs of diameter and share finer, listed from either end; the result rises.
pub(super) fn points(
    key: &Key,
    value: &Toml,
    allowed: Range,
    context: &Context,
) -> Result<Value, Misfit> {
    let list = value
        .as_array()
        .ok_or_else(|| wrong_type(key, kind_of(value)))?;
    check::points_length(list.len())?;
    let mut points = Vec::with_capacity(list.len());
    for (index, entry) in list.iter().enumerate() {
        let point = point(key, entry, allowed, context);
        points.push(point.map_err(|misfit| in_entry(misfit, index, entry))?);
    }
    if let (Some(first), Some(last)) = (points.first(), points.last())
        && first.0 > last.0
    {
        points.reverse();
    }
    Ok(Value::Points(points))
}

fn point(key: &Key, entry: &Toml, allowed: Range, context: &Context) -> Result<(f64, f64), Misfit> {
    let halves = entry.as_array().filter(|pair| pair.len() == 2);
    let Some((diameter, finer)) = halves.and_then(|pair| pair.get(0).zip(pair.get(1))) else {
        return Err(wrong_type(key, kind_of(entry)));
    };
    let half = |value: &Toml, dimension: Dimension, range: Range, sample: f64| {
        quantity(
            value,
            dimension,
            range,
            || of_quantity(dimension, range, sample),
            context,
        )
        .map(|read| read.value_si)
        .map_err(|misfit| Misfit {
            place: value.span(),
            ..misfit
        })
    };
    let diameter_m = half(diameter, Dimension::GrainSize, allowed, DIAMETER_SAMPLE_M)?;
    let finer = half(finer, Dimension::Fraction, check::WHOLE, FINER_SAMPLE)?;
    Ok((diameter_m, finer))
}

/// Says which entry of a list a misfit is about.
fn in_entry(misfit: Misfit, index: usize, entry: &Toml) -> Misfit {
    let place = misfit.place.or_else(|| entry.span());
    Misfit {
        entry: Some(index + 1),
        place,
        ..misfit
    }
}
