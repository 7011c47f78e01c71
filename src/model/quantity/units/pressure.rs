//! Pressure; base unit Pa.
use super::super::dimension::Dimension::Pressure;
use super::super::exact::{over, ratio, times};
use super::super::unit::{Family::Imperial, Family::Metric, Unit};
use super::roots::{GRAVITY, INCH, ONE, POUND_FORCE};

pub static UNITS: &[&Unit] = &[
    &BAR,
    &POUND_PER_SQUARE_INCH,
    &KILOPASCAL,
    &MEGAPASCAL,
    &PASCAL,
    &MILLIBAR,
    &KILOGRAM_FORCE_PER_SQUARE_CENTIMETRE,
    &INCH_OF_MERCURY,
    &MILLIMETRE_OF_MERCURY,
    &THOUSAND_POUNDS_PER_SQUARE_INCH,
    &ATMOSPHERE,
];

/// Pa in 1 mmHg by convention: 13 595.1 kg/m³ × 9.806 65 m/s² × 1 mm.
const MERCURY: crate::model::quantity::Exact = times(ratio(135_951, 10_000), GRAVITY);

pub static BAR: Unit = Unit::new("bar", "bar", Pressure, Metric, ratio(100_000, 1))
    .spelled(&["bars", "BAR"])
    .beside(&POUND_PER_SQUARE_INCH);

pub static POUND_PER_SQUARE_INCH: Unit =
    Unit::new("psi", "psi", Pressure, Imperial, over(POUND_FORCE, times(INCH, INCH)))
        .spelled(&["PSI", "lbf/in2", "lb/in2"])
        .beside(&BAR);

pub static KILOPASCAL: Unit = Unit::new("kPa", "kPa", Pressure, Metric, ratio(1000, 1))
    .spelled(&["KPa", "kpa"])
    .beside(&POUND_PER_SQUARE_INCH);

pub static MEGAPASCAL: Unit = Unit::new("MPa", "MPa", Pressure, Metric, ratio(1_000_000, 1))
    .spelled(&["N/mm2"])
    .beside(&POUND_PER_SQUARE_INCH);

pub static PASCAL: Unit = Unit::new("Pa", "Pa", Pressure, Metric, ONE).spelled(&["pascal", "pascals"]);

pub static MILLIBAR: Unit = Unit::new("mbar", "mbar", Pressure, Metric, ratio(100, 1))
    .spelled(&["hPa", "millibar"])
    .beside(&INCH_OF_MERCURY);

pub static KILOGRAM_FORCE_PER_SQUARE_CENTIMETRE: Unit =
    Unit::new("kgf/cm²", "kgf/cm2", Pressure, Metric, times(GRAVITY, ratio(10_000, 1)))
        .spelled(&["kg/cm2"])
        .beside(&KILOPASCAL);

pub static INCH_OF_MERCURY: Unit =
    Unit::new("inHg", "inHg", Pressure, Imperial, times(MERCURY, ratio(254, 10)))
        .spelled(&["in.Hg", "in Hg", "\"Hg"])
        .beside(&KILOPASCAL);

pub static MILLIMETRE_OF_MERCURY: Unit = Unit::new("mmHg", "mmHg", Pressure, Metric, MERCURY)
    .spelled(&["mm.Hg", "mm Hg", "Torr", "torr"])
    .beside(&KILOPASCAL);

pub static THOUSAND_POUNDS_PER_SQUARE_INCH: Unit =
    Unit::new("ksi", "ksi", Pressure, Imperial, times(over(POUND_FORCE, times(INCH, INCH)), ratio(1000, 1)))
        .beside(&MEGAPASCAL);

pub static ATMOSPHERE: Unit =
    Unit::new("atm", "atm", Pressure, Metric, ratio(101_325, 1)).beside(&KILOPASCAL);
