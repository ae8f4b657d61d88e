//! Values that other libraries and other methods give: `tests/cross_checks/reference.csv`, every row.
//!
//! `tests/cross_checks/make_reference.py` says how each was computed; the file's head says with which versions.

use ashlane_shared::conditions::{Charging, Profile};
use ashlane_shared::physics::charging::{Exposure, Grain, IonGas, charge_after_c, lawless};
use ashlane_shared::physics::corona::tube::{Tube, TubeShape};
use ashlane_shared::physics::corona::{WireRow, planes};
use ashlane_shared::physics::efficiency::limits::{LongPassage, longitudinal_mixing};
use ashlane_shared::physics::efficiency::march::{self, Passage, Resolution};
use ashlane_shared::physics::efficiency::size_distribution::mean;
use ashlane_shared::physics::efficiency::velocity_spread::deutsch_penetration;
use ashlane_shared::physics::efficiency::{SizeDistribution, penetration};
use ashlane_shared::physics::mixing::{PassageFlow, friction_velocity_m_s};
use ashlane_shared::physics::{drag, gas};

use crate::close;

const REFERENCE: &str = include_str!("../cross_checks/reference.csv");

#[test]
fn every_row_of_the_reference_agrees() {
    let rows = REFERENCE
        .lines()
        .filter(|line| !line.starts_with('#'))
        .skip(1);
    let mut count = 0;
    for line in rows {
        let cells: Vec<&str> = line.split(',').collect();
        let [quantity, arguments, expected, tolerance] = cells[..] else {
            panic!("four columns: {line}");
        };
        let arguments: Vec<f64> = arguments.split(' ').map(number).collect();
        close(
            line,
            ours(quantity, &arguments),
            number(expected),
            number(tolerance),
        );
        count += 1;
    }
    assert!(count > 250, "only {count} rows were read");
}

fn number(text: &str) -> f64 {
    text.parse().expect("a number in the reference")
}

/// Our value of a quantity.
fn ours(quantity: &str, arguments: &[f64]) -> f64 {
    gas_value(quantity, arguments)
        .or_else(|| corona_value(quantity, arguments))
        .or_else(|| charging_value(quantity, arguments))
        .or_else(|| efficiency_value(quantity, arguments))
        .or_else(|| size_value(quantity, arguments))
        .unwrap_or_else(|| panic!("nobody computes {quantity} of {arguments:?}"))
}

fn gas_value(quantity: &str, arguments: &[f64]) -> Option<f64> {
    Some(match (quantity, arguments) {
        ("viscosity", [temperature]) => gas::viscosity_pa_s(*temperature),
        ("density", [pressure, temperature, mass]) => {
            gas::density_kg_m3(*pressure, *temperature, *mass)
        }
        ("mean_free_path", [temperature, pressure]) => {
            gas::mean_free_path_m(*temperature, *pressure)
        }
        ("slip", [diameter, path]) => gas::slip_factor(*diameter, *path),
        ("friction_velocity", [velocity_m_s, gap_m, density_kg_m3, viscosity_pa_s]) => {
            friction_velocity_m_s(&PassageFlow {
                velocity_m_s: *velocity_m_s,
                gap_m: *gap_m,
                density_kg_m3: *density_kg_m3,
                viscosity_pa_s: *viscosity_pa_s,
            })
        }
        ("terminal_drift", [stokes, diameter, density, viscosity]) => {
            drag::terminal_drift_m_s(*stokes, *diameter, *density, *viscosity)
        }
        _ => return None,
    })
}

fn corona_value(quantity: &str, arguments: &[f64]) -> Option<f64> {
    let row = |gap: f64, pitch: f64, wire: f64| WireRow::new(gap, pitch, wire).expect("a row");
    Some(match (quantity, arguments) {
        ("effective_radius", [gap, pitch, wire]) => row(*gap, *pitch, *wire).effective_radius_m(),
        ("line_potential", [gap, pitch, wire, x, y]) => {
            row(*gap, *pitch, *wire).line_potential(*x, *y)
        }
        ("line_field_x", [gap, pitch, wire, x, y]) => row(*gap, *pitch, *wire).line_field(*x, *y).0,
        ("line_field_y", [gap, pitch, wire, x, y]) => row(*gap, *pitch, *wire).line_field(*x, *y).1,
        ("tube_voltage", [wire, tube, mobility, onset, current]) => {
            tube_of([*wire, *tube, *mobility, *onset, *current]).voltage_v()
        }
        ("tube_field", [wire, tube, mobility, onset, current, radius]) => {
            tube_of([*wire, *tube, *mobility, *onset, *current]).field_v_m(*radius)
        }
        ("planes_voltage", [current, source, distance, mobility]) => {
            planes::voltage_v(*current, *source, *distance, *mobility)
        }
        _ => return None,
    })
}

