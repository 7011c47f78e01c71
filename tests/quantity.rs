//! Quantities against published values. `read`: seen in a copy of the source named; `from memory`: not yet confirmed.
use cotter::model::quantity::{Form, Number, Quantity, Unit};
use cotter::source::Span;

mod against_pint;
mod agreement;
mod factors;
mod laws;
mod limits;
mod numbers;
mod preferences;
mod printing;
mod rounding;
mod units;

/// A number that must be readable.
fn number(text: &str) -> Number {
    Number::parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// A unit that must be known.
fn unit(text: &str) -> &'static Unit {
    Unit::find(text).unwrap_or_else(|| panic!("no unit {text}"))
}

fn quantity(form: Form, in_unit: &str) -> Quantity {
    Quantity::new(form, unit(in_unit), Span::default()).unwrap_or_else(|error| panic!("{form:?}: {error}"))
}

fn value(text: &str, in_unit: &str) -> Quantity {
    quantity(Form::Exact(number(text)), in_unit)
}

fn range(low: &str, high: &str, in_unit: &str) -> Quantity {
    quantity(Form::Between(number(low), number(high)), in_unit)
}

fn tolerance(nominal: &str, plus: &str, minus: &str, in_unit: &str) -> Quantity {
    let form = Form::Tolerance { nominal: number(nominal), plus: number(plus), minus: number(minus) };
    quantity(form, in_unit)
}

fn at_most(text: &str, in_unit: &str) -> Quantity {
    quantity(Form::Max(number(text)), in_unit)
}

fn at_least(text: &str, in_unit: &str) -> Quantity {
    quantity(Form::Min(number(text)), in_unit)
}

fn new_worn(new: &str, worn: &str, in_unit: &str) -> Quantity {
    quantity(Form::NewWorn { new: number(new), worn: number(worn) }, in_unit)
}

/// Converted and printed.
fn converted(quantity: &Quantity, to: &str) -> String {
    quantity.converted(unit(to)).map_or_else(|error| error.to_string(), |converted| converted.print())
}

/// Converted to that many significant figures and printed.
fn to_figures(quantity: &Quantity, to: &str, figures: u32) -> String {
    let converted = quantity.converted_to_figures(unit(to), figures);
    converted.map_or_else(|error| error.to_string(), |converted| converted.print())
}
