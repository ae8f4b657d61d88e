//! The waveform of a set on a field, held against textbook rectifiers, balances and a brute-force integration.

use std::f64::consts::PI;

use proptest::prelude::*;

use super::{field, set};
use crate::physics::energization::half_cycle::{Order, State, run};
use crate::physics::energization::{
    FieldLoad, TransformerRectifier, VoltageCurrent, Waveform, firing_angle_for,
};

fn steady(capacitance_f: f64, firing_angle_rad: f64) -> Waveform {
    Waveform::steady(&set(), &field(capacitance_f), firing_angle_rad).expect("a waveform")
}

/// Voltage behind the transformer at a sample: against the current as long as that is left from the last half cycle.
fn source_v(waveform: &Waveform, sample: usize) -> f64 {
    let carried = waveform.samples[..=sample]
        .iter()
        .all(|one| one.current_a > 0.0);
    let sine = (PI * sample as f64 / 400.0).sin();
    set().open_peak_v() * if carried { -sine } else { sine }
}

/// Mean over the samples of a half cycle, by the trapezoid rule.
fn mean(waveform: &Waveform, value: impl Fn(usize) -> f64) -> f64 {
    let last = waveform.samples.len() - 1;
    let inner: f64 = (1..last).map(&value).sum();
    (inner + 0.5 * (value(0) + value(last))) / last as f64
}

#[test]
fn a_resistor_alone_gets_the_textbook_mean() {
    // Full-wave phase control on a resistor: V̄ = V_peak (1 + cos α)/π, 2/π of the peak with no delay. Allowed is the
    // reactance over the resistance, 1/1000, and half a step of the jump at firing.
    let resistor = VoltageCurrent::new(vec![(0.0, 0.0), (100e3, 1.0)]).expect("a curve");
    let load = FieldLoad::new(1e-13, resistor).expect("a load");
    let set = TransformerRectifier {
        inductance_h: 100.0 / (100.0 * PI),
        resistance_ohm: 0.0,
        ..set()
    };
    for firing_angle_rad in [0.0, 0.7, 1.6, 2.5] {
        let waveform = Waveform::steady(&set, &load, firing_angle_rad).expect("a waveform");
        let expected_v = set.open_peak_v() * (1.0 + firing_angle_rad.cos()) / PI;
        let mean_v = waveform.mean_voltage_v;
        let jump_v = set.open_peak_v() * firing_angle_rad.sin();
        assert!(
            (mean_v - expected_v).abs() < 1e-3 * expected_v + jump_v / 800.0,
            "{mean_v} not {expected_v} at {firing_angle_rad}"
        );
    }
    let open = Waveform::steady(&set, &load, 0.0).expect("a waveform");
    let share = open.mean_voltage_v / open.peak_voltage_v;
    assert!((share * PI / 2.0 - 1.0).abs() < 1e-3, "{share}");
}

#[test]
fn a_large_capacitance_has_no_ripple_and_ripple_falls_as_its_inverse() {
    let ripple = |capacitance_f| steady(capacitance_f, 1.8).ripple();
    let reference = ripple(10e-6);
    assert!(reference < 0.01, "{reference}");
    // The rest of the law is of the order of the ripple itself.
    for factor in [3.0, 30.0, 1000.0] {
        let scaled = factor * ripple(10e-6 * factor);
        assert!(
            (scaled / reference - 1.0).abs() < 0.01,
            "{scaled} not {reference}"
        );
    }
}

#[test]
fn what_the_line_gives_goes_to_field_and_resistance() {
    // Summed anew from the samples; their grid cuts the corners where the thyristor fires, so 1 %.
    for capacitance_f in [20e-9, 60e-9, 1e-6] {
        for firing_angle_rad in [0.0, 1.2, 1.8, 2.4] {
            let waveform = steady(capacitance_f, firing_angle_rad);
            let at = |sample: usize| waveform.samples[sample];
            let line_w = mean(&waveform, |n| source_v(&waveform, n) * at(n).current_a);
            let loss_w = mean(&waveform, |n| {
                set().resistance_ohm * at(n).current_a.powi(2)
            });
            let load = field(capacitance_f);
            let taken = |n: usize| load.curve().current_a(at(n).voltage_v);
            let field_w = mean(&waveform, |n| at(n).voltage_v * taken(n));
            for (what, got, expected) in [
                ("line", waveform.primary_power_w, field_w + loss_w),
                ("line, summed anew", line_w, field_w + loss_w),
                ("secondary", waveform.secondary_power_w, field_w),
                ("loss", waveform.loss_w, loss_w),
                ("charge", waveform.mean_current_a, mean(&waveform, taken)),
            ] {
                assert!(
                    (got / expected - 1.0).abs() < 0.01,
                    "{what}: {got} not {expected} at {capacitance_f} F, {firing_angle_rad} rad"
                );
            }
            let apparent_va = waveform.primary_rms_voltage_v * waveform.primary_rms_current_a;
            assert!(apparent_va >= waveform.primary_power_w, "{apparent_va}");
        }
    }
}

