//! Scratch.
use ashlane_shared::{checks, conditions::*, count::Count, simulation::*, theory};
fn f(n: &str, c: &Conditions, s: Option<f64>) -> f64 {
    checks::find_formula(n)
        .unwrap()
        .value(c, s)
        .unwrap_or(f64::NAN)
}
fn show(l: &str, c: &Conditions) {
    let e = electrics(c).unwrap();
    let st = &e.states[0];
    print!(
        "{l}: V {:.2} held {:?} spark {:.1} onset {:.3} j {:.2} nA/cm2 quad {:.2} ",
        st.voltage_v / 1e3,
        st.held_by,
        st.spark_v / 1e3,
        f("white_peek_onset", c, None) / 1e3,
        1e5 * e.fields[0].plate_current_a_m2(),
        1e5 * f("quadratic_current", c, None)
    );
    println!(
        "tau {:.4} glow {:.3} mm",
        f("half_charge_time", c, None),
        1e3 * f("glow_depth", c, None)
    );
    for d in [0.05e-6, 0.1e-6, 0.5e-6, 1e-6, 5e-6, 10e-6, 20e-6, 50e-6] {
        println!(
            "   {:.2} q {:.1} ({:.1}) w {:.2} ratio {:.2}",
            1e6 * d,
            f("lawless_charge", c, Some(d)),
            f("pauthenier_charge", c, Some(d)),
            100. * f("stokes_migration_velocity", c, Some(d)),
            f("force_over_weight", c, Some(d))
        );
    }
}
fn main() {
    let mut c = demonstration();
    c.dust.load_kg_m3 = 1e-5;
    c.gas.velocity_spread = 0.;
    c.collector.sneakage = 0.;
    c.rapping.reentrained = 0.;
    for v in [24e3, 30e3, 36e3, 37.4e3, 40e3, 45e3] {
        c.electrical.voltage_v = vec![v; 4];
        show(&format!("clean {v}"), &c);
    }
    for t in [100., 200., 250.] {
        c.gas.temperature_k = 273.15 + t;
        show(&format!("T {t}"), &c);
    }
    c.gas.temperature_k = 423.15;
    c.collector.wire_diameter_m = 5.4e-3;
    show("thick", &c);
    c.collector.wire_diameter_m = 2.7e-3;
    c.teaching.mixing = Some(Mixing::Full);
    for (mmd, load) in [(0.6e-6, 1e-5), (0.6e-6, 1e-4), (3e-6, 1e-4)] {
        for fields in [1usize, 2] {
            let mut c = c.clone();
            c.collector.fields = fields;
            c.electrical.voltage_v = vec![40e3; fields];
            c.rapping.interval_s.truncate(fields);
            c.dust.sizes =
                ashlane_shared::physics::efficiency::SizeDistribution::log_normal(mmd, 3.0)
                    .map(|_| c.dust.sizes.clone())
                    .unwrap();
            println!("fields {fields} mmd {mmd} load {load}");
            let _ = Count::new;
            let _ = theory::solve;
        }
    }
}
