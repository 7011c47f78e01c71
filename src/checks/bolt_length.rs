//! How long a bolt is, where its text says it.
use super::judged::thread_of;
use crate::model::declarations::Part;
use crate::model::quantity::{Dimension, Number, Unit, as_float};

/// The length in mm behind the thread in a part's text: `M8 x 65`, `3/8-24 UNF x 1 1/4`. A number that is no longer than the
/// thread is thick is its pitch.
pub fn bolt_length(part: &Part) -> Option<f64> {
    let text = part.thing.text.as_str();
    let (before, length) = text.rsplit_once(" x ")?;
    let end = length.find(|c: char| !matches!(c, '0'..='9' | '.' | '/' | ' ')).unwrap_or(length.len());
    let value = as_float(Number::parse(length.get(..end)?).ok()?.value());
    let rest = length.get(end..)?.trim_start();
    let thread = thread_of(part);
    // Without a thread to ask: `3/8-24`, and not `Big-end`.
    let is_inch = thread.map_or_else(|| has_inch_thread(before), |thread| thread.unified);
    let unit = Unit::starting(rest).map(|(unit, _)| unit).filter(|unit| unit.dimension == Dimension::Length);
    let length = match unit {
        Some(unit) => value * as_float(unit.factor) * 1000.0,
        None if is_inch => value * 25.4,
        None => value,
    };
    thread.is_none_or(|thread| length > thread.diameter).then_some(length)
}

fn has_inch_thread(text: &str) -> bool {
    text.split_whitespace().any(|word| {
        word.split_once('-').is_some_and(|(size, pitch)| {
            let is_digit = |c: char| c.is_ascii_digit();
            size.ends_with(is_digit) && pitch.starts_with(is_digit)
        })
    })
}
