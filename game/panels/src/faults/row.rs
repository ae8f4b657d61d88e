//! One fault of the list: its switch with name and row, and while it is set how bad it is, since when, and what it shows.

use ashlane_lessons::faults::Fault;
use egui::{DragValue, RichText, Slider, Ui};

use super::{FaultSwitch, FaultsView, faint};
use crate::{state::UiState, theme::SMALL};

const HOUR_S: f64 = 3600.0;
/// Latest hour of the plant clock, as on the command line.
const LATEST_H: f64 = 8784.0;

/// The row; changes what is wanted. Returns whether a drag or an entry ended.
pub(super) fn row_ui(
    ui: &mut Ui,
    fault: &Fault,
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
        Some(index) => set_ui(ui, fault, &mut wanted[index]),
        None => {
            ui.label(faint(fault.title, state));
            if switched {
                wanted.push(FaultSwitch {
                    name: fault.name,
                    severity: 1.0,
                    from_s: faults.now_s,
                });
            }
            false
        }
    }
}

/// How bad and from when, and what it shows.
fn set_ui(ui: &mut Ui, fault: &Fault, set: &mut FaultSwitch) -> bool {
    let (mut percent, mut hour) = (100.0 * set.severity, set.from_s / HOUR_S);
    let (mut changed, mut done) = (false, false);
    ui.horizontal_wrapped(|ui| {
        let name = ui.label(RichText::new("severity").size(SMALL));
        ui.spacing_mut().slider_width = 110.0;
        let slider = Slider::new(&mut percent, 0.0..=100.0)
            .suffix(" %")
            .fixed_decimals(0);
        let slider = ui.add(slider).labelled_by(name.id);
        let name = ui.label(RichText::new("from").size(SMALL));
        let typed = DragValue::new(&mut hour)
            .range(0.0..=LATEST_H)
            .speed(0.1)
            .max_decimals(2)
            .suffix(" h");
        let typed = ui.add(typed).labelled_by(name.id);
        for response in [slider, typed] {
            changed |= response.changed();
            done |= response.drag_stopped() || response.lost_focus();
        }
    });
    if changed {
        set.severity = (percent / 100.0).clamp(0.0, 1.0);
        set.from_s = HOUR_S * hour;
    }
    for text in [
        fault.title.to_owned(),
        format!("At 100 %: {}.", fault.at_full),
        format!("Signs: {}", fault.signs),
    ] {
        ui.label(RichText::new(text).size(SMALL));
    }
    done
}
