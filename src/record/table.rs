//! All that was measured and tightened on a job, one line a value, for the trend over many jobs.
use super::bounds::{Bounds, Side, plain};
use super::shape::{Record, Value};
use crate::model::quantity::{Exact, Number, Unit, as_float};

/// One value in the unit of its limits.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reading {
    pub step: u32,
    pub round: String,
    pub attempt: u32,
    pub at: String,
    pub what: String,
    /// With a decimal point.
    pub value: String,
    pub unit: String,
    pub low: String,
    pub high: String,
    /// `None` where there is no limit to hold it against.
    pub ok: Option<bool>,
}

/// Every value of a record that is a number, in its order.
pub fn readings(record: &Record) -> Vec<Reading> {
    let of_step = |step: &super::shape::StepRecord| {
        let (number, round) = (step.step, step.round.clone());
        let reading = move |value: &Value| of_value(number, round.clone(), value);
        step.values.iter().filter(|value| plain(&value.typed).is_some()).map(reading).collect::<Vec<_>>()
    };
    record.steps.iter().flat_map(of_step).collect()
}

fn of_value(step: u32, round: String, value: &Value) -> Reading {
    let limited = !value.low.is_empty() || !value.high.is_empty();
    let bounds = Bounds {
        unit: value.limits_in.clone(),
        low: value.low.clone(),
        high: value.high.clone(),
        shown: String::new(),
    };
    let side = bounds.side(&value.typed, &value.unit);
    let same = value.limits_in.is_empty() || value.limits_in == value.unit;
    let converted = (!same).then(|| convert(value)).flatten();
    let unit = if converted.is_some() { &value.limits_in } else { &value.unit };
    Reading {
        step,
        round,
        attempt: value.attempt,
        at: value.at.clone(),
        what: value.label.clone(),
        unit: unit.clone(),
        value: converted.or_else(|| plain(&value.typed)).unwrap_or_else(|| value.typed.clone()),
        low: value.low.clone(),
        high: value.high.clone(),
        ok: limited.then_some(side == Some(Side::Within)),
    }
}

/// In the unit of the limits, to seven figures: enough for a curve, and no limit is judged by it.
fn convert(value: &Value) -> Option<String> {
    let (from, to) = (Unit::find(&value.unit)?, Unit::find(&value.limits_in)?);
    let typed: Exact = Number::parse(&plain(&value.typed)?).ok()?.value();
    let base = as_float(typed) * as_float(from.factor) + as_float(from.offset);
    let amount = (base - as_float(to.offset)) / as_float(to.factor);
    let whole = amount.abs().log10().floor().max(-6.0) as i32 + 1;
    let places = usize::try_from(7 - whole).unwrap_or(0);
    let text = format!("{amount:.places$}");
    let short = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    from.comparable(to).then(|| short.to_owned())
}
