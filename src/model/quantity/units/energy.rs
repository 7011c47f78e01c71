//! Energy; base unit J. `ft-lb` is a torque here and never energy.
use super::super::dimension::Dimension::Energy;
use super::super::exact::ratio;
use super::super::unit::{Family::Metric, Unit};
use super::roots::ONE;

pub static UNITS: &[&Unit] = &[&JOULE, &KILOJOULE, &KILOWATT_HOUR, &WATT_HOUR];

pub static JOULE: Unit = Unit::new("J", "J", Energy, Metric, ONE).spelled(&["joule", "joules"]);

pub static KILOJOULE: Unit =
    Unit::new("kJ", "kJ", Energy, Metric, ratio(1000, 1)).spelled(&["kilojoule", "kilojoules"]);

pub static KILOWATT_HOUR: Unit =
    Unit::new("kW·h", "kW.h", Energy, Metric, ratio(3_600_000, 1)).spelled(&["kWh"]);

pub static WATT_HOUR: Unit = Unit::new("W·h", "W.h", Energy, Metric, ratio(3600, 1)).spelled(&["Wh"]);
