//! Runs a count for the command line, with a progress bar where somebody waits and watches.

use ashlane_shared::{
    conditions::Conditions,
    count::{Count, CountResult},
    physics::PhysicsError,
    simulation::TIME_STEP_S,
    theory::mean_airborne_share,
};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use super::output::GoOn;

/// Parcel-steps from which on a count takes longer than people wait without a sign: about a second.
const LONG_STEPS: f64 = 5e7;
/// Ticks of the bar.
const TICKS: u64 = 1000;

/// Flies a prepared count to its end, on the threads of the current pool.
pub(super) fn run(mut count: Count, bar: &ProgressBar) -> CountResult {
    fly(&mut count, bar, &|| true);
    count.result()
}

/// As [`run`], as long as it is to go on; nothing where it was cancelled.
pub(super) fn run_while(
    mut count: Count,
    bar: &ProgressBar,
    go_on: GoOn<'_>,
) -> Option<CountResult> {
    fly(&mut count, bar, go_on).then(|| count.result())
}

/// Whether it came to its end.
fn fly(count: &mut Count, bar: &ProgressBar, go_on: GoOn<'_>) -> bool {
    let whole = count.run(|share| {
        show(bar, share);
        go_on()
    });
    bar.finish_and_clear();
    whole
}

/// Sets the bar to the share that is done.
pub(super) fn show(bar: &ProgressBar, share: f64) {
    bar.set_position((share * TICKS as f64) as u64);
}

/// A bar that is drawn only on a terminal and for a long count.
pub(super) fn bar(
    err_is_terminal: bool,
    conditions: &Conditions,
    parcels: usize,
) -> Result<ProgressBar, PhysicsError> {
    let wanted = err_is_terminal && is_long(conditions, parcels)?;
    let look = "counting [{bar:40}] {percent} %, {eta} left";
    Ok(drawn(wanted, TICKS, look))
}

/// A bar over so many lessons, that is drawn only on a terminal.
pub(super) fn bar_of_lessons(err_is_terminal: bool, lessons: usize) -> ProgressBar {
    let look = "lessons [{bar:40}] {pos} of {len}, {elapsed}";
    let bar = drawn(err_is_terminal, lessons as u64, look);
    bar.tick();
    bar
}

fn drawn(wanted: bool, length: u64, look: &str) -> ProgressBar {
    let target = if wanted {
        ProgressDrawTarget::stderr()
    } else {
        ProgressDrawTarget::hidden()
    };
    let bar = ProgressBar::with_draw_target(Some(length), target);
    // The template is a constant of ours; if it were wrong, the usual look would do.
    match ProgressStyle::with_template(look) {
        Ok(style) => bar.with_style(style.progress_chars("=> ")),
        Err(_) => bar,
    }
}

fn is_long(conditions: &Conditions, parcels: usize) -> Result<bool, PhysicsError> {
    let steps = conditions.treatment_time_s() / TIME_STEP_S * mean_airborne_share(conditions)?;
    Ok(steps * parcels as f64 > LONG_STEPS)
}

#[cfg(test)]
mod tests {
    use ashlane_shared::conditions::demonstration;

    use super::*;

    #[test]
    fn a_bar_is_for_long_counts_on_a_terminal() {
        let conditions = demonstration();
        let long = |parcels| is_long(&conditions, parcels).expect("possible conditions");
        assert!(!long(10_000) && long(10_000_000));
        let bar = bar(false, &conditions, 10_000_000).expect("possible conditions");
        assert!(bar.is_hidden(), "nobody watches");
    }
}