#[test]
fn the_charge_that_comes_is_the_charge_that_goes() {
    // Both sums are of second order in the step of 1/400.
    for capacitance_f in [20e-9, 60e-9, 1e-6] {
        let waveform = steady(capacitance_f, 1.8);
        let (rectifier_a, field_a) = (waveform.mean_current_a, waveform.mean_field_current_a);
        assert!(
            (rectifier_a / field_a - 1.0).abs() < 5e-4,
            "{rectifier_a} {field_a}"
        );
    }
}

#[test]
fn later_firing_gives_less_voltage() {
    for capacitance_f in [1e-9, 60e-9, 1e-6] {
        let mut before_v = f64::INFINITY;
        for step in 0..=20 {
            let waveform = steady(capacitance_f, PI * f64::from(step) / 20.0);
            let mean_v = waveform.mean_voltage_v;
            // Before the line is above the field the gate fires nothing: equal there, to the settling.
            assert!(
                mean_v <= before_v * (1.0 + 1e-6),
                "{mean_v} after {before_v}"
            );
            // A voltage that stands still has a mean of the same size but for rounding.
            let slack_v = 1e-12 * mean_v;
            assert!(
                waveform.least_voltage_v <= mean_v + slack_v
                    && mean_v - slack_v <= waveform.peak_voltage_v,
                "{mean_v}"
            );
            before_v = mean_v;
        }
        assert!(before_v.abs() < 1e-9, "voltage without firing: {before_v}");
    }
}

#[test]
fn an_unloaded_field_stands_at_the_line_where_it_fires() {
    // Below onset nothing flows off, so the lowest voltage that stays is E sin α after the crest.
    let waveform = steady(60e-9, 3.0);
    let expected_v = set().open_peak_v() * 3.0_f64.sin();
    assert!(
        (waveform.mean_voltage_v / expected_v - 1.0).abs() < 1e-3,
        "{}",
        waveform.mean_voltage_v
    );
}

#[test]
fn the_firing_angle_for_a_voltage_gives_it() {
    for mean_v in [10e3, 30e3, 45e3] {
        let angle_rad = firing_angle_for(&set(), &field(60e-9), mean_v).expect("an angle");
        let got_v = steady(60e-9, angle_rad).mean_voltage_v;
        assert!((got_v / mean_v - 1.0).abs() < 1e-5, "{got_v} not {mean_v}");
    }
    let refusal = firing_angle_for(&set(), &field(60e-9), 90e3).expect_err("too much");
    let highest = format!("reaches {:.0} V mean", steady(60e-9, 0.0).mean_voltage_v);
    assert!(refusal.to_string().contains(&highest), "{refusal}");
}

#[test]
fn the_teaching_set_reaches_its_rating() {
    // A field that takes the rated 0.8 A at the rated 50 kV.
    let law = |v: f64| 0.8 * v * (v - 25e3) / (50e3 * 25e3);
    let curve = VoltageCurrent::from_formula(25e3, 80e3, law).expect("a curve");
    let load = FieldLoad::new(80e-9, curve).expect("a load");
    let full = Waveform::steady(&set(), &load, 0.0).expect("a waveform");
    let (mean_v, mean_a) = (full.mean_voltage_v, full.mean_current_a);
    assert!(
        mean_v > 0.97 * 50e3 && mean_a > 0.97 * 0.8,
        "{mean_v} V, {mean_a} A"
    );
    let crest = full.peak_voltage_v / mean_v;
    assert!((1.15..1.3).contains(&crest), "{crest}");
}

#[test]
fn two_meters_read_less_power_than_flows() {
    // Specification section 8: the product is 12–23 % low with an ordinary ripple. Here the true power is 3.5 to 18 %
    // above it at a ripple of 25–45 %, most for a small capacitance and a voltage close to onset; not tuned.
    let mut seen = 0;
    for capacitance_f in [20e-9, 60e-9, 100e-9] {
        for step in 0..=30 {
            let waveform = steady(capacitance_f, 1.0 + 0.05 * f64::from(step));
            let ripple = waveform.ripple();
            let excess = waveform.secondary_power_w / waveform.product_of_means_w() - 1.0;
            if (0.25..0.45).contains(&ripple) {
                seen += 1;
                assert!((0.03..0.30).contains(&excess), "{excess} at {ripple}");
            }
        }
    }
    assert!(seen > 10, "only {seen} waveforms of ordinary ripple");
    let smooth = steady(1e-3, 1.8);
    let excess = smooth.secondary_power_w / smooth.product_of_means_w() - 1.0;
    assert!(excess.abs() < 1e-4, "{excess} without ripple");
}

