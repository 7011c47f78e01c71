//! What holds for every quantity, not only for the published ones.
use cotter::model::quantity::{Dimension, Form, Number, Quantity, Unit};
use cotter::source::Span;
use proptest::prelude::*;

/// Two units of one dimension that compare.
fn two_units() -> impl Strategy<Value = (&'static Unit, &'static Unit)> {
    let of = |dimension: Dimension| {
        let units = dimension.units();
        (proptest::sample::select(units.to_vec()), proptest::sample::select(units.to_vec()))
    };
    proptest::sample::select(Dimension::ALL.to_vec())
        .prop_flat_map(of)
        .prop_filter("AC and DC do not convert", |(from, to)| from.comparable(to))
}

/// A number as an author may write it, at most `places` decimals.
fn written() -> impl Strategy<Value = Number> {
    prop_oneof![
        (-9999_i64..100_000, 0_usize..4).prop_map(|(digits, places)| decimal(digits, places)),
        (0_i64..20, 1_i64..64)
            .prop_map(|(whole, part)| Number::parse(&format!("{whole} {part}/64")).expect("fraction")),
    ]
}

fn decimal(digits: i64, places: usize) -> Number {
    let sign = if digits < 0 { "-" } else { "" };
    let padded = format!("{:0width$}", digits.unsigned_abs(), width = places + 1);
    let (whole, rest) = padded.split_at(padded.len() - places);
    let point = if places > 0 { "." } else { "" };
    Number::parse(&format!("{sign}{whole}{point}{rest}")).expect("digits")
}

fn form() -> impl Strategy<Value = Form> {
    let ordered = |(a, b): (Number, Number)| if a.value() <= b.value() { (a, b) } else { (b, a) };
    prop_oneof![
        (written(), written()).prop_map(ordered).prop_map(|(low, high)| Form::Between(low, high)),
        (written(), 0_i64..500, 0_i64..500, 0_usize..3).prop_map(|(nominal, plus, minus, places)| {
            Form::Tolerance { nominal, plus: decimal(plus, places), minus: decimal(minus, places) }
        }),
        (written(), 0_i64..500, 0_usize..3).prop_map(|(nominal, both, places)| Form::Tolerance {
            nominal,
            plus: decimal(both, places),
            minus: decimal(both, places),
        }),
        written().prop_map(Form::Max),
        written().prop_map(Form::Min),
        (written(), written()).prop_map(|(new, worn)| Form::NewWorn { new, worn }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

    /// A converted quantity allows nothing the author's does not, and still allows something.
    #[test]
    fn conversion_never_widens((from, to) in two_units(), form in form(), figures in proptest::option::of(1_u32..5)) {
        let quantity = Quantity::new(form, from, Span::default()).expect("small numbers");
        let lone = quantity.lower() == quantity.upper();
        prop_assume!(!quantity.is_empty_range() && !lone);
        let converted = match figures {
            Some(figures) => quantity.converted_to_figures(to, figures),
            None => quantity.converted(to),
        };
        let converted = converted.expect("small numbers convert");
        prop_assert!(quantity.covers(&converted), "{} became {}", quantity, converted);
        prop_assert!(!converted.is_empty_range(), "{} became {}", quantity, converted);
        prop_assert!(converted.lower() != converted.upper(), "{} became {}", quantity, converted);
    }

    /// What is printed beside an author's value agrees with it.
    #[test]
    fn a_converted_value_agrees((from, to) in two_units(), number in written()) {
        let quantity = Quantity::new(Form::Exact(number), from, Span::default()).expect("small number");
        let converted = quantity.converted(to).expect("small numbers convert");
        prop_assert_eq!(quantity.agrees_with(&converted), cotter::model::quantity::Agreement::Agrees, "{} became {}", quantity, converted);
    }

    /// A range in its own unit is left alone.
    #[test]
    fn a_unit_converts_to_itself((from, _) in two_units(), low in 1_i64..999, more in 1_i64..999) {
        let form = Form::Between(decimal(low, 1), decimal(low + more, 1));
        let quantity = Quantity::new(form, from, Span::default()).expect("small numbers");
        let converted = quantity.converted(from).expect("to itself");
        prop_assert_eq!(converted.form(), &form);
    }

    /// Any text is a number or an error; what is a number prints as one of the same value and shape.
    #[test]
    fn any_text_is_read_or_refused(text in "[-−0-9./, ]{0,24}|\\PC{0,40}") {
        if let Ok(number) = Number::parse(&text) {
            prop_assert_eq!(Number::parse(&number.to_string()), Ok(number));
        }
        let _ = (Unit::find(&text), Unit::suggest(&text));
        if let Some((_, length)) = Unit::starting(&text) {
            prop_assert!(text.is_char_boundary(length));
        }
    }

    /// The largest numbers give a value or an error, never a panic.
    #[test]
    fn large_numbers_do_not_overflow((from, to) in two_units(), a in "[0-9]{12}\\.[0-9]{9}", b in "[0-9]{1,4}/[1-9][0-9]{0,3}") {
        let (a, b) = (Number::parse(&a).expect("decimal"), Number::parse(&b).expect("fraction"));
        for form in [Form::Between(b, a), Form::Tolerance { nominal: a, plus: b, minus: b }, Form::Exact(a), Form::Max(b)] {
            if let Ok(quantity) = Quantity::new(form, from, Span::default()) {
                let _ = (quantity.converted(to), quantity.converted_to_figures(to, 4), quantity.print());
                let _ = quantity.agrees_with(&quantity);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100_000, failure_persistence: None, ..ProptestConfig::default() })]

    /// A range printed in another unit lies inside the author's, is never empty, and is still inside on the way back.
    #[test]
    fn a_converted_range_stays_inside(
        (from, to) in two_units(),
        low in -99_999_i64..100_000,
        more in 1_i64..100_000,
        places in 0_usize..4,
    ) {
        let form = Form::Between(decimal(low, places), decimal(low + more, places));
        let quantity = Quantity::new(form, from, Span::default()).expect("small numbers");
        let there = quantity.converted(to).expect("small numbers convert");
        prop_assert!(quantity.covers(&there) && !there.is_empty_range(), "{} became {}", quantity, there);
        prop_assert!(there.lower() != there.upper(), "{} became {}", quantity, there);
        let back = there.converted(from).expect("small numbers convert");
        prop_assert!(quantity.covers(&back) && !back.is_empty_range(), "{} came back as {}", quantity, back);
    }
}
