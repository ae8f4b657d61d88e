//! Sparking as a sawtooth: voltage ramps up, a spark cuts it, it starts again lower; closed form, common practice.

use ashlane_shared::physics::energization::sawtooth::{Sawtooth, ramp_for_v_s};
use ashlane_shared::physics::energization::{
    Controller, ControllerSettings, FieldLoad, HighFrequencySet, Ramp, SparkGap, Supply,
    VoltageCurrent,
};
use ashlane_shared::simulation::spark_stream;

use crate::{close, printed};

const EXAMPLE: Sawtooth = Sawtooth {
    spark_voltage_v: 50e3,
    setback_v: 5e3,
    ramp_v_s: 5e3,
    quench_s: 0.05,
};

#[test]
fn the_closed_form_gives_the_printed_example() {
    // Computed: physics specification, section 8; the shape is common practice, no source.
    let rate = EXAMPLE.sparks_per_min().expect("a rate");
    let mean_v = EXAMPLE.mean_voltage_v().expect("a mean");
    printed("sparks per minute", rate, 57.1, 0.0, 0.1);
    printed("mean voltage", mean_v, 45.2e3, 0.0, 0.1e3);
    close(
        "ramp for 57.14 a minute",
        ramp_for_v_s(5e3, 0.05, 60.0 / 1.05).expect("a ramp"),
        5e3,
        1e-12,
    );
}

#[test]
fn a_control_without_chance_and_ripple_repeats_the_closed_form() {
    // Computed, as above. 2 %: the control acts in half cycles of 0.01 s in a cycle of 1.05 s.
    let curve = VoltageCurrent::from_formula(25e3, 80e3, |v| 0.6 * v * (v - 25e3) / (50e3 * 25e3));
    let load = FieldLoad::new(60e-9, curve.expect("a curve")).expect("a load");
    let gap = SparkGap::new(50e3, 0.0).expect("a gap");
    let settings = ControllerSettings {
        ramp: Ramp::Constant { rate_v_s: 5e3 },
        quench_s: 0.05,
        recovery_s: 0.0,
        restart_share: 0.9,
        ..ControllerSettings::teaching(&gap, 100.0)
    };
    let set = HighFrequencySet {
        rated_voltage_v: 80e3,
        rated_current_a: 2.0,
        control_hz: 100.0,
    };
    let supply = Supply::HighFrequency(set);
    let mut control = Controller::new(supply, load, gap, settings).expect("a control");
    let mut dice = spark_stream(1, 0);
    control.run(10.0, &mut dice).expect("a warm-up");
    let trace = control.run(120.0, &mut dice).expect("a trace");
    close(
        "sparks per minute",
        trace.sparks_per_min(),
        57.142_857,
        0.02,
    );
    close("mean voltage", trace.mean_voltage_v(), 45_238.095, 0.02);
    close("peak voltage", trace.peak_voltage_v(), 50e3, 0.002);
}
