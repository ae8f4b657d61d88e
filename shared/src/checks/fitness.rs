//! What the formula of Deutsch and Anderson leaves out at these conditions.

use crate::{
    conditions::{Conditions, Profile},
    theory::Theory,
};

/// Change of the penetration from which on the unevenness of the field is named.
const UNEVEN: f64 = 0.005;

/// The active effects that the formula does not know, each with its size, for one line of text.
///
/// The spread of sizes is not among them: the formula is summed over sizes.
#[must_use]
pub fn left_out(conditions: &Conditions, theory: &Theory) -> Vec<String> {
    let percent = |share: f64| {
        format!("{:.3}", 100.0 * share)
            .trim_end_matches('0')
            .trim_end_matches('.')
            .to_owned()
    };
    let mut effects = Vec::new();
    match theory.peclet_number {
        None => effects.push("no mixing at all".to_owned()),
        Some(peclet) if peclet > 0.0 => effects.push(format!("imperfect mixing, Pe {peclet:.0}")),
        Some(_) => {}
    }
    if let Some(even) = theory.in_even_field.filter(|even| *even > 0.0) {
        let factor = theory.finite_mixing / even;
        if (factor - 1.0).abs() >= UNEVEN {
            effects.push(format!("uneven field ×{factor:.2}"));
        }
    }
    if conditions.collector.sneakage > 0.0 {
        effects.push(format!(
            "sneakage {} % a field",
            percent(conditions.collector.sneakage)
        ));
    }
    if conditions.rapping.reentrained > 0.0 {
        effects.push(format!(
            "rapping loss {} %",
            percent(conditions.rapping.reentrained)
        ));
    }
    if conditions.returned_share() > conditions.rapping.reentrained {
        let swept = conditions.returned_share() - conditions.rapping.reentrained;
        effects.push(format!("ash out of the hoppers {} %", percent(swept)));
    }
    if conditions.gas.velocity_spread > 0.0 {
        effects.push(format!(
            "uneven gas {} %",
            percent(conditions.gas.velocity_spread)
        ));
    }
    if conditions.teaching.profile == Profile::Parabolic {
        effects.push("parabolic profile".to_owned());
    }
    effects
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        conditions::{Mixing, demonstration},
        theory,
    };

    #[test]
    fn what_is_switched_off_is_not_listed() {
        let mut conditions = demonstration();
        conditions.teaching.migration_velocity_m_s = Some(0.09);
        conditions.teaching.mixing = Some(Mixing::Diffusivity(2e-3));
        let all = left_out(&conditions, &theory::solve(&conditions).expect("possible"));
        assert_eq!(all.len(), 4, "{all:?}");
        assert!(all.contains(&"rapping loss 12.4 %".to_owned()), "{all:?}");
        conditions.collector.sneakage = 0.0;
        conditions.rapping.reentrained = 0.0;
        conditions.gas.velocity_spread = 0.0;
        conditions.teaching.mixing = Some(Mixing::Full);
        let none = left_out(&conditions, &theory::solve(&conditions).expect("possible"));
        assert!(none.is_empty(), "{none:?}");
    }
}
