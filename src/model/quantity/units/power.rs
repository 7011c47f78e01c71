//! Power; base unit W.
use super::super::dimension::Dimension::Power;
use super::super::exact::{ratio, times};
use super::super::unit::{Family::Imperial, Family::Metric, Unit};
use super::roots::{FOOT, GRAVITY, ONE, POUND_FORCE};

pub static UNITS: &[&Unit] = &[&KILOWATT, &WATT, &HORSEPOWER, &METRIC_HORSEPOWER, &MEGAWATT];

pub static KILOWATT: Unit = Unit::new("kW", "kW", Power, Metric, ratio(1000, 1))
    .spelled(&["KW", "kilowatt", "kilowatts"])
    .beside(&HORSEPOWER);

pub static WATT: Unit = Unit::new("W", "W", Power, Metric, ONE).spelled(&["watt", "watts"]);

/// 550 ft·lbf/s.
pub static HORSEPOWER: Unit =
    Unit::new("hp", "hp", Power, Imperial, times(times(POUND_FORCE, FOOT), ratio(550, 1)))
        .spelled(&["HP", "horsepower", "bhp"])
        .beside(&KILOWATT);

/// 75 kgf·m/s.
pub static METRIC_HORSEPOWER: Unit = Unit::new("PS", "PS", Power, Metric, times(GRAVITY, ratio(75, 1)))
    .spelled(&["metric hp"])
    .beside(&KILOWATT);

pub static MEGAWATT: Unit =
    Unit::new("MW", "MW", Power, Metric, ratio(1_000_000, 1)).spelled(&["megawatt", "megawatts"]);
