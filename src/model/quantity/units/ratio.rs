//! Shares; base unit one.
use super::super::dimension::Dimension::Ratio;
use super::super::exact::ratio;
use super::super::unit::{Family::Neutral, Unit};

pub static UNITS: &[&Unit] = &[&PERCENT];

pub static PERCENT: Unit =
    Unit::new("%", "%", Ratio, Neutral, ratio(1, 100)).spelled(&["percent", "per cent", "pct"]);
