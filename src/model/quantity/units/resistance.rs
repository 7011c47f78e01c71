//! Electric resistance; base unit Ω.
use super::super::dimension::Dimension::Resistance;
use super::super::exact::ratio;
use super::super::unit::{Family::Neutral, Unit};
use super::roots::ONE;

pub static UNITS: &[&Unit] = &[&OHM, &KILOHM, &MEGOHM, &MILLIOHM];

pub static OHM: Unit = Unit::new("Ω", "ohm", Resistance, Neutral, ONE).spelled(&["ohms", "Ohm", "OHM"]);

pub static KILOHM: Unit =
    Unit::new("kΩ", "kohm", Resistance, Neutral, ratio(1000, 1)).spelled(&["kohms", "kilohm", "kilohms"]);

pub static MEGOHM: Unit = Unit::new("MΩ", "Mohm", Resistance, Neutral, ratio(1_000_000, 1))
    .spelled(&["Mohms", "megohm", "megohms"]);

pub static MILLIOHM: Unit =
    Unit::new("mΩ", "mohm", Resistance, Neutral, ratio(1, 1000)).spelled(&["mohms", "milliohm", "milliohms"]);
