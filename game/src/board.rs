//! What the operator's panel shows besides the machine from the side: alarms, what leaves by the stack, the trend.

use ashlane_panels::{
    board::{BoardView, StackReading},
    state::UiState,
};
use ashlane_shared::{
    conditions::Conditions,
    count::{CountResult, emission},
    simulation::Clock,
};

use crate::{close_looks::SideStand, counting::Counting, flight::Flight};

/// As the panels draw it.
pub(crate) fn view<'a>(
    flight: &'a Flight,
    side: &'a SideStand,
    counting: Option<&Counting>,
    ui: &UiState,
) -> BoardView<'a> {
    BoardView {
        machine: side.view(&flight.frame(), flight.machine().plates(), ui),
        alarms: flight.alarms(),
        stack: stack(flight, counting),
        readings: flight.machine().trend(),
    }
}

/// What leaves: on the plant clock by its last reading, on the flight clock, whose few drawn grains are no mean, by
/// the count of the same conditions.
pub(crate) fn stack(flight: &Flight, counting: Option<&Counting>) -> Option<StackReading> {
    let machine = flight.machine();
    if let (Clock::Plant { .. }, [_, .., last]) = (machine.runs(), machine.trend()) {
        return Some(StackReading {
            dust_kg_m3: last.emission_kg_m3,
            opacity: last.opacity,
            puff: last.peak_at_s.map(|_| last.peak_opacity),
            from: "mean of 10 min",
        });
    }
    let is_of_now =
        |counting: &&Counting| counting.is_settled() && counting.is_of(flight.generation());
    let counting = counting.filter(is_of_now)?;
    counted(flight.conditions(), counting.result.as_ref()?)
}

/// What leaves by a count of these conditions.
pub(crate) fn counted(conditions: &Conditions, count: &CountResult) -> Option<StackReading> {
    let found = emission(conditions, count).ok()?;
    Some(StackReading {
        dust_kg_m3: found.dust_kg_m3,
        opacity: found.opacity,
        puff: None,
        from: "by the count",
    })
}