fn tube_of(
    [
        wire_radius_m,
        tube_radius_m,
        ion_mobility_m2_v_s,
        onset_field_v_m,
        current_a_m,
    ]: [f64; 5],
) -> Tube {
    let shape = TubeShape {
        wire_radius_m,
        tube_radius_m,
        ion_mobility_m2_v_s,
        onset_field_v_m,
    };
    Tube::new(&shape, current_a_m).expect("a current in range")
}

fn charging_value(quantity: &str, arguments: &[f64]) -> Option<f64> {
    if let ("lawless_number", [start, field_number, duration]) = (quantity, arguments) {
        return Some(lawless::charge_number_later(
            *start,
            *field_number,
            *duration,
        ));
    }
    let model = match quantity {
        "charge_field" => Charging::Field,
        "charge_cochet" => Charging::Cochet,
        "charge_white" => Charging::White,
        "charge_lawless" => Charging::Lawless,
        _ => return None,
    };
    let [
        diameter,
        permittivity,
        temperature,
        path,
        mobility,
        field,
        density,
        duration,
    ] = arguments
    else {
        return None;
    };
    let grain = Grain {
        diameter_m: *diameter,
        permittivity: *permittivity,
    };
    let ions = IonGas {
        temperature_k: *temperature,
        mean_free_path_m: *path,
        ion_mobility_m2_v_s: *mobility,
    };
    let exposure = Exposure {
        field_v_m: *field,
        ion_density_per_m3: *density,
    };
    Some(charge_after_c(model, &grain, &ions, &exposure, *duration))
}

fn efficiency_value(quantity: &str, arguments: &[f64]) -> Option<f64> {
    Some(match (quantity, arguments) {
        ("penetration", [peclet, deutsch]) => penetration(*peclet, *deutsch).expect("in range"),
        ("march", [peclet, deutsch, across, along, parabola]) => {
            marched([*peclet, *deutsch, *across, *along, *parabola])
        }
        ("velocity_spread", [deutsch, spread]) => {
            deutsch_penetration(*deutsch, *spread).expect("in range")
        }
        ("longitudinal", [velocity_m_s, length_m, gap_m, drift, diffusivity]) => {
            let passage = LongPassage {
                velocity_m_s: *velocity_m_s,
                length_m: *length_m,
                gap_m: *gap_m,
            };
            longitudinal_mixing(&passage, *drift, *diffusivity)
        }
        _ => return None,
    })
}

/// A passage of 0.15 m and 1 m/s whose mean drift is 0.1 m/s.
fn marched([peclet, deutsch, across, along, parabola]: [f64; 5]) -> f64 {
    let (gap_m, length_m) = (0.15, deutsch * 1.5);
    let passage = Passage {
        gap_m,
        length_m,
        velocity_m_s: 1.0,
        diffusivity_m2_s: 0.015 / peclet,
        profile: if parabola > 0.5 {
            Profile::Parabolic
        } else {
            Profile::Flat
        },
    };
    let drift = |x_m: f64, y_m: f64| {
        0.1 * (1.0 + across * (2.0 * y_m / gap_m - 1.0))
            * (1.0 + along * (2.0 * x_m / length_m - 1.0))
    };
    march::penetration(&passage, Resolution::USUAL, drift).expect("a passage")
}

fn size_value(quantity: &str, arguments: &[f64]) -> Option<f64> {
    let dust = |median: f64, deviation: f64| {
        SizeDistribution::log_normal(median, deviation).expect("a distribution")
    };
    let points = [(2e-6, 0.1), (5e-6, 0.3), (20e-6, 0.75)];
    let table = SizeDistribution::table(&points, 90e-6).expect("a table");
    Some(match (quantity, arguments) {
        ("log_normal_quantile", [median, deviation, share]) => {
            dust(*median, *deviation).quantile_m(*share)
        }
        ("log_normal_cumulative", [median, deviation, diameter]) => {
            dust(*median, *deviation).cumulative(*diameter)
        }
        ("log_normal_density", [median, deviation, diameter]) => {
            dust(*median, *deviation).density_per_ln(*diameter)
        }
        ("log_normal_penetration", [median, deviation, deutsch, power]) => {
            mean(&dust(*median, *deviation).classes(48), |d| {
                (-deutsch * (d / median).powf(*power)).exp()
            })
        }
        ("table_penetration", [deutsch]) => {
            mean(&table.classes(48), |d| (-deutsch * d / 10e-6).exp())
        }
        ("table_quantile", [share]) => table.quantile_m(*share),
        _ => return None,
    })
}
