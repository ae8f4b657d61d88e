//! One fault of the list: its switch with name and row, and while it is set how bad it is, since when, and what it shows.

use ashlane_lessons::faults::Fault;
use ashlane_shared::conditions::Conditions;
use egui::{ComboBox, DragValue, Response, RichText, Slider, Ui};

use super::{FaultSwitch, FaultsView, faint, strikes_one_field};
use crate::{state::UiState, theme::SMALL};

const HOUR_S: f64 = 3600.0;
/// Latest hour of the plant clock, as on the command line.
const LATEST_H: f64 = 8784.0;

/// The row; changes what is wanted. Returns whether a drag or an entry ended.
pub(super) fn row_ui(
    ui: &mut Ui,
    (fault, controls): (&Fault, &Conditions),
    faults: &FaultsView<'_>,
    wanted: &mut Vec<FaultSwitch>,
    state: &UiState,
) -> bool {
    let place = wanted.iter().position(|set| set.name == fault.name);
    let mut on = place.is_some();
    let text = RichText::new(format!("{} · {}", fault.row, fault.name)).strong();
    let switched = ui
        .checkbox(&mut on, text)
        .on_hover_text(fault.title)
        .changed();
    match place {
        Some(index) if !on => {
            wanted.remove(index);
            false
        }
        Some(index) => set_ui(ui, (fault, controls), &mut wanted[index]),
        None => {
            ui.label(faint(fault.title, state));
            if switched {
                wanted.push(FaultSwitch {
                    name: fault.name,
                    severity: 1.0,
                    from_s: faults.now_s,
                    field: faults.field,
                });
            }
            false
        }
    }
}

/// How bad, from when and where, and what it shows.
fn set_ui(ui: &mut Ui, (fault, controls): (&Fault, &Conditions), set: &mut FaultSwitch) -> bool {
    let done = severity_ui(ui, set) | place_ui(ui, (fault, controls), set);
    for text in [
        fault.title.to_owned(),
        format!("At 100 %: {}.", fault.at_full),
        format!("Signs: {}", fault.signs),
    ] {
        ui.label(RichText::new(text).size(SMALL));
    }
    done
}

fn severity_ui(ui: &mut Ui, set: &mut FaultSwitch) -> bool {
    let mut percent = 100.0 * set.severity;
    let slider = Slider::new(&mut percent, 0.0..=100.0)
        .suffix(" %")
        .fixed_decimals(0);
    let response = ui
        .horizontal(|ui| {
            let name = ui.label(RichText::new("severity").size(SMALL));
            ui.spacing_mut().slider_width = 110.0;
            ui.add(slider).labelled_by(name.id)
        })
        .inner;
    if response.changed() {
        set.severity = (percent / 100.0).clamp(0.0, 1.0);
    }
    is_over(&response)
}

fn place_ui(ui: &mut Ui, (fault, controls): (&Fault, &Conditions), set: &mut FaultSwitch) -> bool {
    ui.horizontal(|ui| {
        let mut hour = set.from_s / HOUR_S;
        let name = ui.label(RichText::new("from").size(SMALL));
        let hours = DragValue::new(&mut hour)
            .range(0.0..=LATEST_H)
            .speed(0.1)
            .max_decimals(2)
            .suffix(" h");
        let response = ui.add(hours).labelled_by(name.id);
        if response.changed() {
            set.from_s = HOUR_S * hour;
        }
        let mut done = is_over(&response);
        if strikes_one_field(fault, controls) {
            done |= field_ui(ui, (fault, controls), set);
        }
        done
    })
    .inner
}

/// Which field; whether another was chosen.
fn field_ui(ui: &mut Ui, (fault, controls): (&Fault, &Conditions), set: &mut FaultSwitch) -> bool {
    let name = ui.label(RichText::new("in field").size(SMALL));
    let before = set.field;
    let fields = controls.collector.fields;
    let number = |field: usize| controls.field_number(field).to_string();
    let shown = number(set.field.min(fields.saturating_sub(1)));
    let choice = ComboBox::from_id_salt((fault.name, "field"))
        .width(40.0)
        .selected_text(shown)
        .show_ui(ui, |ui| {
            for field in 0..fields {
                ui.selectable_value(&mut set.field, field, number(field));
            }
        });
    choice.response.labelled_by(name.id);
    set.field != before
}

/// Whether a drag or an entry ended.
fn is_over(response: &Response) -> bool {
    response.drag_stopped() || response.lost_focus()
}
