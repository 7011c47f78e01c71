//! Rotational speed; base unit one turn a minute.
use super::super::dimension::Dimension::RotationalSpeed;
use super::super::exact::ratio;
use super::super::unit::{Family::Neutral, Unit};
use super::roots::ONE;

pub static UNITS: &[&Unit] = &[&REVOLUTION_PER_MINUTE, &REVOLUTION_PER_SECOND];

pub static REVOLUTION_PER_MINUTE: Unit = Unit::new("rpm", "rpm", RotationalSpeed, Neutral, ONE)
    .spelled(&["RPM", "r/min", "rev/min", "1/min", "revs/min"]);

pub static REVOLUTION_PER_SECOND: Unit =
    Unit::new("r/s", "r/s", RotationalSpeed, Neutral, ratio(60, 1)).spelled(&["rev/s", "1/s"]);
