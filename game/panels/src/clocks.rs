//! Which clock runs, how many times faster the plant is than the drawn dust, and the blow on the plates of a field.

use ashlane_shared::{
    simulation::{Account, Clock, Ledger},
    units::{Dimension, UnitSystem, format},
};
use egui::{ComboBox, RichText, Ui};

use crate::{
    command::UiCommand,
    state::UiState,
    theme::{Ink, SMALL},
    view::{AppView, ClockView, FlightView},
};

/// Speeds of the flight clock.
const FLIGHTS: [f64; 6] = [0.1, 0.25, 0.5, 1.0, 2.0, 4.0];
/// Speeds of the plant clock, and what passes in a second.
const PLANTS: [(f64, &str); 5] = [
    (60.0, "1 min/s"),
    (600.0, "10 min/s"),
    (3600.0, "1 h/s"),
    (21_600.0, "6 h/s"),
    (86_400.0, "1 day/s"),
];
const HOUR_S: f64 = 3600.0;
const MINUTE_S: f64 = 60.0;

/// The choice of the clock and its speed, and the blow.
pub(crate) fn clocks_ui(ui: &mut Ui, view: &AppView<'_>, out: &mut Vec<UiCommand>) {
    ui.horizontal_wrapped(|ui| {
        let label = ui.label("Clock");
        let choice = ComboBox::from_id_salt("clock")
            .width(106.0)
            .selected_text(name(view.flight.clock.asked, view.flight.speed))
            .show_ui(ui, |ui| choices_ui(ui, &view.flight, out));
        choice.response.labelled_by(label.id).on_hover_text(
            "Flight: the drawn dust, second by second. Plant: layers, raps and hoppers by counted rates, much faster; \
             the drawn dust flies on as illustration.",
        );
        rap_ui(ui, view, out);
    });
}

fn choices_ui(ui: &mut Ui, flight: &FlightView, out: &mut Vec<UiCommand>) {
    let asked = flight.clock.asked;
    for speed in FLIGHTS {
        let chosen = asked == Clock::Flight && flight.speed == speed;
        let text = name(Clock::Flight, speed);
        if ui.selectable_label(chosen, text).clicked() && !chosen {
            if asked != Clock::Flight {
                out.push(UiCommand::Clock(Clock::Flight));
            }
            out.push(UiCommand::Speed(speed));
        }
    }
    for clock in PLANTS.map(|(times, _)| Clock::Plant { times }) {
        let chosen = clock == asked;
        if ui.selectable_label(chosen, name(clock, 1.0)).clicked() && !chosen {
            out.push(UiCommand::Clock(clock));
        }
    }
}

/// The blow on the plates of a field.
fn rap_ui(ui: &mut Ui, view: &AppView<'_>, out: &mut Vec<UiCommand>) {
    let menu = ui.menu_button("Rap now", |ui| {
        for field in 0..view.conditions.collector.fields {
            if ui.button(view.conditions.field_title(field)).clicked() {
                out.push(UiCommand::RapNow(field));
                ui.close();
            }
        }
    });
    menu.response.on_hover_text(
        "Strike the plates of a field. The flight clock runs then, so that the puff behind the field can be seen.",
    );
}

/// How fast the clock runs, where its control is on another tab.
pub(crate) fn pace_ui(ui: &mut Ui, flight: &FlightView, state: &UiState) {
    let text = match flight.clock.asked {
        Clock::Flight => format!("flight ×{}", flight.speed),
        Clock::Plant { times } => format!("plant ×{times:.0}"),
    };
    let ink = Ink::Faint.colour(state.theme);
    ui.label(RichText::new(text).size(SMALL).color(ink));
}

/// Both clocks, how fast they run, and the books.
pub(crate) fn clock_lines_ui(ui: &mut Ui, flight: &FlightView, state: &UiState) {
    let ink = Ink::Faint.colour(state.theme);
    ui.label(RichText::new(clock_line(flight)).size(SMALL).color(ink));
    let grains = format!(
        "{} grains · mass balance {}",
        flight.airborne,
        balance(&flight.ledger)
    );
    ui.label(RichText::new(grains).size(SMALL).color(ink))
        .on_hover_text(books(&flight.ledger, state.units));
}

/// A clock with its speed: `flight ×1`, `plant 10 min/s`.
fn name(clock: Clock, speed: f64) -> String {
    let Clock::Plant { times } = clock else {
        return format!("flight ×{speed}");
    };
    let known = PLANTS.iter().find(|(speed, _)| *speed == times);
    known.map_or_else(
        || format!("plant ×{times:.0}"),
        |(_, text)| format!("plant {text}"),
    )
}

/// Time and speed of both: `flight 12.3 s ×1 · plant 5 h ×3600`.
fn clock_line(flight: &FlightView) -> String {
    let ClockView {
        asked,
        runs,
        time_s,
        counts_rates,
    } = flight.clock;
    let plant = match (asked, runs) {
        (_, Clock::Plant { times }) => format!("plant {} ×{times:.0}", duration(time_s)),
        (Clock::Plant { times }, Clock::Flight) if counts_rates => {
            format!("plant ×{times:.0}: counting rates …")
        }
        (Clock::Plant { times }, Clock::Flight) => format!("plant ×{times:.0} comes"),
        (Clock::Flight, Clock::Flight) => format!("plant {} ×{}", duration(time_s), flight.speed),
    };
    format!("flight {:.1} s ×{} · {plant}", flight.time_s, flight.speed)
}

fn duration(time_s: f64) -> String {
    if time_s < MINUTE_S {
        format!("{time_s:.0} s")
    } else if time_s < HOUR_S {
        format!("{:.0} min", time_s / MINUTE_S)
    } else {
        format!("{:.1} h", time_s / HOUR_S)
    }
}

fn balance(ledger: &Ledger) -> String {
    let imbalance = ledger.imbalance();
    if imbalance < 1e-15 {
        "exact".to_owned()
    } else {
        format!("to {imbalance:.0e}")
    }
}

/// Every account with its mass.
fn books(ledger: &Ledger, units: UnitSystem) -> String {
    let rows = [
        ("Came in", Account::Inlet),
        ("In the gas", Account::Airborne),
        ("On the plates", Account::Layers),
        ("In the hoppers", Account::Hoppers),
        ("Taken away", Account::TakenAway),
        ("Left with the gas", Account::Outlet),
    ];
    let lines = rows.map(|(name, account)| {
        format!(
            "{name}: {}",
            format(ledger.kg(account), Dimension::Mass, units)
        )
    });
    lines.join("\n")
}
