//! Explore.
use super::*;
use crate::physics::energization::*;
#[test]
fn explore() {
    let gap = SparkGap::new(55e3, 0.02).expect("gap");
    for (supply, lim, en) in [
        (Supply::SinglePhase(set()), 10.0, Energization::CONTINUOUS),
        (Supply::SinglePhase(set()), 0.3, Energization::CONTINUOUS),
        (Supply::SinglePhase(set()), 10.0, Energization{on:1,off:2}),
        (Supply::HighFrequency(HighFrequencySet{rated_voltage_v:70e3,rated_current_a:0.8,control_hz:100.0}), 10.0, Energization::CONTINUOUS),
    ] {
        let settings = ControllerSettings { energization: en, ..ControllerSettings::teaching(&gap, lim) };
        let t = std::time::Instant::now();
        let mut c = Controller::new(supply, field(60e-9), gap, settings).expect("c");
        println!("new {:?}", t.elapsed());
        let mut dice = crate::simulation::spark_stream(1, 0);
        let t = std::time::Instant::now();
        for _ in 0..4 {
        let tr = c.run(60.0, &mut dice).expect("t");
        println!("mean {:.0} peak {:.0} mA {:.3} P {:.0} sparks {:.1} arcs {:.1} lim {:.3} full {:.3} wanted {:.0} ramp {:.0} {:?}", tr.mean_voltage_v(), tr.peak_voltage_v(), tr.mean_current_a(), tr.mean_power_w(), tr.sparks_per_min(), tr.arcs_per_min(), tr.share_at_current_limit(), tr.share_at_full_output(), c.wanted_voltage_v(), c.ramp_v_s(), t.elapsed());
        }
    }
}
