//! Keys of `[electrical]`.

use super::{
    Key, Shape,
    shape::{quantity, range},
};
use crate::units::Dimension;

pub(super) const ELECTRICAL: &[Key] = &[
    Key::required(
        "electrical.voltage",
        "V",
        "Wanted mean voltage of each field, or one value for all; current limit and sparking may hold it back.",
        Shape::PerField {
            dimension: Dimension::Voltage,
            allowed: range(0.0, 150e3),
            slider: range(0.0, 80e3),
            sample: &[46e3, 45e3, 44e3, 43e3],
            get: |conditions| &conditions.electrical.voltage_v,
            list: |conditions| &mut conditions.electrical.voltage_v,
        },
    ),
    Key::with_default(
        "electrical.ion_mobility",
        "b",
        "Mobility of the negative ions at the sheet's temperature and pressure; scales with T/p when those move.",
        quantity(
            Dimension::Mobility,
            range(1e-5, 1e-2),
            range(1e-4, 6e-4),
            2.2e-4,
            |conditions| Some(conditions.electrical.ion_mobility_m2_v_s),
            |conditions, value| conditions.electrical.ion_mobility_m2_v_s = value,
        ),
    ),
    Key::with_default(
        "electrical.current_limit",
        "j",
        "Largest mean current density on the plates.",
        quantity(
            Dimension::CurrentDensity,
            range(1e-6, 2e-2),
            range(5e-5, 1e-3),
            50e-5,
            |conditions| Some(conditions.electrical.current_limit_a_m2),
            |conditions, value| conditions.electrical.current_limit_a_m2 = value,
        ),
    ),
    Key::with_default(
        "electrical.rated_current",
        "",
        "Mean current density that the set of a field is built for; it gives no more, whatever the limit.",
        quantity(
            Dimension::CurrentDensity,
            range(1e-6, 2e-2),
            range(5e-5, 1e-3),
            60e-5,
            |conditions| Some(conditions.electrical.rated_current_a_m2),
            |conditions, value| conditions.electrical.rated_current_a_m2 = value,
        ),
    ),
    Key::with_default(
        "electrical.spark_target",
        "",
        "Sparks the controller aims for when sparking holds the voltage back.",
        quantity(
            Dimension::SparkRate,
            range(0.0, 2.0),
            range(0.0, 2.0),
            20.0 / 60.0,
            |conditions| Some(conditions.electrical.spark_target_per_s),
            |conditions, value| conditions.electrical.spark_target_per_s = value,
        ),
    ),
    Key::with_default(
        "electrical.spark_field",
        "E_bd",
        "Mean gap field at which this gap sparks at the sheet's gas; scales with (p/T)^0.8 when those move.",
        quantity(
            Dimension::Field,
            range(0.5e5, 2e6),
            range(2e5, 8e5),
            4e5,
            |conditions| Some(conditions.electrical.spark_field_v_m),
            |conditions, value| conditions.electrical.spark_field_v_m = value,
        ),
    ),
    Key::with_default(
        "electrical.quench",
        "t_q",
        "How long the set is off after a spark; no more than a tenth of the time from spark to spark.",
        quantity(
            Dimension::Time,
            range(0.01, 0.5),
            range(0.02, 0.3),
            0.05,
            |conditions| Some(conditions.electrical.quench_s),
            |conditions, value| conditions.electrical.quench_s = value,
        ),
    ),
    Key::with_default(
        "electrical.setback",
        "ΔV",
        "How far below the voltage of a spark the ramp starts again, as a share of it; teaching value.",
        quantity(
            Dimension::Fraction,
            range(0.01, 0.5),
            range(0.02, 0.3),
            0.07,
            |conditions| Some(conditions.electrical.setback),
            |conditions, value| conditions.electrical.setback = value,
        ),
    ),
];
