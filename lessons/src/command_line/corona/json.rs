//! `corona --json`: one object, numbers in SI.

use serde::Serialize;

use super::Computed;
use crate::{
    command_line::{Failure, output::one_object},
    engine::NOTICE,
};

#[derive(Serialize)]
struct Output<'c> {
    notice: &'static str,
    sheet: &'c str,
    field: usize,
    dust: bool,
    onset_field_v_m: f64,
    onset_voltage_v: f64,
    effective_radius_m: f64,
    spark_voltage_v: f64,
    curve: Vec<Curve>,
    /// Voltage of the profile.
    voltage_v: f64,
    plate_profile: Vec<Profile>,
    collected_share: f64,
}

#[derive(Serialize)]
struct Curve {
    current_a_m: f64,
    current_density_a_m2: f64,
    voltage_v: f64,
    quadratic_law_voltage_v: f64,
}

#[derive(Serialize)]
struct Profile {
    x_m: f64,
    current_density_a_m2: f64,
    field_v_m: f64,
}

pub(super) fn json(computed: &Computed) -> Result<String, Failure> {
    one_object(&Output {
        notice: NOTICE,
        sheet: &computed.name,
        field: computed.field,
        dust: computed.dusty,
        onset_field_v_m: computed.onset_field_v_m,
        onset_voltage_v: computed.onset_v,
        effective_radius_m: computed.row.effective_radius_m(),
        spark_voltage_v: computed.spark_v,
        curve: computed
            .curve
            .iter()
            .map(|point| Curve {
                current_a_m: point.current_a_m,
                current_density_a_m2: point.current_density_a_m2,
                voltage_v: point.voltage_v,
                quadratic_law_voltage_v: point.quadratic_law_voltage_v,
            })
            .collect(),
        voltage_v: computed.working.solution().voltage_v,
        plate_profile: computed
            .working
            .plate_profile()
            .iter()
            .map(|point| Profile {
                x_m: point.x_m,
                current_density_a_m2: point.current_density_a_m2,
                field_v_m: point.field_v_m,
            })
            .collect(),
        collected_share: computed.collected_share,
    })
}
