//! Whatever is written reads back, and no text makes the reader panic.

use proptest::prelude::*;

use super::{
    Dimension, GasState, QuantityError, UnitSystem, display, from_display, parse, shortest_text,
};

const HOT: GasState = GasState {
    temperature_k: 423.15,
    pressure_pa: 101_325.0,
    moisture: 0.08,
};

fn any_dimension() -> impl Strategy<Value = Dimension> {
    prop::sample::select(Dimension::all().collect::<Vec<_>>())
}

proptest! {
    #[test]
    fn written_values_read_back(dimension in any_dimension(), mantissa in 1.0..10.0, exponent in -12..12, pick: prop::sample::Index) {
        let value_si = mantissa * 10f64.powi(exponent);
        let unit = pick.get(dimension.units());
        let text = format!("{} {}", shortest_text(value_si, unit, &HOT), unit.file_spelling());
        let back = parse(&text, dimension, &HOT).map_err(|error| TestCaseError::fail(format!("{text}: {error}")))?;
        // A shifted scale loses the digits that its offset covers.
        let scale = if dimension == Dimension::Temperature { value_si + 300.0 } else { value_si };
        prop_assert!((back.value_si - value_si).abs() <= 1e-14 * scale, "{text} gave {}", back.value_si);
    }

    #[test]
    fn shown_values_come_back(dimension in any_dimension(), value_si in 1e-6..1e6, us: bool) {
        let system = if us { UnitSystem::Us } else { UnitSystem::Si };
        let (value, _) = display(value_si, dimension, system);
        let back = from_display(value, dimension, system);
        prop_assert!((back - value_si).abs() <= 1e-14 * (value_si + 300.0));
    }

    #[test]
    fn no_text_makes_the_reader_panic(text in ".*", dimension in any_dimension()) {
        if let Ok(quantity) = parse(&text, dimension, &HOT) {
            prop_assert!(quantity.value_si.is_finite());
        }
    }

    #[test]
    fn nearly_quantities_do_not_panic(text in "[-+−]?[0-9]{0,4}[.,'_ e×x^]{0,2}[0-9]{0,4}[ \u{a0}]?[a-zµΩ°%³²/.()0-9]{0,8}", dimension in any_dimension()) {
        if let Err(error) = parse(&text, dimension, &HOT) {
            prop_assert!(!error.to_string().is_empty());
            prop_assert!(error != QuantityError::Empty || text.trim().is_empty());
        }
    }
}
