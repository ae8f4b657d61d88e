//! Instruments of the panel: the power of a set over its half cycle, and the opacity of what a count let through.

use ashlane_shared::{
    conditions::Conditions,
    count::{Counted, SizeCount},
    physics::{
        PhysicsError,
        energization::{Waveform, WaveformSample},
        stack::{grain_extinction, mass_extinction_m2_kg},
    },
    plant::{REFRACTIVE_INDEX, STACK_M, WAVELENGTH_M},
    simulation::{electrics, energization_of},
};

/// Secondary power of the first set, W: `∫ v i dt / T` over the half cycle of its waveform, by trapezoids.
pub(super) fn set_power_w(conditions: &Conditions) -> Result<f64, PhysicsError> {
    let solved = electrics(conditions)?;
    let waveform = energization_of(conditions, &solved, 0)?.waveform;
    Ok(waveform.as_ref().map_or(0.0, power_w))
}

fn power_w(waveform: &Waveform) -> f64 {
    let pairs = waveform.samples.windows(2);
    let energy_j: f64 = pairs
        .map(|pair| {
            let w = |sample: &WaveformSample| sample.voltage_v * sample.current_a;
            0.5 * (w(&pair[0]) + w(&pair[1])) * (pair[1].time_s - pair[0].time_s)
        })
        .sum();
    let ends = waveform.samples.first().zip(waveform.samples.last());
    ends.map_or(0.0, |(first, last)| energy_j / (last.time_s - first.time_s))
}

/// Opacity across the stack: the light that the counted grains of each class let through, class after class.
pub(super) fn opacity(
    conditions: &Conditions,
    classes: &[SizeCount],
) -> Result<Counted, PhysicsError> {
    let (mut light, mut blocked_by_error) = (1.0, 0.0_f64);
    for class in classes {
        let extinction = grain_extinction(class.diameter_m, WAVELENGTH_M, REFRACTIVE_INDEX)?;
        let per_kg_m2 =
            mass_extinction_m2_kg(class.diameter_m, conditions.dust.density_kg_m3, extinction)?;
        let path = per_kg_m2 * conditions.dust.load_kg_m3 * class.inlet_share * STACK_M;
        light *= (-path * class.counted.share).exp();
        blocked_by_error = blocked_by_error.hypot(path * class.counted.standard_error);
    }
    Ok(Counted {
        share: 1.0 - light,
        standard_error: light * blocked_by_error,
    })
}
