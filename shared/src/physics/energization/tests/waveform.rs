//! Explore.
use super::*;
use crate::physics::energization::*;
#[test]
fn explore() {
    for c in [1e-12, 1e-10, 20e-9, 60e-9, 100e-9, 1e-6, 1e-4] {
        for a in [0.0, 0.5, 1.0, 1.5, 1.8, 2.0, 2.3, 2.6, 3.0] {
            let t = std::time::Instant::now();
            match Waveform::steady(&set(), &field(c), a) {
                Ok(w) => println!("C {c:.0e} a {a}: mean {:.0} peak {:.0} least {:.0} ripple {:.3} mA {:.4} field {:.4} cond {:.2} P {:.0} excess {:.3} prim {:.0} loss {:.0} bal {:.5} Vp {:.0} Ip {:.0} {:?}",
                    w.mean_voltage_v, w.peak_voltage_v, w.least_voltage_v, w.ripple(), w.mean_current_a, w.mean_field_current_a, w.conduction_angle_rad, w.secondary_power_w, w.secondary_power_w/w.product_of_means_w()-1.0, w.primary_power_w, w.loss_w, w.primary_power_w/(w.secondary_power_w+w.loss_w)-1.0, w.primary_rms_voltage_v, w.primary_rms_current_a, t.elapsed()),
                Err(e) => println!("C {c:.0e} a {a}: {e}"),
            }
        }
    }
    let t = std::time::Instant::now();
    println!("{:?} {:?}", firing_angle_for(&set(), &field(60e-9), 40e3), t.elapsed());
    println!("{:?}", firing_angle_for(&set(), &field(60e-9), 90e3));
    let rated = FieldLoad::new(60e-9, VoltageCurrent::new(vec![(0.0,0.0),(25e3, 0.0), (50e3, 0.8)]).expect("c")).expect("l");
    let w = Waveform::steady(&set(), &rated, 0.0).expect("w");
    println!("rated: {} {} {} {}", w.mean_voltage_v, w.peak_voltage_v, w.mean_current_a, w.ripple());
}
