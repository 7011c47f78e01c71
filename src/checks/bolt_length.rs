//! How long a bolt is, where its text says it.
use crate::model::declarations::Part;
use crate::model::quantity::{Dimension, Number, Unit, as_float};

/// The length in mm behind the thread in a part's text: `M8 x 65`, `3/8-24 UNF x 1 1/4`.
pub fn bolt_length(part: &Part) -> Option<f64> {
    let text = part.thing.text.as_str();
    let (thread, length) = text.rsplit_once(" x ")?;
    let end = length.find(|c: char| !matches!(c, '0'..='9' | '.' | '/' | ' ')).unwrap_or(length.len());
    let value = as_float(Number::parse(length.get(..end)?).ok()?.value());
    let (rest, is_inch) = (length.get(end..)?.trim_start(), thread.contains('-'));
    let unit = Unit::starting(rest).map(|(unit, _)| unit).filter(|unit| unit.dimension == Dimension::Length);
    Some(match unit {
        Some(unit) => value * as_float(unit.factor) * 1000.0,
        None if is_inch => value * 25.4,
        None => value,
    })
}
