//! Time; base unit s.
use super::super::dimension::Dimension::Time;
use super::super::exact::ratio;
use super::super::unit::{Family::Neutral, Unit};
use super::roots::ONE;

pub static UNITS: &[&Unit] = &[&MINUTE, &SECOND, &HOUR, &DAY, &MILLISECOND, &WEEK];

pub static MINUTE: Unit =
    Unit::new("min", "min", Time, Neutral, ratio(60, 1)).spelled(&["mins", "minute", "minutes", "MIN"]);

pub static SECOND: Unit =
    Unit::new("s", "s", Time, Neutral, ONE).spelled(&["sec", "secs", "second", "seconds"]);

pub static HOUR: Unit =
    Unit::new("h", "h", Time, Neutral, ratio(3600, 1)).spelled(&["hr", "hrs", "hour", "hours"]);

pub static DAY: Unit =
    Unit::new("day", "day", Time, Neutral, ratio(86_400, 1)).spelled(&["days", "d"]).plural("days");

pub static MILLISECOND: Unit =
    Unit::new("ms", "ms", Time, Neutral, ratio(1, 1000)).spelled(&["millisecond", "milliseconds"]);

pub static WEEK: Unit =
    Unit::new("week", "week", Time, Neutral, ratio(604_800, 1)).spelled(&["weeks"]).plural("weeks");
