//! The two clocks in the window: what is asked of them, the rates they wait for, and the trend that the panels draw.

use ashlane_panels::{
    charts::PlantView,
    state::{PlanWindow, Rung, Tab},
};
use ashlane_shared::{simulation::Command, units::UnitSystem};
use bevy::prelude::*;

use crate::{commands::tell, flight::Flight, plant_days::PlantDays, session::Session};

/// Readings from which on there is a trend to draw.
const LEAST_READINGS: usize = 2;

/// Adds the system that hands over rates.
pub(crate) fn plugin(app: &mut App) {
    app.add_systems(Update, (hand_over, tell_trouble).chain());
}

/// Strikes a field, and shows it with the one behind it, where its puff flies.
pub(crate) fn rap_now(field: usize, flight: &mut Flight, session: &mut Session) {
    tell(Command::RapNow { field }, flight, session);
    let conditions = flight.conditions();
    let field_m = conditions.collector.field_length_m as f32;
    session.ui.rung = Rung::Plan;
    session.ui.tab = Tab::Section;
    session.ui.window = PlanWindow {
        start_m: field as f32 * field_m,
        length_m: 2.0 * field_m,
    }
    .within(conditions.length_m() as f32);
}

/// What the chart of the plant clock shows: its trend once it has run, before that some days from clean plates.
pub(crate) fn view<'a>(
    flight: &'a Flight,
    days: &'a PlantDays,
    units: UnitSystem,
) -> Option<PlantView<'a>> {
    let trend = flight.machine().trend();
    let days = days.view(flight.generation(), units)?;
    if trend.len() < LEAST_READINGS {
        return Some(days);
    }
    Some(PlantView {
        readings: trend,
        steady_since_s: flight.machine().steady_since_s(),
        ..days
    })
}

/// The days are run by the very rates that the plant clock goes by.
fn hand_over(mut flight: ResMut<Flight>, days: Res<PlantDays>) {
    let Some(order) = flight.machine().wanted_rates() else {
        return;
    };
    if let Some(rates) = days.rates(flight.generation()) {
        flight.machine_mut().offer_rates(order, rates.clone());
    }
}

/// Says once why the plant clock stopped.
fn tell_trouble(
    flight: Res<Flight>,
    mut session: ResMut<Session>,
    mut told: Local<Option<String>>,
) {
    let trouble = flight.machine().trouble().map(ToString::to_string);
    if *told != trouble {
        if let Some(trouble) = &trouble {
            session.complain(format!("Plant clock: {trouble}"));
        }
        *told = trouble;
    }
}