#[test]
fn a_brute_force_integration_gives_the_same() {
    // Explicit Euler with 50 000 steps of a half cycle, 40 half cycles from an empty field.
    let (set, load, angle_rad, steps) = (set(), field(60e-9), 1.7, 50_000);
    let step_s = set.half_cycle_s() / f64::from(steps);
    let (mut v, mut i, mut sum_v) = (0.0, 0.0_f64, 0.0);
    for _ in 0..40 {
        let mut carried = i > 0.0;
        sum_v = 0.0;
        for step in 0..steps {
            let theta = PI * f64::from(step) / f64::from(steps);
            carried = carried && i > 0.0;
            let source_v = set.open_peak_v() * theta.sin() * if carried { -1.0 } else { 1.0 };
            let open = i > 0.0 || (theta >= angle_rad && source_v > v);
            let slope = (source_v - set.resistance_ohm * i - v) / set.inductance_h;
            let now = i;
            i = if open {
                (i + step_s * slope).max(0.0)
            } else {
                0.0
            };
            v += step_s / load.capacitance_f() * (now - load.curve().current_a(v));
            sum_v += v;
        }
    }
    let (expected_v, got_v) = (
        sum_v / f64::from(steps),
        steady(60e-9, angle_rad).mean_voltage_v,
    );
    assert!(
        (got_v / expected_v - 1.0).abs() < 2e-4,
        "{got_v} not {expected_v}"
    );
}

#[test]
fn half_the_step_leaves_a_quarter_of_the_error() {
    let (set, load) = (set(), field(60e-9));
    let end_v = |steps: u32| {
        let order = Order {
            firing_angle_rad: 1.7,
            strength_v: f64::INFINITY,
            shorted: false,
            steps,
        };
        let start = State {
            voltage_v: 30e3,
            current_a: 0.0,
        };
        run(&set, &load, start, order, |_, _| ()).0.voltage_v
    };
    let exact_v = end_v(25_600);
    let errors_v = [100, 400, 1600].map(|steps| (end_v(steps) - exact_v).abs());
    // A quarter of the step: a sixteenth; the kinks of the curve and the moment of dying out make it uneven.
    for pair in errors_v.windows(2) {
        let ratio = pair[0] / pair[1];
        assert!(ratio > 8.0, "{errors_v:?}");
    }
    assert!(errors_v[1] < 5e-5 * exact_v, "{errors_v:?} of {exact_v}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn any_set_on_any_field_gives_numbers_or_a_clear_answer(
        log_capacitance in -13.0..-2.0_f64,
        reactance in 1e-4..3.0_f64,
        resistance in 0.0..0.5_f64,
        turns in 1.0..400.0_f64,
        onset_v in 0.0..60e3_f64,
        log_top_a in -5.0..2.0_f64,
        angle_rad in 0.0..PI,
    ) {
        let curve = VoltageCurrent::from_formula(onset_v, onset_v + 30e3, |v| {
            10_f64.powf(log_top_a) * ((v - onset_v) / 30e3).powi(2)
        }).expect("a curve");
        let load = FieldLoad::new(10_f64.powf(log_capacitance), curve).expect("a load");
        let base_ohm = 60e3;
        let set = TransformerRectifier {
            turns_ratio: turns,
            inductance_h: reactance * base_ohm / (100.0 * PI),
            resistance_ohm: resistance * base_ohm,
            ..set()
        };
        match Waveform::steady(&set, &load, angle_rad) {
            Ok(waveform) => {
                for number in [waveform.mean_voltage_v, waveform.mean_current_a, waveform.secondary_power_w,
                    waveform.primary_power_w, waveform.ripple(), waveform.conduction_angle_rad] {
                    prop_assert!(number.is_finite() && number >= -1e-6, "{waveform:?}");
                }
                prop_assert!(waveform.peak_voltage_v <= 2.01 * set.open_peak_v(), "{waveform:?}");
                // Where Validity promises it.
                if load.capacitance_f() >= 1e-9 && waveform.mean_current_a >= 1e-3 {
                    let out_w = waveform.secondary_power_w + waveform.loss_w;
                    prop_assert!((waveform.primary_power_w / out_w - 1.0).abs() < 0.01, "{waveform:?}");
                    let charge = waveform.mean_current_a / waveform.mean_field_current_a;
                    prop_assert!((charge - 1.0).abs() < 0.01, "{waveform:?}");
                }
            }
            Err(refusal) => prop_assert!(refusal.to_string().contains("do not settle"), "{refusal}"),
        }
    }
}

#[test]
fn the_half_cycle_of_a_wanted_peak_or_mean_is_found_from_near_and_far() {
    use crate::physics::energization::waveform_where;
    let (set, load) = (set(), field(60e-9));
    let angle_rad = firing_angle_for(&set, &load, 40e3).expect("an angle");
    let exact = Waveform::steady(&set, &load, angle_rad).expect("a half cycle");
    for near_rad in [None, Some(angle_rad), Some(0.1), Some(3.0)] {
        let mean = waveform_where(&set, &load, 40e3, |c| c.mean_voltage_v, near_rad);
        let peak = waveform_where(
            &set,
            &load,
            exact.peak_voltage_v,
            |c| c.peak_voltage_v,
            near_rad,
        );
        for found in [mean, peak] {
            let found_rad = found.expect("a half cycle").firing_angle_rad;
            // 1e-5 of the voltage is some 1e-5 rad.
            assert!(
                (found_rad - angle_rad).abs() < 1e-4,
                "{near_rad:?}: {found_rad}"
            );
        }
    }
    assert!(waveform_where(&set, &load, 200e3, |c| c.peak_voltage_v, None).is_err());
}
